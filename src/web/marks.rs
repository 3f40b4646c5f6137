//! Texts, attributes and states of elements, written only when they change.

use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, HtmlElement};

use super::find::by_id;

/// An element whose text the page writes.
#[derive(Debug)]
pub(super) struct Text {
    element: HtmlElement,
    written: Option<String>,
}

impl Text {
    /// The element with this id.
    pub(super) fn new(id: &str) -> Result<Self, JsValue> {
        Ok(Self { element: by_id(id)?, written: None })
    }

    /// Writes a text, if it is another.
    pub(super) fn set(&mut self, text: &str) {
        if self.written.as_deref() != Some(text) {
            write(&self.element, text);
            self.written = Some(text.to_owned());
        }
    }
}

/// Writes a text, if it is another. It goes into the same node: for a new one browsers match the
/// styles of everything about it anew, which takes longer than a frame of the court.
pub(super) fn write(element: &Element, text: &str) {
    match element.first_child().and_then(|node| node.dyn_into::<web_sys::Text>().ok()) {
        Some(node) if node.next_sibling().is_none() => {
            if node.data() != text {
                node.set_data(text);
            }
        }
        _ => element.set_text_content(Some(text)),
    }
}

/// Sets an attribute, if it is another.
pub(super) fn set_attribute(element: &Element, name: &str, value: &str) {
    if element.get_attribute(name).as_deref() != Some(value) {
        // The names are attributes' names.
        let _: Result<(), JsValue> = element.set_attribute(name, value);
    }
}

/// Shows or hides an element.
pub(super) fn set_hidden(element: &HtmlElement, hidden: bool) {
    if element.hidden() != hidden {
        element.set_hidden(hidden);
    }
}

/// Marks a button as pressed or not.
pub(super) fn set_pressed(element: &Element, pressed: bool) {
    set_attribute(element, "aria-pressed", if pressed { "true" } else { "false" });
}

/// Marks a button as one that does nothing now. Not `disabled`: it would lose the focus.
pub(super) fn set_disabled(element: &Element, disabled: bool) {
    set_attribute(element, "aria-disabled", if disabled { "true" } else { "false" });
}

/// Marks a button by whether what it opens is open.
pub(super) fn set_expanded(element: &Element, open: bool) {
    set_attribute(element, "aria-expanded", if open { "true" } else { "false" });
}
