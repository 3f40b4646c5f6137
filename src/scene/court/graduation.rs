//! What is cut into the reading surface: the divisions, as far as the eye can part them, and the
//! numerals.

use std::f64::consts::FRAC_PI_2;

use glam::DVec3;

use super::easel::{Easel, Shapes};
use super::plan::Arm;
use super::surface::Surface;
use super::view::View;
use crate::core::instrument::{Instrument, Side};
use crate::core::order::order_short;
use crate::core::reading::{NOON_S, hour_angle_of_mark, shown_at};
use crate::scene::numerals::Numeral;

/// Distances of two marks in the picture from which they are drawn, faintly, and are drawn in full,
/// pixels; and the same in a picture in motion.
const RESOLVED_PX: (f64, f64) = (1.2, 3.2);
const IN_MOTION_PX: (f64, f64) = (2.6, 2.6);
/// Strengths between faint and full.
const FADES: usize = 3;
/// Angle over which marks are taken to be equally far apart, radians.
const STEP_RAD: f64 = FRAC_PI_2 / 36.0;
/// Greatest height of the numerals, as a share of the divided breadth.
const NUMERAL_HEIGHT: f64 = 0.36;
/// Least distance of two numerals, in their heights.
const NUMERAL_GAP: f64 = 0.2;
/// Arc between the last numerals and the ends of the stone, radians.
const NUMERAL_INSET_RAD: f64 = 0.02;

/// A rank of marks, by the time between them.
struct Rank {
    /// From this division on, seconds.
    at_least_s: u32,
    /// Length as a share of the divided breadth; width of line in the reference picture.
    length: f64,
    width: f64,
}

const RANKS: [Rank; 6] = [
    Rank { at_least_s: 3600, length: 0.27, width: 1.35 },
    Rank { at_least_s: 600, length: 0.20, width: 0.85 },
    Rank { at_least_s: 300, length: 0.127, width: 0.6 },
    Rank { at_least_s: 60, length: 0.073, width: 0.42 },
    Rank { at_least_s: 10, length: 0.048, width: 0.36 },
    Rank { at_least_s: 1, length: 0.034, width: 0.32 },
];

/// The engraving of one quadrant.
pub(super) struct Engraving<'a> {
    instrument: &'a Instrument,
    arm: Arm<'a>,
    /// Divisions that get marks of their own length, seconds, coarse to fine.
    divisions: Vec<u32>,
    /// Height of the numerals, in the plan's lengths.
    numeral_height: f64,
    /// Which numerals are still to be painted, by hours from XII.
    pending: [bool; 7],
}

impl<'a> Engraving<'a> {
    pub(super) fn new(instrument: &'a Instrument, arm: Arm<'a>) -> Self {
        let levels = instrument.graduation().levels();
        let mut divisions: Vec<u32> = levels.iter().map(|level| level.division_s).collect();
        // Every fifth minute is drawn out, whether or not it is a level of its own.
        let smallest = instrument.graduation().smallest_s();
        for emphasis in [900, 300] {
            if emphasis > smallest && emphasis % smallest == 0 && !divisions.contains(&emphasis) {
                divisions.push(emphasis);
            }
        }
        order_short(&mut divisions, |a, b| a > b);
        // That of noon, which stands wholly on the stone, leaves room for its neighbour.
        let width = |hour: u32| Numeral::of_hour(instrument.numerals(), hour).width;
        let widths = width(12) + width(11) / 2.0 + NUMERAL_GAP;
        let most = arm.radius * (FRAC_PI_2 / 6.0 - NUMERAL_INSET_RAD) / widths;
        let numeral_height = (NUMERAL_HEIGHT * 2.0 * arm.plan.half_breadth).min(most);
        Self { instrument, arm, divisions, numeral_height, pending: [true; 7] }
    }

    /// Angle from the foot of a mark so many seconds from XII.
    fn angle(&self, from_noon_s: f64) -> f64 {
        let sign = self.arm.side.sign();
        sign * hour_angle_of_mark(self.instrument, self.arm.side, NOON_S + sign * from_noon_s)
    }

    /// Seconds from XII of an angle from the foot.
    fn seconds_at(&self, angle_rad: f64) -> f64 {
        let sign = self.arm.side.sign();
        sign * (shown_at(self.instrument, self.arm.side, sign * angle_rad) - NOON_S)
    }

    /// Paints the marks between two angles, rank by rank.
    pub(super) fn paint_marks(
        &self,
        easel: &mut Easel<'_>,
        surface: &Surface<'_>,
        range: (f64, f64),
    ) {
        let half = self.arm.plan.half_breadth;
        self.paint_rings(easel, surface, range);
        let inks = surface.inks();
        let alike = inks[0] == inks[1];
        for (index, &division) in self.divisions.iter().enumerate() {
            let Some(rank) = RANKS.iter().find(|rank| division >= rank.at_least_s) else {
                continue;
            };
            let coarser = index.checked_sub(1).map(|index| self.divisions[index]);
            let mut cut: [[Shapes; 2]; FADES] = Default::default();
            let length = rank.length * 2.0 * half;
            for step in 0..36 {
                let Some(fade) = self.resolved(easel.view, step, division) else { continue };
                let from = (f64::from(step) * STEP_RAD).max(range.0);
                let to = (f64::from(step + 1) * STEP_RAD).min(range.1);
                self.marks(from, to, division, coarser, |angle| {
                    let which = if alike { 0 } else { surface.ink_at(angle, 0.0) };
                    let at = self.arm.line_at(angle);
                    for sign in [-1.0, 1.0] {
                        let (outer, inner) = (at(sign * half), at(sign * (half - length)));
                        cut[fade][which].line(easel.view, outer, inner);
                    }
                });
            }
            for (fade, cut) in cut.iter().enumerate() {
                let strength = (fade + 1) as f64 / FADES as f64;
                for (ink, shapes) in inks.into_iter().zip(cut) {
                    let width = rank.width * magnified(easel);
                    let stroke = easel.stroke(ink.faded(strength), width);
                    easel.stroke_given(shapes, stroke);
                }
            }
        }
    }

    /// Hands out the angles of the marks of one division that no coarser one has.
    fn marks(
        &self,
        from: f64,
        to: f64,
        division: u32,
        coarser: Option<u32>,
        mut each: impl FnMut(f64),
    ) {
        if from >= to {
            return;
        }
        let step = f64::from(division);
        let first = (self.seconds_at(from) / step - 1e-9).ceil();
        let last = self.seconds_at(to) / step;
        let mut mark = first;
        while mark < last || (to >= FRAC_PI_2 && mark <= last + 1e-9) {
            let coarse = coarser.is_some_and(|coarser| {
                (mark as i64 * i64::from(division)).rem_euclid(i64::from(coarser)) == 0
            });
            if !coarse {
                each(self.angle(mark * step));
            }
            mark += 1.0;
        }
    }

    /// How strongly marks of a division are drawn on a step of the arc, an index of [`FADES`]; `None`
    /// where they can't be told apart in the picture, or the step is out of the frame.
    fn resolved(&self, view: &View, step: u32, division: u32) -> Option<usize> {
        let half = self.arm.plan.half_breadth;
        let angle = f64::from(step) * STEP_RAD;
        let corner = |angle: f64, s: f64| view.project(self.arm.surface(angle, s));
        let next = angle + STEP_RAD;
        let corners =
            [corner(angle, -half), corner(next, -half), corner(next, half), corner(angle, half)];
        let [Some(a), Some(b), Some(c), Some(d)] = corners else { return None };
        let (low, high) = super::convex::bounds(&[a, b, c, d]);
        if !view.shows(low, high) {
            return None;
        }
        // Distance square to the marks themselves.
        let across = (d - a + c - b).normalize_or_zero();
        let spacing = ((b - a + c - d) / 2.0).perp_dot(across).abs();
        let marks = (self.seconds_at(next) - self.seconds_at(angle)) / f64::from(division);
        let (least, full) = if view.in_motion { IN_MOTION_PX } else { RESOLVED_PX };
        let apart = spacing / marks;
        let share = if full > least { (apart - least) / (full - least) } else { 1.0 };
        // A share of a small whole number.
        (apart >= least).then(|| ((share.min(1.0) * FADES as f64) as usize).min(FADES - 1))
    }

    /// The lines along the arc between which the marks stand.
    fn paint_rings(&self, easel: &mut Easel<'_>, surface: &Surface<'_>, (from, to): (f64, f64)) {
        let half = self.arm.plan.half_breadth;
        let ink = surface.light.line();
        let steps = ((to - from) / STEP_RAD * 2.0).ceil().max(1.0) as u32;
        let angles = |k: u32| from + (to - from) * f64::from(k) / f64::from(steps);
        let ring = |shapes: &mut Shapes, view: &View, s: f64| {
            shapes.polyline(view, (0..=steps).map(|k| self.arm.surface(angles(k), s)));
        };
        let stroke = easel.stroke(ink.faded(0.85), 0.7 * magnified(easel).sqrt());
        easel.lines(
            |shapes, view| {
                ring(shapes, view, -half);
                ring(shapes, view, half);
            },
            stroke,
        );
    }

    /// Paints the numerals whose whole place has been painted: `waits` tells of a stretch of the
    /// arc that is still to come.
    pub(super) fn paint_numerals(
        &mut self,
        easel: &mut Easel<'_>,
        surface: &Surface<'_>,
        waits: impl Fn(f64, f64) -> bool,
    ) {
        let mut cut: [Shapes; 2] = Default::default();
        for hour in 0..7_u32 {
            if !self.pending[hour as usize] {
                continue;
            }
            let (numeral, angle, half_width) = self.numeral(hour);
            if waits(angle - half_width, angle + half_width) {
                continue;
            }
            self.pending[hour as usize] = false;
            self.cut(&mut cut[surface.ink_at(angle, 0.0)], easel.view, &numeral, angle);
        }
        for (ink, shapes) in surface.inks().into_iter().zip(&cut) {
            easel.fill_given(shapes, ink);
        }
    }

    /// The numeral so many hours from XII, the angle of its middle and half of its width, radians.
    fn numeral(&self, from_noon: u32) -> (Numeral, f64, f64) {
        let hour = match self.arm.side {
            Side::West => 12 - from_noon,
            Side::East => from_noon,
        };
        let numeral = Numeral::of_hour(self.instrument.numerals(), hour);
        let half_width = numeral.width * self.numeral_height / self.arm.radius / 2.0;
        // The two end ones stand wholly on the stone.
        let inset = half_width + NUMERAL_INSET_RAD;
        let angle = self.angle(f64::from(from_noon) * 3600.0).clamp(inset, FRAC_PI_2 - inset);
        (numeral, angle, half_width)
    }

    /// Cuts one numeral into the surface, upright for a reader before the low end.
    fn cut(&self, shapes: &mut Shapes, view: &View, numeral: &Numeral, angle: f64) {
        // A reader looks up the style: east is on the right in the north, on the left in the south.
        let rightwards = self.arm.plan.sigma * self.arm.side.sign();
        let (start, size) = (-numeral.width / 2.0, self.numeral_height);
        let place = |&(x, y): &(f64, f64)| -> (f64, DVec3) {
            let at = angle + rightwards * (start + x) * size / self.arm.radius;
            (at, self.arm.surface(at, (y - 0.5) * size))
        };
        for part in &numeral.parts {
            let seen = part.iter().flatten().all(|corner| {
                let (at, point) = place(corner);
                view.faces(point, self.arm.normal(at))
            });
            if seen {
                let contours = part.iter().map(|it| it.iter().map(|corner| place(corner).1));
                shapes.pierced(view, contours);
            }
        }
    }
}

/// How much thicker lines on the stone are drawn in an enlarged picture.
fn magnified(easel: &Easel<'_>) -> f64 {
    (easel.view.enlargement() / easel.pen).max(1.0).powf(0.45)
}

#[cfg(test)]
mod tests {
    use super::super::plan::Plan;
    use super::*;
    use crate::core::instrument::{PRESETS, Script};

    #[test]
    fn numerals_stand_apart_on_the_stone_in_every_script_on_broad_and_narrow_quadrants() {
        for (preset, breadth) in PRESETS.iter().flat_map(|it| [0.1, 0.25, 0.6].map(|b| (it, b))) {
            for numerals in Script::ALL {
                let mut spec = preset.spec();
                spec.numerals = numerals;
                spec.breadth_m = breadth * spec.radius_m;
                spec.plinth_m += spec.breadth_m;
                spec.end_faces = crate::core::instrument::EndFaces::Square;
                let made = Instrument::new(spec);
                let instrument = made.unwrap_or_else(|error| panic!("{}: {error}", preset.key));
                let plan = Plan::new(&instrument);
                for side in Side::BOTH {
                    let engraving = Engraving::new(&instrument, Arm::new(&plan, side));
                    let mut before = 0.0;
                    for hour in 0..7 {
                        let (_, angle, half_width) = engraving.numeral(hour);
                        let told = format!("{} {breadth} {numerals:?} {hour}", preset.key);
                        assert!(angle - half_width > before, "{told}: {angle} {half_width}");
                        before = angle + half_width;
                    }
                    assert!(before < FRAC_PI_2, "{numerals:?}");
                }
            }
        }
    }
}
