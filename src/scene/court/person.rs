//! A person beside the instrument: nothing else tells at a glance how large it is.

use glam::DVec3;

use super::body::Body;
use super::easel::Easel;
use super::light::Light;
use super::plan::Plan;
use super::staff::Staff;

/// Height, metres; and of the tallest one drawn, in radii: beside a small dial a person would be all
/// there is to see.
const HEIGHT_M: f64 = 1.7;
const TALLEST: f64 = 1.2;
/// Half the breadth and half the depth of what throws the shadow, metres.
const HALF_BREADTH_M: f64 = 0.2;
const HALF_DEPTH_M: f64 = 0.13;
/// The right half of the outline, from between the feet to the top of the head: metres aside and up.
const OUTLINE_M: [(f64, f64); 21] = [
    (0.0, 0.76),
    (0.03, 0.05),
    (0.03, 0.0),
    (0.12, 0.0),
    (0.105, 0.08),
    (0.1, 0.45),
    (0.125, 0.8),
    (0.125, 0.95),
    (0.165, 0.8),
    (0.195, 0.82),
    (0.2, 1.1),
    (0.205, 1.32),
    (0.165, 1.4),
    (0.055, 1.45),
    (0.05, 1.49),
    (0.075, 1.52),
    (0.085, 1.57),
    (0.08, 1.62),
    (0.06, 1.66),
    (0.03, 1.69),
    (0.0, HEIGHT_M),
];

/// Somebody on the paving.
#[derive(Clone, Copy, Debug)]
pub(super) struct Person {
    foot: DVec3,
}

impl Person {
    /// In front of the staff, east of everything else; `None` beside a small dial.
    pub(super) fn new(plan: &Plan, staff: &Staff) -> Option<Self> {
        let beside = DVec3::new(0.5 * HALF_BREADTH_M, -0.24 * plan.unit, 0.0);
        (HEIGHT_M <= TALLEST * plan.unit).then(|| Self { foot: staff.foot() + beside })
    }

    /// From the foot to the top of the head.
    pub(super) fn upright(&self) -> [DVec3; 2] {
        [self.foot, self.foot + DVec3::Z * HEIGHT_M]
    }

    /// The body that throws the shadow.
    pub(super) fn body(&self) -> Body {
        let square = |centre: DVec3| {
            [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]
                .map(|(x, y)| centre + DVec3::new(x * HALF_BREADTH_M, y * HALF_DEPTH_M, 0.0))
        };
        Body::between(square(self.foot), square(self.foot + DVec3::Z * HEIGHT_M))
    }

    /// Paints the outline, turned towards the eye.
    pub(super) fn paint(&self, easel: &mut Easel<'_>, light: &Light<'_>) {
        let sight = (self.foot - easel.view.eye).with_z(0.0).normalize_or_zero();
        let aside = DVec3::new(-sight.y, sight.x, 0.0);
        let (foot, p) = (self.foot, light.palette);
        let half = |sign: f64| move |&(x, z): &(f64, f64)| foot + aside * (sign * x) + DVec3::Z * z;
        let outline = OUTLINE_M.iter().map(half(1.0));
        let outline = outline.chain(OUTLINE_M.iter().rev().map(half(-1.0)));
        easel.fill(outline, light.shaded(-sight).mixed(p.cut, 0.15));
    }
}
