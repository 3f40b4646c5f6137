//! Rise, transit, set and the seasons against tables of JPL DE421; see `tests/reference/README.md`.

#![cfg(not(target_arch = "wasm32"))]

mod common;

use chrono::NaiveDate;
use common::angles::arcseconds_between;
use common::table::{self, Row};
use common::worst::Worst;
use noonwedge::core::almanac::{DayEvents, Daylight, SeasonKind, day_events, seasons};
use noonwedge::core::sky::{Site, SunTrack, sun_at_site};
use noonwedge::core::time::{CivilOffset, Instant, TimeScale};

/// Of the transit: the rounding of the table, 0.05 s, and 0.0009 s of the equation of time leave a
/// factor of four.
const TRANSIT_S: f64 = 0.2;

/// Of rise and set: the Sun's altitude changes slowly at high latitudes, where 0.015″ of declination
/// take longest, and the table is rounded to 0.1 s.
const HORIZON_S: f64 = 0.5;

/// Of the seasons: 0.05″ of longitude, at 0.041″ a second, and the rounding of the table.
const SEASON_S: f64 = 2.0;

/// Of positions, as for the Sun itself; the moment of the transit is rounded to 0.05 s.
const POSITION_ARCSEC: f64 = 0.05;

/// Of the equation of time, as for the Sun itself.
const EQUATION_OF_TIME_S: f64 = 0.005;

/// The time scale of a row: by date, with the ΔT that it states.
fn scale(row: &Row<'_>) -> TimeScale {
    row.optional("delta_t_s")
        .map_or(TimeScale::Civil, |delta_t_s| TimeScale::KnownDeltaT { delta_t_s })
}

fn site(row: &Row<'_>) -> Site {
    Site::from_degrees(row.number("lat_deg"), row.number("lon_deg"), 0.0)
        .unwrap_or_else(|error| panic!("{}: {error}", row.place()))
}

/// The civil day of a row.
fn day(row: &Row<'_>) -> (NaiveDate, CivilOffset) {
    let minutes = row.number("utc_offset_h") * 60.0;
    let offset = CivilOffset::from_minutes(minutes.round() as i32)
        .unwrap_or_else(|error| panic!("{}: {error}", row.place()));
    (row.value("local_date"), offset)
}

fn events(row: &Row<'_>, track: &mut SunTrack) -> DayEvents {
    let (date, offset) = day(row);
    day_events(track, &site(row), date, offset, scale(row))
        .unwrap_or_else(|error| panic!("{}: {error}", row.place()))
}

/// Compares an event that one side may not have: then the other may have it only so near to the
/// edge of the day that the tolerance decides.
fn see_event(worst: &mut Worst, row: &Row<'_>, column: &str, ours: Option<Instant>) {
    match (ours, row.optional::<Instant>(column)) {
        (None, None) => {}
        (Some(ours), Some(theirs)) => worst.see(ours.seconds_since(theirs), || row.place()),
        (Some(only), None) | (None, Some(only)) => worst.see(seconds_to_edge(row, only), || {
            format!("{} ({column} on one side only)", row.place())
        }),
    }
}

/// Seconds from an instant to the nearer end of the row's civil day.
fn seconds_to_edge(row: &Row<'_>, instant: Instant) -> f64 {
    let (date, offset) = day(row);
    let midnight = Instant::from_date(date)
        .unwrap_or_else(|error| panic!("{}: {error}", row.place()))
        .saturating_plus_seconds(-offset.seconds());
    let seconds = instant.seconds_since(midnight);
    seconds.abs().min((86_400.0 - seconds).abs())
}

#[test]
fn reference_rise_transit_and_set() {
    let mut rise = Worst::of("rise", "s");
    let mut transit = Worst::of("transit", "s");
    let mut set = Worst::of("set", "s");
    let mut track = SunTrack::new();
    for row in table::open("events.csv").rows() {
        let ours = events(&row, &mut track);
        see_event(&mut rise, &row, "sunrise_utc", ours.rise);
        see_event(&mut transit, &row, "transit_utc", ours.transit);
        see_event(&mut set, &row, "sunset_utc", ours.set);
    }
    rise.must_be_below(HORIZON_S);
    transit.must_be_below(TRANSIT_S);
    set.must_be_below(HORIZON_S);
}

#[test]
fn reference_days_without_rise_and_set() {
    let mut track = SunTrack::new();
    for row in table::open("events.csv").rows() {
        let expected = match row.text("state") {
            Some("always_up") => Daylight::NeverSets,
            Some("always_down") => Daylight::NeverRises,
            Some(other) => panic!("{}: unknown state {other}", row.place()),
            None => Daylight::Crosses,
        };
        assert_eq!(events(&row, &mut track).daylight, expected, "{}", row.place());
    }
}

#[test]
fn reference_sun_at_transit() {
    let mut declination = Worst::of("declination at transit", "″");
    let mut topocentric = Worst::of("topocentric declination at transit", "″");
    let mut altitude = Worst::of("altitude at transit", "″");
    let mut equation = Worst::of("equation of time at transit", "s");
    let mut track = SunTrack::new();
    for row in table::open("events.csv").rows() {
        let Some(transit) = row.optional("transit_utc") else {
            continue;
        };
        let sun = track.at(&scale(&row).earth_time(transit));
        let at_site = sun_at_site(&sun, &site(&row), None).airless;
        let place = || row.place();
        let off =
            |value_rad: f64, column| arcseconds_between(value_rad.to_degrees(), row.number(column));
        declination.see(off(sun.declination_rad, "dec_at_transit_deg"), place);
        topocentric.see(off(at_site.declination_rad, "dec_topocentric_at_transit_deg"), place);
        altitude.see(off(at_site.altitude_rad, "altitude_at_transit_deg"), place);
        equation.see(sun.equation_of_time_s - row.number("equation_of_time_at_transit_s"), place);
    }
    for worst in [declination, topocentric, altitude] {
        worst.must_be_below(POSITION_ARCSEC);
    }
    equation.must_be_below(EQUATION_OF_TIME_S);
}

#[test]
fn reference_seasons() {
    let mut instant = Worst::of("season, instant", "s");
    let mut terrestrial = Worst::of("season, TT", "s");
    for row in table::open("seasons.csv").rows() {
        let kind = match row.text("event") {
            Some("march_equinox") => SeasonKind::MarchEquinox,
            Some("june_solstice") => SeasonKind::JuneSolstice,
            Some("september_equinox") => SeasonKind::SeptemberEquinox,
            Some("december_solstice") => SeasonKind::DecemberSolstice,
            other => panic!("{}: unknown event {other:?}", row.place()),
        };
        let year = seasons(row.value("year"), scale(&row))
            .unwrap_or_else(|error| panic!("{}: {error}", row.place()));
        let season = year[kind as usize];
        assert_eq!(season.kind, kind, "the seasons come in the order of the year");
        instant.see(season.instant.seconds_since(row.value("utc")), || row.place());
        let (whole, fraction) = row.two_parts("jd_tt");
        let days = (season.jd_tt.0 - whole) + (season.jd_tt.1 - fraction);
        terrestrial.see(days * 86_400.0, || row.place());
    }
    instant.must_be_below(SEASON_S);
    terrestrial.must_be_below(SEASON_S);
}
