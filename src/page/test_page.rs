//! A page without a browser, for the tests of what messages do.

use super::dirty::Dirty;
use super::message::Message;
use super::state::State;
use super::update::update;
use super::workings::Workings;
use crate::core::time::Instant;
use crate::words::Words;

/// A page without a browser.
pub(super) struct Page {
    pub(super) state: State,
    pub(super) workings: Workings,
    pub(super) words: Words,
}

impl Page {
    /// A first visit.
    pub(super) fn new() -> Self {
        let state = State::first();
        let Ok(workings) = Workings::new(&state.shown) else { panic!("a first visit") };
        Self { state, workings, words: Words::english() }
    }

    /// Sends a message and brings the workings up to date, as a frame does.
    pub(super) fn send(&mut self, message: Message) -> Dirty {
        let dirty = update(&mut self.state, message, &mut self.workings, &self.words);
        let shown = self.state.on_screen(&mut self.workings);
        dirty | self.state.refresh(&mut self.workings, &shown)
    }

    /// Lets time pass in frames of a sixtieth of a second.
    pub(super) fn wait(&mut self, seconds: f64) {
        let now = Instant::FIRST;
        for _ in 0..(seconds * 60.0).round() as u32 {
            self.send(Message::Tick(1.0 / 60.0, now));
        }
    }

    /// Local apparent time now, seconds.
    pub(super) fn seconds(&self) -> f64 {
        self.workings.now().seconds
    }

    /// The sentences waiting for the reader.
    pub(super) fn notices(&self) -> Vec<&str> {
        self.state.notices.iter().map(|notice| notice.0.as_str()).collect()
    }
}
