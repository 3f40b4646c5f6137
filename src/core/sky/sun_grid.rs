//! The apparent Sun of a whole year at the price of a hundred computations.

use super::ApparentSun;
use super::apparent_sun::{J2000_JD, SmoothSky, sky_and_nutation};
use crate::core::time::EarthTime;
use glam::{DVec2, DVec4};

/// The apparent Sun and the nutation at even steps of four days, and anywhere between them.
///
/// For tables that want every day of a year and milliarcseconds least: it takes less than half the
/// work of a [`SunTrack`](super::SunTrack) over the same time.
///
/// # Accuracy
/// The Sun differs from that of [`apparent_sun`](super::apparent_sun) by less than 0.1″, and the
/// equation of time by less than 0.004 s, anywhere from 1700 to 2200; a test holds them to it.
#[derive(Clone, Debug)]
pub struct SunGrid {
    /// Days of TT from J2000.0 to the first node.
    first_days: f64,
    nodes: Vec<Node>,
}

/// Days between two nodes.
const STEP_DAYS: f64 = 4.0;

/// Nodes between which a value is interpolated.
const POINTS: usize = 8;

/// What the polynomial through eight even nodes weighs each of them with: (−1)ᵏ (7 over k).
const WEIGHTS: [f64; POINTS] = [1.0, -7.0, 21.0, -35.0, 35.0, -21.0, 7.0, -1.0];

/// The sky at one node.
#[derive(Clone, Copy, Debug)]
struct Node {
    /// The Sun's x, y, z in au and the equation of the origins in radians.
    sky: DVec4,
    /// Nutation in longitude and in obliquity, radians.
    nutation: DVec2,
}

impl SunGrid {
    /// The grid from one moment to another, both in days of TT from J2000.0.
    #[must_use]
    pub fn between(from_days: f64, to_days: f64) -> Self {
        let margin_days = STEP_DAYS * (POINTS / 2) as f64;
        let first_days = from_days - margin_days;
        let steps = ((to_days - first_days + margin_days) / STEP_DAYS).ceil().max(0.0) as usize;
        let node = |index: usize| Node::compute(first_days + index as f64 * STEP_DAYS);
        Self { first_days, nodes: (0..=steps.max(POINTS)).map(node).collect() }
    }

    /// The apparent Sun at `time`, and the nutation in longitude and in obliquity, radians.
    ///
    /// Outside the grid the answer is that of its polynomial, and worthless a few days away.
    #[must_use]
    pub fn at(&self, time: &EarthTime) -> (ApparentSun, (f64, f64)) {
        let position = (time.tt_days_from_j2000() - self.first_days) / STEP_DAYS;
        let last_start = self.nodes.len() - POINTS;
        let start = (position.floor() - (POINTS / 2 - 1) as f64).max(0.0) as usize;
        let start = start.min(last_start);
        let (sky, nutation) = self.interpolate(start, position - start as f64);
        let smooth = SmoothSky { sun_au: sky.truncate(), equation_of_origins_rad: sky.w };
        (smooth.at(time), (nutation.x, nutation.y))
    }

    /// The polynomial through eight nodes, by the barycentric formula.
    fn interpolate(&self, start: usize, place: f64) -> (DVec4, DVec2) {
        let (mut sky, mut nutation, mut whole) = (DVec4::ZERO, DVec2::ZERO, 0.0);
        for (index, (node, weight)) in self.nodes[start..].iter().zip(WEIGHTS).enumerate() {
            let away = place - index as f64;
            if away == 0.0 {
                return (node.sky, node.nutation);
            }
            let part = weight / away;
            sky += node.sky * part;
            nutation += node.nutation * part;
            whole += part;
        }
        (sky / whole, nutation / whole)
    }
}

impl Node {
    fn compute(tt_days: f64) -> Self {
        let (sky, nutation_rad) = sky_and_nutation((J2000_JD, tt_days));
        Self { sky: sky.sun_au.extend(sky.equation_of_origins_rad), nutation: nutation_rad.into() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::sky::apparent_sun;

    /// Days from J2000.0 at which tested years begin, from 1701 to 2199.
    const STARTS: [f64; 8] =
        [-109_206.0, -72_682.0, -36_524.0, -3_652.0, 0.0, 9_497.0, 36_525.0, 72_684.0];

    #[test]
    fn the_grid_gives_the_computed_sun() {
        let (mut worst_rad, mut worst_s) = (0.0_f64, 0.0_f64);
        for start in STARTS {
            let grid = SunGrid::between(start, start + 366.0);
            for step in 0..=732 {
                let days = start + f64::from(step) / 2.0 + 0.137;
                let time = EarthTime::from_ut1(J2000_JD, days, 0.0);
                let ((grid, _), full) = (grid.at(&time), apparent_sun(&time));
                let across = (grid.right_ascension_rad - full.right_ascension_rad).sin()
                    * full.declination_rad.cos();
                let along = grid.declination_rad - full.declination_rad;
                worst_rad = worst_rad.max(across.hypot(along));
                worst_s = worst_s.max((grid.equation_of_time_s - full.equation_of_time_s).abs());
            }
        }
        let worst_arcsec = worst_rad.to_degrees() * 3600.0;
        println!("grid: {worst_arcsec:.4}″, equation of time {worst_s:.5} s");
        assert!(worst_arcsec < 0.1, "{worst_arcsec}″");
        assert!(worst_s < 0.004, "{worst_s} s");
    }
}
