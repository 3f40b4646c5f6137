//! The pass through noon: a countdown, and the three intervals with their clock times.

use super::workings::Workings;
use crate::core::ladder::clock_of;
use crate::core::noon::NoonPass;
use crate::core::time::Instant;
use crate::scene::noon::feet_light;
use crate::words::{Words, figures};

/// How long before and after the meridian the pass begins and ends, seconds.
pub const MARGIN_S: f64 = 150.0;
/// How fast the pass plays, seconds in a second.
pub const PACE: f64 = 10.0;

/// One interval round noon.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Interval {
    /// What it is.
    pub label: String,
    /// Its clock times.
    pub times: String,
    /// Whether it is now.
    pub is_now: bool,
}

/// What the panel says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoonPanel {
    /// Time to the meridian, or since.
    pub countdown: String,
    /// How much of the Sun each foot sees.
    pub feet: String,
    /// The intervals, shortest first.
    pub intervals: [Interval; 3],
}

/// Writes the panel for the moment; `None` on a day without a noon.
#[must_use]
pub fn panel(words: &Words, workings: &Workings) -> Option<NoonPanel> {
    let pass = workings.day().noon?;
    let now = workings.moment().instant;
    Some(NoonPanel {
        countdown: countdown(words, &pass, now),
        feet: feet(words, workings),
        intervals: [
            interval(words, workings, "play.noon.meridian", (pass.meridian, pass.meridian)),
            interval(words, workings, "play.noon.blind", pass.blind),
            interval(words, workings, "play.noon.soft", pass.soft),
        ],
    })
}

/// "1 min 40 s to the meridian".
fn countdown(words: &Words, pass: &NoonPass, now: Instant) -> String {
    let to_go_s = (pass.meridian.unix_ms() - now.unix_ms()) as f64 / 1000.0;
    let key = if to_go_s >= 0.5 {
        "play.noon.before"
    } else if to_go_s > -0.5 {
        "play.noon.at"
    } else {
        "play.noon.after"
    };
    words.fill(key, &[("time", &figures::duration(words, to_go_s))])
}

/// "Of the Sun's light 40 % reaches the west foot and 60 % the east foot."
fn feet(words: &Words, workings: &Workings) -> String {
    let light = feet_light(workings.instrument(), workings.moment());
    let [west, east] = light.map(|share| format!("{:.0}", share * 100.0));
    words.fill("play.noon.feet", &[("west", &west), ("east", &east)])
}

/// One line of the panel; an instant is an interval of no length.
fn interval(
    words: &Words,
    workings: &Workings,
    key: &str,
    (from, to): (Instant, Instant),
) -> Interval {
    let clock = |at| figures::clock(clock_of(workings.instrument(), at));
    let now = workings.moment().instant;
    let times = if from == to {
        clock(from)
    } else {
        words.fill("play.noon.from-to", &[("from", &clock(from)), ("to", &clock(to))])
    };
    Interval { label: words.say(key).to_owned(), times, is_now: (from..=to).contains(&now) }
}
