//! Every figure of the day card at twenty places and dates, against tables and the core.

#![cfg(not(target_arch = "wasm32"))]

mod common;

use chrono::NaiveDate;
use common::angles::arcseconds_between;
use common::dial::dial;
use common::table::{self, Row};
use common::worst::Worst;
use noonwedge::core::almanac::Daylight;
use noonwedge::core::day::{DayOutline, clock_offset};
use noonwedge::core::day_card::{DayCard, READABLE_HEIGHT_M};
use noonwedge::core::instrument::{AxialEnd, Instrument, PRESETS, Side, SummerTime};
use noonwedge::core::ladder::clock_of;
use noonwedge::core::moment::{Conditions, Moment};
use noonwedge::core::pointer::scale_at;
use noonwedge::core::shadow::{axial_shadow_m, surface_point};
use noonwedge::core::sky::{SunTrack, apparent_sun};
use noonwedge::core::time::{EarthTime, Instant};

/// Places and dates taken from the table: every third row.
const PLACES: usize = 20;

/// A place and a date with its card.
struct Case {
    name: String,
    instrument: Instrument,
    card: DayCard,
    conditions: Conditions,
    track: SunTrack,
}

fn case(instrument: Instrument, date: NaiveDate, air: bool, name: String) -> Case {
    let mut track = SunTrack::new();
    let conditions = Conditions { air: air.then(Default::default), ..Conditions::default() };
    let outline = DayOutline::compute(&instrument, date, &conditions, &mut track);
    let outline = outline.unwrap_or_else(|error| panic!("{name}: {error}"));
    let card = DayCard::compute(&instrument, &outline, &conditions, 1, &mut track);
    let card = card.unwrap_or_else(|| panic!("{name}: no card"));
    Case { name, instrument, card, conditions, track }
}

/// The case of a row of the table of events.
fn of_row(row: &Row<'_>, air: bool) -> Case {
    let offset_min = (row.number("utc_offset_h") * 60.0).round() as i32;
    let place = (row.number("lat_deg"), row.number("lon_deg"));
    let instrument = dial(place.0, place.1, offset_min, SummerTime::Never);
    case(instrument, row.value("local_date"), air, row.place())
}

/// Does something with every case.
fn each(air: bool, mut test: impl FnMut(&Row<'_>, Case)) {
    let rows = table::open("events.csv");
    let rows: Vec<_> = rows.rows().collect();
    let step = rows.len() / PLACES;
    assert!(step >= 1, "too few rows");
    for row in rows.iter().step_by(step).take(PLACES) {
        test(row, of_row(row, air));
    }
}

impl Case {
    fn moment(&mut self, at: Instant) -> Moment {
        Moment::compute(&self.instrument, at, &self.conditions, &mut self.track)
    }
}

#[test]
fn reference_events_and_the_sun_at_noon_on_the_card() {
    let mut events = [Worst::of("rise", "s"), Worst::of("noon", "s"), Worst::of("set", "s")];
    let mut places = [Worst::of("declination", "″"), Worst::of("altitude", "″")];
    let mut equation = Worst::of("equation of time", "s");
    each(false, |row, case| {
        let expected = match row.text("state") {
            Some("always_up") => Daylight::NeverSets,
            Some("always_down") => Daylight::NeverRises,
            _ => Daylight::Crosses,
        };
        let card = &case.card;
        assert_eq!(card.events.daylight, expected, "{}", case.name);
        assert_eq!(card.readings.is_empty(), expected == Daylight::NeverRises, "{}", case.name);
        let ours = [card.events.rise, card.events.transit, card.events.set];
        let columns = ["sunrise_utc", "transit_utc", "sunset_utc"];
        for ((worst, column), ours) in events.iter_mut().zip(columns).zip(ours) {
            let theirs: Option<Instant> = row.optional(column);
            assert_eq!(ours.is_some(), theirs.is_some(), "{}: {column}", case.name);
            let (Some(ours), Some(theirs)) = (ours, theirs) else { continue };
            // In UTC years the table knows UT1 − UTC, which is taken as nothing here.
            let known_s = if row.text("time_scale") == Some("UTC") {
                row.number("delta_t_s") - EarthTime::from_instant(theirs).delta_t_s()
            } else {
                0.0
            };
            worst.see(theirs.seconds_since(ours) - known_s, || case.name.clone());
        }
        let off = |ours: f64, column| arcseconds_between(ours.to_degrees(), row.number(column));
        let declination_rad = card.declination_rad[1].unwrap_or(f64::NAN);
        places[0].see(off(declination_rad, "dec_at_transit_deg"), || case.name.clone());
        places[1].see(off(card.noon_altitude_rad, "altitude_at_transit_deg"), || case.name.clone());
        let ahead_s = row.number("equation_of_time_at_transit_s");
        equation.see(card.corrections.to_mean_s + ahead_s, || case.name.clone());
        let zone_s = row.number("utc_offset_h") * 3600.0 - row.number("lon_deg") * 240.0;
        assert!((card.corrections.to_zone_s - zone_s).abs() < 1e-6, "{}", case.name);
        assert!((card.corrections.total_s() - (zone_s - ahead_s)).abs() < 0.01, "{}", case.name);
    });
    // The table is rounded to 0.1 s.
    events.iter().for_each(|worst| worst.must_be_below(0.2));
    // A model of ΔT beside a table of it: 0.04″ of the Sun's place and 0.003 s a second.
    places.iter().for_each(|worst| worst.must_be_below(0.1));
    equation.must_be_below(0.01);
}

#[test]
fn declinations_and_the_change_of_the_correction_are_those_of_the_computed_sun() {
    each(true, |_, case| {
        let card = &case.card;
        let sun = |at: Instant| apparent_sun(&EarthTime::from_instant(at));
        let events = [card.events.rise, card.events.transit, card.events.set];
        for (event, declination_rad) in events.into_iter().zip(card.declination_rad) {
            let (Some(event), Some(declination_rad)) = (event, declination_rad) else { continue };
            assert!((sun(event).declination_rad - declination_rad).abs() < 1e-7, "{}", case.name);
        }
        let Some(noon) = card.events.transit else { panic!("{}", case.name) };
        let ahead_s =
            |hours: f64| sun(noon.saturating_plus_seconds(hours * 3600.0)).equation_of_time_s;
        assert!((card.change_s - (ahead_s(-12.0) - ahead_s(12.0))).abs() < 1e-3, "{}", case.name);
        assert!(card.change_s.abs() < 31.0, "{}", case.name);
    });
}

#[test]
fn the_hours_are_those_of_the_clock_at_which_the_sun_is_up() {
    let mut up = 0;
    each(true, |_, mut case| {
        let (sin_p, cos_p) = case.instrument.spec().latitude_deg.to_radians().sin_cos();
        let hours = case.card.hours.clone();
        for hour in &hours {
            assert_eq!(clock_of(&case.instrument, hour.instant), f64::from(hour.hour) * 3600.0);
            let moment = case.moment(hour.instant);
            let seen = moment.sun.seen;
            // From the two other angles of the triangle pole – zenith – Sun.
            let (sin_h, cos_h) = seen.hour_angle_rad.sin_cos();
            let (sin_d, cos_d) = seen.declination_rad.sin_cos();
            let sine = sin_p * sin_d + cos_p * cos_d * cos_h;
            assert!((hour.altitude_rad.sin() - sine).abs() < 1e-9, "{}", case.name);
            let (east, north) = (-cos_d * sin_h, sin_d * cos_p - cos_d * sin_p * cos_h);
            let off_rad = (hour.azimuth_rad - east.atan2(north)).sin() * hour.altitude_rad.cos();
            assert!(off_rad.abs() < 1e-9, "{}", case.name);
        }
        // All of them, and no other.
        let date = case.card.date;
        let offset_s = clock_offset(&case.instrument, date).seconds();
        for hour in 0..24 {
            let midnight = Instant::from_date(date).unwrap_or(Instant::FIRST);
            let at = midnight.saturating_plus_seconds(f64::from(hour) * 3600.0 - offset_s);
            let is_up = case.moment(at).sun.seen.altitude_rad > 0.0;
            up += u32::from(is_up);
            assert_eq!(hours.iter().any(|it| it.hour == hour), is_up, "{}: {hour} h", case.name);
        }
    });
    assert!(up > 150, "{up} hours of sunlight");
}

#[test]
fn quadrants_read_from_when_until_when_the_card_says() {
    let mut edges = 0;
    each(true, |_, mut case| {
        for span in case.card.readings.clone() {
            for (at, into_s) in [(span.from, 1.0), (span.to, -1.0)] {
                let side = |reading: &Moment| reading.reading.as_ref().map(|it| it.edge.side).ok();
                let inside = case.moment(at.saturating_plus_seconds(into_s));
                assert_eq!(side(&inside), Some(span.side), "{} at {at}", case.name);
                let outside = case.moment(at.saturating_plus_seconds(-into_s));
                assert_ne!(side(&outside), Some(span.side), "{} at {at}", case.name);
                edges += 1;
            }
        }
        let Some(noon) = case.card.events.transit else { panic!("{}", case.name) };
        for step in -71..=71 {
            let at = noon.saturating_plus_seconds(f64::from(step) * 600.0);
            let listed = case.card.readings.iter().find(|it| it.from <= at && at <= it.to);
            let listed = listed.map(|it| it.side);
            let read = case.moment(at).reading.map(|it| it.edge.side).ok();
            assert_eq!(listed, read, "{} at {at}", case.name);
        }
    });
    assert!(edges >= 60, "{edges} edges");
}

#[test]
fn the_three_intervals_about_noon_are_what_they_are_called() {
    each(true, |_, mut case| {
        let Some(pass) = case.card.noon else { panic!("{}", case.name) };
        let half_division_s = f64::from(case.instrument.graduation().smallest_s()) / 2.0;
        let on_dial = |case: &mut Case, at| case.moment(at).on_dial;
        assert!(on_dial(&mut case, pass.meridian).hour_angle_rad.abs() < 2e-7, "{}", case.name);
        for (at, sign) in [(pass.blind.0, -1.0), (pass.blind.1, 1.0)] {
            let shown_s = on_dial(&mut case, at).hour_angle_rad.to_degrees() * 240.0;
            assert!((shown_s - sign * half_division_s).abs() < 0.002, "{}", case.name);
        }
        for (at, sign) in [(pass.soft.0, -1.0), (pass.soft.1, 1.0)] {
            let moment = case.moment(at);
            let limb = moment.on_dial.hour_angle_rad * moment.on_dial.declination_rad.cos();
            let off = limb / moment.sun.semidiameter_rad - sign;
            assert!(off.abs() < 1e-3, "{}: {off}", case.name);
        }
    });
}

#[test]
fn a_rod_where_the_card_says_throws_its_shadow_on_the_edge() {
    each(true, |_, mut case| {
        let Some(noon) = case.card.events.transit else { panic!("{}", case.name) };
        let sun = case.moment(noon).on_dial;
        for edge in case.card.edges {
            let edge_m = case.instrument.quadrant_edge_m(edge.edge);
            let place_m = edge_m + edge.from_zero_m;
            let shadow_m =
                axial_shadow_m(&case.instrument, Side::West, place_m, sun.declination_rad);
            assert!((shadow_m - edge_m).abs() < 1e-9, "{}", case.name);
            let read_rad = scale_at(&case.instrument, edge.edge, place_m);
            assert!((read_rad - sun.declination_rad).abs() < 1e-9, "{}", case.name);
            let in_range = (edge.range_rad.0..=edge.range_rad.1).contains(&sun.declination_rad);
            assert_eq!(edge.is_on_style, in_range, "{}", case.name);
        }
    });
}

/// Whether a reader on a side of a quadrant has the Sun behind and the edge at a readable height.
fn is_good(case: &mut Case, side: Side, on: AxialEnd, at: Instant) -> bool {
    let moment = case.moment(at);
    let Ok(reading) = &moment.reading else { return false };
    let point = surface_point(&case.instrument, side, reading.edge.hour_angle_rad, 0.0, 0.0);
    let height_m = point.z - case.instrument.ground_z_m();
    let azimuth_deg = moment.sun.seen.azimuth_rad.to_degrees();
    let behind =
        if (90.0..270.0).contains(&azimuth_deg) { AxialEnd::South } else { AxialEnd::North };
    reading.edge.side == side && on == behind && height_m <= READABLE_HEIGHT_M
}

#[test]
fn where_to_stand_has_the_sun_behind_and_the_edge_within_reach() {
    let (mut north, mut south) = (0, 0);
    for preset in &PRESETS {
        for (month, day) in [(3, 20), (6, 21), (12, 21)] {
            let Ok(instrument) = preset.instrument() else { panic!("{}", preset.key) };
            let date = NaiveDate::from_ymd_opt(2026, month, day).unwrap_or_default();
            let mut case = case(instrument, date, true, format!("{} {date}", preset.key));
            for stand in case.card.stands.clone() {
                if stand.on == AxialEnd::North {
                    north += 1
                } else {
                    south += 1
                }
                // A quadrant's time begins just after the instant at which it changes.
                let length_s = stand.to.seconds_since(stand.from) - 2.0;
                for step in 0..=20 {
                    let into_s = 1.0 + length_s * f64::from(step) / 20.0;
                    let at = stand.from.saturating_plus_seconds(into_s);
                    assert!(
                        is_good(&mut case, stand.side, stand.on, at),
                        "{} {stand:?}",
                        case.name
                    );
                }
                // A minute farther on either side it is no longer good, or the quadrant's time is over.
                for (at, by_s) in [(stand.from, -61.0), (stand.to, 61.0)] {
                    let at = at.saturating_plus_seconds(by_s);
                    assert!(
                        !is_good(&mut case, stand.side, stand.on, at),
                        "{} {stand:?}",
                        case.name
                    );
                }
            }
            // In middle latitudes the Sun at noon is on the equator's side.
            let sides: Vec<AxialEnd> = case.card.stands.iter().map(|it| it.on).collect();
            match preset.key {
                "terrace" => assert!(sides.contains(&AxialEnd::South), "{}", case.name),
                "schoolyard" => assert!(sides.contains(&AxialEnd::North), "{}", case.name),
                "great" => assert!(sides.is_empty(), "its feet are higher than anyone reaches"),
                _ => {}
            }
        }
    }
    assert!(north > 3 && south > 3, "{north} north, {south} south");
}

/// A day of `month` in 2026 at a latitude.
fn polar(latitude_deg: f64, month: u32) -> Case {
    let date = NaiveDate::from_ymd_opt(2026, month, 21).unwrap_or_default();
    let instrument = dial(latitude_deg, 15.0, 60, SummerTime::Never);
    case(instrument, date, true, format!("{latitude_deg}° in month {month}"))
}

#[test]
fn polar_days_have_a_noon_and_readings_and_polar_nights_none() {
    for (latitude_deg, day_month, night_month) in [(70.0, 6, 12), (-70.0, 12, 6)] {
        let day = polar(latitude_deg, day_month).card;
        assert_eq!(day.events.daylight, Daylight::NeverSets);
        assert_eq!((day.declination_rad[0], day.declination_rad[2]), (None, None));
        assert!(day.declination_rad[1].is_some() && day.noon_altitude_rad > 0.7);
        assert_eq!(day.hours.len(), 24);
        let sides: Vec<Side> = day.readings.iter().map(|span| span.side).collect();
        assert_eq!(sides, [Side::West, Side::East]);
        let night = polar(latitude_deg, night_month).card;
        assert_eq!(night.events.daylight, Daylight::NeverRises);
        assert!(night.readings.is_empty() && night.hours.is_empty() && night.stands.is_empty());
        assert!(night.events.transit.is_some() && night.noon_altitude_rad < 0.0);
    }
}

#[test]
fn within_the_tropics_the_reader_changes_sides_with_the_season() {
    for (month, on) in [(6, AxialEnd::North), (12, AxialEnd::South)] {
        let Some(Ok(instrument)) = PRESETS.last().map(|it| it.instrument()) else {
            panic!("a preset")
        };
        let date = NaiveDate::from_ymd_opt(2026, month, 21).unwrap_or_default();
        let card = case(instrument, date, true, format!("month {month}")).card;
        assert!(!card.stands.is_empty() && card.stands.iter().all(|stand| stand.on == on));
    }
}
