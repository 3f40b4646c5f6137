//! The reading as a person counts it: hours, quarters, minutes, parts.

use crate::core::instrument::Level;
use crate::core::reading::Reading;
use crate::words::Words;

/// One term of the count: `45`, "3 quarters".
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Term {
    /// What it adds, in its own unit: hours, minutes or seconds.
    pub figure: String,
    /// How it was counted.
    pub label: String,
}

/// The terms of a reading, hours first.
#[must_use]
pub fn terms(words: &Words, reading: &Reading) -> Vec<Term> {
    reading.counted.iter().map(|&(level, count)| term(words, level, count)).collect()
}

/// One level of the count.
fn term(words: &Words, level: Level, count: u32) -> Term {
    let division_s = level.division_s;
    let unit_s = if division_s.is_multiple_of(3600) {
        3600
    } else if division_s.is_multiple_of(60) {
        60
    } else {
        1
    };
    let size = division_s / unit_s;
    let figure = (count * size).to_string();
    let key = label_key(unit_s, size, count == 1);
    let values = [("n", count.to_string()), ("size", size.to_string())];
    let values: Vec<(&str, &str)> = values.iter().map(|(name, n)| (*name, n.as_str())).collect();
    Term { figure: words.figure(&figure).into_owned(), label: words.fill(key, &values) }
}

/// What a level is called: divisions of `size` units, each unit so many seconds.
fn label_key(unit_s: u32, size: u32, one: bool) -> &'static str {
    match (unit_s, size, one) {
        (3600, _, true) => "reading.hour",
        (3600, _, false) => "reading.hours",
        (60, 15, true) => "reading.quarter",
        (60, 15, false) => "reading.quarters",
        (60, 1, true) => "reading.minute",
        (60, 1, false) => "reading.minutes",
        (60, _, true) => "reading.minutes-part",
        (60, _, false) => "reading.minutes-parts",
        (_, 1, true) => "reading.second",
        (_, 1, false) => "reading.seconds",
        (_, _, true) => "reading.seconds-part",
        (_, _, false) => "reading.seconds-parts",
    }
}

/// A time as a person says it: "9 h 52 min 40 s".
#[must_use]
pub fn spoken(words: &Words, seconds: f64) -> String {
    let whole = (seconds.round() as i64).rem_euclid(86_400);
    let [h, min, s] = [whole / 3600, whole / 60 % 60, whole % 60].map(|part| part.to_string());
    words.fill("reading.spoken", &[("h", &h), ("min", &min), ("s", &s)])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::instrument::PRESETS;

    /// The count of 9:52:40, label by label.
    fn counted(preset: usize, seconds: u32) -> Vec<(String, String)> {
        let Ok(instrument) = PRESETS[preset].instrument() else { panic!("a preset") };
        let words = Words::english();
        let levels = instrument.graduation().count(seconds);
        levels
            .into_iter()
            .map(|(level, count)| term(&words, level, count))
            .map(|term| (term.figure, term.label))
            .collect()
    }

    #[test]
    fn each_graduation_is_counted_in_its_own_way() {
        let pairs = |list: &[(&str, &str)]| -> Vec<(String, String)> {
            list.iter().map(|&(a, b)| (a.to_owned(), b.to_owned())).collect()
        };
        let nine = 9 * 3600 + 52 * 60;
        assert_eq!(
            counted(0, nine + 40),
            pairs(&[
                ("9", "hours"),
                ("45", "3 quarters"),
                ("7", "minutes"),
                ("40", "seconds, 2 parts")
            ])
        );
        assert_eq!(
            counted(1, nine + 46),
            pairs(&[
                ("9", "hours"),
                ("45", "3 quarters"),
                ("7", "minutes"),
                ("40", "seconds, 4 parts"),
                ("6", "seconds, 3 parts"),
            ])
        );
        assert_eq!(
            counted(3, nine),
            pairs(&[("9", "hours"), ("50", "10 × 5 min"), ("2", "minutes")])
        );
        assert_eq!(counted(4, 3600 + 960)[0].1, "hour");
    }
}
