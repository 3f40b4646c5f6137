//! The day's rise, upper transit and set of the Sun.

use super::instant_at_hour_angle;
use super::root::{Sample, zero_between};
use crate::core::order::order_short;
use crate::core::sky::{Site, SunTrack, sun_at_site};
use crate::core::time::{CivilOffset, Instant, SECONDS_PER_DAY, TimeError, TimeScale};
use chrono::NaiveDate;
use std::f64::consts::PI;

/// The airless topocentric altitude of the disc's centre at rise and set by convention, in radians:
/// −50′, which allows 34′ for refraction and 16′ for the semidiameter.
pub const STANDARD_ALTITUDE_RAD: f64 = -50.0 / 60.0 * PI / 180.0;

/// Whether the Sun crosses the horizon on a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Daylight {
    /// It rises, sets, or both.
    Crosses,
    /// It is up all day: it neither rises nor sets.
    NeverSets,
    /// It is down all day: it neither rises nor sets.
    NeverRises,
}

/// The Sun's events on one civil day of a site, from 00:00 to 24:00 of the local clock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DayEvents {
    /// When the centre of the disc rises through [`STANDARD_ALTITUDE_RAD`]; the first time, in the
    /// rare case of two. It may be later than `set`: near the polar circles, or on a clock far from
    /// local time.
    pub rise: Option<Instant>,
    /// Upper transit: topocentric hour angle 0. A day of 24 h can miss it by some seconds when the
    /// Sun culminates near the clock's midnight.
    pub transit: Option<Instant>,
    /// When the centre of the disc sets through [`STANDARD_ALTITUDE_RAD`]; the first time.
    pub set: Option<Instant>,
    /// Whether there is a day and a night.
    pub daylight: Daylight,
}

/// The Sun's rise, upper transit and set on `date` at `site`, by a clock of this `offset`.
///
/// `scale` is [`TimeScale::Civil`] unless UT1 is better known.
///
/// # Accuracy
/// To a few milliseconds from the Sun's place; but see the [module of time](crate::core::time) for
/// UT1 ≈ UTC, and real air for what is seen: it can shift a sunrise by minutes.
///
/// # Errors
/// [`TimeError::OutOfRange`] if the day is outside the range of instants. A day that is partly
/// outside is searched as far as it is inside.
pub fn day_events(
    track: &mut SunTrack,
    site: &Site,
    date: NaiveDate,
    offset: CivilOffset,
    scale: TimeScale,
) -> Result<DayEvents, TimeError> {
    let mut day = Day::new(track, site, date, offset, scale)?;
    let samples = day.samples();
    let rise = day.crossing(&samples, |before, after| before < 0.0 && after >= 0.0);
    let set = day.crossing(&samples, |before, after| before >= 0.0 && after < 0.0);
    Ok(DayEvents {
        rise,
        transit: day.transit(),
        set,
        daylight: match (rise, set) {
            (None, None) if samples[0].value >= 0.0 => Daylight::NeverSets,
            (None, None) => Daylight::NeverRises,
            _ => Daylight::Crosses,
        },
    })
}

/// Seconds between the samples that look for changes of sign and for turning points.
const SAMPLE_STEP_S: f64 = 7200.0;

/// Samples from one step before the day to one step after it, so that every turning point of the
/// day has a neighbour on each side.
const SAMPLES: u32 = 15;

/// How far from zero a sampled extreme may be if the true one next to it is to be looked for: the
/// Sun turns 15° in half a step, and 1 − cos 15° = 0.034.
const GRAZING: f64 = 0.04;

/// One civil day in the sky of a site.
struct Day<'a> {
    track: &'a mut SunTrack,
    site: &'a Site,
    scale: TimeScale,
    /// The beginning of the day, which need not be a supported instant.
    start_unix_ms: i64,
}

impl<'a> Day<'a> {
    fn new(
        track: &'a mut SunTrack,
        site: &'a Site,
        date: NaiveDate,
        offset: CivilOffset,
        scale: TimeScale,
    ) -> Result<Self, TimeError> {
        let midnight = date.and_time(chrono::NaiveTime::MIN).and_utc();
        let start_unix_ms = midnight.timestamp_millis() - i64::from(offset.minutes()) * 60_000;
        let day = Self { track, site, scale, start_unix_ms };
        if day.instant(SECONDS_PER_DAY) > day.instant(0.0) {
            Ok(day)
        } else {
            Err(out_of_range(date))
        }
    }

    /// The instant this many seconds into the day; the nearest supported one beyond the range.
    fn instant(&self, seconds: f64) -> Instant {
        Instant::from_unix_ms_saturating(self.start_unix_ms + (seconds * 1000.0).round() as i64)
    }

    /// The sine of the Sun's airless altitude less that of the standard altitude.
    fn height(&mut self, seconds: f64) -> f64 {
        let time = self.scale.earth_time(self.instant(seconds));
        let sun = self.track.at(&time);
        let up = sun_at_site(&sun, self.site, None).airless.vector.z;
        up - STANDARD_ALTITUDE_RAD.sin()
    }

    fn sample(&mut self, seconds: f64) -> Sample {
        Sample { seconds, value: self.height(seconds) }
    }

    /// Samples from 00:00 to 24:00 between which the height changes sign at most once.
    fn samples(&mut self) -> Vec<Sample> {
        let mut samples: Vec<Sample> =
            (0..SAMPLES).map(|i| self.sample((f64::from(i) - 1.0) * SAMPLE_STEP_S)).collect();
        let turning: Vec<f64> = samples
            .windows(3)
            .filter(|three| is_grazing_extreme(three))
            .map(|three| three[1].seconds)
            .collect();
        for near in turning {
            let seconds = self.turning_point(near);
            samples.push(self.sample(seconds));
        }
        samples.retain(|s| (0.0..=SECONDS_PER_DAY).contains(&s.seconds));
        order_short(&mut samples, |a, b| a.seconds < b.seconds);
        samples
    }

    /// Where the height is extreme, by two parabolas, the second one ten minutes wide on each side.
    fn turning_point(&mut self, near: f64) -> f64 {
        [SAMPLE_STEP_S, 600.0].iter().fold(near, |middle, &step| {
            let [a, b, c] = [-step, 0.0, step].map(|shift| self.height(middle + shift));
            let bend = a - 2.0 * b + c;
            let shift = if bend == 0.0 { 0.0 } else { (a - c) / (2.0 * bend) };
            middle + step * shift.clamp(-1.0, 1.0)
        })
    }

    /// The first zero between samples that `is_wanted` for their values.
    fn crossing(
        &mut self,
        samples: &[Sample],
        is_wanted: impl Fn(f64, f64) -> bool,
    ) -> Option<Instant> {
        let pair = samples.windows(2).find(|p| is_wanted(p[0].value, p[1].value))?;
        let seconds = zero_between(pair[0], pair[1], |seconds| self.height(seconds));
        Some(self.instant(seconds.min(SECONDS_PER_DAY - 0.001)))
    }

    /// The first upper transit of the day.
    fn transit(&mut self) -> Option<Instant> {
        // A transit near either midnight is nearest to that midnight.
        [0.0, 0.5, 1.0].into_iter().find_map(|days| {
            let near = self.instant(days * SECONDS_PER_DAY);
            let transit = instant_at_hour_angle(self.track, self.site, near, 0.0, self.scale)?;
            let is_today = self.instant(0.0) <= transit && transit < self.instant(SECONDS_PER_DAY);
            is_today.then_some(transit)
        })
    }
}

/// Whether the middle one of three samples is the highest or the lowest, and near zero.
fn is_grazing_extreme(three: &[Sample]) -> bool {
    let [a, b, c] = [three[0].value, three[1].value, three[2].value];
    b.abs() < GRAZING && (b - a) * (b - c) >= 0.0
}

fn out_of_range(date: NaiveDate) -> TimeError {
    TimeError::OutOfRange {
        field: "date",
        value: date.to_string(),
        range: "1700-01-01 to 2200-12-31",
    }
}
