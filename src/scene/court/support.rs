//! The support under a quadrant: a plumb wall, curved in plan.

use std::f64::consts::FRAC_PI_2;

use glam::DVec3;

use super::easel::Easel;
use super::quadrant::{LAP_PX, Quadrant, SHADE_LAP_PX};
use super::run::Run;
use super::surface::coarse;

impl Quadrant<'_> {
    /// The support under the bed: a plumb wall, curved in plan.
    pub(super) fn paint_support(&self, easel: &mut Easel<'_>, run: &Run) {
        let (low, high) = self.arm.plan.support();
        let arm = self.arm;
        let edge = |s: f64| move |out: f64| arm.point(out, arm.outer_m(out), s);
        if !arm.plan.steep {
            self.paint_side(easel, run, run.facing.low, -1.0, edge(low));
        }
        self.paint_side(easel, run, run.facing.high, 1.0, edge(high));
        self.paint_ends(easel, run, edge(low), edge(high));
    }

    /// The support under the low end of a steep quadrant.
    pub(super) fn paint_low_support(&self, easel: &mut Easel<'_>, run: &Run) {
        let arm = self.arm;
        let s = -arm.plan.half_slab;
        let low = move |out: f64| arm.point(out, arm.carried_m(out), s);
        let high = move |out: f64| arm.point(out, arm.outer_m(out), s);
        self.paint_side(easel, run, run.facing.low, -1.0, low);
        self.paint_ends(easel, run, low, high);
    }

    /// A plumb side below an edge; `outward` is the sign of its normal's `y`.
    fn paint_side(
        &self,
        easel: &mut Easel<'_>,
        run: &Run,
        seen: bool,
        outward: f64,
        edge: impl Fn(f64) -> DVec3,
    ) {
        let outs = self.supported(run);
        if !seen || outs.len() < 2 {
            return;
        }
        let deck = self.arm.plan.deck;
        // Where the Sun grazes the curve, a facet differs from the next to be seen.
        let toned = if easel.view.in_motion { outs.clone() } else { self.finer(&outs) };
        let facets: Vec<[DVec3; 2]> =
            toned.windows(2).map(|pair| [edge(pair[0]), edge(pair[1])]).collect();
        let normal = |[a, b]: [DVec3; 2]| {
            let across = (b - a).with_z(0.0).normalize_or_zero();
            let square = DVec3::new(-across.y, across.x, 0.0);
            square * (outward * square.y).signum()
        };
        let view = easel.view;
        let on = |from: DVec3, to: DVec3, by_px: f64| {
            to + (to - from).normalize_or_zero() * (by_px / view.scale_at(to))
        };
        let beyond = |from: DVec3, to: DVec3| on(from, to, LAP_PX);
        let mut start = 0;
        for index in 1..=facets.len() {
            let tone = |at: usize| coarse(self.light.stone(normal(facets[at])), view);
            if index < facets.len() && tone(index) == tone(start) {
                continue;
            }
            // Each band runs on under the next by a hair, so that no gap shines through.
            let [first, second] = facets[start];
            let [before, last] = facets[index - 1];
            let mut tops: Vec<DVec3> = Vec::with_capacity(index - start + 3);
            if start == 0 && run.lap.0 {
                tops.push(beyond(second, first));
            }
            tops.extend(facets[start..index].iter().map(|facet| facet[0]));
            tops.push(last);
            if index < facets.len() || run.lap.1 {
                tops.push(beyond(before, last));
            }
            let bases = tops.iter().rev().map(|top| top.with_z(deck)).collect::<Vec<_>>();
            easel.fill(tops.into_iter().chain(bases), tone(start));
            start = index;
        }
        if let Some(caster) = self.caster {
            let tone = self.light.shaded(normal(facets[facets.len() / 2]));
            let last = facets.len() - 1;
            let goes_on = outs[outs.len() - 1] < self.arm.plan.support_end(self.arm.side);
            easel.fills(
                |shapes, view| {
                    for (index, &[a, b]) in facets.iter().enumerate() {
                        let laps = (index == 0 && outs[0] > 0.0, index == last && goes_on);
                        let from = if laps.0 { on(b, a, SHADE_LAP_PX) } else { a };
                        let to = if laps.1 { on(a, b, SHADE_LAP_PX) } else { b };
                        let face = [from, to, to.with_z(deck), from.with_z(deck)];
                        caster.shade(&face, normal([a, b]), |patch| shapes.patch(view, patch));
                    }
                },
                tone,
            );
        }
        self.courses(easel, &outs, &edge);
        let line = easel.stroke(self.light.line(), 0.8);
        let foot = |out: f64| edge(out).with_z(deck);
        let end = self.arm.plan.support_end(self.arm.side);
        easel.lines(
            |shapes, view| {
                shapes.polyline(view, outs.iter().map(|&out| edge(out)));
                shapes.polyline(view, outs.iter().map(|&out| foot(out)));
                if outs[outs.len() - 1] >= end {
                    shapes.line(view, edge(end), foot(end));
                }
                if outs[0] <= 0.0 {
                    shapes.line(view, edge(0.0), foot(0.0));
                }
            },
            line,
        );
    }

    /// Courses of masonry on a plumb side, lightly.
    fn courses(&self, easel: &mut Easel<'_>, outs: &[f64], edge: impl Fn(f64) -> DVec3) {
        let plan = self.arm.plan;
        let rise = 0.105 * plan.unit;
        let line = easel.stroke(self.light.line().faded(0.34), 0.5);
        let top = plan.point(0.0, 0.0, plan.half_slab).z;
        let block = 0.2 * plan.unit;
        easel.lines(
            |shapes, view| {
                let mut course = 1.0;
                while plan.deck + course * rise < top {
                    let z = plan.deck + course * rise;
                    let row = outs.iter().map(|&out| edge(out));
                    let mut run: Vec<DVec3> = Vec::new();
                    for point in row {
                        if point.z > z + 0.05 * rise {
                            run.push(point.with_z(z));
                        }
                    }
                    shapes.polyline(view, run);
                    let mut along =
                        block * if (course as u32).is_multiple_of(2) { 0.5 } else { 1.0 };
                    let end = self.arm.outer();
                    while along < end * FRAC_PI_2 {
                        let out = end * (along / end).sin();
                        let in_run = out >= outs[0] && out <= outs[outs.len() - 1];
                        if in_run && edge(out).z > z {
                            let at = edge(out);
                            shapes.line(view, at.with_z(z - rise), at.with_z(z));
                        }
                        along += block;
                    }
                    course += 1.0;
                }
            },
            line,
        );
    }

    /// Upright end faces of a support: outside, and beside the wall.
    fn paint_ends(
        &self,
        easel: &mut Easel<'_>,
        run: &Run,
        low: impl Fn(f64) -> DVec3,
        high: impl Fn(f64) -> DVec3,
    ) {
        let end = self.arm.plan.support_end(self.arm.side);
        let last = run.outs[run.outs.len() - 1];
        let deck = self.arm.plan.deck;
        let outward = DVec3::X * self.arm.side.sign();
        for (out, normal, seen) in [
            (end, outward, run.outs[0] < end && last >= end && self.eye.x > end),
            (0.0, -outward, run.outs[0] <= 0.0 && self.eye.x < 0.0),
        ] {
            if seen {
                let (a, b) = (low(out), high(out));
                self.plain_face(easel, &[a, b, b.with_z(deck), a.with_z(deck)], normal);
            }
        }
    }

    /// The same stations with others between them, in even steps of angle.
    fn finer(&self, outs: &[f64]) -> Vec<f64> {
        const PIECES: u32 = 4;
        let outer = self.arm.outer();
        let angle = |out: f64| (out / outer).min(1.0).asin();
        let within = |pair: &[f64]| {
            let (from, to) = (angle(pair[0]), angle(pair[1]));
            (0..PIECES)
                .map(move |k| outer * (from + (to - from) * f64::from(k) / f64::from(PIECES)).sin())
        };
        outs.windows(2).flat_map(within).chain(outs.last().copied()).collect()
    }

    /// The part of a run under which there is a support.
    fn supported(&self, run: &Run) -> Vec<f64> {
        let end = self.arm.plan.support_end(self.arm.side);
        run.outs.iter().copied().filter(|&out| out <= end).collect()
    }
}
