//! What the browser remembers for the page; it may refuse to, and the page goes on without.

use super::find::window;

/// Whether the caution has been read.
const CAUTION_READ: &str = "noonwedge.caution-read";

/// Whether the caution was read on an earlier visit.
pub(super) fn caution_was_read() -> bool {
    let storage = window().and_then(|window| window.local_storage()).ok().flatten();
    storage.and_then(|storage| storage.get_item(CAUTION_READ).ok().flatten()).is_some()
}

/// Remembers that the caution has been read.
pub(super) fn remember_caution_read() {
    if let Ok(Some(storage)) = window().and_then(|window| window.local_storage()) {
        // Full or forbidden storage only means that the caution is shown again.
        let _: Result<(), wasm_bindgen::JsValue> = storage.set_item(CAUTION_READ, "1");
    }
}

/// The person's own instruments.
const INSTRUMENTS: &str = "noonwedge.instruments";
/// What was kept as instruments and could not be read.
const UNREAD: &str = "noonwedge.instruments.unread";

/// What was kept of the person's own instruments.
pub(super) fn instruments() -> Option<String> {
    let storage = window().and_then(|window| window.local_storage()).ok().flatten();
    storage.and_then(|storage| storage.get_item(INSTRUMENTS).ok().flatten())
}

/// Keeps the person's own instruments; tells whether the browser has done so.
pub(super) fn keep_instruments(text: &str) -> bool {
    keep(INSTRUMENTS, text)
}

/// Puts aside what could not be read, so that nothing is lost.
pub(super) fn keep_unread(text: &str) -> bool {
    keep(UNREAD, text)
}

/// The language that was chosen.
const LANGUAGE: &str = "noonwedge.language";

/// The tag of the language that was chosen on an earlier visit.
pub(super) fn language() -> Option<String> {
    let storage = window().and_then(|window| window.local_storage()).ok().flatten();
    storage.and_then(|storage| storage.get_item(LANGUAGE).ok().flatten())
}

/// Remembers the language; without room for it, the next visit begins in English.
pub(super) fn remember_language(tag: &str) {
    let _: bool = keep(LANGUAGE, tag);
}

fn keep(key: &str, text: &str) -> bool {
    let storage = window().and_then(|window| window.local_storage()).ok().flatten();
    storage.is_some_and(|storage| storage.set_item(key, text).is_ok())
}

/// The speaker's own tour.
pub(super) const TOUR: &str = "noonwedge.tour";
/// What was kept as a tour and could not be read.
const TOUR_UNREAD: &str = "noonwedge.tour.unread";

/// What was kept of the speaker's own tour.
pub(super) fn tour() -> Option<String> {
    let storage = window().and_then(|window| window.local_storage()).ok().flatten();
    storage.and_then(|storage| storage.get_item(TOUR).ok().flatten())
}

/// Keeps the speaker's own tour; tells whether the browser has done so.
pub(super) fn keep_tour(text: &str) -> bool {
    keep(TOUR, text)
}

/// Puts aside what could not be read, so that nothing is lost.
pub(super) fn keep_unread_tour(text: &str) -> bool {
    keep(TOUR_UNREAD, text)
}
