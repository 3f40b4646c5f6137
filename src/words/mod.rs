//! Every visible word, in one catalogue a language; and how figures are written.
//!
//! A language is one file of `"key": "text"`, where `{name}` in a text stands for a value.

pub mod figures;

use std::collections::BTreeMap;

use crate::core::json::Json;

/// English, the language the project is written in.
const ENGLISH: &str = include_str!("en.json");
/// Those of its words that the page's first program says; `build.rs` leaves out the rest.
const FIRST: &str = include_str!(concat!(env!("OUT_DIR"), "/first.json"));

/// The words of one language.
#[derive(Clone, Debug)]
pub struct Words {
    texts: BTreeMap<String, String>,
}

impl Words {
    /// The English catalogue.
    #[must_use]
    pub fn english() -> Self {
        Self::of(ENGLISH)
    }

    /// The part of it that the page's first program says.
    #[must_use]
    pub fn first() -> Self {
        Self::of(FIRST)
    }

    fn of(text: &str) -> Self {
        // The files are part of the program and a test parses them; an empty catalogue shows keys.
        let Ok(Json::Object(fields)) = Json::parse(text) else {
            return Self { texts: BTreeMap::new() };
        };
        let text = |(key, value): (String, Json)| Some((key, value.text()?.to_owned()));
        Self { texts: fields.into_iter().filter_map(text).collect() }
    }

    /// The text of a key. A key without a text stands for itself, so that a gap is seen.
    #[must_use]
    pub fn say<'a>(&'a self, key: &'a str) -> &'a str {
        self.texts.get(key).map_or(key, String::as_str)
    }

    /// The text of a key with its values put in.
    #[must_use]
    pub fn fill(&self, key: &str, values: &[(&str, &str)]) -> String {
        let mut text = self.say(key).to_owned();
        for (name, value) in values {
            text = text.replace(&format!("{{{name}}}"), value);
        }
        text
    }

    /// Every key of the catalogue.
    pub fn keys(&self) -> impl Iterator<Item = &str> {
        self.texts.keys().map(String::as_str)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_english_catalogue_parses_and_fills() {
        let words = Words::english();
        assert!(words.keys().count() > 0, "en.json did not parse");
        assert_eq!(words.say("no such key"), "no such key");
        let first = Words::first();
        assert!(first.keys().count() > words.keys().count() / 2, "first.json did not parse");
        assert!(first.keys().all(|key| first.say(key) == words.say(key)));
        assert_eq!(words.fill("{x} and {y}", &[("x", "1"), ("y", "2")]), "1 and 2");
    }
}
