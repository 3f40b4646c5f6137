//! A year on one sheet: days down, months across.

use chrono::Datelike;

use super::quantity::Quantity;
use super::sheet::{Sheet, Table};
use crate::core::instrument::Instrument;
use crate::core::year_table::YearTable;
use crate::words::Words;

/// The sheet of one quantity.
pub(super) fn sheet(
    words: &Words,
    instrument: &Instrument,
    table: &YearTable,
    quantity: Quantity,
) -> Sheet {
    let year = table.year.to_string();
    let name = words.say(quantity.key());
    let mut head = vec![words.say("prepare.year.day").to_owned()];
    head.extend(words.say("year.months-short").split(' ').map(str::to_owned));
    let mut rows: Vec<Vec<String>> = (1..=31_u32)
        .map(|day| {
            let mut row = vec![String::new(); 13];
            row[0] = day.to_string();
            row
        })
        .collect();
    for day in &table.days {
        // A date has a day below 31 and a month below 12, counted from nought.
        let (row, column) = (day.date.day0() as usize, day.date.month() as usize);
        rows[row][column] = quantity.of(instrument, day);
    }
    Sheet {
        title: words.fill("prepare.year.title", &[("quantity", name), ("year", &year)]),
        place: String::new(),
        tables: vec![Table { head, rows, ..Table::default() }],
        notes: vec![words.say(note(quantity)).to_owned()],
    }
}

/// What is said under a quantity.
fn note(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::Correction | Quantity::ClockCorrection => "prepare.year.note.correction",
        Quantity::Equation | Quantity::Eccentricity | Quantity::Obliquity => {
            "prepare.year.note.equation"
        }
        Quantity::Declination => "prepare.year.note.declination",
        Quantity::Noon | Quantity::Rise | Quantity::Set => "prepare.year.note.events",
    }
}
