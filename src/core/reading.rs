//! What the dial shows: the edge of the shadow against the graduations, or why it shows nothing.

use std::f64::consts::{FRAC_PI_2, PI};

use crate::core::dial::DialAngles;
use crate::core::instrument::{AxialEnd, Instrument, Level, Side};
use crate::core::shadow::{NoEdge, ShadowEdge, shadow_edge};
use crate::core::sky::SunAtSite;

/// Local apparent time of the meridian, seconds since the midnight before.
pub const NOON_S: f64 = 43_200.0;
/// Seconds of time in a radian of hour angle.
pub const SECONDS_PER_RADIAN: f64 = 43_200.0 / PI;
/// Altitude of the Sun below which the sky gives no twilight, by common convention, degrees.
const NIGHT_ALTITUDE_DEG: f64 = -18.0;

/// A time read off a quadrant.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The shadow's edge that is read.
    pub edge: ShadowEdge,
    /// Where the edge lies on the graduation, not rounded: seconds since midnight, local apparent
    /// time as this instrument shows it.
    pub exact_s: f64,
    /// The nearest mark of the smallest division, seconds since midnight.
    pub shown_s: u32,
    /// The mark counted off level by level, hours first.
    pub counted: Vec<(Level, u32)>,
}

impl Reading {
    /// Reading minus true place of the edge, seconds.
    #[must_use]
    pub fn rounding_s(&self) -> f64 {
        f64::from(self.shown_s) - self.exact_s
    }
}

/// Why there is nothing to read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoReading {
    /// The Sun is more than 18° under the horizon.
    Night {
        /// Altitude of the Sun's centre, radians.
        altitude_rad: f64,
    },
    /// The Sun is under the horizon, but there is twilight.
    SunUnderHorizon {
        /// Altitude of the Sun's centre as seen, radians.
        altitude_rad: f64,
    },
    /// The Sun is up, more than six hours from the meridian: above the end of the quadrant.
    BeyondQuadrantEnd {
        /// The quadrant whose upper end it has not reached yet, or has passed.
        side: Side,
        /// What the dial would show if its arc went on, seconds since midnight.
        would_show_s: f64,
    },
    /// The edge is too near XII to be read on either quadrant.
    Blind {
        /// Seconds of dial time from XII, positive after noon.
        from_noon_s: f64,
    },
    /// The style ends before the ray that would reach the quadrant.
    StyleTooShort {
        /// The end that would have to be longer.
        end: AxialEnd,
        /// Missing length, metres.
        missing_m: f64,
    },
}

/// Angles of the Sun's centre in the instrument's own axes, as its light arrives.
#[must_use]
pub fn sun_on_dial(instrument: &Instrument, sun: &SunAtSite) -> DialAngles {
    instrument.frame().angles(sun.seen.vector)
}

/// Reads the dial.
///
/// # Errors
/// The reason when there is nothing to read.
pub fn read(instrument: &Instrument, sun: &SunAtSite) -> Result<Reading, NoReading> {
    let altitude_rad = sun.seen.altitude_rad;
    if sun.airless.altitude_rad < NIGHT_ALTITUDE_DEG.to_radians() {
        return Err(NoReading::Night { altitude_rad });
    }
    // A sliver of the upper limb still throws a shadow.
    if sun.upper_limb_rad < 0.0 {
        return Err(NoReading::SunUnderHorizon { altitude_rad });
    }
    let on_dial = sun_on_dial(instrument, sun);
    let side = Side::at_hour_angle(on_dial.hour_angle_rad);
    let exact_s = shown_at(instrument, side, on_dial.hour_angle_rad);
    let edge = shadow_edge(instrument, on_dial).map_err(|reason| match reason {
        NoEdge::BeyondEnd => NoReading::BeyondQuadrantEnd { side, would_show_s: exact_s },
        NoEdge::StyleTooShort { end, missing_m } => NoReading::StyleTooShort { end, missing_m },
    })?;
    if (exact_s - NOON_S) * side.sign() < blind_half_width_s(instrument) {
        return Err(NoReading::Blind { from_noon_s: exact_s - NOON_S });
    }
    let shown_s = nearest_mark_s(instrument, exact_s);
    let counted = instrument.graduation().count(shown_s);
    Ok(Reading { edge, exact_s, shown_s, counted })
}

/// Time at which the graduation of a quadrant stands at an angle about its style edge, seconds
/// since midnight: `12 h + H`, but for errors of the zero and the radius.
#[must_use]
pub fn shown_at(instrument: &Instrument, side: Side, hour_angle_rad: f64) -> f64 {
    let stretch = instrument.built_radius_m(side) / instrument.radius_m();
    let shown_rad = hour_angle_rad * stretch + instrument.spec().alignment.zero_rad(side);
    NOON_S + shown_rad * SECONDS_PER_RADIAN
}

/// Angle about the style edge at which the graduation of a quadrant shows a time: the inverse of
/// [`shown_at`], radians.
#[must_use]
pub fn hour_angle_of_mark(instrument: &Instrument, side: Side, shown_s: f64) -> f64 {
    let stretch = instrument.built_radius_m(side) / instrument.radius_m();
    let shown_rad = (shown_s - NOON_S) / SECONDS_PER_RADIAN;
    (shown_rad - instrument.spec().alignment.zero_rad(side)) / stretch
}

/// Dial time to either side of XII that can't be read: half a smallest division, and the foot gap.
#[must_use]
pub fn blind_half_width_s(instrument: &Instrument) -> f64 {
    f64::from(instrument.graduation().smallest_s()) / 2.0
        + instrument.foot_gap_rad() * SECONDS_PER_RADIAN
}

/// The mark nearest to a place on the graduation; between two marks, the later one.
fn nearest_mark_s(instrument: &Instrument, exact_s: f64) -> u32 {
    let division_s = instrument.graduation().smallest_s();
    let marks = (exact_s / f64::from(division_s) + 0.5).floor();
    debug_assert!(marks >= 0.0, "an edge on a quadrant is within the day");
    // In range: an edge lies within 6 h of noon, give or take the alignment errors.
    marks as u32 * division_s
}

/// Hour angles at which the quadrants begin and end, radians: VI to VI.
pub const QUADRANT_ENDS_RAD: (f64, f64) = (-FRAC_PI_2, FRAC_PI_2);
