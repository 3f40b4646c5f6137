//! The Sun as it stands in the sky of a site.

use super::{Air, ApparentSun, Direction, SEMIDIAMETER_AT_1_AU_RAD, Site, refraction_rad};
use glam::DVec3;

/// The Sun in the sky of a site.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SunAtSite {
    /// Where the centre of the disc stands without air, with parallax and diurnal aberration.
    pub airless: Direction,
    /// Where the centre of the disc is seen: raised by the air, or as above if there is none.
    pub seen: Direction,
    /// Altitude at which the upper limb is seen, radians. By the air it is less than a semidiameter
    /// above the centre when both are low.
    pub upper_limb_rad: f64,
    /// Angular radius of the disc in radians at the distance of the site; its flattening by the
    /// air is left out.
    pub semidiameter_rad: f64,
    /// The Sun at the Earth's centre, from which this was computed.
    pub sun: ApparentSun,
}

/// Metres in an astronomical unit, by definition.
const AU_M: f64 = 149_597_870_700.0;

/// The Earth's rotation in radians per second of UT1 (IERS Conventions 2010, 5.14).
const EARTH_RATE_RAD_PER_S: f64 = 1.002_737_811_911_354_6 * std::f64::consts::TAU / 86_400.0;

/// The speed of light in metres per second, by definition.
const LIGHT_M_PER_S: f64 = 299_792_458.0;

/// The Sun in the sky of `site`, through `air` if there is any.
///
/// Parallax is that of the site's place on the WGS84 ellipsoid; diurnal aberration is included, the
/// motion of the pole (up to 0.5″) is not.
///
/// # Accuracy
/// Adds less than 0.001″ to the error of `sun`; for refraction see [`refraction_rad`].
#[must_use]
pub fn sun_at_site(sun: &ApparentSun, site: &Site, air: Option<&Air>) -> SunAtSite {
    let (vector_au, east_speed) = from_site(sun, site);
    // Diurnal aberration: what moves east with the ground sees the Sun displaced to the east.
    let seen = vector_au.normalize() - DVec3::Y * east_speed;
    let airless = Direction::from_vector(site.vector_along_axes(seen), site);
    let semidiameter_rad = SEMIDIAMETER_AT_1_AU_RAD / vector_au.length();
    let limb_rad = airless.altitude_rad + semidiameter_rad;
    SunAtSite {
        airless,
        seen: air.map_or(airless, |air| raised(&airless, air, site)),
        upper_limb_rad: limb_rad + air.map_or(0.0, |air| refraction_rad(limb_rad, air)),
        semidiameter_rad,
        sun: *sun,
    }
}

/// From the site to the Sun in au along the dial axes `M`, `−E`, `P` (as they stand at the site's
/// meridian on the equator), and the speed of the ground eastwards, in units of that of light.
fn from_site(sun: &ApparentSun, site: &Site) -> (DVec3, f64) {
    let hour_angle_rad = sun.sidereal_time_rad + site.longitude_rad() - sun.right_ascension_rad;
    let (sin_h, cos_h) = hour_angle_rad.sin_cos();
    let (sin_d, cos_d) = sun.declination_rad.sin_cos();
    let geocentric_au = DVec3::new(cos_d * cos_h, cos_d * sin_h, sin_d) * sun.distance_au;
    let (from_axis_m, over_equator_m) = site.meridian_place_m();
    let site_au = DVec3::new(from_axis_m, 0.0, over_equator_m) / AU_M;
    let east_speed = EARTH_RATE_RAD_PER_S * from_axis_m / LIGHT_M_PER_S;
    (geocentric_au - site_au, east_speed)
}

/// A direction raised by the air.
fn raised(airless: &Direction, air: &Air, site: &Site) -> Direction {
    let altitude_rad = airless.altitude_rad + refraction_rad(airless.altitude_rad, air);
    Direction::from_azimuth(airless.azimuth_rad, altitude_rad, site)
}
