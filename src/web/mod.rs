//! The page in the browser: binds its elements, runs its clock, shows its state. Decides nothing.

mod address_bar;
mod app;
mod bind;
mod binder;
mod browser_zones;
mod controls;
pub mod desk;
mod editor;
mod editor_events;
mod find;
mod frame;
mod gestures;
mod language;
mod listener;
mod marks;
mod page_type;
mod page_words;
mod pictures;
mod present;
mod save;
mod shell;
mod signal;
mod size_watch;
mod storage;
mod surface;
mod texts;
mod travel;
mod wall_clock;

use wasm_bindgen::JsValue;

use crate::words::Words;

/// Starts the page. Whatever goes wrong here or later is told to the reader by the page itself.
///
/// # Errors
/// When the document lacks an element, or the browser an ability, that the page can't do without.
pub fn start() -> Result<(), JsValue> {
    std::panic::set_hook(Box::new(|_| find::show_failure()));
    let run = |tag: &str, words| {
        shell::Shell::start(|_| app::App::new(tag, words), bind::everything)
            .inspect_err(|_| find::show_failure())
    };
    let tag = language::of_last_visit();
    language::load(&tag.clone(), Words::first, move |words| {
        // Without its file the page begins in English.
        let _: Result<(), JsValue> = match words {
            Some(words) => run(&tag, words),
            None => run(language::ENGLISH, Words::first()),
        };
    })
    .inspect_err(|_| find::show_failure())
}
