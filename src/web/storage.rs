//! What the browser remembers for the page; it may refuse to, and the page goes on without.

use wasm_bindgen::JsValue;
use web_sys::Storage;

use super::find::window;

/// Whether the caution has been read.
const CAUTION_READ: &str = "noonwedge.caution-read";

/// Whether the caution was read on an earlier visit.
pub(super) fn caution_was_read() -> bool {
    kept(CAUTION_READ).is_some()
}

/// Remembers that the caution has been read.
pub(super) fn remember_caution_read() {
    // Full or forbidden storage only means that the caution is shown again.
    let _: bool = keep(CAUTION_READ, "1");
}

/// The person's own instruments.
const INSTRUMENTS: &str = "noonwedge.instruments";
/// What was kept as instruments and could not be read.
const UNREAD: &str = "noonwedge.instruments.unread";

/// What was kept of the person's own instruments.
pub(super) fn instruments() -> Option<String> {
    kept(INSTRUMENTS)
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
pub(super) const LANGUAGE: &str = "noonwedge.language";

/// The tag of the language that was chosen on an earlier visit.
pub(super) fn language() -> Option<String> {
    kept(LANGUAGE)
}

/// Remembers the language; without room for it, the next visit begins in English.
pub(super) fn remember_language(tag: &str) {
    let _: bool = keep(LANGUAGE, tag);
}

/// The tour that this window runs; forgotten with the window. `www/later.js` looks for it too.
const RUN: &str = "noonwedge.tour.run";

/// What was kept of the tour that this window ran before it was loaded again.
pub(super) fn tour_run() -> Option<String> {
    session()?.get_item(RUN).ok().flatten()
}

/// Keeps, or forgets, the tour that this window runs; without room for it a reload ends the tour.
pub(super) fn keep_tour_run(text: Option<&str>) {
    let Some(session) = session() else { return };
    // Full or forbidden storage has been answered above.
    let _: Result<(), JsValue> = match text {
        Some(text) => session.set_item(RUN, text),
        None => session.remove_item(RUN),
    };
}

fn session() -> Option<Storage> {
    window().and_then(|window| window.session_storage()).ok().flatten()
}

fn storage() -> Option<Storage> {
    window().and_then(|window| window.local_storage()).ok().flatten()
}

fn kept(key: &str) -> Option<String> {
    storage()?.get_item(key).ok().flatten()
}

fn keep(key: &str, text: &str) -> bool {
    storage().is_some_and(|storage| storage.set_item(key, text).is_ok())
}

/// The speaker's own tour.
pub(super) const TOUR: &str = "noonwedge.tour";
/// What was kept as a tour and could not be read.
const TOUR_UNREAD: &str = "noonwedge.tour.unread";

/// What was kept of the speaker's own tour.
pub(super) fn tour() -> Option<String> {
    kept(TOUR)
}

/// Keeps the speaker's own tour; tells whether the browser has done so.
pub(super) fn keep_tour(text: &str) -> bool {
    keep(TOUR, text)
}

/// Puts aside what could not be read, so that nothing is lost.
pub(super) fn keep_unread_tour(text: &str) -> bool {
    keep(TOUR_UNREAD, text)
}
