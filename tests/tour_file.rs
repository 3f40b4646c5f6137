//! The file of a tour: what is written is read again and fits the schema; what is broken is refused
//! with every fault, in words.

mod common;

use std::fs;
use std::path::Path;

use common::broken::{Dice, bitten, upset};
use common::schema::breaks;
use noonwedge::page::tour::moment::Moment;
use noonwedge::page::tour::{
    LONGEST_CAPTION, LONGEST_NAME, LONGEST_NOTES, MOST_STOPS, SECONDS, Seconds, Stop, Tour, file,
    shipped,
};
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

#[test]
fn the_shipped_tour_is_such_a_file() {
    let tour = shipped::tour();
    assert!(!tour.stops.is_empty());
    let text = file::write(&tour);
    assert_eq!(broken(&text), Vec::<String>::new());
    assert_eq!(file::read(&text), Ok(tour));
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
    let mut tour = shipped::tour();
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
