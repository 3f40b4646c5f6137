//! What the dial does on one civil day: which quadrant reads when, and where it can't be read.

use chrono::NaiveDate;

use crate::core::almanac::{DayEvents, day_events};
use crate::core::instrument::{Instrument, Side};
use crate::core::moment::Conditions;
use crate::core::noon::NoonPass;
use crate::core::order::order_short;
use crate::core::reading::{NOON_S, NoReading, SECONDS_PER_RADIAN, read, shown_at, sun_on_dial};
use crate::core::shadow::wrapped;
use crate::core::sky::{SunAtSite, SunTrack};
use crate::core::time::{CivilOffset, Instant, SECONDS_PER_DAY, TimeError, TimeScale};

/// Steps into which the day is cut before its changes are searched: ten minutes.
const STEPS: i32 = 144;
/// Halvings of a step: down to a hundredth of a second.
const HALVINGS: u32 = 16;

/// Changes looked for within one step.
const MOST_CHANGES: u32 = 4;

/// What the dial does while the Sun is up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StretchKind {
    /// The western quadrant reads.
    West,
    /// The eastern quadrant reads.
    East,
    /// The edge is too near XII.
    Blind,
    /// The Sun is above the end of the quadrant.
    BeyondEnd,
    /// The style is too short for this declination.
    StyleTooShort,
}

/// A stretch of the day over which the dial does the same.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// What it does.
    pub kind: StretchKind,
    /// When it begins.
    pub from: Instant,
    /// When it ends.
    pub to: Instant,
    /// Local apparent time at the beginning, seconds since midnight.
    pub from_s: f64,
    /// Local apparent time at the end.
    pub to_s: f64,
}

/// One civil day of an instrument.
#[derive(Clone, Debug, PartialEq)]
pub struct DayOutline {
    /// The date at the instrument.
    pub date: NaiveDate,
    /// Rise, transit and set.
    pub events: DayEvents,
    /// The pass through noon; `None` at the ends of the years that can be computed.
    pub noon: Option<NoonPass>,
    /// What the dial does while the Sun is up, from midnight to midnight of apparent time.
    pub stretches: Vec<Stretch>,
    /// How far the reading strays over the day: local apparent time and error (shown minus true),
    /// seconds. At home it is what refraction does, and empty when that is left out; on a dial
    /// carried elsewhere it is the whole error against local apparent time.
    pub errors: Vec<(f64, f64)>,
}

impl DayOutline {
    /// Works out a day.
    ///
    /// # Errors
    /// When the day lies outside the years that can be computed.
    pub fn compute(
        instrument: &Instrument,
        date: NaiveDate,
        conditions: &Conditions,
        track: &mut SunTrack,
    ) -> Result<Self, TimeError> {
        let offset = clock_offset(instrument, date);
        let events = day_events(track, instrument.site(), date, offset, TimeScale::Civil)?;
        let about_noon = events.transit.or_else(|| civil_noon(date, offset));
        let noon = about_noon.and_then(|near| {
            let pass = NoonPass::near(instrument, near, conditions, track)?;
            passes_by_day(&pass, near).then_some(pass)
        });
        let carried = instrument.off_latitude_rad() != 0.0;
        // The middle of the day is the meridian's, even if the wall's shadow does not tell it.
        let middle = if carried { about_noon } else { noon.map(|pass| pass.meridian) };
        let mut scan = Scan { instrument, conditions, track, noon: middle };
        let samples = scan.samples(noon.as_ref());
        let stretches = scan.stretches(&samples);
        let errors = if carried || conditions.air.is_some() {
            scan.errors(&samples, &stretches)
        } else {
            Vec::new()
        };
        Ok(Self { date, events, noon, stretches, errors })
    }

    /// The stretch at an instant.
    #[must_use]
    pub fn stretch_at(&self, instant: Instant) -> Option<&Stretch> {
        self.stretches.iter().find(|stretch| (stretch.from..=stretch.to).contains(&instant))
    }

    /// The first instant after this one, on this day, at which a quadrant begins to read.
    #[must_use]
    pub fn next_reading(&self, after: Instant) -> Option<Instant> {
        let readable = |stretch: &&Stretch| {
            matches!(stretch.kind, StretchKind::West | StretchKind::East) && stretch.from > after
        };
        self.stretches.iter().find(readable).map(|stretch| stretch.from)
    }
}

/// Clock time minus universal time on a date, as it is at noon.
#[must_use]
pub fn clock_offset(instrument: &Instrument, date: NaiveDate) -> CivilOffset {
    let zone = instrument.zone_offset();
    let advance = civil_noon(date, zone).map_or(0, |noon| instrument.summer_min(noon));
    // A zone at the very edge of the range has no room for summer time; it keeps zone time.
    CivilOffset::from_minutes(zone.minutes() + advance).unwrap_or(zone)
}

/// 12:00 of a date by clocks with this offset.
fn civil_noon(date: NaiveDate, offset: CivilOffset) -> Option<Instant> {
    let midnight = Instant::from_date(date).ok()?;
    midnight.plus_seconds(SECONDS_PER_DAY / 2.0 - offset.seconds()).ok()
}

/// Whether a pass is one about noon, in its order: a dial carried far may have the Sun in the plane
/// of its wall at night only.
fn passes_by_day(pass: &NoonPass, noon: Instant) -> bool {
    let ordered = |(from, to): (Instant, Instant)| from <= pass.meridian && pass.meridian <= to;
    pass.meridian.seconds_since(noon).abs() < NOON_S / 2.0 && ordered(pass.soft)
}

/// The dial at one instant of the scan.
#[derive(Clone, Copy)]
struct Sample {
    instant: Instant,
    kind: Option<StretchKind>,
    apparent_s: f64,
    error_s: f64,
}

impl Sample {
    fn error(&self) -> (f64, f64) {
        (self.apparent_s, self.error_s)
    }
}

/// Scans a day from one lower meridian to the next.
struct Scan<'a> {
    instrument: &'a Instrument,
    conditions: &'a Conditions,
    track: &'a mut SunTrack,
    noon: Option<Instant>,
}

impl Scan<'_> {
    /// The day in steps, with the middle of the blind interval among them so that it is found.
    fn samples(&mut self, pass: Option<&NoonPass>) -> Vec<Sample> {
        let Some(noon) = self.noon else { return Vec::new() };
        let step_s = 86_400.0 / f64::from(STEPS);
        // Half a second inside the day, so that the hour angle does not wrap at its ends.
        let offsets = (0..=STEPS)
            .map(|step| (f64::from(step) * step_s - NOON_S).clamp(0.5 - NOON_S, NOON_S - 0.5));
        let mut instants: Vec<Instant> =
            offsets.filter_map(|offset_s| noon.plus_seconds(offset_s).ok()).collect();
        instants.extend(pass.and_then(|pass| pass.blind.0.plus_seconds(pass.blind_s() / 2.0).ok()));
        order_short(&mut instants, |a, b| a < b);
        instants.dedup();
        instants.into_iter().map(|instant| self.sample(instant)).collect()
    }

    /// The error from the first light to the last.
    fn errors(&mut self, samples: &[Sample], stretches: &[Stretch]) -> Vec<(f64, f64)> {
        let mut curve: Vec<(f64, f64)> =
            samples.iter().filter(|sample| sample.kind.is_some()).map(Sample::error).collect();
        let ends =
            stretches.first().map(|first| first.from).zip(stretches.last().map(|last| last.to));
        if let Some((from, to)) = ends {
            let (first, last) = (self.sample(from).error(), self.sample(to).error());
            if curve.first().is_none_or(|point| point.0 > first.0) {
                curve.insert(0, first);
            }
            if curve.last().is_none_or(|point| point.0 < last.0) {
                curve.push(last);
            }
        }
        curve
    }

    /// The dial at an instant.
    fn sample(&mut self, instant: Instant) -> Sample {
        let (site, air) = (self.instrument.site(), self.conditions.air.as_ref());
        let sun = self.track.over(site, instant, air);
        let expected_s = self.noon.map_or(0.0, |noon| instant.seconds_since(noon));
        let beyond_rad = wrapped(sun.airless.hour_angle_rad - expected_s / SECONDS_PER_RADIAN);
        Sample {
            instant,
            kind: self.kind(&sun),
            apparent_s: NOON_S + expected_s + beyond_rad * SECONDS_PER_RADIAN,
            error_s: self.error_s(&sun),
        }
    }

    /// What the dial does; `None` while the Sun is down.
    fn kind(&self, sun: &SunAtSite) -> Option<StretchKind> {
        match read(self.instrument, sun) {
            Ok(reading) if reading.edge.side == Side::West => Some(StretchKind::West),
            Ok(_) => Some(StretchKind::East),
            Err(NoReading::Blind { .. }) => Some(StretchKind::Blind),
            Err(NoReading::BeyondQuadrantEnd { .. }) => Some(StretchKind::BeyondEnd),
            Err(NoReading::StyleTooShort { .. }) => Some(StretchKind::StyleTooShort),
            Err(NoReading::Night { .. } | NoReading::SunUnderHorizon { .. }) => None,
        }
    }

    /// Reading with refraction minus reading without; on a dial carried elsewhere, reading minus
    /// local apparent time. Seconds.
    fn error_s(&self, sun: &SunAtSite) -> f64 {
        let seen = sun_on_dial(self.instrument, sun).hour_angle_rad;
        let side = Side::at_hour_angle(seen);
        let at = |angle| shown_at(self.instrument, side, angle);
        if self.instrument.off_latitude_rad() != 0.0 {
            let true_rad = seen - wrapped(seen - sun.airless.hour_angle_rad);
            return at(seen) - (NOON_S + true_rad * SECONDS_PER_RADIAN);
        }
        let airless = self.instrument.frame().angles(sun.airless.vector).hour_angle_rad;
        at(airless + wrapped(seen - airless)) - at(airless)
    }

    /// Joins samples alike and finds each change between two samples by halving.
    fn stretches(&mut self, samples: &[Sample]) -> Vec<Stretch> {
        let mut stretches = Vec::new();
        let mut begun = samples.first().map(|first| (first.instant, first.apparent_s));
        for pair in samples.windows(2) {
            let [before, after] = pair else { continue };
            // What lasts less than a step, as a Sun above the quadrant's end at an equinox's sunrise,
            // shows itself just after the change before it.
            let mut here = *before;
            for _ in 0..MOST_CHANGES {
                if here.kind == after.kind {
                    break;
                }
                let (last, first) = self.change(here, *after);
                push_stretch(&mut stretches, here.kind, begun, (last.instant, last.apparent_s));
                begun = Some((last.instant, last.apparent_s));
                here = first;
            }
        }
        if let Some(last) = samples.last() {
            push_stretch(&mut stretches, last.kind, begun, (last.instant, last.apparent_s));
        }
        stretches
    }

    /// The last sample at which the dial does what it does at `before`, and the first after it.
    fn change(&mut self, before: Sample, after: Sample) -> (Sample, Sample) {
        let (mut low, mut high) = (before, after);
        for _ in 0..HALVINGS {
            let half_s = high.instant.seconds_since(low.instant) / 2.0;
            let Ok(middle) = low.instant.plus_seconds(half_s) else { break };
            let middle = self.sample(middle);
            if middle.kind == before.kind {
                low = middle;
            } else {
                high = middle;
            }
        }
        (low, high)
    }
}

/// Adds a stretch if the dial did something, and for some time.
fn push_stretch(
    stretches: &mut Vec<Stretch>,
    kind: Option<StretchKind>,
    begun: Option<(Instant, f64)>,
    (to, to_s): (Instant, f64),
) {
    if let (Some(kind), Some((from, from_s))) = (kind, begun)
        && to > from
    {
        stretches.push(Stretch { kind, from, to, from_s, to_s });
    }
}
