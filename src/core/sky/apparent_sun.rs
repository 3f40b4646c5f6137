//! The apparent Sun at the Earth's centre.

use super::angle::{half_turn, turn};
use super::earth::earth;
use crate::core::time::EarthTime;
use glam::{DMat3, DVec3};
use sofars::{astro, erst, pnp};
use std::f64::consts::{PI, TAU};

/// The Sun's semidiameter at 1 au, in radians: 959.63″ (A. Auwers 1891, used in almanacs since).
pub const SEMIDIAMETER_AT_1_AU_RAD: f64 = 959.63 * ARCSECOND_RAD;

const ARCSECOND_RAD: f64 = PI / 648_000.0;

/// The Julian date of the epoch J2000.0.
pub(super) const J2000_JD: f64 = 2_451_545.0;

/// The speed of light in au per day.
const LIGHT_AU_PER_DAY: f64 = 173.144_632_684_669_3;

/// The Sun as seen from the Earth's centre, true equator and equinox of date, with the Earth's
/// rotation at the same moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ApparentSun {
    /// Right ascension in radians, in [0, 2π).
    pub right_ascension_rad: f64,
    /// Declination in radians, positive north.
    pub declination_rad: f64,
    /// Distance in astronomical units, corrected for light time.
    pub distance_au: f64,
    /// Angular radius of the disc in radians.
    pub semidiameter_rad: f64,
    /// Greenwich apparent sidereal time in radians, in [0, 2π).
    pub sidereal_time_rad: f64,
    /// Apparent minus mean solar time in seconds: positive when a sundial is ahead of the clock.
    ///
    /// It is the hour angle of the apparent Sun at Greenwich, less UT1 − 12 h.
    pub equation_of_time_s: f64,
}

/// What of the sky changes so smoothly that it can be interpolated.
#[derive(Clone, Copy, Debug)]
pub(super) struct SmoothSky {
    /// From the Earth's centre to the apparent Sun, au, true equator and equinox of date.
    pub(super) sun_au: DVec3,
    /// Earth rotation angle less Greenwich apparent sidereal time, in radians.
    pub(super) equation_of_origins_rad: f64,
}

/// The apparent Sun at `time`.
///
/// The Earth's motion is that of `epv00`; then light time, annual aberration (`ab`), precession
/// IAU 2006 with nutation IAU 2000B (`pfw06`, `nut00b`) and sidereal time IAU 2006 (`s06`, `eors`,
/// `era00`).
///
/// # Accuracy
/// Right ascension and declination within 0.02″ of JPL DE421 and the equation of time within
/// 0.001 s over 1900–2050; the model of the Earth's motion is about half as good by 1800 and 2200.
/// Of this, nutation 2000B instead of the much longer 2000A takes less than 0.003″ over 1900–2100
/// and less than 0.007″ over 1700–2200. An error of 1 s in `time`'s ΔT adds 0.041″.
#[must_use]
pub fn apparent_sun(time: &EarthTime) -> ApparentSun {
    smooth_sky(time.jd_tt()).at(time)
}

/// The apparent longitude of the Sun in radians, true ecliptic and equinox of date, in [0, 2π).
///
/// It is 0 at the March equinox, π/2 at the June solstice.
///
/// # Accuracy
/// As [`apparent_sun`].
#[must_use]
pub fn apparent_longitude_rad(time: &EarthTime) -> f64 {
    let (jd1, jd2) = time.jd_tt();
    let sun = smooth_sky((jd1, jd2)).sun_au;
    let obliquity = pnp::obl06(jd1, jd2) + pnp::nut00b(jd1, jd2).1;
    let (sin, cos) = obliquity.sin_cos();
    turn((sun.y * cos + sun.z * sin).atan2(sun.x))
}

/// How far the equator leans from the ecliptic, radians: the mean obliquity, without the 9″ by which
/// nutation rocks it.
#[must_use]
pub fn obliquity_rad(time: &EarthTime) -> f64 {
    let (jd1, jd2) = time.jd_tt();
    pnp::obl06(jd1, jd2)
}

/// The Sun and the equation of the origins at a Julian date in TT, given in two parts.
pub(super) fn smooth_sky(jd_tt: (f64, f64)) -> SmoothSky {
    sky_and_nutation(jd_tt).0
}

/// The same, with the nutation in longitude and in obliquity, radians.
pub(super) fn sky_and_nutation((jd1, jd2): (f64, f64)) -> (SmoothSky, (f64, f64)) {
    let nutation_rad = pnp::nut00b(jd1, jd2);
    let matrix = bias_precession_nutation(jd1, jd2, nutation_rad);
    let (x, y) = pnp::bpn2xy(&matrix);
    let locator = pnp::s06(jd1, jd2, x, y);
    let to_date = DMat3::from_cols_array_2d(&matrix).transpose();
    let sky = SmoothSky {
        sun_au: to_date * aberrated_sun(jd1, jd2),
        equation_of_origins_rad: pnp::eors(&matrix, locator),
    };
    (sky, nutation_rad)
}

/// The rotation from the GCRS to the true equator and equinox of date, by rows.
fn bias_precession_nutation(jd1: f64, jd2: f64, nutation_rad: (f64, f64)) -> [[f64; 3]; 3] {
    let (gamma, phi, psi, epsilon) = pnp::pfw06(jd1, jd2);
    pnp::fw2m(gamma, phi, psi + nutation_rad.0, epsilon + nutation_rad.1)
}

/// The Sun from the Earth's centre in au, axes of the GCRS, with light time and aberration.
fn aberrated_sun(jd1: f64, jd2: f64) -> DVec3 {
    let earth = earth((jd1 - J2000_JD) + jd2);
    let light_days = earth.from_sun.length() / LIGHT_AU_PER_DAY;
    let sun = -earth.from_sun - earth.sun_velocity * light_days;
    let distance_au = sun.length();
    let velocity = earth.velocity / LIGHT_AU_PER_DAY;
    let seen = astro::ab(
        &(sun / distance_au).to_array(),
        &velocity.to_array(),
        earth.from_sun.length(),
        (1.0 - velocity.length_squared()).sqrt(),
    );
    DVec3::from_array(seen) * distance_au
}

impl SmoothSky {
    /// The Sun as seen at `time`, once the Earth's rotation is added.
    pub(super) fn at(&self, time: &EarthTime) -> ApparentSun {
        let DVec3 { x, y, z } = self.sun_au;
        let distance_au = self.sun_au.length();
        let (ut1_whole, ut1_fraction) = time.jd_ut1();
        let rotation_rad = erst::era00(ut1_whole, ut1_fraction);
        let right_ascension_rad = turn(y.atan2(x));
        let sidereal_time_rad = turn(rotation_rad - self.equation_of_origins_rad);
        // A Julian day begins at noon: the fraction of UT1 is the hour angle of the mean Sun.
        let mean_rad = (ut1_whole.rem_euclid(1.0) + ut1_fraction) * TAU;
        let ahead_rad = half_turn(sidereal_time_rad - right_ascension_rad - mean_rad);
        ApparentSun {
            right_ascension_rad,
            declination_rad: z.atan2(x.hypot(y)),
            distance_au,
            semidiameter_rad: SEMIDIAMETER_AT_1_AU_RAD / distance_au,
            sidereal_time_rad,
            equation_of_time_s: ahead_rad * 86_400.0 / TAU,
        }
    }
}
