//! The moment at which the Sun has a given hour angle.

use crate::core::sky::angle::half_turn;
use crate::core::sky::{Site, SunTrack, sun_at_site};
use crate::core::time::{Instant, SECONDS_PER_DAY, TimeScale};
use std::f64::consts::TAU;

/// The Sun's mean rate in hour angle, in radians per second.
const RATE_RAD_PER_S: f64 = TAU / SECONDS_PER_DAY;

/// The moment nearest to `near` at which the Sun's centre stands at `hour_angle_rad` over `site`:
/// topocentric, without air, positive west.
///
/// It lies within 12 h of `near` (and a few seconds, since apparent days are not all of 24 h).
/// `None` if that is outside the range of instants.
///
/// # Accuracy
/// To the millisecond, on top of the error of the Sun.
#[must_use]
pub fn instant_at_hour_angle(
    track: &mut SunTrack,
    site: &Site,
    near: Instant,
    hour_angle_rad: f64,
    scale: TimeScale,
) -> Option<Instant> {
    let mut moment = near;
    for _ in 0..STEPS {
        let sun = track.at(&scale.earth_time(moment));
        let airless = sun_at_site(&sun, site, None).airless;
        let missing_rad = half_turn(hour_angle_rad - airless.hour_angle_rad);
        moment = moment.plus_seconds(missing_rad / RATE_RAD_PER_S).ok()?;
    }
    Some(moment)
}

/// The true rate departs from the mean by less than 1/2500 (near the celestial pole of a site by
/// the parallax, less still), so each step leaves less than 1/2500 of the error: after three, less
/// than a hundredth of a millisecond of 12 h.
const STEPS: usize = 3;
