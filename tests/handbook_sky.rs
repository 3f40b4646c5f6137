//! The Sun against worked examples that were printed.
//!
//! Each example names its source. Those of J. Meeus, *Astronomical Algorithms* (2nd edition,
//! Willmann-Bell 1998), are given **from memory**. They use the theories of their day (IAU 1976/1980
//! precession, nutation and sidereal time, FK5), hence the second part of each tolerance.

#![cfg(not(target_arch = "wasm32"))]

mod common;

use common::angles::arcseconds_between;
use common::worst::Worst;
use noonwedge::core::sky::{Air, Site, apparent_sun, refraction_rad, sun_at_site};
use noonwedge::core::time::{EarthTime, Instant};

/// I. Reda and A. Andreas, *Solar Position Algorithm for Solar Radiation Applications*,
/// NREL/TP-560-34302 (revised 2008), section 3 and table A5.1: 2003-10-17 12:30:30 at UTC−7, with
/// ΔT 67 s and UT1 = UTC. The report states an uncertainty of 0.0003° for its algorithm.
#[test]
fn worked_example_of_the_nrel_solar_position_algorithm() {
    const UNCERTAINTY_DEG: f64 = 0.0003;
    let instant: Instant = parsed("2003-10-17T12:30:30-07:00");
    let (day, fraction) = instant.days_and_fraction();
    let time = EarthTime::from_ut1(2_440_587.5 + day as f64, fraction, 67.0);
    let site = Site::from_degrees(39.742_476, -105.1786, 1830.14);
    let air = Air::new(820.0, 11.0);
    let (Ok(site), Ok(air)) = (site, air) else {
        panic!("the example's site and air are refused");
    };
    let sun = sun_at_site(&apparent_sun(&time), &site, Some(&air));
    let airless_deg = sun.airless.altitude_rad.to_degrees();
    let report_deg = airless_deg + refraction_of_the_report_deg(airless_deg, 820.0, 11.0);
    for (quantity, value_deg, expected_deg) in [
        ("NREL example, zenith by the report's refraction", 90.0 - report_deg, 50.111_62),
        (
            "NREL example, zenith by Bennett's refraction",
            90.0 - sun.seen.altitude_rad.to_degrees(),
            50.111_62,
        ),
        ("NREL example, azimuth", sun.seen.azimuth_rad.to_degrees(), 194.340_24),
    ] {
        let mut worst = Worst::of(quantity, "°");
        worst.see(value_deg - expected_deg, String::new);
        worst.must_be_below(UNCERTAINTY_DEG);
    }
}

/// Refraction by equation 42 of the report, in degrees: a formula in the airless altitude, which at
/// 40° gives 0.0003° more than Bennett's.
fn refraction_of_the_report_deg(airless_deg: f64, pressure_hpa: f64, temperature_c: f64) -> f64 {
    let argument_deg = airless_deg + 10.3 / (airless_deg + 5.11);
    let strength = pressure_hpa / 1010.0 * 283.0 / (273.0 + temperature_c);
    strength * 1.02 / (60.0 * argument_deg.to_radians().tan())
}

/// Meeus, example 25.b: the Sun on 1992 October 13 at 0 h TD, by the complete VSOP87:
/// α 13 h 13 m 30.749 s, δ −7°47′01.74″, R 0.99760853 au. From memory.
#[test]
fn worked_example_of_meeus_25b() {
    /// Half a unit of the last digit, and the older theories: 0.1″.
    const RIGHT_ASCENSION_ARCSEC: f64 = 0.0005 * 15.0 + 0.1;
    const DECLINATION_ARCSEC: f64 = 0.005 + 0.1;
    /// Half a unit of the last digit, and 30 km for the difference of VSOP87 and VSOP2000.
    const DISTANCE_AU: f64 = 0.5e-8 + 2e-7;
    let sun = apparent_sun(&at_0h_tt_1992_october_13());
    let mut right_ascension = Worst::of("Meeus 25.b, right ascension", "″");
    let right_ascension_deg = degrees(13.0, 13.0, 30.749) * 15.0;
    right_ascension.see(
        arcseconds_between(sun.right_ascension_rad.to_degrees(), right_ascension_deg),
        String::new,
    );
    right_ascension.must_be_below(RIGHT_ASCENSION_ARCSEC);
    let mut declination = Worst::of("Meeus 25.b, declination", "″");
    let declination_deg = -degrees(7.0, 47.0, 1.74);
    declination
        .see(arcseconds_between(sun.declination_rad.to_degrees(), declination_deg), String::new);
    declination.must_be_below(DECLINATION_ARCSEC);
    let mut distance = Worst::of("Meeus 25.b, distance", "au");
    distance.see(sun.distance_au - 0.997_608_53, String::new);
    distance.must_be_below(DISTANCE_AU);
}

/// Meeus, example 28.a: the equation of time on 1992 October 13 at 0 h TD is +13 m 42.6 s. From
/// memory. His formula takes the mean longitude at TT where the definition has UT1, which makes it
/// larger by 0.0027379 ΔT.
#[test]
fn worked_example_of_meeus_28a() {
    /// Half a unit of the last digit, and his mean longitude of 1/100 s.
    const EQUATION_S: f64 = 0.05 + 0.01;
    let time = at_0h_tt_1992_october_13();
    let at_tt = apparent_sun(&time).equation_of_time_s + 0.002_737_9 * time.delta_t_s();
    let mut equation = Worst::of("Meeus 28.a, equation of time", "s");
    equation.see(at_tt - (13.0 * 60.0 + 42.6), String::new);
    equation.must_be_below(EQUATION_S);
}

/// Meeus, example 12.a: Greenwich apparent sidereal time on 1987 April 10 at 0 h UT is
/// 13 h 10 m 46.1351 s. From memory.
#[test]
fn worked_example_of_meeus_12a() {
    /// Half a unit of the last digit, and the change of the definition of sidereal time and of
    /// nutation from IAU 1980/1982 to 2000/2006: 0.0037 s on this date by the ERFA routines gst94
    /// and gst06a.
    const SIDEREAL_TIME_S: f64 = 0.000_05 + 0.0045;
    let time = EarthTime::from_ut1(2_446_895.5, 0.0, 55.5);
    let sidereal_s = apparent_sun(&time).sidereal_time_rad.to_degrees() * 240.0;
    let mut worst = Worst::of("Meeus 12.a, apparent sidereal time", "s");
    worst.see(sidereal_s - (13.0 * 3600.0 + 10.0 * 60.0 + 46.1351), String::new);
    worst.must_be_below(SIDEREAL_TIME_S);
}

/// Meeus, chapter 16: Bennett's formula gives 34.5′ at a refracted altitude of 0°, the usual 34′ of
/// tables to half an arcminute. From memory.
#[test]
fn refraction_at_the_apparent_horizon() {
    /// Half a unit of the last digit.
    const REFRACTION_ARCMIN: f64 = 0.05;
    // The airless altitude that is seen on the horizon is minus the refraction itself.
    let airless_rad = (-34.5_f64 / 60.0).to_radians();
    let refraction_arcmin = refraction_rad(airless_rad, &Air::default()).to_degrees() * 60.0;
    let mut worst = Worst::of("Bennett at the horizon", "′");
    worst.see(refraction_arcmin - 34.5, String::new);
    worst.must_be_below(REFRACTION_ARCMIN);
}

/// JD 2448908.5 in TT; ΔT was 59 s.
fn at_0h_tt_1992_october_13() -> EarthTime {
    const DELTA_T_S: f64 = 59.0;
    EarthTime::from_ut1(2_448_908.5, -DELTA_T_S / 86_400.0, DELTA_T_S)
}

fn degrees(whole: f64, minutes: f64, seconds: f64) -> f64 {
    whole + minutes / 60.0 + seconds / 3600.0
}

fn parsed(text: &str) -> Instant {
    text.parse().unwrap_or_else(|error| panic!("{error}"))
}
