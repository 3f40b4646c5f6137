//! Facts that people who show such instruments know by heart. Common practice, no source.
#![cfg(not(target_arch = "wasm32"))]

use chrono::{NaiveDate, NaiveTime};
use noonwedge::core::instrument::{AxialEnd, Instrument, InstrumentSpec, PRESETS, Side};
use noonwedge::core::ladder::Corrections;
use noonwedge::core::moment::{Conditions, Moment};
use noonwedge::core::noon::NoonPass;
use noonwedge::core::pointer::{Criterion, Pointer, place_for_edge_m, scale_at};
use noonwedge::core::sky::SunTrack;
use noonwedge::core::time::Instant;

/// A dial like the first preset, 6.68° west of the meridian of its zone.
fn west_of_its_zone() -> Instrument {
    let spec =
        InstrumentSpec { longitude_deg: 75.0 - 6.68, zone_offset_min: 300, ..PRESETS[0].spec() };
    Instrument::new(spec).unwrap_or_else(|error| panic!("{error}"))
}

/// 07:30 universal time, around noon at that dial.
fn noon_on(year: i32, month: u32, day: u32) -> Instant {
    let date = NaiveDate::from_ymd_opt(year, month, day).unwrap_or_default();
    let time = NaiveTime::from_hms_opt(7, 30, 0).unwrap_or_default();
    Instant::from_unix_ms(date.and_time(time).and_utc().timestamp_millis())
        .unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn a_dial_divided_to_20_s_is_blind_for_20_s() {
    let instrument = west_of_its_zone();
    let mut track = SunTrack::new();
    for (month, day) in [(3, 20), (6, 21), (9, 26), (12, 21)] {
        let pass = NoonPass::near(
            &instrument,
            noon_on(2026, month, day),
            &Conditions::default(),
            &mut track,
        );
        let Some(pass) = pass else { panic!("within the years computed") };
        // The apparent day differs from 24 h by up to 30 s: 0.007 s in 20 s; and milliseconds.
        assert!((pass.blind_s() - 20.0).abs() < 0.01, "{}", pass.blind_s());
        assert!(pass.soft.0 < pass.blind.0 && pass.blind.0 < pass.meridian);
        assert!(pass.meridian < pass.blind.1 && pass.blind.1 < pass.soft.1);
        // A little over two minutes: 2 min 8 s at an equinox, more at a solstice.
        assert!((126.0..=145.0).contains(&pass.soft_s()), "{}", pass.soft_s());
    }
}

#[test]
fn a_foot_gap_lengthens_the_blind_interval_on_both_sides() {
    let gap_m = 0.05;
    let spec = InstrumentSpec { foot_gap_m: gap_m, ..west_of_its_zone().spec().clone() };
    let Ok(instrument) = Instrument::new(spec) else { panic!("a small gap") };
    let mut track = SunTrack::new();
    let pass =
        NoonPass::near(&instrument, noon_on(2026, 3, 20), &Conditions::default(), &mut track);
    let Some(pass) = pass else { panic!("within the years computed") };
    let expected_s = 20.0 + 2.0 * gap_m / instrument.radius_m() * 43_200.0 / std::f64::consts::PI;
    assert!((pass.blind_s() - expected_s).abs() < 0.2, "{} {expected_s}", pass.blind_s());
}

#[test]
fn the_correction_late_in_september_is_18_minutes() {
    let instrument = west_of_its_zone();
    let mut track = SunTrack::new();
    for year in [2010, 2018, 2026, 2034] {
        let instant = noon_on(year, 9, 26);
        let moment = Moment::compute(&instrument, instant, &Conditions::default(), &mut track);
        let corrections = Corrections::at(&instrument, instant, &moment.sun);
        let minutes = (corrections.total_s() / 60.0).round();
        assert!((minutes - 18.0).abs() < 0.5, "{year}: {} s", corrections.total_s());
    }
}

#[test]
fn the_last_trace_of_a_finger_reads_close_to_two_degrees_late_in_september() {
    let instrument = west_of_its_zone();
    let mut track = SunTrack::new();
    let instant = noon_on(2026, 9, 26);
    let moment = Moment::compute(&instrument, instant, &Conditions::default(), &mut track);
    let read_deg = |criterion| {
        let disc = (moment.sun.semidiameter_rad, Pointer::FINGER_M);
        let place_m = place_for_edge_m(
            &instrument,
            Side::West,
            AxialEnd::South,
            criterion,
            moment.on_dial,
            disc,
        );
        scale_at(&instrument, AxialEnd::South, place_m).to_degrees()
    };
    assert!((read_deg(Criterion::Middle) + 1.3).abs() < 0.15, "{}", read_deg(Criterion::Middle));
    // Computed: 1.73°. To the nearest degree the last trace reads 2 where the truth is 1.
    assert_eq!(read_deg(Criterion::LastTrace).round(), -2.0, "{}", read_deg(Criterion::LastTrace));
    assert_eq!(read_deg(Criterion::Middle).round(), -1.0, "{}", read_deg(Criterion::Middle));
}
