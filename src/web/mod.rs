//! The page in the browser: binds its elements, runs its clock, shows its state. Decides nothing.

mod address_bar;
mod app;
mod bind;
mod browser_zones;
mod controls;
mod editor;
mod editor_events;
mod find;
mod frame;
mod gestures;
mod language;
mod listener;
mod marks;
mod pictures;
mod prepare;
mod save;
mod shell;
mod size_watch;
mod storage;
mod surface;
mod texts;
mod wall_clock;

use wasm_bindgen::JsValue;

use crate::words::Words;

/// Starts the page. Whatever goes wrong here or later is told to the reader by the page itself.
///
/// # Errors
/// When the document lacks an element, or the browser an ability, that the page can't do without.
pub fn start() -> Result<(), JsValue> {
    std::panic::set_hook(Box::new(|_| find::show_failure()));
    let tag = language::of_last_visit();
    let begin = {
        let tag = tag.clone();
        move |words: Option<Words>| {
            // Without its file the page begins in English.
            let (tag, words) =
                words.map_or_else(|| ("en", Words::english()), |words| (&*tag, words));
            let _: Result<(), JsValue> =
                shell::Shell::start(tag, words).inspect_err(|_| find::show_failure());
        }
    };
    language::load(&tag, begin).inspect_err(|_| find::show_failure())
}
