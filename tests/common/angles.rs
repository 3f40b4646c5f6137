//! Differences of angles.

/// Arcseconds in a degree.
pub const ARCSECONDS_PER_DEGREE: f64 = 3600.0;

/// `a − b` in arcseconds, both in degrees, by the shorter way round.
pub fn arcseconds_between(a_deg: f64, b_deg: f64) -> f64 {
    let difference = (a_deg - b_deg).rem_euclid(360.0);
    let shorter = if difference > 180.0 { difference - 360.0 } else { difference };
    shorter * ARCSECONDS_PER_DEGREE
}
