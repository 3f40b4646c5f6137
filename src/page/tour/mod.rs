//! Tours: what a guide shows one after the other, and says about it.
//!
//! A tour lives in the page's second program. It knows of the page only its address.

pub mod bench;
pub mod file;
pub mod link;
pub mod moment;
pub mod resume;
pub mod run;
pub mod shipped;

use crate::core::field::FieldError;
use moment::Moment;

/// The most stops of a tour.
pub const MOST_STOPS: usize = 200;
/// The longest name, in letters.
pub const LONGEST_NAME: usize = 80;
/// The longest caption, in letters: what can still be read from the back of a room.
pub const LONGEST_CAPTION: usize = 400;
/// The longest notes of a stop, in letters.
pub const LONGEST_NOTES: usize = 4000;
/// How long a stop may stand, seconds.
pub const SECONDS: (u32, u32) = (1, 3600);

/// What is shown one after the other.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tour {
    /// What it is called; may be empty.
    pub name: String,
    /// Its stops, at most [`MOST_STOPS`].
    pub stops: Vec<Stop>,
}

impl Tour {
    /// The same without what only the speaker is to see.
    #[must_use]
    pub fn without_notes(&self) -> Self {
        let bare = |stop: &Stop| Stop { notes: String::new(), ..stop.clone() };
        Self { name: self.name.clone(), stops: self.stops.iter().map(bare).collect() }
    }
}

/// One thing that is shown.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stop {
    /// What the page shows.
    pub moment: Moment,
    /// What everybody reads below it, at most [`LONGEST_CAPTION`] letters.
    pub caption: String,
    /// What only the speaker reads, at most [`LONGEST_NOTES`] letters.
    pub notes: String,
    /// After how long the next stop comes by itself, in [`SECONDS`]; `None` waits for the speaker.
    pub seconds: Option<Seconds>,
    /// Whether the clock runs meanwhile, at the speed the moment has.
    pub plays: bool,
    /// Whether the reading is covered, so that the visitors read the shadow themselves.
    pub asks: bool,
}

impl Stop {
    /// Whether the lens has something to show at this stop: it is marked or moved, or the shadow runs.
    /// Where the screen has room for one of the two only, the corrections take its place elsewhere.
    #[must_use]
    pub fn uses_the_lens(&self) -> bool {
        let of_the_lens = |part: &str| part.starts_with("limits=") || part.starts_with("lens=");
        self.plays || self.moment.text().split('&').any(of_the_lens)
    }
}

/// A text as a tour holds it: no control characters but ends of lines.
fn tidy(text: &str) -> String {
    let plain = |letter: char| if letter.is_control() && letter != '\n' { ' ' } else { letter };
    text.chars().map(plain).collect()
}

/// A length of time in [`SECONDS`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Seconds(u32);

impl Seconds {
    /// So many seconds, if a stop may stand that long.
    ///
    /// # Errors
    /// The number and the range, for any other number.
    pub fn new(seconds: f64) -> Result<Self, FieldError> {
        let (min, max) = SECONDS;
        if seconds.fract() == 0.0 && (f64::from(min)..=f64::from(max)).contains(&seconds) {
            // Whole, and inside the range.
            return Ok(Self(seconds as u32));
        }
        let allowed = format!("a whole number from {min} to {max}");
        Err(FieldError::new("seconds", seconds, allowed))
    }

    /// The number.
    #[must_use]
    pub fn get(self) -> u32 {
        self.0
    }
}
