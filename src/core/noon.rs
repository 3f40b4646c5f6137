//! The pass through noon: three intervals, one inside the other, that are often taken for one.

use crate::core::instrument::{Instrument, Side};
use crate::core::moment::Conditions;
use crate::core::penumbra::half_width_rad;
use crate::core::reading::{
    NOON_S, SECONDS_PER_RADIAN, blind_half_width_s, hour_angle_of_mark, sun_on_dial,
};
use crate::core::shadow::wrapped;
use crate::core::sky::{SunAtSite, SunTrack};
use crate::core::time::Instant;

/// Newton steps allowed; the Sun's hour angle runs so evenly that three are usual.
const MOST_STEPS: u32 = 12;
/// Slowest run of the Sun's angle about the style that a step is reckoned with, of the mean Sun's.
const LEAST_RATE: f64 = 0.05;

/// When the shadow changes quadrants on one day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoonPass {
    /// The Sun's centre stands in the plane of the wall. Physics.
    pub meridian: Instant,
    /// From when until when neither quadrant can be read: the edge is within half a smallest
    /// division of XII, or in a foot gap. Convention.
    pub blind: (Instant, Instant),
    /// From when until when neither quadrant has a full shadow: the disc straddles the plane of
    /// the wall, or its full shadow is no longer or not yet on the stone for a foot gap. Physics.
    pub soft: (Instant, Instant),
}

impl NoonPass {
    /// Finds the pass nearest to an instant, whether or not the Sun is up then.
    ///
    /// `None` only when the pass lies outside the years that can be computed.
    #[must_use]
    pub fn near(
        instrument: &Instrument,
        near: Instant,
        conditions: &Conditions,
        track: &mut SunTrack,
    ) -> Option<Self> {
        let mut search = Search { instrument, conditions, track };
        let meridian = search.instant_at(near, 0.0)?;
        let sun = search.sun(meridian);
        let declination = sun_on_dial(instrument, &sun).declination_rad;
        let soft_rad =
            half_width_rad(sun.semidiameter_rad, declination) + instrument.foot_gap_rad();
        let mut pair = |from_rad, to_rad| {
            Some((search.instant_at(meridian, from_rad)?, search.instant_at(meridian, to_rad)?))
        };
        let half_s = blind_half_width_s(instrument);
        let west_rad = hour_angle_of_mark(instrument, Side::West, NOON_S - half_s);
        let east_rad = hour_angle_of_mark(instrument, Side::East, NOON_S + half_s);
        // Zero errors towards each other leave no blind interval: then it shrinks to a moment.
        let (west_rad, east_rad) = if west_rad <= east_rad {
            (west_rad, east_rad)
        } else {
            let between = f64::midpoint(west_rad, east_rad);
            (between, between)
        };
        Some(Self { meridian, blind: pair(west_rad, east_rad)?, soft: pair(-soft_rad, soft_rad)? })
    }

    /// Length of the blind interval, seconds.
    #[must_use]
    pub fn blind_s(&self) -> f64 {
        self.blind.1.seconds_since(self.blind.0)
    }

    /// Length of the interval without a full shadow, seconds.
    #[must_use]
    pub fn soft_s(&self) -> f64 {
        self.soft.1.seconds_since(self.soft.0)
    }
}

/// The instant nearest to `near` at which the Sun stands at an angle about the style, radians.
///
/// `None` when it lies outside the years that can be computed.
#[must_use]
pub fn instant_at_dial_angle(
    instrument: &Instrument,
    near: Instant,
    hour_angle_rad: f64,
    conditions: &Conditions,
    track: &mut SunTrack,
) -> Option<Instant> {
    Search { instrument, conditions, track }.instant_at(near, hour_angle_rad)
}

/// What a search for an instant needs at every step.
struct Search<'a> {
    instrument: &'a Instrument,
    conditions: &'a Conditions,
    track: &'a mut SunTrack,
}

impl Search<'_> {
    /// The Sun at an instant.
    fn sun(&mut self, instant: Instant) -> SunAtSite {
        self.track.over(self.instrument.site(), instant, self.conditions.air.as_ref())
    }

    /// Newton's method, first with the mean Sun's rate for the slope, then with the rate found: on
    /// a dial carried elsewhere the Sun's angle runs faster or slower than time, or backwards.
    fn instant_at(&mut self, near: Instant, hour_angle_rad: f64) -> Option<Instant> {
        let mut instant = near;
        let (mut rate, mut before) = (1.0, None);
        for _ in 0..MOST_STEPS {
            let sun = self.sun(instant);
            let now_rad = sun_on_dial(self.instrument, &sun).hour_angle_rad;
            if let Some((was, was_rad)) = before.replace((instant, now_rad)) {
                let passed_s: f64 = instant.seconds_since(was);
                let moved_s = wrapped(now_rad - was_rad) * SECONDS_PER_RADIAN;
                // An instant is a whole millisecond: over less than a second it tells no rate.
                if passed_s.abs() > 1.0 && moved_s.abs() > LEAST_RATE * passed_s.abs() {
                    rate = moved_s / passed_s;
                }
            }
            let step_s = wrapped(hour_angle_rad - now_rad) * SECONDS_PER_RADIAN / rate;
            let next = instant.plus_seconds(step_s).ok()?;
            if next == instant {
                break;
            }
            instant = next;
        }
        Some(instant)
    }
}
