//! What the clocks of a named time zone show through a year.

use super::{CivilOffset, Instant};
use chrono::{NaiveDate, NaiveTime};

/// Days between two looks at the clocks: no zone changes them and changes them back within fewer.
const LOOK_EVERY_DAYS: i64 = 12;
/// Days before and after the year that are looked at, so that its first and last hours are known
/// by any clock.
const MARGIN_DAYS: i64 = 24;
const DAY_MS: i64 = 86_400_000;
/// Clocks are changed on a whole minute.
const MINUTE_MS: i64 = 60_000;

/// The offsets of a zone in one year: from which instant on each of them holds.
///
/// Which offset a zone has is asked of whoever knows; the list makes the answer a value that can
/// be kept and tested.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ZoneTable {
    year: i32,
    /// Offset at the beginning of the list.
    first: CivilOffset,
    changes: Vec<(Instant, CivilOffset)>,
}

impl ZoneTable {
    /// Asks for the offset, in minutes, at instants of a year given in Unix milliseconds, and
    /// finds when it changes. `None` when there is no answer, or the year is not one in use.
    pub fn of_year(year: i32, ask: &mut dyn FnMut(i64) -> Option<i32>) -> Option<Self> {
        let begin = NaiveDate::from_ymd_opt(year, 1, 1)?.and_time(NaiveTime::MIN).and_utc();
        let begin_ms = begin.timestamp_millis() - MARGIN_DAYS * DAY_MS;
        let end_ms = begin_ms + (366 + 2 * MARGIN_DAYS) * DAY_MS;
        let first = ask(begin_ms)?;
        let (mut from_ms, mut here) = (begin_ms, first);
        let mut changes = Vec::new();
        while from_ms < end_ms {
            let to_ms = from_ms + LOOK_EVERY_DAYS * DAY_MS;
            let there = ask(to_ms)?;
            if there != here {
                let change_ms = change_between(from_ms, to_ms, here, ask)?;
                let offset = CivilOffset::from_minutes(there).ok()?;
                changes.push((Instant::from_unix_ms_saturating(change_ms), offset));
            }
            (from_ms, here) = (to_ms, there);
        }
        Some(Self { year, first: CivilOffset::from_minutes(first).ok()?, changes })
    }

    /// The year.
    #[must_use]
    pub fn year(&self) -> i32 {
        self.year
    }

    /// The offset at an instant; outside the year, the nearest one known.
    #[must_use]
    pub fn at(&self, instant: Instant) -> CivilOffset {
        let last = self.changes.iter().rev().find(|(from, _)| *from <= instant);
        last.map_or(self.first, |(_, offset)| *offset)
    }

    /// The least offset of the year: what summer time is counted from.
    #[must_use]
    pub fn standard(&self) -> CivilOffset {
        self.offsets().min().unwrap_or(self.first)
    }

    /// Every offset of the year.
    pub fn offsets(&self) -> impl Iterator<Item = CivilOffset> {
        std::iter::once(self.first).chain(self.changes.iter().map(|(_, offset)| *offset))
    }
}

/// The first minute, between two instants, at which the offset is no longer what it was.
fn change_between(
    mut from_ms: i64,
    mut to_ms: i64,
    before: i32,
    ask: &mut dyn FnMut(i64) -> Option<i32>,
) -> Option<i64> {
    while to_ms - from_ms > MINUTE_MS {
        let middle_ms = (from_ms + to_ms) / 2 / MINUTE_MS * MINUTE_MS;
        if ask(middle_ms)? == before {
            from_ms = middle_ms;
        } else {
            to_ms = middle_ms;
        }
    }
    Some(to_ms)
}

#[cfg(test)]
mod tests {
    use super::*;

    const MARCH_MS: i64 = 1_774_746_000_000;
    const OCTOBER_MS: i64 = 1_792_890_000_000;

    fn at(ms: i64) -> Instant {
        Instant::from_unix_ms_saturating(ms)
    }

    #[test]
    fn the_changes_of_a_year_are_found_to_the_minute() {
        let mut asked = 0;
        let mut ask = |ms: i64| {
            asked += 1;
            Some(if (MARCH_MS..OCTOBER_MS).contains(&ms) { 120 } else { 60 })
        };
        let Some(table) = ZoneTable::of_year(2026, &mut ask) else { panic!("it answers") };
        for (ms, minutes) in [
            (MARCH_MS - 1, 60),
            (MARCH_MS, 120),
            (OCTOBER_MS - 1, 120),
            (OCTOBER_MS, 60),
            (OCTOBER_MS * 2, 60),
            (0, 60),
        ] {
            assert_eq!(table.at(at(ms)).minutes(), minutes, "{ms}");
        }
        assert_eq!(table.standard().minutes(), 60);
        assert!(asked < 100, "asked {asked} times");
    }

    #[test]
    fn a_pause_of_a_month_in_summer_time_is_not_missed() {
        let pause = 1_771_120_800_000..1_774_144_800_000;
        let mut ask = |ms: i64| Some(if pause.contains(&ms) { 0 } else { 60 });
        let Some(table) = ZoneTable::of_year(2026, &mut ask) else { panic!("it answers") };
        assert_eq!(table.at(at(pause.start - 1)).minutes(), 60);
        assert_eq!(table.at(at(pause.start)).minutes(), 0);
        assert_eq!(table.at(at(pause.end)).minutes(), 60);
    }

    #[test]
    fn without_an_answer_there_is_no_table() {
        assert_eq!(ZoneTable::of_year(2026, &mut |_| None), None);
        assert_eq!(ZoneTable::of_year(2026, &mut |_| Some(9000)), None);
    }
}
