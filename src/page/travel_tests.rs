//! Travel and presenting, seen from outside.

use super::address;
use super::choice::Choice;
use super::dirty::Dirty;
use super::keys::Move;
use super::labels;
use super::message::Message;
use super::state::Shown;
use super::test_page::Page;
use super::travel::{self, Way};
use crate::core::instrument::{EndFaces, PRESETS};
use crate::core::reading::NoReading;
use crate::core::shadow::wrapped;

/// A page that travels.
fn away() -> Page {
    let mut page = Page::new();
    page.send(Message::Travel(true));
    page
}

fn latitude_deg(page: &Page) -> f64 {
    page.workings.instrument().site().latitude_deg()
}

#[test]
fn dragging_the_latitude_rebuilds_the_dial_and_one_tap_leads_home() {
    let mut page = away();
    let home = page.workings.instrument().clone();
    let date = page.workings.now();
    let dirty = page.send(Message::TravelTo(Move::To(52.25)));
    assert!(dirty.has(Dirty::COURT) && dirty.has(Dirty::DAY) && dirty.has(Dirty::LADDER));
    assert_eq!(page.workings.instrument().spec().latitude_deg, 52.25);
    assert_eq!(page.workings.instrument().off_latitude_rad(), 0.0);
    // The same hour there, and a true reading.
    assert!((page.workings.now().seconds - date.seconds).abs() < 1e-6);
    let Ok(reading) = &page.workings.moment().reading else { panic!("it reads") };
    let airless = page.workings.moment().sun.airless.hour_angle_rad;
    assert!(wrapped(reading.edge.hour_angle_rad - airless).abs() < 0.001);
    assert_eq!(labels::place(&page.words, &page.workings), "52.25° N");
    page.send(Message::TravelHome);
    assert_eq!(page.workings.instrument(), &home);
    assert_eq!(labels::place(&page.words, &page.workings), "Larkmoor Court, 31.60° N");
    page.send(Message::TravelTo(Move::Last));
    assert_eq!(page.workings.instrument().end_faces(), EndFaces::Square);
    page.send(Message::Travel(false));
    assert_eq!((page.state.shown.travel, page.workings.instrument()), (None, &home));
}

#[test]
fn a_hand_is_caught_by_named_latitudes_and_leaps_go_from_one_to_the_next() {
    let mut page = away();
    let [_, _, _, equator, tropic, circle, pole] = travel::named_deg(&page.workings);
    assert_eq!((equator, tropic, circle, pole), (0.0, 23.44, 66.56, 90.0));
    for (to, caught) in [(0.6, 0.0), (-23.9, -tropic), (31.2, 31.6), (33.0, 33.0), (400.0, 90.0)] {
        page.send(Message::TravelTo(Move::To(to)));
        assert_eq!(latitude_deg(&page), caught, "{to}");
    }
    page.send(Message::TravelTo(Move::Last));
    let mut stations = Vec::new();
    for _ in 0..9 {
        page.send(Message::TravelTo(Move::Leaps(-1)));
        stations.push(latitude_deg(&page));
    }
    assert_eq!(
        stations,
        [circle, 31.6, tropic, 0.0, -tropic, -circle, -90.0, -90.0, -90.0].as_slice()
    );
    page.send(Message::TravelTo(Move::Steps(2)));
    assert_eq!(latitude_deg(&page), -88.0);
}

#[test]
fn a_whole_drag_is_one_step_of_undo_and_closing_another() {
    let mut page = away();
    for degrees in 32..60 {
        page.send(Message::TravelTo(Move::To(f64::from(degrees))));
    }
    page.send(Message::Settle);
    page.send(Message::TravelBy(Way::Carried));
    assert!(page.workings.instrument().off_latitude_rad() < -0.4);
    page.send(Message::Undo);
    assert_eq!(page.workings.instrument().off_latitude_rad(), 0.0);
    assert!((latitude_deg(&page) - 59.0).abs() < 1e-9);
    page.send(Message::Undo);
    assert!((latitude_deg(&page) - 31.6).abs() < 1e-9);
    assert!(page.state.shown.travel.is_some());
    page.send(Message::Undo);
    assert_eq!(page.state.shown, Shown::first());
}

#[test]
fn a_typed_latitude_is_read_as_people_write_it_and_a_wrong_one_is_refused() {
    let mut page = away();
    page.send(Message::TravelTyped("34 12 S".into()));
    assert_eq!(latitude_deg(&page), -34.2);
    page.send(Message::TravelTyped("95".into()));
    assert_eq!(latitude_deg(&page), -34.2);
    assert_eq!(
        page.notices(),
        ["latitude is 95°; it must be from -90 to 90°. The moment is as it was."].as_slice()
    );
}

#[test]
fn a_carried_stone_tells_how_far_it_is_off_and_what_of_the_day_it_reads() {
    let mut page = away();
    page.send(Message::TravelBy(Way::Carried));
    assert_eq!(page.state.shown.travel.map(|it| it.latitude_deg), Some(31.6));
    assert_eq!(
        travel::told(&page.words, &page.workings, Way::Carried),
        "The stone stands at home, and reads true."
    );
    page.send(Message::TravelTo(Move::To(50.0)));
    let told = travel::told(&page.words, &page.workings, Way::Carried);
    let Ok(reading) = &page.workings.moment().reading else { panic!("it reads") };
    let fast_s = reading.exact_s - page.workings.now().seconds;
    assert!(fast_s.abs() > 120.0, "{fast_s}");
    let way = if fast_s > 0.0 { "fast" } else { "slow" };
    assert!(told.contains(way) && told.contains("misses the pole by 18° 24′"), "{told}");
    let place = labels::place(&page.words, &page.workings);
    assert_eq!(place, "built for 31.60° N, carried to 50.00° N");
    // The ladder tells the cause, and its parts add up to the difference from the true clock.
    let Some(ladder) = &page.workings.moment().ladder else { panic!("a ladder") };
    assert!((ladder.residual.latitude_s + fast_s).abs() < 5.0, "{:?}", ladder.residual);
}

#[test]
fn a_day_without_a_night_and_a_day_without_an_hour_are_told_as_a_person_would() {
    let mut page = away();
    page.send(Message::TravelBy(Way::Carried));
    for (latitude_deg, day, told) in [
        (72.0, 172.0, "the Sun is up all day, and an hour is shown for"),
        (-64.0, 172.0, "today no hour is shown."),
        (50.0, 172.0, "of light."),
    ] {
        page.send(Message::TravelTo(Move::To(latitude_deg)));
        page.send(Message::Year(Move::To(day)));
        let sentence = travel::told(&page.words, &page.workings, Way::Carried);
        assert!(sentence.contains(told) && !sentence.contains("23 h"), "{sentence}");
    }
}

#[test]
fn carried_to_the_other_hemisphere_it_says_what_fails() {
    let mut page = away();
    page.send(Message::TravelBy(Way::Carried));
    page.send(Message::TravelTo(Move::To(-75.0)));
    page.send(Message::Day(Move::To(42_000.0)));
    let reading = page.workings.moment().reading.clone();
    assert!(matches!(reading, Err(NoReading::BeyondQuadrantEnd { .. })), "{reading:?}");
    let told = travel::told(&page.words, &page.workings, Way::Carried);
    assert!(told.starts_with("Can’t be read: the Sun is up"), "{told}");
    assert_eq!(page.workings.day().noon, None);
    page.send(Message::PassNoon);
    assert!(page.notices()[0].contains("carried so far"), "{:?}", page.notices());
}

#[test]
fn every_zone_of_the_earth_has_its_sentence() {
    let mut page = away();
    for (degrees, begins) in [
        (0.0, "Equator: the style lies level"),
        (-10.0, "Between the tropics: the noon Sun is overhead about 23 February and"),
        (10.0, "Between the tropics: the noon Sun is overhead about 16 April and"),
        (23.44, "Tropic: the noon Sun is overhead once a year, about 21 June."),
        (-23.44, "Tropic: the noon Sun is overhead once a year, about 21 December."),
        (45.0, "Noon Sun from 21° 34′ at midwinter to 68° 26′ at midsummer"),
        (66.56, "Polar circle: about 21 June the midnight Sun touches the horizon"),
        (70.0, "Beyond the polar circle: 7"),
        (90.0, "Pole: the style is plumb and every way leads south."),
        (-90.0, "Pole: the style is plumb and every way leads north."),
    ] {
        page.send(Message::TravelTo(Move::To(degrees)));
        let special = travel::special(&page.words, &page.workings);
        assert!(special.starts_with(begins), "{degrees}: {special}");
        let south = special.contains("The noon Sun is in the north");
        assert_eq!(south, degrees < -20.0 && degrees > -90.0, "{special}");
    }
}

#[test]
fn travel_goes_along_with_another_instrument_and_with_the_address() {
    let mut page = away();
    page.send(Message::TravelTo(Move::To(-10.0)));
    page.send(Message::TravelBy(Way::Carried));
    page.send(Message::Instrument(Choice::BuiltIn(&PRESETS[2])));
    assert_eq!(latitude_deg(&page), -10.0);
    assert!((page.workings.instrument().off_latitude_rad() + 24.2_f64.to_radians()).abs() < 1e-9);
    let text = address::of_page(&page.state.shown, page.state.presenting);
    assert!(text.starts_with("i=schoolyard&travel=-10&travel-as=carried"), "{text}");
    let mut other = Page::new();
    other.send(Message::Address(text.clone()));
    assert!(other.notices().is_empty());
    assert_eq!(address::of_page(&other.state.shown, other.state.presenting), text);
    assert_eq!(other.workings.instrument(), page.workings.instrument());
}

#[test]
fn presenting_is_the_pages_own_and_can_be_asked_for_in_the_address() {
    let mut page = Page::new();
    let dirty = page.send(Message::Present(true));
    assert!(dirty.has(Dirty::CONTROLS) && dirty.has(Dirty::ADDRESS));
    assert_eq!(page.state.shown, Shown::first());
    assert_eq!(address::of_page(&page.state.shown, page.state.presenting), "present=1");
    page.send(Message::Undo);
    assert!(page.state.presenting, "undo takes back what is shown, not how");
    page.send(Message::Present(false));
    assert_eq!(address::of_page(&page.state.shown, page.state.presenting), "");
    page.send(Message::Address("#theme=night&present=1".into()));
    assert!(page.state.presenting);
    assert_eq!(address::of_page(&page.state.shown, page.state.presenting), "theme=night&present=1");
    page.send(Message::Address("#theme=night".into()));
    assert!(!page.state.presenting);
}
