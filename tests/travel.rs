//! A dial at other latitudes: built anew for each, or carried there stone for stone.
#![cfg(not(target_arch = "wasm32"))]

use std::f64::consts::FRAC_PI_2;

use glam::DVec3;
use noonwedge::core::day::{DayOutline, StretchKind};
use noonwedge::core::instrument::{Alignment, EndFaces, Instrument, InstrumentSpec, PRESETS, Side};
use noonwedge::core::moment::{Conditions, Moment};
use noonwedge::core::reading::{NOON_S, NoReading, SECONDS_PER_RADIAN};
use noonwedge::core::shadow::wrapped;
use noonwedge::core::sky::{Air, SunTrack};
use noonwedge::core::time::Instant;

/// Latitudes of every kind, degrees.
const PLACES_DEG: [f64; 13] =
    [-90.0, -66.56, -51.0, -31.6, -23.44, -4.0, 0.0, 8.2, 23.44, 45.0, 66.56, 80.0, 90.0];
/// Rounding of a bisection and of a few products of doubles, seconds.
const ROUNDING_S: f64 = 1e-6;

/// Instants over a year, at all hours.
fn instants() -> impl Iterator<Item = Instant> {
    (0..240).map(|step| {
        let at = Instant::from_unix_ms(1_767_225_600_000 + step * 131_500_000);
        at.unwrap_or_else(|error| panic!("{error}"))
    })
}

fn preset(index: usize) -> Instrument {
    PRESETS[index].instrument().unwrap_or_else(|error| panic!("{error}"))
}

fn carried(instrument: &Instrument, latitude_deg: f64) -> Instrument {
    instrument.carried_to(latitude_deg).unwrap_or_else(|error| panic!("{error}"))
}

/// Where a quadrant meets the plane of the style's edge and the Sun, found by walking up the arc:
/// the angle from the foot, positive up the arc; `None` if the plane passes by it.
fn edge_by_walking(built_rad: f64, to_sun: DVec3, side: Side) -> Option<f64> {
    let (sin, cos) = built_rad.sin_cos();
    let style = DVec3::new(0.0, cos, sin);
    let down = DVec3::new(0.0, sin, -cos);
    let outwards = DVec3::X * side.sign();
    let on_arc = |angle: f64| down * angle.cos() + outwards * angle.sin();
    // Which side of the plane a point of the arc is on.
    let plane = style.cross(to_sun);
    let height = |angle: f64| plane.dot(on_arc(angle));
    let (mut low, mut high) = (0.0, FRAC_PI_2);
    if height(low).signum() == height(high).signum() {
        return None;
    }
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if height(middle).signum() == height(low).signum() {
            low = middle;
        } else {
            high = middle;
        }
    }
    // The shadow falls away from the Sun.
    (on_arc(low).dot(to_sun) < 0.0 || on_arc(low).cross(style).dot(to_sun.cross(style)) < 0.0)
        .then_some(low)
}

/// A direction in the sky of a latitude from hour angle and declination, turned about one axis
/// after the other.
fn turned(hour_angle_rad: f64, declination_rad: f64, latitude_rad: f64) -> DVec3 {
    let from_south = DVec3::new(0.0, -declination_rad.cos(), declination_rad.sin());
    let (sin, cos) = hour_angle_rad.sin_cos();
    // Westwards about the pole, which stands in the zenith here.
    let round = DVec3::new(from_south.y * sin, from_south.y * cos, from_south.z);
    // The pole lowered to the north.
    let (sin, cos) = latitude_rad.sin_cos();
    DVec3::new(round.x, round.y * sin + round.z * cos, round.z * sin - round.y * cos)
}

#[test]
fn a_carried_dial_reads_what_walking_up_its_arc_finds() {
    let mut track = SunTrack::new();
    let conditions = Conditions::default();
    let (mut read, mut behind, mut largest_s) = (0, 0, 0.0_f64);
    for index in [0, 2, 3, 4] {
        let home = preset(index);
        let built_rad = home.site().latitude_rad();
        for latitude_deg in PLACES_DEG {
            let dial = carried(&home, latitude_deg);
            for instant in instants() {
                let moment = Moment::compute(&dial, instant, &conditions, &mut track);
                let sun = &moment.sun.airless;
                let to_sun =
                    turned(sun.hour_angle_rad, sun.declination_rad, latitude_deg.to_radians());
                let side = Side::at_hour_angle(-to_sun.x);
                let walked = edge_by_walking(built_rad, to_sun, side);
                match &moment.reading {
                    Ok(reading) => {
                        read += 1;
                        assert_eq!(reading.edge.side, side);
                        let Some(angle) = walked else { panic!("no edge: {reading:?}") };
                        let walked_s = NOON_S + side.sign() * angle * SECONDS_PER_RADIAN;
                        largest_s = largest_s.max((reading.exact_s - walked_s).abs());
                    }
                    Err(NoReading::BeyondQuadrantEnd { .. }) => {
                        behind += 1;
                        assert_eq!(walked, None, "{latitude_deg}");
                    }
                    Err(_) => {}
                }
            }
        }
    }
    println!("carried: {read} readings off by {largest_s:.1e} s at most, {behind} behind");
    assert!(read > 2000 && behind > 500, "{read} read, {behind} behind");
    assert!(largest_s < ROUNDING_S, "{largest_s}");
}

#[test]
fn carried_nowhere_it_is_the_dial_it_was() {
    let mut track = SunTrack::new();
    let conditions = Conditions { air: Some(Air::default()), ..Conditions::default() };
    for preset in &PRESETS {
        let Ok(home) = preset.instrument() else { panic!("a preset") };
        let same = carried(&home, preset.spec().latitude_deg);
        assert_eq!(same, home);
        assert_eq!(same.off_latitude_rad(), 0.0);
        for instant in instants().step_by(20) {
            let moment = Moment::compute(&same, instant, &conditions, &mut track);
            if let Some(ladder) = moment.ladder {
                assert!(ladder.residual.latitude_s.abs() < ROUNDING_S);
            }
        }
    }
}

#[test]
fn the_error_is_nothing_at_noon_and_turns_about_it() {
    for index in [0, 2, 3] {
        let home = preset(index);
        for latitude_deg in PLACES_DEG {
            let dial = carried(&home, latitude_deg);
            for declination_deg in [-23.4_f64, -10.0, 0.0, 5.0, 23.4] {
                let shown = |hour_angle_rad: f64| {
                    let declination_rad = declination_deg.to_radians();
                    let sun = turned(hour_angle_rad, declination_rad, latitude_deg.to_radians());
                    dial.frame().angles(sun).hour_angle_rad
                };
                let noon = shown(0.0).sin();
                assert!(noon.abs() < 1e-12, "{latitude_deg} {declination_deg}: {noon}");
                for hours in 1..=8 {
                    let angle = f64::from(hours) * 0.25;
                    let sum = wrapped(shown(angle) + shown(-angle));
                    assert!(sum.abs() < 1e-12, "{latitude_deg} {declination_deg}: {sum}");
                }
            }
        }
    }
    // At an equinox the Sun rises due east anywhere, along the line about which the stone leans.
    let dial = carried(&preset(0), 60.0);
    let rise = dial.frame().angles(turned(-FRAC_PI_2, 0.0, 60_f64.to_radians())).hour_angle_rad;
    assert!((rise + FRAC_PI_2).abs() < 1e-12);
}

#[test]
fn the_parts_of_the_residual_add_up_wherever_a_crooked_stone_is_carried() {
    let mut track = SunTrack::new();
    let conditions = Conditions { air: Some(Air::default()), ..Conditions::default() };
    let alignment = Alignment {
        gnomon_azimuth_deg: 0.3,
        gnomon_altitude_deg: -0.2,
        west_zero_deg: 0.05,
        ..Alignment::default()
    };
    let mut read = 0;
    for preset in &PRESETS {
        let crooked =
            Instrument::new(InstrumentSpec { alignment: alignment.clone(), ..preset.spec() });
        let Ok(crooked) = crooked else { panic!("{}", preset.key) };
        for latitude_deg in PLACES_DEG {
            let dial = carried(&crooked, latitude_deg);
            for instant in instants() {
                let moment = Moment::compute(&dial, instant, &conditions, &mut track);
                let Some(ladder) = moment.ladder else { continue };
                read += 1;
                let parts = ladder.residual;
                let sum = parts.division_s
                    + parts.refraction_s
                    + parts.alignment_s
                    + parts.latitude_s
                    + parts.rounding_s
                    + parts.place_s;
                // Instants are whole milliseconds; a day more or less is the same clock time.
                let left = (sum - ladder.residual_s() + 43_200.0).rem_euclid(86_400.0) - 43_200.0;
                assert!(left.abs() < 0.01, "{latitude_deg}: {left} {ladder:?}");
            }
        }
    }
    assert!(read > 3000, "{read} readings");
}

#[test]
fn every_dial_can_be_built_from_pole_to_pole_and_reads_true() {
    let mut track = SunTrack::new();
    let conditions = Conditions::default();
    let mut read = 0;
    for preset in &PRESETS {
        let home = preset.spec();
        assert_eq!(home.built_for(home.latitude_deg).as_ref(), Ok(&home));
        for half_degrees in -180..=180 {
            let latitude_deg = f64::from(half_degrees) / 2.0;
            let spec = home.built_for(latitude_deg);
            let made = spec.clone().and_then(Instrument::new);
            let (Ok(spec), Ok(dial)) = (spec, made) else {
                panic!("{} {latitude_deg}", preset.key)
            };
            assert_eq!(dial.off_latitude_rad(), 0.0);
            assert_eq!(spec.radius_m, home.radius_m);
            let (sin, cos) = latitude_deg.to_radians().sin_cos();
            assert!(dial.frame().p.distance(DVec3::new(0.0, cos, sin)) < 1e-12);
            for instant in instants().step_by(12) {
                let moment = Moment::compute(&dial, instant, &conditions, &mut track);
                let Ok(reading) = &moment.reading else { continue };
                read += 1;
                let true_s = NOON_S + moment.sun.airless.hour_angle_rad * SECONDS_PER_RADIAN;
                assert!((reading.exact_s - true_s).abs() < ROUNDING_S, "{latitude_deg}");
            }
        }
    }
    assert!(read > 8000, "{read} readings");
}

#[test]
fn in_the_other_hemisphere_the_wall_is_mirrored_and_near_the_poles_its_ends_are_square() {
    let home = PRESETS[0].spec();
    let (Ok(south), Ok(steep)) = (home.built_for(-31.6), home.built_for(84.0)) else {
        panic!("they can stand")
    };
    assert_eq!((south.style_south_m, south.style_north_m), (-2.6, 4.95));
    assert_eq!(south.end_faces, EndFaces::Upright);
    assert_eq!(steep.end_faces, EndFaces::Square);
    let refused = home.built_for(90.5).err().map(|refused| refused.to_string());
    assert_eq!(refused.as_deref(), Some("latitude is 90.5°; it must be from -90 to 90°"));
    assert!(preset(0).carried_to(-91.0).is_err());
    assert!(preset(0).carried_to(f64::NAN).is_err());
}

#[test]
fn the_days_curve_is_the_readings_error_and_the_day_is_whole() {
    let mut track = SunTrack::new();
    let conditions = Conditions { air: Some(Air::default()), ..Conditions::default() };
    let date = |text: &str| text.parse().unwrap_or_else(|error| panic!("{text}: {error}"));
    let (mut compared, mut without_noon) = (0, 0);
    for latitude_deg in PLACES_DEG {
        let dial = carried(&preset(0), latitude_deg);
        for day in ["2026-03-20", "2026-06-21", "2026-10-18", "2026-12-21"] {
            let day = DayOutline::compute(&dial, date(day), &conditions, &mut track);
            let Ok(day) = day else { panic!("in range") };
            without_noon += u32::from(day.noon.is_none() && !day.stretches.is_empty());
            if let Some(pass) = day.noon {
                let blind_s = pass.blind_s();
                assert!((0.0..=60.0).contains(&blind_s), "{latitude_deg} {}: {blind_s}", day.date);
            }
            // What is lit from sunrise to sunset is told without a gap, except by night.
            for pair in day.stretches.windows(2) {
                assert!(pair[0].to <= pair[1].from);
            }
            for stretch in &day.stretches {
                if !matches!(stretch.kind, StretchKind::West | StretchKind::East) {
                    continue;
                }
                for (time_s, error_s) in &day.errors {
                    if *time_s <= stretch.from_s + 1.0 || *time_s >= stretch.to_s - 1.0 {
                        continue;
                    }
                    let from = stretch.from.plus_seconds(time_s - stretch.from_s);
                    let Ok(near) = from else { panic!("in range") };
                    let moment = Moment::compute(&dial, near, &conditions, &mut track);
                    let true_s = NOON_S + moment.sun.airless.hour_angle_rad * SECONDS_PER_RADIAN;
                    let Ok(instant) = near.plus_seconds(time_s - true_s) else { panic!("it is") };
                    let moment = Moment::compute(&dial, instant, &conditions, &mut track);
                    let Ok(reading) = moment.reading else { panic!("{time_s} {stretch:?}") };
                    let off = reading.exact_s - time_s - error_s;
                    // Instants are whole milliseconds.
                    assert!(off.abs() < 0.01, "{latitude_deg} {time_s}: {off} of {error_s}");
                    compared += 1;
                }
            }
        }
    }
    assert!(compared > 800 && without_noon > 0, "{compared} compared, {without_noon}");
}
