//! The file of an instrument: what is written is read again and fits the schema; what is broken is
//! refused with every fault, in words.

mod common;

use std::fs;
use std::path::Path;

use common::broken::{Dice, bitten, upset};
use common::schema::breaks;
use noonwedge::core::instrument::file::{self, Layout};
use noonwedge::core::instrument::{
    Alignment, EndFaces, Instrument, InstrumentSpec, Kind, PRESETS, QUANTITIES, Script, SummerTime,
};
use noonwedge::page::address;
use noonwedge::page::state::Shown;
use proptest::prelude::*;
use serde_json::{Value, json};

/// Broken files and addresses that are tried.
const BROKEN: u32 = 10_000;

fn schema() -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/instrument.schema.json");
    let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path:?}: {error}"));
    serde_json::from_str(&text).unwrap_or_else(|error| panic!("{path:?}: {error}"))
}

/// Instruments of every latitude and size that can stand.
fn any_spec() -> impl Strategy<Value = InstrumentSpec> {
    let site = (-90.0..=90.0_f64, -180.0..=180.0_f64, -500.0..9000.0_f64, -720..=840_i32);
    let size = (0.05..40.0_f64, 0.001..0.4_f64, 0.2..1.0_f64, 0.0..1.0_f64, 0.3..1.2_f64);
    let names = "[A-Za-z\"\\\\é日☉][ -~éß日☉]{0,38}[a-z\"]";
    let divisions = prop_oneof![
        Just(vec![4, 15, 3]),
        Just(vec![]),
        Just(vec![60, 60]),
        Just(vec![4, 15, 6, 5])
    ];
    let errors = prop::array::uniform6(-1.0..1.0_f64);
    let others = (
        divisions,
        names,
        (any::<[bool; 2]>(), prop::sample::select(&Script::ALL[..])),
        prop::option::of("[A-Z][a-z]{2,9}/[A-Z][a-z]{2,9}"),
        errors,
    );
    (site, size, others).prop_map(|(site, size, others)| {
        let (latitude_deg, longitude_deg, elevation_m, zone_offset_min) = site;
        let (radius_m, wall, breadth, gap, reach) = size;
        let (divisions, name, ([plumb, summer], numerals), time_zone, errors) = others;
        let foot = latitude_deg.to_radians().tan().abs() + breadth / 2.0;
        let upright = plumb && reach > foot;
        InstrumentSpec {
            name,
            latitude_deg,
            longitude_deg,
            elevation_m,
            zone_offset_min,
            summer_time: SummerTime::ALL[usize::from(summer)],
            time_zone,
            radius_m,
            wall_thickness_m: (wall * radius_m).max(0.001),
            breadth_m: (breadth * radius_m).clamp(0.01, 20.0),
            plinth_m: 1.2 * radius_m,
            style_south_m: -reach * radius_m,
            style_north_m: reach * radius_m,
            end_faces: if upright { EndFaces::Upright } else { EndFaces::Square },
            foot_gap_m: gap * radius_m / 4.0,
            divisions,
            numerals,
            alignment: Alignment {
                gnomon_azimuth_deg: errors[0] * 5.0,
                gnomon_altitude_deg: errors[1] * 5.0,
                west_zero_deg: errors[2] * 5.0,
                east_zero_deg: errors[3] * 5.0,
                west_radius_error_m: errors[4] * radius_m / 20.0,
                east_radius_error_m: errors[5] * radius_m / 20.0,
            },
        }
    })
}

proptest! {
    #[test]
    fn what_is_written_is_read_again_and_fits_the_schema(spec in any_spec()) {
        prop_assert!(Instrument::new(spec.clone()).is_ok(), "{:?}", Instrument::new(spec.clone()).err());
        let schema = schema();
        for layout in [Layout::Full, Layout::Compact] {
            let text = file::write(&spec, layout);
            prop_assert_eq!(file::read(&text), Ok(spec.clone()), "{}", text);
            let value = serde_json::from_str(&text).unwrap_or(Value::Null);
            prop_assert_eq!(breaks(&schema, &value, ""), Vec::<String>::new());
        }
        let mut shown = Shown::first();
        let (own, _) = shown.shelf.find_or_add(spec.clone());
        shown.instrument = noonwedge::page::choice::Choice::Own(own);
        let read = address::read(&address::write(&shown), &Shown::first());
        prop_assert_eq!(read.refused, vec![]);
        prop_assert_eq!(&*read.shown.instrument.spec(), &spec);
    }
}

#[test]
fn numerals_are_roman_in_a_file_that_does_not_tell() {
    let spec = InstrumentSpec { numerals: Script::Devanagari, ..PRESETS[0].spec() };
    let text = file::write(&spec, Layout::Compact);
    let without = text.replace(",\"numerals\":\"devanagari\"", "");
    assert_ne!(without, text);
    assert_eq!(file::read(&without), Ok(PRESETS[0].spec()));
    assert_eq!(file::write(&PRESETS[0].spec(), Layout::Compact), without);
}

#[test]
fn the_schema_has_the_fields_and_the_ranges_of_the_program() {
    let schema = schema();
    let mut paths = Vec::new();
    for (group, part) in schema["properties"].as_object().into_iter().flatten() {
        for (name, field) in part["properties"].as_object().into_iter().flatten() {
            let path = format!("{group}.{name}");
            if let Some(quantity) = QUANTITIES.iter().find(|quantity| quantity.path == path) {
                let limits = (field["minimum"].as_f64(), field["maximum"].as_f64());
                assert_eq!(limits, (Some(quantity.range.0), Some(quantity.range.1)), "{path}");
                assert_eq!(field["default"].as_f64(), quantity.usual, "{path}");
                let required =
                    part["required"].as_array().is_some_and(|it| it.contains(&json!(name)));
                assert_eq!(required, quantity.usual.is_none(), "{path}");
                let whole = field["type"] == "integer";
                assert_eq!(whole, quantity.kind == Kind::Offset, "{path}");
                paths.push(quantity.path);
            }
        }
    }
    assert_eq!(paths.len(), QUANTITIES.len(), "{paths:?}");
    assert_eq!(schema["properties"]["format"]["const"], file::FORMAT);
    assert_eq!(schema["properties"]["version"]["const"], file::VERSION);
    let choices =
        |group: &str, name: &str| schema["properties"][group]["properties"][name]["enum"].clone();
    assert_eq!(choices("gnomon", "end_faces"), json!(EndFaces::ALL.map(EndFaces::key)));
    assert_eq!(choices("clock", "summer_time"), json!(SummerTime::ALL.map(SummerTime::key)));
    assert_eq!(choices("quadrants", "numerals"), json!(Script::ALL.map(Script::key)));
}

/// The faults of a file, as sentences.
fn faults(text: &str) -> Vec<String> {
    file::read(text).err().unwrap_or_default().iter().map(ToString::to_string).collect()
}

#[test]
fn every_fault_is_named_with_its_path() {
    let text = r#"{
        "format": "noonwedge-instrument", "version": 1, "name": 7, "colour": "red",
        "site": { "latitude_deg": 120, "longitude_deg": "48", "height": 3 },
        "clock": { "zone_offset_min": 3.5, "summer_time": "always", "time_zone": "x y" },
        "gnomon": { "wall_thickness_m": 0.6, "style_south_m": -1, "end_faces": "round" },
        "quadrants": { "radius_m": 99, "breadth_m": 0.7, "plinth_m": 0.5, "divisions": [7], "numerals": "runes" },
        "alignment": []
    }"#;
    assert_eq!(
        faults(text),
        [
            "name is “7”; it must be a text",
            "site.latitude_deg is “120”; it must be from -90 to 90",
            "site.longitude_deg is “48”; it must be from -180 to 180",
            "clock.zone_offset_min is “3.5”; it must be from -720 to 840 in whole minutes",
            "quadrants.radius_m is “99”; it must be from 0.05 to 50",
            "gnomon.style_north_m is missing; it must be from 0 to 2000",
            "clock.summer_time is “always”; it must be one of never, last-sundays",
            "gnomon.end_faces is “round”; it must be one of upright, square",
            "quadrants.numerals is “runes”; it must be one of roman, western, devanagari, eastern-arabic",
            "“colour” is unknown; it must be one of format, version, name, site, clock, gnomon, quadrants, alignment",
            "“site.height” is unknown; it must be one of latitude_deg, longitude_deg, elevation_m",
            "alignment is a list; it must be an object",
            "clock.time_zone is “x y”; it must be a name of the form Area/City",
            "quadrants.divisions is a cut of 3600 s into 7 parts; it must be divisions of whole seconds",
        ]
    );
}

#[test]
fn parts_that_do_not_fit_each_other_are_named_too() {
    let spec =
        InstrumentSpec { foot_gap_m: 2.0, plinth_m: 0.1, style_north_m: 1.0, ..PRESETS[0].spec() };
    assert_eq!(
        faults(&file::write(&spec, Layout::Full)),
        [
            "quadrants.plinth_m is 0.1; it must be from 0.197 to 50",
            "quadrants.foot_gap_m is 2; it must be from 0 to 0.725",
            "gnomon.style_south_m is -4.95; it must be from -4.904 to 0",
            "gnomon.style_north_m is 1; it must be from 2.16 to 116, for a plumb end to stand behind \
             the quadrants' feet; or the ends must be cut square",
        ]
    );
}

#[test]
fn a_file_of_another_kind_is_refused_in_a_sentence() {
    for (text, told) in [
        (
            "",
            "the file is not JSON at line 1, column 1; it must be an instrument's description in JSON",
        ),
        ("[1]", "the file is a list; it must be an object with format, version and the rest"),
        ("{\"format\":\"noonwedge-instrument\",\"version\":2}", "version is “2”; it must be 1"),
    ] {
        assert_eq!(faults(text), [told]);
    }
    assert_eq!(faults("{}").len(), 2);
    assert_eq!(faults(&" ".repeat(70_000)).len(), 1);
}

/// A text is either an instrument that stands, or refused in sentences.
fn is_answered(text: &str) {
    match file::read(text) {
        Ok(spec) => {
            let made = Instrument::new(spec.clone());
            assert!(made.is_ok(), "{text} was taken, but {:?}", made.err());
            assert_eq!(file::read(&file::write(&spec, Layout::Full)), Ok(spec));
        }
        Err(faults) => {
            assert!(!faults.is_empty(), "{text} was refused without a word");
            for fault in faults {
                assert!(
                    !fault.field.is_empty() && !fault.value.is_empty() && !fault.allowed.is_empty()
                );
            }
        }
    }
}

#[test]
fn ten_thousand_broken_files_are_each_answered() {
    let mut dice = Dice(0x9e37_79b9_7f4a_7c15);
    let mut refused = 0;
    for round in 0..BROKEN {
        let spec = PRESETS[dice.roll(PRESETS.len())].spec();
        let layout = if dice.roll(2) == 0 { Layout::Full } else { Layout::Compact };
        let text = file::write(&spec, layout);
        let text = if round % 2 == 0 {
            bitten(&text, &mut dice)
        } else {
            let value = serde_json::from_str(&text).unwrap_or(Value::Null);
            upset(&value, &mut dice).to_string()
        };
        is_answered(&text);
        refused += u32::from(file::read(&text).is_err());
    }
    assert!(refused > BROKEN / 2, "only {refused} were refused: the files are not broken enough");
}

#[test]
fn ten_thousand_broken_addresses_are_each_answered() {
    let mut dice = Dice(0x2545_f491_4f6c_dd1d);
    let mut refused = 0;
    for _ in 0..BROKEN {
        let spec = PRESETS[dice.roll(PRESETS.len())].spec();
        let own = address::encoded(&file::write(&spec, Layout::Compact));
        let text = format!("#dial={own}&t=2026-06-21T08:00:00Z&theme=night&view=pole");
        let read = address::read(&bitten(&text, &mut dice), &Shown::first());
        assert!(read.shown.instrument.instrument().is_ok());
        for fault in &read.refused {
            assert!(!fault.value.is_empty() && !fault.allowed.is_empty(), "{fault:?}");
        }
        refused += u32::from(!read.refused.is_empty());
        let again = address::read(&address::write(&read.shown), &Shown::first());
        assert_eq!(again.refused, vec![]);
    }
    assert!(
        refused > BROKEN / 2,
        "only {refused} were refused: the addresses are not broken enough"
    );
}
