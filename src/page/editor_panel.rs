//! What the editor shows of an instrument.

use chrono::{Datelike, NaiveDate};

use super::choice::Choice;
use super::state::State;
use super::typed_quantity::{degrees_minutes_seconds, written};
use super::workings::Workings;
use super::{labels, ladder_rows};
use crate::core::instrument::{Graduation, InstrumentSpec, Kind, Quantity, SummerTime};
use crate::words::{Words, figures};

/// Levels below the hour.
pub const CUTS: usize = 5;

/// A field as it stands.
#[derive(Debug)]
pub struct Field {
    /// Its text: the value, or what was typed and can't be used.
    pub text: String,
    /// The range, or the value in another form.
    pub hint: String,
    /// Why what was typed can't be used; empty when it can.
    pub wrong: String,
}

/// A quantity's field.
#[must_use]
pub fn field(words: &Words, state: &State, spec: &InstrumentSpec, quantity: &Quantity) -> Field {
    let value = quantity.get(spec);
    let hint = match quantity.kind {
        Kind::Latitude | Kind::Longitude => degrees_minutes_seconds(quantity, value),
        Kind::Plain | Kind::Offset => {
            let [min, max] = quantity.ends(spec, words.unit(quantity.unit));
            words.fill("editor.range", &[("min", &min), ("max", &max)])
        }
    };
    typed(state, quantity.path, written(quantity, value), hint)
}

/// A field with a text of its own, or with what was typed into it in vain.
#[must_use]
pub fn typed(state: &State, path: &str, text: String, hint: String) -> Field {
    match state.editor.wrong(path) {
        Some(wrong) => Field { text: wrong.typed.clone(), hint, wrong: wrong.sentence.clone() },
        None => Field { text, hint, wrong: String::new() },
    }
}

/// How the clocks go: the value of the list.
#[must_use]
pub fn clock_key(spec: &InstrumentSpec) -> &'static str {
    match &spec.time_zone {
        Some(_) => "zone",
        None => spec.summer_time.key(),
    }
}

/// The rule of a value of that list; none for a zone by name.
#[must_use]
pub fn clock_rule(key: &str) -> Option<SummerTime> {
    SummerTime::ALL.into_iter().find(|rule| rule.key() == key)
}

/// "On 18 October 2026: UTC+3:30", and whether that is summer time, or that a name means nothing.
#[must_use]
pub fn clock_line(words: &Words, workings: &Workings) -> String {
    let (instrument, moment) = (workings.instrument(), workings.moment());
    let summer_min = instrument.summer_min(moment.instant);
    let offset = ladder_rows::offset(instrument, f64::from(summer_min) * 60.0);
    let date: NaiveDate = workings.now().date;
    let day = labels::day_and_month(words, date);
    let key = match &instrument.spec().time_zone {
        Some(_) if instrument.zone().is_none() => "editor.clock.unknown",
        _ if summer_min != 0 => "editor.clock.summer",
        _ => "editor.clock.on",
    };
    let zone = instrument.spec().time_zone.as_deref().unwrap_or_default();
    let year = date.year().to_string();
    words.fill(key, &[("day", &day), ("year", &year), ("offset", &offset), ("zone", zone)])
}

/// A level of the graduation: into how many parts its divisions can be cut, and are.
#[derive(Debug)]
pub struct Cut {
    /// Parts and what is written of them; first none.
    pub choices: Vec<(u32, String)>,
    /// The parts chosen, 0 for none.
    pub chosen: u32,
}

/// The levels of a graduation that can be cut, from the hour down.
#[must_use]
pub fn cuts(words: &Words, spec: &InstrumentSpec) -> Vec<Cut> {
    // An instrument's own graduation divides evenly.
    let Ok(graduation) = Graduation::new(&spec.divisions) else { return Vec::new() };
    let levels = graduation.levels().iter().take(CUTS).enumerate();
    levels
        .map(|(index, level)| {
            let parts = (2..=60_u32).filter(|parts| level.division_s.is_multiple_of(*parts));
            let none = (0, words.say("editor.cut.none").to_owned());
            let choices = parts.map(|parts| {
                let length = figures::duration(words, f64::from(level.division_s / parts));
                let count = parts.to_string();
                let values = [("parts", count.as_str()), ("length", length.as_str())];
                (parts, words.fill("editor.cut.parts", &values))
            });
            Cut {
                choices: std::iter::once(none).chain(choices).collect(),
                chosen: spec.divisions.get(index).copied().unwrap_or(0),
            }
        })
        .filter(|cut| cut.choices.len() > 1)
        .collect()
}

/// What the editor says of whose the instrument is.
#[must_use]
pub fn whose<'a>(words: &'a Words, choice: &Choice) -> &'a str {
    words.say(match choice {
        Choice::BuiltIn(_) => "editor.whose.built-in",
        Choice::Own(_) => "editor.whose.own",
    })
}
