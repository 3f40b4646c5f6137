//! Light along a quadrant: the wall's soft shadow, and that of the quadrant's own arc.

use std::f64::consts::{FRAC_PI_2, PI};

use crate::core::dial::DialAngles;
use crate::core::instrument::{AxialEnd, Instrument, Side};
use crate::core::moment::Moment;
use crate::core::penumbra::{half_width_rad, uncovered_fraction};
use crate::core::reading::{NoReading, shown_at};
use crate::core::shadow::{axial_shift_m, sees_sun, wrapped};

/// Points at which the light of a penumbra is taken: with straight lines between them it is
/// right to better than a step of an 8-bit colour.
const PENUMBRA_POINTS: usize = 33;
/// Points at which the light is taken where no formula says where it changes.
const EVEN_POINTS: u32 = 96;
/// Half the breadth given to a hard edge, radians: a seventh of a second of time.
const HARD_EDGE_RAD: f64 = 1e-5;

/// The Sun of a moment, as it lights the quadrants.
#[derive(Clone, Copy, Debug)]
pub(super) struct Light {
    sun: DialAngles,
    semidiameter_rad: f64,
    /// Some of the disc is above the horizon.
    up: bool,
    /// The line round the quadrants along which light is looked at, axial metres: in the middle
    /// of the part that the style shadows.
    axial_m: f64,
}

impl Light {
    pub(super) fn new(instrument: &Instrument, moment: &Moment) -> Self {
        use NoReading::{Night, SunUnderHorizon};
        let up = !matches!(moment.reading, Err(Night { .. } | SunUnderHorizon { .. }));
        let sun = moment.on_dial;
        let axial_m = middle_of_shadow_m(instrument, sun);
        Self { sun, semidiameter_rad: moment.sun.semidiameter_rad, up, axial_m }
    }

    /// Light at an angle from the foot, signed as an hour angle: 0 full shadow, 1 full sun.
    pub(super) fn at(&self, instrument: &Instrument, side: Side, angle_rad: f64) -> f64 {
        let from_normal = wrapped(self.sun.hour_angle_rad - angle_rad);
        if !self.up || from_normal.abs() >= FRAC_PI_2 {
            return 0.0;
        }
        self.past_wall(instrument, side, angle_rad)
            .min(self.past_own_arc(instrument, side, angle_rad))
    }

    /// Times at which to take the light so that straight lines between them show it truly: the
    /// two ends, closely through each soft edge, and on both sides of each hard one; in order, as
    /// shown on the quadrant.
    pub(super) fn turning_times(
        &self,
        instrument: &Instrument,
        side: Side,
        (from_s, to_s): (f64, f64),
    ) -> Vec<f64> {
        let shown = |angle: f64| shown_at(instrument, side, angle);
        let angles = self.soft_edges(side).into_iter().flat_map(through_soft_edge);
        let angles = angles.chain(self.hard_edges(instrument, side).flat_map(across_hard_edge));
        let even = if self.style_reaches(instrument, side) { 0 } else { EVEN_POINTS };
        let even = (0..even)
            .map(|point| from_s + (to_s - from_s) * f64::from(point) / f64::from(EVEN_POINTS));
        let inside = angles.map(shown).filter(|time| (from_s..=to_s).contains(time));
        let mut times: Vec<f64> = inside.chain(even).chain([from_s, to_s]).collect();
        times.sort_unstable_by(f64::total_cmp);
        times
    }

    /// Middle and half width of the soft edges on a quadrant, as angles from its foot: the wall's
    /// and that of the upper end of the quadrant's own arc.
    fn soft_edges(&self, side: Side) -> [(f64, f64); 2] {
        let half_rad = half_width_rad(self.semidiameter_rad, self.sun.declination_rad);
        let hour_angle = self.sun.hour_angle_rad;
        [(hour_angle, half_rad), (2.0 * hour_angle + side.sign() * FRAC_PI_2, 2.0 * half_rad)]
    }

    /// Where the light changes at once, as angles from the foot: where it grazes the stone, and
    /// where the shadow of the quadrant's own arc leaves over its sides.
    fn hard_edges(&self, instrument: &Instrument, side: Side) -> impl Iterator<Item = f64> {
        let hour_angle = self.sun.hour_angle_rad;
        let reach_m = 2.0 * instrument.built_radius_m(side) * self.sun.declination_rad.tan();
        let over_sides = AxialEnd::BOTH
            .map(|end| ((instrument.quadrant_edge_m(end) - self.axial_m) / reach_m).acos());
        let from_sun = over_sides.into_iter().filter(|angle| angle.is_finite()).chain([FRAC_PI_2]);
        from_sun.flat_map(move |angle| [wrapped(hour_angle - angle), wrapped(hour_angle + angle)])
    }

    /// Whether the style is long enough to shadow the line on which light is looked at.
    fn style_reaches(&self, instrument: &Instrument, side: Side) -> bool {
        let from_style_m = self.axial_m - axial_shift_m(instrument, side, self.sun.declination_rad);
        let [north, south] = AxialEnd::BOTH.map(|end| instrument.style_end_m(end));
        (south..=north).contains(&from_style_m)
    }

    /// Light left by the wall.
    fn past_wall(&self, instrument: &Instrument, side: Side, angle_rad: f64) -> f64 {
        if !self.style_reaches(instrument, side) {
            // The wall's end throws what shadow there is: shown without its soft edge.
            return f64::from(sees_sun(instrument, self.sun, side, angle_rad, self.axial_m));
        }
        self.clear_by(side.sign() * wrapped(angle_rad - self.sun.hour_angle_rad))
    }

    /// Light left by the upper part of the quadrant itself, on its own side of the day.
    fn past_own_arc(&self, instrument: &Instrument, side: Side, angle_rad: f64) -> f64 {
        let up_side = side.sign();
        let hour_angle = self.sun.hour_angle_rad;
        // The ray to the arc's upper end stands half way between the two normals.
        let grazing_rad = (angle_rad - up_side * FRAC_PI_2) / 2.0;
        let chord_m = 2.0 * instrument.built_radius_m(side) * wrapped(hour_angle - angle_rad).cos();
        let met_m = self.axial_m + chord_m * self.sun.declination_rad.tan();
        if hour_angle * up_side > 0.0 || met_m.abs() > instrument.breadth_m() / 2.0 {
            return 1.0;
        }
        self.clear_by(up_side * (hour_angle - grazing_rad))
    }

    /// Uncovered part of the disc whose centre stands this hour angle clear of an edge.
    fn clear_by(&self, hour_angle_rad: f64) -> f64 {
        uncovered_fraction(
            hour_angle_rad / half_width_rad(self.semidiameter_rad, self.sun.declination_rad),
        )
    }
}

/// Angles closely through a soft edge, closest near its two ends, where the light bends most.
fn through_soft_edge((middle, half): (f64, f64)) -> impl Iterator<Item = f64> {
    let last = (PENUMBRA_POINTS - 1) as f64;
    (0..PENUMBRA_POINTS).map(move |point| middle - half * (PI * point as f64 / last).cos())
}

/// Angles on both sides of a hard edge.
fn across_hard_edge(angle: f64) -> [f64; 2] {
    [angle - HARD_EDGE_RAD, angle + HARD_EDGE_RAD]
}

/// Middle of the part of the breadth that the style can shadow; of the breadth when there is none.
fn middle_of_shadow_m(instrument: &Instrument, sun: DialAngles) -> f64 {
    let side = Side::at_hour_angle(sun.hour_angle_rad);
    let shift = axial_shift_m(instrument, side, sun.declination_rad);
    let [north, south] = AxialEnd::BOTH.map(|end| {
        let (thrown, cut) = (instrument.style_end_m(end) + shift, instrument.quadrant_edge_m(end));
        if end == AxialEnd::North { cut.min(thrown) } else { cut.max(thrown) }
    });
    if south < north { f64::midpoint(south, north) } else { 0.0 }
}
