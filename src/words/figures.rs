//! How times, angles and lengths are written: with ASCII digits, which [`Words::figure`] turns into
//! those of the language.

use super::Words;

/// Minus sign as typeset.
const MINUS: char = '−';

/// Time of day `9:52:40` from seconds since midnight, rounded to a second, brought into one day.
#[must_use]
pub fn clock(seconds: f64) -> String {
    let whole = (seconds.round() as i64).rem_euclid(86_400);
    format!("{}:{:02}:{:02}", whole / 3600, whole / 60 % 60, whole % 60)
}

/// A correction `+16:36` or `−1:02:03`, rounded to a second.
#[must_use]
pub fn signed_clock(seconds: f64) -> String {
    let whole = seconds.round() as i64;
    let sign = if whole < 0 { MINUS } else { '+' };
    let whole = whole.abs();
    let (hours, minutes, rest) = (whole / 3600, whole / 60 % 60, whole % 60);
    if hours > 0 {
        format!("{sign}{hours}:{minutes:02}:{rest:02}")
    } else {
        format!("{sign}{minutes}:{rest:02}")
    }
}

/// An angle `38° 44′` from radians, rounded to a minute of arc; a minus sign when below zero.
#[must_use]
pub fn degrees(angle_rad: f64) -> String {
    let arcmin = (angle_rad.to_degrees() * 60.0).round() as i64;
    let sign = if arcmin < 0 { "−" } else { "" };
    let arcmin = arcmin.abs();
    format!("{sign}{}° {:02}′", arcmin / 60, arcmin % 60)
}

/// The same with a plus sign when above zero.
#[must_use]
pub fn signed_degrees(angle_rad: f64) -> String {
    let text = degrees(angle_rad);
    if text.starts_with(MINUS) { text } else { format!("+{text}") }
}

/// A length of time `2 min 10 s` or `45 s`, rounded to a second.
#[must_use]
pub fn duration(words: &Words, seconds: f64) -> String {
    let whole = seconds.abs().round() as u64;
    let parts = match (whole / 3600, whole / 60 % 60, whole % 60) {
        (0, 0, s) => [None, Some((s, "figures.s"))],
        (0, m, 0) => [Some((m, "figures.min")), None],
        (0, m, s) => [Some((m, "figures.min")), Some((s, "figures.s"))],
        (h, 0, _) => [Some((h, "figures.h")), None],
        (h, m, _) => [Some((h, "figures.h")), Some((m, "figures.min"))],
    };
    let parts = parts.into_iter().flatten();
    let parts: Vec<_> = parts.map(|(n, unit)| with_unit(words, &n.to_string(), unit)).collect();
    parts.join(" ")
}

/// A length: millimetres below a metre, else metres.
#[must_use]
pub fn length(words: &Words, metres: f64) -> String {
    if metres.abs() < 0.9995 {
        with_unit(words, &format!("{:.0}", metres * 1000.0), "figures.mm")
    } else {
        with_unit(words, &format!("{metres:.2}"), "figures.m")
    }
}

/// A number with its unit, which is told by its key.
#[must_use]
pub fn with_unit(words: &Words, number: &str, unit: &str) -> String {
    [&words.figure(number), " ", words.say(unit)].concat()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounding_carries_over_and_signs_are_kept() {
        assert_eq!(clock(86_399.6), "0:00:00");
        assert_eq!(clock(35_560.0), "9:52:40");
        assert_eq!(signed_clock(-889.4), "−14:49");
        assert_eq!(signed_clock(0.2), "+0:00");
        assert_eq!(degrees((-9.999_f64).to_radians()), "−10° 00′");
        assert_eq!(signed_degrees(0.5_f64.to_radians()), "+0° 30′");
        let words = Words::english();
        assert_eq!(duration(&words, 130.0), "2 min 10 s");
        assert_eq!(duration(&words, 7_200.0), "2 h");
        assert_eq!(length(&words, 0.0274), "27 mm");
        assert_eq!(length(&words, 14.2), "14.20 m");
    }
}
