//! A place on the Earth.

use crate::core::field::{FieldError, within};
use glam::DVec3;

/// A place on the Earth, geodetic on the WGS84 ellipsoid.
///
/// Latitude −90° to +90° (poles included), longitude −180° to +180°, elevation above the ellipsoid
/// −500 m to +9000 m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Site {
    latitude_rad: f64,
    longitude_rad: f64,
    elevation_m: f64,
    sin_latitude: f64,
    cos_latitude: f64,
}

impl Site {
    /// A site from its latitude (degrees north), longitude (degrees east) and elevation (metres
    /// above the ellipsoid).
    ///
    /// # Errors
    /// [`FieldError`] names the part that is out of range or not a number.
    pub fn from_degrees(
        latitude_deg: f64,
        longitude_deg: f64,
        elevation_m: f64,
    ) -> Result<Self, FieldError> {
        within("latitude", latitude_deg, (-90.0, 90.0), "-90° to +90°")?;
        within("longitude", longitude_deg, (-180.0, 180.0), "-180° to +180°")?;
        within("elevation", elevation_m, (-500.0, 9000.0), "-500 m to 9000 m")?;
        let latitude_rad = latitude_deg.to_radians();
        let (sin_latitude, cos_latitude) = latitude_rad.sin_cos();
        Ok(Self {
            latitude_rad,
            longitude_rad: longitude_deg.to_radians(),
            elevation_m,
            sin_latitude,
            cos_latitude,
        })
    }

    /// Geodetic latitude in radians, positive north.
    #[must_use]
    pub const fn latitude_rad(&self) -> f64 {
        self.latitude_rad
    }

    /// Longitude in radians, positive east.
    #[must_use]
    pub const fn longitude_rad(&self) -> f64 {
        self.longitude_rad
    }

    /// Geodetic latitude in degrees, positive north.
    #[must_use]
    pub fn latitude_deg(&self) -> f64 {
        self.latitude_rad.to_degrees()
    }

    /// Longitude in degrees, positive east.
    #[must_use]
    pub fn longitude_deg(&self) -> f64 {
        self.longitude_rad.to_degrees()
    }

    /// Elevation above the ellipsoid in metres.
    #[must_use]
    pub const fn elevation_m(&self) -> f64 {
        self.elevation_m
    }

    /// The sine and the cosine of the latitude.
    #[must_use]
    pub const fn latitude_sin_cos(&self) -> (f64, f64) {
        (self.sin_latitude, self.cos_latitude)
    }

    /// A vector given by its parts along the dial axes `M`, `−E` (west) and `P`, in the site frame.
    pub(super) fn vector_along_axes(&self, DVec3 { x: m, y: w, z: p }: DVec3) -> DVec3 {
        let (sin, cos) = self.latitude_sin_cos();
        DVec3::new(-w, p * cos - m * sin, m * cos + p * sin)
    }

    /// The parts along the dial axes `M`, `−E` (west) and `P` of a vector in the site frame.
    pub(super) fn parts_along_axes(&self, DVec3 { x, y, z }: DVec3) -> DVec3 {
        let (sin, cos) = self.latitude_sin_cos();
        DVec3::new(z * cos - y * sin, -x, y * cos + z * sin)
    }

    /// Distance from the Earth's axis and height over the plane of the equator, in metres.
    pub(super) fn meridian_place_m(&self) -> (f64, f64) {
        let (sin, cos) = self.latitude_sin_cos();
        let polar_ratio2 = (1.0 - WGS84_FLATTENING).powi(2);
        let normal_m = WGS84_RADIUS_M / (cos * cos + polar_ratio2 * sin * sin).sqrt();
        ((normal_m + self.elevation_m) * cos, (polar_ratio2 * normal_m + self.elevation_m) * sin)
    }
}

/// Equatorial radius of the WGS84 ellipsoid in metres.
const WGS84_RADIUS_M: f64 = 6_378_137.0;

/// Flattening of the WGS84 ellipsoid.
const WGS84_FLATTENING: f64 = 1.0 / 298.257_223_563;
