//! What can be wrong with a time that somebody typed or computed.

use std::error::Error;
use std::fmt;

/// Why a text or a number is not a time this program can use.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum TimeError {
    /// A value outside its range; each text is ready to be shown.
    OutOfRange {
        /// Which part of the time, such as `month`.
        field: &'static str,
        /// The value that was given.
        value: String,
        /// The values allowed, such as `01 to 12`.
        range: &'static str,
    },
    /// The text does not have the form of a time.
    Malformed {
        /// What was being read, such as `instant`.
        field: &'static str,
        /// The text that was given.
        value: String,
        /// The form expected, with an example.
        form: &'static str,
    },
    /// Second 60: a leap second cannot be named on a clock that counts 86 400 s a day.
    LeapSecond {
        /// The text that was given.
        value: String,
    },
}

impl TimeError {
    /// The part of the time that is wrong, such as `month`.
    #[must_use]
    pub fn field(&self) -> &'static str {
        match self {
            Self::OutOfRange { field, .. } | Self::Malformed { field, .. } => field,
            Self::LeapSecond { .. } => "second",
        }
    }
}

impl fmt::Display for TimeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OutOfRange { field, value, range } => {
                write!(f, "{field} is {value}; it must be {range}")
            }
            Self::Malformed { field, value, form } => {
                write!(f, "{field} is “{value}”; it must be written {form}")
            }
            Self::LeapSecond { value } => write!(
                f,
                "second is 60 in “{value}”; it must be 00 to 59, because instants count 86 400 \
                 seconds a day and have no name for a leap second: use second 59 of the same \
                 minute or second 00 of the next"
            ),
        }
    }
}

impl Error for TimeError {}
