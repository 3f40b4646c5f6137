//! Where an answer is best seen: what the page is to show.

use super::Question;
use crate::core::instrument::PRESETS;
use crate::core::reading::NOON_S;
use crate::core::sky::SunTrack;
use crate::page::choice::Choice;
use crate::page::dial_time::DialTime;
use crate::page::state::Shown;
use crate::page::view::View;
use crate::page::workings::Workings;
use crate::scene::camera::Standpoint;
use crate::scene::guide::{Guide, GuideSet};

/// A time at which every dial reads, unless the Sun does not rise: ten by the Sun.
const MORNING_S: f64 = NOON_S - 7200.0;

/// What the page shows when it answers a question, from what it shows now.
#[must_use]
pub fn telling(question: Question, shown: &Shown, workings: &mut Workings) -> Shown {
    let mut told = Shown {
        view: View::from(Standpoint::ALL[0]),
        guides: GuideSet::default(),
        lens_s: None,
        noon: false,
        rod: None,
        ..shown.clone()
    };
    // These speak of a stone that stands where it was built.
    if matches!(question, Question::Slope | Question::Winter | Question::Across) {
        told.travel = None;
    }
    let now = workings.now();
    match question {
        Question::Slope => {
            told.view = View::from(Standpoint::FromSide);
            told.guides = told.guides.with(Guide::Axis, true).with(Guide::Latitude, true);
        }
        Question::Noon => {
            told.noon = true;
            let meridian = workings.day().noon.map(|pass| pass.meridian);
            told.instant = meridian.unwrap_or(shown.instant);
        }
        Question::Watch => go_where_it_reads(&mut told, workings),
        Question::Off | Question::Size => {
            told.limits = true;
            go_where_it_reads(&mut told, workings);
        }
        Question::Winter => {
            told.guides = told.guides.with(Guide::Paths, true);
            // Seasons are told in the order of the year: the solstices are the second and the fourth.
            let north = workings.instrument().site().latitude_rad() >= 0.0;
            let solstice = workings.year().seasons[if north { 3 } else { 1 }].instant;
            let date = DialTime::at(workings.instrument(), &mut SunTrack::new(), solstice).date;
            go(&mut told, workings, DialTime { date, seconds: MORNING_S });
        }
        Question::Across => {
            let north = workings.instrument().site().latitude_rad() >= 0.0;
            let there = |latitude_rad: f64| (latitude_rad < 0.0) == north;
            let across = PRESETS
                .iter()
                .find(|preset| preset.instrument().is_ok_and(|it| there(it.site().latitude_rad())));
            if let Some(preset) = across {
                told.instrument = Choice::BuiltIn(preset);
            }
            told.guides = told.guides.with(Guide::Axis, true);
            if let Ok(mut workings) = Workings::new(&told) {
                go(&mut told, &mut workings, DialTime { seconds: MORNING_S, ..now });
            }
        }
        Question::Moon => go(&mut told, workings, DialTime { seconds: 0.0, ..now }),
    }
    told
}

/// What the next question is answered from: what the visitor had before the first one, in the light of
/// now; an instrument that was chosen by hand since the last answer, which showed `told`, is theirs too.
#[must_use]
pub fn visitors_own(before: &Shown, told: Option<&Shown>, shown: &Shown) -> Shown {
    let mut own = Shown { theme: shown.theme, shelf: shown.shelf.clone(), ..before.clone() };
    if told.is_some_and(|told| told.instrument != shown.instrument) {
        own.instrument = shown.instrument.clone();
        own.travel = shown.travel;
    }
    own
}

/// Goes to the morning, if the dial can't be read.
fn go_where_it_reads(told: &mut Shown, workings: &mut Workings) {
    if workings.moment().ladder.is_none() {
        let morning = DialTime { seconds: MORNING_S, ..workings.now() };
        go(told, workings, morning);
    }
}

/// Goes to a time of the dial; stays where that is outside the years known.
fn go(told: &mut Shown, workings: &mut Workings, time: DialTime) {
    told.instant = workings.instant(time).unwrap_or(told.instant);
}
