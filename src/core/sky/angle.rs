//! Bringing angles into their ranges.

use std::f64::consts::{PI, TAU};

/// The angle brought into [0, 2π).
pub(crate) fn turn(angle_rad: f64) -> f64 {
    let turned = angle_rad.rem_euclid(TAU);
    // An angle a rounding below zero comes out as 2π.
    if turned < TAU { turned } else { 0.0 }
}

/// The angle brought into (−π, π].
pub(crate) fn half_turn(angle_rad: f64) -> f64 {
    PI - turn(PI - angle_rad)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranges_are_half_open() {
        assert_eq!(turn(-1e-300), 0.0);
        assert_eq!(turn(TAU), 0.0);
        assert_eq!(half_turn(-PI), PI);
        assert_eq!(half_turn(PI), PI);
        assert_eq!(half_turn(0.0), 0.0);
    }
}
