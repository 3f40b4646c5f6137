//! Travel: the latitude itself, from pole to pole; what the dial becomes there, and what is special.

use super::choice::Choice;
use super::keys::Move;
use super::labels::day_and_month;
use super::reason::why;
use super::update::stepped;
use super::workings::Workings;
use crate::core::almanac::Daylight;
use crate::core::day::StretchKind;
use crate::core::field::FieldError;
use crate::core::instrument::{EndFaces, Instrument};
use crate::core::reading::NoReading;
use crate::core::sky::obliquity_rad;
use crate::core::time::EarthTime;
use crate::words::{Words, figures};

/// The poles, degrees.
pub const POLES_DEG: (f64, f64) = (-90.0, 90.0);
/// A hand that comes so near to a latitude with a name means it, degrees.
const CATCH_DEG: f64 = 0.7;
/// A latitude so near to one with a name is that one, degrees.
const THERE_DEG: f64 = 0.05;
/// Latitudes are kept to about a metre.
const PER_DEGREE: f64 = 1e5;
/// How far under the horizon the Sun's centre is when its upper limb touches it, by convention,
/// degrees.
const RISE_DEG: f64 = 0.833;

/// How a dial goes to another latitude.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Way {
    /// It is built anew for each place.
    #[default]
    Built,
    /// The stone itself is carried there, and stands level as it was built.
    Carried,
}

impl Way {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Built, Self::Carried];

    /// Its name in addresses.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Built => "built",
            Self::Carried => "carried",
        }
    }

    /// Finds a way by its key.
    #[must_use]
    pub fn by_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|way| way.key() == key)
    }
}

/// Where the dial has gone along its meridian.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Travel {
    /// Latitude, degrees, north positive.
    pub latitude_deg: f64,
    /// How it got there.
    pub way: Way,
}

impl Travel {
    /// Still at home.
    #[must_use]
    pub fn at_home(choice: &Choice) -> Self {
        Self { latitude_deg: choice.spec().latitude_deg, way: Way::default() }
    }

    /// Moved along the meridian: a hand is caught by latitudes that have a name, steps are whole
    /// degrees, and leaps go from one name to the next.
    #[must_use]
    pub fn moved(self, by: Move, named_deg: &[f64]) -> Self {
        let here = self.latitude_deg;
        let latitude_deg = match by {
            Move::To(degrees) => {
                let near = |named: &&f64| (**named - degrees).abs() < CATCH_DEG;
                named_deg.iter().find(near).copied().unwrap_or(degrees)
            }
            Move::Steps(steps) => stepped(here, steps, 1.0),
            Move::Leaps(leaps) if leaps > 0 => {
                let beyond = named_deg.iter().copied().filter(|named| *named > here);
                beyond.fold(POLES_DEG.1, f64::min)
            }
            Move::Leaps(_) => {
                let beyond = named_deg.iter().copied().filter(|named| *named < here);
                beyond.fold(POLES_DEG.0, f64::max)
            }
            Move::First => POLES_DEG.0,
            Move::Last => POLES_DEG.1,
        };
        let kept = (latitude_deg * PER_DEGREE).round() / PER_DEGREE;
        Self { latitude_deg: kept.clamp(POLES_DEG.0, POLES_DEG.1), ..self }
    }
}

/// The instrument as it stands after the journey.
///
/// # Errors
/// When it could not stand there; a test builds every one everywhere.
pub fn instrument(choice: &Choice, travel: Option<Travel>) -> Result<Instrument, FieldError> {
    let home = choice.spec();
    match travel {
        Some(Travel { latitude_deg, .. }) if latitude_deg == home.latitude_deg => {
            choice.instrument()
        }
        Some(Travel { latitude_deg, way: Way::Built }) => {
            Instrument::new(home.built_for(latitude_deg)?)
        }
        Some(Travel { latitude_deg, way: Way::Carried }) => {
            choice.instrument()?.carried_to(latitude_deg)
        }
        None => choice.instrument(),
    }
}

/// The latitudes that have a name, degrees to two decimals, from the south pole up: poles, polar
/// circles, tropics and the equator as the Earth's axis leans at the moment.
#[must_use]
pub fn named_deg(workings: &Workings) -> [f64; 7] {
    let tropic = tropic_deg(workings);
    let circle = 90.0 - tropic;
    [-90.0, -circle, -tropic, 0.0, tropic, circle, 90.0]
}

/// The tropic, degrees to two decimals.
fn tropic_deg(workings: &Workings) -> f64 {
    let time = EarthTime::from_instant(workings.moment().instant);
    (obliquity_rad(&time).to_degrees() * 100.0).round() / 100.0
}

/// "50.00° N".
#[must_use]
pub fn latitude(words: &Words, latitude_deg: f64) -> String {
    let key = if latitude_deg < 0.0 { "page.place.own.south" } else { "page.place.own.north" };
    words.fill(key, &[("latitude", &format!("{:.2}", latitude_deg.abs()))])
}

/// What is special at a latitude, with numbers of the year that is shown.
#[must_use]
pub fn special(words: &Words, workings: &Workings) -> String {
    let latitude_deg = workings.instrument().site().latitude_deg();
    let (size, north) = (latitude_deg.abs(), latitude_deg >= 0.0);
    let tropic = tropic_deg(workings);
    let at = |named: f64| (size - named).abs() < THERE_DEG;
    let degrees = |degrees: f64| figures::degrees(degrees.to_radians());
    let text = if at(0.0) {
        return words.say("travel.equator").to_owned();
    } else if at(90.0) {
        let key = if north { "travel.pole.north" } else { "travel.pole.south" };
        let altitude = figures::degrees(workings.moment().sun.airless.altitude_rad);
        return words.fill(key, &[("altitude", &altitude)]);
    } else if at(tropic) {
        words.fill("travel.tropic", &[("date", &midsummer(words, workings, north))])
    } else if size < tropic {
        let [first, second] = overhead(words, workings, latitude_deg);
        words.fill("travel.tropics", &[("first", &first), ("second", &second)])
    } else if at(90.0 - tropic) {
        words.fill("travel.circle", &[("date", &midsummer(words, workings, north))])
    } else if size > 90.0 - tropic {
        let [light, dark] = without_change(workings, latitude_deg);
        words.fill("travel.polar", &[("light", &light), ("dark", &dark)])
    } else {
        let (low, high) = (degrees(90.0 - size - tropic), degrees(90.0 - size + tropic));
        words.fill("travel.middle", &[("low", &low), ("high", &high)])
    };
    // Between the tropics the noon Sun is in the north for a part of the year only.
    if north || size < tropic { text } else { text + " " + words.say("travel.south") }
}

/// The date of the solstice at which the Sun is highest.
fn midsummer(words: &Words, workings: &Workings, north: bool) -> String {
    let [_, june, _, december] = workings.year().seasons;
    let solstice = if north { june } else { december };
    day_and_month(words, solstice.instant.civil().date())
}

/// The first and the last date on which the noon Sun passes a latitude's zenith.
fn overhead(words: &Words, workings: &Workings, latitude_deg: f64) -> [String; 2] {
    let past = |declination_rad: f64| declination_rad.to_degrees() > latitude_deg;
    let days = &workings.year().days;
    let pairs = days.iter().zip(days.iter().skip(1));
    let passes = pairs.filter(|(before, after)| past(before.1) != past(after.1));
    let mut dates = passes.map(|(_, after)| day_and_month(words, after.0));
    let first = dates.next().unwrap_or_else(|| midsummer(words, workings, latitude_deg > 0.0));
    let last = dates.next_back().unwrap_or_else(|| first.clone());
    [first, last]
}

/// How many days of the year the Sun does not set, and does not rise.
fn without_change(workings: &Workings, latitude_deg: f64) -> [String; 2] {
    let towards = latitude_deg.signum();
    let to_pole_deg = 90.0 - latitude_deg.abs();
    let count = |sign: f64, least_deg: f64| {
        let days = workings.year().days.iter();
        days.filter(|day| day.1.to_degrees() * towards * sign > least_deg).count().to_string()
    };
    [count(1.0, to_pole_deg - RISE_DEG), count(-1.0, to_pole_deg + RISE_DEG)]
}

/// What has become of the dial, and how it reads at this hour.
#[must_use]
pub fn told(words: &Words, workings: &Workings, way: Way) -> String {
    let instrument = workings.instrument();
    let off_rad = instrument.off_latitude_rad();
    if way == Way::Built {
        let square = instrument.end_faces() == EndFaces::Square;
        let key = if square { "travel.built-square" } else { "travel.built" };
        let slope = figures::degrees(instrument.built_latitude_rad().abs());
        return words.fill(key, &[("slope", &slope)]);
    }
    if off_rad == 0.0 {
        return words.say("travel.home-true").to_owned();
    }
    let now = match &workings.moment().reading {
        Ok(reading) => {
            let fast_s = reading.exact_s - workings.now().seconds;
            let key = match fast_s {
                _ if fast_s.abs() < 1.0 => "travel.right",
                _ if fast_s > 0.0 => "travel.fast",
                _ => "travel.slow",
            };
            words.fill(key, &[("time", &figures::duration(words, fast_s))])
        }
        Err(NoReading::Blind { .. }) => words.say("travel.noon").to_owned(),
        Err(reason) => why(words, workings, *reason),
    };
    let off = figures::degrees(off_rad.abs());
    let [read, light] = spans_s(workings).map(|span_s| figures::duration(words, span_s));
    // A person would not count the light of a day without a night, nor hours that are none.
    let midnight_sun = workings.day().events.daylight == Daylight::NeverSets;
    let key = match spans_s(workings) {
        [shown_s, lit_s] if lit_s - shown_s < 1.0 => "travel.day.all",
        [shown_s, _] if shown_s < 1.0 => "travel.day.none",
        _ if midnight_sun => "travel.day.up",
        _ => "travel.day",
    };
    let day = words.fill(key, &[("off", &off), ("read", &read), ("light", &light)]);
    now + " " + &day
}

/// How long the dial shows an hour on the day that is shown, with the pass through noon, and how
/// long it has light, seconds.
fn spans_s(workings: &Workings) -> [f64; 2] {
    let mut spans = [0.0; 2];
    for stretch in &workings.day().stretches {
        let length_s = stretch.to_s - stretch.from_s;
        if matches!(stretch.kind, StretchKind::West | StretchKind::East | StretchKind::Blind) {
            spans[0] += length_s;
        }
        spans[1] += length_s;
    }
    spans
}
