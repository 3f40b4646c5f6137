//! How far a clock is ahead of Greenwich.

use super::TimeError;
use std::fmt;
use std::str::FromStr;

/// What a local clock shows minus what a clock at Greenwich shows: −12:00 to +14:00, in minutes.
///
/// Summer time is part of it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CivilOffset {
    minutes: i16,
}

impl CivilOffset {
    /// No offset: the clock at Greenwich.
    pub const ZERO: Self = Self { minutes: 0 };
    const RANGE: &'static str = "−12:00 to +14:00";
    const FORM: &'static str = "as Z or ±hh:mm, like +05:30";

    /// An offset of `minutes`, positive east.
    ///
    /// # Errors
    /// [`TimeError::OutOfRange`] outside −720 to +840 minutes.
    pub fn from_minutes(minutes: i32) -> Result<Self, TimeError> {
        match i16::try_from(minutes) {
            Ok(minutes @ -720..=840) => Ok(Self { minutes }),
            _ => Err(TimeError::OutOfRange {
                field: "offset",
                value: signed_clock(minutes),
                range: Self::RANGE,
            }),
        }
    }

    /// Minutes, positive east.
    #[must_use]
    pub fn minutes(self) -> i32 {
        self.minutes.into()
    }

    /// Seconds, positive east.
    #[must_use]
    pub fn seconds(self) -> f64 {
        f64::from(self.minutes) * 60.0
    }
}

impl fmt::Display for CivilOffset {
    /// `+05:30`; a true minus sign is not used, so that the text can be read back anywhere.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&signed_clock(self.minutes()))
    }
}

fn signed_clock(minutes: i32) -> String {
    let sign = if minutes < 0 { '-' } else { '+' };
    let size = minutes.unsigned_abs();
    format!("{sign}{:02}:{:02}", size / 60, size % 60)
}

impl FromStr for CivilOffset {
    type Err = TimeError;

    /// Reads `Z` or `±hh:mm`; the minus may be a hyphen or the true sign.
    fn from_str(text: &str) -> Result<Self, TimeError> {
        if matches!(text, "Z" | "z") {
            return Ok(Self::ZERO);
        }
        let malformed =
            || TimeError::Malformed { field: "offset", value: text.into(), form: Self::FORM };
        let (sign, rest) = match text.strip_prefix(['-', '−']) {
            Some(rest) => (-1, rest),
            None => (1, text.strip_prefix('+').ok_or_else(malformed)?),
        };
        let (hours, minutes) = rest.split_once(':').ok_or_else(malformed)?;
        let hours = two_digits(hours).ok_or_else(malformed)?;
        let minutes = two_digits(minutes).ok_or_else(malformed)?;
        if minutes > 59 {
            return Err(TimeError::OutOfRange {
                field: "offset minutes",
                value: minutes.to_string(),
                range: "00 to 59",
            });
        }
        Self::from_minutes(sign * (hours * 60 + minutes))
    }
}

fn two_digits(text: &str) -> Option<i32> {
    let plain = text.len() == 2 && text.bytes().all(|b| b.is_ascii_digit());
    plain.then(|| text.parse().ok()).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn offsets_are_read_and_written() {
        for text in ["+00:00", "-12:00", "+14:00", "+05:30", "-03:30"] {
            let read = CivilOffset::from_str(text).map(|o| o.to_string());
            assert_eq!(read.as_deref(), Ok(text));
        }
        assert_eq!(CivilOffset::from_str("−00:30"), CivilOffset::from_minutes(-30));
        assert_eq!(CivilOffset::from_str("Z"), Ok(CivilOffset::ZERO));
    }

    #[test]
    fn errors_name_field_value_and_range() {
        let message =
            |text| CivilOffset::from_str(text).map_or_else(|e| e.to_string(), |o| o.to_string());
        assert_eq!(message("+14:01"), "offset is +14:01; it must be −12:00 to +14:00");
        assert_eq!(message("+05:75"), "offset minutes is 75; it must be 00 to 59");
        assert_eq!(
            message("5.5"),
            "offset is “5.5”; it must be written as Z or ±hh:mm, like +05:30"
        );
    }
}
