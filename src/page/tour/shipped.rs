//! The tour that comes with the project.

use super::{Tour, file};

/// Its file, written like any other.
const LARKMOOR: &str = include_str!("larkmoor.json");

/// The tour of Larkmoor Court.
#[must_use]
pub fn tour() -> Tour {
    // The file is part of the program, and a test reads it.
    file::read(LARKMOOR).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_can_be_read_and_says_something_at_every_stop() {
        let tour = file::read(LARKMOOR).unwrap_or_else(|faults| panic!("{faults:?}"));
        assert!(tour.stops.len() >= 10);
        for stop in &tour.stops {
            assert!(!stop.caption.is_empty() && !stop.notes.is_empty(), "{stop:?}");
            // What the back row reads in one breath.
            assert!(stop.caption.chars().count() <= 190, "{}", stop.caption);
        }
    }
}
