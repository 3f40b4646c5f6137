//! What the speaker's window and the projector's tell each other: one text a message.
//!
//! The speaker's window decides when something comes by itself; both may step, and both may be
//! taken in hand.

use super::moment::Moment;
use super::{Tour, file};

/// A message.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Word {
    /// A projector's window is there, and asks what to show.
    Ask,
    /// A projector's window is there.
    Here,
    /// A projector's window goes.
    Gone,
    /// A tour is run, and is at this stop. Its notes stay behind.
    Tour(usize, Tour),
    /// The tour is at this stop.
    Stop(usize),
    /// The page shows this.
    Moment(Moment),
    /// The page's clock runs, or stands.
    Play(bool),
    /// The tour is over.
    End,
}

impl Word {
    /// The text of a message.
    #[must_use]
    pub fn write(&self) -> String {
        match self {
            Self::Ask => "ask".to_owned(),
            Self::Here => "here".to_owned(),
            Self::Gone => "gone".to_owned(),
            Self::Tour(at, tour) => format!("tour {at} {}", file::write(&tour.without_notes())),
            Self::Stop(at) => format!("stop {at}"),
            Self::Moment(moment) => format!("moment {}", moment.text()),
            Self::Play(true) => "play on".to_owned(),
            Self::Play(false) => "play off".to_owned(),
            Self::End => "end".to_owned(),
        }
    }

    /// Reads a message; `None` if it is none.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let (verb, rest) = text.split_once(' ').unwrap_or((text, ""));
        match (verb, rest) {
            ("ask", "") => Some(Self::Ask),
            ("here", "") => Some(Self::Here),
            ("gone", "") => Some(Self::Gone),
            ("tour", rest) => {
                let (at, tour) = rest.split_once(' ')?;
                Some(Self::Tour(at.parse().ok()?, file::read(tour).ok()?))
            }
            ("stop", at) => at.parse().ok().map(Self::Stop),
            ("moment", text) => Moment::read(text).ok().map(Self::Moment),
            ("play", "on") => Some(Self::Play(true)),
            ("play", "off") => Some(Self::Play(false)),
            ("end", "") => Some(Self::End),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::tour::Stop;

    #[test]
    fn every_message_is_read_as_it_was_written_but_for_the_notes() {
        let stop = Stop {
            moment: Moment::read("i=great&view=pole").unwrap_or_default(),
            caption: "Look along the slope.".to_owned(),
            ..Stop::default()
        };
        let noted = Stop { notes: "Ask who has seen it.".to_owned(), ..stop.clone() };
        let tour = |stop: &Stop| Tour { name: "Ours".to_owned(), stops: vec![stop.clone()] };
        for word in [
            Word::Ask,
            Word::Here,
            Word::Gone,
            Word::Tour(3, tour(&stop)),
            Word::Stop(12),
            Word::Moment(stop.moment.clone()),
            Word::Moment(Moment::default()),
            Word::Play(true),
            Word::Play(false),
            Word::End,
        ] {
            assert_eq!(Word::read(&word.write()), Some(word));
        }
        let sent = Word::Tour(0, tour(&noted)).write();
        assert!(!sent.contains("Ask who"), "{sent}");
        assert_eq!(Word::read(&sent), Some(Word::Tour(0, tour(&stop))));
    }

    #[test]
    fn nonsense_is_no_message() {
        for text in ["", "stop", "stop -1", "stop x", "tour 1", "tour 1 {}", "moment i=x", "asks"] {
            assert_eq!(Word::read(text), None, "{text}");
        }
    }
}
