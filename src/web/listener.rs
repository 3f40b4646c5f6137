//! Event listeners that end with their owner.

use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{AddEventListenerOptions, Event, EventTarget};

/// When a listener hears of an event.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Phase {
    /// Before the element that it happens to.
    First,
    /// After it.
    After,
}

/// A listener that is taken off again when it is dropped.
#[derive(Debug)]
pub(super) struct Listener {
    target: EventTarget,
    kind: &'static str,
    phase: Phase,
    callback: Closure<dyn FnMut(Event)>,
}

impl Listener {
    /// Listens; `run` may forbid the browser's own action.
    pub(super) fn new(
        target: &EventTarget,
        kind: &'static str,
        phase: Phase,
        run: impl FnMut(Event) + 'static,
    ) -> Result<Self, JsValue> {
        let callback = Closure::new(run);
        let options = AddEventListenerOptions::new();
        options.set_passive(false);
        options.set_capture(phase == Phase::First);
        target.add_event_listener_with_callback_and_add_event_listener_options(
            kind,
            callback.as_ref().unchecked_ref(),
            &options,
        )?;
        Ok(Self { target: target.clone(), kind, phase, callback })
    }
}

impl Drop for Listener {
    fn drop(&mut self) {
        let callback = self.callback.as_ref().unchecked_ref();
        // There is nobody to tell when a listener was not there any more.
        let _: Result<(), JsValue> = self.target.remove_event_listener_with_callback_and_bool(
            self.kind,
            callback,
            self.phase == Phase::First,
        );
    }
}
