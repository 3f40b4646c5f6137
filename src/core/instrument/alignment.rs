//! How the masonry differs from the plan.

use super::Side;

/// Errors of construction; all zero for an instrument built as planned.
///
/// The wall carries both quadrants, so an error of its axis turns the whole instrument.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Alignment {
    /// Turn of the wall about the vertical, degrees, positive when the end that points north
    /// stands east of north.
    pub gnomon_azimuth_deg: f64,
    /// Latitude for which the wall was built minus the site's, degrees.
    pub gnomon_altitude_deg: f64,
    /// What the west quadrant shows when the edge is at its true XII, degrees (15′ is one minute
    /// of time).
    pub west_zero_deg: f64,
    /// The same for the east quadrant.
    pub east_zero_deg: f64,
    /// Built minus planned radius of the west quadrant, metres. The divisions keep the lengths
    /// cut for the planned radius, laid off from XII.
    pub west_radius_error_m: f64,
    /// The same for the east quadrant.
    pub east_radius_error_m: f64,
}

impl Alignment {
    /// Zero offset of a quadrant, radians.
    #[must_use]
    pub fn zero_rad(&self, side: Side) -> f64 {
        match side {
            Side::West => self.west_zero_deg.to_radians(),
            Side::East => self.east_zero_deg.to_radians(),
        }
    }

    /// Built minus planned radius of a quadrant, metres.
    #[must_use]
    pub fn radius_error_m(&self, side: Side) -> f64 {
        match side {
            Side::West => self.west_radius_error_m,
            Side::East => self.east_radius_error_m,
        }
    }

    /// Whether the instrument stands as planned.
    #[must_use]
    pub fn is_none(&self) -> bool {
        *self == Self::default()
    }
}
