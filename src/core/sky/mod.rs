//! Sky.
use crate::core::{
    dial::DialFrame,
    field::{FieldError, in_range},
    time::EarthTime,
};
use glam::DVec3;
/// Site
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Site {
    lat: f64,
    lon: f64,
    h: f64,
}
impl Site {
    /// new
    pub fn from_degrees(lat: f64, lon: f64, h: f64) -> Result<Self, FieldError> {
        Ok(Self {
            lat: in_range("latitude", lat, (-90.0, 90.0), "°")?.to_radians(),
            lon: in_range("longitude", lon, (-180.0, 180.0), "°")?.to_radians(),
            h: in_range("elevation", h, (-500.0, 9000.0), "m")?,
        })
    }
    /// lat
    pub fn latitude_rad(&self) -> f64 {
        self.lat
    }
    /// lon
    pub fn longitude_rad(&self) -> f64 {
        self.lon
    }
    /// h
    pub fn elevation_m(&self) -> f64 {
        self.h
    }
}
/// Sun
#[derive(Clone, Copy, Debug, PartialEq)]
#[allow(missing_docs, reason = "provisional")]
pub struct ApparentSun {
    pub right_ascension_rad: f64,
    pub declination_rad: f64,
    pub distance_au: f64,
    pub semidiameter_rad: f64,
    pub sidereal_time_rad: f64,
    pub equation_of_time_s: f64,
}
/// Direction
#[derive(Clone, Copy, Debug, PartialEq)]
#[allow(missing_docs, reason = "provisional")]
pub struct Direction {
    pub vector: DVec3,
    pub hour_angle_rad: f64,
    pub declination_rad: f64,
    pub azimuth_rad: f64,
    pub altitude_rad: f64,
}
/// Air
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// p
    pub pressure_hpa: f64,
    /// t
    pub temperature_c: f64,
}
impl Default for Air {
    fn default() -> Self {
        Self { pressure_hpa: 1010.0, temperature_c: 10.0 }
    }
}
/// Sun at site
#[derive(Clone, Copy, Debug, PartialEq)]
#[allow(missing_docs, reason = "provisional")]
pub struct SunAtSite {
    pub airless: Direction,
    pub seen: Direction,
    pub semidiameter_rad: f64,
    pub sun: ApparentSun,
}
/// Track
#[derive(Clone, Debug, Default)]
pub struct SunTrack;
impl SunTrack {
    /// new
    pub fn new() -> Self {
        Self
    }
    /// at
    pub fn at(&mut self, t: &EarthTime) -> ApparentSun {
        apparent_sun(t)
    }
}
/// full
pub fn apparent_sun(t: &EarthTime) -> ApparentSun {
    let Some((h, b)) = sofars::eph::epv00(t.tt.0, t.tt.1) else { unreachable!() };
    let v = DVec3::from_array(b[1]) / 173.144_632_684_669_3;
    let s = -DVec3::from_array(h[0]);
    let d = (s / s.length() + v).normalize();
    let m = sofars::pnp::pnm00b(t.tt.0, t.tt.1);
    let r = |k: usize| DVec3::from_array(m[k]).dot(d);
    let ra = r(1).atan2(r(0));
    let dec = r(2).asin();
    let gast = sofars::erst::gst00b(t.ut1.0, t.ut1.1);
    let mean = ((t.ut1.0 % 1.0) + t.ut1.1) * std::f64::consts::TAU;
    let eot = crate::core::shadow::wrapped(gast - ra - mean) * 43200.0 / std::f64::consts::PI;
    ApparentSun {
        right_ascension_rad: ra.rem_euclid(std::f64::consts::TAU),
        declination_rad: dec,
        distance_au: s.length(),
        semidiameter_rad: (959.63f64 / 3600.0).to_radians() / s.length(),
        sidereal_time_rad: gast,
        equation_of_time_s: eot,
    }
}
/// at site
pub fn sun_at_site(sun: &ApparentSun, site: &Site, air: Option<&Air>) -> SunAtSite {
    let f = DialFrame::at_latitude(site.lat);
    let h =
        crate::core::shadow::wrapped(sun.sidereal_time_rad + site.lon - sun.right_ascension_rad);
    let v = f.towards(crate::core::dial::DialAngles {
        hour_angle_rad: h,
        declination_rad: sun.declination_rad,
    });
    let dir = |v: DVec3| {
        let a = f.angles(v);
        Direction {
            vector: v,
            hour_angle_rad: a.hour_angle_rad,
            declination_rad: a.declination_rad,
            azimuth_rad: v.x.atan2(v.y).rem_euclid(std::f64::consts::TAU),
            altitude_rad: v.z.clamp(-1.0, 1.0).asin(),
        }
    };
    let airless = dir(v);
    let alt = airless.altitude_rad.to_degrees();
    let lift = if air.is_some() && alt > -1.0 {
        (1.02 / (60.0 * ((alt + 10.3 / (alt + 5.11)).to_radians()).tan())).to_radians()
    } else {
        0.0
    };
    let flat = DVec3::new(v.x, v.y, 0.0);
    let n = flat.length();
    let seen = if n > 1e-12 {
        let a = airless.altitude_rad + lift;
        dir(flat / n * a.cos() + DVec3::Z * a.sin())
    } else {
        airless
    };
    SunAtSite { airless, seen, semidiameter_rad: sun.semidiameter_rad, sun: *sun }
}
