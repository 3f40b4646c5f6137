//! Why there is nothing to read, in a sentence, and when there will be again.

use super::workings::Workings;
use crate::core::day::{Stretch, StretchKind};
use crate::core::instrument::{AxialEnd, Side};
use crate::core::ladder::clock_of;
use crate::core::reading::{NOON_S, NoReading, QUADRANT_ENDS_RAD, blind_half_width_s, shown_at};
use crate::core::time::Instant;
use crate::words::{Words, figures};

/// The sentences that stand in the place of the figures.
#[must_use]
pub fn sentence(words: &Words, workings: &Workings, reason: NoReading) -> String {
    let why = why(words, workings, reason);
    match next(words, workings, reason) {
        Some(next) => why + " " + &next,
        None => why,
    }
}

/// Why there is nothing to read: the same wherever the page says it.
#[must_use]
pub fn why(words: &Words, workings: &Workings, reason: NoReading) -> String {
    // Carried far, the dial has the Sun behind it at other hours than six, and the shadow of any
    // style beside its quadrants.
    let carried = workings.instrument().off_latitude_rad() != 0.0;
    match reason {
        NoReading::Night { .. } => sun_down(words, workings, "reason.night"),
        NoReading::SunUnderHorizon { .. } => sun_down(words, workings, "reason.twilight"),
        NoReading::BeyondQuadrantEnd { .. } if carried => words.say("travel.behind").to_owned(),
        NoReading::StyleTooShort { .. } if carried => words.say("travel.beside").to_owned(),
        NoReading::BeyondQuadrantEnd { side, .. } => beyond_end(words, workings, side),
        NoReading::Blind { .. } => blind(words, workings),
        NoReading::StyleTooShort { end, missing_m } => {
            let end = words.say(match end {
                AxialEnd::North => "reason.end.north",
                AxialEnd::South => "reason.end.south",
            });
            let missing = figures::length(words, missing_m);
            words.fill("reason.style-too-short", &[("end", end), ("missing", &missing)])
        }
    }
}

/// When it reads next, today or tomorrow; `None` where the reason has said so itself, or nobody knows.
fn next(words: &Words, workings: &Workings, reason: NoReading) -> Option<String> {
    let says_itself = match reason {
        NoReading::Blind { .. } => true,
        NoReading::BeyondQuadrantEnd { side, .. } => {
            side == Side::West && workings.instrument().off_latitude_rad() == 0.0
        }
        _ => false,
    };
    if says_itself {
        return None;
    }
    let fill = |key: &str, at| {
        words.fill(key, &[("at", &figures::clock(clock_of(workings.instrument(), at)))])
    };
    let now = workings.moment().instant;
    if let Some(at) = workings.day().next_reading(now) {
        return Some(fill("reason.next", at));
    }
    let tomorrow = workings.tomorrow()?;
    Some(match tomorrow.next_reading(now) {
        Some(at) => fill("reason.next-tomorrow", at),
        None => words.say("reason.next-later").to_owned(),
    })
}

/// The Sun is down: since or until when.
fn sun_down(words: &Words, workings: &Workings, key: &str) -> String {
    let day = workings.day();
    let instant = workings.moment().instant;
    let clock = |at| figures::clock(clock_of(workings.instrument(), at));
    let (rise, set) = (day.events.rise, day.events.set);
    let when = match (rise, set) {
        (Some(rise), _) if instant < rise => words.fill("reason.rises", &[("at", &clock(rise))]),
        (_, Some(set)) if instant >= set => words.fill("reason.has-set", &[("at", &clock(set))]),
        _ => words.say("reason.stays-down").to_owned(),
    };
    words.fill(key, &[("when", &when)])
}

/// The Sun is up, but on the wrong side of six o'clock.
fn beyond_end(words: &Words, workings: &Workings, side: Side) -> String {
    let readable =
        |stretch: &&Stretch| matches!(stretch.kind, StretchKind::West | StretchKind::East);
    let stretches = &workings.day().stretches;
    let now = workings.moment().instant;
    let (end_rad, met) = match side {
        Side::West => {
            let next = stretches.iter().filter(readable).find(|stretch| stretch.from > now);
            (QUADRANT_ENDS_RAD.0, next.map(|stretch| stretch.from))
        }
        Side::East => {
            let last = stretches.iter().rev().find(readable);
            (QUADRANT_ENDS_RAD.1, last.map(|stretch| stretch.to))
        }
    };
    let dial_s = shown_at(workings.instrument(), side, end_rad);
    let time = both_times(words, workings, dial_s, met);
    match side {
        Side::West => words.fill("reason.before-six", &[("until", &time)]),
        Side::East => words.fill("reason.after-six", &[("since", &time)]),
    }
}

/// The edge is too near XII.
fn blind(words: &Words, workings: &Workings) -> String {
    let half_s = blind_half_width_s(workings.instrument());
    let ends = workings.day().noon.map(|pass| pass.blind.1);
    let until = both_times(words, workings, NOON_S + half_s, ends);
    words.fill("reason.blind", &[("until", &until)])
}

/// What the dial shows, and what a clock shows then.
fn both_times(words: &Words, workings: &Workings, dial_s: f64, instant: Option<Instant>) -> String {
    let dial = figures::clock(dial_s);
    let Some(instant) = instant else { return words.fill("reason.dial-time", &[("dial", &dial)]) };
    let clock = figures::clock(clock_of(workings.instrument(), instant));
    words.fill("reason.both-times", &[("dial", &dial), ("clock", &clock)])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::message::Message;
    use crate::page::test_page::Page;
    use crate::page::travel::{Way, told};

    /// A page at an address that shows no reading, and why.
    fn unread(address: &str) -> (Page, NoReading) {
        let mut page = Page::new();
        page.send(Message::Address(address.to_owned()));
        page.state.settle();
        let shown = page.state.shown.clone();
        page.workings.refresh(&shown);
        let Err(reason) = page.workings.moment().reading else { panic!("{address} reads") };
        (page, reason)
    }

    #[test]
    fn it_says_when_the_dial_reads_next() {
        for (address, word) in [
            ("t=2026-10-18T18:30:00Z", "next tomorrow at 6:22"),
            ("t=2026-10-18T00:30:00Z", "read next at 6:2"),
            ("t=2026-06-21T15:00:00Z", "next tomorrow at 6:1"),
            ("t=2026-12-21T09:00:00Z&travel=80", "Tomorrow it can’t be read either"),
        ] {
            let (page, reason) = unread(address);
            let said = sentence(&page.words, &page.workings, reason);
            assert!(said.contains(word), "{address}: {said}");
            let again = said.matches("can").count();
            assert_eq!(again, 1, "{address}: {said}");
        }
    }

    #[test]
    fn the_time_it_says_is_the_first_at_which_the_next_day_reads() {
        let (mut page, _) = unread("t=2026-10-18T18:30:00Z");
        let tomorrow = page.workings.tomorrow();
        let at = tomorrow.and_then(|day| day.next_reading(page.workings.moment().instant));
        let Some(at) = at else { panic!("nothing tomorrow") };
        for (milliseconds, reads) in [(-2000, false), (2000, true)] {
            let to = Instant::from_unix_ms(at.unix_ms() + milliseconds);
            let Ok(to) = to else { panic!("in the years known") };
            page.state.shown.instant = to;
            let shown = page.state.shown.clone();
            page.workings.refresh(&shown);
            assert_eq!(page.workings.moment().reading.is_ok(), reads, "{milliseconds} ms");
        }
    }

    #[test]
    fn a_carried_dial_gives_one_reason_wherever_the_page_says_it() {
        for address in [
            "t=2026-06-21T15:30:00Z&travel=52&travel-as=carried",
            "t=2026-06-21T09:00:00Z&travel=-80&travel-as=carried",
            "t=2026-10-18T09:00:00Z&travel=-80&travel-as=carried",
        ] {
            let (page, reason) = unread(address);
            let (words, workings) = (&page.words, &page.workings);
            let why = why(words, workings, reason);
            assert!(sentence(words, workings, reason).starts_with(&why), "{address}");
            assert!(told(words, workings, Way::Carried).starts_with(&why), "{address}: {why}");
        }
    }
}
