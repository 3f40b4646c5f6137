//! Instants as ISO 8601 text.

use super::{CivilOffset, Instant, TimeError};
use crate::core::decimal;
use chrono::{NaiveDate, NaiveTime};
use std::fmt;
use std::str::FromStr;

const FORM: &str = "as a date and a time with Z or an offset, like 2026-10-18T06:24:34.5Z or \
                    2026-10-18T11:54+05:30";

impl fmt::Display for Instant {
    /// ISO 8601 with `Z`; the fraction of a second is left out when it is zero.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // chrono documents the debug form of a date and time as its ISO 8601 form.
        write!(f, "{:?}Z", self.civil())
    }
}

impl FromStr for Instant {
    type Err = TimeError;

    /// Reads `YYYY-MM-DDThh:mm`, seconds and a decimal fraction optional, then `Z` or `±hh:mm`.
    ///
    /// The fraction is rounded to the millisecond. Second 60 is refused.
    fn from_str(text: &str) -> Result<Self, TimeError> {
        let (date, rest) = text.split_once(['T', 't', ' ']).ok_or(malformed(text))?;
        let zone_at = rest.find(['Z', 'z', '+', '-', '−']).ok_or(malformed(text))?;
        let (clock, zone) = rest.split_at(zone_at);
        let date = read_date(date, text)?;
        let (time, ms) = read_clock(clock, text)?;
        let offset = CivilOffset::from_str(zone)?;
        let local_ms = date.and_time(time).and_utc().timestamp_millis() + ms;
        Instant::from_unix_ms(local_ms - i64::from(offset.minutes()) * 60_000)
    }
}

fn malformed(text: &str) -> TimeError {
    TimeError::Malformed { field: "instant", value: text.into(), form: FORM }
}

fn read_date(date: &str, text: &str) -> Result<NaiveDate, TimeError> {
    let mut parts = date.splitn(3, '-');
    let year = digits(parts.next(), 4, text)?;
    let month = digits(parts.next(), 2, text)?;
    let day = digits(parts.next(), 2, text)?;
    within("year", year, 1700..=2200, "1700 to 2200")?;
    within("month", month, 1..=12, "01 to 12")?;
    within("day", day, 1..=31, "01 to 31")?;
    NaiveDate::from_ymd_opt(year as i32, month, day).ok_or_else(|| TimeError::OutOfRange {
        field: "day",
        value: format!("{day:02} in {year}-{month:02}"),
        range: "a day that this month has",
    })
}

/// The time to the whole second, and the fraction in milliseconds (1000 if it rounds up).
fn read_clock(clock: &str, text: &str) -> Result<(NaiveTime, i64), TimeError> {
    let mut parts = clock.splitn(3, ':');
    let hour = digits(parts.next(), 2, text)?;
    let minute = digits(parts.next(), 2, text)?;
    let (second, ms) = match parts.next() {
        None => (0, 0),
        Some(seconds) => read_seconds(seconds, text)?,
    };
    within("hour", hour, 0..=23, "00 to 23")?;
    within("minute", minute, 0..=59, "00 to 59")?;
    if second == 60 {
        return Err(TimeError::LeapSecond { value: text.into() });
    }
    within("second", second, 0..=59, "00 to 59")?;
    let time = NaiveTime::from_hms_opt(hour, minute, second).ok_or(malformed(text))?;
    Ok((time, ms))
}

fn read_seconds(seconds: &str, text: &str) -> Result<(u32, i64), TimeError> {
    let (whole, fraction) = seconds.split_once(['.', ',']).unwrap_or((seconds, "0"));
    let second = digits(Some(whole), 2, text)?;
    if fraction.is_empty() || !fraction.bytes().all(|b| b.is_ascii_digit()) {
        return Err(malformed(text));
    }
    let fraction = decimal::parse(&format!("0.{fraction}")).ok_or_else(|| malformed(text))?;
    Ok((second, (fraction * 1000.0).round() as i64))
}

/// Exactly `count` decimal digits.
fn digits(part: Option<&str>, count: usize, text: &str) -> Result<u32, TimeError> {
    let part = part.ok_or_else(|| malformed(text))?;
    if part.len() != count || !part.bytes().all(|b| b.is_ascii_digit()) {
        return Err(malformed(text));
    }
    part.parse().map_err(|_| malformed(text))
}

fn within(
    field: &'static str,
    value: u32,
    allowed: std::ops::RangeInclusive<u32>,
    range: &'static str,
) -> Result<(), TimeError> {
    if allowed.contains(&value) {
        return Ok(());
    }
    Err(TimeError::OutOfRange { field, value: format!("{value:02}"), range })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn round_trip(text: &str) -> String {
        Instant::from_str(text).map_or_else(|e| e.to_string(), |t| t.to_string())
    }

    #[test]
    fn texts_with_z_and_with_offsets_are_read() {
        for (text, expected) in [
            ("2026-10-18T06:24:34.5Z", "2026-10-18T06:24:34.500Z"),
            ("2026-10-18T06:24Z", "2026-10-18T06:24:00Z"),
            ("2026-10-18 11:54:34+05:30", "2026-10-18T06:24:34Z"),
            ("2026-10-18T01:24:34-05:00", "2026-10-18T06:24:34Z"),
            ("2026-12-31T23:59:59.9996Z", "2027-01-01T00:00:00Z"),
            ("1700-01-01T00:00:00Z", "1700-01-01T00:00:00Z"),
        ] {
            assert_eq!(round_trip(text), expected, "{text}");
        }
    }

    #[test]
    fn errors_name_field_value_and_range() {
        for (text, expected) in [
            ("2026-13-18T06:24:34Z", "month is 13; it must be 01 to 12"),
            ("2026-02-29T06:24:34Z", "day is 29 in 2026-02; it must be a day that this month has"),
            ("1699-12-31T06:24:34Z", "year is 1699; it must be 1700 to 2200"),
            ("2026-10-18T24:00:00Z", "hour is 24; it must be 00 to 23"),
            (
                "1700-01-01T00:00+01:00",
                "instant is 1699-12-31T23:00:00Z; it must be 1700-01-01T00:00:00Z to \
                 2200-12-31T23:59:59.999Z",
            ),
        ] {
            assert_eq!(round_trip(text), expected, "{text}");
        }
    }

    #[test]
    fn second_sixty_is_refused_with_a_reason() {
        let message = round_trip("2016-12-31T23:59:60Z");
        assert!(message.contains("leap second"), "{message}");
    }

    #[test]
    fn other_texts_are_malformed() {
        for text in [
            "",
            "T",
            "now",
            "2026-10-18",
            "2026-10-18T06:24",
            "26-1-1T0:0Z",
            "２０２６-10-18T06:24Z",
            "2026-10-18T06:24:34.Z",
            "2026-10-18T06:24:+34Z",
        ] {
            assert!(matches!(Instant::from_str(text), Err(TimeError::Malformed { .. })), "{text}");
        }
    }
}
