//! A date and a time of day typed by a person, by the clock of the place.

use chrono::{Datelike, NaiveDate, NaiveDateTime, NaiveTime, Timelike};

use crate::core::field::{FieldError, quoted};
use crate::core::instrument::Instrument;
use crate::core::time::Instant;

/// Years the page knows, for messages.
const DATES: &str = "from 1700-01-01 to 2200-12-31";

/// What the place's calendar and clock show at an instant, summer time included.
#[must_use]
pub fn civil_at(instrument: &Instrument, instant: Instant) -> NaiveDateTime {
    let ahead = chrono::TimeDelta::minutes(i64::from(instrument.clock_min(instant)));
    let greenwich = instant.civil();
    greenwich.checked_add_signed(ahead).unwrap_or(greenwich)
}

/// The instant at which the place's calendar and clock show this.
///
/// # Errors
/// When it is outside the years the page knows.
pub fn instant_of(instrument: &Instrument, civil: NaiveDateTime) -> Result<Instant, FieldError> {
    let local_ms = civil.and_utc().timestamp_millis();
    let at_offset = |minutes: i32| {
        Instant::from_unix_ms(local_ms - i64::from(minutes) * 60_000)
            .map_err(|_| FieldError::new("date", civil.date(), DATES))
    };
    let winter = at_offset(instrument.zone_offset().minutes())?;
    // An hour that summer time repeats is taken as its first; one it leaves out, as winter time.
    for ahead_min in instrument.summer_steps_min() {
        match at_offset(instrument.zone_offset().minutes() + ahead_min) {
            Ok(summer) if instrument.summer_min(summer) == ahead_min => return Ok(summer),
            _ => {}
        }
    }
    Ok(winter)
}

/// Reads a date `YYYY-MM-DD`.
///
/// # Errors
/// When it is no date, or outside the years the page knows.
pub fn date(text: &str) -> Result<NaiveDate, FieldError> {
    let refused = || FieldError::new("date", quoted(text), DATES);
    let mut parts = text.trim().splitn(3, '-');
    let mut number = |digits: std::ops::RangeInclusive<usize>| -> Option<u32> {
        let part = parts.next()?;
        let plain = digits.contains(&part.len()) && part.bytes().all(|b| b.is_ascii_digit());
        plain.then(|| part.parse().ok())?
    };
    let year = number(4..=6).and_then(|year| i32::try_from(year).ok());
    let (month, day) = (number(1..=2), number(1..=2));
    let (Some(year), Some(month), Some(day)) = (year, month, day) else { return Err(refused()) };
    let date = NaiveDate::from_ymd_opt(year, month, day).ok_or_else(refused)?;
    if (1700..=2200).contains(&date.year()) { Ok(date) } else { Err(refused()) }
}

/// Reads a time of day `HH:MM` or `HH:MM:SS`.
///
/// # Errors
/// When it is no time of day.
pub fn time(text: &str) -> Result<NaiveTime, FieldError> {
    let refused = || FieldError::new("time", quoted(text), "from 00:00:00 to 23:59:59");
    let mut parts = [0_u32; 3];
    let mut count = 0;
    for part in text.trim().split(':') {
        let plain = (1..=2).contains(&part.len()) && part.bytes().all(|b| b.is_ascii_digit());
        let slot = parts.get_mut(count).filter(|_| plain).ok_or_else(refused)?;
        *slot = part.parse().map_err(|_| refused())?;
        count += 1;
    }
    let [hours, minutes, seconds] = parts;
    NaiveTime::from_hms_opt(hours, minutes, seconds).filter(|_| count >= 2).ok_or_else(refused)
}

/// The value of the date field.
#[must_use]
pub fn date_field(civil: NaiveDateTime) -> String {
    iso(civil.date())
}

/// A date as `YYYY-MM-DD`.
#[must_use]
pub fn iso(date: NaiveDate) -> String {
    format!("{:04}-{:02}-{:02}", date.year(), date.month(), date.day())
}

/// The value of the time field.
#[must_use]
pub fn time_field(civil: NaiveDateTime) -> String {
    format!("{:02}:{:02}:{:02}", civil.hour(), civil.minute(), civil.second())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::instrument::Preset;

    #[test]
    fn dates_and_times_are_read_or_refused_with_the_range() {
        assert!(date("2026-10-18").is_ok());
        let told = |text| date(text).err().map(|error| error.to_string());
        assert_eq!(
            told("2300-01-01").as_deref(),
            Some("date is “2300-01-01”; it must be from 1700-01-01 to 2200-12-31")
        );
        for text in ["", "2026", "2026-02-30", "+026-01-01", "2026-1-1-1", "99999999999-1-1"] {
            assert!(date(text).is_err(), "{text} was taken for a date");
        }
        assert_eq!(time("09:54").ok(), NaiveTime::from_hms_opt(9, 54, 0));
        assert_eq!(time("23:59:59").ok(), NaiveTime::from_hms_opt(23, 59, 59));
        for text in ["", "9", "24:00", "12:60", "1:2:3:4", "ab:cd", "-1:00"] {
            assert!(time(text).is_err(), "{text} was taken for a time");
        }
    }

    #[test]
    fn a_civil_time_comes_back_from_its_instant_through_both_changes_of_clocks() {
        let Some(Ok(instrument)) = Preset::by_key("north-lawn").map(Preset::instrument) else {
            panic!("a preset")
        };
        for text in ["2026-01-15", "2026-03-29", "2026-07-01", "2026-10-25", "2026-12-31"] {
            for hour in [0, 1, 4, 12, 23] {
                let civil = date(text).ok().and_then(|date| date.and_hms_opt(hour, 30, 5));
                let Some(civil) = civil else { panic!("a date") };
                let instant = instant_of(&instrument, civil);
                let Ok(instant) = instant else { panic!("in range") };
                assert_eq!(civil_at(&instrument, instant), civil);
            }
        }
    }
}
