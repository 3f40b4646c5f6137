//! From the reading to the clock, each correction with its sign; and what is left over, and why.

use crate::core::dial::DialFrame;
use crate::core::instrument::Instrument;
use crate::core::reading::{NOON_S, Reading, SECONDS_PER_RADIAN, shown_at};
use crate::core::shadow::wrapped;
use crate::core::sky::SunAtSite;
use crate::core::time::Instant;

/// To what the sum of the corrections is rounded before it is added, as people do in practice.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Rounding {
    /// Not at all.
    #[default]
    None,
    /// To the nearest minute.
    Minute,
}

/// The corrections that turn local apparent time into clock time, seconds, each to be added.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corrections {
    /// Mean minus apparent time: the equation of time with its sign turned.
    pub to_mean_s: f64,
    /// Four minutes for each degree that the site lies west of its zone's meridian.
    pub to_zone_s: f64,
    /// Summer time.
    pub summer_s: f64,
}

impl Corrections {
    /// Corrections for an instrument at an instant, the Sun standing as given.
    #[must_use]
    pub fn at(instrument: &Instrument, instant: Instant, sun: &SunAtSite) -> Self {
        Self {
            to_mean_s: -sun.sun.equation_of_time_s,
            to_zone_s: instrument.zone_offset().seconds()
                - instrument.site().longitude_rad() * SECONDS_PER_RADIAN,
            summer_s: f64::from(instrument.summer_min(instant)) * 60.0,
        }
    }

    /// Sum of the corrections, seconds.
    #[must_use]
    pub fn total_s(&self) -> f64 {
        self.to_mean_s + self.to_zone_s + self.summer_s
    }
}

/// The way from a reading to the clock.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ladder {
    /// What was read: local apparent time, seconds since midnight.
    pub read_s: f64,
    /// What is added to it.
    pub corrections: Corrections,
    /// How much rounding the sum of the corrections added, seconds.
    pub rounding_s: f64,
    /// Clock time by the dial, seconds since midnight; may pass 0 or 24 h.
    pub clock_s: f64,
    /// True clock time of the simulated instant, brought within 12 h of `clock_s`, seconds.
    pub true_clock_s: f64,
    /// Why the two differ.
    pub residual: Residual,
}

impl Ladder {
    /// True minus computed clock time, seconds.
    #[must_use]
    pub fn residual_s(&self) -> f64 {
        self.true_clock_s - self.clock_s
    }
}

/// Parts of the residual, seconds, each as true minus shown; they add up to the whole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// The edge lay between two marks.
    pub division_s: f64,
    /// The air lifts the Sun.
    pub refraction_s: f64,
    /// The masonry differs from the plan.
    pub alignment_s: f64,
    /// The dial was carried from the latitude for which it was built.
    pub latitude_s: f64,
    /// The sum of the corrections was rounded.
    pub rounding_s: f64,
    /// The Sun is seen from the ground, not from the Earth's centre: parallax, aberration.
    pub place_s: f64,
}

/// Builds the ladder for a reading.
#[must_use]
pub fn ladder(
    instrument: &Instrument,
    instant: Instant,
    sun: &SunAtSite,
    reading: &Reading,
    rounding: Rounding,
) -> Ladder {
    let corrections = Corrections::at(instrument, instant, sun);
    let total_s = match rounding {
        Rounding::None => corrections.total_s(),
        Rounding::Minute => (corrections.total_s() / 60.0).round() * 60.0,
    };
    let rounding_s = total_s - corrections.total_s();
    let read_s = f64::from(reading.shown_s);
    let clock_s = read_s + total_s;
    let true_clock_s = clock_s + within_half_day(clock_of(instrument, instant) - clock_s);
    let residual = residual(instrument, sun, reading, rounding_s);
    Ladder { read_s, corrections, rounding_s, clock_s, true_clock_s, residual }
}

/// Clock time at an instant, summer time included, seconds since local midnight.
#[must_use]
pub fn clock_of(instrument: &Instrument, instant: Instant) -> f64 {
    let local_ms = instant.unix_ms() + i64::from(instrument.clock_min(instant)) * 60_000;
    local_ms.rem_euclid(86_400_000) as f64 / 1000.0
}

/// Splits the residual by switching its causes off one after the other.
fn residual(
    instrument: &Instrument,
    sun: &SunAtSite,
    reading: &Reading,
    rounding_s: f64,
) -> Residual {
    let side = reading.edge.side;
    let airless_on_dial = instrument.frame().angles(sun.airless.vector);
    let airless_s = shown_at(instrument, side, airless_on_dial.hour_angle_rad);
    let [as_planned_s, topocentric_s] =
        [instrument.built_latitude_rad(), instrument.site().latitude_rad()].map(|latitude_rad| {
            let frame = DialFrame::at_latitude(latitude_rad);
            apparent_time_s(frame.angles(sun.airless.vector).hour_angle_rad)
        });
    let geocentric_rad =
        sun.sun.sidereal_time_rad + instrument.site().longitude_rad() - sun.sun.right_ascension_rad;
    let geocentric_s = apparent_time_s(wrapped(geocentric_rad));
    Residual {
        division_s: -reading.rounding_s(),
        refraction_s: airless_s - reading.exact_s,
        alignment_s: within_half_day(as_planned_s - airless_s),
        latitude_s: within_half_day(topocentric_s - as_planned_s),
        rounding_s: -rounding_s,
        place_s: within_half_day(geocentric_s - topocentric_s),
    }
}

/// Local apparent time of an hour angle, seconds since midnight.
fn apparent_time_s(hour_angle_rad: f64) -> f64 {
    NOON_S + hour_angle_rad * SECONDS_PER_RADIAN
}

/// A difference of two times of day, brought into ±12 h.
fn within_half_day(seconds: f64) -> f64 {
    (seconds + 43_200.0).rem_euclid(86_400.0) - 43_200.0
}
