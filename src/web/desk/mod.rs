//! The page's second program: what a guide prepares, compares and tells beside the court.
//!
//! It knows of the first program only what the page's address says, and tells it something by
//! changing that.

mod answers;
mod bind;
mod dialog;
mod prepare;
mod share;
mod signal;
mod sizes;
mod tour;

use glam::DVec2;
use wasm_bindgen::JsValue;
use web_sys::BroadcastChannel;

use super::address_bar;
use super::browser_zones::BrowserZones;
use super::page_type::label_px;
use super::page_words::fill_words;
use super::shell::{Notes, Program, Shell};
use super::surface::Surface;
use crate::page::address;
use crate::page::answers::telling;
use crate::page::keys::Move;
use crate::page::prepare::curves::curves;
use crate::page::prepare::{Ask, Prepare};
use crate::page::state::Shown;
use crate::page::workings::Workings;
use crate::scene::year_plots;
use crate::words::Words;
use answers::AnswersView;
use prepare::PrepareView;
use share::ShareView;
use signal::{Act, Picture, Signal};
use sizes::SizesView;
use tour::TourDesk;

/// Starts the desk. Its part of the page must be there.
///
/// # Errors
/// When the document lacks an element, or the browser an ability, that the desk can't do without.
pub fn start() -> Result<(), JsValue> {
    let channel = tour::channel();
    let make = |notes| Desk::new(notes, channel.clone());
    Shell::start(make, |binder| bind::everything(binder, channel.as_ref()))
}

/// The desk.
struct Desk {
    words: Words,
    /// What was asked before the page's language had come; nothing waits afterwards.
    waiting: Option<Vec<Signal>>,
    shown: Shown,
    /// Whether the page presents what it shows.
    presenting: bool,
    workings: Workings,
    prepare: Prepare,
    sheets: PrepareView,
    year: Surface,
    sizes: SizesView,
    answers: AnswersView,
    share: ShareView,
    /// Where the browser's late answers are noted.
    notes: Notes<Signal>,
    tour: TourDesk,
}

impl Desk {
    fn new(notes: Notes<Signal>, channel: Option<BroadcastChannel>) -> Result<Self, JsValue> {
        let words = Words::english();
        let shown = Shown::first();
        let refused = |error| JsValue::from_str(&format!("{error}"));
        let zones = Box::new(BrowserZones::default());
        let workings = Workings::with_zones(&shown, zones).map_err(refused)?;
        let mut desk = Self {
            tour: TourDesk::new(&words, channel)?,
            words,
            waiting: Some(Vec::new()),
            shown,
            presenting: false,
            workings,
            prepare: Prepare::default(),
            sheets: PrepareView::new()?,
            year: Surface::new("year-plots")?,
            sizes: SizesView::new()?,
            answers: AnswersView::new()?,
            share: ShareView::new()?,
            notes,
        };
        desk.read_address();
        Ok(desk)
    }

    /// Takes what the page shows from its address. What can't be used the first program has told.
    fn read_address(&mut self) {
        let read = address::read(&address_bar::read(), &self.shown);
        (self.shown, self.presenting) = (read.shown, read.presenting);
        self.workings.refresh(&self.shown);
    }

    /// Turns to the page's language; without its words, what is spoken stays.
    fn turn_to(&mut self, words: Option<Words>) {
        self.words = words.unwrap_or_else(|| self.words.clone());
        // The elements are the desk's own; answers and tour have left it for the page.
        for part in ["#desk ", "#answers ", "#tour-part "] {
            let _: Result<(), JsValue> = fill_words(&self.words, part);
        }
        self.tour.turn_to(&self.words);
        for signal in self.waiting.take().into_iter().flatten() {
            self.take(signal);
        }
    }

    fn take(&mut self, signal: Signal) {
        match signal {
            Signal::Language(words) => self.turn_to(words),
            Signal::Address => {
                self.read_address();
                self.tour.take_address(&self.words, &self.shown);
            }
            Signal::Size(Picture::Year, size) => self.year.resize(size),
            Signal::Size(Picture::Sizes, size) => self.sizes.resize(size),
            Signal::Size(Picture::Code, size) => self.share.resize(size),
            Signal::Sizes(true) => self.sizes.dialog.open(),
            Signal::Sizes(false) => self.sizes.dialog.close(),
            Signal::Prepare(ask) => self.ask(ask),
            Signal::Point(at) => self.read_under(at),
            Signal::Sheets(act) => self.act(act),
            Signal::Answers(true) => self.answers.open(),
            Signal::Answers(false) => {
                if let Some(before) = self.answers.close() {
                    self.show_again(before);
                }
            }
            Signal::Question(question) => {
                if let Some(own) = self.answers.ask(question, &self.shown) {
                    // What the last answer showed is no part of the next.
                    self.workings.refresh(&own);
                    let told = telling(question, &own, &mut self.workings);
                    self.workings.refresh(&self.shown);
                    self.answers.has_shown(&told);
                    self.show(&told);
                }
            }
            Signal::BackFromAnswers => {
                if let Some(before) = self.answers.back() {
                    self.show_again(before);
                }
            }
            Signal::Share(true) => self.share.open(),
            Signal::Share(false) => self.share.dialog.close(),
            Signal::Link(what) => self.share.act(what, &self.words, &self.workings, &self.notes),
            Signal::Tour(signal) => self.tour.take(signal, &self.words, &self.shown),
        }
    }

    /// Does what is asked of the sheets, and opens them to be turned.
    fn ask(&mut self, ask: Ask) {
        if matches!(ask, Ask::Turn(_)) {
            self.sheets.dialog.open();
        }
        self.prepare.act(ask, &self.workings);
    }

    /// Reads the day under a point of the year's curves.
    fn read_under(&mut self, at: DVec2) {
        let (words, shown, workings) = (&self.words, &self.shown, &self.workings);
        let view = curves(&self.prepare, words, shown, workings, self.year.css_size(), label_px());
        let day = self.prepare.table().and_then(|table| year_plots::day_at(table, &view, at));
        if let Some(day) = day {
            self.ask(Ask::Read(Move::To(day as f64 + 1.0)));
        }
    }

    fn act(&mut self, act: Act) {
        match act {
            Act::Close => self.sheets.dialog.close(),
            Act::Print => PrepareView::print(),
            Act::Csv => {
                // The page has its link.
                let _: Result<(), JsValue> = self.sheets.save_csv(&self.prepare, &self.workings);
            }
            Act::Go => {
                self.sheets.dialog.close();
                let date = self.prepare.date(&self.workings);
                // Of the years known, all days can be gone to.
                if let Ok(instant) = self.workings.at_same_clock(date, self.shown.instant) {
                    self.show(&Shown { instant, ..self.shown.clone() });
                }
            }
        }
    }

    /// Lets the page show what it has shown before, in the light it has now.
    fn show_again(&self, before: Shown) {
        let before = Shown { theme: self.shown.theme, ..before };
        if before != self.shown {
            self.show(&before);
        }
    }

    /// Lets the page show something else.
    fn show(&self, shown: &Shown) {
        address_bar::go(&address::of_page(shown, self.presenting));
    }

    fn draw(&mut self) {
        let (words, shown, workings) = (&self.words, &self.shown, &self.workings);
        if self.sheets.dialog.is_open() {
            self.prepare.refresh(workings);
            // Elements of one's own making can be made.
            let _: Result<(), JsValue> =
                self.sheets.show(words, &mut self.prepare, shown, workings);
            self.year.paint(|drawing, size| {
                if let Some(table) = self.prepare.table() {
                    let view = curves(&self.prepare, words, shown, workings, size, label_px());
                    year_plots::draw(drawing, table, &view);
                }
            });
        }
        if self.sizes.dialog.is_open() {
            // Elements of one's own making can be made.
            let _: Result<(), JsValue> = self.sizes.show(words, shown, workings);
        }
        if self.share.dialog.is_open() {
            self.share.show(words, workings);
        }
        // Elements of one's own making can be made.
        let _: Result<(), JsValue> = self.answers.show(words, workings);
        // The panel and the bar are there.
        let _: Result<(), JsValue> = self.tour.draw(words);
    }
}

impl Program for Desk {
    type Signal = Signal;

    fn frame(&mut self, now_ms: f64, signals: Vec<Signal>) -> bool {
        for signal in signals {
            match (&mut self.waiting, signal) {
                (Some(waiting), signal) if !matches!(signal, Signal::Language(_)) => {
                    waiting.push(signal);
                }
                (_, signal) => self.take(signal),
            }
        }
        if self.waiting.is_none() {
            self.tour.let_time_pass(now_ms);
            self.draw();
        }
        self.tour.is_running()
    }
}
