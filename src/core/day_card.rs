//! What a guide wants to know of a day before the gate is opened.

use chrono::NaiveDate;

use crate::core::almanac::DayEvents;
use crate::core::day::{DayOutline, Stretch, StretchKind, clock_offset};
use crate::core::instrument::{AxialEnd, Instrument, Side};
use crate::core::ladder::Corrections;
use crate::core::moment::Conditions;
use crate::core::noon::NoonPass;
use crate::core::pointer::{graduation_m, on_style, scale_at};
use crate::core::reading::sun_on_dial;
use crate::core::shadow::surface_point;
use crate::core::sky::{SunAtSite, SunTrack};
use crate::core::time::{Instant, SECONDS_PER_DAY};

/// Height above the paving up to which a mark is taken to be read by someone standing on it,
/// metres: a little over the head; lower down one may stoop. An assumption, no source.
pub const READABLE_HEIGHT_M: f64 = 2.0;

/// Steps by which the best minutes are looked for, seconds: they are told to the minute.
const STAND_STEP_S: f64 = 60.0;

/// One day of an instrument, worked out for the guide.
#[derive(Clone, Debug, PartialEq)]
pub struct DayCard {
    /// The date at the instrument.
    pub date: NaiveDate,
    /// Rise, transit and set.
    pub events: DayEvents,
    /// When each quadrant begins and ends to read, in order; a polar day may have more than two.
    pub readings: Vec<Span>,
    /// Apparent noon and the three intervals about it; `None` at the ends of the years known.
    pub noon: Option<NoonPass>,
    /// Declination at rise, at noon and at set, geocentric, radians; `None` without the event.
    pub declination_rad: [Option<f64>; 3],
    /// The Sun's altitude at noon, as seen, radians.
    pub noon_altitude_rad: f64,
    /// What is added to a reading at noon.
    pub corrections: Corrections,
    /// How much the corrections grow from 12 h before noon to 12 h after it, seconds. Changes of
    /// the clocks are left out.
    pub change_s: f64,
    /// The Sun at the chosen hours of the clock at which it is up.
    pub hours: Vec<Hour>,
    /// The two edges of the quadrants at which a declination is read, north first.
    pub edges: [DeclinationEdge; 2],
    /// Where to stand, and when; in order.
    pub stands: Vec<Stand>,
}

/// A stretch of time over which a quadrant reads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// The quadrant.
    pub side: Side,
    /// When it begins.
    pub from: Instant,
    /// When it ends.
    pub to: Instant,
}

/// The Sun at a full hour of the clock.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hour {
    /// The hour by the clock of the place, 0 to 23.
    pub hour: u32,
    /// When that is.
    pub instant: Instant,
    /// Altitude of the centre of the disc as seen, radians.
    pub altitude_rad: f64,
    /// Azimuth from north through east, radians.
    pub azimuth_rad: f64,
}

/// An edge of the quadrants with its declination scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DeclinationEdge {
    /// Which edge.
    pub edge: AxialEnd,
    /// Where the rod is to be held at noon, metres along the style from the point square to the
    /// edge, north positive.
    pub from_zero_m: f64,
    /// Whether the style reaches so far.
    pub is_on_style: bool,
    /// Least and greatest declination that can be read at this edge on any day, radians.
    pub range_rad: (f64, f64),
}

/// A good time to stand at one side of a quadrant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stand {
    /// The quadrant that reads.
    pub side: Side,
    /// On which side of it to stand, facing it across its edge.
    pub on: AxialEnd,
    /// From when, to the minute.
    pub from: Instant,
    /// Until when.
    pub to: Instant,
}

impl DayCard {
    /// Works out the card of a day from its outline; `hour_step` hours of the clock apart.
    ///
    /// A good time to stand somewhere is one at which the quadrant reads, the edge of the shadow at
    /// the middle of its breadth is no higher than [`READABLE_HEIGHT_M`] above the paving, and the Sun is
    /// behind the reader, who faces the quadrant across its edge.
    ///
    /// `None` at the very ends of the years that can be computed, where the day has no noon.
    #[must_use]
    pub fn compute(
        instrument: &Instrument,
        outline: &DayOutline,
        conditions: &Conditions,
        hour_step: u32,
        track: &mut SunTrack,
    ) -> Option<Self> {
        let mut work = Work { instrument, conditions, track };
        let events = outline.events;
        let middle = events.transit.or(outline.noon.map(|pass| pass.meridian))?;
        let at_noon = work.sun(middle);
        let half_day = |sign: f64| middle.saturating_plus_seconds(sign * SECONDS_PER_DAY / 2.0);
        let ahead_s = |work: &mut Work<'_>, at| work.sun(at).sun.equation_of_time_s;
        let change_s = ahead_s(&mut work, half_day(-1.0)) - ahead_s(&mut work, half_day(1.0));
        let declination = |at: Option<Instant>, work: &mut Work<'_>| {
            at.map(|at| work.sun(at).sun.declination_rad)
        };
        let readings = readings(outline);
        let stands = readings.iter().flat_map(|span| work.stands(span)).collect();
        Some(Self {
            date: outline.date,
            events,
            noon: outline.noon,
            declination_rad: [events.rise, Some(middle), events.set]
                .map(|at| declination(at, &mut work)),
            noon_altitude_rad: at_noon.seen.altitude_rad,
            corrections: Corrections::at(instrument, middle, &at_noon),
            change_s,
            hours: work.hours(outline.date, hour_step.max(1)),
            edges: AxialEnd::BOTH.map(|edge| work.edge(edge, &at_noon)),
            stands,
            readings,
        })
    }
}

/// The stretches of a day over which a quadrant reads.
fn readings(outline: &DayOutline) -> Vec<Span> {
    let span = |stretch: &Stretch| {
        let side = match stretch.kind {
            StretchKind::West => Side::West,
            StretchKind::East => Side::East,
            StretchKind::Blind | StretchKind::BeyondEnd | StretchKind::StyleTooShort => {
                return None;
            }
        };
        Some(Span { side, from: stretch.from, to: stretch.to })
    };
    outline.stretches.iter().filter_map(span).collect()
}

/// What every part of the card needs.
struct Work<'a> {
    instrument: &'a Instrument,
    conditions: &'a Conditions,
    track: &'a mut SunTrack,
}

impl Work<'_> {
    fn sun(&mut self, at: Instant) -> SunAtSite {
        self.track.over(self.instrument.site(), at, self.conditions.air.as_ref())
    }

    /// The full hours of the clock at which the Sun's centre is up.
    fn hours(&mut self, date: NaiveDate, step: u32) -> Vec<Hour> {
        let offset_s = clock_offset(self.instrument, date).seconds();
        let midnight = Instant::from_date(date).and_then(|at| at.plus_seconds(-offset_s));
        let Ok(midnight) = midnight else { return Vec::new() };
        let hours = (0..24).step_by(step as usize);
        let at = |hour: u32| {
            let instant = midnight.plus_seconds(f64::from(hour) * 3600.0).ok()?;
            let seen = self.sun(instant).seen;
            let (altitude_rad, azimuth_rad) = (seen.altitude_rad, seen.azimuth_rad);
            (altitude_rad > 0.0).then_some(Hour { hour, instant, altitude_rad, azimuth_rad })
        };
        hours.filter_map(at).collect()
    }

    /// What an edge of the quadrants does for the declination of a noon.
    fn edge(&self, edge: AxialEnd, at_noon: &SunAtSite) -> DeclinationEdge {
        let instrument = self.instrument;
        let declination_rad = sun_on_dial(instrument, at_noon).declination_rad;
        let place_m = graduation_m(instrument, edge, declination_rad);
        let at = |end| scale_at(instrument, edge, instrument.style_end_m(end));
        DeclinationEdge {
            edge,
            from_zero_m: place_m - instrument.quadrant_edge_m(edge),
            is_on_style: on_style(instrument, place_m),
            range_rad: (at(AxialEnd::South), at(AxialEnd::North)),
        }
    }

    /// The longest good time on either side of a quadrant while it reads.
    fn stands(&mut self, span: &Span) -> Vec<Stand> {
        let steps = (span.to.seconds_since(span.from) / STAND_STEP_S).floor() as u32;
        let mut runs: [(Option<Stand>, Option<Stand>); 2] = [(None, None); 2];
        for step in 0..=steps {
            let at = span.from.saturating_plus_seconds(f64::from(step) * STAND_STEP_S);
            let good = self.behind_reader(span.side, at);
            for (on, (current, best)) in AxialEnd::BOTH.into_iter().zip(&mut runs) {
                if good != Some(on) {
                    *current = None;
                    continue;
                }
                let from = current.map_or(at, |run| run.from);
                let run = Stand { side: span.side, on, from, to: at };
                *current = Some(run);
                let length = |stand: &Stand| stand.to.seconds_since(stand.from);
                if best.is_none_or(|best| length(&run) > length(&best)) {
                    *best = Some(run);
                }
            }
        }
        let worth = |stand: &Stand| stand.to > stand.from;
        let mut stands: Vec<Stand> =
            runs.into_iter().filter_map(|(_, best)| best.filter(worth)).collect();
        if let [north, south] = stands.as_mut_slice()
            && north.from > south.from
        {
            std::mem::swap(north, south);
        }
        stands
    }

    /// The side of a quadrant on which a reader has the Sun behind, when the edge of the shadow
    /// lies at a readable height.
    fn behind_reader(&mut self, side: Side, at: Instant) -> Option<AxialEnd> {
        let sun = self.sun(at);
        let hour_angle_rad = sun_on_dial(self.instrument, &sun).hour_angle_rad;
        let point = surface_point(self.instrument, side, hour_angle_rad, 0.0, 0.0);
        let height_m = point.z - self.instrument.ground_z_m();
        if height_m > READABLE_HEIGHT_M {
            return None;
        }
        // In plan the reader looks along the meridian, as the wall stands.
        let northwards = self.instrument.frame().e.y * -sun.seen.vector.x
            + self.instrument.frame().e.x * sun.seen.vector.y;
        Some(if northwards > 0.0 { AxialEnd::North } else { AxialEnd::South })
    }
}
