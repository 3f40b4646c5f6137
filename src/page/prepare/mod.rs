//! What is prepared before the gate is opened: the day card, the year, the error budget.

mod budget;
mod card;
pub mod csv;
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

    /// Brings the year up to date with what is on the page.
    pub fn refresh(&mut self, workings: &Workings) {
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
        let place = place(words, shown, workings);
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
        let equation = &day.equation;
        let date = labels::day_and_month(words, day.date);
        let signed = figures::signed_clock;
        let values = [
            ("date", date),
            ("correction", signed(day.to_zone_s())),
            ("equation", signed(equation.total_s())),
            ("eccentricity", signed(equation.eccentricity_s)),
            ("obliquity", signed(equation.obliquity_s)),
            ("declination", figures::signed_degrees(day.declination_rad)),
        ];
        let values: Vec<(&str, &str)> =
            values.iter().map(|(name, value)| (*name, value.as_str())).collect();
        words.fill("prepare.year.reading", &values)
    }
}

/// Instrument, place and clock in one line.
fn place(words: &Words, shown: &Shown, workings: &Workings) -> String {
    let instrument = workings.instrument();
    let name = labels::instrument(words, shown.preset);
    let (site, zone) = (labels::place(words, instrument), offset(instrument, 0.0));
    words.fill("prepare.place", &[("instrument", name), ("place", &site), ("zone", &zone)])
}

/// A table row of texts.
fn row<const N: usize>(cells: [&str; N]) -> Vec<String> {
    cells.map(str::to_owned).to_vec()
}
