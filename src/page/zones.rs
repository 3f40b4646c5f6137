//! Where the page asks what the clocks of a named time zone show.

use std::fmt;

/// Somebody who knows the time zones by name; the browser does.
pub trait Zones {
    /// Clock time minus universal time at an instant in Unix milliseconds, minutes; `None` for a
    /// name that means nothing here.
    fn offset_min(&self, zone: &str, unix_ms: i64) -> Option<i32>;
}

/// Not a part of the trait: what each implementor holds would be written out by the program.
impl fmt::Debug for dyn Zones {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Zones")
    }
}

/// Nobody: no name is understood.
#[derive(Debug)]
pub struct NoZones;

impl Zones for NoZones {
    fn offset_min(&self, _: &str, _: i64) -> Option<i32> {
        None
    }
}

/// The offset, in minutes, at the end of a text like `10/18/2026, GMT+03:30`. Seconds, which
/// clocks had before there were zones, are rounded.
#[must_use]
pub fn offset_in(text: &str) -> Option<i32> {
    let (_, offset) = text.rsplit_once("GMT")?;
    if offset.is_empty() {
        return Some(0);
    }
    let sign = if offset.starts_with('+') { 1 } else { -1 };
    let mut parts = offset.trim_start_matches(['+', '-', '−']).split(':').map(str::parse::<i32>);
    let hours = parts.next()?.ok()?;
    let mut next = || parts.next().unwrap_or(Ok(0)).ok();
    let (minutes, seconds) = (next()?, next()?);
    Some(sign * (hours * 60 + minutes + i32::from(seconds >= 30)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn offsets_are_read_from_what_a_browser_writes() {
        for (text, minutes) in [
            ("10/18/2026, GMT+03:30", Some(210)),
            ("10/18/2026, GMT", Some(0)),
            ("1/1/1850, GMT-07:52:58", Some(-473)),
            ("1/1/2026, GMT−05:00", Some(-300)),
            ("1/1/2026, GMT+2", Some(120)),
            ("1/1/2026, noon", None),
            ("GMT+x", None),
        ] {
            assert_eq!(offset_in(text), minutes, "{text}");
        }
    }
}
