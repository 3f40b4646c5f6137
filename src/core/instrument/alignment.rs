//! How the masonry differs from the plan.

use serde::{Deserialize, Serialize};

use super::Side;
use crate::core::field::{FieldError, in_range};

/// Errors of construction; all zero for an instrument built as planned.
///
/// The wall carries both quadrants, so an error of its axis turns the whole instrument.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Alignment {
    /// Turn of the wall about the vertical, minutes of arc, positive when the end that points
    /// north stands east of north.
    pub gnomon_azimuth_arcmin: f64,
    /// Latitude for which the wall was built minus the site's, minutes of arc.
    pub gnomon_altitude_arcmin: f64,
    /// What the west quadrant shows when the edge is at its true XII, minutes of arc (15′ is one
    /// minute of time).
    pub west_zero_arcmin: f64,
    /// The same for the east quadrant.
    pub east_zero_arcmin: f64,
    /// Built minus planned radius of the west quadrant, millimetres. The divisions keep the
    /// lengths cut for the planned radius, laid off from XII.
    pub west_radius_error_mm: f64,
    /// The same for the east quadrant.
    pub east_radius_error_mm: f64,
}

impl Alignment {
    /// Zero offset of a quadrant, radians.
    #[must_use]
    pub fn zero_rad(&self, side: Side) -> f64 {
        let arcmin = match side {
            Side::West => self.west_zero_arcmin,
            Side::East => self.east_zero_arcmin,
        };
        (arcmin / 60.0).to_radians()
    }

    /// Built minus planned radius of a quadrant, metres.
    #[must_use]
    pub fn radius_error_m(&self, side: Side) -> f64 {
        match side {
            Side::West => self.west_radius_error_mm / 1000.0,
            Side::East => self.east_radius_error_mm / 1000.0,
        }
    }

    /// Whether the instrument stands as planned.
    #[must_use]
    pub fn is_none(&self) -> bool {
        *self == Self::default()
    }

    /// Refuses errors so large that the instrument would not be recognised as one.
    pub(super) fn check(&self, radius_m: f64) -> Result<(), FieldError> {
        let five_degrees = (-300.0, 300.0);
        in_range("gnomon azimuth error", self.gnomon_azimuth_arcmin, five_degrees, "′")?;
        in_range("gnomon altitude error", self.gnomon_altitude_arcmin, five_degrees, "′")?;
        in_range("west quadrant's zero error", self.west_zero_arcmin, five_degrees, "′")?;
        in_range("east quadrant's zero error", self.east_zero_arcmin, five_degrees, "′")?;
        let twentieth = radius_m * 1000.0 / 20.0;
        let limits = (-twentieth, twentieth);
        in_range("west quadrant's radius error", self.west_radius_error_mm, limits, "mm")?;
        in_range("east quadrant's radius error", self.east_radius_error_mm, limits, "mm")?;
        Ok(())
    }
}
