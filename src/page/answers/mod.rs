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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::instrument::PRESETS;
    use crate::page::address;
    use crate::page::choice::Choice;
    use crate::page::state::Shown;
    use crate::page::workings::Workings;

    /// Every question, asked of every instrument through a year and at all hours.
    fn each(mut test: impl FnMut(Question, &Shown, &Workings)) {
        for preset in &PRESETS {
            for step in 0..8 {
                let first = Shown::first();
                let instant = first.instant.saturating_plus_seconds(f64::from(step) * 4_000_037.0);
                let shown = Shown { instrument: Choice::BuiltIn(preset), instant, ..first };
                for question in Question::ALL {
                    let Ok(mut workings) = Workings::new(&shown) else { panic!("{}", preset.key) };
                    let told = telling(question, &shown, &mut workings);
                    workings.refresh(&told);
                    test(question, &told, &workings);
                }
            }
        }
    }

    #[test]
    fn every_answer_has_its_words_and_no_hole() {
        let words = Words::english();
        each(|question, _, workings| {
            let mut texts = vec![question.asked(&words), question.told(&words)];
            for Figure { name, value } in figures(question, &words, workings) {
                texts.extend([name, value]);
            }
            let bare = ["answers.", "{", "NaN", "inf"];
            assert!(texts.iter().all(|text| bare.iter().all(|it| !text.contains(it))), "{texts:?}");
        });
    }

    #[test]
    fn a_telling_moment_can_be_named_by_an_address() {
        each(|question, told, _| {
            let read = address::read(&address::write(told), &Shown::first());
            assert!(read.refused.is_empty(), "{question:?}: {:?}", read.refused);
            assert_eq!(&read.shown, told, "{question:?}");
        });
    }

    #[test]
    fn the_telling_moment_is_what_the_answer_speaks_of() {
        each(|question, _, workings| {
            let (sun, instrument) = (&workings.moment().sun, workings.instrument());
            let hour_angle = workings.moment().on_dial.hour_angle_rad;
            let (latitude, declination) =
                (instrument.site().latitude_rad(), sun.sun.declination_rad);
            match question {
                Question::Noon => assert!(hour_angle.abs() < 1e-6, "{hour_angle}"),
                Question::Winter => {
                    assert!(latitude * declination < 0.0 && declination.abs() > 0.4)
                }
                Question::Moon => assert!(hour_angle.abs() > 3.1 && sun.seen.altitude_rad < 0.06),
                _ => {}
            }
        });
    }

    #[test]
    fn the_dial_across_is_in_the_other_half_of_the_world() {
        for preset in &PRESETS {
            let shown = Shown { instrument: Choice::BuiltIn(preset), ..Shown::first() };
            let Ok(mut workings) = Workings::new(&shown) else { panic!("{}", preset.key) };
            let here = workings.instrument().site().latitude_rad();
            let told = telling(Question::Across, &shown, &mut workings);
            workings.refresh(&told);
            assert!(here * workings.instrument().site().latitude_rad() < 0.0, "{}", preset.key);
        }
    }

    #[test]
    fn the_moon_is_later_by_its_month() {
        let words = Words::english();
        let Ok(workings) = Workings::new(&Shown::first()) else { panic!("a first visit") };
        let daily = &figures(Question::Moon, &words, &workings)[0].value;
        // 24 h in 29.53 days: 48.8 min.
        assert_eq!(daily, "48 min 46 s");
    }
}
