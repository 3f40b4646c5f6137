//! What passing time does to the state: play, glides, the clock on the wall.

use super::dial_time::DialTime;
use super::dirty::Dirty;
use super::noon_panel;
use super::speed::Advance;
use super::state::State;
use super::update::stepped;
use super::workings::Workings;
use crate::core::time::Instant;
use crate::words::Words;

/// With motion reduced, the least time between two moves, seconds.
const CALM_S: f64 = 0.5;

/// Play that has not yet filled a whole step.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Carry {
    /// Days, or seconds of the dial's time.
    amount: f64,
    /// Time since the last move, seconds.
    waited_s: f64,
}

/// Lets time pass: `seconds` since the last tick; `now` is what the clock on the wall shows.
pub(super) fn tick(
    state: &mut State,
    seconds: f64,
    now: Instant,
    workings: &mut Workings,
    words: &Words,
) -> Dirty {
    state.walk = state.walk.and_then(|walk| walk.after(seconds));
    if let Some((by, next)) = state.coast.map(|coast| coast.after(seconds)) {
        state.shown.view =
            state.shown.view.turned(by, workings.instrument(), workings.hour_angle_rad());
        state.coast = next;
    }
    state.fade = state.fade.and_then(|fade| fade.after(seconds));
    if let Some(jump) = state.jump {
        state.jump = jump.after(seconds);
        return Dirty::NOTHING;
    }
    if !state.playing {
        return Dirty::NOTHING;
    }
    if state.following_now {
        state.shown.instant = whole_second(now);
        return Dirty::NOTHING;
    }
    match advance(state, seconds, workings) {
        Some(instant) => state.shown.instant = instant,
        None => {
            state.playing = false;
            return state.tell(words.say("error.end-of-years").to_owned());
        }
    }
    Dirty::NOTHING
}

/// The clock without its fraction, so that the page is still between two seconds.
fn whole_second(now: Instant) -> Instant {
    Instant::from_unix_ms(now.unix_ms().div_euclid(1000) * 1000).unwrap_or(now)
}

/// Where play has come to; `None` at the end of the years the page knows.
fn advance(state: &mut State, seconds: f64, workings: &mut Workings) -> Option<Instant> {
    state.carry.waited_s += seconds;
    let pace = if state.noon_pass {
        Advance::Seconds(noon_panel::PACE)
    } else {
        state.shown.speed.advance()
    };
    match pace {
        Advance::Days(rate) => {
            state.carry.amount += rate * seconds;
            advance_days(state, workings)
        }
        Advance::Seconds(rate) if state.reduced_motion => {
            state.carry.amount += rate * seconds;
            advance_divisions(state, workings)
        }
        Advance::Seconds(rate) => {
            let next = state.shown.instant.plus_seconds(rate * seconds).ok()?;
            Some(stop_after_noon(state, next, workings))
        }
    }
}

/// Moves by the whole days that have come together.
fn advance_days(state: &mut State, workings: &mut Workings) -> Option<Instant> {
    let days = state.carry.amount.floor();
    if days < 1.0 || (state.reduced_motion && state.carry.waited_s < CALM_S) {
        return Some(state.shown.instant);
    }
    state.carry.amount -= days;
    state.carry.waited_s = 0.0;
    let time = workings.dial_time(state.shown.instant);
    workings.instant(time.plus_days(days as i64)).ok()
}

/// Moves to a later mark of the smallest division, once play has come to one.
fn advance_divisions(state: &mut State, workings: &mut Workings) -> Option<Instant> {
    let division_s = f64::from(workings.instrument().graduation().smallest_s());
    let marks = (state.carry.amount / division_s).floor();
    if marks < 1.0 || state.carry.waited_s < CALM_S {
        return Some(state.shown.instant);
    }
    state.carry.amount -= marks * division_s;
    state.carry.waited_s = 0.0;
    let time = workings.dial_time(state.shown.instant);
    let seconds = stepped(time.seconds, marks as i32, division_s);
    let next = workings.instant(DialTime { seconds, ..time }).ok()?;
    Some(stop_after_noon(state, next, workings))
}

/// Ends the pass through noon when it has been passed.
fn stop_after_noon(state: &mut State, next: Instant, workings: &Workings) -> Instant {
    let end = workings.day().noon.filter(|_| state.noon_pass);
    let end = end.and_then(|pass| pass.meridian.plus_seconds(noon_panel::MARGIN_S).ok());
    match end {
        Some(end) if next >= end => {
            state.playing = false;
            end
        }
        _ => next,
    }
}
