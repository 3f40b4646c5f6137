//! The needle laid into the paving that tells where north is.

use glam::{DVec2, DVec3};

use super::easel::Easel;
use super::light::Light;
use super::plan::Plan;

/// Half its length, in radii.
const HALF: f64 = 0.22;

/// A north needle on the ground.
#[derive(Clone, Copy, Debug)]
pub(super) struct Compass {
    centre: DVec3,
    north: DVec3,
    half: f64,
}

impl Compass {
    pub(super) fn new(plan: &Plan) -> Self {
        let x = -(plan.half_wall + 0.95 * plan.unit);
        let y = plan.platform.0.y - 0.38 * plan.unit;
        Self {
            centre: DVec3::new(x, y, plan.ground),
            north: plan.to_court(DVec3::Y),
            half: HALF * plan.unit,
        }
    }

    /// Where its letter stands: a little beyond the tip.
    pub(super) fn letter(&self) -> DVec3 {
        self.centre + self.north * (1.45 * self.half)
    }

    /// The needle's tips and the ends of its cross.
    pub(super) fn tips(&self) -> [DVec3; 4] {
        [(1.0, 0.0), (0.0, 0.62), (-1.0, 0.0), (0.0, -0.62)]
            .map(|(along, aside)| self.at(along, aside))
    }

    /// A place along the needle and beside it, in halves of its length.
    fn at(&self, along: f64, aside: f64) -> DVec3 {
        let across = DVec3::new(-self.north.y, self.north.x, 0.0);
        self.centre + (self.north * along + across * aside) * self.half
    }

    pub(super) fn paint(&self, easel: &mut Easel<'_>, light: &Light<'_>) {
        let at = |along, aside| self.at(along, aside);
        let (paving, _) = light.paving();
        let ink = paving.mixed(light.line(), 0.55);
        let ring = easel.stroke(ink, 0.6);
        easel.lines(
            |shapes, view| {
                shapes.polyline(
                    view,
                    (0..=40).map(|k| {
                        let turn = DVec2::from_angle(f64::from(k) * std::f64::consts::TAU / 40.0);
                        at(0.62 * turn.x, 0.62 * turn.y)
                    }),
                );
                shapes.line(view, at(0.0, -0.62), at(0.0, 0.62));
            },
            ring,
        );
        easel.fill([at(1.0, 0.0), at(0.0, 0.17), at(-1.0, 0.0)], ink);
        easel.fill(
            [at(1.0, 0.0), at(0.0, -0.17), at(-1.0, 0.0)],
            paving.mixed(light.palette.lit, 0.6),
        );
        let needle = [at(1.0, 0.0), at(0.0, 0.17), at(-1.0, 0.0), at(0.0, -0.17), at(1.0, 0.0)];
        easel.lines(|shapes, view| shapes.polyline(view, needle), ring);
    }
}
