//! The next animation frame: asked for at most once at a time.

use std::cell::Cell;

use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};

use super::find::window;

/// Owns the callback; dropping it cancels the frame.
#[derive(Debug)]
pub(super) struct Frame {
    pending: Cell<Option<i32>>,
    callback: Closure<dyn FnMut(f64)>,
}

impl Frame {
    /// `run` is given the frame's time, milliseconds since the page was opened.
    pub(super) fn new(run: impl FnMut(f64) + 'static) -> Self {
        Self { pending: Cell::new(None), callback: Closure::new(run) }
    }

    /// Asks for a frame, unless one is coming already.
    pub(super) fn request(&self) {
        if self.pending.get().is_some() {
            return;
        }
        let callback = self.callback.as_ref().unchecked_ref();
        let asked = window().and_then(|window| window.request_animation_frame(callback));
        self.pending.set(asked.ok());
    }

    /// Notes that the frame asked for has come.
    pub(super) fn has_come(&self) {
        self.pending.set(None);
    }
}

impl Drop for Frame {
    fn drop(&mut self) {
        if let (Some(id), Ok(window)) = (self.pending.get(), window()) {
            // A frame that has come in the meantime needs no cancelling.
            let _: Result<(), JsValue> = window.cancel_animation_frame(id);
        }
    }
}
