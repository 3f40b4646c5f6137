//! How much of the Sun a point of a quadrant sees: the wall, the quadrant's own arc, the stone
//! itself and the horizon each hide a part of the disc.
//!
//! Seen from one point, straight edges are straight on the plane that touches the sky at the Sun's
//! centre, so the visible part is a disc less a few convex shapes, and its area is exact but for
//! the plane's own stretch over a quarter of a degree (2e-5) and the arc's rim, which is taken in
//! chords of at most a tenth of a degree (4e-7 R).

mod flat;
mod illuminance;
mod limb;

pub use illuminance::{Illuminance, air_mass, clear_sun, contrast, direct_normal_klx};
pub use limb::LimbDarkening;

use std::f64::consts::{FRAC_PI_2, PI};

use glam::{DVec2, DVec3};

use crate::core::dial::DialAngles;
use crate::core::instrument::{AxialEnd, Instrument, Side};
use crate::core::shadow::{surface_point, wall_profile, wrapped};
use flat::Convex;

/// Longest chord in which the arc's rim is taken, radians.
const CHORD_RAD: f64 = 0.1 * PI / 180.0;
/// Least distance towards the Sun, in radii of the quadrants, at which a part of a face is
/// projected: what is nearer is the stone at the point itself.
const NEAREST_R: f64 = 5e-5;

/// The Sun's disc as it stands over an instrument.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SunDisc {
    /// Its centre, in the axes of the dial.
    pub centre: DialAngles,
    /// Its angular radius, radians.
    pub semidiameter_rad: f64,
    /// How its light is spread over it.
    pub limb: LimbDarkening,
    /// Whether the horizon hides what is below it.
    pub horizon: bool,
}

/// Share of the Sun's light that reaches a point of a quadrant's surface, 0 dark to 1 full; the
/// slant of the surface is not in it.
#[must_use]
pub fn lit_fraction(
    instrument: &Instrument,
    sun: &SunDisc,
    side: Side,
    hour_angle_rad: f64,
    axial_m: f64,
) -> f64 {
    let view = View::from_surface(instrument, sun, side, hour_angle_rad, axial_m);
    let open = view.open();
    if open.is_empty() {
        return 0.0;
    }
    let wall = open.within(&view.wall());
    let arc: Vec<Convex> = view.own_arc().into_iter().map(|piece| open.within(&piece)).collect();
    let scale = sun.semidiameter_rad.tan();
    let area_within = |radius: f64| {
        let area = |shape: &Convex| shape.area_in_disc(radius * scale) / (scale * scale);
        // What both the wall and the arc hide must be taken off once only.
        let hidden_by_arc: f64 =
            arc.iter().map(|piece| area(piece) - area(&piece.within(&wall))).sum();
        area(&open) - area(&wall) - hidden_by_arc
    };
    sun.limb.share(area_within).clamp(0.0, 1.0)
}

/// What a point of the stone sees round the Sun.
struct View<'a> {
    instrument: &'a Instrument,
    sun: &'a SunDisc,
    side: Side,
    hour_angle_rad: f64,
    axial_m: f64,
    point: DVec3,
    /// Towards the Sun's centre, and two directions square to it.
    axes: [DVec3; 3],
}

impl<'a> View<'a> {
    fn from_surface(
        instrument: &'a Instrument,
        sun: &'a SunDisc,
        side: Side,
        hour_angle_rad: f64,
        axial_m: f64,
    ) -> Self {
        let towards = instrument.frame().towards(sun.centre);
        let across = towards.any_orthonormal_vector();
        let axes = [towards, across, towards.cross(across)];
        let point = surface_point(instrument, side, hour_angle_rad, axial_m, 0.0);
        Self { instrument, sun, side, hour_angle_rad, axial_m, point, axes }
    }

    /// A square round the disc, less what is below the horizon and behind the stone's own face.
    fn open(&self) -> Convex {
        let mut open = Convex::square(2.0 * self.sun.semidiameter_rad.tan());
        if self.sun.horizon {
            open = self.half_space(&open, DVec3::Z);
        }
        let inwards =
            surface_point(self.instrument, self.side, self.skyline_rad(), self.axial_m, -1.0)
                - surface_point(self.instrument, self.side, self.skyline_rad(), self.axial_m, 0.0);
        self.half_space(&open, inwards)
    }

    /// The way along the arc, away from the foot (+1) or towards it (−1), in which a ray that
    /// only grazes the stone leaves.
    fn grazing_way(&self) -> f64 {
        let from_normal = wrapped(self.sun.centre.hour_angle_rad - self.hour_angle_rad);
        -self.side.sign() * from_normal.signum()
    }

    /// Where the first chord of the arc ends, from the foot, if there is arc enough.
    fn first_chord_end(&self) -> Option<f64> {
        let end = self.hour_angle_rad.abs() + self.grazing_way() * CHORD_RAD;
        (0.0..=FRAC_PI_2).contains(&end).then_some(end)
    }

    /// Angle about the style at which the stone's face is square to what hides the sky close by:
    /// the point's own tangent plane, or the chord of the hollow arc that rises from the point.
    fn skyline_rad(&self) -> f64 {
        let chord = self.side.sign() * self.grazing_way() * CHORD_RAD / 2.0;
        self.hour_angle_rad + if self.first_chord_end().is_some() { chord } else { 0.0 }
    }

    /// The part of a shape whose directions lie on the side of a normal.
    fn half_space(&self, shape: &Convex, normal: DVec3) -> Convex {
        let [towards, across, up] = self.axes;
        shape.cut(DVec2::new(normal.dot(across), normal.dot(up)), -normal.dot(towards))
    }

    /// The wall's outline.
    fn wall(&self) -> Convex {
        let half = self.instrument.frame().e * (self.instrument.wall_thickness_m() / 2.0);
        let profile = wall_profile(self.instrument);
        let side = |sign: f64| profile.iter().map(|&c| c + half * sign).collect::<Vec<_>>();
        let (west, east) = (side(-1.0), side(1.0));
        let mut seen = self.project(&west);
        seen.extend(self.project(&east));
        for (index, _) in profile.iter().enumerate() {
            let next = (index + 1) % profile.len();
            seen.extend(self.project(&[west[index], west[next], east[next], east[index]]));
        }
        Convex::hull(seen)
    }

    /// The pieces of the quadrant's own arc behind which the Sun may stand.
    fn own_arc(&self) -> Vec<Convex> {
        // A chord that leaves the circle at reading h towards H meets it again at 2H − h + 180°.
        let sun_h = self.sun.centre.hour_angle_rad;
        let again = wrapped(2.0 * sun_h - self.hour_angle_rad + PI) * self.side.sign();
        let spread = 2.0 * self.sun.semidiameter_rad / self.sun.centre.declination_rad.cos()
            + 2.0 * CHORD_RAD;
        let (mut from, mut to) = ((again - spread).max(0.0), (again + spread).min(FRAC_PI_2));
        match self.first_chord_end() {
            Some(end) if self.grazing_way() > 0.0 => from = from.max(end),
            Some(end) => to = to.min(end),
            None => {}
        }
        if from >= to {
            return Vec::new();
        }
        let pieces = ((to - from) / CHORD_RAD).ceil();
        let step = (to - from) / pieces;
        (0..pieces as u32)
            .map(|piece| self.arc_piece(from + step * f64::from(piece), step))
            .collect()
    }

    /// One chord of the arc, over its whole breadth; angles from the foot.
    fn arc_piece(&self, from_rad: f64, step_rad: f64) -> Convex {
        let [north, south] = AxialEnd::BOTH.map(|end| self.instrument.quadrant_edge_m(end));
        let at = |angle: f64, axial_m: f64| {
            surface_point(self.instrument, self.side, self.side.sign() * angle, axial_m, 0.0)
        };
        let to_rad = from_rad + step_rad;
        Convex::hull(self.project(&[
            at(from_rad, south),
            at(from_rad, north),
            at(to_rad, north),
            at(to_rad, south),
        ]))
    }

    /// Projects a flat face, cut off where it is no longer in front.
    fn project(&self, face: &[DVec3]) -> Vec<DVec2> {
        let [towards, across, up] = self.axes;
        let nearest_m = NEAREST_R * self.instrument.radius_m();
        let depth = |corner: DVec3| corner.dot(towards) - nearest_m;
        let flat =
            |corner: DVec3| DVec2::new(corner.dot(across), corner.dot(up)) / corner.dot(towards);
        let corners: Vec<DVec3> = face.iter().map(|corner| *corner - self.point).collect();
        let mut seen = Vec::with_capacity(corners.len() + 1);
        for (index, &to) in corners.iter().enumerate() {
            let from = corners[(index + corners.len() - 1) % corners.len()];
            let (before, after) = (depth(from), depth(to));
            if (before < 0.0) != (after < 0.0) {
                seen.push(flat(from.lerp(to, before / (before - after))));
            }
            if after >= 0.0 {
                seen.push(flat(to));
            }
        }
        seen
    }
}
