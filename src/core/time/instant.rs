//! A moment, as a count of milliseconds.

use super::{SECONDS_PER_DAY, TimeError};
use chrono::{DateTime, NaiveDate, NaiveDateTime, NaiveTime};

/// A moment between 1700-01-01T00:00:00.000Z and 2200-12-31T23:59:59.999Z, to the millisecond.
///
/// It counts as Unix time does, 86 400 s a day, and is UTC or UT1 according to its date: see the
/// [module](super). Its text form is ISO 8601, `2026-10-18T06:24:34.500Z`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Instant {
    unix_ms: i64,
}

impl Instant {
    /// The first moment supported, 1700-01-01T00:00:00.000Z.
    pub const FIRST: Self = Self { unix_ms: -8_520_336_000_000 };
    /// The last moment supported, 2200-12-31T23:59:59.999Z.
    pub const LAST: Self = Self { unix_ms: 7_289_654_399_999 };
    /// The span of instants, for messages.
    pub(super) const RANGE: &'static str = "1700-01-01T00:00:00Z to 2200-12-31T23:59:59.999Z";

    /// Midnight at the beginning of a day counted from 1970-01-01, for constants of this module.
    pub(super) const fn at_unix_day(day: i64) -> Self {
        Self { unix_ms: day * MS_PER_DAY }
    }

    /// The moment `unix_ms` milliseconds after 1970-01-01T00:00Z.
    ///
    /// # Errors
    /// [`TimeError::OutOfRange`] outside [`Instant::FIRST`] to [`Instant::LAST`].
    pub fn from_unix_ms(unix_ms: i64) -> Result<Self, TimeError> {
        let instant = Self { unix_ms };
        if (Self::FIRST..=Self::LAST).contains(&instant) {
            Ok(instant)
        } else {
            Err(out_of_range(unix_ms))
        }
    }

    /// The moment nearest to `unix_ms` milliseconds after 1970-01-01T00:00Z that is in range.
    #[must_use]
    pub fn from_unix_ms_saturating(unix_ms: i64) -> Self {
        Self { unix_ms }.clamp(Self::FIRST, Self::LAST)
    }

    /// The moment at which clocks that read UTC (or UT1, see the [module](super)) show `civil`.
    ///
    /// # Errors
    /// [`TimeError::OutOfRange`] outside [`Instant::FIRST`] to [`Instant::LAST`].
    pub fn from_civil(civil: NaiveDateTime) -> Result<Self, TimeError> {
        Self::from_unix_ms(civil.and_utc().timestamp_millis())
    }

    /// Midnight at the beginning of `date`.
    ///
    /// # Errors
    /// [`TimeError::OutOfRange`] outside [`Instant::FIRST`] to [`Instant::LAST`].
    pub fn from_date(date: NaiveDate) -> Result<Self, TimeError> {
        Self::from_civil(date.and_time(NaiveTime::MIN))
    }

    /// Milliseconds since 1970-01-01T00:00Z.
    #[must_use]
    pub const fn unix_ms(self) -> i64 {
        self.unix_ms
    }

    /// The date and time of day at Greenwich.
    #[must_use]
    pub fn civil(self) -> NaiveDateTime {
        DateTime::from_timestamp_millis(self.unix_ms).unwrap_or_default().naive_utc()
    }

    /// The whole days since 1970-01-01 and the rest of the day as a fraction in [0, 1).
    #[must_use]
    pub fn days_and_fraction(self) -> (i64, f64) {
        let day = self.unix_ms.div_euclid(MS_PER_DAY);
        let rest = self.unix_ms.rem_euclid(MS_PER_DAY);
        (day, rest as f64 / MS_PER_DAY as f64)
    }

    /// The moment `seconds` later (earlier when negative), rounded to the millisecond.
    ///
    /// # Errors
    /// [`TimeError::OutOfRange`] if that is out of range or `seconds` is not a number.
    pub fn plus_seconds(self, seconds: f64) -> Result<Self, TimeError> {
        if seconds.is_nan() {
            return Err(TimeError::OutOfRange {
                field: "seconds",
                value: "not a number".into(),
                range: "a number",
            });
        }
        Self::from_unix_ms(self.shifted_ms(seconds))
    }

    /// The moment `seconds` later, or the end of the range if that lies beyond it.
    ///
    /// Not a number counts as zero.
    #[must_use]
    pub fn saturating_plus_seconds(self, seconds: f64) -> Self {
        Self::from_unix_ms_saturating(self.shifted_ms(seconds))
    }

    /// Seconds from `earlier` to this moment; negative if it is in fact later.
    #[must_use]
    pub fn seconds_since(self, earlier: Self) -> f64 {
        (self.unix_ms - earlier.unix_ms) as f64 / 1000.0
    }

    /// The same by a clock that shows whole seconds, rounded: what a person reckons from its two times.
    #[must_use]
    pub fn whole_seconds_since(self, earlier: Self) -> i64 {
        let [to_s, from_s] = [self, earlier].map(|it| (it.unix_ms + 500).div_euclid(1000));
        to_s - from_s
    }

    /// The count `seconds` later; the cast from `f64` saturates and turns not-a-number into 0.
    fn shifted_ms(self, seconds: f64) -> i64 {
        self.unix_ms.saturating_add((seconds * 1000.0).round() as i64)
    }
}

const MS_PER_DAY: i64 = SECONDS_PER_DAY as i64 * 1000;

fn out_of_range(unix_ms: i64) -> TimeError {
    let value = DateTime::from_timestamp_millis(unix_ms)
        .map_or_else(|| format!("{unix_ms} ms from 1970"), |t| format!("{:?}Z", t.naive_utc()));
    TimeError::OutOfRange { field: "instant", value, range: Instant::RANGE }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_range_is_the_one_its_documentation_names() {
        assert_eq!(Instant::FIRST.to_string(), "1700-01-01T00:00:00Z");
        assert_eq!(Instant::LAST.to_string(), "2200-12-31T23:59:59.999Z");
    }

    #[test]
    fn whole_seconds_are_those_between_two_times_as_a_clock_shows_them() {
        let at = |unix_ms| Instant::from_unix_ms(unix_ms).unwrap_or(Instant::LAST);
        // 42.4 s and 173.4 s are shown as 42 and 173, 41.5 s as 42.
        assert_eq!(at(173_400).whole_seconds_since(at(42_400)), 131);
        assert_eq!(at(42_400).whole_seconds_since(at(41_500)), 0);
        // Before 1970 the rounding goes the same way.
        assert_eq!(at(-500).whole_seconds_since(at(-600)), 1);
        assert_eq!(at(-600).whole_seconds_since(at(-500)), -1);
    }

    #[test]
    fn beyond_the_range_is_an_error_that_names_value_and_range() {
        let late = Instant::LAST.plus_seconds(0.001);
        let message = late.map_or_else(|e| e.to_string(), |t| t.to_string());
        assert_eq!(
            message,
            "instant is 2201-01-01T00:00:00Z; it must be 1700-01-01T00:00:00Z to \
             2200-12-31T23:59:59.999Z"
        );
        assert!(Instant::FIRST.plus_seconds(-0.001).is_err());
        assert!(Instant::FIRST.plus_seconds(f64::NAN).is_err());
        assert!(Instant::FIRST.plus_seconds(f64::INFINITY).is_err());
    }

    #[test]
    fn saturating_shifts_stop_at_the_ends() {
        assert_eq!(Instant::LAST.saturating_plus_seconds(f64::INFINITY), Instant::LAST);
        assert_eq!(Instant::FIRST.saturating_plus_seconds(-1e300), Instant::FIRST);
    }
}
