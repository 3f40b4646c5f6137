//! A moment as the dial counts it: a date, and local apparent time on it.

use std::f64::consts::TAU;

use chrono::{Days, NaiveDate};

use crate::core::field::FieldError;
use crate::core::instrument::Instrument;
use crate::core::reading::{NOON_S, SECONDS_PER_RADIAN};
use crate::core::shadow::wrapped;
use crate::core::sky::SunTrack;
use crate::core::time::{EarthTime, Instant};

/// Local apparent time, from the apparent midnight before to the one after an apparent noon.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DialTime {
    /// Date by the place's zone time at that noon.
    pub date: NaiveDate,
    /// Seconds since apparent midnight, 0 to 86 400.
    pub seconds: f64,
}

impl DialTime {
    /// The dial's date and time at an instant.
    #[must_use]
    pub fn at(instrument: &Instrument, track: &mut SunTrack, instant: Instant) -> Self {
        let seconds = NOON_S + hour_angle_rad(instrument, track, instant) * SECONDS_PER_RADIAN;
        let zone_ms = i64::from(instrument.zone_offset().minutes()) * 60_000;
        let noon_ms = instant.unix_ms() + zone_ms + ((NOON_S - seconds) * 1000.0) as i64;
        Self { date: date_of_day(noon_ms.div_euclid(86_400_000)), seconds }
    }

    /// The instant of a date and time of the dial, to a millisecond.
    ///
    /// # Errors
    /// When it is outside the years the page knows.
    pub fn instant(
        &self,
        instrument: &Instrument,
        track: &mut SunTrack,
    ) -> Result<Instant, FieldError> {
        let mean_s = self.seconds - instrument.site().longitude_rad() * SECONDS_PER_RADIAN;
        let day_ms = day_of_date(self.date) * 86_400_000;
        let mut instant = Instant::from_unix_ms(day_ms + (mean_s * 1000.0).round() as i64)?;
        // Apparent time runs evenly to a part in three thousand: each round gains three digits.
        for _ in 0..3 {
            let goal_rad = (self.seconds - NOON_S) / SECONDS_PER_RADIAN;
            let missing_rad = wrapped(goal_rad - hour_angle_rad(instrument, track, instant));
            instant = instant.plus_seconds(missing_rad * SECONDS_PER_RADIAN)?;
        }
        Ok(instant)
    }

    /// The same time of day so many days later; the same day if the calendar ends.
    #[must_use]
    pub fn plus_days(self, days: i64) -> Self {
        let by = Days::new(days.unsigned_abs());
        let date =
            if days < 0 { self.date.checked_sub_days(by) } else { self.date.checked_add_days(by) };
        Self { date: date.unwrap_or(self.date), ..self }
    }

    /// Part of the way to another moment, in whole days and in time of day.
    #[must_use]
    pub fn towards(&self, goal: &Self, share: f64) -> Self {
        let days = (goal.date - self.date).num_days() as f64;
        let moved = self.plus_days((days * share).round() as i64);
        Self { seconds: self.seconds + (goal.seconds - self.seconds) * share, ..moved }
    }
}

/// Hour angle of the Sun as seen from the Earth's centre, which makes local apparent time, radians.
fn hour_angle_rad(instrument: &Instrument, track: &mut SunTrack, instant: Instant) -> f64 {
    let sun = track.at(&EarthTime::from_instant(instant));
    let local_rad = sun.sidereal_time_rad + instrument.site().longitude_rad();
    wrapped((local_rad - sun.right_ascension_rad).rem_euclid(TAU))
}

/// Days since 1970-01-01 of a date.
fn day_of_date(date: NaiveDate) -> i64 {
    i64::from(date.to_epoch_days())
}

/// The date so many days after 1970-01-01.
fn date_of_day(day: i64) -> NaiveDate {
    // Instants end long before the calendar does.
    i32::try_from(day).ok().and_then(NaiveDate::from_epoch_days).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::instrument::PRESETS;

    /// Instants are whole milliseconds.
    const MILLISECOND_S: f64 = 1.5e-3;

    #[test]
    fn a_dial_time_comes_back_from_its_instant_on_every_instrument() {
        let mut track = SunTrack::new();
        for preset in &PRESETS {
            let Ok(instrument) = preset.instrument() else { panic!("a preset that can't stand") };
            for (month, seconds) in [(1, 100.0), (2, 35_567.0), (6, 43_200.0), (11, 86_300.0)] {
                let date = NaiveDate::from_ymd_opt(2026, month, 12).unwrap_or_default();
                let asked = DialTime { date, seconds };
                let instant = asked.instant(&instrument, &mut track);
                let Ok(instant) = instant else { panic!("in range") };
                let got = DialTime::at(&instrument, &mut track, instant);
                assert_eq!(got.date, date, "{} {seconds}", preset.key);
                assert!((got.seconds - seconds).abs() < MILLISECOND_S, "{got:?} for {seconds}");
            }
        }
    }

    #[test]
    fn the_way_between_two_moments_ends_at_both() {
        let from = DialTime { date: NaiveDate::default(), seconds: 30_000.0 };
        let goal = from.plus_days(93);
        assert_eq!(from.towards(&goal, 0.0), from);
        assert_eq!(from.towards(&goal, 1.0), goal);
        assert_eq!(from.plus_days(-2).plus_days(2), from);
    }
}
