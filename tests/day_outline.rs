//! The day and its noon at places where something is special.
#![cfg(not(target_arch = "wasm32"))]

use chrono::NaiveDate;
use noonwedge::core::almanac::Daylight;
use noonwedge::core::day::{DayOutline, StretchKind};
use noonwedge::core::instrument::{EndFaces, Instrument, InstrumentSpec, PRESETS, Preset};
use noonwedge::core::moment::{Conditions, Moment};
use noonwedge::core::reading::NoReading;
use noonwedge::core::sky::{Air, SunTrack};
use noonwedge::core::year::YearCurve;
use proptest::prelude::*;

fn with_air() -> Conditions {
    Conditions { air: Some(Air::default()), ..Conditions::default() }
}

fn date(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).unwrap_or_default()
}

fn made(spec: InstrumentSpec) -> Instrument {
    Instrument::new(spec).unwrap_or_else(|error| panic!("{error}"))
}

/// An instrument at any latitude, its style as long as the whole year needs.
fn at_latitude(latitude_deg: f64) -> Instrument {
    made(InstrumentSpec {
        latitude_deg,
        longitude_deg: 10.0,
        zone_offset_min: 60,
        plinth_m: 4.0,
        style_south_m: -2.0,
        style_north_m: 2.0,
        end_faces: EndFaces::Square,
        ..PRESETS[0].spec()
    })
}

fn outline(instrument: &Instrument, date: NaiveDate, conditions: &Conditions) -> DayOutline {
    DayOutline::compute(instrument, date, conditions, &mut SunTrack::new())
        .unwrap_or_else(|error| panic!("{error}"))
}

fn kinds(day: &DayOutline) -> Vec<StretchKind> {
    day.stretches.iter().map(|stretch| stretch.kind).collect()
}

#[test]
fn near_an_equinox_the_quadrants_read_from_sunrise_to_sunset() {
    let day = outline(&at_latitude(31.6), date(2026, 10, 18), &with_air());
    assert_eq!(kinds(&day), [StretchKind::West, StretchKind::Blind, StretchKind::East]);
    // The air's curve runs as long, and shifts most at its ends.
    let (Some(first), Some(last)) = (day.errors.first(), day.errors.last()) else {
        panic!("a curve")
    };
    assert!((first.0 - day.stretches[0].from_s).abs() < 1.0);
    assert!((last.0 - day.stretches[2].to_s).abs() < 1.0);
    let middle = day.errors[day.errors.len() / 2].1;
    assert!(first.1.abs() > 100.0 && last.1.abs() > 100.0 && middle.abs() < 1.0);
}

#[test]
fn in_summer_the_sun_is_first_beyond_the_quadrants_end() {
    use StretchKind::{BeyondEnd, Blind, East, West};
    let day = outline(&at_latitude(31.6), date(2026, 6, 21), &Conditions::default());
    assert_eq!(kinds(&day), [BeyondEnd, West, Blind, East, BeyondEnd]);
    // The quadrant ends six hours from noon.
    assert!((day.stretches[1].from_s - 6.0 * 3600.0).abs() < 0.1);
    assert!((day.stretches[4].from_s - 18.0 * 3600.0).abs() < 0.1);
}

#[test]
fn in_the_polar_day_the_sun_only_leaves_the_quadrants_at_six() {
    use StretchKind::{BeyondEnd, Blind, East, West};
    for latitude_deg in [80.0, 90.0] {
        let day = outline(&at_latitude(latitude_deg), date(2026, 6, 21), &with_air());
        assert_eq!(day.events.daylight, Daylight::NeverSets);
        assert_eq!(kinds(&day), [BeyondEnd, West, Blind, East, BeyondEnd], "{latitude_deg}");
        let lit_s: f64 = day.stretches.iter().map(|stretch| stretch.to_s - stretch.from_s).sum();
        assert!((lit_s - 86_400.0).abs() < 60.0, "{lit_s}");
    }
    let south = outline(&at_latitude(-90.0), date(2026, 12, 21), &with_air());
    assert_eq!(kinds(&south), [BeyondEnd, West, Blind, East, BeyondEnd]);
}

#[test]
fn in_the_polar_night_nothing_reads() {
    let day = outline(&at_latitude(80.0), date(2026, 12, 21), &with_air());
    assert_eq!(day.events.daylight, Daylight::NeverRises);
    assert!(day.stretches.is_empty());
    assert!(day.noon.is_some(), "the meridian is crossed all the same");
}

#[test]
fn a_short_style_cannot_be_read_in_the_season_it_does_not_reach() {
    // Midwinter needs 0.4336 R − b/2 = 0.88 m of style to the south; this one has 0.5 m.
    let short = made(InstrumentSpec { style_south_m: -0.5, ..at_latitude(31.6).spec().clone() });
    let winter = outline(&short, date(2026, 12, 21), &with_air());
    assert_eq!(kinds(&winter), [StretchKind::StyleTooShort]);
    let summer = outline(&short, date(2026, 6, 21), &with_air());
    assert!(kinds(&summer).contains(&StretchKind::West));
    let Some(noon) = winter.noon else { panic!("within the years computed") };
    let reading = Moment::compute(&short, noon.meridian, &with_air(), &mut SunTrack::new()).reading;
    let Err(NoReading::StyleTooShort { missing_m, .. }) = reading else { panic!("{reading:?}") };
    let needed_m = 2.9 * 23.4365_f64.to_radians().tan() - 0.375;
    assert!((missing_m - (needed_m - 0.5)).abs() < 0.002, "{missing_m}");
}

#[test]
fn noon_comes_on_both_sides_of_the_zenith_in_the_tropics() {
    let Some(preset) = Preset::by_key("shoreline") else { panic!("a preset") };
    let Ok(instrument) = preset.instrument() else { panic!("a preset") };
    for (month, day) in [(4, 12), (6, 21), (8, 30), (12, 21)] {
        let day = outline(&instrument, date(2026, month, day), &with_air());
        let Some(noon) = day.noon else { panic!("within the years computed") };
        // 60 s divisions: blind for a minute.
        assert!((noon.blind_s() - 60.0).abs() < 0.1, "{}", noon.blind_s());
    }
}

#[test]
fn refraction_makes_the_dial_fast_in_the_morning_and_slow_in_the_evening() {
    let day = outline(&at_latitude(31.6), date(2026, 10, 18), &with_air());
    let (Some(first), Some(last)) = (day.errors.first(), day.errors.last()) else {
        panic!("the Sun is up for part of the day")
    };
    // At sunrise half a degree along a slanting path: minutes, not seconds.
    assert!((60.0..300.0).contains(&first.1), "{first:?}");
    assert!((-300.0..-60.0).contains(&last.1), "{last:?}");
}

#[test]
fn the_years_declination_turns_at_its_seasons() {
    let curve = YearCurve::compute(2026, &mut SunTrack::new());
    let Ok(curve) = curve else { panic!("{curve:?}") };
    assert_eq!(curve.days.len(), 365);
    let turn = |season: usize| curve.seasons[season].instant.civil().date();
    let most = curve.days.iter().max_by(|a, b| a.1.total_cmp(&b.1));
    let least = curve.days.iter().min_by(|a, b| a.1.total_cmp(&b.1));
    assert_eq!(most.map(|day| day.0), Some(turn(1)));
    assert_eq!(least.map(|day| day.0), Some(turn(3)));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn stretches_follow_one_another(
        latitude_deg in -90.0..=90.0_f64,
        year in 1700..=2200_i32,
        day_of_year in 2..364_u32,
        air in any::<bool>(),
    ) {
        let instrument = at_latitude(latitude_deg);
        let conditions = Conditions { air: air.then(Air::default), ..Conditions::default() };
        let date = NaiveDate::from_yo_opt(year, day_of_year).unwrap_or_default();
        let day = outline(&instrument, date, &conditions);
        for stretch in &day.stretches {
            prop_assert!(stretch.from < stretch.to && stretch.from_s < stretch.to_s);
            prop_assert!((-60.0..86_460.0).contains(&stretch.from_s));
            let middle = stretch.from.plus_seconds(stretch.to.seconds_since(stretch.from) / 2.0);
            prop_assert_eq!(middle.ok().and_then(|i| day.stretch_at(i)), Some(stretch));
        }
        for pair in day.stretches.windows(2) {
            // Changes are found to a few hundredths of a second.
            prop_assert!(pair[1].from >= pair[0].to && pair[0].kind != pair[1].kind
                || pair[1].from.seconds_since(pair[0].to) > 60.0);
        }
        let blind = day.stretches.iter().filter(|s| s.kind == StretchKind::Blind).count();
        prop_assert!(blind <= 1);
        if let (Some(noon), 1) = (&day.noon, blind) {
            let stretch = day.stretches.iter().find(|s| s.kind == StretchKind::Blind);
            let off = stretch.map(|s| s.from.seconds_since(noon.blind.0)).unwrap_or_default();
            prop_assert!(off.abs() < 0.05, "{off}");
        }
    }
}
