//! The apparent Sun by interpolation.

use super::apparent_sun::{J2000_JD, SmoothSky, smooth_sky};
use super::{Air, ApparentSun, Site, SunAtSite, sun_at_site};
use crate::core::time::{EarthTime, Instant};
use glam::DVec4;
use std::f64::consts::PI;

/// The apparent Sun, remembered: what [`apparent_sun`](super::apparent_sun) answers, at a small part
/// of its cost when the times asked for lie near each other.
///
/// The Sun's place and the equation of the origins are kept as Chebyshev polynomials over stretches
/// of 32 days of TT; the Earth's rotation is computed afresh each time. The last sixteen stretches
/// are kept, enough for a year's table to be made twice at the price of once.
///
/// # Accuracy
/// The Sun and sidereal time differ from those of `apparent_sun` by less than 0.003″, anywhere from
/// 1700 to 2200; a test holds them to it.
#[derive(Clone, Debug, Default)]
pub struct SunTrack {
    /// The stretches in use, the one used last in front.
    stretches: Vec<Stretch>,
}

/// Length of a stretch in days.
const STRETCH_DAYS: f64 = 32.0;

/// Places in a stretch where the Sun is computed, and coefficients of its polynomials.
const NODES: usize = 18;

/// How many stretches are kept.
const STRETCHES_KEPT: usize = 16;

/// The polynomials of one stretch.
#[derive(Clone, Debug)]
struct Stretch {
    /// How many stretches it lies after the one that begins at J2000.0.
    number: f64,
    /// Coefficients of the Chebyshev polynomials, degree 0 first, of the Sun's x, y, z in au and of
    /// the equation of the origins in radians.
    coefficients: [DVec4; NODES],
}

impl SunTrack {
    /// A track that remembers nothing yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// The apparent Sun at `time`.
    #[must_use]
    pub fn at(&mut self, time: &EarthTime) -> ApparentSun {
        let position = time.tt_days_from_j2000() / STRETCH_DAYS;
        let number = position.floor();
        self.bring_to_front(number);
        self.stretches[0].at(position - number).at(time)
    }

    /// The Sun over a site at an instant, through air if there is any.
    #[must_use]
    pub fn over(&mut self, site: &Site, instant: Instant, air: Option<&Air>) -> SunAtSite {
        sun_at_site(&self.at(&EarthTime::from_instant(instant)), site, air)
    }

    /// Makes the stretch of this number the first one, computing it if it is not remembered.
    fn bring_to_front(&mut self, number: f64) {
        let found = self.stretches.iter().position(|s| s.number == number);
        let place = found.unwrap_or_else(|| {
            self.stretches.truncate(STRETCHES_KEPT - 1);
            self.stretches.push(Stretch::compute(number));
            self.stretches.len() - 1
        });
        self.stretches[..=place].rotate_right(1);
    }
}

impl Stretch {
    fn compute(number: f64) -> Self {
        let values: [DVec4; NODES] = std::array::from_fn(|k| {
            let position = number + (1.0 + node_angle(k).cos()) / 2.0;
            let sky = smooth_sky((J2000_JD, position * STRETCH_DAYS));
            sky.sun_au.extend(sky.equation_of_origins_rad)
        });
        Self { number, coefficients: std::array::from_fn(|degree| coefficient(degree, &values)) }
    }

    /// The sky at a part of the stretch, 0 to 1, by Clenshaw's recurrence.
    fn at(&self, part: f64) -> SmoothSky {
        let x = 2.0 * part - 1.0;
        let (mut b1, mut b2) = (DVec4::ZERO, DVec4::ZERO);
        for &c in self.coefficients[1..].iter().rev() {
            (b1, b2) = (c + b1 * (2.0 * x) - b2, b1);
        }
        let sum = self.coefficients[0] + b1 * x - b2;
        SmoothSky { sun_au: sum.truncate(), equation_of_origins_rad: sum.w }
    }
}

/// The angle whose cosine is the k-th zero of the Chebyshev polynomial of degree [`NODES`].
fn node_angle(k: usize) -> f64 {
    PI * (k as f64 + 0.5) / NODES as f64
}

/// The coefficient of one degree of the polynomial through the values at the nodes.
fn coefficient(degree: usize, values: &[DVec4; NODES]) -> DVec4 {
    let sum: DVec4 = values
        .iter()
        .enumerate()
        .map(|(k, &value)| value * (degree as f64 * node_angle(k)).cos())
        .sum();
    let weight = if degree == 0 { 1.0 } else { 2.0 };
    sum * (weight / NODES as f64)
}
