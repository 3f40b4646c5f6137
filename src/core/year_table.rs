//! A year of days: rise, noon, set, declination, equation of time and the correction to the clock.

use chrono::{Datelike, NaiveDate};
use std::f64::consts::TAU;

use crate::core::almanac::{Daylight, STANDARD_ALTITUDE_RAD, day_events};
use crate::core::day::clock_offset;
use crate::core::instrument::Instrument;
use crate::core::ladder::Corrections;
use crate::core::sky::angle::half_turn;
use crate::core::sky::{EquationOfTime, Site, SunAtSite, SunGrid, SunTrack, sun_at_site};
use crate::core::time::{EarthTime, Instant, SECONDS_PER_DAY, TimeError, TimeScale};

/// One civil day of a year, by the clock that the place keeps on that date.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct YearDay {
    /// The date.
    pub date: NaiveDate,
    /// When the centre of the disc rises through [`STANDARD_ALTITUDE_RAD`].
    pub rise: Option<Instant>,
    /// Upper transit: the Sun's centre on the meridian, topocentric and without air. Where the Sun
    /// culminates near the clock's midnight it may lie some seconds outside the civil day.
    pub noon: Instant,
    /// When the centre of the disc sets through [`STANDARD_ALTITUDE_RAD`].
    pub set: Option<Instant>,
    /// Whether there is a day and a night.
    pub daylight: Daylight,
    /// Declination at noon, geocentric and apparent, radians, north positive.
    pub declination_rad: f64,
    /// Equation of time at noon, by its causes.
    pub equation: EquationOfTime,
    /// What is added to a reading at noon to give the clock, seconds.
    pub corrections: Corrections,
}

impl YearDay {
    /// The total correction to zone time, without summer time, seconds.
    #[must_use]
    pub fn to_zone_s(&self) -> f64 {
        self.corrections.to_mean_s + self.corrections.to_zone_s
    }
}

/// Every day of one year at one instrument.
#[derive(Clone, Debug, PartialEq)]
pub struct YearTable {
    /// The year.
    pub year: i32,
    /// Its 365 or 366 days, in order.
    pub days: Vec<YearDay>,
}

impl YearTable {
    /// Works out a year. `track` serves only days on which the Sun grazes the horizon, or rises or
    /// sets near the clock's midnight.
    ///
    /// # Accuracy
    /// Rise, noon and set within 0.1 s of [`day_events`] from the polar circles to the equator (a
    /// test compares every day), declination within 0.1″, equation of time within 0.004 s.
    ///
    /// # Errors
    /// [`TimeError::OutOfRange`] when the year is not one of 1700 to 2200; and in the first and the
    /// last of them at places whose clock leads a day out of that range.
    pub fn compute(
        instrument: &Instrument,
        year: i32,
        track: &mut SunTrack,
    ) -> Result<Self, TimeError> {
        let first =
            NaiveDate::from_ymd_opt(year, 1, 1).and_then(|date| Instant::from_date(date).ok());
        let first = first.ok_or_else(|| TimeError::OutOfRange {
            field: "year",
            value: year.to_string(),
            range: "1700 to 2200",
        })?;
        let from_days = EarthTime::from_instant(first).tt_days_from_j2000() - 2.0;
        let grid = SunGrid::between(from_days, from_days + 370.0);
        let mut solver = Solver { instrument, site: instrument.site(), grid, track, before: None };
        let dates = first.civil().date().iter_days().take_while(|date| date.year() == year);
        let days = dates.map(|date| solver.day(&Day::of(instrument, date)));
        let days = days.collect::<Result<_, TimeError>>()?;
        Ok(Self { year, days })
    }

    /// The day of a date; `None` in another year.
    #[must_use]
    pub fn day(&self, date: NaiveDate) -> Option<&YearDay> {
        (date.year() == self.year).then(|| self.days.get(date.ordinal0() as usize))?
    }
}

/// A civil day by the place's clock.
#[derive(Clone, Copy, Debug)]
struct Day {
    date: NaiveDate,
    /// The beginning of the day, which need not be a supported instant.
    start_unix_ms: i64,
}

impl Day {
    fn of(instrument: &Instrument, date: NaiveDate) -> Self {
        let midnight_ms = i64::from(date.to_epoch_days()) * 86_400_000;
        let offset_ms = i64::from(clock_offset(instrument, date).minutes()) * 60_000;
        Self { date, start_unix_ms: midnight_ms - offset_ms }
    }

    /// The instant so many seconds into the day.
    fn instant(&self, seconds: f64) -> Result<Instant, TimeError> {
        Instant::from_unix_ms(self.start_unix_ms + (seconds * 1000.0).round() as i64)
    }

    fn seconds_to(&self, instant: Instant) -> f64 {
        (instant.unix_ms() - self.start_unix_ms) as f64 / 1000.0
    }
}

/// The Sun's mean rate in hour angle, radians per second.
const RATE_RAD_PER_S: f64 = TAU / SECONDS_PER_DAY;

/// A step this small ends a search, seconds: each leaves less than a fiftieth of the error.
const TOLERANCE_S: f64 = 1.0;

/// More than an apparent day is longer or shorter than 24 h, seconds.
const LONGEST_EXCESS_S: f64 = 40.0;

/// More steps than a search takes where the Sun does not graze the horizon: one or two are usual.
const MOST_STEPS: usize = 8;

/// How near to grazing, as a sine of altitude, the quick search is not trusted: the declination
/// changes by up to 0.0035 in half a day, and near a grazing path a little of it is much time.
const GRAZING: f64 = 0.02;

/// Rises and sets this near to the clock's midnight may come twice in a day, or not at all, seconds.
const NEAR_MIDNIGHT_S: f64 = 3600.0;

/// Finds the events of one day after the other.
struct Solver<'a> {
    instrument: &'a Instrument,
    site: &'a Site,
    grid: SunGrid,
    track: &'a mut SunTrack,
    /// The day before.
    before: Option<Before>,
}

/// What a day tells about the next one.
#[derive(Clone, Copy, Debug)]
struct Before {
    noon: Instant,
    /// From the noon before it to its own, seconds.
    apparent_day_s: f64,
    /// Topocentric, at noon.
    declination_rad: f64,
}

impl Solver<'_> {
    /// One day, the days coming in order.
    fn day(&mut self, day: &Day) -> Result<YearDay, TimeError> {
        let noon = self.noon(day)?;
        let time = EarthTime::from_instant(noon);
        let (sun, nutation_rad) = self.grid.at(&time);
        let at_noon = sun_at_site(&sun, self.site, None);
        let declination_rad = at_noon.airless.declination_rad;
        let before = self.before.replace(Before {
            noon,
            apparent_day_s: self.before.map_or(SECONDS_PER_DAY, |it| noon.seconds_since(it.noon)),
            declination_rad,
        });
        let (rise, set, daylight) = match self.semidiurnal_arc(declination_rad) {
            Arc::Crosses(arc_rad) => {
                // What the declination does in the hours from noon, by what it did since yesterday.
                let change_rad = before.map_or(0.0, |it| declination_rad - it.declination_rad);
                let quick = |half: f64| {
                    let then_rad = declination_rad + half * change_rad * arc_rad / TAU;
                    self.crossing(day, noon, half, then_rad)
                };
                match (quick(-1.0), quick(1.0)) {
                    (Some(rise), Some(set)) => (Some(rise), Some(set), Daylight::Crosses),
                    _ => self.careful(day)?,
                }
            }
            Arc::Up => (None, None, Daylight::NeverSets),
            Arc::Down => (None, None, Daylight::NeverRises),
            Arc::Grazes => self.careful(day)?,
        };
        Ok(YearDay {
            date: day.date,
            rise,
            noon,
            set,
            daylight,
            declination_rad: sun.declination_rad,
            equation: EquationOfTime::of(&sun, &time, nutation_rad),
            corrections: Corrections::at(self.instrument, noon, &at_noon),
        })
    }

    /// The Sun at an instant.
    fn sun(&self, instant: Instant) -> SunAtSite {
        let (sun, _) = self.grid.at(&EarthTime::from_instant(instant));
        sun_at_site(&sun, self.site, None)
    }

    /// When the Sun crosses the meridian on a day.
    fn noon(&self, day: &Day) -> Result<Instant, TimeError> {
        let guess = match &self.before {
            Some(before) => before.noon.plus_seconds(before.apparent_day_s)?,
            None => day.instant(SECONDS_PER_DAY / 2.0)?,
        };
        let noon = self.noon_near(guess)?;
        // Where noon is near the clock's midnight, a day may have another one, or two: the first.
        let into_s = day.seconds_to(noon);
        let is_first = (0.0..SECONDS_PER_DAY - LONGEST_EXCESS_S).contains(&into_s);
        if is_first {
            return Ok(noon);
        }
        let back_s = if into_s < 0.0 { -SECONDS_PER_DAY } else { SECONDS_PER_DAY };
        let other = self.noon_near(noon.plus_seconds(-back_s)?)?;
        let is_inside = (0.0..SECONDS_PER_DAY).contains(&day.seconds_to(other));
        Ok(if is_inside { other } else { noon })
    }

    /// The noon nearest to an instant.
    fn noon_near(&self, guess: Instant) -> Result<Instant, TimeError> {
        let mut instant = guess;
        for _ in 0..MOST_STEPS {
            let step_s = -self.sun(instant).airless.hour_angle_rad / RATE_RAD_PER_S;
            instant = instant.plus_seconds(step_s)?;
            if step_s.abs() < TOLERANCE_S {
                break;
            }
        }
        Ok(instant)
    }

    /// How far from the meridian the Sun crosses the horizon at a declination.
    fn semidiurnal_arc(&self, declination_rad: f64) -> Arc {
        let (sin_d, cos_d) = declination_rad.sin_cos();
        let (sin_p, cos_p) = self.site.latitude_sin_cos();
        let (needed, half_width) = (STANDARD_ALTITUDE_RAD.sin() - sin_p * sin_d, cos_p * cos_d);
        if needed > half_width + GRAZING {
            Arc::Down
        } else if needed < -half_width - GRAZING {
            Arc::Up
        } else if needed.abs() > half_width - GRAZING {
            Arc::Grazes
        } else {
            Arc::Crosses((needed / half_width).acos())
        }
    }

    /// The rise (`half` −1) or the set (+1) about a noon, the declination being about this then;
    /// `None` when it has to be looked for with more care.
    fn crossing(&self, day: &Day, noon: Instant, half: f64, guess_rad: f64) -> Option<Instant> {
        let (mut declination_rad, mut instant) = (guess_rad, noon);
        let mut hour_angle_rad = 0.0;
        for _ in 0..MOST_STEPS {
            let Arc::Crosses(arc_rad) = self.semidiurnal_arc(declination_rad) else { return None };
            // Near the lower meridian the hour angle jumps by a turn.
            let step_s = half_turn(half * arc_rad - hour_angle_rad) / RATE_RAD_PER_S;
            instant = instant.plus_seconds(step_s).ok()?;
            if step_s.abs() < TOLERANCE_S {
                let inside = NEAR_MIDNIGHT_S..=SECONDS_PER_DAY - NEAR_MIDNIGHT_S;
                return inside.contains(&day.seconds_to(instant)).then_some(instant);
            }
            let airless = self.sun(instant).airless;
            (declination_rad, hour_angle_rad) = (airless.declination_rad, airless.hour_angle_rad);
        }
        None
    }

    /// Rise and set by the search that misses nothing.
    fn careful(
        &mut self,
        day: &Day,
    ) -> Result<(Option<Instant>, Option<Instant>, Daylight), TimeError> {
        let offset = clock_offset(self.instrument, day.date);
        let events = day_events(self.track, self.site, day.date, offset, TimeScale::Civil)?;
        Ok((events.rise, events.set, events.daylight))
    }
}

/// How the Sun's path of a day lies to the horizon.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Arc {
    /// It crosses it at this hour angle on either side of noon, radians.
    Crosses(f64),
    /// It stays above.
    Up,
    /// It stays below.
    Down,
    /// It comes so near to touching that only a search can tell.
    Grazes,
}
