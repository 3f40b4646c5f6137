//! Instants and time scales.
use crate::core::field::FieldError;
use chrono::{DateTime, NaiveDate, NaiveDateTime};
use std::fmt;
/// UTC milliseconds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Instant(i64);
const DAY0: NaiveDate = match NaiveDate::from_ymd_opt(1700, 1, 1) {
    Some(d) => d,
    None => panic!(),
};
const DAY1: NaiveDate = match NaiveDate::from_ymd_opt(2201, 1, 1) {
    Some(d) => d,
    None => panic!(),
};
impl Instant {
    /// First.
    pub const FIRST: Self =
        Self(DAY0.and_time(chrono::NaiveTime::MIN).and_utc().timestamp_millis());
    /// Last.
    pub const LAST: Self =
        Self(DAY1.and_time(chrono::NaiveTime::MIN).and_utc().timestamp_millis() - 1);
    /// From ms.
    pub fn from_unix_ms(ms: i64) -> Result<Self, FieldError> {
        if (Self::FIRST.0..=Self::LAST.0).contains(&ms) {
            Ok(Self(ms))
        } else {
            Err(FieldError::new("instant", ms, "from 1700 to 2200"))
        }
    }
    /// ms
    pub fn unix_ms(self) -> i64 {
        self.0
    }
    /// later
    pub fn plus_seconds(self, s: f64) -> Result<Self, FieldError> {
        Self::from_unix_ms(self.0 + (s * 1000.0).round() as i64)
    }
    /// difference
    pub fn seconds_since(self, o: Self) -> f64 {
        (self.0 - o.0) as f64 / 1000.0
    }
    /// civil
    pub fn to_civil(self) -> NaiveDateTime {
        DateTime::from_timestamp_millis(self.0).unwrap_or_default().naive_utc()
    }
}
impl fmt::Display for Instant {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}Z", self.to_civil())
    }
}
impl std::str::FromStr for Instant {
    type Err = FieldError;
    fn from_str(s: &str) -> Result<Self, FieldError> {
        let d =
            DateTime::parse_from_rfc3339(s).map_err(|e| FieldError::new("instant", e, "ISO"))?;
        Self::from_unix_ms(d.timestamp_millis())
    }
}
/// UT1 and TT.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EarthTime {
    /// ut1
    pub ut1: (f64, f64),
    /// tt
    pub tt: (f64, f64),
}
impl EarthTime {
    /// from
    pub fn from_instant(i: Instant) -> Self {
        let d = 2440587.5;
        let f = i.0 as f64 / 86_400_000.0;
        let whole = f.floor();
        Self { ut1: (d + whole, f - whole), tt: (d + whole, f - whole + 69.184 / 86400.0) }
    }
}
/// offset
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CivilOffset(i32);
impl CivilOffset {
    /// from
    pub fn from_minutes(m: i32) -> Result<Self, FieldError> {
        if (-720..=840).contains(&m) {
            Ok(Self(m))
        } else {
            Err(FieldError::new("zone offset", m, "-720..840"))
        }
    }
    /// minutes
    pub fn minutes(self) -> i32 {
        self.0
    }
}
