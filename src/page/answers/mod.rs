//! What visitors ask, answered for the instrument and the moment on the page.
//!
//! An answer is a few sentences and figures; the page itself is the drawing, taken to where the answer
//! is best seen.

mod figures;
mod telling;

use crate::words::Words;

pub use figures::{Figure, figures};
pub use telling::telling;

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Question {
    /// Why does the wall slope like this?
    Slope,
    /// Why is there no shadow at noon?
    Noon,
    /// Why is it not my watch's time?
    Watch,
    /// Why is it off by a minute or three?
    Off,
    /// Why is it so big?
    Size,
    /// Does it work in winter?
    Winter,
    /// Does it work in the other half of the world?
    Across,
    /// Does it work by moonlight?
    Moon,
}

impl Question {
    /// All questions, in the order in which the page offers them.
    pub const ALL: [Self; 8] = [
        Self::Slope,
        Self::Noon,
        Self::Watch,
        Self::Off,
        Self::Size,
        Self::Winter,
        Self::Across,
        Self::Moon,
    ];

    /// Short name, used in the page and in the words.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Slope => "slope",
            Self::Noon => "noon",
            Self::Watch => "watch",
            Self::Off => "off",
            Self::Size => "size",
            Self::Winter => "winter",
            Self::Across => "across",
            Self::Moon => "moon",
        }
    }

    /// Finds a question by its short name.
    #[must_use]
    pub fn by_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|question| question.key() == key)
    }

    /// The question in words.
    #[must_use]
    pub fn asked(self, words: &Words) -> String {
        words.say(&format!("answers.{}.asked", self.key())).to_owned()
    }

    /// The answer in words.
    #[must_use]
    pub fn told(self, words: &Words) -> String {
        words.say(&format!("answers.{}.told", self.key())).to_owned()
    }
}
