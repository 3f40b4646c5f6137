//! The page's language: fetched from its file when it is chosen, and put into the elements.

use wasm_bindgen::closure::Closure;
use wasm_bindgen::prelude::wasm_bindgen;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Event, HtmlSelectElement};

use super::find::{all, document, window};
use super::marks::set_attribute;
use super::page_words::fill_words;
use super::storage;
use crate::words::Words;

#[wasm_bindgen(module = "/src/web/language.js")]
extern "C" {
    #[wasm_bindgen(js_name = load)]
    fn load_text(file: &str, then: &JsValue);
}

/// The language that is part of the program.
pub(super) const ENGLISH: &str = "en";
/// The event on the window that says the page has turned to another language.
pub(super) const TURNED: &str = "language-turned";

/// Every list of languages on the page; the build has filled them from the catalogues.
pub(super) fn lists() -> Result<Vec<HtmlSelectElement>, JsValue> {
    Ok(all(".languages")?.into_iter().filter_map(|it| it.dyn_into().ok()).collect())
}

/// Fetches a language by its tag, lays it over the English words and hands it on; nothing if that
/// fails.
pub(super) fn load(
    tag: &str,
    english: fn() -> Words,
    then: impl FnOnce(Option<Words>) + 'static,
) -> Result<(), JsValue> {
    if tag == ENGLISH {
        then(Some(english()));
        return Ok(());
    }
    let Some(file) = file_of(tag)? else {
        then(None);
        return Ok(());
    };
    let then = Closure::once_into_js(move |text: String| then(english().in_language(&text)));
    load_text(&file, &then);
    Ok(())
}

/// The address of a language's file, which its entry in the list carries.
fn file_of(tag: &str) -> Result<Option<String>, JsValue> {
    let entries = all(".languages option")?;
    let entry = entries.iter().find(|it| it.get_attribute("value").as_deref() == Some(tag));
    Ok(entry.and_then(|it| it.get_attribute("data-file")))
}

/// Puts the words into the elements that name their keys, and turns the page the way the language
/// runs.
pub(super) fn speak(tag: &str, words: &Words) -> Result<(), JsValue> {
    if let Some(root) = document()?.document_element() {
        set_attribute(&root, "lang", tag);
        set_attribute(&root, "dir", if words.right_to_left() { "rtl" } else { "ltr" });
    }
    fill_words(words, "")?;
    choose(tag)?;
    // The desk listens, if it is there.
    window()?.dispatch_event(&Event::new(TURNED)?)?;
    Ok(())
}

/// Chooses a language in every list.
pub(super) fn choose(tag: &str) -> Result<(), JsValue> {
    lists()?.iter().for_each(|list| list.set_value(tag));
    Ok(())
}

/// Whether a language is still the one chosen: another may have been while its file was on the way.
pub(super) fn is_chosen(tag: &str) -> bool {
    lists().is_ok_and(|lists| lists.iter().all(|list| list.value() == tag))
}

/// The tag of the language that the page speaks.
pub(super) fn spoken() -> String {
    let root = document().ok().and_then(|page| page.document_element());
    root.and_then(|root| root.get_attribute("lang")).unwrap_or_else(|| ENGLISH.to_owned())
}

/// The language of the last visit, English if there was none.
pub(super) fn of_last_visit() -> String {
    storage::language().unwrap_or_else(|| ENGLISH.to_owned())
}
