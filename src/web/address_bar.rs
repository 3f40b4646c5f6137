//! The part of the page's address after `#`, kept up to date without filling the history.

use wasm_bindgen::JsValue;
use web_sys::Event;

use super::find::window;

/// How long the state must stand still before it is written, milliseconds: browsers refuse
/// pages that write more often than about three times a second.
const STILL_MS: f64 = 400.0;

/// The event on the window by which another program of the page asks for the address at once.
pub(super) const WANTED: &str = "address-wanted";
/// The event on the window that says the address has been written.
pub(super) const WRITTEN: &str = "address-written";

/// Writes the address when the state has come to rest.
#[derive(Debug, Default)]
pub(super) struct AddressBar {
    written: String,
    due_ms: Option<f64>,
}

impl AddressBar {
    /// The address is out of date.
    pub(super) fn touch(&mut self, now_ms: f64) {
        self.due_ms = Some(now_ms + STILL_MS);
    }

    /// Whether something waits to be written.
    pub(super) fn is_waiting(&self) -> bool {
        self.due_ms.is_some()
    }

    /// Writes what is due; tells whether anything was.
    pub(super) fn write_due(&mut self, now_ms: f64, address: impl FnOnce() -> String) -> bool {
        if self.due_ms.is_none_or(|due_ms| now_ms < due_ms) {
            return false;
        }
        self.write(address());
        true
    }

    /// Writes at once.
    pub(super) fn write(&mut self, address: String) {
        self.due_ms = None;
        if address != self.written && replace(&address).is_ok() {
            self.written = address;
        }
        if let (Ok(window), Ok(event)) = (window(), Event::new(WRITTEN)) {
            // Nobody forbids it.
            let _: Result<bool, JsValue> = window.dispatch_event(&event);
        }
    }
}

/// Lets the page show what an address says, even if it is the one that stands there.
pub(super) fn go(address: &str) {
    // Replaced, so that the way back leads out of the page and not through all it has shown.
    let gone = window().and_then(|window| {
        window.location().replace(&format!("#{address}"))?;
        // The browser's own event comes later, or not at all: meanwhile something older could be written.
        window.dispatch_event(&Event::new("hashchange")?)
    });
    // There is a window, and nobody forbids the event.
    let _: Result<bool, JsValue> = gone;
}

/// Asks the page's first program to write the address at once.
pub(super) fn want() {
    // There is a window, and nobody forbids the event.
    let _: Result<bool, JsValue> =
        window().and_then(|window| window.dispatch_event(&Event::new(WANTED)?));
}

/// The address as it stands.
pub(super) fn read() -> String {
    window().and_then(|window| window.location().hash()).unwrap_or_default()
}

fn replace(address: &str) -> Result<(), JsValue> {
    let window = window()?;
    let location = window.location();
    let base = format!("{}{}", location.pathname()?, location.search()?);
    let url = if address.is_empty() { base } else { format!("{base}#{address}") };
    window.history()?.replace_state_with_url(&JsValue::NULL, "", Some(&url))
}
