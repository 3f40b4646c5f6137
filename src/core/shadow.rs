//! Where the shadow falls: the style's edge on a quadrant, a point of the style, any point of
//! the stone, and the wall on the ground. The Sun is a point here, at its centre.
//!
//! Exact for the shapes of [`Instrument`]: no approximation beyond double precision.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use glam::{DVec2, DVec3};

use crate::core::dial::DialAngles;
use crate::core::instrument::{AxialEnd, EndFaces, Instrument, Side, WALL_DEPTH_R};
use crate::core::order::order_short;

/// The edge of the wall's shadow on a quadrant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShadowEdge {
    /// The quadrant it lies on, and the style edge that throws it.
    pub side: Side,
    /// Angle from the foot about the style edge, signed as an hour angle, radians.
    pub hour_angle_rad: f64,
    /// South and north end of the edge on the quadrant, axial metres.
    pub axial_m: (f64, f64),
}

/// Why the style throws no edge on a quadrant although the Sun is up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoEdge {
    /// The Sun is more than six hours from the meridian: beyond the quadrants' upper ends.
    BeyondEnd,
    /// The style ends before the ray that would reach the quadrant; by how much, metres.
    StyleTooShort {
        /// The end that would have to be longer.
        end: AxialEnd,
        /// Missing length, metres.
        missing_m: f64,
    },
}

/// Finds the shadow's edge for the Sun at these angles of the dial.
///
/// # Errors
/// The reason why there is no edge on either quadrant.
pub fn shadow_edge(instrument: &Instrument, sun: DialAngles) -> Result<ShadowEdge, NoEdge> {
    if sun.hour_angle_rad.abs() > FRAC_PI_2 {
        return Err(NoEdge::BeyondEnd);
    }
    let side = Side::at_hour_angle(sun.hour_angle_rad);
    let axial_m = edge_extent_m(instrument, side, sun.declination_rad)?;
    Ok(ShadowEdge { side, hour_angle_rad: sun.hour_angle_rad, axial_m })
}

/// South and north end of the part of a quadrant's breadth that the style's edge shadows.
fn edge_extent_m(
    instrument: &Instrument,
    side: Side,
    declination_rad: f64,
) -> Result<(f64, f64), NoEdge> {
    let shift = axial_shift_m(instrument, side, declination_rad);
    let quadrant = AxialEnd::BOTH.map(|end| instrument.quadrant_edge_m(end));
    let style = AxialEnd::BOTH.map(|end| instrument.style_end_m(end) + shift);
    let (north, south) = (quadrant[0].min(style[0]), quadrant[1].max(style[1]));
    if south < north {
        return Ok((south, north));
    }
    let end = if style[0] < quadrant[1] { AxialEnd::North } else { AxialEnd::South };
    Err(NoEdge::StyleTooShort { end, missing_m: south - north })
}

/// How far a point of the style's shadow lies north of the point itself, axial metres: `−R tan δ`.
#[must_use]
pub fn axial_shift_m(instrument: &Instrument, side: Side, declination_rad: f64) -> f64 {
    -instrument.built_radius_m(side) * declination_rad.tan()
}

/// Axial coordinate at which the point `t` of a style edge throws its shadow, metres.
#[must_use]
pub fn axial_shadow_m(instrument: &Instrument, side: Side, t_m: f64, declination_rad: f64) -> f64 {
    t_m + axial_shift_m(instrument, side, declination_rad)
}

/// A point of a style edge, in the site frame (origin: mid-wall, at the quadrants' middle).
#[must_use]
pub fn style_point(instrument: &Instrument, side: Side, t_m: f64) -> DVec3 {
    instrument.frame().point(instrument.style_x_m(side), 0.0, t_m)
}

/// A point of a quadrant's reading surface, in the site frame.
///
/// `hour_angle_rad` is the angle from the foot, signed as an hour angle; `lift_m` moves the point
/// off the stone, away from the style when positive.
#[must_use]
pub fn surface_point(
    instrument: &Instrument,
    side: Side,
    hour_angle_rad: f64,
    axial_m: f64,
    lift_m: f64,
) -> DVec3 {
    let radius = instrument.built_radius_m(side) + lift_m;
    let (sin, cos) = hour_angle_rad.sin_cos();
    let x = instrument.style_x_m(side) + radius * sin;
    instrument.frame().point(x, -radius * cos, axial_m)
}

/// What keeps the Sun's light from a point of a quadrant's surface.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shade {
    /// The surface is turned from the Sun.
    Turned,
    /// The quadrant's own arc stands in the way.
    OwnArc,
    /// The wall stands in the way.
    Wall,
}

/// What hides the Sun's centre from a point of a quadrant's surface; `None` when it is seen. The
/// horizon is the caller's affair.
#[must_use]
pub fn shade_at(
    instrument: &Instrument,
    sun: DialAngles,
    side: Side,
    hour_angle_rad: f64,
    axial_m: f64,
) -> Option<Shade> {
    let from_normal = wrapped(sun.hour_angle_rad - hour_angle_rad);
    if from_normal.abs() >= FRAC_PI_2 {
        Some(Shade::Turned)
    } else if own_arc_hides(instrument, sun, side, hour_angle_rad, axial_m) {
        Some(Shade::OwnArc)
    } else {
        wall_hides(instrument, sun, side, hour_angle_rad, axial_m).then_some(Shade::Wall)
    }
}

/// Whether a point of a quadrant's surface sees the Sun's centre past the wall and past the
/// quadrant's own arc. The horizon is the caller's affair.
#[must_use]
pub fn sees_sun(
    instrument: &Instrument,
    sun: DialAngles,
    side: Side,
    hour_angle_rad: f64,
    axial_m: f64,
) -> bool {
    shade_at(instrument, sun, side, hour_angle_rad, axial_m).is_none()
}

/// Whether the ray to the Sun meets the quadrant's own arc again.
fn own_arc_hides(
    instrument: &Instrument,
    sun: DialAngles,
    side: Side,
    hour_angle_rad: f64,
    axial_m: f64,
) -> bool {
    // A chord that leaves the circle at reading h towards H meets it again at 2H − h + 180°.
    let again = wrapped(2.0 * sun.hour_angle_rad - hour_angle_rad + PI);
    if !(0.0..=FRAC_PI_2).contains(&(again * side.sign())) {
        return false;
    }
    let chord = 2.0 * instrument.built_radius_m(side) * (sun.hour_angle_rad - hour_angle_rad).cos();
    let met_m = axial_m + chord * sun.declination_rad.tan();
    met_m.abs() <= instrument.breadth_m() / 2.0
}

/// Whether the ray to the Sun passes through the wall: a convex body cut out by half-spaces.
fn wall_hides(
    instrument: &Instrument,
    sun: DialAngles,
    side: Side,
    hour_angle_rad: f64,
    axial_m: f64,
) -> bool {
    let frame = instrument.frame();
    let from = frame.components(surface_point(instrument, side, hour_angle_rad, axial_m, 0.0));
    let towards = frame.components(frame.towards(sun));
    let half_wall = instrument.wall_thickness_m() / 2.0;
    let (mut enters, mut leaves) = (0.0_f64, f64::INFINITY);
    // Each half-space is `normal · point ≤ limit`, in dial components (E, M, P).
    let mut clip = |normal: DVec3, limit: f64| {
        let rate = normal.dot(towards);
        let room = limit - normal.dot(from);
        if rate > 0.0 {
            leaves = leaves.min(room / rate);
        } else if rate < 0.0 {
            enters = enters.max(room / rate);
        } else if room < 0.0 {
            leaves = f64::NEG_INFINITY;
        }
    };
    clip(DVec3::X, half_wall);
    clip(DVec3::NEG_X, half_wall);
    clip(DVec3::Y, 0.0);
    if instrument.end_faces() == EndFaces::Square {
        clip(DVec3::NEG_Y, WALL_DEPTH_R * instrument.radius_m());
    }
    for end in AxialEnd::BOTH {
        let outward = end_normal(instrument, end);
        let limit = outward.z * instrument.style_end_m(end);
        clip(outward, limit);
    }
    // A ray that only grazes the style's edge is not stopped.
    leaves - enters > 1e-12 * instrument.radius_m()
}

/// Outward normal of the wall's end face, in dial components (E, M, P), not normalised.
fn end_normal(instrument: &Instrument, end: AxialEnd) -> DVec3 {
    match instrument.end_faces() {
        EndFaces::Square => DVec3::Z * end.sign(),
        EndFaces::Upright => {
            let frame = instrument.frame();
            // Horizontal, in the plane of the wall, pointing away from the quadrants.
            let level = DVec3::Z.cross(frame.e);
            let outward = if level.dot(frame.p) * end.sign() < 0.0 { -level } else { level };
            frame.components(outward)
        }
    }
}

/// The corners of the wall's side, in order round it, from the style's south and north end; site
/// frame, on mid-wall.
#[must_use]
pub fn wall_profile(instrument: &Instrument) -> Vec<DVec3> {
    let frame = instrument.frame();
    let [north, south] = AxialEnd::BOTH.map(|end| frame.p * instrument.style_end_m(end));
    let ground = instrument.ground_z_m();
    match instrument.end_faces() {
        EndFaces::Upright => {
            let drop = |from: DVec3| DVec3::new(from.x, from.y, ground);
            vec![south, north, drop(north), drop(south)]
        }
        EndFaces::Square => {
            let deep = frame.m * (WALL_DEPTH_R * instrument.radius_m());
            above(&[south, north, north - deep, south - deep], ground)
        }
    }
}

/// The part of a polygon above a level.
fn above(polygon: &[DVec3], level_z_m: f64) -> Vec<DVec3> {
    let mut kept = Vec::with_capacity(polygon.len() + 1);
    let before = polygon.iter().cycle().skip(polygon.len().saturating_sub(1));
    for (&from, &to) in before.zip(polygon) {
        if (from.z < level_z_m) != (to.z < level_z_m) {
            kept.push(from.lerp(to, (level_z_m - from.z) / (to.z - from.z)));
        }
        if to.z >= level_z_m {
            kept.push(to);
        }
    }
    kept
}

/// Outline of the wall's shadow on the paving, counter-clockwise seen from above, site-frame
/// metres; `None` while the Sun is down.
///
/// The wall is convex, so its shadow is the convex hull of its corners' shadows.
#[must_use]
pub fn ground_shadow(instrument: &Instrument, to_sun: DVec3) -> Option<Vec<DVec2>> {
    let half = instrument.frame().e * (instrument.wall_thickness_m() / 2.0);
    let corners =
        wall_profile(instrument).into_iter().flat_map(|corner| [corner - half, corner + half]);
    let ground = instrument.ground_z_m();
    let thrown: Option<Vec<DVec2>> =
        corners.map(|corner| shadow_on_level(corner, to_sun, ground)).collect();
    thrown.map(convex_hull)
}

/// Where the shadow of a point falls on a level plane; `None` while the Sun is down.
#[must_use]
pub fn shadow_on_level(point: DVec3, to_sun: DVec3, level_z_m: f64) -> Option<DVec2> {
    (to_sun.z > 0.0).then(|| {
        let along = (point.z - level_z_m) / to_sun.z;
        (point - to_sun * along).truncate()
    })
}

/// Convex hull, counter-clockwise (Andrew's monotone chain, 1979).
#[must_use]
pub fn convex_hull(mut points: Vec<DVec2>) -> Vec<DVec2> {
    order_short(&mut points, |a, b| (a.x, a.y) < (b.x, b.y));
    points.dedup();
    if points.len() < 3 {
        return points;
    }
    let mut hull = half_hull(points.iter().copied());
    hull.extend(half_hull(points.iter().rev().copied()));
    hull
}

/// One half of the hull, without its last point (which begins the other half).
fn half_hull(points: impl Iterator<Item = DVec2>) -> Vec<DVec2> {
    let mut chain: Vec<DVec2> = Vec::new();
    for point in points {
        while let [.., before, last] = chain[..] {
            if (last - before).perp_dot(point - last) > 0.0 {
                break;
            }
            chain.pop();
        }
        chain.push(point);
    }
    chain.pop();
    chain
}

/// An angle brought into [−π, π).
#[must_use]
pub fn wrapped(angle_rad: f64) -> f64 {
    (angle_rad + PI).rem_euclid(TAU) - PI
}
