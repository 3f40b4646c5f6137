//! The document's elements, found by their ids.

use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Document, Element, Window};

use crate::scene::guide::Guide;

/// The browser's window.
pub(super) fn window() -> Result<Window, JsValue> {
    web_sys::window().ok_or_else(|| JsValue::from_str("no window"))
}

/// The document.
pub(super) fn document() -> Result<Document, JsValue> {
    window()?.document().ok_or_else(|| JsValue::from_str("no document"))
}

/// An element of a kind, by its id.
pub(super) fn by_id<T: JsCast>(id: &str) -> Result<T, JsValue> {
    let missing = || JsValue::from_str(&format!("no element #{id} of the kind wanted"));
    document()?.get_element_by_id(id).and_then(|it| it.dyn_into().ok()).ok_or_else(missing)
}

/// Whether an attribute of the root element has a value.
pub(super) fn root_says(name: &str, value: &str) -> bool {
    let root = document().ok().and_then(|document| document.document_element());
    root.and_then(|root| root.get_attribute(name)).as_deref() == Some(value)
}

/// A new element with a text.
pub(super) fn piece(tag: &str, text: &str) -> Result<Element, JsValue> {
    let element = document()?.create_element(tag)?;
    element.set_text_content(Some(text));
    Ok(element)
}

/// A new row of a table: names of columns (`scope` is `col`), or the name of the row and its cells
/// (`row`). An empty name is a cell.
pub(super) fn row(cells: &[String], scope: &str) -> Result<Element, JsValue> {
    let row = piece("tr", "")?;
    for (index, cell) in cells.iter().enumerate() {
        let is_name = (scope == "col" || index == 0) && !cell.is_empty();
        let element = piece(if is_name { "th" } else { "td" }, cell)?;
        if is_name {
            element.set_attribute("scope", scope)?;
        }
        row.append_child(&element)?;
    }
    Ok(row)
}

/// Id of a guide's switch.
pub(super) fn switch_id(guide: Guide) -> String {
    format!("show-{}", guide.key())
}

/// All elements that match a selector.
pub(super) fn all(selector: &str) -> Result<Vec<Element>, JsValue> {
    let found = document()?.query_selector_all(selector)?;
    Ok((0..found.length()).filter_map(|index| found.get(index)?.dyn_into().ok()).collect())
}

/// Shows the sentence that says the program has failed.
pub(super) fn show_failure() {
    let set_hidden = |id: &str, hidden: bool| {
        if let Ok(element) = by_id::<web_sys::HtmlElement>(id) {
            element.set_hidden(hidden);
        }
    };
    set_hidden("loading", true);
    set_hidden("failed", false);
}
