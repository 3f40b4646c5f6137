//! What the editor's wishes do, seen from outside.

use chrono::{Datelike, Timelike};

use super::address;
use super::choice::{Choice, Shelf};
use super::edit::Edit;
use super::message::Message;
use super::test_page::Page;
use super::workings::Workings;
use super::zones::Zones;
use crate::core::instrument::{PRESETS, Quantity, Script};
use crate::core::time::Instant;

#[test]
fn a_field_that_is_changed_in_steps_leaves_no_trace_of_the_way() {
    let mut page = Page::new();
    let Some(radius) = Quantity::by_path("quadrants.radius_m") else { panic!("a quantity") };
    let type_in = |page: &mut Page, text: &str| {
        page.send(Message::Edit(Edit::Number(radius, text.to_owned())));
    };
    type_in(&mut page, "0.3");
    let small = page.state.shown.instrument.spec();
    assert!(small.style_south_m > -0.6, "{small:?}");
    assert_eq!(small.name, "Terrace dial, copy");
    type_in(&mut page, "999");
    assert_eq!(page.state.shown.instrument.spec(), small);
    let wrong = page.state.editor.wrong("quadrants.radius_m").map(|wrong| wrong.sentence.clone());
    assert!(wrong.is_some_and(|sentence| sentence.contains("999 m")), "no sentence");
    type_in(&mut page, "2.9");
    let back = page.state.shown.instrument.spec();
    let first = PRESETS[0].spec();
    assert_eq!(
        (back.style_south_m, back.style_north_m),
        (first.style_south_m, first.style_north_m)
    );
    assert_eq!(page.state.shown.shelf.iter().count(), 1);
    page.send(Message::Undo);
    assert_eq!(page.state.shown.instrument, Choice::BuiltIn(&PRESETS[0]));
    assert_eq!(page.state.shown.shelf.iter().count(), 0);
}

#[test]
fn names_of_ones_own_instruments_stay_apart_and_deletion_can_be_undone() {
    let mut page = Page::new();
    page.send(Message::Edit(Edit::Duplicate));
    page.send(Message::Instrument(Choice::BuiltIn(&PRESETS[0])));
    page.send(Message::Edit(Edit::Duplicate));
    let names = |page: &Page| -> Vec<String> {
        page.state.shown.shelf.iter().map(|own| own.name.clone()).collect()
    };
    assert_eq!(names(&page), ["Terrace dial, copy", "Terrace dial, copy 2"]);
    page.send(Message::Edit(Edit::Name("Terrace dial, copy".to_owned())));
    assert!(page.state.editor.wrong("name").is_some());
    page.send(Message::Edit(Edit::Name("Orchard dial".to_owned())));
    assert_eq!(names(&page), ["Terrace dial, copy", "Orchard dial"]);
    page.send(Message::Edit(Edit::Delete));
    assert_eq!(names(&page), ["Terrace dial, copy"]);
    page.send(Message::Undo);
    assert_eq!(names(&page), ["Terrace dial, copy", "Orchard dial"]);
    let (again, faults) = Shelf::read(&page.state.shown.shelf.write());
    assert_eq!((again, faults), (page.state.shown.shelf.clone(), vec![]));
}

#[test]
fn what_another_window_has_kept_is_not_lost_and_what_was_deleted_does_not_return() {
    let named = |names: &[&str]| {
        let mut shelf = Shelf::default();
        for name in names {
            let mut spec = PRESETS[0].spec();
            spec.name = (*name).to_owned();
            shelf.add(spec);
        }
        shelf
    };
    let mut here = named(&["Orchard dial"]);
    here.take_new(
        &named(&["Orchard dial", "Old dial", "Quay dial"]),
        &named(&["Orchard dial", "Old dial"]),
    );
    assert_eq!(here, named(&["Orchard dial", "Quay dial"]));
}

#[test]
fn the_numerals_of_a_copy_are_cut_in_another_script_and_back() {
    let mut page = Page::new();
    for script in [Script::Devanagari, Script::EasternArabic, Script::Western, Script::Roman] {
        page.send(Message::Edit(Edit::Numerals(script)));
        assert_eq!(page.state.shown.instrument.spec().numerals, script);
        assert_eq!(page.workings.instrument().numerals(), script);
        assert!(matches!(page.state.shown.instrument, Choice::Own(_)));
        let address = address::write(&page.state.shown);
        assert_eq!(address.contains(script.key()), script != Script::Roman, "{address}");
    }
}

#[test]
fn a_cut_keeps_the_levels_below_that_still_divide() {
    let mut page = Page::new();
    let cut = |page: &mut Page, level, parts| {
        page.send(Message::Edit(Edit::Cut(level, parts)));
        page.state.shown.instrument.spec().divisions.clone()
    };
    assert_eq!(cut(&mut page, 0, 12), [12, 15]);
    assert_eq!(cut(&mut page, 2, 4), [12, 15, 4]);
    assert_eq!(cut(&mut page, 1, 0), [12]);
}

/// Somebody who knows one zone, an hour ahead in the middle of every year.
#[derive(Debug)]
struct OneZone;

impl Zones for OneZone {
    fn offset_min(&self, zone: &str, unix_ms: i64) -> Option<i32> {
        let month = Instant::from_unix_ms_saturating(unix_ms).civil().date().month();
        (zone == "Some/Where").then_some(if (4..=9).contains(&month) { 120 } else { 60 })
    }
}

#[test]
fn a_zone_by_name_sets_the_clocks_of_every_date() {
    let mut page = Page::new();
    let Ok(workings) = Workings::with_zones(&page.state.shown, Box::new(OneZone)) else {
        panic!("the first visit can be shown")
    };
    page.workings = workings;
    page.state.reduced_motion = true;
    page.send(Message::Edit(Edit::Zone("No/Where".to_owned())));
    assert!(page.state.editor.wrong("clock.time_zone").is_some());
    page.send(Message::Edit(Edit::Zone("Some/Where".to_owned())));
    assert!(page.state.editor.wrong.is_empty());
    assert_eq!(page.state.shown.instrument.spec().zone_offset_min, 60);
    page.send(Message::TypedTime("12:00:00".to_owned()));
    for (date, hour) in [("2026-07-01", 10), ("2031-01-15", 11), ("1950-08-01", 10)] {
        page.send(Message::TypedDate(date.to_owned()));
        assert_eq!(page.state.shown.instant.civil().time().hour(), hour, "{date}");
        assert_eq!(page.workings.instrument().zone_offset().minutes(), 60);
    }
}
