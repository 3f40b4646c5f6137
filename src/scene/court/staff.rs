//! The ranging staff: a round length beside the instrument, for scale.

use glam::DVec3;

use super::body::Body;
use super::easel::Easel;
use super::light::Light;
use super::plan::Plan;
use crate::core::instrument::Side;

/// Lengths a staff may have, metres.
const LENGTHS_M: [f64; 9] = [0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0];
/// Length aimed at, and half its thickness, in radii.
const AIM: f64 = 0.7;
const HALF: f64 = 0.011;

/// A staff and where it stands.
#[derive(Clone, Copy, Debug)]
pub(super) struct Staff {
    pub(super) length_m: f64,
    /// Its foot, on the paving east of everything else.
    foot: DVec3,
    half: f64,
}

impl Staff {
    pub(super) fn new(plan: &Plan) -> Self {
        let off = |length: &f64| (length / (AIM * plan.unit)).ln().abs();
        let length_m =
            LENGTHS_M.into_iter().min_by(|a, b| off(a).total_cmp(&off(b))).unwrap_or(LENGTHS_M[0]);
        let x = plan.half_wall + plan.radius(Side::East) + plan.thick + 0.1 * plan.unit;
        let y = plan.platform.0.y - 0.12 * plan.unit;
        Self { length_m, foot: DVec3::new(x, y, plan.ground), half: HALF * plan.unit }
    }

    /// Whether it stands beyond everything else, seen from an eye at this `x`.
    pub(super) fn is_beyond(&self, eye_x: f64) -> bool {
        eye_x < self.foot.x
    }

    /// Where it stands.
    pub(super) fn foot(&self) -> DVec3 {
        self.foot
    }

    /// The top, where its length is written.
    pub(super) fn top(&self) -> DVec3 {
        self.at(1.0)
    }

    fn at(&self, share: f64) -> DVec3 {
        self.foot + DVec3::Z * (self.length_m * share)
    }

    /// The body that throws its shadow.
    pub(super) fn body(&self) -> Body {
        let square = |centre: DVec3| {
            [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]
                .map(|(x, y)| centre + DVec3::new(x, y, 0.0) * self.half)
        };
        Body::between(square(self.foot), square(self.top()))
    }

    /// Paints it: quarters dark and light in turn.
    pub(super) fn paint(&self, easel: &mut Easel<'_>, light: &Light<'_>) {
        let width = (2.0 * self.half * easel.view.scale_at(self.at(0.5)) / easel.pen).max(2.4);
        let dark = easel.stroke(light.line(), width + 1.6);
        easel.lines(|shapes, view| shapes.line(view, self.foot, self.top()), dark);
        let tone = light.stone(DVec3::NEG_Y).mixed(light.palette.lit, 0.5);
        let pale = easel.stroke(tone, width);
        easel.lines(
            |shapes, view| {
                for quarter in [1.0, 3.0] {
                    let (from, to) = (quarter / 4.0, (quarter + 1.0) / 4.0);
                    shapes.line(view, self.at(from + 0.008), self.at(to - 0.012));
                }
            },
            pale,
        );
    }
}
