//! A quadrant's upright slices, in the order of painting, gathered into runs.

use crate::core::order::order_short;
use std::f64::consts::FRAC_PI_2;

use super::easel::Easel;
use super::quadrant::Quadrant;

/// How far a facet may stand off the true arc, pixels, and the numbers of facets allowed.
const SAGITTA_PX: f64 = 0.25;
const IN_MOTION_PX: f64 = 0.6;
const FACETS: (f64, f64) = (18.0, 72.0);
/// Facets of the underside beyond the reading surface.
const TIP_FACETS: u32 = 5;

/// What a slice shows to the eye.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Facing {
    /// The reading surface.
    pub(super) inner: bool,
    /// The underside.
    pub(super) outer: bool,
    /// The support's low and high side.
    pub(super) low: bool,
    pub(super) high: bool,
}

/// A piece of the quadrant between two distances from the wall.
#[derive(Clone, Copy, Debug)]
struct Slice {
    out: (f64, f64),
    facing: Facing,
}

/// A row of neighbouring slices that show the same sides: it is painted part by part.
#[derive(Clone, Debug)]
pub(super) struct Run {
    /// Distances from the wall at which it is cut, rising.
    pub(super) outs: Vec<f64>,
    pub(super) facing: Facing,
    /// Whether a neighbour below and above is painted later.
    pub(super) lap: (bool, bool),
}

impl Quadrant<'_> {
    /// Slices in the order of painting, gathered into runs.
    pub(super) fn runs(&self, easel: &Easel<'_>) -> Vec<Run> {
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
        let off_px = if easel.view.in_motion { IN_MOTION_PX } else { SAGITTA_PX };
        let step = 2.0 * (1.0 - off_px / radius_px.max(1.0)).clamp(0.0, 1.0).acos();
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
        order_short(&mut outs, |a, b| a < b);
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
