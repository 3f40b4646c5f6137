//! The catalogue's words in the markup.

use wasm_bindgen::JsValue;

use super::find::all;
use crate::words::Words;

/// Puts the catalogue's words into the elements that name their keys, where it has them; `within` is
/// the selector of what holds them, with a space at its end.
pub(super) fn fill_words(words: &Words, within: &str) -> Result<(), JsValue> {
    for element in all(&format!("{within}[data-words]"))? {
        if let Some(key) = element.get_attribute("data-words").filter(|key| words.has(key)) {
            element.set_text_content(Some(words.say(&key)));
        }
    }
    for element in all(&format!("{within}[data-words-label]"))? {
        if let Some(key) = element.get_attribute("data-words-label").filter(|key| words.has(key)) {
            element.set_attribute("aria-label", words.say(&key))?;
        }
    }
    Ok(())
}
