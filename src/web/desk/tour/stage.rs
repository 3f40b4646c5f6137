//! The bar below the page while a tour runs: the caption for everybody, the notes for the speaker.

use wasm_bindgen::JsValue;
use web_sys::{Element, HtmlElement, HtmlProgressElement};

use crate::page::tour::run::Run;
use crate::web::find::{by_id, document};
use crate::web::marks::{Text, set_attribute, set_disabled, set_hidden, set_pressed};
use crate::words::Words;
use crate::words::figures;

/// What marks the page while a tour runs; an update of the site waits until it has gone.
const MARK: &str = "data-tour";

/// What marks a change of the instrument: the new one fades in, one way or the other.
const SCENE: &str = "data-scene";

/// What marks the page by what a small screen shows beside the reading: the lens, or the ladder.
const BESIDE: &str = "data-beside";

/// How many steps the line of a stop's time is drawn in.
const STEPS: f64 = 400.0;

/// The elements of the bar.
#[derive(Debug)]
pub(super) struct StageView {
    root: Element,
    bar: HtmlElement,
    counter: Text,
    caption: Text,
    speaker: HtmlElement,
    notes: Text,
    next: Text,
    elapsed: Text,
    back: HtmlElement,
    forward: HtmlElement,
    hold: HtmlElement,
    hold_text: Text,
    notes_button: HtmlElement,
    screens: [(HtmlElement, Text); 2],
    wait: HtmlElement,
    time: HtmlProgressElement,
    /// The instrument that is shown.
    dial: Option<String>,
}

impl StageView {
    /// Finds the elements.
    pub(super) fn new(is_projector: bool) -> Result<Self, JsValue> {
        let no_root = || JsValue::from_str("no root");
        let root = document()?.document_element().ok_or_else(no_root)?;
        if is_projector {
            root.set_attribute("data-screen", "projector")?;
        }
        Ok(Self {
            root,
            bar: by_id("tour-bar")?,
            counter: Text::new("tour-counter")?,
            caption: Text::new("tour-caption")?,
            speaker: by_id("tour-speaker")?,
            notes: Text::new("tour-notes")?,
            next: Text::new("tour-next")?,
            elapsed: Text::new("tour-elapsed")?,
            back: by_id("tour-back")?,
            forward: by_id("tour-forward")?,
            hold: by_id("tour-hold")?,
            hold_text: Text::new("tour-hold")?,
            notes_button: by_id("tour-notes-button")?,
            screens: [
                (by_id("tour-screen")?, Text::new("tour-screen")?),
                (by_id("tour-wait-screen")?, Text::new("tour-wait-screen")?),
            ],
            wait: by_id("tour-wait")?,
            time: by_id("tour-time")?,
            dial: None,
        })
    }

    /// Whether a tour is shown to run.
    pub(super) fn is_up(&self) -> bool {
        !self.bar.hidden()
    }

    /// Puts the bar away.
    pub(super) fn clear(&mut self) {
        if self.is_up() {
            set_hidden(&self.bar, true);
            self.dial = None;
            for mark in [MARK, SCENE, BESIDE] {
                // The name is a name.
                let _: Result<(), JsValue> = self.root.remove_attribute(mark);
            }
        }
    }

    /// Lets another instrument than before fade in.
    fn change_scene(&mut self, dial: &str) {
        if self.dial.as_deref() == Some(dial) {
            return;
        }
        if self.dial.replace(dial.to_owned()).is_some() {
            let was = self.root.get_attribute(SCENE);
            let next = if was.as_deref() == Some("one") { "other" } else { "one" };
            set_attribute(&self.root, SCENE, next);
        }
    }

    /// Shows where a tour is, with the speaker's notes or without.
    pub(super) fn show(&mut self, words: &Words, run: &Run, with_notes: bool) {
        set_hidden(&self.bar, false);
        let asks = run.stop().is_some_and(|stop| stop.asks);
        set_attribute(&self.root, MARK, if asks { "asks" } else { "tells" });
        if let Some(stop) = run.stop() {
            let beside = if stop.uses_the_lens() { "lens" } else { "ladder" };
            set_attribute(&self.root, BESIDE, beside);
            self.change_scene(stop.moment.dial());
        }
        let count = run.tour().stops.len();
        let (counter, caption) = match run.stop() {
            Some(stop) => {
                let number = (run.at() + 1).to_string();
                let values = [("number", number.as_str()), ("count", &count.to_string())];
                (words.fill("tour.counter", &values), stop.caption.as_str())
            }
            None => (words.say("tour.over").to_owned(), words.say("tour.over.caption")),
        };
        self.counter.set(&counter);
        self.caption.set(caption);
        set_hidden(&self.hold, !run.can_be_held());
        set_disabled(&self.back, run.at() == 0);
        set_disabled(&self.forward, run.stop().is_none());
        self.hold_text.set(words.say(if run.is_held() { "tour.go-on" } else { "tour.hold" }));
        let share = run.share();
        set_hidden(&self.time, share.is_none());
        let share = (share.unwrap_or(0.0) * STEPS).round() / STEPS;
        if self.time.value() != share {
            self.time.set_value(share);
        }
        set_hidden(&self.speaker, !with_notes);
        set_pressed(&self.notes_button, with_notes);
        // Where they are not to be seen they are not there either.
        let (mut notes, mut next) = ("", String::new());
        if with_notes {
            notes = run.stop().map_or("", |stop| stop.notes.as_str());
            next = match run.next() {
                Some(stop) => words.fill("tour.next", &[("caption", &stop.caption)]),
                None => words.say("tour.next.none").to_owned(),
            };
            let clock = figures::clock(run.total_s().floor());
            self.elapsed.set(&words.fill("tour.elapsed", &[("time", &clock)]));
        }
        self.notes.set(notes);
        self.next.set(&next);
    }

    /// Shows whether the page has the whole screen, and whether it can have it.
    pub(super) fn show_screen(&mut self, words: &Words) {
        let Ok(page) = document() else { return };
        let is_full = page.fullscreen_element().is_some();
        for (button, text) in &mut self.screens {
            set_hidden(button, !page.fullscreen_enabled());
            text.set(words.say(if is_full { "tour.screen.leave" } else { "tour.screen" }));
        }
    }

    /// Says, in the projector's window, that it waits for the speaker's.
    pub(super) fn show_waiting(&mut self, waits: bool) {
        set_hidden(&self.wait, !waits);
    }
}
