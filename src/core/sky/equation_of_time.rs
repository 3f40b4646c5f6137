//! The equation of time, taken apart into its two causes and a rest.

use super::ApparentSun;
use super::angle::half_turn;
use crate::core::time::EarthTime;
use sofars::pnp;
use std::f64::consts::{PI, TAU};

/// The equation of time (apparent minus mean time) as the sum of its causes, seconds.
///
/// With `L` the geometric mean longitude of the Sun (mean equinox of date), `λ` its apparent
/// longitude (true ecliptic and equinox of date), `λ₀` its true longitude, which is `λ` freed from
/// nutation in longitude and from aberration, and `α` its apparent right ascension, each turned to
/// time at 240 s a degree:
///
/// - `eccentricity_s = L − λ₀`: the Earth runs unevenly on its ellipse (and the planets and the Moon
///   pull it by some 2 s to either side);
/// - `obliquity_s = λ − α`: the path is tilted to the equator;
/// - `rest_s`: what they leave of the whole. It is the equation of the equinoxes less the nutation
///   in longitude, and how the mean Sun of clocks, aberration included, is laid down and reckoned in
///   UT1 where `L` is in TT: under 0.4 s over 1900–2100, under 0.5 s over 1700–2200.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EquationOfTime {
    /// The part of the Earth's elliptic path.
    pub eccentricity_s: f64,
    /// The part of the tilt of the ecliptic.
    pub obliquity_s: f64,
    /// What is left: nutation, and the definition of the mean Sun.
    pub rest_s: f64,
}

/// Seconds of time in a radian.
const SECONDS_PER_RADIAN: f64 = 43_200.0 / PI;

/// Aberration of the Sun in longitude at 1 au, radians: 20.4898″ (light time on the Earth's orbit).
const ABERRATION_RAD: f64 = 20.4898 / 3600.0 * PI / 180.0;

impl EquationOfTime {
    /// Takes the equation of time of `sun` apart; nutation in longitude and obliquity, radians.
    #[must_use]
    pub fn of(sun: &ApparentSun, time: &EarthTime, nutation_rad: (f64, f64)) -> Self {
        let (jd1, jd2) = time.jd_tt();
        let obliquity_rad = pnp::obl06(jd1, jd2) + nutation_rad.1;
        let (sin_e, cos_e) = obliquity_rad.sin_cos();
        let (sin_a, cos_a) = sun.right_ascension_rad.sin_cos();
        let north = sun.declination_rad.tan();
        let longitude_rad = (sin_a * cos_e + north * sin_e).atan2(cos_a);
        let true_rad = longitude_rad - nutation_rad.0 + ABERRATION_RAD / sun.distance_au;
        let seconds = |angle_rad: f64| half_turn(angle_rad) * SECONDS_PER_RADIAN;
        let eccentricity_s = seconds(mean_longitude_rad(time) - true_rad);
        let obliquity_s = seconds(longitude_rad - sun.right_ascension_rad);
        let rest_s = sun.equation_of_time_s - eccentricity_s - obliquity_s;
        Self { eccentricity_s, obliquity_s, rest_s }
    }

    /// The same as it is added to a dial, mean minus apparent time: every cause with its sign turned.
    #[must_use]
    pub fn to_mean(&self) -> Self {
        Self {
            eccentricity_s: -self.eccentricity_s,
            obliquity_s: -self.obliquity_s,
            rest_s: -self.rest_s,
        }
    }

    /// The whole equation of time, seconds.
    #[must_use]
    pub fn total_s(&self) -> f64 {
        self.eccentricity_s + self.obliquity_s + self.rest_s
    }
}

/// The Sun's geometric mean longitude, mean equinox of date, radians.
///
/// J. Meeus, *Astronomical Algorithms*, 2nd ed. (1998), 25.2, after the IAU's theory of the Earth.
fn mean_longitude_rad(time: &EarthTime) -> f64 {
    let centuries = time.tt_days_from_j2000() / 36_525.0;
    let degrees = 280.466_46 + (36_000.769_83 + 0.000_303_2 * centuries) * centuries;
    degrees.to_radians() % TAU
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::sky::apparent_sun;
    use crate::core::time::Instant;
    use chrono::NaiveDate;

    /// At 12:00 universal time of a date.
    fn causes(year: i32, month: u32, day: u32) -> (EquationOfTime, f64) {
        let date = NaiveDate::from_ymd_opt(year, month, day).unwrap_or_default();
        let noon = Instant::from_date(date).and_then(|midnight| midnight.plus_seconds(43_200.0));
        let time = EarthTime::from_instant(noon.unwrap_or(Instant::FIRST));
        let (jd1, jd2) = time.jd_tt();
        let sun = apparent_sun(&time);
        (EquationOfTime::of(&sun, &time, pnp::nut00b(jd1, jd2)), sun.equation_of_time_s)
    }

    #[test]
    fn the_parts_add_up_and_the_rest_is_small() {
        let mut worst = (0.0_f64, 0.0_f64);
        for year in (1700..=2200).step_by(4) {
            for month in 1..=12 {
                let (parts, whole_s) = causes(year, month, 3 + month * 2);
                assert!((parts.total_s() - whole_s).abs() < 1e-9);
                let rest_s = parts.rest_s.abs();
                worst.1 = worst.1.max(rest_s);
                if (1900..=2100).contains(&year) {
                    worst.0 = worst.0.max(rest_s);
                }
            }
        }
        println!("rest: {:.3} s over 1900–2100, {:.3} s over 1700–2200", worst.0, worst.1);
        assert!(worst.0 < 0.4 && worst.1 < 0.5, "{worst:?}");
    }

    /// On a Kepler ellipse of e = 0.0167 with perihelion at 282.9° and a tilt of 23.44°, the parts
    /// are known in closed form: `−2e sin M − 5/4 e² sin 2M` and `tan²(ε/2) sin 2λ − …`.
    #[test]
    fn the_parts_are_those_of_an_ellipse_and_a_tilt() {
        for month in 1..=12 {
            let (parts, _) = causes(2026, month, 11);
            let date = NaiveDate::from_ymd_opt(2026, month, 11).unwrap_or_default();
            let days = f64::from(date.to_epoch_days()) - 10_957.0;
            let anomaly_rad = (357.529 + 0.985_600_28 * days).to_radians();
            let e = 0.016_708 - 4.2e-5 * days / 36_525.0;
            let centre_rad = (2.0 * e - e.powi(3) / 4.0) * anomaly_rad.sin()
                + 1.25 * e * e * (2.0 * anomaly_rad).sin();
            let eccentricity_s = -centre_rad * SECONDS_PER_RADIAN;
            let mean_rad = (280.466 + 0.985_647_36 * days).to_radians();
            let longitude_rad = mean_rad + centre_rad;
            let y = (23.4367_f64 / 2.0).to_radians().tan().powi(2);
            let series = y * (2.0 * longitude_rad).sin()
                - y * y / 2.0 * (4.0 * longitude_rad).sin()
                + y.powi(3) / 3.0 * (6.0 * longitude_rad).sin();
            let obliquity_s = series * SECONDS_PER_RADIAN;
            // What the planets and the Moon do, which the ellipse leaves out, sums to some 35″, 2.3 s.
            let off = (parts.eccentricity_s - eccentricity_s, parts.obliquity_s - obliquity_s);
            assert!(off.0.abs() < 3.0 && off.1.abs() < 0.5, "month {month}: {off:?}");
        }
    }
}
