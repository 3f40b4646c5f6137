//! What follows from the state, kept until the state no longer calls for it.

use chrono::{Datelike, NaiveDate};

use super::choice::Choice;
use super::dial_time::DialTime;
use super::state::Shown;
use super::travel::{self, Travel};
use super::typed;
use super::zones::{NoZones, Zones};
use crate::core::day::DayOutline;
use crate::core::field::FieldError;
use crate::core::instrument::Instrument;
use crate::core::moment::{Conditions, Moment};
use crate::core::sky::SunTrack;
use crate::core::time::{Instant, ZoneTable};
use crate::core::year::YearCurve;

/// The instrument, the Sun's track, and the moment, day and year last asked for.
#[derive(Debug)]
pub struct Workings {
    choice: Choice,
    travel: Option<Travel>,
    zones: Box<dyn Zones>,
    instrument: Instrument,
    track: SunTrack,
    conditions: Conditions,
    moment: Moment,
    dial_time: DialTime,
    day: DayOutline,
    /// Whether the day is still that of the instrument before.
    stale_day: bool,
    /// The day after it, while nothing more can be read on the day itself.
    tomorrow: Option<DayOutline>,
    year: YearCurve,
}

impl Workings {
    /// Works everything out for what is shown.
    ///
    /// # Errors
    /// When the instrument can't stand; a test makes every instrument that can be chosen.
    pub fn new(shown: &Shown) -> Result<Self, FieldError> {
        Self::with_zones(shown, Box::new(NoZones))
    }

    /// The same, with somebody who knows the time zones by name.
    ///
    /// # Errors
    /// When the instrument can't stand.
    pub fn with_zones(shown: &Shown, zones: Box<dyn Zones>) -> Result<Self, FieldError> {
        let mut instrument = travel::instrument(&shown.instrument, shown.travel)?;
        give_zone(&mut instrument, shown.instant.civil().year(), zones.as_ref());
        let mut track = SunTrack::new();
        let conditions = shown.conditions();
        let moment = Moment::compute(&instrument, shown.instant, &conditions, &mut track);
        let dial_time = DialTime::at(&instrument, &mut track, shown.instant);
        let day = DayOutline::compute(&instrument, dial_time.date, &conditions, &mut track)?;
        let year = YearCurve::compute(dial_time.date.year(), &mut track)?;
        Ok(Self {
            choice: shown.instrument.clone(),
            travel: shown.travel,
            zones,
            instrument,
            track,
            conditions,
            moment,
            dial_time,
            day,
            stale_day: false,
            tomorrow: None,
            year,
        })
    }

    /// Brings everything up to date with what is on the screen.
    pub fn refresh(&mut self, shown: &Shown) {
        let conditions = shown.conditions();
        self.set_instrument(&shown.instrument, shown.travel);
        self.know_clocks(shown.instant.civil().year());
        self.stale_day |= self.conditions.air != conditions.air;
        self.conditions = conditions;
        let (instrument, track) = (&self.instrument, &mut self.track);
        self.moment = Moment::compute(instrument, shown.instant, &conditions, track);
        self.dial_time = DialTime::at(instrument, track, shown.instant);
        let date = self.dial_time.date;
        // In the first and last hours of the years known, the place's own date can lie outside
        // them: the day and year before it stay.
        if (self.stale_day || self.day.date != date)
            && let Ok(day) = DayOutline::compute(instrument, date, &conditions, track)
        {
            self.day = day;
            self.stale_day = false;
            self.tomorrow = None;
        }
        let done =
            self.moment.reading.is_err() && self.day.next_reading(self.moment.instant).is_none();
        if done
            && self.tomorrow.is_none()
            && let Some(next) = date.succ_opt()
        {
            self.tomorrow = DayOutline::compute(instrument, next, &conditions, track).ok();
        }
        if self.year.year != date.year()
            && let Ok(year) = YearCurve::compute(date.year(), track)
        {
            self.year = year;
        }
    }

    /// Takes another instrument; what follows from it is worked out when it is asked for.
    pub fn set_instrument(&mut self, choice: &Choice, travel: Option<Travel>) {
        if *choice == self.choice && travel == self.travel {
            return;
        }
        // One that could not stand would leave the last good instrument in place.
        let Ok(mut instrument) = travel::instrument(choice, travel) else { return };
        give_zone(&mut instrument, self.dial_time.date.year(), self.zones.as_ref());
        self.choice = choice.clone();
        self.travel = travel;
        self.instrument = instrument;
        self.stale_day = true;
    }

    /// Asks what the clocks of the instrument's time zone show in a year, unless that is known.
    pub fn know_clocks(&mut self, year: i32) {
        if self.instrument.zone().is_some_and(|zone| zone.year() != year) {
            give_zone(&mut self.instrument, year, self.zones.as_ref());
            self.stale_day = true;
        }
    }

    /// The instant on another date at which clocks show what they show at `instant`.
    ///
    /// # Errors
    /// When it is outside the years known.
    pub fn at_same_clock(
        &mut self,
        date: NaiveDate,
        instant: Instant,
    ) -> Result<Instant, FieldError> {
        let time = typed::civil_at(&self.instrument, instant).time();
        self.know_clocks(date.year());
        typed::instant_of(&self.instrument, date.and_time(time))
    }

    /// Clock time minus universal time in a time zone, minutes; `None` if its name is not known.
    #[must_use]
    pub fn zone_offset_min(&self, zone: &str) -> Option<i32> {
        let year = self.dial_time.date.year();
        let mut ask = |ms| self.zones.offset_min(zone, ms);
        ZoneTable::of_year(year, &mut ask).map(|table| table.standard().minutes())
    }

    /// Which instrument it is.
    #[must_use]
    pub fn choice(&self) -> &Choice {
        &self.choice
    }

    /// The instrument.
    #[must_use]
    pub fn instrument(&self) -> &Instrument {
        &self.instrument
    }

    /// The moment on the screen.
    #[must_use]
    pub fn moment(&self) -> &Moment {
        &self.moment
    }

    /// The Sun's hour angle about the dial at the moment on the screen, radians.
    #[must_use]
    pub fn hour_angle_rad(&self) -> f64 {
        self.moment.on_dial.hour_angle_rad
    }

    /// Date and local apparent time of the moment on the screen.
    #[must_use]
    pub fn now(&self) -> DialTime {
        self.dial_time
    }

    /// The day of the moment on the screen.
    #[must_use]
    pub fn day(&self) -> &DayOutline {
        &self.day
    }

    /// The day after it, while nothing more can be read on the day itself.
    #[must_use]
    pub fn tomorrow(&self) -> Option<&DayOutline> {
        self.tomorrow.as_ref()
    }

    /// The year of the moment on the screen.
    #[must_use]
    pub fn year(&self) -> &YearCurve {
        &self.year
    }

    /// Date and local apparent time of an instant.
    pub fn dial_time(&mut self, instant: Instant) -> DialTime {
        DialTime::at(&self.instrument, &mut self.track, instant)
    }

    /// The instant of a date and local apparent time.
    ///
    /// # Errors
    /// When it is outside the years the page knows.
    pub fn instant(&mut self, time: DialTime) -> Result<Instant, FieldError> {
        time.instant(&self.instrument, &mut self.track)
    }

    /// The day of any date, worked out afresh unless it is the one on the screen.
    ///
    /// # Errors
    /// When it is outside the years the page knows.
    pub fn day_of(&mut self, date: NaiveDate) -> Result<DayOutline, FieldError> {
        if self.day.date == date && !self.stale_day {
            return Ok(self.day.clone());
        }
        let (instrument, track) = (&self.instrument, &mut self.track);
        Ok(DayOutline::compute(instrument, date, &self.conditions, track)?)
    }
}

/// Lets an instrument's clocks go by its time zone, if it has one and the name is understood.
fn give_zone(instrument: &mut Instrument, year: i32, zones: &dyn Zones) {
    let zone = instrument.spec().time_zone.as_deref();
    let table = zone.and_then(|zone| {
        let mut ask = |ms| zones.offset_min(zone, ms);
        ZoneTable::of_year(year, &mut ask)
    });
    instrument.set_zone(table);
}
