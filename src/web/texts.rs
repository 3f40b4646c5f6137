//! What is written on the page: the reading, the ladder, the labels of the handles.

use wasm_bindgen::JsValue;
use web_sys::{Element, HtmlElement};

use super::find::{by_id, document, piece};
use super::marks::{Text, set_attribute, set_hidden, write};
use crate::core::instrument::Side;
use crate::core::ladder::Ladder;
use crate::core::reading::Reading;
use crate::page::counted::{self, Term};
use crate::page::ladder_rows::{self, Rank, Row};
use crate::page::light_words;
use crate::page::noon_panel::{self, Interval};
use crate::page::rod_panel;
use crate::page::state::Shown;
use crate::page::workings::Workings;
use crate::page::{describe, labels, reason};
use crate::words::{Words, figures};

/// The elements that hold texts.
#[derive(Debug)]
pub(super) struct Texts {
    place: Text,
    edge: Text,
    figures: HtmlElement,
    terms: Vec<WrittenTerm>,
    light: Text,
    light_part: HtmlElement,
    reason: Text,
    reason_part: HtmlElement,
    clock_label: Text,
    clock_time: Text,
    clock_line: HtmlElement,
    correction: Text,
    correction_line: HtmlElement,
    ladder_part: HtmlElement,
    ladder: HtmlElement,
    lines: Vec<Line>,
    residual: Text,
    rod: [Text; 6],
    day_time: Text,
    year_day: Text,
    year_year: Text,
    countdown: Text,
    feet: Text,
    intervals: [Element; 3],
    descriptions: [Text; 5],
    said: Text,
}

impl Texts {
    /// Finds the elements.
    pub(super) fn new() -> Result<Self, JsValue> {
        Ok(Self {
            place: Text::new("place")?,
            edge: Text::new("reading-edge")?,
            figures: by_id("figures")?,
            terms: Vec::new(),
            light: Text::new("light")?,
            light_part: by_id("light")?,
            reason: Text::new("reason")?,
            reason_part: by_id("reason")?,
            clock_label: Text::new("clock-label")?,
            clock_time: Text::new("clock-time")?,
            clock_line: by_id("clock-line")?,
            correction: Text::new("correction")?,
            correction_line: by_id("correction-line")?,
            ladder_part: by_id("ladder-part")?,
            ladder: by_id("ladder")?,
            lines: Vec::new(),
            residual: Text::new("residual")?,
            rod: [
                Text::new("rod-scale")?,
                Text::new("rod-read")?,
                Text::new("rod-true")?,
                Text::new("rod-bias")?,
                Text::new("rod-sentence")?,
                Text::new("rod-eye-value")?,
            ],
            day_time: Text::new("day-time")?,
            year_day: Text::new("year-day")?,
            year_year: Text::new("year-year")?,
            countdown: Text::new("noon-countdown")?,
            feet: Text::new("noon-feet")?,
            intervals: [by_id("noon-meridian")?, by_id("noon-blind")?, by_id("noon-soft")?],
            descriptions: [
                Text::new("court-text")?,
                Text::new("lens-text")?,
                Text::new("day-text")?,
                Text::new("year-text")?,
                Text::new("scale-text")?,
            ],
            said: Text::new("said")?,
        })
    }

    /// Writes the reading and the labels of the handles.
    pub(super) fn write_figures(
        &mut self,
        words: &Words,
        shown: &Shown,
        workings: &Workings,
    ) -> Result<(), JsValue> {
        let now = workings.now();
        self.place.set(&labels::place(words, workings));
        self.day_time.set(&words.figure(&figures::clock(now.seconds)));
        self.year_day.set(&labels::day_and_month(words, now.date));
        self.year_year.set(&labels::year_and_weekday(words, now.date));
        let reading = workings.moment().reading.as_ref();
        set_hidden(&self.figures, reading.is_err());
        set_hidden(&self.reason_part, reading.is_ok());
        match reading {
            Ok(reading) => self.write_reading(words, reading)?,
            Err(why) => {
                self.edge.set(words.say("reading.none"));
                self.reason.set(&reason::sentence(words, workings, *why));
            }
        }
        let light = shown.limits.then(|| light_words::sentence(words, workings.moment())).flatten();
        set_hidden(&self.light_part, light.is_none());
        self.light.set(light.as_deref().unwrap_or_default());
        Ok(())
    }

    /// Writes the ladder, or what stands in its place: the rod's figures, the pass through noon.
    pub(super) fn write_steps(
        &mut self,
        words: &Words,
        shown: &Shown,
        workings: &Workings,
    ) -> Result<(), JsValue> {
        self.write_ladder(words, shown, workings)?;
        if let Some(rod) = shown.rod {
            let panel = rod_panel::panel(words, workings, &rod, shown.least_cover);
            let (scale, read, eye) = (&panel.scale, &panel.read, &panel.eye[1]);
            let lines = [scale, read, &panel.truth, &panel.bias, &panel.sentence, eye];
            self.rod.iter_mut().zip(lines).for_each(|(text, line)| text.set(line));
        }
        if shown.noon {
            self.write_noon(words, workings);
        }
        Ok(())
    }

    fn write_reading(&mut self, words: &Words, reading: &Reading) -> Result<(), JsValue> {
        self.edge.set(words.say(match reading.edge.side {
            Side::West => "reading.edge.west",
            Side::East => "reading.edge.east",
        }));
        rewrite_terms(&self.figures, &mut self.terms, counted::terms(words, reading))
    }

    fn write_ladder(
        &mut self,
        words: &Words,
        shown: &Shown,
        workings: &Workings,
    ) -> Result<(), JsValue> {
        let ladder = workings.moment().ladder.as_ref();
        // The rod's figures stand in the ladder's place, and so does the pass through noon.
        let taken = shown.rod.is_some() || shown.noon;
        set_hidden(&self.ladder_part, ladder.is_none() || taken);
        set_hidden(&self.clock_line, ladder.is_none());
        set_hidden(&self.correction_line, ladder.is_none());
        let Some(ladder) = ladder else { return Ok(()) };
        self.write_clock(words, ladder);
        let instrument = workings.instrument();
        let rows = ladder_rows::rows(words, instrument, ladder, shown.rounding);
        rewrite_rows(&self.ladder, &mut self.lines, rows)?;
        self.residual.set(&ladder_rows::residual_sentence(words, instrument, ladder));
        Ok(())
    }

    fn write_clock(&mut self, words: &Words, ladder: &Ladder) {
        let count = if ladder.corrections.summer_s == 0.0 { "2" } else { "3" };
        self.clock_label.set(&words.fill("ladder.clock-line", &[("n", count)]));
        self.clock_time.set(&words.figure(&figures::clock(ladder.clock_s)));
        let correction = figures::signed_clock(ladder.clock_s - ladder.read_s);
        self.correction.set(&words.figure(&correction));
    }

    fn write_noon(&mut self, words: &Words, workings: &Workings) {
        let Some(panel) = noon_panel::panel(words, workings) else { return };
        self.countdown.set(&panel.countdown);
        self.feet.set(&panel.feet);
        for (element, interval) in self.intervals.iter().zip(&panel.intervals) {
            write_interval(element, interval);
        }
    }

    /// Writes what the pictures show, for those who don't see them.
    pub(super) fn describe(&mut self, words: &Words, shown: &Shown, workings: &Workings) {
        let texts = [
            describe::court(words, workings, shown),
            describe::lens(words, workings, shown),
            describe::day(words, workings),
            describe::year(words, workings),
            describe::scale(words, workings, shown),
        ];
        self.descriptions.iter_mut().zip(&texts).for_each(|(text, line)| text.set(line));
    }

    /// Announces what the dial reads.
    pub(super) fn announce(&mut self, words: &Words, workings: &Workings) {
        self.said.set(&describe::reading(words, workings));
    }
}

/// A new element with a class and a text.
fn classed(tag: &str, class: &str, text: &str) -> Result<Element, JsValue> {
    let element = piece(tag, text)?;
    element.set_class_name(class);
    Ok(element)
}

/// A term of the count on the page.
#[derive(Debug)]
struct WrittenTerm {
    term: Term,
    figure: Element,
    label: Element,
}

impl WrittenTerm {
    /// Adds a term to the count, behind a plus unless it is the first.
    fn append(holder: &HtmlElement, index: usize, term: Term) -> Result<Self, JsValue> {
        if index > 0 {
            holder.append_child(&*classed("span", "plus", "+")?)?;
        }
        let both = classed("span", "term", "")?;
        let figure = classed("span", "figure", &term.figure)?;
        let label = classed("span", "label", &term.label)?;
        both.append_child(&figure)?;
        both.append_child(&document()?.create_text_node(" "))?;
        both.append_child(&label)?;
        holder.append_child(&both)?;
        Ok(Self { term, figure, label })
    }

    /// Writes what has changed.
    fn rewrite(&mut self, term: Term) {
        if self.term.figure != term.figure {
            write(&self.figure, &term.figure);
        }
        if self.term.label != term.label {
            write(&self.label, &term.label);
        }
        self.term = term;
    }
}

/// Writes the terms of the count, making them anew only when there are more or fewer.
fn rewrite_terms(
    holder: &HtmlElement,
    written: &mut Vec<WrittenTerm>,
    terms: Vec<Term>,
) -> Result<(), JsValue> {
    if written.len() == terms.len() {
        written.iter_mut().zip(terms).for_each(|(written, term)| written.rewrite(term));
        return Ok(());
    }
    holder.set_text_content(None);
    set_attribute(holder, "data-terms", &terms.len().to_string());
    let terms = terms.into_iter().enumerate();
    let append = |(index, term)| WrittenTerm::append(holder, index, term);
    *written = terms.map(append).collect::<Result<_, _>>()?;
    Ok(())
}

/// A row of the ladder on the page.
#[derive(Debug)]
struct Line {
    row: Row,
    step: Option<Element>,
    total: Element,
}

impl Line {
    /// Adds a row to the ladder.
    fn append(body: &HtmlElement, row: &Row) -> Result<Self, JsValue> {
        let class = match row.rank {
            Rank::Step => "step",
            Rank::Result => "result",
            Rank::Check => "check",
        };
        let line = classed("tr", class, "")?;
        let label = piece("th", &row.label)?;
        label.set_attribute("scope", "row")?;
        line.append_child(&label)?;
        let total = piece("td", &row.total)?;
        let step = if row.step.is_empty() {
            total.set_attribute("colspan", "2")?;
            None
        } else {
            let step = piece("td", &row.step)?;
            line.append_child(&step)?;
            Some(step)
        };
        line.append_child(&total)?;
        body.append_child(&line)?;
        Ok(Self { row: row.clone(), step, total })
    }

    /// Whether only the figures of a row differ from what is written.
    fn fits(&self, row: &Row) -> bool {
        let kind = |row: &Row| (row.rank, row.step.is_empty());
        kind(&self.row) == kind(row) && self.row.label == row.label
    }

    /// Writes the figures that have changed.
    fn rewrite(&mut self, row: Row) {
        if let Some(step) = &self.step
            && self.row.step != row.step
        {
            write(step, &row.step);
        }
        if self.row.total != row.total {
            write(&self.total, &row.total);
        }
        self.row = row;
    }
}

/// Writes the rows of the ladder, making them anew only when there are others.
fn rewrite_rows(body: &HtmlElement, lines: &mut Vec<Line>, rows: Vec<Row>) -> Result<(), JsValue> {
    let same =
        lines.len() == rows.len() && lines.iter().zip(&rows).all(|(line, row)| line.fits(row));
    if same {
        lines.iter_mut().zip(rows).for_each(|(line, row)| line.rewrite(row));
        return Ok(());
    }
    body.set_text_content(None);
    *lines = rows.iter().map(|row| Line::append(body, row)).collect::<Result<_, _>>()?;
    Ok(())
}

/// Writes one interval into its `dt` and `dd`.
fn write_interval(element: &Element, interval: &Interval) {
    set_attribute(element, "class", if interval.is_now { "is-now" } else { "" });
    for (tag, text) in [("dt", &interval.label), ("dd", &interval.times)] {
        if let Ok(Some(cell)) = element.query_selector(tag) {
            write(&cell, text);
        }
    }
}
