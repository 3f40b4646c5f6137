//! Days without rise or set, at both polar circles and at the poles.

#![cfg(not(target_arch = "wasm32"))]

use chrono::{Datelike, Days, NaiveDate};
use noonwedge::core::almanac::{DayEvents, Daylight, STANDARD_ALTITUDE_RAD, day_events};
use noonwedge::core::sky::{Site, SunTrack, sun_at_site};
use noonwedge::core::time::{CivilOffset, Instant, TimeScale};

/// A site; the longitude is that of its zone's meridian.
fn site(latitude_deg: f64, longitude_deg: f64) -> Site {
    Site::from_degrees(latitude_deg, longitude_deg, 0.0).unwrap_or_else(|e| panic!("{e}"))
}

fn date(month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, month, day).unwrap_or_else(|| panic!("no {month}-{day}"))
}

fn events(site: &Site, date: NaiveDate) -> DayEvents {
    let mut track = SunTrack::new();
    day_events(&mut track, site, date, CivilOffset::ZERO, TimeScale::Civil)
        .unwrap_or_else(|e| panic!("{e}"))
}

/// The standard altitude adds 50′ to the polar day, and takes as much from the polar night: with a
/// declination of 23°26′ at the solstice the Sun stays up from 65°44′ and down from 67°24′.
#[test]
fn the_polar_circles_are_where_they_should_be() {
    let (june, december) = (date(6, 21), date(12, 21));
    for (latitude_deg, date, expected) in [
        (65.65, june, Daylight::Crosses),
        (65.80, june, Daylight::NeverSets),
        (67.35, december, Daylight::Crosses),
        (67.50, december, Daylight::NeverRises),
        (-65.65, december, Daylight::Crosses),
        (-65.80, december, Daylight::NeverSets),
        (-67.35, june, Daylight::Crosses),
        (-67.50, june, Daylight::NeverRises),
        (90.0, june, Daylight::NeverSets),
        (90.0, december, Daylight::NeverRises),
        (-90.0, june, Daylight::NeverRises),
        (-90.0, december, Daylight::NeverSets),
    ] {
        let day = events(&site(latitude_deg, 0.0), date);
        assert_eq!(day.daylight, expected, "{latitude_deg}° on {date}");
        assert!(day.transit.is_some(), "the Sun culminates all the same");
        let crosses = day.rise.is_some() && day.set.is_some();
        assert_eq!(crosses, expected == Daylight::Crosses, "{latitude_deg}° on {date}");
    }
}

/// At a pole the Sun rises once a year and sets once a year, some days from the equinoxes.
#[test]
fn a_pole_has_one_rise_and_one_set_a_year() {
    for (latitude_deg, rise_month, set_month) in [(90.0, 3, 9), (-90.0, 9, 3)] {
        let site = site(latitude_deg, 0.0);
        let year: Vec<DayEvents> =
            (0..365).map(|day| events(&site, date(1, 1) + Days::new(day))).collect();
        let months = |of: fn(&DayEvents) -> Option<Instant>| -> Vec<u32> {
            year.iter().filter_map(of).map(|i| i.civil().month()).collect()
        };
        assert_eq!(months(|day| day.rise), [rise_month], "{latitude_deg}°");
        assert_eq!(months(|day| day.set), [set_month], "{latitude_deg}°");
    }
}

/// Every fifth day of a year at latitudes where polar day and night come and go, and next to the
/// poles, against the altitude sampled every ten minutes.
#[test]
fn events_are_those_of_the_sampled_altitude() {
    const STEP_S: f64 = 600.0;
    for latitude_deg in [65.75, 67.4, 70.0, 89.5, 89.9, 90.0] {
        for site in [site(latitude_deg, 15.0), site(-latitude_deg, -120.0)] {
            let mut track = SunTrack::new();
            for day in (0..365).step_by(5) {
                let date = date(1, 1) + Days::new(day);
                let found = events(&site, date);
                let midnight = Instant::from_date(date).unwrap_or_else(|e| panic!("{e}"));
                let heights: Vec<f64> = (0..=144)
                    .map(|i| height(&mut track, &site, midnight, f64::from(i) * STEP_S))
                    .collect();
                let place = format!("{}° on {date}", site.latitude_deg());
                check(&heights, STEP_S, midnight, &found, &place);
            }
        }
    }
}

fn height(track: &mut SunTrack, site: &Site, midnight: Instant, seconds: f64) -> f64 {
    let instant = midnight.saturating_plus_seconds(seconds);
    let sun = track.at(&TimeScale::Civil.earth_time(instant));
    sun_at_site(&sun, site, None).airless.altitude_rad - STANDARD_ALTITUDE_RAD
}

/// The first sampled rise and set must be the ones found, except that the samples may miss a pair of
/// events between two of them.
fn check(heights: &[f64], step_s: f64, midnight: Instant, found: &DayEvents, place: &str) {
    let sampled = |rising: bool| {
        heights.windows(2).position(|h| (h[0] < 0.0) == rising && (h[1] >= 0.0) == rising)
    };
    for (event, sampled) in [(found.rise, sampled(true)), (found.set, sampled(false))] {
        let Some(index) = sampled else { continue };
        let Some(event) = event else {
            panic!("{place}: an event in sample {index} was not found");
        };
        let in_steps = event.seconds_since(midnight) / step_s - index as f64;
        assert!(in_steps <= 1.0, "{place}: found {in_steps} steps after sample {index}");
    }
    if found.daylight != Daylight::Crosses {
        let up = found.daylight == Daylight::NeverSets;
        assert!(heights.iter().all(|&h| (h >= 0.0) == up), "{place}");
    }
}
