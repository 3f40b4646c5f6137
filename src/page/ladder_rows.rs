//! The way from the reading to the clock, row by row, and a sentence for what is left over.

use crate::core::instrument::Instrument;
use crate::core::ladder::{Ladder, Residual, Rounding};
use crate::core::order::order_short;
use crate::words::{Words, figures};

/// Below this a part of the residual is not worth a word, seconds.
const WORTH_TELLING_S: f64 = 0.25;

/// What a row of the ladder is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rank {
    /// The reading, or a correction to it.
    Step,
    /// The clock time the dial gives.
    Result,
    /// The true clock time beside it.
    Check,
}

/// A row of the ladder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// What it is.
    pub rank: Rank,
    /// Its name.
    pub label: String,
    /// What it adds, with its sign; empty for the reading and the result.
    pub step: String,
    /// The running total.
    pub total: String,
}

/// Writes the ladder. Every row's total is rounded to a second, and every step is the difference
/// of the totals around it, so that the column adds up on paper.
#[must_use]
pub fn rows(
    words: &Words,
    instrument: &Instrument,
    ladder: &Ladder,
    rounding: Rounding,
) -> Vec<Row> {
    let mut column = Column { words, running_s: ladder.read_s, rows: Vec::new() };
    let corrections = &ladder.corrections;
    column.total(Rank::Step, words.say("ladder.apparent").to_owned());
    column.step(words.say("ladder.equation").to_owned(), corrections.to_mean_s);
    column.step(zone_label(words, instrument), corrections.to_zone_s);
    if corrections.summer_s != 0.0 {
        column.step(words.say("ladder.summer").to_owned(), corrections.summer_s);
    }
    if rounding == Rounding::Minute {
        column.step(words.say("ladder.rounded").to_owned(), ladder.rounding_s);
    }
    let zone = offset(instrument, corrections.summer_s);
    let (key, true_key) = if corrections.summer_s == 0.0 {
        ("ladder.zone", "ladder.true")
    } else {
        ("ladder.summer-zone", "ladder.true-summer")
    };
    column.total(Rank::Result, words.fill(key, &[("zone", &zone)]));
    column.step(words.say(true_key).to_owned(), ladder.residual_s());
    if let Some(last) = column.rows.last_mut() {
        last.rank = Rank::Check;
    }
    column.rows
}

/// A column of figures under way.
struct Column<'a> {
    words: &'a Words,
    running_s: f64,
    rows: Vec<Row>,
}

impl Column<'_> {
    /// A row without a step.
    fn total(&mut self, rank: Rank, label: String) {
        let total = self.shown();
        self.rows.push(Row { rank, label, step: String::new(), total });
    }

    /// A row that adds something.
    fn step(&mut self, label: String, seconds: f64) {
        let before_s = self.running_s.round();
        self.running_s += seconds;
        let step = figures::signed_clock(self.running_s.round() - before_s);
        let (step, total) = (self.words.figure(&step).into_owned(), self.shown());
        self.rows.push(Row { rank: Rank::Step, label, step, total });
    }

    fn shown(&self) -> String {
        self.words.figure(&figures::clock(self.running_s)).into_owned()
    }
}

/// "4.15° west of the zone's meridian".
pub(super) fn zone_label(words: &Words, instrument: &Instrument) -> String {
    let spec = instrument.spec();
    let west_deg = f64::from(instrument.zone_offset().minutes()) / 4.0 - spec.longitude_deg;
    let degrees = format!("{:.2}", west_deg.abs());
    let degrees = degrees.trim_end_matches('0').trim_end_matches('.');
    let key = if west_deg >= 0.0 { "ladder.west" } else { "ladder.east" };
    words.fill(key, &[("degrees", degrees)])
}

/// "UTC+3:30".
#[must_use]
pub fn offset(instrument: &Instrument, summer_s: f64) -> String {
    let minutes = instrument.zone_offset().minutes() + (summer_s / 60.0) as i32;
    let sign = if minutes < 0 { '−' } else { '+' };
    let (hours, rest) = (minutes.abs() / 60, minutes.abs() % 60);
    if rest == 0 { format!("UTC{sign}{hours}") } else { format!("UTC{sign}{hours}:{rest:02}") }
}

/// Why the dial's clock time and the true one differ, from the largest causes down.
#[must_use]
pub fn residual_sentence(words: &Words, instrument: &Instrument, ladder: &Ladder) -> String {
    let whole_s = left_over_s(ladder);
    let causes = causes(words, instrument, &ladder.residual);
    let length = figures::duration(words, whole_s);
    match causes.as_slice() {
        [] if whole_s == 0.0 => words.say("ladder.exact").to_owned(),
        [] => words.fill("ladder.left-by-rounding", &[("length", &length)]),
        [_] if whole_s == 0.0 => words.say("ladder.exact").to_owned(),
        [(_, only)] => words.fill("ladder.left", &[("length", &length), ("cause", only)]),
        several => {
            let list: Vec<String> = several.iter().map(|cause| told(words, cause)).collect();
            let key = if whole_s == 0.0 { "ladder.cancel" } else { "ladder.left-by-several" };
            words.fill(
                key,
                &[("length", &length), ("causes", &list.join(words.say("figures.between")))],
            )
        }
    }
}

/// What is left over between the clock times as they are written, true minus shown, whole seconds.
#[must_use]
pub fn left_over_s(ladder: &Ladder) -> f64 {
    ladder.true_clock_s.round() - ladder.clock_s.round()
}

/// The largest cause for what is left over, and its size; `None` if none is worth a word.
#[must_use]
pub fn largest_cause(words: &Words, instrument: &Instrument, ladder: &Ladder) -> Option<String> {
    let (seconds, cause) = causes(words, instrument, &ladder.residual).into_iter().next()?;
    let length = figures::duration(words, seconds);
    Some(words.fill("ladder.cause", &[("length", &length), ("cause", &cause)]))
}

/// One of several causes, with what it adds: to a tenth of a second, so that the parts add up.
fn told(words: &Words, (seconds, cause): &(f64, String)) -> String {
    let sign = if *seconds < 0.0 { '−' } else { '+' };
    let length = if seconds.abs() < 60.0 {
        let seconds = format!("{sign}{:.1}", seconds.abs());
        figures::with_unit(words, &seconds, "figures.s").replace(' ', "\u{a0}")
    } else {
        format!("{sign}{}", figures::duration(words, *seconds))
    };
    words.fill("ladder.cause", &[("length", &length), ("cause", cause)])
}

/// The parts worth telling, largest first.
fn causes(words: &Words, instrument: &Instrument, residual: &Residual) -> Vec<(f64, String)> {
    let division = figures::duration(words, f64::from(instrument.graduation().smallest_s()));
    let division = words.fill("ladder.cause.division", &[("division", &division)]);
    let say = |key: &str| words.say(key).to_owned();
    let mut causes = vec![
        (residual.division_s, division),
        (residual.refraction_s, say("ladder.cause.refraction")),
        (residual.alignment_s, say("ladder.cause.alignment")),
        (residual.latitude_s, say("ladder.cause.latitude")),
        (residual.rounding_s, say("ladder.cause.rounding")),
        (residual.place_s, say("ladder.cause.place")),
    ];
    causes.retain(|(seconds, _)| seconds.abs() >= WORTH_TELLING_S);
    order_short(&mut causes, |a, b| a.0.abs() > b.0.abs());
    causes
}
