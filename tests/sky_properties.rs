//! What must hold of the Sun at any instant in range and any valid site.

#![cfg(not(target_arch = "wasm32"))]

mod common;

use common::worst::Worst;
use glam::DVec3;
use noonwedge::core::almanac::{day_events, instant_at_hour_angle, seasons};
use noonwedge::core::sky::{
    Air, ApparentSun, Direction, Site, SunAtSite, SunTrack, apparent_sun, refraction_rad,
    sun_at_site,
};
use noonwedge::core::time::{CivilOffset, EarthTime, Instant, TimeScale};
use proptest::prelude::*;
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// Of unit vectors and angles that are the same in exact arithmetic.
const ROUNDING: f64 = 1e-12;

const ARCSECOND_RAD: f64 = PI / 648_000.0;

fn instants() -> impl Strategy<Value = Instant> {
    (Instant::FIRST.unix_ms()..=Instant::LAST.unix_ms()).prop_map(Instant::from_unix_ms_saturating)
}

/// Sites everywhere, the poles, the equator and the date line more often than chance has it.
fn sites() -> impl Strategy<Value = Site> {
    let latitude = prop_oneof![
        4 => -90.0..=90.0,
        1 => prop::sample::select(vec![-90.0, 0.0, 90.0, -89.999_999, 66.56]),
    ];
    let longitude = prop_oneof![
        4 => -180.0..=180.0,
        1 => prop::sample::select(vec![-180.0, 0.0, 180.0]),
    ];
    (latitude, longitude, -500.0..=9000.0).prop_filter_map("a site", |(lat, lon, elevation)| {
        Site::from_degrees(lat, lon, elevation).ok()
    })
}

fn airs() -> impl Strategy<Value = Air> {
    (0.0..=1100.0, -90.0..=60.0).prop_filter_map("air", |(p, t)| Air::new(p, t).ok())
}

fn sun(instant: Instant, site: &Site, air: Option<&Air>) -> SunAtSite {
    sun_at_site(&apparent_sun(&EarthTime::from_instant(instant)), site, air)
}

fn assert_consistent(direction: &Direction, site: &Site) -> Result<(), TestCaseError> {
    let Direction { vector, hour_angle_rad, declination_rad, azimuth_rad, altitude_rad } =
        *direction;
    prop_assert!(vector.is_finite() && vector.is_normalized());
    prop_assert!(hour_angle_rad > -PI && hour_angle_rad <= PI);
    prop_assert!((0.0..TAU).contains(&azimuth_rad));
    prop_assert!(declination_rad.abs() <= FRAC_PI_2 && altitude_rad.abs() <= FRAC_PI_2);
    let by_hour_angle = Direction::from_hour_angle(hour_angle_rad, declination_rad, site);
    let by_azimuth = Direction::from_azimuth(azimuth_rad, altitude_rad, site);
    prop_assert!((by_hour_angle.vector - vector).length() < ROUNDING);
    prop_assert!((by_azimuth.vector - vector).length() < ROUNDING);
    Ok(())
}

proptest! {
    #[test]
    fn every_sun_is_finite_and_its_descriptions_agree(
        instant in instants(), site in sites(), air in airs(),
    ) {
        let sun = sun(instant, &site, Some(&air));
        assert_consistent(&sun.airless, &site)?;
        assert_consistent(&sun.seen, &site)?;
        prop_assert!(sun.seen.altitude_rad >= sun.airless.altitude_rad - ROUNDING);
        prop_assert!((0.0..TAU).contains(&sun.sun.right_ascension_rad));
        prop_assert!((0.0..TAU).contains(&sun.sun.sidereal_time_rad));
        prop_assert!(sun.sun.declination_rad.abs() < 23.6_f64.to_radians());
        prop_assert!((0.98..1.02).contains(&sun.sun.distance_au));
        prop_assert!(sun.sun.equation_of_time_s.abs() < 1100.0);
        prop_assert!((sun.semidiameter_rad / sun.sun.semidiameter_rad - 1.0).abs() < 1e-4);
    }

    #[test]
    fn a_direction_is_that_of_the_dial_axes(
        hour_angle_rad in -PI..=PI, declination_rad in -FRAC_PI_2..=FRAC_PI_2, site in sites(),
    ) {
        let (sin, cos) = site.latitude_rad().sin_cos();
        let (m, p) = (DVec3::new(0.0, -sin, cos), DVec3::new(0.0, cos, sin));
        let (sin_h, cos_h) = hour_angle_rad.sin_cos();
        let (sin_d, cos_d) = declination_rad.sin_cos();
        let expected = cos_d * cos_h * m - cos_d * sin_h * DVec3::X + sin_d * p;
        let direction = Direction::from_hour_angle(hour_angle_rad, declination_rad, &site);
        prop_assert!((direction.vector - expected).length() < ROUNDING);
        assert_consistent(&direction, &site)?;
    }

    #[test]
    fn zenith_and_nadir_are_ordinary_directions(site in sites(), air in airs()) {
        for up in [DVec3::Z, -DVec3::Z] {
            assert_consistent(&Direction::from_vector(up, &site), &site)?;
            let refraction = refraction_rad(FRAC_PI_2 * up.z, &air);
            prop_assert!((0.0..1e-6).contains(&refraction));
        }
    }

    #[test]
    fn what_is_seen_rises_with_what_is_there(
        air in airs(), low_deg in -90.0..90.0, step_deg in 1e-4..1.0,
    ) {
        let seen = |deg: f64| deg.to_radians() + refraction_rad(deg.to_radians(), &air);
        let high_deg = f64::min(low_deg + step_deg, 90.0);
        prop_assert!(seen(high_deg) > seen(low_deg));
    }

    #[test]
    fn the_track_gives_what_is_computed(instants in prop::collection::vec(instants(), 1..8)) {
        let mut track = SunTrack::new();
        for instant in instants {
            let time = EarthTime::from_instant(instant);
            prop_assert!(apart_rad(&track.at(&time), &apparent_sun(&time)) < TRACK_RAD);
        }
    }

    #[test]
    fn events_are_in_their_day_and_where_they_say(
        instant in instants(), site in sites(), minutes in -720..=840,
    ) {
        let date = instant.civil().date();
        let Ok(offset) = CivilOffset::from_minutes(minutes) else {
            return Err(TestCaseError::fail("offset"));
        };
        let mut track = SunTrack::new();
        let scale = TimeScale::Civil;
        let Ok(day) = day_events(&mut track, &site, date, offset, scale) else {
            // Only the ends of the range may lie outside it.
            let to_end = instant.seconds_since(Instant::FIRST)
                .min(Instant::LAST.seconds_since(instant));
            prop_assert!(to_end < 86_400.0);
            return Ok(());
        };
        for event in [day.rise, day.transit, day.set].into_iter().flatten() {
            let local = event.civil() + chrono::TimeDelta::minutes(minutes.into());
            prop_assert_eq!(local.date(), date);
        }
        for event in [day.rise, day.set].into_iter().flatten() {
            let altitude_deg = sun(event, &site, None).airless.altitude_rad.to_degrees();
            prop_assert!((altitude_deg + 50.0 / 60.0).abs() < 1e-5, "altitude {}", altitude_deg);
        }
        if let Some(transit) = day.transit {
            let hour_angle_rad = sun(transit, &site, None).airless.hour_angle_rad;
            prop_assert!(hour_angle_rad.abs() < 1e-7, "hour angle {}", hour_angle_rad);
        }
    }

    #[test]
    fn an_hour_angle_is_found_near_the_instant(
        near in instants(), site in sites(), hour_angle_rad in -PI..=PI,
    ) {
        let mut track = SunTrack::new();
        let found =
            instant_at_hour_angle(&mut track, &site, near, hour_angle_rad, TimeScale::Civil);
        let Some(found) = found else {
            return Ok(());
        };
        prop_assert!(found.seconds_since(near).abs() < 43_230.0);
        let off = sun(found, &site, None).airless.hour_angle_rad - hour_angle_rad;
        prop_assert!(off.sin().abs() < 1e-7 && off.cos() > 0.0, "off by {}", off);
    }
}

/// What the documentation of `SunTrack` promises, 0.003″.
const TRACK_RAD: f64 = 0.003 * ARCSECOND_RAD;

/// The larger of the angle between two Suns and the difference of their sidereal times.
fn apart_rad(a: &ApparentSun, b: &ApparentSun) -> f64 {
    let vector = |sun: &ApparentSun| {
        let (sin_a, cos_a) = sun.right_ascension_rad.sin_cos();
        let (sin_d, cos_d) = sun.declination_rad.sin_cos();
        DVec3::new(cos_d * cos_a, cos_d * sin_a, sin_d)
    };
    let sidereal_rad = (a.sidereal_time_rad - b.sidereal_time_rad).sin().abs();
    sidereal_rad.max((vector(a) - vector(b)).length())
}

/// In the stretches next to every seventh border, through all five centuries, and just beside the
/// border.
#[test]
fn the_track_is_close_everywhere() {
    const J2000_JD: f64 = 2_451_545.0;
    const STRETCH_DAYS: f64 = 32.0;
    const FROM_BORDER_DAYS: [f64; 6] = [-20.3, -9.7, -1e-6, 1e-6, 3.1, 13.9];
    let borders = (-3423..2294).step_by(7).map(|i| f64::from(i) * STRETCH_DAYS);
    let mut track = SunTrack::new();
    let mut equation = Worst::of("interpolated equation of time", "s");
    let mut place = Worst::of("interpolated Sun and sidereal time", "rad");
    for days in borders.flat_map(|border| FROM_BORDER_DAYS.map(|d| border + d)) {
        let time = EarthTime::from_ut1(J2000_JD, days, 0.0);
        let (fast, exact) = (track.at(&time), apparent_sun(&time));
        place.see(apart_rad(&fast, &exact), || format!("{days} days"));
        let off = fast.equation_of_time_s - exact.equation_of_time_s;
        equation.see(off, || format!("{days} days"));
    }
    place.must_be_below(TRACK_RAD);
    equation.must_be_below(0.0002);
}

/// Just before and just after lower and upper transit the hour angle is where the frame says.
#[test]
fn the_hour_angle_wraps_at_midnight_only() {
    let site = Site::from_degrees(-33.9, 151.2, 20.0).unwrap_or_else(|e| panic!("{e}"));
    let near: Instant = "2026-09-26T02:00:00Z".parse().unwrap_or_else(|e| panic!("{e}"));
    let mut track = SunTrack::new();
    let mut at = |hour_angle_rad: f64, seconds: f64| {
        instant_at_hour_angle(&mut track, &site, near, hour_angle_rad, TimeScale::Civil)
            .map(|i| sun(i.saturating_plus_seconds(seconds), &site, None).airless.hour_angle_rad)
            .unwrap_or(f64::NAN)
    };
    assert!((-1e-3..0.0).contains(&at(0.0, -1.0)));
    assert!((0.0..1e-3).contains(&at(0.0, 1.0)));
    assert!((PI - 1e-3..=PI).contains(&at(PI, -1.0)));
    assert!((-PI..-PI + 1e-3).contains(&at(PI, 1.0)));
}

#[test]
fn seasons_exist_in_every_year_of_the_range_and_in_no_other() {
    for year in [1700, 1701, 1971, 1972, 2026, 2027, 2199, 2200] {
        let four = seasons(year, TimeScale::Civil).unwrap_or_else(|e| panic!("{year}: {e}"));
        assert!(four.windows(2).all(|pair| pair[0].instant < pair[1].instant));
    }
    for year in [i32::MIN, 1699, 2201, i32::MAX] {
        let error = seasons(year, TimeScale::Civil).err().map(|e| e.to_string());
        let expected = format!("year is {year}; it must be 1700 to 2200");
        assert_eq!(error, Some(expected));
    }
}

#[test]
fn sites_and_air_out_of_range_are_refused_by_name() {
    let site = |lat, lon, elevation| Site::from_degrees(lat, lon, elevation).err().map(|e| e.field);
    assert_eq!(site(90.1, 0.0, 0.0), Some("latitude".into()));
    assert_eq!(site(0.0, f64::NAN, 0.0), Some("longitude".into()));
    assert_eq!(site(0.0, 0.0, 9001.0), Some("elevation".into()));
    assert_eq!(site(-90.0, 180.0, 0.0), None);
    let message = Air::new(1200.0, 10.0).err().map(|e| e.to_string());
    assert_eq!(message.as_deref(), Some("pressure is 1200; it must be 0 hPa to 1100 hPa"));
    assert_eq!(Air::new(0.0, -273.0).err().map(|e| e.field), Some("temperature".into()));
}
