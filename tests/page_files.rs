//! The files beside the program agree with it: words in the markup and the sources, colours in
//! the style sheet.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use noonwedge::scene::drawing::Colour;
use noonwedge::scene::palette::Theme;
use noonwedge::words::Words;

/// A file of the project.
fn file(path: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(path);
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// Every Rust source under a folder.
fn sources(folder: PathBuf) -> Vec<PathBuf> {
    let entries = fs::read_dir(&folder).unwrap_or_else(|error| panic!("{folder:?}: {error}"));
    let paths = entries.filter_map(Result::ok).map(|entry| entry.path());
    paths
        .flat_map(|path| match path.extension() {
            None => sources(path),
            Some(kind) if kind == "rs" => vec![path],
            Some(_) => Vec::new(),
        })
        .collect()
}

/// What stands between quotation marks in a text, and what stands between those.
fn literals(text: &str) -> impl Iterator<Item = &str> {
    text.split('"')
}

/// Whether a text looks like a key of the catalogue: words with dots between.
fn is_key(literal: &str) -> bool {
    let fits = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || "-_".contains(c);
    let word = |part: &str| !part.is_empty() && part.chars().all(fits);
    literal.contains('.') && literal.split('.').all(word)
}

/// Keys put together while the program runs: `scale.{name}-reads`, or an ending like `-short`.
#[derive(Default)]
struct Assembled {
    /// What stands before and after the hole.
    moulds: BTreeSet<(String, String)>,
    endings: BTreeSet<String>,
}

impl Assembled {
    fn learn(&mut self, literal: &str) {
        let fits = |c: char| c.is_ascii_lowercase() || "-_.".contains(c);
        if let Some((before, rest)) = literal.split_once('{')
            && let Some((_, after)) = rest.split_once('}')
            && before.len() + after.len() >= 5
            && before.chars().chain(after.chars()).all(fits)
        {
            self.moulds.insert((before.to_owned(), after.to_owned()));
        }
        if literal.len() > 3 && literal.starts_with('-') && literal.chars().all(fits) {
            self.endings.insert(literal.to_owned());
        }
    }

    fn makes(&self, key: &str, used: &BTreeSet<String>) -> bool {
        let from_mould = |(before, after): &(String, String)| {
            key.strip_prefix(before.as_str()).is_some_and(|rest| rest.ends_with(after.as_str()))
        };
        let with_ending = |ending: &String| {
            key.strip_suffix(ending.as_str()).is_some_and(|stem| used.contains(stem))
        };
        self.moulds.iter().any(from_mould) || self.endings.iter().any(with_ending)
    }
}

/// The values of an attribute in the markup, each with the text up to the next tag.
fn attributes(markup: &str, name: &str) -> Vec<(String, String)> {
    let opening = format!("{name}=\"");
    let mut found = Vec::new();
    for rest in markup.split(&opening).skip(1) {
        let (value, rest) = rest.split_once('"').unwrap_or((rest, ""));
        let text = rest.split_once('>').map_or("", |(_, text)| text);
        let text = text.split_once('<').map_or(text, |(text, _)| text);
        found.push((value.to_owned(), text.replace("&amp;", "&").trim().to_owned()));
    }
    found
}

#[test]
fn every_word_used_is_in_the_catalogue_and_every_word_in_it_is_used() {
    let words = Words::english();
    let catalogue: BTreeSet<String> = words.keys().map(str::to_owned).collect();
    let prefixes: BTreeSet<&str> =
        catalogue.iter().filter_map(|key| key.split_once('.')).map(|(prefix, _)| prefix).collect();
    let mut used: BTreeSet<String> = BTreeSet::new();
    let mut assembled = Assembled::default();
    let mut readers = sources(Path::new(env!("CARGO_MANIFEST_DIR")).join("src"));
    // The build takes the languages' own names.
    readers.push(Path::new(env!("CARGO_MANIFEST_DIR")).join("scripts/languages.mjs"));
    for path in readers {
        let text = fs::read_to_string(&path).unwrap_or_default();
        for literal in literals(&text) {
            assembled.learn(literal);
            let prefix = literal.split_once('.').map(|(prefix, _)| prefix);
            if is_key(literal) && prefix.is_some_and(|prefix| prefixes.contains(prefix)) {
                used.insert(literal.to_owned());
            }
        }
    }
    for markup in ["www/index.html", "www/desk.html"].map(file) {
        for name in ["data-words", "data-words-label"] {
            used.extend(attributes(&markup, name).into_iter().map(|(key, _)| key));
        }
    }
    let missing: Vec<&String> = used.difference(&catalogue).collect();
    assert!(missing.is_empty(), "used but not in the catalogue: {missing:?}");
    let unused = catalogue.difference(&used);
    let unused: Vec<&String> = unused.filter(|key| !assembled.makes(key, &used)).collect();
    assert!(unused.is_empty(), "in the catalogue but not used: {unused:?}");
}

/// The sources of what only the second program does.
const LATER: [&str; 8] = [
    "web/desk",
    "page/answers",
    "page/prepare",
    "page/share.rs",
    "page/sizes_table.rs",
    "page/tour",
    "scene/sizes.rs",
    "scene/year_plots.rs",
];

#[test]
fn the_first_program_has_every_word_it_says() {
    let (all, first) = (Words::english(), Words::first());
    let first: BTreeSet<&str> = first.keys().collect();
    let later: BTreeSet<&str> = all.keys().filter(|key| !first.contains(key)).collect();
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let is_later = |path: &PathBuf| LATER.iter().any(|part| path.starts_with(source.join(part)));
    let mut texts = vec![file("www/index.html")];
    for path in sources(source.clone()).iter().filter(|path| !is_later(path)) {
        texts.push(fs::read_to_string(path).unwrap_or_default());
    }
    for text in &texts {
        let missing: Vec<&str> = literals(text).filter(|key| later.contains(key)).collect();
        assert!(missing.is_empty(), "left out by build.rs, but said: {missing:?}");
    }
}

#[test]
fn the_markup_says_what_the_catalogue_says_before_the_program_has_come() {
    let words = Words::english();
    let markup = file("www/index.html");
    for (key, text) in attributes(&markup, "data-words") {
        assert_eq!(text, words.say(&key), "{key}");
    }
    for line in markup.lines().filter(|line| line.contains("data-words-label")) {
        let [(key, _)] = &attributes(line, "data-words-label")[..] else {
            panic!("more than one label on a line: {line}")
        };
        let label = attributes(line, "aria-label");
        assert_eq!(label.first().map(|(label, _)| label.as_str()), Some(words.say(key)), "{key}");
    }
}

#[test]
fn the_style_sheet_has_the_colours_of_the_palettes() {
    let sheet = file("www/style.css");
    for theme in Theme::ALL {
        let colours = properties_of(&sheet, theme.key());
        let palette = theme.palette();
        for (name, colour) in [
            ("paper", palette.paper),
            ("panel", palette.panel),
            ("ink", palette.ink),
            ("ink-2", palette.ink_2),
            ("rule", palette.rule),
            ("hair", palette.hair),
            ("accent", palette.accent),
            ("focus", palette.guide),
            ("on-accent", palette.on_accent),
        ] {
            let found = colours.get(name).map(String::as_str);
            assert_eq!(found, Some(written(colour).as_str()), "{name} by {}", theme.key());
        }
    }
}

#[test]
fn colours_of_the_page_can_be_told_apart() {
    let sheet = file("www/style.css");
    for theme in Theme::ALL {
        let colours = properties_of(&sheet, theme.key());
        let colour = |name: &str| {
            let hex = colours.get(name).and_then(|hex| hex.strip_prefix('#'));
            let hex = hex.and_then(|hex| u32::from_str_radix(hex, 16).ok());
            Colour::hex(hex.unwrap_or_else(|| panic!("no --{name} by {}", theme.key())))
        };
        for (above, below, least) in [
            ("ink", "paper", 4.5),
            ("ink", "panel", 4.5),
            ("ink-2", "paper", 4.5),
            ("ink-2", "panel", 4.5),
            ("on-accent", "accent", 4.5),
            ("accent", "paper", 4.5),
            ("accent", "panel", 4.5),
            ("rule", "paper", 3.0),
            ("rule", "panel", 3.0),
            ("focus", "paper", 3.0),
            ("focus", "panel", 3.0),
        ] {
            let ratio = contrast(colour(above), colour(below));
            assert!(ratio >= least, "{above} on {below} by {}: {ratio:.2}", theme.key());
        }
    }
}

/// The custom properties that the style sheet sets for a theme.
fn properties_of(sheet: &str, theme: &str) -> BTreeMap<String, String> {
    let opening = format!("[data-theme=\"{theme}\"] {{");
    let (_, rest) = sheet.split_once(&opening).unwrap_or_else(|| panic!("no theme {theme}"));
    let (block, _) = rest.split_once('}').unwrap_or((rest, ""));
    let properties = block.split(';').filter_map(|line| line.trim().strip_prefix("--"));
    properties
        .filter_map(|line| line.split_once(':'))
        .map(|(name, value)| (name.to_owned(), value.trim().to_owned()))
        .collect()
}

/// A colour as the style sheet writes it.
fn written(colour: Colour) -> String {
    let [red, green, blue] = colour.rgb;
    format!("#{red:02x}{green:02x}{blue:02x}")
}

/// Contrast ratio of two colours (WCAG 2.2).
fn contrast(a: Colour, b: Colour) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// Relative luminance of a colour (WCAG 2.2).
fn luminance(colour: Colour) -> f64 {
    let [red, green, blue] = colour.rgb.map(|channel| {
        let c = f64::from(channel) / 255.0;
        if c <= 0.040_45 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
    });
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}
