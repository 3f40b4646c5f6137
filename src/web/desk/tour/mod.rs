//! Tours: the panel where one is made, the bar while it runs, and the projector's window.
//!
//! The speaker's window decides when something comes by itself; steps, and moments that a hand has
//! chosen, are told both ways.

mod bind;
mod list;
mod signal;
mod stage;

use wasm_bindgen::JsValue;
use web_sys::{BroadcastChannel, Event, HtmlElement, HtmlSelectElement};

use self::list::ListView;
use self::stage::StageView;
use crate::page::state;
use crate::page::tour::bench::{Bench, Change};
use crate::page::tour::link::Word;
use crate::page::tour::moment::Moment;
use crate::page::tour::resume::Resume;
use crate::page::tour::run::{Cue, Run};
use crate::page::tour::{Tour, file, shipped};
use crate::page::update::sentence;
use crate::web::find::{by_id, window};
use crate::web::{address_bar, save, storage};
use crate::words::Words;

pub(super) use self::bind::everything;
pub(super) use self::signal::{Act, Signal, Whose};

/// What the address of the projector's window has behind its `?`.
const PROJECTOR: &str = "screen=projector";
/// What the windows talk through.
const CHANNEL: &str = "noonwedge-tour";

/// Whether this is the projector's window.
fn is_projector() -> bool {
    let search = window().and_then(|window| window.location().search()).unwrap_or_default();
    search.trim_start_matches('?').split('&').any(|part| part == PROJECTOR)
}

/// What waits for the page to write its address.
#[derive(Clone, Copy, Debug)]
enum Wanted {
    /// A new stop.
    Record,
    /// Another moment of a stop.
    Retake(usize),
}

/// The desk's part for tours.
#[derive(Debug)]
pub(super) struct TourDesk {
    is_projector: bool,
    open: bool,
    folded: bool,
    whose: Whose,
    bench: Bench,
    shipped: Tour,
    /// What the page showed before the panel first led elsewhere.
    before: Option<Moment>,
    /// What it showed before the tour was run.
    before_run: Option<Moment>,
    /// Which of its stops was gone to.
    shipped_at: Option<usize>,
    wanted: Option<Wanted>,
    run: Option<Run>,
    last_ms: Option<f64>,
    /// Whether the speaker has asked for the notes, or wants none; else they come with a projector.
    notes: Option<bool>,
    channel: Option<BroadcastChannel>,
    /// Whether this window has opened a projector's.
    leads: bool,
    /// Whether a projector's window is there.
    has_audience: bool,
    /// Whether a hand has been at the projector's window since it was last told something.
    touched: bool,
    /// The moment that the windows agree on.
    agreed: Option<Moment>,
    /// Whether the projector's window has heard from the speaker's.
    is_led: bool,
    list: ListView,
    stage: StageView,
}

impl TourDesk {
    /// Finds the elements, and what was kept.
    pub(super) fn new(words: &Words, channel: Option<BroadcastChannel>) -> Result<Self, JsValue> {
        let is_projector = is_projector();
        let bench = kept(words);
        let whose = if bench.tour().stops.is_empty() { Whose::Shipped } else { Whose::Own };
        let desk = Self {
            is_projector,
            open: false,
            folded: false,
            whose,
            bench,
            shipped: shipped::tour(words),
            before: None,
            before_run: None,
            shipped_at: None,
            wanted: None,
            run: None,
            last_ms: None,
            notes: None,
            channel,
            leads: false,
            has_audience: false,
            touched: false,
            agreed: None,
            is_led: false,
            list: ListView::new()?,
            stage: StageView::new(is_projector)?,
        };
        if is_projector {
            desk.say(&Word::Ask);
        }
        Ok(desk)
    }

    /// Whether time passes.
    pub(super) fn is_running(&self) -> bool {
        self.run.is_some()
    }

    /// Turns to another language: the tour that comes with the project is told in it.
    pub(super) fn turn_to(&mut self, words: &Words) {
        let told = shipped::tour(words);
        let before = std::mem::replace(&mut self.shipped, told);
        if self.bench.retell(&before, &self.shipped) {
            self.keep(words);
        }
        if let Some(run) = &mut self.run
            && run.retell(&before, &self.shipped)
        {
            let word = Word::Tour(run.at(), run.tour().clone());
            self.say(&word);
        }
        self.list.forget();
    }

    pub(super) fn take(&mut self, signal: Signal, words: &Words, shown: &state::Shown) {
        match signal {
            Signal::Open(open) => self.set_open(open),
            Signal::Fold => self.folded = !self.folded,
            Signal::Show(whose) => self.whose = whose,
            Signal::Act(at, act) => self.act(at, act, words, shown),
            Signal::Write(text, typed) => self.change(Change::Write(text, typed), words),
            Signal::Seconds(at, typed) => self.change(Change::Seconds(at, typed), words),
            Signal::Plays(at, plays) => self.change(Change::Plays(at, plays), words),
            Signal::Asks(at, asks) => self.change(Change::Asks(at, asks), words),
            Signal::Record => self.want(Wanted::Record),
            Signal::Undo => self.change(Change::Undo, words),
            Signal::Export => self.export(),
            Signal::Import(text) => {
                self.whose = Whose::Own;
                self.change(Change::Import(text), words);
            }
            Signal::TooLarge => self.bench.say(words.say("tour.said.too-large").to_owned()),
            Signal::Copy => {
                self.whose = Whose::Own;
                self.change(Change::Append(self.shipped.clone()), words);
            }
            Signal::Projector(opened) => {
                self.leads |= opened;
                let key = if opened { "tour.projector.opened" } else { "tour.projector.refused" };
                self.bench.say(words.say(key).to_owned());
            }
            Signal::Run => self.begin(shown),
            Signal::Resume => self.resume(),
            Signal::Speak => speak(),
            Signal::Step(step) => {
                if self.run.as_mut().is_some_and(|run| run.step(step)) {
                    self.arrive(true);
                }
            }
            Signal::Hold => self.hold(),
            Signal::Notes => self.notes = Some(!self.with_notes()),
            // The projector's window has no tour of its own to end.
            Signal::End if self.is_projector => {}
            Signal::End => {
                self.say(&Word::End);
                self.end();
                if let Some(before) = self.before_run.take() {
                    self.go(&before);
                }
            }
            Signal::Heard(text) => {
                if let Some(word) = Word::read(&text) {
                    self.hear(word, shown);
                }
            }
            Signal::Touched => self.touched = true,
            Signal::Kept => {
                if let Some(Ok(tour)) = storage::tour().map(|text| file::read(&text)) {
                    self.bench.take_over(tour);
                }
            }
            // What there is to show is shown in every frame.
            Signal::Screen => {}
        }
    }

    /// The page's address is another.
    pub(super) fn take_address(&mut self, words: &Words, shown: &state::Shown) {
        let moment = Moment::of(shown);
        match self.wanted.take() {
            Some(Wanted::Record) => {
                self.whose = Whose::Own;
                self.change(Change::Record(moment.clone()), words);
            }
            Some(Wanted::Retake(at)) => self.change(Change::Retake(at, moment.clone()), words),
            None => {}
        }
        let tells = if self.is_projector { self.touched } else { self.has_audience };
        if tells && self.agreed.as_ref() != Some(&moment) {
            self.touched = false;
            self.say(&Word::Moment(moment.clone()));
            self.agreed = Some(moment);
        }
    }

    fn want(&mut self, wanted: Wanted) {
        self.wanted = Some(wanted);
        // What was set up by hand is where the speaker wants to be.
        self.before = None;
        address_bar::want();
    }

    fn set_open(&mut self, open: bool) {
        self.open = open;
        if let Some(before) = self.before.take().filter(|_| !open) {
            self.go(&before);
        }
        if !open && let Ok(opener) = by_id::<HtmlElement>("tour") {
            // A button that can't take the focus leaves it where it is.
            let _: Result<(), JsValue> = opener.focus();
        }
    }

    /// The tour that the panel shows.
    fn listed(&self) -> &Tour {
        match self.whose {
            Whose::Own => self.bench.tour(),
            Whose::Shipped => &self.shipped,
        }
    }

    fn change(&mut self, change: Change, words: &Words) {
        if self.bench.act(change, words) {
            self.keep(words);
        }
    }

    fn keep(&mut self, words: &Words) {
        if !storage::keep_tour(&file::write(self.bench.tour())) {
            self.bench.say(words.say("tour.said.storage").to_owned());
        }
    }

    fn act(&mut self, at: usize, act: Act, words: &Words, shown: &state::Shown) {
        match (act, self.whose) {
            (Act::Open, whose) => {
                if whose == Whose::Own {
                    let open = self.bench.open() != Some(at);
                    self.bench.set_open(open.then_some(at));
                } else {
                    self.shipped_at = Some(at).filter(|at| self.shipped_at != Some(*at));
                }
                self.before.get_or_insert_with(|| Moment::of(shown));
                self.list.focus(at, Act::Open);
                if let Some(moment) = self.listed().stops.get(at).map(|stop| stop.moment.clone()) {
                    self.go(&moment);
                }
            }
            (_, Whose::Shipped) => {}
            (Act::Earlier | Act::Later, Whose::Own) => {
                let to = at.saturating_add_signed(if act == Act::Earlier { -1 } else { 1 });
                let was_open = self.bench.open() == Some(at);
                self.change(Change::Shift(at, if act == Act::Earlier { -1 } else { 1 }), words);
                let last = self.bench.tour().stops.len().saturating_sub(1);
                self.list.focus(to.min(last), if was_open { act } else { Act::Open });
            }
            (Act::Retake, Whose::Own) => {
                self.list.focus(at, Act::Retake);
                self.want(Wanted::Retake(at));
            }
            (Act::Delete, Whose::Own) => {
                let last = self.bench.tour().stops.len().saturating_sub(2);
                self.list.focus(at.min(last), Act::Open);
                self.change(Change::Delete(at), words);
            }
        }
    }

    fn export(&self) {
        let tour = self.listed();
        let name = if tour.name.is_empty() { "noonwedge tour" } else { &tour.name };
        // The page has its link.
        let _: Result<(), JsValue> =
            save::text(&file::write(tour), "application/json", &format!("{name}.json"));
    }

    /// The stop that is open in the panel: the tour is run from there.
    fn listed_at(&self) -> Option<usize> {
        match self.whose {
            Whose::Own => self.bench.open(),
            Whose::Shipped => self.shipped_at,
        }
    }

    /// Runs the tour that the panel shows, from the stop that is open or from the first.
    fn begin(&mut self, shown: &state::Shown) {
        self.run = Run::begin(self.listed().clone(), self.listed_at().unwrap_or(0));
        self.before_run = Some(Moment::of(shown));
        self.set_out();
    }

    /// Goes on with the tour that this window ran before it was loaded again.
    fn resume(&mut self) {
        let Some(kept) = storage::tour_run().and_then(|text| Resume::read(&text)) else { return };
        self.whose = if kept.own { Whose::Own } else { Whose::Shipped };
        self.run = Run::resume(self.listed().clone(), kept.at, f64::from(kept.total_s));
        self.before_run = Some(kept.before);
        self.set_out();
    }

    /// Tells the other windows of the tour, and shows its stop.
    fn set_out(&mut self) {
        self.last_ms = None;
        // A projector's window that is still there says so.
        self.has_audience = false;
        if let Some(run) = &self.run {
            self.say(&Word::Tour(run.at(), run.tour().clone()));
            self.arrive(false);
        }
    }

    /// Shows the stop at which the tour has come; other windows may be told.
    fn arrive(&mut self, tell: bool) {
        let Some(run) = &self.run else { return };
        self.remember(run);
        if tell {
            self.say(&Word::Stop(run.at()));
        }
        match run.stop().map(|stop| stop.moment.clone()) {
            Some(moment) => {
                self.agreed = Some(moment.clone());
                self.touched = false;
                self.go(&moment);
            }
            // At the end the last picture stays.
            None => play(false),
        }
    }

    /// Keeps where the tour is, for the case that this window is loaded again.
    fn remember(&self, run: &Run) {
        // The projector's window asks the speaker's.
        if !self.is_projector
            && let Some(before) = self.before_run.clone()
        {
            // A tour runs for hours at most.
            let (own, total_s) = (self.whose == Whose::Own, run.total_s() as u32);
            let kept = Resume { own, at: run.at(), total_s, before };
            storage::keep_tour_run(Some(&kept.write()));
        }
    }

    /// Lets the page show a moment.
    fn go(&self, moment: &Moment) {
        address_bar::go(&moment.address(&address_bar::read()));
    }

    fn hold(&mut self) {
        let Some(run) = &mut self.run else { return };
        run.hold(!run.is_held());
        let plays = !run.is_held() && run.stop().is_some_and(|stop| stop.plays);
        play(plays);
        self.say(&Word::Play(plays));
    }

    fn end(&mut self) {
        if self.run.take().is_some() {
            play(false);
            storage::keep_tour_run(None);
        }
    }

    fn with_notes(&self) -> bool {
        !self.is_projector && self.notes.unwrap_or(self.has_audience)
    }

    /// Tells the other windows something.
    fn say(&self, word: &Word) {
        if let Some(channel) = &self.channel {
            // A text can always be sent.
            let _: Result<(), JsValue> = channel.post_message(&word.write().into());
        }
    }

    /// Another window says something.
    fn hear(&mut self, word: Word, shown: &state::Shown) {
        self.is_led |= matches!(word, Word::Tour(..) | Word::Moment(_));
        match (word, self.is_projector) {
            (Word::Ask, false) if self.leads || self.run.is_some() => {
                self.has_audience = true;
                if let Some(run) = &self.run {
                    self.say(&Word::Tour(run.at(), run.tour().clone()));
                }
                let moment = Moment::of(shown);
                self.say(&Word::Moment(moment.clone()));
                self.agreed = Some(moment);
            }
            (Word::Here, false) => self.has_audience = self.leads || self.run.is_some(),
            (Word::Gone, false) => self.has_audience = false,
            (Word::Tour(at, tour), true) => {
                self.run = Run::begin(tour, 0);
                if let Some(run) = &mut self.run {
                    run.go(at);
                }
                self.say(&Word::Here);
                self.arrive(false);
            }
            (Word::Stop(at), _) if self.run.as_mut().is_some_and(|run| run.go(at)) => {
                self.arrive(false);
            }
            (Word::Moment(moment), true) => {
                self.say(&Word::Here);
                self.follow(moment);
            }
            (Word::Moment(moment), false) if self.has_audience => self.follow(moment),
            (Word::Play(on), true) => play(on),
            (Word::End, true) => self.end(),
            _ => {}
        }
    }

    fn follow(&mut self, moment: Moment) {
        self.touched = false;
        self.go(&moment);
        self.agreed = Some(moment);
    }

    /// Lets time pass for the tour that runs.
    pub(super) fn let_time_pass(&mut self, now_ms: f64) {
        let last_ms = self.last_ms.replace(now_ms).unwrap_or(now_ms);
        // The projector waits to be told.
        if self.is_projector {
            return;
        }
        match self.run.as_mut().and_then(|run| run.after((now_ms - last_ms).max(0.0) / 1000.0)) {
            Some(Cue::Play) => {
                play(true);
                self.say(&Word::Play(true));
            }
            Some(Cue::GoneOn) => self.arrive(true),
            None => {}
        }
    }

    /// Brings the elements in line.
    pub(super) fn draw(&mut self, words: &Words) -> Result<(), JsValue> {
        let begins = self.run.is_some() && !self.stage.is_up();
        let ends = self.run.is_none() && self.stage.is_up();
        let with_notes = self.with_notes();
        match &self.run {
            Some(run) => self.stage.show(words, run, with_notes),
            None => self.stage.clear(),
        }
        self.stage.show_screen(words);
        self.stage.show_waiting(self.is_projector && !self.is_led);
        let tour = match self.whose {
            Whose::Own => self.bench.tour(),
            Whose::Shipped => &self.shipped,
        };
        let shown = list::Shown {
            open: self.open && !self.is_projector && self.run.is_none(),
            folded: self.folded,
            whose: self.whose,
            tour,
            at: self.listed_at(),
            bench: &self.bench,
        };
        self.list.show(words, &shown)?;
        if begins && !self.is_projector {
            by_id::<HtmlElement>("tour-forward")?.focus()?;
        }
        if ends && self.open {
            by_id::<HtmlElement>("tour-run")?.focus()?;
        }
        Ok(())
    }
}

/// What the windows talk through. Where they can't, each runs its own tour.
pub(super) fn channel() -> Option<BroadcastChannel> {
    BroadcastChannel::new(CHANNEL).ok()
}

/// The speaker's own tour as the browser has kept it.
fn kept(words: &Words) -> Bench {
    let Some(text) = storage::tour() else { return Bench::default() };
    Bench::read(&text).unwrap_or_else(|faults| {
        // Full storage would have been told when it was filled.
        let _: bool = storage::keep_unread_tour(&text);
        let faults: Vec<String> = faults.iter().map(|fault| sentence(words, fault)).collect();
        let mut bench = Bench::default();
        bench.say(words.fill("tour.said.unread", &[("sentences", &faults.join("; "))]));
        bench
    })
}

/// Turns this window to the language that was last chosen, in whichever window.
fn speak() {
    let Some(tag) = storage::language() else { return };
    let Ok(list) = by_id::<HtmlSelectElement>("language") else { return };
    if list.value() != tag {
        list.set_value(&tag);
        // The page hears it as if a hand had chosen; an event of one's own can always be made.
        let _: Result<bool, JsValue> =
            Event::new("change").and_then(|event| list.dispatch_event(&event));
    }
}

/// Lets the page's clock run, or stand.
fn play(on: bool) {
    let Ok(button) = by_id::<HtmlElement>("play") else { return };
    let is_playing = button.class_list().contains("is-playing");
    if is_playing != on {
        button.click();
    }
}
