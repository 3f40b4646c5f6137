//! What visitors ask, answered for the instrument and the moment on the page.
//!
//! An answer is a few sentences and figures; the page itself is the drawing, taken to where the answer
//! is best seen.

mod figures;
mod telling;

use crate::page::ladder_rows;
use crate::page::workings::Workings;
use crate::words::Words;

pub use figures::{Figure, figures};
pub use telling::{telling, visitors_own};

/// Below this what is left over is what a dial can't help, seconds.
const SMALL_S: f64 = 60.0;

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

    /// The answer in words; how much is left over is that of the dial and the moment on the page.
    #[must_use]
    pub fn told(self, words: &Words, workings: &Workings) -> String {
        let key = format!("answers.{}.told", self.key());
        let told = words.say(&key);
        let left_s = workings.moment().ladder.as_ref().map_or(0.0, ladder_rows::left_over_s);
        let is_small = left_s.abs() < SMALL_S;
        match self {
            Self::Watch => {
                let rest = if is_small { "answers.watch.small" } else { "answers.watch.large" };
                [told, " ", words.say(rest)].concat()
            }
            Self::Off => {
                let rest = if is_small { "answers.off.small" } else { "answers.off.large" };
                [words.say(rest), " ", told].concat()
            }
            _ => told.to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::instrument::PRESETS;
    use crate::page::address;
    use crate::page::choice::Choice;
    use crate::page::state::Shown;

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
            let mut texts = vec![question.asked(&words), question.told(&words, workings)];
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
    fn every_question_starts_from_the_visitor_s_own_dial_and_moment() {
        let (before, mut workings) = at("i=great&t=2026-06-21T08:00:00Z&view=west");
        let (mut shown, mut told) = (before.clone(), None);
        for question in Question::ALL.into_iter().rev().chain(Question::ALL) {
            let own = visitors_own(&before, told.as_ref(), &shown);
            assert_eq!(own, before, "{question:?}");
            workings.refresh(&own);
            shown = telling(question, &own, &mut workings);
            told = Some(shown.clone());
        }
        // What a hand has chosen meanwhile is the visitor's own, and so is the light.
        let chosen = Shown { instrument: Choice::BuiltIn(&PRESETS[2]), ..shown.clone() };
        let own = visitors_own(&before, told.as_ref(), &chosen);
        assert_eq!((&own.instrument, own.instant), (&chosen.instrument, before.instant));
        let night = Shown { theme: crate::scene::palette::Theme::Night, ..shown };
        assert_eq!(visitors_own(&before, told.as_ref(), &night).theme, night.theme);
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

    /// Whatever stands on the page, as the address has it.
    fn at(text: &str) -> (Shown, Workings) {
        let read = address::read(text, &Shown::first());
        assert!(read.refused.is_empty(), "{text}: {:?}", read.refused);
        let Ok(workings) = Workings::new(&read.shown) else { panic!("{text}") };
        (read.shown, workings)
    }

    const CARRIED: &str = "travel=50&travel-as=carried&t=2026-06-21T05:45:00Z";

    #[test]
    fn why_it_is_off_is_what_the_ladder_says_and_not_its_opposite() {
        let words = Words::english();
        let (mut ahead, mut behind) = (0, 0);
        let mut compare = |shown: &Shown, workings: &Workings, what: &str| {
            let Some(ladder) = &workings.moment().ladder else { return };
            let rows = ladder_rows::rows(&words, workings.instrument(), ladder, shown.rounding);
            let Some(check) = rows.last() else { panic!("{what}: a ladder has rows") };
            let left_s = ladder_rows::left_over_s(ladder);
            // The ladder's last step is to be added to the dial: then it is behind.
            assert_eq!(check.step, crate::words::figures::signed_clock(left_s), "{what}");
            let told = &figures(Question::Off, &words, workings)[0];
            let key = if left_s > 0.0 { "answers.off.behind" } else { "answers.off.ahead" };
            assert_eq!(told.name, words.say(key), "{what}");
            let length = crate::words::figures::duration(&words, left_s);
            assert_eq!(told.value, length, "{what}");
            let sentence = ladder_rows::residual_sentence(&words, workings.instrument(), ladder);
            assert!(left_s == 0.0 || sentence.starts_with(&length), "{what}: {sentence}");
            (ahead, behind) = (ahead + i32::from(left_s < 0.0), behind + i32::from(left_s > 0.0));
        };
        each(|question, told, workings| {
            if question == Question::Off {
                compare(told, workings, "in the answer itself");
            }
        });
        for dial in ["", "i=great&", "i=schoolyard&", "i=north-lawn&round=minute&"] {
            for hour in ["05:31:07", "06:24:34", "08:02:59", "10:40:21"] {
                let text = format!("{dial}t=2026-10-18T{hour}Z");
                let (shown, workings) = at(&text);
                compare(&shown, &workings, &text);
            }
        }
        let (shown, workings) = at(CARRIED);
        compare(&shown, &workings, CARRIED);
        assert!(ahead > 5 && behind > 5, "{ahead} ahead, {behind} behind");
    }

    #[test]
    fn a_carried_stone_is_not_called_nearly_right() {
        let words = Words::english();
        let (_, workings) = at(CARRIED);
        let told = figures(Question::Off, &words, &workings);
        assert_eq!(told[0].value, "15 min 42 s");
        assert_eq!(told[1].value, "the stone was built for another latitude (15 min 31 s)");
        assert!(Question::Off.told(&words, &workings).contains("not about that cause"));
        assert!(Question::Watch.told(&words, &workings).contains("not small"));
        let (_, workings) = at("");
        assert!(Question::Off.told(&words, &workings).contains("little should be left"));
        assert!(Question::Watch.told(&words, &workings).contains("is small"));
    }

    #[test]
    fn how_long_the_pass_takes_is_the_difference_of_its_times() {
        let words = Words::english();
        let seconds = |clock: &str| {
            clock.split(':').fold(0, |sum, part| 60 * sum + part.parse::<i32>().unwrap_or(0))
        };
        each(|question, _, workings| {
            if question != Question::Noon {
                return;
            }
            for line in figures(question, &words, workings).iter().skip(1) {
                let times: Vec<&str> = line.value.split([' ', '(', ')']).collect();
                let between_s = seconds(times[2]) - seconds(times[0]);
                let length = crate::words::figures::duration(&words, f64::from(between_s));
                assert!(line.value.ends_with(&format!("({length})")), "{line:?}");
            }
        });
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
