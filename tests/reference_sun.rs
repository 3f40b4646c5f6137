//! The Sun and its events against tables of JPL DE421 and ERFA; see `tests/reference/README.md`.
//!
//! `cargo test reference -- --nocapture` prints the largest deviation of each quantity.

#![cfg(not(target_arch = "wasm32"))]

mod common;

use common::angles::arcseconds_between;
use common::table::{self, Row};
use common::worst::Worst;
use noonwedge::core::sky::{
    Air, ApparentSun, Site, SunAtSite, SunTrack, apparent_sun, refraction_rad, sun_at_site,
};
use noonwedge::core::time::EarthTime;

/// Of positions: the model of the Earth's motion is good to 0.015″, and IAU 2000B nutation to
/// 0.006″ in 1700; both double or so towards the ends of the range.
const POSITION_ARCSEC: f64 = 0.05;

/// Of the equation of time: 0.05″ of right ascension, and as much of sidereal time, are 0.0067 s;
/// the nutation in both is the same, which leaves half.
const EQUATION_OF_TIME_S: f64 = 0.005;

/// Of the distance: 27 km (twice the error that `epv00` states for 1900–2100), and the rounding of
/// the table.
const DISTANCE_AU: f64 = 2e-7;

/// Of the semidiameter: the rounding of the table, 1e-8°.
const SEMIDIAMETER_ARCSEC: f64 = 1e-4;

#[test]
fn reference_geocentric_sun_computed() {
    compare_geocentric(apparent_sun);
}

#[test]
fn reference_geocentric_sun_interpolated() {
    let mut track = SunTrack::new();
    compare_geocentric(|time| track.at(time));
}

fn compare_geocentric(mut sun_at: impl FnMut(&EarthTime) -> ApparentSun) {
    let mut right_ascension = Worst::of("RA cos δ", "″");
    let mut declination = Worst::of("declination", "″");
    let mut distance = Worst::of("distance", "au");
    let mut semidiameter = Worst::of("semidiameter", "″");
    let mut sidereal_time = Worst::of("apparent sidereal time", "″");
    let mut equation = Worst::of("equation of time", "s");
    for row in table::open("sun.csv").rows() {
        let sun = sun_at(&earth_time(&row));
        let place = || row.place();
        let off =
            |value_rad: f64, column| arcseconds_between(value_rad.to_degrees(), row.number(column));
        let parallel = sun.declination_rad.cos();
        right_ascension.see(off(sun.right_ascension_rad, "ra_deg") * parallel, place);
        declination.see(off(sun.declination_rad, "dec_deg"), place);
        distance.see(sun.distance_au - row.number("distance_au"), place);
        semidiameter.see(off(sun.semidiameter_rad, "semidiameter_deg"), place);
        sidereal_time.see(off(sun.sidereal_time_rad, "gast_deg"), place);
        equation.see(sun.equation_of_time_s - row.number("equation_of_time_s"), place);
    }
    right_ascension.must_be_below(POSITION_ARCSEC);
    declination.must_be_below(POSITION_ARCSEC);
    distance.must_be_below(DISTANCE_AU);
    semidiameter.must_be_below(SEMIDIAMETER_ARCSEC);
    sidereal_time.must_be_below(POSITION_ARCSEC);
    equation.must_be_below(EQUATION_OF_TIME_S);
}

/// The time a row states for itself.
fn earth_time(row: &Row<'_>) -> EarthTime {
    let (whole, fraction) = row.two_parts("jd_ut1");
    EarthTime::from_ut1(whole, fraction, row.number("delta_t_s"))
}

fn site(row: &Row<'_>, elevation_m: f64) -> Site {
    Site::from_degrees(row.number("lat_deg"), row.number("lon_deg"), elevation_m)
        .unwrap_or_else(|error| panic!("{}: {error}", row.place()))
}

fn sun_of(row: &Row<'_>) -> SunAtSite {
    let sun = apparent_sun(&earth_time(row));
    let site = site(row, row.number("elevation_m"));
    sun_at_site(&sun, &site, Some(&Air::default()))
}

#[test]
fn reference_topocentric_sun_without_air() {
    let mut altitude = Worst::of("airless altitude", "″");
    let mut azimuth = Worst::of("azimuth cos h", "″");
    let mut hour_angle = Worst::of("hour angle cos δ", "″");
    let mut declination = Worst::of("topocentric declination", "″");
    for row in table::open("topocentric.csv").rows() {
        let sun = sun_of(&row).airless;
        let place = || row.place();
        let off =
            |value_rad: f64, column| arcseconds_between(value_rad.to_degrees(), row.number(column));
        altitude.see(off(sun.altitude_rad, "altitude_deg"), place);
        let azimuth_off = off(sun.azimuth_rad, "azimuth_deg");
        azimuth.see(azimuth_off * sun.altitude_rad.cos(), place);
        let hour_angle_off = off(sun.hour_angle_rad, "hour_angle_deg");
        hour_angle.see(hour_angle_off * sun.declination_rad.cos(), place);
        declination.see(off(sun.declination_rad, "dec_deg"), place);
    }
    for worst in [altitude, azimuth, hour_angle, declination] {
        worst.must_be_below(POSITION_ARCSEC);
    }
}

/// The table's refraction has the factors 0.28 × 1010 hPa / 283 K = 0.99929 and 0.016667° for 1/60°,
/// together 0.07 % less than ours.
const REFRACTION_RATIO: f64 = 0.0008;

/// The table's iteration ends within 0.1″; the rest are the airless Sun and rounding.
const REFRACTION_ARCSEC: f64 = 0.1 + POSITION_ARCSEC;

#[test]
fn reference_refracted_altitude_by_band() {
    let mut bands = [
        (15.0, Worst::of("refracted altitude above 15°", "″")),
        (5.0, Worst::of("refracted altitude 5° to 15°", "″")),
        (2.0, Worst::of("refracted altitude 2° to 5°", "″")),
        (-1.0, Worst::of("refracted altitude -1° to 2°", "″")),
    ];
    let mut beyond = Worst::of("refracted altitude beyond the known differences", "″");
    for row in table::open("topocentric.csv").rows() {
        let Some(expected_deg) = row.optional("altitude_refracted_deg") else {
            continue;
        };
        let sun = sun_of(&row);
        let off = arcseconds_between(sun.seen.altitude_rad.to_degrees(), expected_deg);
        let altitude_deg = row.number("altitude_deg");
        if let Some((_, band)) = bands.iter_mut().find(|(least, _)| altitude_deg > *least) {
            band.see(off, || row.place());
        }
        let refraction = refraction_rad(sun.airless.altitude_rad, &Air::default());
        let allowed = refraction.to_degrees() * 3600.0 * REFRACTION_RATIO + REFRACTION_ARCSEC;
        beyond.see((off.abs() - allowed).max(0.0), || row.place());
    }
    for (_, band) in &bands {
        band.print();
    }
    beyond.must_be_below(f64::MIN_POSITIVE);
}
