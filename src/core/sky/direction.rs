//! A direction in the sky of a site.

use super::Site;
use super::angle::{half_turn, turn};
use glam::DVec3;

/// A direction in the sky of a site, in its three descriptions at once.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Direction {
    /// Unit vector in the site frame: x east, y north, z up.
    pub vector: DVec3,
    /// Hour angle in radians, positive west, in (−π, π].
    pub hour_angle_rad: f64,
    /// Declination in radians, positive north.
    pub declination_rad: f64,
    /// Azimuth in radians from north through east, in [0, 2π).
    pub azimuth_rad: f64,
    /// Altitude over the horizon in radians; the horizon is normal to the ellipsoid.
    pub altitude_rad: f64,
}

impl Direction {
    /// The direction of a vector in the site frame, of any length but zero.
    ///
    /// In the zenith and the nadir the azimuth is a conventional 0, as is the hour angle at the
    /// celestial poles.
    #[must_use]
    pub fn from_vector(vector: DVec3, site: &Site) -> Self {
        let vector = vector.normalize();
        let DVec3 { x: m, y: w, z: p } = site.parts_along_axes(vector);
        Self {
            vector,
            hour_angle_rad: half_turn(w.atan2(m)),
            declination_rad: p.atan2(m.hypot(w)),
            azimuth_rad: turn(vector.x.atan2(vector.y)),
            altitude_rad: vector.z.atan2(vector.x.hypot(vector.y)),
        }
    }

    /// The direction at an hour angle (positive west) and a declination, in radians.
    #[must_use]
    pub fn from_hour_angle(hour_angle_rad: f64, declination_rad: f64, site: &Site) -> Self {
        let (sin_h, cos_h) = hour_angle_rad.sin_cos();
        let (sin_d, cos_d) = declination_rad.sin_cos();
        let along_axes = DVec3::new(cos_d * cos_h, cos_d * sin_h, sin_d);
        Self::from_vector(site.vector_along_axes(along_axes), site)
    }

    /// The direction at an azimuth (from north through east) and an altitude, in radians.
    #[must_use]
    pub fn from_azimuth(azimuth_rad: f64, altitude_rad: f64, site: &Site) -> Self {
        let (sin_a, cos_a) = azimuth_rad.sin_cos();
        let (sin_h, cos_h) = altitude_rad.sin_cos();
        Self::from_vector(DVec3::new(cos_h * sin_a, cos_h * cos_a, sin_h), site)
    }
}
