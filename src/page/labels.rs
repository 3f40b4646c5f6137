//! Short texts beside the controls: names, dates, and what the handles' places mean.

use chrono::{Datelike, NaiveDate};

use super::choice::Choice;
use super::counted::spoken;
use super::state::Shown;
use super::travel;
use super::update::lens_at_edge_s;
use super::workings::Workings;
use crate::core::almanac::Season;
use crate::core::instrument::{PRESETS, Preset};
use crate::scene::camera::Standpoint;
use crate::words::{Words, figures};

/// Name of an instrument.
#[must_use]
pub fn instrument(words: &Words, choice: &Choice) -> String {
    match choice {
        Choice::BuiltIn(preset) => built_in(words, preset).to_owned(),
        Choice::Own(spec) => spec.name.clone(),
    }
}

/// Name of an instrument that comes with the project.
#[must_use]
pub fn built_in<'a>(words: &'a Words, preset: &Preset) -> &'a str {
    words.say(match preset.key {
        "terrace" => "page.instrument.terrace",
        "great" => "page.instrument.great",
        "schoolyard" => "page.instrument.schoolyard",
        "north-lawn" => "page.instrument.north-lawn",
        _ => "page.instrument.shoreline",
    })
}

/// Name of a standpoint.
#[must_use]
pub fn standpoint(words: &Words, standpoint: Standpoint) -> &str {
    words.say(match standpoint {
        Standpoint::Visitor => "play.view.visitor",
        Standpoint::FromSide => "play.view.side",
        Standpoint::OnSteps => "play.view.steps",
        Standpoint::AlongPole => "play.view.pole",
        Standpoint::SquareWest => "play.view.west",
        Standpoint::SquareEast => "play.view.east",
        Standpoint::Above => "play.view.above",
        Standpoint::BesideEdge => "play.view.edge",
    })
}

/// Where it stands: "Larkmoor Court, 31.60° N"; anywhere else by its latitude alone.
#[must_use]
pub fn place(words: &Words, workings: &Workings) -> String {
    let instrument = workings.instrument();
    let (here_deg, built_deg) = (instrument.site().latitude_deg(), instrument.spec().latitude_deg);
    if instrument.off_latitude_rad() != 0.0 {
        let [here, built] = [here_deg, built_deg].map(|it| travel::latitude(words, it));
        return words.fill("page.place.carried", &[("here", &here), ("built", &built)]);
    }
    // Some of the built-in dials stand elsewhere.
    let at_court = matches!(workings.choice(), Choice::BuiltIn(_))
        && (built_deg, instrument.spec().longitude_deg) == PRESETS[0].place_deg();
    if at_court {
        return words.fill("page.place.north", &[("latitude", &format!("{built_deg:.2}"))]);
    }
    travel::latitude(words, built_deg)
}

/// "18 October".
#[must_use]
pub fn day_and_month(words: &Words, date: NaiveDate) -> String {
    let day = date.day().to_string();
    let month = words.say(month_key(date)).to_owned();
    words.fill("page.date.day", &[("day", &day), ("month", &month)])
}

/// "2026, Sunday".
#[must_use]
pub fn year_and_weekday(words: &Words, date: NaiveDate) -> String {
    let (year, weekday) = (date.year().to_string(), words.say(weekday_key(date)).to_owned());
    words.fill("page.date.year", &[("year", &year), ("weekday", &weekday)])
}

/// Key of a month's name.
fn month_key(date: NaiveDate) -> &'static str {
    const KEYS: [&str; 12] = [
        "page.month.1",
        "page.month.2",
        "page.month.3",
        "page.month.4",
        "page.month.5",
        "page.month.6",
        "page.month.7",
        "page.month.8",
        "page.month.9",
        "page.month.10",
        "page.month.11",
        "page.month.12",
    ];
    // Months count from 0 to 11 here.
    KEYS[date.month0() as usize]
}

/// Key of a weekday's name.
fn weekday_key(date: NaiveDate) -> &'static str {
    const KEYS: [&str; 7] = [
        "page.weekday.1",
        "page.weekday.2",
        "page.weekday.3",
        "page.weekday.4",
        "page.weekday.5",
        "page.weekday.6",
        "page.weekday.7",
    ];
    // Days of the week count from Monday, 0 to 6.
    KEYS[date.weekday().num_days_from_monday() as usize]
}

/// What the handle of the day strip stands for.
#[must_use]
pub fn day_value(words: &Words, workings: &Workings) -> String {
    words.fill("play.day.value", &[("time", &spoken(words, workings.now().seconds))])
}

/// What the handle of the year strip stands for.
#[must_use]
pub fn year_value(words: &Words, workings: &Workings) -> String {
    let date = workings.now().date;
    let day = day_and_month(words, date);
    let year = date.year().to_string();
    let declination = figures::signed_degrees(workings.moment().sun.sun.declination_rad);
    words.fill("play.year.value", &[("day", &day), ("year", &year), ("declination", &declination)])
}

/// What the place of the lens stands for.
#[must_use]
pub fn lens_value(words: &Words, workings: &Workings, shown: &Shown) -> String {
    let key = if shown.lens_s.is_some() { "reading.lens.moved" } else { "reading.lens.follows" };
    let seconds = shown.lens_s.unwrap_or_else(|| lens_at_edge_s(workings));
    words.fill(key, &[("time", &spoken(words, seconds))])
}

/// The button that goes to an equinox or a solstice.
#[must_use]
pub fn season(words: &Words, workings: &Workings, index: usize, season: &Season) -> String {
    const KEYS: [&str; 4] =
        ["play.season.march", "play.season.june", "play.season.september", "play.season.december"];
    let civil = super::typed::civil_at(workings.instrument(), season.instant);
    let date = day_and_month(words, civil.date());
    // A year has four seasons.
    words.fill(KEYS[index.min(3)], &[("date", &date)])
}
