//! The table of a year against the search of single days, and against outside references.

#![cfg(not(target_arch = "wasm32"))]

mod common;

use chrono::{Datelike, NaiveDate};
use common::angles::arcseconds_between;
use common::dial::dial;
use common::table;
use common::worst::Worst;
use noonwedge::core::almanac::{Daylight, day_events};
use noonwedge::core::day::clock_offset;
use noonwedge::core::instrument::{Instrument, SummerTime};
use noonwedge::core::sky::SunTrack;
use noonwedge::core::time::{EarthTime, Instant, TimeScale};
use noonwedge::core::year_table::YearTable;

/// The promise of the table, against the search that misses nothing.
const EVENT_S: f64 = 0.1;

fn year(instrument: &Instrument, year: i32) -> YearTable {
    YearTable::compute(instrument, year, &mut SunTrack::new())
        .unwrap_or_else(|error| panic!("{year}: {error}"))
}

/// Compares every day of a year with the search of single days.
fn compare(instrument: &Instrument, of_year: i32, worst: &mut [Worst; 3]) {
    let mut track = SunTrack::new();
    for day in year(instrument, of_year).days {
        let place = || format!("{}°, {}", instrument.spec().latitude_deg, day.date);
        let offset = clock_offset(instrument, day.date);
        let scale = TimeScale::Civil;
        let single = day_events(&mut track, instrument.site(), day.date, offset, scale)
            .unwrap_or_else(|error| panic!("{}: {error}", place()));
        assert_eq!(day.daylight, single.daylight, "{}", place());
        let pairs = [
            (day.rise, single.rise),
            (single.transit.and(Some(day.noon)), single.transit),
            (day.set, single.set),
        ];
        for (worst, (ours, theirs)) in worst.iter_mut().zip(pairs) {
            match (ours, theirs) {
                (Some(ours), Some(theirs)) => worst.see(ours.seconds_since(theirs), place),
                (None, None) => {}
                _ => panic!("{}: {ours:?} and {theirs:?}", place()),
            }
        }
    }
}

fn three() -> [Worst; 3] {
    [Worst::of("rise", "s"), Worst::of("noon", "s"), Worst::of("set", "s")]
}

#[test]
fn every_day_is_that_of_the_careful_search_from_the_polar_circles_to_the_equator() {
    let mut worst = three();
    for latitude_deg in [
        -66.56, -66.0, -65.0, -60.0, -45.0, -34.2, -23.44, -8.0, 0.0, 8.2, 23.44, 31.6, 45.0, 55.0,
        60.0, 63.1, 64.5, 65.5, 65.9, 66.3, 66.56,
    ] {
        compare(&dial(latitude_deg, 11.4, 60, SummerTime::LastSundays), 2026, &mut worst);
    }
    worst.iter().for_each(|it| it.must_be_below(EVENT_S));
}

#[test]
fn polar_days_and_nights_and_the_poles_come_out_right() {
    let mut worst = three();
    for latitude_deg in [-90.0, -89.0, -78.0, -68.0, 67.0, 69.0, 72.0, 85.0, 90.0] {
        compare(&dial(latitude_deg, 20.0, 60, SummerTime::Never), 2027, &mut worst);
    }
    worst.iter().for_each(|it| it.must_be_below(EVENT_S));
    let pole = year(&dial(90.0, 0.0, 0, SummerTime::Never), 2026);
    let count = |state| pole.days.iter().filter(|day| day.daylight == state).count();
    assert_eq!(count(Daylight::Crosses), 2);
    assert!(count(Daylight::NeverSets) > 185 && count(Daylight::NeverRises) > 170);
}

#[test]
fn clocks_far_from_the_sun_and_old_and_far_years_come_out_right() {
    let mut worst = three();
    for (longitude_deg, zone_offset_min, of_year) in [
        (-179.0, 840, 2026),
        (179.0, -720, 2026),
        (0.0, 720, 2028),
        (-77.1, 60, 1701),
        (48.35, 210, 2199),
    ] {
        compare(
            &dial(40.0, longitude_deg, zone_offset_min, SummerTime::Never),
            of_year,
            &mut worst,
        );
    }
    worst.iter().for_each(|it| it.must_be_below(EVENT_S));
}

#[test]
fn a_year_has_all_its_days_and_outside_the_years_known_there_is_an_error() {
    let instrument = dial(31.6, 48.35, 210, SummerTime::Never);
    assert_eq!(year(&instrument, 2026).days.len(), 365);
    let leap = year(&instrument, 2028);
    assert_eq!(leap.days.len(), 366);
    let date = NaiveDate::from_ymd_opt(2028, 2, 29).unwrap_or_default();
    assert_eq!(leap.day(date).map(|day| day.date), Some(date));
    assert_eq!(leap.day(NaiveDate::default()), None);
    for outside in [1699, 2201, 100_000] {
        assert!(YearTable::compute(&instrument, outside, &mut SunTrack::new()).is_err());
    }
}

/// Twelve rows of the table of events, spread over places and years: the first of each of them
/// that has a rise, a noon and a set.
#[test]
fn reference_twelve_days_of_the_year_table() {
    let mut events = three();
    let mut declination = Worst::of("declination at noon", "″");
    let mut equation = Worst::of("equation of time at noon", "s");
    let rows = table::open("events.csv");
    let rows: Vec<_> = rows
        .rows()
        .filter(|row| {
            row.text("sunrise_utc").is_some()
                && row.text("sunset_utc").is_some()
                && row.text("transit_utc").is_some()
        })
        .collect();
    for row in rows.iter().step_by(rows.len() / 12).take(12) {
        let offset_min = (row.number("utc_offset_h") * 60.0).round() as i32;
        let instrument =
            dial(row.number("lat_deg"), row.number("lon_deg"), offset_min, SummerTime::Never);
        let date: NaiveDate = row.value("local_date");
        let table = year(&instrument, date.year());
        let Some(day) = table.day(date) else { panic!("{}", row.place()) };
        // UT1 is taken equal to UTC here, and ΔT from a model: the rows know better by so much.
        let noon: Instant = row.value("transit_utc");
        let known_s = row.number("delta_t_s") - EarthTime::from_instant(noon).delta_t_s();
        let columns = ["sunrise_utc", "transit_utc", "sunset_utc"];
        for ((worst, column), ours) in
            events.iter_mut().zip(columns).zip([day.rise, Some(day.noon), day.set])
        {
            let theirs: Instant = row.value(column);
            let off_s = ours.map_or(f64::NAN, |ours| theirs.seconds_since(ours));
            // Only UTC years shift the instant: in the others the instant is UT1 on both sides.
            let expected_s = if row.text("time_scale") == Some("UTC") { known_s } else { 0.0 };
            worst.see(off_s - expected_s, || row.place());
        }
        let off =
            arcseconds_between(day.declination_rad.to_degrees(), row.number("dec_at_transit_deg"));
        declination.see(off, || row.place());
        equation.see(day.equation.total_s() - row.number("equation_of_time_at_transit_s"), || {
            row.place()
        });
    }
    let [rise, noon, set] = events;
    assert_eq!(noon.count(), 12);
    // The table is rounded to 0.1 s, and the grid of the year adds a little to the day's search.
    noon.must_be_below(0.2);
    rise.must_be_below(0.5);
    set.must_be_below(0.5);
    declination.must_be_below(0.2);
    equation.must_be_below(0.01);
}

/// The Sun's declination crosses zero at the equinoxes and turns at the solstices.
#[test]
fn reference_seasons_lie_where_the_year_table_has_them() {
    let instrument = dial(0.0, 0.0, 0, SummerTime::Never);
    for row in table::open("seasons.csv").rows() {
        let instant: Instant = row.value("utc");
        let date = instant.civil().date();
        let table = year(&instrument, date.year());
        let at = |days: i64| {
            let near = date + chrono::TimeDelta::days(days);
            table.day(near).map_or(f64::NAN, |day| day.declination_rad)
        };
        match row.text("event") {
            Some("march_equinox" | "september_equinox") => {
                assert!(at(-1) * at(1) < 0.0, "{}", row.place());
                assert!(at(0).to_degrees().abs() < 0.21, "{}", row.place());
            }
            _ => {
                let turn = at(0).abs();
                assert!(turn > at(-2).abs() && turn > at(2).abs(), "{}", row.place());
                assert!((turn.to_degrees() - 23.44).abs() < 0.03, "{}", row.place());
            }
        }
    }
}

/// What handbooks print of every year, to the precision at which years agree: the extremes of the
/// equation of time and its four zeros, and the amplitudes of its two causes. Common knowledge.
#[test]
fn the_equation_of_time_of_a_year_is_that_of_handbooks() {
    let table = year(&dial(0.0, 0.0, 0, SummerTime::Never), 2026);
    let on = |month, day| {
        let date = NaiveDate::from_ymd_opt(2026, month, day).unwrap_or_default();
        table.day(date).map_or(f64::NAN, |day| day.equation.total_s() / 60.0)
    };
    for (month, day, minutes) in [
        (2, 11, -14.2),
        (5, 14, 3.65),
        (7, 26, -6.55),
        (11, 3, 16.45),
        (4, 15, 0.0),
        (6, 13, 0.0),
        (9, 1, 0.0),
        (12, 25, 0.0),
    ] {
        assert!((on(month, day) - minutes).abs() < 0.3, "{month}-{day}: {}", on(month, day));
    }
    let largest = |part: fn(&noonwedge::core::sky::EquationOfTime) -> f64| {
        table.days.iter().map(|day| part(&day.equation).abs()).fold(0.0, f64::max) / 60.0
    };
    // 2e and tan²(ε/2), each turned to minutes of time: 7.66 and 9.86.
    assert!((largest(|it| it.eccentricity_s) - 7.66).abs() < 0.06);
    assert!((largest(|it| it.obliquity_s) - 9.86).abs() < 0.06);
}

#[test]
fn corrections_follow_the_clock_and_its_summer_time() {
    let table = year(&dial(63.1, 11.4, 60, SummerTime::LastSundays), 2026);
    for day in &table.days {
        let summer = (NaiveDate::from_ymd_opt(2026, 3, 29), NaiveDate::from_ymd_opt(2026, 10, 25));
        let is_summer = summer.0.is_some_and(|from| day.date >= from)
            && summer.1.is_some_and(|to| day.date < to);
        assert_eq!(day.corrections.summer_s, if is_summer { 3600.0 } else { 0.0 }, "{}", day.date);
        // 15° − 11.4° = 3.6° west of the zone's meridian, 4 min a degree.
        let expected_s = 3.6 * 240.0 - day.equation.total_s();
        assert!((day.to_zone_s() - expected_s).abs() < 1e-6, "{}", day.date);
        // Noon by the clock is 12 h and the correction; parallax and aberration are hundredths.
        let midnight = Instant::from_date(day.date).unwrap_or(Instant::FIRST);
        let clock_s = day.noon.seconds_since(midnight) + 3600.0 + day.corrections.summer_s;
        assert!((clock_s - 43_200.0 - day.corrections.total_s()).abs() < 0.05, "{}", day.date);
    }
}
