//! The file of a tour: what is written is read again and fits the schema; what is broken is refused
//! with every fault, in words.

mod common;

use std::fs;
use std::path::Path;

use common::broken::{Dice, bitten, upset};
use common::schema::breaks;
use noonwedge::core::decimal;
use noonwedge::page::address;
use noonwedge::page::rod_panel;
use noonwedge::page::state::Shown;
use noonwedge::page::tour::moment::Moment;
use noonwedge::page::tour::{
    LONGEST_CAPTION, LONGEST_NAME, LONGEST_NOTES, MOST_STOPS, SECONDS, Seconds, Stop, Tour, file,
    shipped,
};
use noonwedge::page::workings::Workings;
use noonwedge::words::Words;
use proptest::prelude::*;
use serde_json::{Value, json};

/// Broken files that are tried.
const BROKEN: u32 = 10_000;

fn schema() -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/tour.schema.json");
    let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path:?}: {error}"));
    serde_json::from_str(&text).unwrap_or_else(|error| panic!("{path:?}: {error}"))
}

/// What a text breaks of the schema.
fn broken(text: &str) -> Vec<String> {
    let value: Value = serde_json::from_str(text).unwrap_or_else(|error| panic!("{error}: {text}"));
    breaks(&schema(), &value, "")
}

fn any_stop() -> impl Strategy<Value = Stop> {
    let moments = prop_oneof![
        Just(""),
        Just("i=great&t=2026-06-21T08:00:00Z&view=pole"),
        Just("turn=12.5,-3&zoom=2.5,10,-20&show=axis,hour&rod=0.5&rod-mm=18"),
    ];
    let texts = ("[ -~é日☉\n]{0,60}", "[ -~\n]{0,60}");
    (moments, texts, prop::option::of(1..=3600_u32), any::<[bool; 2]>()).prop_map(
        |(moment, (caption, notes), seconds, [plays, asks])| Stop {
            moment: Moment::read(moment).unwrap_or_default(),
            caption,
            notes,
            seconds: seconds.and_then(|seconds| Seconds::new(seconds.into()).ok()),
            plays,
            asks,
        },
    )
}

proptest! {
    #[test]
    fn what_is_written_is_read_again_and_fits_the_schema(
        name in "[ -~é日\"\\\\]{0,40}",
        stops in prop::collection::vec(any_stop(), 0..8),
    ) {
        let tour = Tour { name, stops };
        let text = file::write(&tour);
        prop_assert_eq!(file::read(&text), Ok(tour));
        prop_assert_eq!(broken(&text), Vec::<String>::new());
    }
}

#[test]
fn the_schema_has_the_fields_and_the_limits_of_the_program() {
    let schema = schema();
    let names = |part: &Value| -> Vec<String> {
        let mut names: Vec<String> = part["properties"]
            .as_object()
            .into_iter()
            .flatten()
            .map(|(name, _)| name.clone())
            .collect();
        names.sort();
        names
    };
    let sorted = |names: &[&str]| {
        let mut names: Vec<String> = names.iter().map(ToString::to_string).collect();
        names.sort();
        names
    };
    let (head, stops) = (&schema["properties"], &schema["properties"]["stops"]);
    let stop = &stops["items"];
    assert_eq!(names(&schema), sorted(&file::HEAD));
    assert_eq!(names(stop), sorted(&file::STOP));
    assert_eq!(head["format"]["const"], file::FORMAT);
    assert_eq!(head["version"]["const"].to_string(), file::VERSION);
    assert_eq!(stops["maxItems"], json!(MOST_STOPS));
    assert_eq!(head["name"]["maxLength"], json!(LONGEST_NAME));
    assert_eq!(stop["properties"]["caption"]["maxLength"], json!(LONGEST_CAPTION));
    assert_eq!(stop["properties"]["notes"]["maxLength"], json!(LONGEST_NOTES));
    let seconds = &stop["properties"]["seconds"];
    assert_eq!((&seconds["minimum"], &seconds["maximum"]), (&json!(SECONDS.0), &json!(SECONDS.1)));
}

/// The words of every language by its tag.
fn languages() -> Vec<(String, Words)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/words");
    let files = fs::read_dir(&folder).unwrap_or_else(|error| panic!("{folder:?}: {error}"));
    let catalogues = files.filter_map(Result::ok).map(|file| file.path());
    let catalogues = catalogues.filter(|path| path.extension().is_some_and(|kind| kind == "json"));
    catalogues
        .map(|path| {
            let words = fs::read_to_string(&path).ok();
            let words = words.and_then(|text| Words::english().in_language(&text));
            let tag = path.file_stem().and_then(|stem| stem.to_str()).unwrap_or_default();
            (tag.to_owned(), words.unwrap_or_else(|| panic!("{}", path.display())))
        })
        .collect()
}

#[test]
fn the_shipped_tour_is_such_a_file_in_every_language() {
    for (tag, words) in languages() {
        let tour = shipped::tour(&words);
        assert!(!tour.stops.is_empty());
        for stop in &tour.stops {
            // What the back row reads in one breath.
            assert!(stop.caption.chars().count() <= 190, "{tag}: {}", stop.caption);
        }
        let text = file::write(&tour);
        assert_eq!(broken(&text), Vec::<String>::new());
        assert_eq!(file::read(&text), Ok(tour));
    }
}

/// The figures in a text as ASCII has them, sorted: a translation may tell them in another order.
fn figures_in(words: &Words, text: &str) -> Vec<String> {
    let ascii = decimal::with_ascii_digits(text);
    let ascii = ascii.replace(words.say("figures.decimal"), ".").replace('½', ".5");
    let parts = ascii.split(|letter: char| !letter.is_ascii_digit() && !".:".contains(letter));
    let figures = parts.map(|part| part.trim_matches(['.', ':'])).filter(|part| !part.is_empty());
    let mut figures: Vec<String> = figures.map(str::to_owned).collect();
    figures.sort();
    figures
}

#[test]
fn every_language_tells_the_figures_of_the_shipped_tour_in_its_own_digits() {
    let english = Words::english();
    let original = shipped::tour(&english);
    assert_eq!(figures_in(&english, &original.stops[8].caption), ["10", "14", "16", "36"]);
    let languages = languages();
    assert!(languages.len() >= 3);
    for (tag, words) in languages {
        let tour = shipped::tour(&words);
        let own = words.say("figures.digits").to_owned();
        for (stop, original) in tour.stops.iter().zip(&original.stops) {
            for (told, wanted) in
                [(&stop.caption, &original.caption), (&stop.notes, &original.notes)]
            {
                assert_eq!(figures_in(&words, told), figures_in(&english, wanted), "{tag}: {told}");
                let strange = told.chars().find(|letter| {
                    decimal::with_ascii_digits(&letter.to_string()).parse::<u8>().is_ok()
                        && !own.contains(*letter)
                });
                assert_eq!(strange, None, "{tag}: {told}");
            }
        }
    }
}

/// What the page works out for a stop of the shipped tour, counted from one.
fn at_stop(number: usize) -> (Shown, Workings) {
    let tour = shipped::tour(&Words::english());
    let shown = address::read(tour.stops[number - 1].moment.text(), &Shown::first()).shown;
    let workings = Workings::new(&shown).unwrap_or_else(|error| panic!("{error}"));
    (shown, workings)
}

/// The captions say figures; these are the instrument's.
#[test]
fn what_the_shipped_tour_says_is_so() {
    let (_, first) = at_stop(2);
    assert!((first.instrument().site().latitude_rad().to_degrees() - 31.6).abs() < 1e-9);
    let (_, read) = at_stop(7);
    let shown_s = read.moment().reading.as_ref().map(|reading| reading.shown_s);
    assert_eq!(shown_s.ok(), Some(9 * 3600 + 52 * 60 + 40));
    let (_, february) = at_stop(9);
    let corrections = &february.moment().corrections;
    assert_eq!(corrections.to_mean_s.round(), 14.0 * 60.0 + 10.0);
    assert_eq!(corrections.to_zone_s.round(), 16.0 * 60.0 + 36.0);
    let (_, november) = at_stop(10);
    assert!(november.moment().corrections.total_s().abs() < 10.0);
    let (shown, carried) = at_stop(14);
    assert_eq!(shown.travel.map(|it| it.latitude_deg), Some(50.0));
    let off_deg = carried.instrument().off_latitude_rad().abs().to_degrees();
    assert!((off_deg - 18.4).abs() < 0.01, "{off_deg}");
    let exact_s = carried.moment().reading.as_ref().map(|reading| reading.exact_s);
    let slow_s = carried.now().seconds - exact_s.unwrap_or(f64::NAN);
    assert!(slow_s > 12.5 * 60.0 && slow_s < 13.0 * 60.0, "{slow_s}");
}

/// What the rod reads at a stop, degrees.
fn rod_reads_deg(number: usize) -> f64 {
    let (shown, workings) = at_stop(number);
    let Some(rod) = shown.rod else { panic!("no rod at stop {number}") };
    let panel = rod_panel::panel(&Words::english(), &workings, &rod, shown.least_cover);
    let figures: Vec<f64> = panel
        .read
        .replace('−', "-")
        .split(['°', '′'])
        .filter_map(|part| part.trim().parse().ok())
        .collect();
    let minutes = figures[1].copysign(figures[0]);
    figures[0] + minutes / 60.0
}

#[test]
fn the_rod_of_the_shipped_tour_reads_what_the_captions_say() {
    let read = [11, 12, 13].map(rod_reads_deg);
    for (read, told) in read.iter().zip([23.5, 0.0, -23.5]) {
        // A division of the scale is ten minutes of arc.
        assert!((read - told).abs() < 0.01 + 1.0 / 6.0, "{read} where {told} is told");
    }
}

#[test]
fn the_example_beside_the_schema_is_such_a_file() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/tour.example.json");
    let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path:?}: {error}"));
    assert_eq!(broken(&text), Vec::<String>::new());
    assert_eq!(file::read(&text).map(|tour| tour.stops.len()), Ok(2));
}

#[test]
fn every_fault_is_told_with_its_path() {
    let text = json!({
        "format": "noonwedge-tour", "version": 1, "name": 5, "stop": [],
        "stops": [
            {"moment": "i=castle", "caption": "x".repeat(401)},
            {"caption": "no moment", "seconds": 0.5, "plays": "yes", "colour": "red"},
            "a stop",
        ],
    });
    let faults = file::read(&text.to_string()).err().unwrap_or_default();
    let told: Vec<String> = faults.iter().map(ToString::to_string).collect();
    let names = "one of moment, caption, notes, seconds, plays, asks";
    assert_eq!(told, [
        "“stop” is unknown; it must be one of format, version, name, stops".to_owned(),
        "name is “5”; it must be a text of at most 80 letters".to_owned(),
        "stops[0].moment: instrument (i) is “castle”; it must be one of terrace, great, schoolyard, \
         north-lawn, shoreline"
            .to_owned(),
        format!(
            "stops[0].caption is “{}…”; it must be a text of at most 400 letters",
            "x".repeat(40)
        ),
        format!("stops[1].“colour” is unknown; it must be {names}"),
        "stops[1].moment is missing; it must be a text".to_owned(),
        "stops[1].seconds is “0.5”; it must be a whole number from 1 to 3600".to_owned(),
        "stops[1].plays is “yes”; it must be true or false".to_owned(),
        "stops[2] is “a stop”; it must be an object".to_owned(),
    ]);
}

#[test]
fn what_is_no_tour_is_told_from_one() {
    for (text, told) in [
        ("", "the file is broken in line 1, column 1; it must be JSON"),
        ("[]", "the file is a list; it must be an object"),
        (
            "{\"format\":\"noonwedge-instrument\",\"version\":1}",
            "format is “noonwedge-instrument”; it must be noonwedge-tour",
        ),
        (
            "{\"format\":\"noonwedge-tour\",\"version\":1}",
            "stops is missing; it must be a list of at most 200 stops",
        ),
    ] {
        let faults = file::read(text).err().unwrap_or_default();
        let sentences: Vec<String> = faults.iter().map(ToString::to_string).collect();
        assert_eq!(sentences, [told]);
    }
    assert_eq!(file::read(&" ".repeat(file::LARGEST + 1)).err().map(|it| it.len()), Some(1));
}

#[test]
fn ten_thousand_broken_files_are_each_answered() {
    let mut tour = shipped::tour(&Words::english());
    tour.stops.truncate(4);
    let whole = file::write(&tour);
    let value: Value = serde_json::from_str(&whole).unwrap_or(Value::Null);
    let mut dice = Dice(0x9e37_79b9_7f4a_7c15);
    let mut refused = 0;
    for round in 0..BROKEN {
        let text = match round % 3 {
            0 => bitten(&whole, &mut dice),
            1 => upset(&value, &mut dice).to_string(),
            _ => {
                let mut value = value.clone();
                let stop = &mut value["stops"][dice.roll(4)];
                *stop = upset(stop, &mut dice);
                value.to_string()
            }
        };
        match file::read(&text) {
            Ok(tour) => assert_eq!(file::read(&file::write(&tour)), Ok(tour)),
            Err(faults) => {
                assert!(!faults.is_empty());
                for fault in &faults {
                    assert!(!fault.value.is_empty() && !fault.allowed.is_empty(), "{fault:?}");
                }
                refused += 1;
            }
        }
    }
    assert!(refused > BROKEN / 3, "only {refused} were refused: the files are not broken enough");
}
