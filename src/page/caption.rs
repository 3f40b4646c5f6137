//! What is written under a picture that is saved.

use chrono::{Datelike, Timelike};

use super::workings::Workings;
use super::{describe, labels, typed};
use crate::words::{Words, figures};

/// The instrument and its place, the moment by the clock, and what is read.
#[must_use]
pub fn parts(words: &Words, workings: &Workings) -> [String; 3] {
    let name = labels::instrument(words, workings.choice());
    let place = labels::place(words, workings);
    let civil = typed::civil_at(workings.instrument(), workings.moment().instant);
    let date = civil.date();
    let (day, year) = (labels::day_and_month(words, date), date.year().to_string());
    let time = figures::clock(f64::from(civil.num_seconds_from_midnight()));
    [
        words.fill("save.instrument", &[("name", &name), ("place", &place)]),
        words.fill("save.moment", &[("day", &day), ("year", &year), ("time", &time)]),
        describe::reading(words, workings),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::state::Shown;

    #[test]
    fn a_caption_names_the_instrument_the_moment_and_the_reading() {
        let words = Words::english();
        let Ok(workings) = Workings::new(&Shown::first()) else { panic!("a first visit") };
        let [instrument, moment, reading] = parts(&words, &workings);
        assert_eq!(instrument, "Terrace dial, Larkmoor Court, 31.60° N");
        assert_eq!(moment, "18 October 2026, 9:54:34 by the clock");
        assert!(reading.contains("9 h 52 min 40 s"), "{reading}");
    }
}
