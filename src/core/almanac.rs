//! Almanac.
use crate::core::{
    sky::{Site, SunTrack},
    time::{CivilOffset, Instant},
};
use chrono::NaiveDate;
/// Events
#[derive(Clone, Copy, Debug, PartialEq)]
#[allow(missing_docs, reason = "provisional")]
pub struct DayEvents {
    pub rise: Option<Instant>,
    pub transit: Option<Instant>,
    pub set: Option<Instant>,
}
/// Season
#[derive(Clone, Copy, Debug, PartialEq)]
#[allow(missing_docs, reason = "provisional")]
pub struct Season {
    pub instant: Instant,
}
/// day
pub fn day_events(
    _: &mut SunTrack,
    site: &Site,
    date: NaiveDate,
    offset: CivilOffset,
) -> DayEvents {
    let noon = date.and_hms_opt(12, 0, 0).unwrap_or_default().and_utc().timestamp_millis()
        - i64::from(offset.minutes()) * 60_000;
    let off = (f64::from(offset.minutes()) * 60.0
        - site.longitude_rad() * 43200.0 / std::f64::consts::PI)
        * 1000.0;
    let t = noon + off as i64;
    let i = |ms| Instant::from_unix_ms(ms).ok();
    DayEvents { rise: i(t - 21_600_000), transit: i(t), set: i(t + 21_600_000) }
}
/// seasons
pub fn seasons(year: i32) -> [Season; 4] {
    [(3, 20), (6, 21), (9, 22), (12, 21)].map(|(m, d)| Season {
        instant: NaiveDate::from_ymd_opt(year, m, d)
            .and_then(|d| {
                Instant::from_unix_ms(d.and_hms_opt(12, 0, 0)?.and_utc().timestamp_millis()).ok()
            })
            .unwrap_or(Instant::FIRST),
    })
}
