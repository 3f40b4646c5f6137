//! The Earth's place and motion among the Sun and planets.

use super::earth_series::{BARYCENTRE_TO_SUN, Row, SUN_TO_EARTH, Series, Table};
use glam::DVec3;

/// The Earth at one moment, in au and au per day along the axes of the BCRS.
#[derive(Clone, Copy, Debug)]
pub(super) struct Earth {
    /// From the Sun to the Earth.
    pub(super) from_sun: DVec3,
    /// The Earth's velocity about the barycentre of the Solar System.
    pub(super) velocity: DVec3,
    /// The Sun's velocity about the barycentre of the Solar System.
    pub(super) sun_velocity: DVec3,
}

/// The Earth `tdb_days` days (TDB) after J2000.0.
///
/// The model is that of the IAU SOFA routine `epv00` without its slight terms, which move the Sun by
/// 0.011″ at most.
///
/// # Accuracy
/// Against JPL DE405 within 11 km (0.015″ of the Sun's place) over 1900–2100, and about twice that
/// by 1800 and 2200, according to the routine's notes.
pub(super) fn earth(tdb_days: f64) -> Earth {
    let years = tdb_days / DAYS_PER_YEAR;
    let (from_sun, velocity_from_sun) = sum(&SUN_TO_EARTH, years);
    let (_, sun_velocity) = sum(&BARYCENTRE_TO_SUN, years);
    Earth {
        from_sun: to_bcrs(from_sun),
        velocity: to_bcrs(velocity_from_sun + sun_velocity) / DAYS_PER_YEAR,
        sun_velocity: to_bcrs(sun_velocity) / DAYS_PER_YEAR,
    }
}

const DAYS_PER_YEAR: f64 = 365.25;

/// Position and velocity (per year) from a series.
fn sum(series: &Series, years: f64) -> (DVec3, DVec3) {
    let [(p0, v0), (p1, v1), (p2, v2)] = series.each_ref().map(|table| sum_power(table, years));
    let position = p0 + (p1 + p2 * years) * years;
    let velocity = v0 + p1 + (v1 + 2.0 * p2 + v2 * years) * years;
    (position, velocity)
}

/// The sum of the rows that share a power of time, and its rate by the change of the angles alone.
fn sum_power(table: &Table, years: f64) -> (DVec3, DVec3) {
    let mut position = DVec3::ZERO;
    let mut velocity = DVec3::ZERO;
    let mut add = |[rate, cx, cy, cz, sx, sy, sz]: Row<f64>| {
        let (sin, cos) = (rate * years).sin_cos();
        let (c, s) = (DVec3::new(cx, cy, cz), DVec3::new(sx, sy, sz));
        position += c * cos + s * sin;
        velocity += (s * cos - c * sin) * rate;
    };
    table.major.iter().for_each(|row| add(*row));
    table.minor.iter().for_each(|row| add(row.map(f64::from)));
    (position, velocity)
}

/// From the ecliptic axes of the theory to the BCRS, by the matrix of `epv00`.
fn to_bcrs(v: DVec3) -> DVec3 {
    DVec3::new(
        v.x + 0.000_000_211_284 * v.y - 0.000_000_091_603 * v.z,
        -0.000_000_230_286 * v.x + 0.917_482_137_087 * v.y - 0.397_776_982_902 * v.z,
        0.397_776_982_902 * v.y + 0.917_482_137_087 * v.z,
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use sofars::eph::epv00;

    /// What the slight terms add up to, au: 0.011″ of the Sun's place.
    const SLIGHT_AU: f64 = 5.5e-8;
    /// What they add to a velocity, au per day: as aberration 0.00002″.
    const SLIGHT_AU_PER_DAY: f64 = 2e-8;

    #[test]
    fn the_series_is_that_of_epv00() {
        for step in 0..200 {
            let days = -36_520.0 + 365.2 * f64::from(step);
            let Some((heliocentric, barycentric)) = epv00(2_451_545.0, days) else {
                panic!("epv00 has no answer {days} days from J2000.0");
            };
            let ours = earth(days);
            let from_sun_rate = ours.velocity - ours.sun_velocity;
            for (name, a, b, tolerance) in [
                ("from_sun", ours.from_sun, heliocentric[0], SLIGHT_AU),
                ("velocity", ours.velocity, barycentric[1], SLIGHT_AU_PER_DAY),
                ("velocity from the Sun", from_sun_rate, heliocentric[1], SLIGHT_AU_PER_DAY),
            ] {
                let off = (a - DVec3::from_array(b)).length();
                assert!(off < tolerance, "{name} off by {off} au, {days} days");
            }
        }
    }
}
