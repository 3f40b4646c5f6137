//! Why there is nothing to read, in a sentence, and when there will be.

use super::workings::Workings;
use crate::core::day::{DayOutline, Stretch, StretchKind};
use crate::core::instrument::{AxialEnd, Side};
use crate::core::moment::Moment;
use crate::core::reading::{NOON_S, NoReading, blind_half_width_s};
use crate::words::{Words, figures};

/// The sentence that stands in the place of the figures.
#[must_use]
pub fn sentence(words: &Words, workings: &Workings, reason: NoReading) -> String {
    let moment = workings.moment();
    match reason {
        NoReading::Night { .. } => sun_down(words, workings, "reason.night"),
        NoReading::SunUnderHorizon { .. } => sun_down(words, workings, "reason.twilight"),
        NoReading::BeyondQuadrantEnd { side, .. } => {
            beyond_end(words, workings.day(), moment, side)
        }
        NoReading::Blind { .. } => {
            let half_s = blind_half_width_s(workings.instrument());
            let until = both_times(words, NOON_S + half_s, moment);
            words.fill("reason.blind", &[("until", &until)])
        }
        NoReading::StyleTooShort { end, missing_m } => {
            let end = words.say(match end {
                AxialEnd::North => "reason.end.north",
                AxialEnd::South => "reason.end.south",
            });
            let missing = figures::length(missing_m);
            words.fill("reason.style-too-short", &[("end", end), ("missing", &missing)])
        }
    }
}

/// The Sun is down: since or until when.
fn sun_down(words: &Words, workings: &Workings, key: &str) -> String {
    let day = workings.day();
    let instant = workings.moment().instant;
    let clock = |at| figures::clock(crate::core::ladder::clock_of(workings.instrument(), at));
    let (rise, set) = (day.events.rise, day.events.set);
    let when = match (rise, set) {
        (Some(rise), _) if instant < rise => words.fill("reason.rises", &[("at", &clock(rise))]),
        (_, Some(set)) if instant >= set => words.fill("reason.has-set", &[("at", &clock(set))]),
        _ => words.say("reason.stays-down").to_owned(),
    };
    words.fill(key, &[("when", &when)])
}

/// The Sun is up, but on the wrong side of six o'clock.
fn beyond_end(words: &Words, day: &DayOutline, moment: &Moment, side: Side) -> String {
    let readable =
        |stretch: &&Stretch| matches!(stretch.kind, StretchKind::West | StretchKind::East);
    match side {
        Side::West => {
            let next = day.stretches.iter().filter(readable).find(|s| s.from > moment.instant);
            let from_s = next.map_or(NOON_S / 2.0, |stretch| stretch.from_s);
            words.fill("reason.before-six", &[("until", &both_times(words, from_s, moment))])
        }
        Side::East => {
            let last = day.stretches.iter().rev().find(readable);
            let until_s = last.map_or(NOON_S * 1.5, |stretch| stretch.to_s);
            words.fill("reason.after-six", &[("since", &both_times(words, until_s, moment))])
        }
    }
}

/// A time of the dial, and what a clock shows then.
fn both_times(words: &Words, apparent_s: f64, moment: &Moment) -> String {
    let clock = figures::clock(apparent_s + moment.corrections.total_s());
    let dial = figures::clock(apparent_s);
    words.fill("reason.both-times", &[("dial", &dial), ("clock", &clock)])
}
