//! The stone of a quadrant: its reading surface, its underside, its sides and ends.

use std::f64::consts::FRAC_PI_2;

use glam::DVec3;

use super::ambient;
use super::easel::{Easel, Shapes};
use super::quadrant::{LAP_PX, Quadrant, SHADE_LAP_PX};
use super::run::Run;
use super::surface::coarse;

impl Quadrant<'_> {
    /// The stone itself: reading surface, underside, the faces at its sides and ends.
    pub(super) fn paint_stone(&mut self, easel: &mut Easel<'_>, run: &Run) {
        let arm = self.arm;
        let (from, to) = (run.outs[0], run.outs[run.outs.len() - 1]);
        if run.facing.inner {
            let angles: Vec<f64> = run
                .outs
                .iter()
                .filter(|&&out| out <= arm.radius * (1.0 + 1e-9))
                .map(|&out| self.inner_angle(out))
                .collect();
            self.surface.paint(easel, &angles, run.lap);
            ambient::paint_on_foot(easel, &self.surface, (angles[0], angles[angles.len() - 1]));
            if let Some(rod) = self.rod {
                rod.paint_shadow(easel, &self.surface, (angles[0], angles[angles.len() - 1]));
            }
            self.engraving.paint_marks(easel, &self.surface, (angles[0], angles[angles.len() - 1]));
        }
        if run.facing.outer {
            self.paint_underside(easel, run);
        }
        for sign in [-1.0, 1.0] {
            if self.eye.z * sign > arm.plan.half_slab {
                self.paint_flank(easel, run, sign);
            }
        }
        let half = arm.plan.half_slab;
        if to > arm.radius && self.eye.y > 0.0 {
            let (near, far) = (from.max(arm.radius), to);
            let face = [(near, -half), (near, half), (far, half), (far, -half)]
                .map(|(out, s)| arm.point(out, 0.0, s));
            let tone = self.light.stone(arm.plan.m());
            easel.fill(face, tone);
        }
        if from <= 0.0 && self.eye.x < 0.0 {
            let face = [
                (-arm.radius, -half),
                (-arm.radius, half),
                (-arm.outer(), half),
                (-arm.outer(), -half),
            ]
            .map(|(m, s)| arm.point(0.0, m, s));
            self.plain_face(easel, &face, DVec3::X * -arm.side.sign());
        }
        self.paint_edges(easel, run);
    }

    fn paint_underside(&self, easel: &mut Easel<'_>, run: &Run) {
        let arm = self.arm;
        let half = arm.plan.half_slab;
        let corner = |out: f64, s: f64| arm.point(out, arm.outer_m(out), s);
        let mut start = 0;
        let view = easel.view;
        let tone = |index: usize| {
            let out = (run.outs[index] + run.outs[index + 1]) / 2.0;
            coarse(self.light.stone(-arm.normal((out / arm.outer()).min(1.0).asin())), view)
        };
        let facets = run.outs.len() - 1;
        for index in 1..=facets {
            if index < facets && tone(index) == tone(start) {
                continue;
            }
            let outs = &run.outs[start..=index];
            let there = outs.iter().map(|&out| corner(out, -half));
            let back = outs.iter().rev().map(|&out| corner(out, half));
            easel.fill(there.chain(back), tone(start));
            start = index;
        }
    }

    /// The cuts of a run, carried a little further at the ends that are said.
    fn lapped(&self, easel: &Easel<'_>, run: &Run, ends: (bool, bool), by_px: f64) -> Vec<f64> {
        let mut outs = run.outs.clone();
        let lap = |out: f64| {
            let at = self.arm.point(out, self.arm.outer_m(out), 0.0);
            by_px / easel.view.scale_at(at)
        };
        // Beside the old ends, which stay: at the reading surface's upper end the arc rises plumb, and
        // a step aside there cuts off a whole corner.
        if let Some(&first) = run.outs.first().filter(|_| ends.0) {
            outs.insert(0, (first - lap(first)).max(0.0));
        }
        if let Some(&last) = run.outs.last().filter(|_| ends.1) {
            outs.push((last + lap(last)).min(self.arm.outer()));
        }
        outs
    }

    /// A side of the stone, square to the style, with its joints.
    fn paint_flank(&self, easel: &mut Easel<'_>, run: &Run, sign: f64) {
        let arm = self.arm;
        let s = sign * arm.plan.half_slab;
        let normal = arm.plan.s() * sign;
        let inner = |out: f64| arm.point(out, arm.inner_m(out), s);
        let outer = |out: f64| arm.point(out, arm.outer_m(out), s);
        let outs = self.lapped(easel, run, run.lap, LAP_PX);
        let there = outs.iter().map(|&out| inner(out));
        let back = outs.iter().rev().map(|&out| outer(out));
        easel.fill(there.chain(back), self.light.stone(normal));
        if let Some(caster) = self.caster {
            let tone = self.light.shaded(normal);
            let outs = self.lapped(easel, run, (true, true), SHADE_LAP_PX);
            easel.fills(
                |shapes, view| {
                    for pair in outs.windows(2) {
                        let face = [inner(pair[0]), inner(pair[1]), outer(pair[1]), outer(pair[0])];
                        caster.shade(&face, normal, |patch| shapes.patch(view, patch));
                    }
                },
                tone,
            );
        }
        let line = easel.stroke(self.light.line().faded(0.45), 0.5);
        let (from, to) = (run.outs[0], run.outs[run.outs.len() - 1]);
        easel.lines(
            |shapes, view| {
                for joint in 1..12 {
                    let (sin, cos) = (f64::from(joint) / 12.0 * FRAC_PI_2).sin_cos();
                    if (from..to).contains(&(arm.radius * sin)) {
                        let at = |radius: f64| arm.point(radius * sin, -radius * cos, s);
                        shapes.line(view, at(arm.radius), at(arm.outer()));
                    }
                }
            },
            line,
        );
    }

    /// The stone's edges where one of the faces that meet in them is seen.
    fn paint_edges(&self, easel: &mut Easel<'_>, run: &Run) {
        let arm = self.arm;
        let half = arm.plan.half_slab;
        let flank = [-1.0, 1.0].map(|sign: f64| (sign * half, self.eye.z * sign > half));
        let top_seen = self.eye.y > 0.0;
        let (from, to) = (run.outs[0], run.outs[run.outs.len() - 1]);
        let line = easel.stroke(self.light.line(), 1.15);
        // As far as the shadows, which lie over the neighbour's.
        let outs = self.lapped(easel, run, (true, true), SHADE_LAP_PX);
        easel.lines(
            |shapes, view| {
                for (s, seen) in flank {
                    let inner = |out: f64| arm.point(out, arm.inner_m(out), s);
                    let outer = |out: f64| arm.point(out, arm.outer_m(out), s);
                    if seen || run.facing.inner {
                        let outs = outs.iter().filter(|&&out| out <= arm.radius * (1.0 + 1e-9));
                        shapes.polyline(view, outs.map(|&out| inner(out)));
                    }
                    if seen || run.facing.outer {
                        shapes.polyline(view, outs.iter().map(|&out| outer(out)));
                    }
                    if to > arm.radius && (seen || top_seen) {
                        shapes.line(view, inner(from.max(arm.radius)), inner(to));
                    }
                }
                let across = |shapes: &mut Shapes, out: f64, m: f64| {
                    shapes.line(view, arm.point(out, m, -half), arm.point(out, m, half));
                };
                if (from..=to).contains(&arm.radius) && (top_seen || run.facing.inner) {
                    across(shapes, arm.radius, 0.0);
                }
                if to >= arm.outer() * (1.0 - 1e-9) && (top_seen || run.facing.outer) {
                    across(shapes, arm.outer(), 0.0);
                }
                if from <= 0.0 && run.facing.inner {
                    across(shapes, 0.0, -arm.radius);
                }
            },
            line,
        );
    }
}
