//! The soft edge: how much of the Sun's disc a point of the stone sees past a straight edge.

use std::f64::consts::PI;

/// Share of a uniform disc that stands clear of a straight edge, 0 dark to 1 full.
///
/// `x` is how far the disc's centre stands past the edge, in semidiameters: −1 just hidden,
/// 0 half, +1 just clear. Exact (area of a circular segment).
#[must_use]
pub fn uncovered_fraction(x: f64) -> f64 {
    let x = x.clamp(-1.0, 1.0);
    0.5 + (x * (1.0 - x * x).sqrt() + x.asin()) / PI
}

/// Hour angle through which the disc passes while its edge crosses the style's: the half width
/// of the penumbra on the quadrant, radians. Valid away from the poles of the dial.
#[must_use]
pub fn half_width_rad(semidiameter_rad: f64, declination_rad: f64) -> f64 {
    semidiameter_rad / declination_rad.cos()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_the_disc_is_seen_at_the_edge_and_the_two_sides_add_up() {
        assert!((uncovered_fraction(0.0) - 0.5).abs() < 1e-15);
        for x in [0.1, 0.3, 0.7, 1.0, 1.5] {
            let sum = uncovered_fraction(x) + uncovered_fraction(-x);
            assert!((sum - 1.0).abs() < 1e-15, "{x}: {sum}");
        }
        assert_eq!(uncovered_fraction(2.0), 1.0);
    }
}
