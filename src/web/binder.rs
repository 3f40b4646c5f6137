//! Collects what listens for a program: events of elements, sizes of canvases.

use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Event, EventTarget, HtmlInputElement, KeyboardEvent};

use super::listener::{Listener, Phase};
use super::shell::Notes;
use super::size_watch::SizeWatch;
use super::surface::Size;
use crate::page::keys::Move;

/// Everything that listens; dropping it makes the program deaf.
#[derive(Debug)]
pub(super) struct Bindings {
    _listeners: Vec<Listener>,
    _sizes: Vec<SizeWatch>,
}

/// Collects listeners.
pub(super) struct Binder<S> {
    pub(super) notes: Notes<S>,
    listeners: Vec<Listener>,
    sizes: Vec<SizeWatch>,
}

/// What makes a signal of an event.
type Reader<S> = Box<dyn FnMut(&Event) -> Option<S>>;

impl<S: 'static> Binder<S> {
    /// Nothing listens yet.
    pub(super) fn new(notes: Notes<S>) -> Self {
        Self { notes, listeners: Vec::new(), sizes: Vec::new() }
    }

    /// What has been collected.
    pub(super) fn bindings(self) -> Bindings {
        Bindings { _listeners: self.listeners, _sizes: self.sizes }
    }

    /// Notes what `read` makes of an event.
    pub(super) fn on(
        &mut self,
        target: &EventTarget,
        kind: &'static str,
        read: impl FnMut(&Event) -> Option<S> + 'static,
    ) -> Result<(), JsValue> {
        self.listen(target, kind, Phase::After, Box::new(read))
    }

    /// The same, before the element hears of it that the event happens to.
    pub(super) fn on_first(
        &mut self,
        target: &EventTarget,
        kind: &'static str,
        read: impl FnMut(&Event) -> Option<S> + 'static,
    ) -> Result<(), JsValue> {
        self.listen(target, kind, Phase::First, Box::new(read))
    }

    /// The same for every kind of `read`, so that the program has it once.
    fn listen(
        &mut self,
        target: &EventTarget,
        kind: &'static str,
        phase: Phase,
        mut read: Reader<S>,
    ) -> Result<(), JsValue> {
        let notes = self.notes.clone();
        let run = move |event: Event| {
            if let Some(signal) = read(&event) {
                notes.note(signal);
            }
        };
        self.listeners.push(Listener::new(target, kind, phase, run)?);
        Ok(())
    }

    /// Notes every size of a canvas.
    pub(super) fn size(
        &mut self,
        id: &str,
        read: impl Fn(Size) -> S + 'static,
    ) -> Result<(), JsValue> {
        let notes = self.notes.clone();
        self.sizes.push(SizeWatch::new(id, Box::new(move |size| notes.note(read(size))))?);
        Ok(())
    }

    /// A slider: dragged, tapped, or moved by keys.
    pub(super) fn slide(
        &mut self,
        slider: &HtmlInputElement,
        read: impl Fn(Move) -> S + Copy + 'static,
    ) -> Result<(), JsValue> {
        let dragged = slider.clone();
        self.on(slider, "input", move |_| Some(read(Move::To(dragged.value_as_number()))))?;
        self.on(slider, "keydown", move |event| {
            let event: &KeyboardEvent = event.dyn_ref()?;
            let by = plain_key(event).and_then(|key| Move::of_key(&key, event.shift_key()))?;
            event.prevent_default();
            Some(read(by))
        })
    }
}

/// The key of an event without Control, Alt or Command.
pub(super) fn plain_key(event: &KeyboardEvent) -> Option<String> {
    let plain = !event.ctrl_key() && !event.alt_key() && !event.meta_key();
    plain.then(|| event.key())
}
