//! The tour that comes with the project: what it shows stands in a file, what it says in the words.

use super::{Stop, Tour, file};
use crate::words::Words;

/// What its stops show, a file like any other but for the texts.
const LARKMOOR: &str = include_str!("larkmoor.json");

/// The tour of Larkmoor Court, told in a language.
#[must_use]
pub fn tour(words: &Words) -> Tour {
    // The file is part of the program, and a test reads it.
    let shown = file::read(LARKMOOR).unwrap_or_default();
    let told = |(stop, number): (Stop, u32)| Stop {
        caption: words.say(&format!("tour.shipped.{number:02}.caption")).to_owned(),
        notes: words.say(&format!("tour.shipped.{number:02}.notes")).to_owned(),
        ..stop
    };
    Tour {
        name: words.say("tour.shipped.name").to_owned(),
        stops: shown.stops.into_iter().zip(1..).map(told).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_can_be_read_and_says_something_at_every_stop() {
        let stops = file::read(LARKMOOR).unwrap_or_else(|faults| panic!("{faults:?}")).stops;
        assert!(stops.len() >= 10);
        let bare = |stop: &Stop| stop.caption.is_empty() && stop.notes.is_empty();
        assert!(stops.iter().all(bare), "texts belong into the words");
        let words = Words::english();
        let tour = tour(&words);
        assert_eq!(tour.stops.len(), stops.len());
        for (index, stop) in tour.stops.iter().enumerate() {
            // A key without a text stands for itself.
            let bare = stop.caption.starts_with("tour.") || stop.notes.starts_with("tour.");
            assert!(!bare, "nothing is said at stop {}", index + 1);
        }
        let uses_the_lens = |number: usize| tour.stops[number - 1].uses_the_lens();
        assert!([5, 7].into_iter().all(uses_the_lens), "a day, and the limits");
        assert!(![8, 9, 10].into_iter().any(uses_the_lens), "the steps to the clock");
        let behind = format!("tour.shipped.{:02}.", stops.len() + 1);
        assert!(!words.keys().any(|key| key.starts_with(&behind)), "more words than stops");
    }
}
