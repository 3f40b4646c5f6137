//! A value from outside that can't be used: which field, what was given, what is allowed.

use std::borrow::Cow;
use std::fmt;

use crate::core::time::TimeError;

/// One refused value, told so that a person can mend it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FieldError {
    /// The field, in words ("radius"), or its path in a file.
    pub field: Cow<'static, str>,
    /// What was given, with its unit.
    pub value: String,
    /// What is allowed, as the end of the sentence "it must be …".
    pub allowed: String,
}

impl FieldError {
    /// Builds an error from anything that can be shown.
    pub fn new(
        field: impl Into<Cow<'static, str>>,
        value: impl fmt::Display,
        allowed: impl fmt::Display,
    ) -> Self {
        Self { field: field.into(), value: value.to_string(), allowed: allowed.to_string() }
    }
}

impl fmt::Display for FieldError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} is {}; it must be {}", self.field, self.value, self.allowed)
    }
}

impl std::error::Error for FieldError {}

impl From<TimeError> for FieldError {
    fn from(error: TimeError) -> Self {
        let field = error.field();
        match error {
            TimeError::OutOfRange { value, range, .. } => Self::new(field, value, range),
            TimeError::Malformed { value, form, .. } => {
                Self::new(field, format_args!("“{value}”"), format_args!("written {form}"))
            }
            TimeError::LeapSecond { value } => {
                Self::new(field, format_args!("60 in “{value}”"), "00 to 59")
            }
        }
    }
}

/// Passes a finite number inside `min..=max`, or says why not.
///
/// # Errors
/// Returns the field, the value and the range when the number is outside, or is not a number.
pub fn in_range(
    field: &'static str,
    value: f64,
    (min, max): (f64, f64),
    unit: &str,
) -> Result<f64, FieldError> {
    if value.is_finite() && (min..=max).contains(&value) {
        return Ok(value);
    }
    Err(FieldError::new(
        field,
        format_args!("{value} {unit}"),
        format_args!("from {} to {} {unit}", trimmed(min), trimmed(max)),
    ))
}

/// Passes a number inside `min..=max`, or says why not, the range told in words.
///
/// # Errors
/// Returns the field, the value and the words when the number is outside, or is not a number.
pub fn within(
    field: &'static str,
    value: f64,
    (min, max): (f64, f64),
    allowed: &str,
) -> Result<f64, FieldError> {
    if (min..=max).contains(&value) {
        Ok(value)
    } else {
        Err(FieldError::new(field, value, allowed))
    }
}

/// A number with at most three decimals, without trailing zeros.
fn trimmed(value: f64) -> String {
    let text = format!("{value:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// What was given, in quotation marks and cut short.
#[must_use]
pub fn quoted(text: &str) -> String {
    const LONGEST: usize = 40;
    let mut short: String =
        text.chars().take(LONGEST).map(|c| if c.is_control() { ' ' } else { c }).collect();
    if text.chars().nth(LONGEST).is_some() {
        short.push('…');
    }
    format!("“{short}”")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_refusal_names_field_value_and_range() {
        let refused = in_range("radius", 0.01, (0.05, 50.0), "m");
        let sentence = refused.err().map(|error| error.to_string());
        assert_eq!(sentence.as_deref(), Some("radius is 0.01 m; it must be from 0.05 to 50 m"));
    }

    #[test]
    fn not_a_number_is_refused() {
        assert!(in_range("radius", f64::NAN, (0.0, 1.0), "m").is_err());
    }
}
