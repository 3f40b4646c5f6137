//! The presenting view: the court and what a room has to see, over the whole screen where the
//! browser allows that.

use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, KeyboardEvent};

use super::bind::Binder;
use super::binder::plain_key;
use super::find::{by_id, document};
use super::marks::{set_attribute, set_pressed};
use super::signal::Signal;
use crate::page::message::Message;
use crate::words::Words;

/// What marks the page while it presents.
const MARK: &str = "data-presenting";
/// Where keys mean letters, or something else.
const KEYS_TAKEN: &str = "input:not([type=range], [type=checkbox]), select, dialog, [popover]";

/// The elements that tell whether the page presents.
#[derive(Debug)]
pub(super) struct Presenting {
    root: Element,
    button: Element,
}

impl Presenting {
    /// Finds the elements.
    pub(super) fn new() -> Result<Self, JsValue> {
        Ok(Self { root: root()?, button: by_id("present")? })
    }

    /// Brings page and screen in line with the state.
    pub(super) fn show(&self, words: &Words, presenting: bool) {
        // The name is a name.
        let _: Result<bool, JsValue> = self.root.toggle_attribute_with_force(MARK, presenting);
        set_pressed(&self.button, presenting);
        let key = if presenting { "present.close" } else { "present.open" };
        set_attribute(&self.button, "aria-label", words.say(key));
        if !presenting
            && let Ok(page) = document()
            && page.fullscreen_element().is_some()
        {
            page.exit_fullscreen();
        }
    }
}

/// Binds the button, the keys F and Escape, and the browser's own ways out.
pub(super) fn bind(binder: &mut Binder) -> Result<(), JsValue> {
    let page = document()?;
    binder.on(&by_id("present")?, "click", |_| turn())?;
    binder.on(&page, "keydown", |event| {
        let target: Element = event.target()?.dyn_into().ok()?;
        let taken = target.closest(KEYS_TAKEN).ok()?.is_some();
        match plain_key(event.dyn_ref::<KeyboardEvent>()?)?.as_str() {
            "f" | "F" if !taken => turn(),
            "Escape" if !taken && is_on() => leave(),
            _ => None,
        }
    })?;
    binder.on(&page.clone(), "fullscreenchange", move |_| {
        page.fullscreen_element().is_none().then(leave)?
    })
}

/// Turns presenting on or off; on, it asks for the whole screen while the hand is still at it.
fn turn() -> Option<Signal> {
    if is_on() {
        return leave();
    }
    // Where there is no full screen, the page presents in its window.
    let _: Result<(), JsValue> = root().and_then(|root| root.request_fullscreen());
    Some(Signal::Ask(Message::Present(true)))
}

fn leave() -> Option<Signal> {
    Some(Signal::Ask(Message::Present(false)))
}

fn is_on() -> bool {
    root().is_ok_and(|root| root.has_attribute(MARK))
}

/// The page's outermost element.
fn root() -> Result<Element, JsValue> {
    document()?.document_element().ok_or_else(|| JsValue::from_str("no root"))
}
