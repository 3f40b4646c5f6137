//! The dial axes: where the equator, the meridian and the pole stand in the site frame.

use glam::DVec3;

use crate::core::instrument::Alignment;

/// Unit vectors `E`, `M`, `P` of a dial, in the site frame (`x` east, `y` north, `z` up).
///
/// `E × P = M`. For a dial built true, `E` is east, `M` points where the celestial
/// equator crosses the upper meridian and `P` at the north celestial pole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DialFrame {
    /// Across the wall, towards the east quadrant.
    pub e: DVec3,
    /// Square to the wall's slope, upwards.
    pub m: DVec3,
    /// Along the style, towards the north.
    pub p: DVec3,
}

/// A direction as a dial sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DialAngles {
    /// Angle about the style, west positive, zero in the plane of the wall, in [−π, π] radians.
    pub hour_angle_rad: f64,
    /// Angle from the plane of the quadrants, north positive, radians.
    pub declination_rad: f64,
}

impl DialFrame {
    /// Axes of a dial built true for a latitude (radians, north positive).
    #[must_use]
    pub fn at_latitude(latitude_rad: f64) -> Self {
        Self::turned(latitude_rad, 0.0)
    }

    /// Axes of a dial with its errors of construction.
    #[must_use]
    pub fn as_built(latitude_rad: f64, alignment: &Alignment) -> Self {
        let altitude_rad = latitude_rad + alignment.gnomon_altitude_deg.to_radians();
        Self::turned(altitude_rad, alignment.gnomon_azimuth_deg.to_radians())
    }

    /// Axes whose `P` stands at this altitude, and this far east of north.
    fn turned(altitude_rad: f64, azimuth_rad: f64) -> Self {
        let (sin_azimuth, cos_azimuth) = azimuth_rad.sin_cos();
        let (sin_altitude, cos_altitude) = altitude_rad.sin_cos();
        let e = DVec3::new(cos_azimuth, -sin_azimuth, 0.0);
        let p = DVec3::new(sin_azimuth * cos_altitude, cos_azimuth * cos_altitude, sin_altitude);
        Self { e, m: e.cross(p), p }
    }

    /// Unit vector towards a body at these angles.
    #[must_use]
    pub fn towards(&self, angles: DialAngles) -> DVec3 {
        let (sin_h, cos_h) = angles.hour_angle_rad.sin_cos();
        let (sin_d, cos_d) = angles.declination_rad.sin_cos();
        self.m * (cos_d * cos_h) - self.e * (cos_d * sin_h) + self.p * sin_d
    }

    /// Angles of a direction (any length but zero). Along the style the hour angle is zero.
    #[must_use]
    pub fn angles(&self, direction: DVec3) -> DialAngles {
        let along_m = direction.dot(self.m);
        let along_e = direction.dot(self.e);
        let along_p = direction.dot(self.p);
        DialAngles {
            hour_angle_rad: (-along_e).atan2(along_m),
            declination_rad: along_p.atan2(along_m.hypot(along_e)),
        }
    }

    /// A point given by its components along `E`, `M`, `P`, in the site frame.
    #[must_use]
    pub fn point(&self, e: f64, m: f64, p: f64) -> DVec3 {
        self.e * e + self.m * m + self.p * p
    }

    /// Components of a site-frame vector along `E`, `M`, `P`, as `x`, `y`, `z`.
    #[must_use]
    pub fn components(&self, vector: DVec3) -> DVec3 {
        DVec3::new(vector.dot(self.e), vector.dot(self.m), vector.dot(self.p))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rounding of a handful of double-precision products of unit vectors.
    const ROUNDING: f64 = 1e-14;

    #[test]
    fn axes_are_those_of_the_site_in_both_hemispheres() {
        for latitude_deg in [-90.0_f64, -34.2, 0.0, 31.6, 90.0] {
            let (sin, cos) = latitude_deg.to_radians().sin_cos();
            let frame = DialFrame::at_latitude(latitude_deg.to_radians());
            assert!(frame.e.distance(DVec3::X) < ROUNDING);
            assert!(frame.p.distance(DVec3::new(0.0, cos, sin)) < ROUNDING);
            assert!(frame.m.distance(DVec3::new(0.0, -sin, cos)) < ROUNDING);
        }
    }

    #[test]
    fn a_turned_wall_points_east_of_north_and_higher() {
        let alignment =
            Alignment { gnomon_azimuth_deg: 1.0, gnomon_altitude_deg: 0.5, ..Alignment::default() };
        let frame = DialFrame::as_built(40_f64.to_radians(), &alignment);
        let azimuth_deg = frame.p.x.atan2(frame.p.y).to_degrees();
        assert!((azimuth_deg - 1.0).abs() < 1e-12);
        assert!((frame.p.z.asin().to_degrees() - 40.5).abs() < 1e-12);
    }
}
