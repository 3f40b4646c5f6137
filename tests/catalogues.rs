//! The catalogues of words: each language says everything that English says, with the same values in
//! its sentences, and says how it is written.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use noonwedge::core::decimal;
use noonwedge::words::Words;

/// The words of one file, by key.
type Catalogue = BTreeMap<String, String>;

/// Keys whose texts are lists, one entry a word.
const LISTS: [&str; 4] =
    ["year.months", "year.months-initial", "year.months-short", "guide.compass"];
/// Keys without a text where there is nothing to say: a language that needs no mark.
const MAY_BE_EMPTY: [&str; 2] = ["language.state", "language.state.why"];

/// Every catalogue by its tag, with its text.
fn catalogues() -> BTreeMap<String, (Catalogue, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/words");
    let files = fs::read_dir(&folder).unwrap_or_else(|error| panic!("{folder:?}: {error}"));
    let paths = files.filter_map(Result::ok).map(|file| file.path());
    paths
        .filter(|path| path.extension().is_some_and(|kind| kind == "json"))
        .map(|path| {
            let tag = path.file_stem().and_then(|stem| stem.to_str()).unwrap_or_default();
            let text = fs::read_to_string(&path).unwrap_or_default();
            let words = serde_json::from_str(&text);
            let words = words.unwrap_or_else(|error| panic!("{}: {error}", path.display()));
            (tag.to_owned(), (words, text))
        })
        .collect()
}

/// English, and every other language by its tag.
fn english_and_others() -> (Catalogue, BTreeMap<String, Catalogue>) {
    let mut all: BTreeMap<String, Catalogue> =
        catalogues().into_iter().map(|(tag, (words, _))| (tag, words)).collect();
    let english = all.remove("en").unwrap_or_else(|| panic!("no English catalogue"));
    assert!(all.len() >= 2, "English and fewer than two others: {:?}", all.keys());
    (english, all)
}

/// The names of the values in a text.
fn values(text: &str) -> BTreeSet<&str> {
    text.split('{').skip(1).filter_map(|rest| rest.split_once('}')).map(|(name, _)| name).collect()
}

#[test]
fn every_language_has_every_key_and_no_other() {
    let (english, others) = english_and_others();
    let wanted: BTreeSet<&String> = english.keys().collect();
    for (tag, words) in &others {
        let there: BTreeSet<&String> = words.keys().collect();
        let missing: Vec<_> = wanted.difference(&there).collect();
        assert!(missing.is_empty(), "missing in {tag}.json: {missing:?}");
        let unknown: Vec<_> = there.difference(&wanted).collect();
        assert!(unknown.is_empty(), "in {tag}.json but not in en.json: {unknown:?}");
    }
}

#[test]
fn every_text_holds_the_same_values_as_the_english_one() {
    let (english, others) = english_and_others();
    for (tag, words) in &others {
        for (key, text) in words {
            let original = english.get(key).map_or("", String::as_str);
            assert_eq!(values(text), values(original), "{tag}.json: {key}");
            let may_be_empty = original.is_empty() || MAY_BE_EMPTY.contains(&key.as_str());
            assert!(!text.trim().is_empty() || may_be_empty, "{tag}.json: {key} is empty");
            let count = |text: &str| text.split(' ').count();
            if LISTS.contains(&key.as_str()) {
                assert_eq!(count(text), count(original), "entries of {key} in {tag}.json");
            }
        }
    }
}

#[test]
fn a_catalogue_is_sorted_so_that_changes_to_it_can_be_read() {
    for (tag, (words, text)) in catalogues() {
        let keys = text.lines().filter_map(|line| line.trim().strip_prefix('"')?.split_once("\":"));
        let keys: Vec<&str> = keys.map(|(key, _)| key).collect();
        assert_eq!(keys.len(), words.len(), "a key of {tag}.json stands twice");
        assert!(keys.is_sorted(), "{tag}.json is not sorted");
    }
}

#[test]
fn a_language_says_how_it_is_written_and_what_it_writes_is_read_again() {
    for (tag, (catalogue, text)) in catalogues() {
        let of = |key: &str| catalogue.get(key).map_or("", String::as_str);
        assert!(["ltr", "rtl"].contains(&of("language.direction")), "direction of {tag}.json");
        assert_eq!(of("figures.digits").chars().count(), 10, "digits of {tag}.json");
        assert_eq!(of("figures.decimal").chars().count(), 1, "decimal sign of {tag}.json");
        let (mark, sentence) = (of("language.state"), of("language.state.why"));
        assert_eq!(mark.is_empty(), sentence.is_empty(), "half a mark in {tag}.json");
        let Some(words) = Words::english().in_language(&text) else {
            panic!("{tag}.json is no catalogue")
        };
        let written = words.digits("31.6");
        let ascii = decimal::with_ascii_digits(&written);
        assert_eq!(ascii.replace(of("figures.decimal"), "."), "31.6", "by {tag}.json: {written}");
    }
}
