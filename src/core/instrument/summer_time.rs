//! When a place puts its clocks forward.

use chrono::{Datelike, Days, NaiveDate, NaiveDateTime};

use crate::core::time::Instant;

/// The rule of summer time at a place.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SummerTime {
    /// Clocks keep zone time all year.
    #[default]
    Never,
    /// An hour ahead from 01:00 universal time on the last Sunday of March until 01:00 on the
    /// last Sunday of October.
    LastSundays,
}

impl SummerTime {
    /// How far clocks are ahead in summer, minutes.
    pub const ADVANCE_MIN: i32 = 60;

    /// Every rule, none first.
    pub const ALL: [Self; 2] = [Self::Never, Self::LastSundays];

    /// Its name in files.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Never => "never",
            Self::LastSundays => "last-sundays",
        }
    }

    /// How far clocks are ahead of zone time at an instant, minutes.
    #[must_use]
    pub fn advance_min(self, instant: Instant) -> i32 {
        match self {
            Self::Never => 0,
            Self::LastSundays => {
                let now = instant.civil();
                let ahead = changeover(now.date().year(), 3).is_some_and(|start| now >= start)
                    && changeover(now.date().year(), 10).is_some_and(|end| now < end);
                if ahead { Self::ADVANCE_MIN } else { 0 }
            }
        }
    }
}

/// 01:00 on the last Sunday of a month of 31 days.
fn changeover(year: i32, month: u32) -> Option<NaiveDateTime> {
    let last_day = NaiveDate::from_ymd_opt(year, month, 31)?;
    let back = Days::new(u64::from(last_day.weekday().num_days_from_sunday()));
    last_day.checked_sub_days(back)?.and_hms_opt(1, 0, 0)
}
