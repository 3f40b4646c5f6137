//! What is prepared before the gate is opened: the day card, the year, the error budget.

mod budget;
mod card;
pub mod csv;
pub mod curves;
mod months;
pub mod quantity;
pub mod sheet;

use chrono::{Datelike, NaiveDate};

use super::keys::Move;
use super::labels;
use super::ladder_rows::offset;
use super::state::Shown;
use super::workings::Workings;
use crate::core::day_card::DayCard;
use crate::core::error_budget::ErrorBudget;
use crate::core::instrument::Instrument;
use crate::core::sky::SunTrack;
use crate::core::year_table::{YearDay, YearTable};
use crate::scene::year_plots::Curve;
use crate::words::{Words, figures};
use quantity::Quantity;
use sheet::Sheet;

/// One of the sheets.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Leaf {
    /// The day card.
    #[default]
    Card,
    /// The year's corrections.
    Year,
    /// Why the dial is off.
    Budget,
}

impl Leaf {
    /// All sheets, in the order in which the page offers them.
    pub const ALL: [Self; 3] = [Self::Card, Self::Year, Self::Budget];

    /// Short name, used in the page.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Card => "card",
            Self::Year => "year",
            Self::Budget => "budget",
        }
    }

    /// Finds a sheet by its short name.
    #[must_use]
    pub fn by_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|leaf| leaf.key() == key)
    }
}

/// What can be asked of the sheets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Ask {
    /// Open, or turn to another sheet.
    Turn(Leaf),
    /// Tell the Sun so many hours apart.
    Hours(u32),
    /// Show another quantity in the table of months.
    Quantity(Quantity),
    /// Draw a curve, or leave it out.
    Curve(Curve, bool),
    /// Read another day of the year; values are days from 1.
    Read(Move),
}

/// Choices at the sheets, and the year that was worked out last.
#[derive(Debug)]
pub struct Prepare {
    /// The sheet on top.
    pub leaf: Leaf,
    /// Hours between two rows of the card.
    pub hour_step: u32,
    /// The quantity in the table of months.
    pub quantity: Quantity,
    /// The curves that are drawn.
    pub curves: Vec<Curve>,
    /// The day that is read, when it is not the one on the page.
    read: Option<NaiveDate>,
    /// For which instrument the year was worked out.
    instrument: Option<Instrument>,
    table: Option<YearTable>,
    track: SunTrack,
}

impl Default for Prepare {
    fn default() -> Self {
        Self {
            leaf: Leaf::default(),
            hour_step: 1,
            quantity: Quantity::default(),
            curves: vec![Curve::Equation, Curve::Correction],
            read: None,
            instrument: None,
            table: None,
            track: SunTrack::new(),
        }
    }
}

impl Prepare {
    /// Does what is asked.
    pub fn act(&mut self, ask: Ask, workings: &Workings) {
        match ask {
            Ask::Turn(leaf) => {
                self.leaf = leaf;
                self.read = None;
            }
            Ask::Hours(step) => self.hour_step = step.clamp(1, 12),
            Ask::Quantity(quantity) => self.quantity = quantity,
            Ask::Curve(curve, on) => {
                self.curves.retain(|it| *it != curve);
                if on {
                    self.curves.push(curve);
                }
            }
            Ask::Read(by) => self.read(by, workings),
        }
    }

    /// Moves to another day of the year on the page.
    fn read(&mut self, by: Move, workings: &Workings) {
        let (here, year) = (self.date(workings), workings.now().date.year());
        let last = NaiveDate::from_ymd_opt(year, 12, 31).map_or(365, |date| date.ordinal());
        let days = match by {
            Move::To(day) => day.round() as i64,
            Move::Steps(days) => i64::from(here.ordinal()) + i64::from(days),
            Move::Leaps(months) => i64::from(here.ordinal()) + 30 * i64::from(months),
            Move::First => 1,
            Move::Last => i64::from(last),
        };
        // In range: clamped to the days of a year.
        let ordinal = days.clamp(1, i64::from(last)) as u32;
        self.read = NaiveDate::from_yo_opt(year, ordinal);
    }

    /// The day that is read.
    #[must_use]
    pub fn date(&self, workings: &Workings) -> NaiveDate {
        let now = workings.now().date;
        self.read.filter(|date| date.year() == now.year()).unwrap_or(now)
    }

    /// Brings the year up to date with what is on the page, when its sheet is on top.
    pub fn refresh(&mut self, workings: &Workings) {
        if self.leaf != Leaf::Year {
            return;
        }
        let (instrument, year) = (workings.instrument(), workings.now().date.year());
        let fits = self.instrument.as_ref() == Some(instrument)
            && self.table.as_ref().is_some_and(|table| table.year == year);
        if !fits {
            self.table = YearTable::compute(instrument, year, &mut self.track).ok();
            self.instrument = Some(instrument.clone());
        }
    }

    /// The year; `None` before the first [`Prepare::refresh`], and where no year can be worked out.
    #[must_use]
    pub fn table(&self) -> Option<&YearTable> {
        self.table.as_ref()
    }

    /// The day that is read, in the year.
    #[must_use]
    pub fn day(&self, workings: &Workings) -> Option<&YearDay> {
        self.table.as_ref()?.day(self.date(workings))
    }

    /// The sheet on top.
    #[must_use]
    pub fn sheet(&mut self, words: &Words, shown: &Shown, workings: &Workings) -> Sheet {
        // The year's table has a column of its own for summer time.
        let corrections = &workings.moment().corrections;
        let summer_s = if self.leaf == Leaf::Year { 0.0 } else { corrections.summer_s };
        let place = place(words, shown, workings, summer_s);
        let instrument = workings.instrument();
        let mut sheet = match self.leaf {
            Leaf::Card => {
                let (day, conditions) = (workings.day(), shown.conditions());
                let track = &mut self.track;
                let card = DayCard::compute(instrument, day, &conditions, self.hour_step, track);
                card.map(|card| card::sheet(words, instrument, &card)).unwrap_or_default()
            }
            Leaf::Year => {
                let table = self.table.as_ref();
                let sheet =
                    table.map(|table| months::sheet(words, instrument, table, self.quantity));
                sheet.unwrap_or_default()
            }
            Leaf::Budget => {
                let budget = ErrorBudget::of(instrument, workings.moment());
                budget::sheet(words, workings, budget.as_ref())
            }
        };
        sheet.place = place;
        sheet
    }

    /// What is read of a day of the year, in a sentence.
    #[must_use]
    pub fn reading(&self, words: &Words, workings: &Workings) -> String {
        let Some(day) = self.day(workings) else { return String::new() };
        let equation = day.equation.to_mean();
        let date = labels::day_and_month(words, day.date);
        let signed = figures::signed_clock;
        let values = [
            ("date", date),
            ("correction", signed(day.to_zone_s())),
            ("equation", signed(equation.total_s())),
            ("eccentricity", signed(equation.eccentricity_s)),
            ("obliquity", signed(equation.obliquity_s)),
            ("declination", card::together(figures::signed_degrees(day.declination_rad))),
        ];
        let values: Vec<(&str, &str)> =
            values.iter().map(|(name, value)| (*name, value.as_str())).collect();
        words.fill("prepare.year.reading", &values)
    }
}

/// Instrument, place and clock in one line.
fn place(words: &Words, shown: &Shown, workings: &Workings, summer_s: f64) -> String {
    let instrument = workings.instrument();
    let name = labels::instrument(words, &shown.instrument);
    let (site, zone) = (labels::place(words, workings), offset(instrument, summer_s));
    words.fill("prepare.place", &[("instrument", &name), ("place", &site), ("zone", &zone)])
}

/// A table row of texts.
fn row<const N: usize>(cells: [&str; N]) -> Vec<String> {
    cells.map(str::to_owned).to_vec()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::instrument::PRESETS;
    use crate::core::ladder::clock_of;
    use crate::page::choice::Choice;

    /// Every sheet of every instrument on the days on which the seasons turn.
    fn each(leaf: Leaf, mut test: impl FnMut(&Workings, &Shown, &Sheet)) {
        let words = Words::english();
        for preset in &PRESETS {
            for quarter in 0..4 {
                let first = Shown::first();
                let at =
                    first.instant.saturating_plus_seconds(f64::from(quarter) * 91.3 * 86_400.0);
                let instrument = Choice::BuiltIn(preset);
                let shown = Shown { instrument, instant: at, ..first };
                let Ok(workings) = Workings::new(&shown) else { panic!("{}", preset.key) };
                let mut prepare = Prepare { leaf, ..Prepare::default() };
                prepare.refresh(&workings);
                let sheet = prepare.sheet(&words, &shown, &workings);
                test(&workings, &shown, &sheet);
            }
        }
    }

    #[test]
    fn the_card_says_what_the_core_says() {
        each(Leaf::Card, |workings, shown, sheet| {
            let instrument = workings.instrument();
            let mut track = SunTrack::new();
            let card =
                DayCard::compute(instrument, workings.day(), &shown.conditions(), 1, &mut track);
            let Some(card) = card else { panic!("a card") };
            let clock = |at| figures::clock(clock_of(instrument, at));
            let column = |table: usize, index: usize| -> Vec<&str> {
                sheet.tables[table].rows.iter().map(|row| row[index].as_str()).collect()
            };
            let events = [card.events.rise, card.events.transit, card.events.set];
            assert_eq!(column(0, 1), events.map(|at| at.map_or("–".to_owned(), clock)));
            let from: Vec<String> = card.readings.iter().map(|span| clock(span.from)).collect();
            let to: Vec<String> = card.readings.iter().map(|span| clock(span.to)).collect();
            assert_eq!(
                (column(1, 1), column(1, 2)),
                (
                    from.iter().map(String::as_str).collect(),
                    to.iter().map(String::as_str).collect(),
                )
            );
            let total = figures::signed_clock(card.corrections.total_s());
            let totals = column(3, 1);
            assert_eq!(totals[totals.len() - 2], total);
            assert_eq!(sheet.tables[4].rows.len(), card.stands.len());
            assert_eq!(sheet.tables[6].rows.len(), card.hours.len());
            let altitudes: Vec<String> =
                card.hours.iter().map(|hour| figures::degrees(hour.altitude_rad)).collect();
            assert_eq!(column(6, 1), altitudes);
        });
    }

    #[test]
    fn no_sheet_shows_a_key_or_a_hole() {
        for leaf in Leaf::ALL {
            each(leaf, |_, _, sheet| {
                let mut texts = vec![&sheet.title, &sheet.place];
                texts.extend(&sheet.notes);
                for table in &sheet.tables {
                    texts.extend([&table.caption, &table.note]);
                    texts.extend(table.head.iter().chain(table.rows.iter().flatten()));
                    assert!(table.head.is_empty() || !table.rows.is_empty());
                    let width = table.rows.first().map_or(0, Vec::len);
                    assert!(table.rows.iter().all(|row| row.len() == width));
                    assert!(table.head.is_empty() || table.head.len() == width);
                }
                for text in texts {
                    let bare = ["prepare.", "ladder.", "{", "NaN"];
                    assert!(bare.iter().all(|it| !text.contains(it)), "{text}");
                }
            });
        }
    }

    #[test]
    fn the_day_that_is_read_moves_within_its_year() {
        let shown = Shown::first();
        let Ok(workings) = Workings::new(&shown) else { panic!("a first visit") };
        let mut prepare = Prepare::default();
        assert_eq!(prepare.date(&workings), workings.now().date);
        let mut read = |by| {
            prepare.act(Ask::Read(by), &workings);
            prepare.date(&workings).to_string()
        };
        assert_eq!(read(Move::Steps(1)), "2026-10-19");
        assert_eq!(read(Move::Last), "2026-12-31");
        assert_eq!(read(Move::Steps(1)), "2026-12-31");
        assert_eq!(read(Move::First), "2026-01-01");
        assert_eq!(read(Move::Leaps(-1)), "2026-01-01");
        assert_eq!(read(Move::To(f64::NAN)), "2026-01-01");
        assert_eq!(read(Move::To(59.0)), "2026-02-28");
        assert_eq!(read(Move::To(1e300)), "2026-12-31");
    }
}
