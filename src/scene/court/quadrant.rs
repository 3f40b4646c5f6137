//! A quadrant: its stone and its support, cut into upright slices and painted from the far side.

use glam::DVec3;

use super::cast::Caster;
use super::easel::Easel;
use super::graduation::Engraving;
use super::light::Light;
use super::plan::Arm;
use super::rod::Rod;
use super::run::Run;
use super::surface::Surface;

/// How far paint runs on under what is painted next, so that no gap shines through, pixels.
pub(super) const LAP_PX: f64 = 0.8;
/// The same for shadows, at both ends of a run: along a border that it has in common with a shadow, lit
/// stone would shine through.
pub(super) const SHADE_LAP_PX: f64 = 2.0;

/// A quadrant ready to be painted.
pub(super) struct Quadrant<'a> {
    pub(super) arm: Arm<'a>,
    pub(super) surface: Surface<'a>,
    pub(super) light: &'a Light<'a>,
    pub(super) caster: Option<&'a Caster<'a>>,
    pub(super) engraving: Engraving<'a>,
    /// The rod that throws its shadow here.
    pub(super) rod: Option<&'a Rod<'a>>,
    /// The eye: distance from the wall, `m`, `s`.
    pub(super) eye: DVec3,
}

impl Quadrant<'_> {
    /// Paints the whole quadrant.
    pub(super) fn paint(&mut self, easel: &mut Easel<'_>) {
        let runs = self.runs(easel);
        for (index, run) in runs.iter().enumerate() {
            self.paint_run(easel, run);
            let later: Vec<(f64, f64)> =
                runs[index + 1..].iter().map(|later| self.angles_of(later)).collect();
            let waits =
                |low: f64, high: f64| later.iter().any(|&(from, to)| low < to && high > from);
            self.engraving.paint_numerals(easel, &self.surface, waits);
        }
    }

    fn angles_of(&self, run: &Run) -> (f64, f64) {
        (self.inner_angle(run.outs[0]), self.inner_angle(run.outs[run.outs.len() - 1]))
    }

    /// Angle of the reading surface at a distance from the wall.
    pub(super) fn inner_angle(&self, out: f64) -> f64 {
        (out / self.arm.radius).min(1.0).asin()
    }
    /// Paints one run: support and stone in the order in which the eye's place puts them.
    fn paint_run(&mut self, easel: &mut Easel<'_>, run: &Run) {
        let above_bed = !run.facing.outer;
        if !self.arm.plan.steep {
            if above_bed {
                self.paint_support(easel, run);
            }
            self.paint_stone(easel, run);
            if !above_bed {
                self.paint_support(easel, run);
            }
            return;
        }
        // A steep quadrant rests with its low end too: three parts meet in its lowest edge.
        let above_low = self.eye.z > -self.arm.plan.half_slab;
        let out = (run.outs[0] + run.outs[run.outs.len() - 1]) / 2.0;
        let ridge = self.arm.point(out, self.arm.outer_m(out), -self.arm.plan.half_slab).y;
        let eye_y = self.arm.point(self.eye.x, self.eye.y, self.eye.z).y;
        let before = |this: &Self, easel: &mut Easel<'_>| {
            if eye_y < ridge {
                this.paint_support(easel, run);
                this.paint_low_support(easel, run);
            } else {
                this.paint_low_support(easel, run);
                this.paint_support(easel, run);
            }
        };
        match (above_bed, above_low) {
            (true, true) => {
                before(self, easel);
                self.paint_stone(easel, run);
            }
            (true, false) => {
                self.paint_support(easel, run);
                self.paint_stone(easel, run);
                self.paint_low_support(easel, run);
            }
            (false, true) => {
                self.paint_low_support(easel, run);
                self.paint_stone(easel, run);
                self.paint_support(easel, run);
            }
            (false, false) => {
                self.paint_stone(easel, run);
                before(self, easel);
            }
        }
    }
    /// A flat convex face with its shadow and outline.
    pub(super) fn plain_face(&self, easel: &mut Easel<'_>, face: &[DVec3], normal: DVec3) {
        easel.fill(face.iter().copied(), self.light.stone(normal));
        if let Some(caster) = self.caster {
            let tone = self.light.shaded(normal);
            easel.fills(
                |shapes, view| {
                    caster.shade(face, normal, |patch| shapes.patch(view, patch));
                },
                tone,
            );
        }
        let line = easel.stroke(self.light.line(), 0.9);
        let ring = face.iter().chain(face.first()).copied();
        easel.lines(|shapes, view| shapes.polyline(view, ring), line);
    }
}
