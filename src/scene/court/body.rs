//! The masonry as convex six-sided bodies: what throws shadows, and what hides things.

use glam::{DVec2, DVec3};

use super::plan::{Arm, Plan};
use crate::core::instrument::Side;

/// Into how many bodies a quadrant's stone is cut, and its support.
const SLAB_PIECES: u32 = 10;
const SUPPORT_PIECES: u32 = 7;

/// A convex body between two quadrilaterals.
#[derive(Clone, Debug)]
pub(super) struct Body {
    /// Four corners of one end, then the four of the other.
    pub(super) corners: [DVec3; 8],
    /// Outward normal and limit of each side: inside, `normal · point ≤ limit`.
    planes: [(DVec3, f64); 6],
    /// Middle and squared radius of a ball about it.
    ball: (DVec3, f64),
}

impl Body {
    pub(super) fn between(one: [DVec3; 4], other: [DVec3; 4]) -> Self {
        let [a, b, c, d] = one;
        let [e, f, g, h] = other;
        let corners = [a, b, c, d, e, f, g, h];
        let middle = corners.iter().sum::<DVec3>() / 8.0;
        let sides =
            [[a, b, c, d], [e, f, g, h], [a, b, f, e], [b, c, g, f], [c, d, h, g], [d, a, e, h]];
        let planes = sides.map(|[p, q, r, s]| {
            let normal = (r - p).cross(s - q).normalize_or_zero();
            let on = (p + q + r + s) / 4.0;
            let normal = if (on - middle).dot(normal) < 0.0 { -normal } else { normal };
            (normal, normal.dot(on))
        });
        let radius_squared = corners.map(|corner| corner.distance_squared(middle));
        let ball = (middle, radius_squared.into_iter().fold(0.0, f64::max));
        Self { corners, planes, ball }
    }

    /// The same body with every side set in by a length.
    #[cfg(test)]
    pub(super) fn shrunk(&self, by: f64) -> Self {
        Self { planes: self.planes.map(|(normal, limit)| (normal, limit - by)), ..self.clone() }
    }

    /// The stretch of a ray inside the body, as multiples of its direction, if there is one.
    pub(super) fn crossed(&self, from: DVec3, towards: DVec3) -> Option<(f64, f64)> {
        let (middle, radius_squared) = self.ball;
        let off = (middle - from).cross(towards).length_squared();
        if off > radius_squared * towards.length_squared() {
            return None;
        }
        let (mut enters, mut leaves) = (f64::NEG_INFINITY, f64::INFINITY);
        for (normal, limit) in self.planes {
            let (rate, room) = (normal.dot(towards), limit - normal.dot(from));
            if rate > 0.0 {
                leaves = leaves.min(room / rate);
            } else if rate < 0.0 {
                enters = enters.max(room / rate);
            } else if room < 0.0 {
                return None;
            }
        }
        (leaves > enters).then_some((enters, leaves))
    }
}

/// Every body of the instrument that stands on the platform, the wall first.
pub(super) fn bodies(plan: &Plan) -> Vec<Body> {
    let mut bodies = Vec::with_capacity(3 + 2 * (SLAB_PIECES + 2 * SUPPORT_PIECES) as usize);
    bodies.extend(wall(plan));
    for side in Side::BOTH {
        let arm = Arm::new(plan, side);
        bodies.extend((0..SLAB_PIECES).map(|piece| slab_piece(&arm, piece)));
        bodies.extend((0..SUPPORT_PIECES).map(|piece| support_piece(&arm, piece)));
        if plan.steep {
            bodies.extend((0..SUPPORT_PIECES).map(|piece| low_support_piece(&arm, piece)));
        }
    }
    bodies
}

/// The wall, as one body, or two if its side has more than four corners.
fn wall(plan: &Plan) -> impl Iterator<Item = Body> {
    let ring = &plan.wall;
    let at = move |index: usize| ring.get(index).or(ring.last()).copied().unwrap_or_default();
    (1..ring.len().max(3) - 1).step_by(2).map(move |index| {
        let quad = [at(0), at(index), at(index + 1), at(index + 2)];
        let side = |x: f64| quad.map(|corner| DVec3::new(x, corner.x, corner.y));
        Body::between(side(-plan.half_wall), side(plan.half_wall))
    })
}

/// The platform under the quadrants.
pub(super) fn platform(plan: &Plan) -> Body {
    let (least, most) = plan.platform;
    let level = |z: f64| {
        [(least.x, least.y), (most.x, least.y), (most.x, most.y), (least.x, most.y)]
            .map(|(x, y)| DVec3::new(x, y, z))
    };
    Body::between(level(plan.ground), level(plan.deck))
}

fn slab_piece(arm: &Arm<'_>, piece: u32) -> Body {
    let angle = |k: u32| f64::from(k) / f64::from(SLAB_PIECES) * std::f64::consts::FRAC_PI_2;
    let section = |angle: f64, s: f64| {
        let (sin, cos) = angle.sin_cos();
        [arm.radius, arm.outer()].map(|r| arm.point(r * sin, -r * cos, s))
    };
    let end = |s: f64| {
        let [a, b] = section(angle(piece), s);
        let [d, c] = section(angle(piece + 1), s);
        [a, b, c, d]
    };
    Body::between(end(-arm.plan.half_slab), end(arm.plan.half_slab))
}

fn support_piece(arm: &Arm<'_>, piece: u32) -> Body {
    let plan = arm.plan;
    let (low, high) = plan.support();
    let section = |out: f64| {
        let m = arm.outer_m(out);
        let (a, b) = (arm.point(out, m, low), arm.point(out, m, high));
        [a, b, b.with_z(plan.deck), a.with_z(plan.deck)]
    };
    let (near, far) = support_span(arm, piece);
    Body::between(section(near), section(far))
}

/// The part that carries the low end of a quadrant that leans steeply.
fn low_support_piece(arm: &Arm<'_>, piece: u32) -> Body {
    let plan = arm.plan;
    let s = -plan.half_slab;
    let section = |out: f64| {
        let a = arm.point(out, arm.carried_m(out), s);
        let b = arm.point(out, arm.outer_m(out), s);
        [a, b, b.with_z(plan.deck), a.with_z(plan.deck)]
    };
    // Even steps of angle on the reading surface, and one beyond it.
    let at = |k: u32| {
        let turn = f64::from(k) / f64::from(SUPPORT_PIECES - 1) * std::f64::consts::FRAC_PI_2;
        if k < SUPPORT_PIECES { arm.radius * turn.sin() } else { plan.support_end(arm.side) }
    };
    Body::between(section(at(piece)), section(at(piece + 1)))
}

/// Distances from the wall between which a piece of support stands: even steps of angle.
fn support_span(arm: &Arm<'_>, piece: u32) -> (f64, f64) {
    let end = (arm.plan.support_end(arm.side) / arm.outer()).asin();
    let at = |k: u32| arm.outer() * (end * f64::from(k) / f64::from(SUPPORT_PIECES)).sin();
    (at(piece), at(piece + 1))
}

/// Corners of a body thrown on a level plane by the Sun.
pub(super) fn thrown(body: &Body, to_sun: DVec3, level: f64) -> [DVec2; 8] {
    body.corners.map(|corner| {
        let height = (corner.z - level).max(0.0);
        (corner - to_sun * (height / to_sun.z)).truncate()
    })
}
