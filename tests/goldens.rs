//! Pictures of the court that were looked at and found good. Each is an address of the page, so that
//! the same picture can be opened there. `NOONWEDGE_BLESS=1 cargo test --test goldens` draws them anew.

mod common;

use std::fs;
use std::path::{Path, PathBuf};

use common::picture::{Tolerance, check_itself, difference};
use glam::DVec2;
use noonwedge::core::pointer::Pointer;
use noonwedge::page::address;
use noonwedge::page::state::Shown;
use noonwedge::page::workings::Workings;
use noonwedge::paint::svg;
use noonwedge::scene::court::{self, CourtView};
use noonwedge::scene::drawing::Drawing;
use noonwedge::words::Words;

/// Size of the pictures, CSS pixels: small, so that a difference can be read in the text.
const SIZE: DVec2 = DVec2::new(560.0, 350.0);
/// Machines differ in the last bit of a sine; what is written is rounded to a hundredth of a pixel,
/// and colours to two steps of 255.
const TOLERANCE: Tolerance = Tolerance { length: 0.05, channel: 2 };
/// Largest picture kept, bytes.
const LARGEST: usize = 160_000;

/// Name and address of each picture.
const PICTURES: [(&str, &str); 17] = [
    ("first-visit", ""),
    ("near-noon-from-the-steps", "t=2026-10-18T08:29:30Z&view=steps"),
    ("slope-from-the-side", "t=2026-10-18T06:24:34Z&view=side&show=axis,latitude"),
    ("along-the-pole", "t=2026-09-08T06:10:00Z&view=pole&show=equator,hour"),
    ("every-guide", "show=axis,equator,horizon,latitude,paths,hour,declination,cone"),
    ("cone-at-midsummer", "t=2026-06-21T06:24:34Z&show=axis,cone"),
    ("great-square-to-west", "i=great&t=2026-02-03T06:00:00Z&view=west"),
    ("south-afternoon", "i=schoolyard&t=2026-12-10T13:40:00Z"),
    (
        "south-cone-and-axis",
        "i=schoolyard&t=2026-07-01T08:10:00Z&turn=34,11&show=axis,cone,latitude",
    ),
    ("far-north-evening", "i=north-lawn&t=2026-06-21T17:30:00Z&turn=52,6"),
    (
        "far-north-winter-paths",
        "i=north-lawn&t=2026-12-21T11:00:00Z&turn=-40,17&show=paths,declination",
    ),
    ("sunrise-in-the-tropics", "i=shoreline&t=2026-05-01T11:20:00Z&view=east"),
    ("night", "t=2026-10-18T17:30:00Z&theme=night"),
    (
        "eastern-arabic-numerals",
        "t=2026-10-18T07:50:00Z&zoom=2.4,-12,18&dial={\"format\":\"noonwedge-instrument\",\"version\":1,\
         \"name\":\"Court dial\",\"site\":{\"latitude_deg\":31.6,\"longitude_deg\":48.35},\
         \"clock\":{\"zone_offset_min\":210},\"gnomon\":{\"wall_thickness_m\":0.6,\
         \"style_south_m\":-4.95,\"style_north_m\":2.6},\"quadrants\":{\"radius_m\":2.9,\
         \"breadth_m\":0.75,\"plinth_m\":0.55,\"divisions\":[4,15],\
         \"numerals\":\"eastern-arabic\"}}",
    ),
    (
        "devanagari-from-the-steps",
        "view=steps&t=2026-05-18T06:20:00Z&dial={\"format\":\"noonwedge-instrument\",\"version\":1,\
         \"name\":\"Hill dial\",\"site\":{\"latitude_deg\":26.9,\"longitude_deg\":48.35},\
         \"clock\":{\"zone_offset_min\":210},\"gnomon\":{\"wall_thickness_m\":0.4,\
         \"style_south_m\":-3.4,\"style_north_m\":2.2},\"quadrants\":{\"radius_m\":2.4,\
         \"breadth_m\":0.9,\"plinth_m\":0.55,\"divisions\":[12,5],\
         \"numerals\":\"devanagari\"}}",
    ),
    ("beside-the-edge", "view=edge"),
    ("steep-in-glare", "theme=glare&turn=126,69&rod=-0.2"),
];

fn drawn(address: &str) -> String {
    let read = address::read(address, &Shown::first());
    assert!(read.refused.is_empty(), "{address}: {:?}", read.refused);
    let shown = read.shown;
    let workings = Workings::new(&shown).unwrap_or_else(|error| panic!("{address}: {error}"));
    let (words, instrument) = (Words::english(), workings.instrument());
    let pointer: Option<Pointer> = shown.rod.and_then(|rod| rod.pointer(instrument).ok());
    let court = CourtView {
        size: SIZE,
        camera: &shown.view.camera(instrument, workings.hour_angle_rad()),
        palette: shown.theme.palette(),
        words: &words,
        pointer: pointer.as_ref(),
        label_px: 14.0,
        guides: shown.guides.into(),
        covered: true,
        in_motion: false,
    };
    let mut drawing = Drawing::new(SIZE);
    court::draw(&mut drawing, instrument, workings.moment(), &court);
    svg::write(&drawing)
}

#[test]
fn the_court_looks_as_it_did() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/goldens");
    let bless = std::env::var_os("NOONWEDGE_BLESS").is_some();
    let faults: Vec<String> = PICTURES
        .iter()
        .filter_map(|(name, address)| {
            let (file, text) = (folder.join(format!("{name}.svg")), drawn(address));
            assert!(text.len() <= LARGEST, "{name}: {} bytes", text.len());
            if bless {
                fs::write(&file, text).unwrap_or_else(|error| panic!("{name}: {error}"));
                return None;
            }
            let expected = fs::read_to_string(&file).unwrap_or_default();
            let fault = difference(&expected, &text, TOLERANCE)?;
            Some(format!("{name} (#{address}): {fault}\n  now: {}", keep(name, &text).display()))
        })
        .collect();
    assert!(faults.is_empty(), "{}\nTo take them over, set NOONWEDGE_BLESS=1.", faults.join("\n"));
}

/// Keeps what was drawn, to be looked at beside what was expected.
fn keep(name: &str, text: &str) -> PathBuf {
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{name}.svg"));
    fs::write(&file, text).unwrap_or_else(|error| panic!("{name}: {error}"));
    file
}

#[test]
fn the_comparison_finds_what_matters() {
    check_itself();
}
