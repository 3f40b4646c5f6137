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
mod listener;
mod marks;
mod page_type;
mod page_words;
mod pictures;
mod save;
mod shell;
mod signal;
mod size_watch;
mod storage;
mod surface;
mod texts;
mod wall_clock;

use wasm_bindgen::JsValue;

/// Starts the page. Whatever goes wrong here or later is told to the reader by the page itself.
///
/// # Errors
/// When the document lacks an element, or the browser an ability, that the page can't do without.
pub fn start() -> Result<(), JsValue> {
    std::panic::set_hook(Box::new(|_| find::show_failure()));
    let run = || shell::Shell::start(|_| app::App::new(), bind::everything);
    run().inspect_err(|_| find::show_failure())
}
