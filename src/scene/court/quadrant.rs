//! A quadrant: its stone and its support, cut into upright slices and painted from the far side.

use std::f64::consts::FRAC_PI_2;

use glam::DVec3;

use super::cast::Caster;
use super::easel::Easel;
use super::graduation::Engraving;
use super::light::Light;
use super::plan::Arm;
use super::rod::Rod;
use super::surface::{Surface, coarse};

/// How far a facet may stand off the true arc, pixels, and the numbers of facets allowed.
const SAGITTA_PX: f64 = 0.25;
const FACETS: (f64, f64) = (18.0, 72.0);
/// How far paint runs on under what is painted next, so that no gap shines through, pixels.
const LAP_PX: f64 = 0.8;
/// Facets of the underside beyond the reading surface.
const TIP_FACETS: u32 = 5;

/// What a slice shows to the eye.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Facing {
    /// The reading surface.
    inner: bool,
    /// The underside.
    outer: bool,
    /// The support's low and high side.
    low: bool,
    high: bool,
}

/// A piece of the quadrant between two distances from the wall.
#[derive(Clone, Copy, Debug)]
struct Slice {
    out: (f64, f64),
    facing: Facing,
}

/// A row of neighbouring slices that show the same sides: it is painted part by part.
#[derive(Clone, Debug)]
struct Run {
    /// Distances from the wall at which it is cut, rising.
    outs: Vec<f64>,
    facing: Facing,
    /// Whether a neighbour below and above is painted later.
    lap: (bool, bool),
}

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
    fn inner_angle(&self, out: f64) -> f64 {
        (out / self.arm.radius).min(1.0).asin()
    }

    /// Slices in the order of painting, gathered into runs.
    fn runs(&self, easel: &Easel<'_>) -> Vec<Run> {
        let outs = self.cuts(easel);
        let slices: Vec<Slice> = outs
            .windows(2)
            .map(|pair| Slice { out: (pair[0], pair[1]), facing: self.facing(pair[0], pair[1]) })
            .collect();
        let eye = self.eye.x;
        let below = slices.partition_point(|slice| slice.out.1 <= eye);
        let above = slices.partition_point(|slice| slice.out.0 < eye);
        let mut runs: Vec<Run> = Vec::new();
        let mut begin = true;
        for slice in &slices[..below] {
            join(&mut runs, slice, &mut begin, true);
        }
        begin = true;
        for slice in slices[above..].iter().rev() {
            join(&mut runs, slice, &mut begin, false);
        }
        begin = true;
        for slice in &slices[below..above] {
            join(&mut runs, slice, &mut begin, true);
        }
        self.set_laps(&mut runs);
        runs
    }

    /// Marks at which ends of a run the neighbour is painted later.
    fn set_laps(&self, runs: &mut [Run]) {
        let spans: Vec<(f64, f64)> =
            runs.iter().map(|run| (run.outs[0], run.outs[run.outs.len() - 1])).collect();
        for (index, run) in runs.iter_mut().enumerate() {
            let later = &spans[index + 1..];
            let (from, to) = spans[index];
            run.lap.0 = later.iter().any(|span| span.1 == from);
            run.lap.1 = later.iter().any(|span| span.0 == to);
        }
    }

    /// Distances from the wall at which the quadrant is cut, rising.
    fn cuts(&self, easel: &Easel<'_>) -> Vec<f64> {
        let arm = &self.arm;
        let middle = arm.surface(FRAC_PI_2 / 2.0, 0.0);
        let radius_px = arm.radius * easel.view.scale_at(middle);
        let step = 2.0 * (1.0 - SAGITTA_PX / radius_px.max(1.0)).clamp(0.0, 1.0).acos();
        let count = (FRAC_PI_2 / step.max(1e-6)).clamp(FACETS.0, FACETS.1).ceil();
        let inner =
            (0..=count as u32).map(|k| arm.radius * (FRAC_PI_2 * f64::from(k) / count).sin());
        let tip = (arm.radius / arm.outer()).asin();
        let outer = (1..=TIP_FACETS).map(|k| {
            let angle = tip + (FRAC_PI_2 - tip) * f64::from(k) / f64::from(TIP_FACETS);
            arm.outer() * angle.sin()
        });
        let end = arm.plan.support_end(arm.side);
        let mut outs: Vec<f64> = inner.chain(outer).chain([end]).collect();
        outs.sort_by(f64::total_cmp);
        outs.dedup_by(|a, b| (*a - *b).abs() < 1e-9 * arm.radius);
        outs
    }

    fn facing(&self, near: f64, far: f64) -> Facing {
        let arm = &self.arm;
        let (low, high) = arm.plan.support();
        // The side of a chord on which the eye is, in the plane across the style.
        let above = |a: (f64, f64), b: (f64, f64)| {
            (b.0 - a.0) * (self.eye.y - a.1) - (b.1 - a.1) * (self.eye.x - a.0)
        };
        let inner = far <= arm.radius * (1.0 + 1e-9)
            && above((near, arm.inner_m(near)), (far, arm.inner_m(far))) > 0.0;
        let outer = above((near, arm.outer_m(near)), (far, arm.outer_m(far))) < 0.0;
        let level = |out: f64, m: f64, s: f64| arm.point(out, m, s).y;
        let eye_y = arm.point(self.eye.x, self.eye.y, self.eye.z).y;
        // The same in plan, for the sides of the support.
        let behind = |y_near: f64, y_far: f64| {
            (far - near) * (eye_y - y_near) - (y_far - y_near) * (self.eye.x - near)
        };
        let side =
            |s: f64| behind(level(near, arm.outer_m(near), s), level(far, arm.outer_m(far), s));
        let low_side = if arm.plan.steep {
            let s = -arm.plan.half_slab;
            behind(level(near, arm.carried_m(near), s), level(far, arm.carried_m(far), s))
        } else {
            side(low)
        };
        Facing { inner, outer, low: low_side < 0.0, high: side(high) > 0.0 }
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

    /// The support under the bed: a plumb wall, curved in plan.
    fn paint_support(&self, easel: &mut Easel<'_>, run: &Run) {
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
    fn paint_low_support(&self, easel: &mut Easel<'_>, run: &Run) {
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
        let facets: Vec<[DVec3; 2]> =
            outs.windows(2).map(|pair| [edge(pair[0]), edge(pair[1])]).collect();
        let normal = |[a, b]: [DVec3; 2]| {
            let across = (b - a).with_z(0.0).normalize_or_zero();
            let square = DVec3::new(-across.y, across.x, 0.0);
            square * (outward * square.y).signum()
        };
        let view = easel.view;
        let beyond = |from: DVec3, to: DVec3| {
            to + (to - from).normalize_or_zero() * (LAP_PX / view.scale_at(to))
        };
        let mut start = 0;
        for index in 1..=facets.len() {
            let tone = |at: usize| coarse(self.light.stone(normal(facets[at])));
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
            easel.fills(
                |shapes, view| {
                    for (index, &[a, b]) in facets.iter().enumerate() {
                        let from = if index == 0 && run.lap.0 { beyond(b, a) } else { a };
                        let to = if index == last && run.lap.1 { beyond(a, b) } else { b };
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

    /// A flat convex face with its shadow and outline.
    fn plain_face(&self, easel: &mut Easel<'_>, face: &[DVec3], normal: DVec3) {
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

    /// The part of a run under which there is a support.
    fn supported(&self, run: &Run) -> Vec<f64> {
        let end = self.arm.plan.support_end(self.arm.side);
        run.outs.iter().copied().filter(|&out| out <= end).collect()
    }

    /// The stone itself: reading surface, underside, the faces at its sides and ends.
    fn paint_stone(&mut self, easel: &mut Easel<'_>, run: &Run) {
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
        let tone = |index: usize| {
            let out = (run.outs[index] + run.outs[index + 1]) / 2.0;
            coarse(self.light.stone(-arm.normal((out / arm.outer()).min(1.0).asin())))
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

    /// The cuts of a run, carried a little further where a neighbour is painted later.
    fn lapped(&self, easel: &Easel<'_>, run: &Run) -> Vec<f64> {
        let mut outs = run.outs.clone();
        let lap = |out: f64| {
            let at = self.arm.point(out, self.arm.outer_m(out), 0.0);
            LAP_PX / easel.view.scale_at(at)
        };
        if let Some(first) = outs.first_mut().filter(|_| run.lap.0) {
            *first = (*first - lap(*first)).max(0.0);
        }
        if let Some(last) = outs.last_mut().filter(|_| run.lap.1) {
            *last = (*last + lap(*last)).min(self.arm.outer());
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
        let outs = self.lapped(easel, run);
        let there = outs.iter().map(|&out| inner(out));
        let back = outs.iter().rev().map(|&out| outer(out));
        easel.fill(there.chain(back), self.light.stone(normal));
        if let Some(caster) = self.caster {
            let tone = self.light.shaded(normal);
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
        easel.lines(
            |shapes, view| {
                for (s, seen) in flank {
                    let inner = |out: f64| arm.point(out, arm.inner_m(out), s);
                    let outer = |out: f64| arm.point(out, arm.outer_m(out), s);
                    if seen || run.facing.inner {
                        let outs = run.outs.iter().filter(|&&out| out <= arm.radius * (1.0 + 1e-9));
                        shapes.polyline(view, outs.map(|&out| inner(out)));
                    }
                    if seen || run.facing.outer {
                        shapes.polyline(view, run.outs.iter().map(|&out| outer(out)));
                    }
                    if to > arm.radius && (seen || top_seen) {
                        shapes.line(view, inner(from.max(arm.radius)), inner(to));
                    }
                }
                let across = |shapes: &mut super::easel::Shapes, out: f64, m: f64| {
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

/// Adds a slice to the last run if it shows the same and no part of it can hide another.
fn join(runs: &mut Vec<Run>, slice: &Slice, begin: &mut bool, rising: bool) {
    let both = slice.facing.inner && slice.facing.outer;
    match runs.last_mut() {
        Some(run) if !*begin && !both && run.facing == slice.facing => {
            if rising {
                run.outs.push(slice.out.1);
            } else {
                run.outs.insert(0, slice.out.0);
            }
        }
        _ => {
            let outs = vec![slice.out.0, slice.out.1];
            runs.push(Run { outs, facing: slice.facing, lap: (false, false) });
        }
    }
    *begin = false;
}
