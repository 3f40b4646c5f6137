//! Every visible word, in one catalogue a language; and how figures are written.
//!
//! A language is one file of `"key": "text"`, where `{name}` in a text stands for a value. English is
//! part of the program and stands in for what another language does not say.

pub mod figures;

use std::borrow::Cow;
use std::collections::BTreeMap;

use crate::core::json::Json;

/// English, the language the project is written in.
const ENGLISH: &str = include_str!("en.json");
/// Those of its words that the page's first program says; `build.rs` leaves out the rest.
const FIRST: &str = include_str!(concat!(env!("OUT_DIR"), "/first.json"));

/// What begins and ends words that run from right to left, so that they keep their order wherever they
/// stand.
const LEFTWARDS: [&str; 2] = ["\u{2067}", "\u{2069}"];
/// The same for a name in Latin letters.
const RIGHTWARDS: [&str; 2] = ["\u{2066}", "\u{2069}"];
/// The same for figures, `−38° 44′`: between digits of a script that runs from right to left, signs
/// would change sides.
const FIGURE: [&str; 2] = ["\u{2066}\u{202d}", "\u{202c}\u{2069}"];

/// The words of one language.
#[derive(Clone, Debug)]
pub struct Words {
    texts: BTreeMap<String, String>,
    /// The language's digits from nought to nine, if they are not the ASCII ones.
    digits: Vec<char>,
}

impl Words {
    /// The English catalogue.
    #[must_use]
    pub fn english() -> Self {
        Self::empty().over(ENGLISH)
    }

    /// The part of it that the page's first program says.
    #[must_use]
    pub fn first() -> Self {
        Self::empty().over(FIRST)
    }

    fn empty() -> Self {
        Self { texts: BTreeMap::new(), digits: Vec::new() }
    }

    /// A catalogue of the program, taken over these words.
    fn over(mut self, catalogue: &str) -> Self {
        // The files are part of the program and a test parses them; an empty catalogue shows keys.
        self.take(catalogue);
        self
    }

    /// Another language from the text of its file, over these words; `None` if it is no catalogue.
    #[must_use]
    pub fn in_language(mut self, text: &str) -> Option<Self> {
        self.take(text).then_some(self)
    }

    /// Takes the texts of a catalogue; tells whether it was one.
    fn take(&mut self, catalogue: &str) -> bool {
        let Ok(Json::Object(fields)) = Json::parse(catalogue) else { return false };
        let text = |(key, value): (String, Json)| Some((key, value.text()?.to_owned()));
        self.texts.extend(fields.into_iter().filter_map(text));
        let digits = self.say("figures.digits").chars();
        self.digits = digits.filter(|digit| !digit.is_ascii()).collect();
        true
    }

    /// The text of a key. A key without a text stands for itself, so that a gap is seen.
    #[must_use]
    pub fn say<'a>(&'a self, key: &'a str) -> &'a str {
        self.texts.get(key).map_or(key, String::as_str)
    }

    /// Whether a key has a text.
    #[must_use]
    pub fn has(&self, key: &str) -> bool {
        self.texts.contains_key(key)
    }

    /// The text of a key with its values put in, each written as this language writes it.
    #[must_use]
    pub fn fill(&self, key: &str, values: &[(&str, &str)]) -> String {
        let mut text = self.say(key).to_owned();
        for (name, value) in values {
            text = text.replace(&format!("{{{name}}}"), &self.figure(value));
        }
        text
    }

    /// A unit's name; signs like ° are the same in all languages.
    #[must_use]
    pub fn unit<'a>(&'a self, unit: &'a str) -> &'a str {
        self.texts.get(&format!("figures.{unit}")).map_or(unit, String::as_str)
    }

    /// Whether the language is written from right to left.
    #[must_use]
    pub fn right_to_left(&self) -> bool {
        self.say("language.direction") == "rtl"
    }

    /// A value as it stands on the page: with the language's digits and decimal sign, and kept
    /// together where the language runs from right to left.
    #[must_use]
    pub fn figure<'a>(&self, value: &'a str) -> Cow<'a, str> {
        let written = self.digits(value);
        if !self.right_to_left() || written.is_empty() {
            return written;
        }
        let mut letters = written.chars().filter(|letter| letter.is_alphabetic());
        let [begin, end] = match letters.next() {
            None => FIGURE,
            Some(first) if first.is_ascii() && letters.all(|letter| letter.is_ascii()) => {
                RIGHTWARDS
            }
            Some(_) => LEFTWARDS,
        };
        [begin, &written, end].concat().into()
    }

    /// A value with the language's digits and decimal sign, as a field holds it. A value with Latin
    /// letters in it is a name or a code and stays as it is.
    #[must_use]
    pub fn digits<'a>(&self, value: &'a str) -> Cow<'a, str> {
        if self.digits.is_empty() || value.bytes().any(|byte| byte.is_ascii_alphabetic()) {
            return value.into();
        }
        let decimal = self.say("figures.decimal");
        let mut written = String::with_capacity(2 * value.len());
        let mut letters = value.chars().peekable();
        let mut after_digit = false;
        while let Some(letter) = letters.next() {
            let digit = letter.to_digit(10).and_then(|digit| self.digits.get(digit as usize));
            let before_digit = letters.peek().is_some_and(char::is_ascii_digit);
            match digit {
                Some(digit) => written.push(*digit),
                None if letter == '.' && after_digit && before_digit => written.push_str(decimal),
                None => written.push(letter),
            }
            after_digit = digit.is_some();
        }
        written.into()
    }

    /// Every key of the catalogue.
    pub fn keys(&self) -> impl Iterator<Item = &str> {
        self.texts.keys().map(String::as_str)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A language made up for the tests.
    fn mirrored() -> Words {
        let file = r#"{
            "figures.decimal": "٫",
            "figures.digits": "٠١٢٣٤٥٦٧٨٩",
            "language.direction": "rtl",
            "page.date.day": "{day} — {month}"
        }"#;
        Words::english().in_language(file).unwrap_or_else(|| panic!("a catalogue"))
    }

    #[test]
    fn the_english_catalogue_parses_and_fills() {
        let words = Words::english();
        assert!(words.keys().count() > 0, "en.json did not parse");
        assert_eq!(words.say("no such key"), "no such key");
        let first = Words::first();
        assert!(first.keys().count() > words.keys().count() / 2, "first.json did not parse");
        assert!(first.keys().all(|key| first.say(key) == words.say(key)));
        assert_eq!(words.fill("{x} and {y}", &[("x", "1"), ("y", "2")]), "1 and 2");
        assert_eq!(words.figure("−9:52.5"), "−9:52.5");
        assert!(!words.right_to_left());
    }

    #[test]
    fn another_language_lies_over_the_english_one_and_nonsense_is_no_language() {
        let words = mirrored();
        assert_eq!(words.say("play.now"), Words::english().say("play.now"));
        assert!(words.right_to_left());
        for text in ["", "[]", "{", "<!doctype html>"] {
            assert!(
                Words::english().in_language(text).is_none(),
                "{text} was taken for a catalogue"
            );
        }
    }

    #[test]
    fn figures_have_the_language_s_digits_and_keep_their_order() {
        let words = mirrored();
        assert_eq!(words.figure("−31.60°"), "\u{2066}\u{202d}−٣١٫٦٠°\u{202c}\u{2069}");
        assert_eq!(words.figure("UT1"), "\u{2066}UT1\u{2069}");
        assert_eq!(words.figure(""), "");
        assert_eq!(words.digits("9:52:40."), "٩:٥٢:٤٠.");
        assert_eq!(words.digits("UTC+3:30"), "UTC+3:30");
        let day = words.fill("page.date.day", &[("day", "18"), ("month", "")]);
        assert_eq!(day, "\u{2066}\u{202d}١٨\u{202c}\u{2069} — ");
    }
}
