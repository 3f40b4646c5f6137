//! What messages do, seen from outside.

use glam::DVec2;

use super::choice::Choice;
use super::dirty::Dirty;
use super::keys::Move;
use super::message::Message;
use super::noon_panel::MARGIN_S;
use super::speed::Speed;
use super::state::Shown;
use super::test_page::Page;
use crate::core::instrument::{AxialEnd, PRESETS, Preset};
use crate::core::pointer::{Criterion, graduation_m};
use crate::core::reading::{NOON_S, NoReading};
use crate::core::time::Instant;
use crate::scene::camera::Standpoint;
use crate::scene::guide::Guide;
use crate::scene::palette::Theme;

/// Instants are whole milliseconds.
const MILLISECOND_S: f64 = 1.5e-3;

#[test]
fn the_day_strip_sets_the_time_and_keeps_the_date() {
    let mut page = Page::new();
    let date = page.workings.now().date;
    let dirty = page.send(Message::Day(Move::To(52_345.0)));
    assert!((page.seconds() - 52_345.0).abs() < MILLISECOND_S);
    assert_eq!(page.workings.now().date, date);
    assert!(dirty.has(Dirty::MOMENT) && dirty.has(Dirty::TEXT) && dirty.has(Dirty::ADDRESS));
    for seconds in [-5.0, 0.0, 86_399.0, 1e9] {
        page.send(Message::Day(Move::To(seconds)));
        assert_eq!(page.workings.now().date, date, "{seconds}");
    }
}

#[test]
fn an_address_is_gone_to_by_a_glide_unless_motion_is_to_be_kept_low() {
    let mut page = Page::new();
    let address = || Message::Address("t=2026-10-18T12:00:00Z&view=steps&show=axis".to_owned());
    let before = page.state.on_screen(&mut page.workings).instant;
    page.send(address());
    assert_eq!(page.state.on_screen(&mut page.workings).instant, before);
    assert!(page.state.is_moving());
    for _ in 0..80 {
        page.send(Message::Tick(0.05, before));
    }
    assert!(!page.state.is_moving());
    assert_eq!(page.state.on_screen(&mut page.workings).instant, page.state.shown.instant);
    let mut page = Page::new();
    page.send(Message::ReduceMotion(true));
    page.send(address());
    assert!(!page.state.is_moving());
    assert_eq!(page.state.shown.instant.to_string(), "2026-10-18T12:00:00Z");
}

#[test]
fn there_is_no_glide_from_one_instrument_to_another() {
    let mut page = Page::new();
    page.send(Message::Address("i=schoolyard&t=2026-12-18T08:00:00Z&view=steps".to_owned()));
    assert!(page.state.jump.is_none() && page.state.walk.is_none());
    assert_eq!(page.state.on_screen(&mut page.workings).instant, page.state.shown.instant);
    page.send(Message::Address("i=schoolyard&t=2026-12-18T09:00:00Z".to_owned()));
    assert!(page.state.jump.is_some() && page.state.walk.is_some());
}

#[test]
fn arrows_go_from_mark_to_mark() {
    let mut page = Page::new();
    page.send(Message::Day(Move::Steps(1)));
    assert!((page.seconds() - 35_580.0).abs() < MILLISECOND_S, "{}", page.seconds());
    page.send(Message::Day(Move::Steps(1)));
    assert!((page.seconds() - 35_600.0).abs() < MILLISECOND_S, "{}", page.seconds());
    page.send(Message::Day(Move::Steps(-2)));
    page.send(Message::Day(Move::Leaps(1)));
    assert!((page.seconds() - 39_160.0).abs() < MILLISECOND_S, "{}", page.seconds());
    page.send(Message::Day(Move::First));
    let first = page.workings.day().stretches.first().map(|stretch| stretch.from_s);
    assert!(first.is_some_and(|first| (page.seconds() - first).abs() < 0.1));
}

#[test]
fn the_year_strip_sets_the_date_and_keeps_the_time_of_day() {
    let mut page = Page::new();
    let seconds = page.seconds();
    for by in [Move::To(172.0), Move::Steps(-3), Move::Leaps(5), Move::First, Move::Last] {
        page.send(Message::Year(by));
        assert!((page.seconds() - seconds).abs() < MILLISECOND_S, "{by:?}: {}", page.seconds());
    }
    assert_eq!(page.workings.now().date.to_string(), "2026-12-31");
    page.send(Message::Year(Move::Steps(1)));
    assert_eq!(page.workings.now().date.to_string(), "2027-01-01");
    page.send(Message::Year(Move::To(366.0)));
    assert_eq!(page.workings.now().date.to_string(), "2027-12-31");
}

#[test]
fn another_instrument_shows_the_same_date_and_time_of_day() {
    let mut page = Page::new();
    let before = page.workings.now();
    for preset in &PRESETS {
        page.send(Message::Instrument(Choice::BuiltIn(preset)));
        assert_eq!(page.workings.now().date, before.date, "{}", preset.key);
        assert!((page.seconds() - before.seconds).abs() < MILLISECOND_S, "{}", preset.key);
    }
}

#[test]
fn a_drag_is_one_step_back_and_a_second_drag_another() {
    let mut page = Page::new();
    let first = page.state.shown.clone();
    for seconds in 40_000..40_050 {
        page.send(Message::Day(Move::To(f64::from(seconds))));
    }
    page.send(Message::Settle);
    let second = page.state.shown.clone();
    page.send(Message::Day(Move::To(50_000.0)));
    page.send(Message::Settle);
    page.send(Message::Undo);
    assert_eq!(page.state.shown, second);
    page.send(Message::Undo);
    assert_eq!(page.state.shown, first);
    assert!(page.send(Message::Undo).is_nothing());
}

#[test]
fn undo_brings_back_the_instrument_and_stops_play() {
    let mut page = Page::new();
    let first = page.state.shown.clone();
    let great = Preset::by_key("great");
    page.send(Message::Instrument(Choice::BuiltIn(great.unwrap_or(&PRESETS[0]))));
    page.send(Message::PlayPause);
    page.wait(0.5);
    page.send(Message::Undo);
    assert!(!page.state.playing);
    assert_eq!(page.state.shown, first);
    assert_eq!(page.workings.instrument().radius_m(), 2.90);
}

#[test]
fn play_runs_at_its_speed_and_whole_days_keep_the_time_of_day() {
    let mut page = Page::new();
    let begun = page.seconds();
    page.send(Message::PlayPause);
    page.wait(2.0);
    assert!((page.seconds() - begun - 120.0).abs() < 0.2, "{}", page.seconds() - begun);
    page.send(Message::Speed(Speed::Year));
    let (date, seconds) = (page.workings.now().date, page.seconds());
    page.wait(10.0);
    assert!((page.seconds() - seconds).abs() < 0.01);
    let days = (page.workings.now().date - date).num_days();
    assert!((60..=61).contains(&days), "{days} days in ten seconds");
}

#[test]
fn with_reduced_motion_play_stands_on_marks_and_jumps_are_at_once() {
    let mut page = Page::new();
    page.send(Message::ReduceMotion(true));
    page.send(Message::Season(1));
    assert!(!page.state.is_moving());
    page.send(Message::Standpoint(Standpoint::ALL[2]));
    assert!(!page.state.is_moving());
    page.send(Message::PlayPause);
    let mut places = Vec::new();
    for _ in 0..180 {
        page.wait(1.0 / 60.0);
        places.push(page.seconds());
    }
    places.dedup();
    assert!((5..=7).contains(&places.len()), "{} places in three seconds", places.len());
    for place in &places[1..] {
        let off = (place / 20.0 - (place / 20.0).round()).abs() * 20.0;
        assert!(off < 0.01, "{place} is between two marks");
    }
}

#[test]
fn the_pass_through_noon_meets_the_blind_interval_and_ends() {
    let mut page = Page::new();
    page.send(Message::PassNoon);
    page.wait(0.5);
    assert!((page.seconds() - (NOON_S - MARGIN_S)).abs() < 20.0, "{}", page.seconds());
    let mut blind_s = 0.0;
    for _ in 0..2400 {
        page.wait(1.0 / 60.0);
        if matches!(page.workings.moment().reading, Err(NoReading::Blind { .. })) {
            blind_s += 10.0 / 60.0;
        }
    }
    assert!((blind_s - 20.0_f64).abs() < 0.5, "blind for {blind_s} s");
    assert!(!page.state.playing && page.state.noon_pass);
    assert!((page.seconds() - (NOON_S + MARGIN_S)).abs() < 20.0, "{}", page.seconds());
    page.send(Message::Day(Move::Leaps(1)));
    assert!(!page.state.noon_pass);
}

#[test]
fn the_picture_of_noon_answers_to_another_instrument_and_stays_until_it_is_closed() {
    let mut page = Page::new();
    page.send(Message::PassNoon);
    page.wait(1.0);
    let great = Preset::by_key("great").unwrap_or(&PRESETS[0]);
    let dirty = page.send(Message::Instrument(Choice::BuiltIn(great)));
    assert!(dirty.has(Dirty::NOON));
    // Blind for half a division on either side of XII: of 2 s here, of 20 s on the dial before.
    let blind_s = page.workings.day().noon.map(|pass| pass.blind_s());
    assert!(blind_s.is_some_and(|blind_s| (blind_s - 2.0).abs() < 0.1), "{blind_s:?}");
    assert!(page.state.shown.noon && page.state.noon_pass && page.state.playing);
    let text = super::address::write(&page.state.shown);
    assert!(text.contains("noon=on"), "{text}");
    page.send(Message::Day(Move::Steps(1)));
    assert!(page.state.shown.noon && !page.state.noon_pass);
    page.send(Message::CloseNoon);
    assert!(!page.state.shown.noon);
    page.send(Message::Undo);
    assert!(page.state.shown.noon);
}

#[test]
fn the_feet_share_the_sun_as_the_wall_lets_them() {
    let mut page = Page::new();
    page.send(Message::ReduceMotion(true));
    page.send(Message::PassNoon);
    let Some(pass) = page.workings.day().noon else { panic!("a noon") };
    let mut feet = |seconds: f64| {
        let instant = pass.meridian.saturating_plus_seconds(seconds);
        page.send(Message::Address(format!("t={instant}&noon=on")));
        super::noon_panel::panel(&page.words, &page.workings).map(|panel| panel.feet)
    };
    let told = |west: u32, east: u32| {
        Some(format!(
            "Of the Sun's light {west} % reaches the west foot and {east} % the east foot."
        ))
    };
    assert_eq!(feet(-90.0), told(0, 100));
    assert_eq!(feet(0.0), told(50, 50));
    assert_eq!(feet(90.0), told(100, 0));
}

#[test]
fn the_shortest_day_of_the_north_lawn_still_has_a_noon_to_pass_through() {
    let mut page = Page::new();
    page.send(Message::Address("i=north-lawn&t=2026-12-21T11:00:00Z".to_owned()));
    page.send(Message::PassNoon);
    assert!(page.notices().is_empty());
    assert!(page.state.noon_pass);
}

#[test]
fn typed_moments_are_the_clock_of_the_place() {
    let mut page = Page::new();
    page.send(Message::TypedDate("2026-06-21".to_owned()));
    page.send(Message::TypedTime("12:00".to_owned()));
    assert_eq!(page.state.shown.instant.to_string(), "2026-06-21T08:30:00Z");
    let before = page.state.shown.clone();
    let dirty = page.send(Message::TypedDate("1650-01-01".to_owned()));
    assert_eq!(page.state.shown, before);
    assert!(dirty.has(Dirty::NOTICES) && dirty.has(Dirty::TEXT));
    let told = page.notices().join(" ");
    assert!(told.contains("“1650-01-01”") && told.contains("1700"), "{told}");
    page.send(Message::Dismiss);
    assert!(page.notices().is_empty());
}

#[test]
fn a_bad_address_is_told_and_the_rest_of_it_is_taken() {
    let mut page = Page::new();
    page.send(Message::Theme(Theme::Glare));
    page.send(Message::Address("#i=great&theme=pink&t=1650-01-01T00:00:00Z".to_owned()));
    assert_eq!(page.state.shown.instrument, Choice::BuiltIn(&PRESETS[1]));
    assert_eq!(page.state.shown.theme, Theme::Glare);
    assert_eq!(page.notices().len(), 1);
    assert!(page.notices()[0].contains("“pink”"), "{:?}", page.notices());
}

#[test]
fn play_ends_where_the_years_end() {
    let mut page = Page::new();
    page.send(Message::Address("t=2200-12-31T23:59:50Z".to_owned()));
    page.send(Message::PlayPause);
    page.wait(1.0);
    assert!(!page.state.playing);
    assert_eq!(page.notices().len(), 1);
    for by in [Move::Steps(1), Move::Leaps(1), Move::Last] {
        page.send(Message::Year(by));
        page.send(Message::Day(by));
    }
}

#[test]
fn the_rod_starts_at_the_edge_and_the_last_trace_reads_too_much() {
    let mut page = Page::new();
    page.send(Message::Rod(true));
    let Some(middle) = page.state.shown.rod else { panic!("no rod") };
    page.send(Message::RodAt(Criterion::LastTrace));
    let Some(last) = page.state.shown.rod else { panic!("no rod") };
    assert!((last.axial_m - middle.axial_m).abs() > 0.02, "{middle:?} {last:?}");
    page.send(Message::RodTo(Move::Last));
    page.send(Message::RodTo(Move::Steps(5)));
    let shown = page.state.shown.clone();
    let Some(end) = shown.rod else { panic!("no rod") };
    assert!(end.pointer(page.workings.instrument()).is_ok(), "{end:?} is off the style");
    page.send(Message::Rod(false));
    assert_eq!(page.state.shown.rod, None);
}

#[test]
fn what_the_eye_sees_moves_the_last_trace() {
    let mut page = Page::new();
    page.send(Message::Rod(true));
    let Some(middle) = page.state.shown.rod else { panic!("no rod") };
    let mut trace = |per_cent: f64| {
        page.send(Message::LeastCover(Move::To(per_cent)));
        page.send(Message::RodAt(Criterion::LastTrace));
        page.state.shown.rod.map_or(0.0, |rod| (rod.axial_m - middle.axial_m).abs())
    };
    let (all, some, little) = (trace(0.0), trace(5.0), trace(30.0));
    // Half the Sun's breadth on 2.9 m and half a finger: 13.5 mm and 9 mm, more aslant.
    assert!((0.022..0.024).contains(&all), "{all}");
    assert!(all - some > 0.002 && some - little > 0.003, "{all} {some} {little}");
    page.send(Message::Settle);
    page.send(Message::LeastCover(Move::Leaps(9)));
    assert_eq!(page.state.shown.least_cover, 0.3);
    // A reed hides too little of the Sun for such an eye: there is no trace to see.
    page.send(Message::RodThickness(0.003));
    let before = page.state.shown.rod;
    page.send(Message::RodAt(Criterion::LastTrace));
    assert_eq!(page.state.shown.rod, before);
    let Some(rod) = before else { panic!("no rod") };
    let panel = super::rod_panel::panel(&page.words, &page.workings, &rod, 0.3);
    assert!(panel.sentence.contains("sees nothing of it"), "{}", panel.sentence);
    assert!(panel.reaches && !panel.has_trace);
}

#[test]
fn the_rod_is_read_at_the_edge_its_shadow_is_nearest_to() {
    let mut page = Page::new();
    page.send(Message::Rod(true));
    let sun_rad = page.workings.moment().on_dial.declination_rad;
    for edge in AxialEnd::BOTH {
        let place_m = graduation_m(page.workings.instrument(), edge, sun_rad);
        page.send(Message::RodTo(Move::To((place_m - edge.sign() * 0.05) * 1000.0)));
        page.send(Message::RodAt(Criterion::Middle));
        let Some(rod) = page.state.shown.rod else { panic!("no rod") };
        let panel = super::rod_panel::panel(&page.words, &page.workings, &rod, 0.03);
        let name = if edge == AxialEnd::North { "north edge" } else { "south edge" };
        assert_eq!(panel.scale, format!("Nearest 10′ mark, {name}"));
        assert!(panel.bias.starts_with("+0° 0") || panel.bias.starts_with("−0° 0"), "{panel:?}");
        assert!(panel.sentence.contains(name), "{}", panel.sentence);
    }
}

#[test]
fn a_rod_in_an_address_is_held_on_the_style() {
    let mut page = Page::new();
    page.send(Message::Address("rod=900&rod-mm=3".to_owned()));
    let Some(rod) = page.state.shown.rod else { panic!("no rod") };
    assert!(rod.pointer(page.workings.instrument()).is_ok());
}

#[test]
fn the_court_goes_on_turning_after_a_throw_until_it_stands_or_is_touched() {
    let mut page = Page::new();
    let turned = |page: &Page| page.state.shown.view.turn_rad.x;
    page.send(Message::Orbit(DVec2::new(0.1, 0.0)));
    page.send(Message::Coast(DVec2::new(1.0, 0.0)));
    assert!(page.state.is_moving());
    page.wait(0.2);
    let under_way = turned(&page);
    assert!(under_way > 0.2, "{under_way}");
    page.send(Message::Coast(DVec2::ZERO));
    assert!(!page.state.is_moving());
    page.wait(0.2);
    assert_eq!(turned(&page), under_way);

    page.send(Message::Coast(DVec2::new(-1.0, 0.0)));
    page.wait(3.0);
    assert!(!page.state.is_moving() && turned(&page) < under_way - 0.2);
    // The throw belongs to the drag: one step leads back before both.
    page.send(Message::Undo);
    assert_eq!(turned(&page), 0.0);

    page.send(Message::ReduceMotion(true));
    page.send(Message::Coast(DVec2::new(1.0, 0.0)));
    assert!(!page.state.is_moving());
}

#[test]
fn a_standpoint_is_walked_to_and_a_hand_ends_the_walk() {
    let mut page = Page::new();
    let pole = Standpoint::ALL[2];
    let start = page.state.camera(&page.workings);
    page.send(Message::Standpoint(pole));
    assert_eq!(page.state.camera(&page.workings), start);
    page.wait(0.3);
    let half = page.state.camera(&page.workings);
    page.wait(0.4);
    let there = page.state.camera(&page.workings);
    assert!(half != start && half != there && !page.state.is_moving());
    page.send(Message::Standpoint(Standpoint::ALL[0]));
    page.send(Message::Orbit(DVec2::new(0.2, 0.1)));
    assert!(!page.state.is_moving());
}

#[test]
fn beside_the_edge_the_camera_steps_after_the_shadow_and_then_holds_still() {
    let mut page = Page::new();
    page.send(Message::Standpoint(Standpoint::BesideEdge));
    page.wait(1.0);
    let from = page.state.camera(&page.workings);
    // By the clock; the dial goes from 9:52 to 9:55, and past ten.
    assert!(!page.send(Message::TypedTime("9:57".to_owned())).has(Dirty::LAND));
    page.wait(1.0);
    assert_eq!(page.state.camera(&page.workings), from);
    page.send(Message::TypedTime("10:12".to_owned()));
    page.wait(0.3);
    let between = page.state.camera(&page.workings);
    assert!(between != from && page.state.is_moving());
    page.wait(1.0);
    assert!(page.state.camera(&page.workings) != between && !page.state.is_moving());

    page.send(Message::ReduceMotion(true));
    let from = page.state.camera(&page.workings);
    page.send(Message::TypedTime("11:10".to_owned()));
    assert!(page.state.camera(&page.workings) != from && !page.state.is_moving());
}

#[test]
fn what_is_shown_survives_its_address() {
    let mut page = Page::new();
    page.send(Message::Instrument(Choice::BuiltIn(&PRESETS[3])));
    page.send(Message::Refraction(false));
    page.send(Message::Orbit(DVec2::new(0.2, 0.1)));
    page.send(Message::Zoom(2.0, DVec2::new(0.1, 0.2)));
    page.send(Message::Lens(Move::To(40_000.0)));
    page.send(Message::Rod(true));
    let text = super::address::write(&page.state.shown);
    let read = super::address::read(&text, &Shown::first());
    assert!(read.refused.is_empty(), "{:?}", read.refused);
    assert_eq!(super::address::write(&read.shown), text);
    assert_eq!(read.shown.instant, page.state.shown.instant);
}

#[test]
fn nothing_is_drawn_again_without_need() {
    let mut page = Page::new();
    assert!(page.send(Message::Settle).is_nothing());
    assert!(page.send(Message::Tick(0.016, Instant::FIRST)).is_nothing());
    let lens = page.send(Message::Lens(Move::To(40_000.0)));
    assert!(lens.has(Dirty::LENS) && !lens.has(Dirty::COURT | Dirty::MOMENT));
    let limits = page.send(Message::Limits(true));
    assert!(limits.has(Dirty::LENS) && !limits.has(Dirty::COURT | Dirty::MOMENT | Dirty::DAY));
    let turned = page.send(Message::Orbit(DVec2::new(0.1, 0.0)));
    assert!(turned.has(Dirty::COURT) && !turned.has(Dirty::LENS | Dirty::DAY | Dirty::MOMENT));
}

#[test]
fn a_guide_fades_in_and_undo_takes_it_away() {
    let mut page = Page::new();
    let dirty = page.send(Message::Guide(Guide::Paths, true));
    assert!(dirty.has(Dirty::CONTROLS) && dirty.has(Dirty::ADDRESS));
    assert!(page.state.is_moving() && page.state.guides().are_none());
    page.wait(0.2);
    let strength = page.state.guides().of(Guide::Paths);
    assert!(0.1 < strength && strength < 0.9, "{strength}");
    page.wait(0.3);
    assert_eq!(page.state.guides().of(Guide::Paths), 1.0);
    assert!(!page.state.is_moving());
    let dirty = page.send(Message::Undo);
    assert!(dirty.has(Dirty::COURT) && page.state.guides().are_none());

    page.send(Message::ReduceMotion(true));
    page.send(Message::Guide(Guide::Axis, true));
    assert_eq!(page.state.guides().of(Guide::Axis), 1.0);
    assert!(!page.state.is_moving());
}
