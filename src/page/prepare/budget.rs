//! The error budget in words and figures.

use super::card::signed_tenths;
use super::row;
use super::sheet::{Sheet, Table};
use crate::core::error_budget::{Cause, Effect, ErrorBudget, UT1_MINUS_UTC_S};
use crate::core::ladder::clock_of;
use crate::core::resolution::{EYE_LENGTH_M, EYE_SHARE_OF_PENUMBRA};
use crate::page::describe;
use crate::page::labels;
use crate::page::workings::Workings;
use crate::words::{Words, figures};

/// The sheet of a moment; `None` while the dial can't be read.
pub(super) fn sheet(words: &Words, workings: &Workings, budget: Option<&ErrorBudget>) -> Sheet {
    let instrument = workings.instrument();
    let date = labels::day_and_month(words, workings.now().date);
    let clock = figures::clock(clock_of(instrument, workings.moment().instant));
    let title = words.fill("prepare.budget.title", &[("date", &date), ("clock", &clock)]);
    let reading = describe::reading(words, workings);
    let Some(budget) = budget else {
        let notes = vec![reading, words.say("prepare.budget.none").to_owned()];
        return Sheet { title, notes, ..Sheet::default() };
    };
    let head = ["prepare.budget.cause", "prepare.budget.effect", "prepare.budget.why"];
    let division = figures::duration(words, f64::from(instrument.graduation().smallest_s()));
    let share = format!("{:.0}", 1.0 / EYE_SHARE_OF_PENUMBRA);
    let length = format!("{:.2}", EYE_LENGTH_M * 1000.0);
    let rotation = format!("{UT1_MINUS_UTC_S}");
    let values = [
        ("division", division.as_str()),
        ("share", &share),
        ("length", &length),
        ("rotation", &rotation),
    ];
    let terms = budget.terms.iter().map(|(cause, effect)| {
        let [name, why] = keys(*cause);
        row([words.say(name), &told(words, *effect), &words.fill(why, &values)])
    });
    let mut rows: Vec<Vec<String>> = terms.collect();
    for (name, effect, why) in [
        ("prepare.budget.known", signed(words, budget.known_s), "prepare.budget.known.why"),
        ("prepare.budget.likely", either_way(words, budget.likely_s), "prepare.budget.likely.why"),
        ("prepare.budget.worst", either_way(words, budget.worst_s), "prepare.budget.worst.why"),
    ] {
        rows.push(row([words.say(name), &effect, words.say(why)]));
    }
    let head = head.map(|key| words.say(key).to_owned()).to_vec();
    let [from, to] =
        [-budget.worst_s, budget.worst_s].map(|by_s| signed(words, budget.known_s + by_s));
    let sum = words.fill("prepare.budget.sum", &[("from", &from), ("to", &to)]);
    Sheet {
        title,
        tables: vec![Table { head, rows, ..Table::default() }],
        notes: vec![reading, sum, words.say("prepare.budget.note").to_owned()],
        ..Sheet::default()
    }
}

/// Keys of a cause's name and of its explanation.
fn keys(cause: Cause) -> [&'static str; 2] {
    match cause {
        Cause::Division => ["prepare.budget.division", "prepare.budget.division.why"],
        Cause::Penumbra => ["prepare.budget.penumbra", "prepare.budget.penumbra.why"],
        Cause::Refraction => ["prepare.budget.refraction", "prepare.budget.refraction.why"],
        Cause::Alignment => ["prepare.budget.alignment", "prepare.budget.alignment.why"],
        Cause::Rounding => ["prepare.budget.rounding", "prepare.budget.rounding.why"],
        Cause::Place => ["prepare.budget.place", "prepare.budget.place.why"],
        Cause::EarthRotation => ["prepare.budget.rotation", "prepare.budget.rotation.why"],
    }
}

fn told(words: &Words, effect: Effect) -> String {
    match effect {
        Effect::Known(seconds) => signed(words, seconds),
        Effect::EitherWay(seconds) => either_way(words, seconds),
    }
}

fn signed(words: &Words, seconds: f64) -> String {
    figures::with_unit(words, &signed_tenths(seconds), "figures.s")
}

fn either_way(words: &Words, seconds: f64) -> String {
    figures::with_unit(words, &format!("± {seconds:.1}"), "figures.s")
}
