//! Light along a quadrant: the style's soft shadow, and the other shadows that reach the stone.
//!
//! The style's edge, which is what is read, has its true soft edge. The shadows of the wall's ends
//! and of the quadrant's own arc, seldom in view, end sharply where the Sun's centre is hidden.

use std::f64::consts::{FRAC_PI_2, PI};

use crate::core::dial::DialAngles;
use crate::core::instrument::{AxialEnd, Instrument, Side};
use crate::core::moment::Moment;
use crate::core::penumbra::{half_width_rad, uncovered_fraction};
use crate::core::reading::{NoReading, shown_at};
use crate::core::shadow::{axial_shift_m, sees_sun};

/// Points at which the light of a penumbra is taken: with straight lines between them it is
/// right to better than a step of an 8-bit colour.
const PENUMBRA_POINTS: usize = 33;
/// Points at which the light is taken along all of a piece, to find the sharp edges.
const EVEN_POINTS: u32 = 96;

/// The Sun of a moment, as it lights the quadrants.
#[derive(Clone, Copy, Debug)]
pub(super) struct Light {
    sun: DialAngles,
    semidiameter_rad: f64,
    /// Some of the disc is above the horizon.
    pub up: bool,
    /// The style's edge throws its shadow on a quadrant.
    pub edge: bool,
    /// The line round the quadrants along which light is looked at, axial metres: in the middle
    /// of the part that the style shadows.
    pub axial_m: f64,
}

impl Light {
    pub(super) fn new(instrument: &Instrument, moment: &Moment) -> Self {
        use NoReading::{Night, SunUnderHorizon};
        let sun = moment.on_dial;
        let side = Side::at_hour_angle(sun.hour_angle_rad);
        let shadowed = shadowed_m(instrument, side, sun.declination_rad);
        Self {
            sun,
            semidiameter_rad: moment.sun.semidiameter_rad,
            up: !matches!(moment.reading, Err(Night { .. } | SunUnderHorizon { .. })),
            edge: shadowed.is_some() && sun.hour_angle_rad.abs() <= FRAC_PI_2,
            axial_m: shadowed.map_or(0.0, |(south, north)| f64::midpoint(south, north)),
        }
    }

    /// Light at an angle from the foot, signed as an hour angle: 0 full shadow, 1 full sun.
    pub(super) fn at(&self, instrument: &Instrument, side: Side, angle_rad: f64) -> f64 {
        if !self.up {
            return 0.0;
        }
        let clear = side.sign() * (angle_rad - self.sun.hour_angle_rad) / self.half_width_rad();
        if self.edge && clear.abs() < 1.0 {
            return uncovered_fraction(clear);
        }
        f64::from(sees_sun(instrument, self.sun, side, angle_rad, self.axial_m))
    }

    /// Times at which to take the light so that straight lines between them show it: the two
    /// ends, closely through the soft edge, and evenly all along; in order, as shown on the
    /// quadrant.
    pub(super) fn turning_times(
        &self,
        instrument: &Instrument,
        side: Side,
        (from_s, to_s): (f64, f64),
    ) -> Vec<f64> {
        let soft = self.through_soft_edge().map(|angle| shown_at(instrument, side, angle));
        let inside = soft.filter(|time| (from_s..=to_s).contains(time));
        let share = |point: u32| f64::from(point) / f64::from(EVEN_POINTS);
        let even = (0..=EVEN_POINTS).map(|point| from_s + (to_s - from_s) * share(point));
        let mut times: Vec<f64> = inside.chain(even).collect();
        times.sort_unstable_by(f64::total_cmp);
        times
    }

    /// Angles closely through the soft edge, closest near its two ends, where the light bends
    /// most.
    fn through_soft_edge(&self) -> impl Iterator<Item = f64> {
        let (middle, half) = (self.sun.hour_angle_rad, self.half_width_rad());
        let last = (PENUMBRA_POINTS - 1) as f64;
        (0..PENUMBRA_POINTS).map(move |point| middle - half * (PI * point as f64 / last).cos())
    }

    /// Half width of the style's soft edge, radians.
    fn half_width_rad(&self) -> f64 {
        half_width_rad(self.semidiameter_rad, self.sun.declination_rad)
    }
}

/// South and north end of the part of the breadth that the style can shadow, axial metres.
fn shadowed_m(instrument: &Instrument, side: Side, declination_rad: f64) -> Option<(f64, f64)> {
    let shift = axial_shift_m(instrument, side, declination_rad);
    let [north, south] = AxialEnd::BOTH
        .map(|end| (instrument.style_end_m(end) + shift, instrument.quadrant_edge_m(end)));
    let (south, north) = (south.0.max(south.1), north.0.min(north.1));
    (south < north).then_some((south, north))
}
