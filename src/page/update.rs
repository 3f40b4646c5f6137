//! What each message does to the state: pure, the same for the same state and message.

use chrono::{Datelike, Months, NaiveDate};
use glam::DVec2;

use super::address;
use super::choice::Choice;
use super::coast::Coast;
use super::dial_time::DialTime;
use super::dirty::Dirty;
use super::edit;
use super::glide::{FADE_S, Glide, JUMP_S};
use super::keys::{CameraKey, Move};
use super::message::Message;
use super::noon_panel::MARGIN_S;
use super::rod::{MOST_COVER, Rod};
use super::state::State;
use super::tick::tick;
use super::travel::{self, Travel};
use super::typed;
use super::typed_quantity::parse;
use super::view::View;
use super::workings::Workings;
use crate::core::field::FieldError;
use crate::core::instrument::QUANTITIES;
use crate::core::pointer::Criterion;
use crate::core::reading::NOON_S;
use crate::core::time::{Instant, SECONDS_PER_DAY};
use crate::scene::camera::Standpoint;
use crate::scene::guide::{Guide, Strengths};
use crate::words::Words;

/// Seconds in the large step of the day strip.
const HOUR_S: f64 = 3600.0;
/// Seconds in the large step of the lens.
const QUARTER_S: f64 = 900.0;
/// Hundredths in the large step of what the eye sees.
const COVER_LEAP: f64 = 5.0;
/// Shorter than any division, longer than an instant's rounding, seconds.
const HARDLY_S: f64 = 0.002;

/// Does what a message asks, and tells what has to be drawn again.
pub fn update(
    state: &mut State,
    message: Message,
    workings: &mut Workings,
    words: &Words,
) -> Dirty {
    let before = state.on_screen(workings);
    let (goal, camera, guides) = (state.shown.clone(), state.camera(workings), state.guides());
    let was = Flags::of(state);
    let gesture = message.gesture();
    let can_be_undone = message.can_be_undone();
    let mut dirty = act(state, message, workings, words);
    if goal != state.shown {
        dirty |= Dirty::ADDRESS;
        if can_be_undone {
            state.history.keep(goal, gesture);
        }
    }
    dirty |= Dirty::between(&before, &state.on_screen(workings));
    // A guide may need room, for which the whole picture makes way.
    if camera != state.camera(workings) || guides != state.guides() {
        dirty |= Dirty::COURT;
    }
    if was != Flags::of(state) {
        dirty |= Dirty::CONTROLS | Dirty::TEXT;
    }
    dirty
}

/// What buttons show of the state beside what is shown.
#[derive(PartialEq, Eq)]
struct Flags {
    playing: bool,
    noon_pass: bool,
    following_now: bool,
    presenting: bool,
    can_undo: bool,
}

impl Flags {
    fn of(state: &State) -> Self {
        Self {
            playing: state.playing,
            noon_pass: state.noon_pass,
            following_now: state.following_now,
            presenting: state.presenting,
            can_undo: !state.history.is_empty(),
        }
    }
}

/// One arm a message.
fn act(state: &mut State, message: Message, workings: &mut Workings, words: &Words) -> Dirty {
    let outcome = match message {
        Message::Address(text) => return open_address(state, &text, workings, words),
        Message::Tick(seconds, now) => return tick(state, seconds, now, workings, words),
        Message::Instrument(choice) => choose_instrument(state, choice, workings),
        Message::Edit(edit) => return edit::edit(state, edit, workings, words),
        Message::Now(instant) => go_now(state, instant, workings),
        Message::PassNoon => return pass_noon(state, workings, words),
        Message::Day(by) => move_day(state, by, workings),
        Message::Year(by) => move_year(state, by, workings),
        Message::Season(index) => go_to_season(state, index, workings),
        Message::TravelTyped(text) => type_latitude(state, &text, workings),
        Message::TypedDate(text) => type_date(state, &text, workings),
        Message::TypedTime(text) => type_time(state, &text, workings),
        Message::Undo => return undo(state, workings),
        simple => return set(state, simple, workings),
    };
    match outcome {
        Ok(()) => Dirty::NOTHING,
        // The fields show again what they showed before.
        Err(refused) => {
            let sentence = sentence(words, &refused);
            state.tell(words.fill("error.typed", &[("sentence", &sentence)])) | Dirty::TEXT
        }
    }
}

/// Messages that only set a value.
fn set(state: &mut State, message: Message, workings: &mut Workings) -> Dirty {
    let view = state.shown.view;
    let shown = &mut state.shown;
    match message {
        Message::Refraction(on) => shown.refraction = on,
        Message::Limb(limb) => shown.limb = limb,
        Message::Round(rounding) => shown.rounding = rounding,
        Message::Theme(theme) => shown.theme = theme,
        Message::Speed(speed) => shown.speed = speed,
        Message::PlayPause => play_pause(state),
        Message::CloseNoon => {
            state.noon_pass = false;
            shown.noon = false;
        }
        Message::Standpoint(standpoint) => walk_to(state, standpoint, workings),
        Message::CameraKey(CameraKey::Home) => walk_to(state, view.standpoint, workings),
        Message::Orbit(by) => {
            see(state, view.turned(by, workings.instrument(), workings.hour_angle_rad()))
        }
        Message::Coast(speed) => coast(state, speed),
        Message::Zoom(by, about) => see(state, view.zoomed(by, about)),
        Message::CameraKey(key) => {
            see(state, view.by_key(key, workings.instrument(), workings.hour_angle_rad()))
        }
        Message::Guide(guide, on) => show_guide(state, guide, on),
        Message::Lens(by) => {
            let lens_s = moved_lens(shown.lens_s, by, workings);
            shown.lens_s = Some(lens_s);
        }
        Message::LensHome => shown.lens_s = None,
        Message::Travel(open) => {
            go(state, open.then(|| Travel::at_home(&state.shown.instrument)), workings);
        }
        Message::TravelTo(by) => {
            let named = travel::named_deg(workings);
            let home = shown.instrument.spec().latitude_deg;
            let named: Vec<f64> = named.into_iter().chain([home]).collect();
            go(state, state.shown.travel.map(|travel| travel.moved(by, &named)), workings);
        }
        Message::TravelHome => {
            let home = Travel::at_home(&shown.instrument);
            let home = shown.travel.map(|travel| Travel { way: travel.way, ..home });
            go(state, home, workings);
        }
        Message::TravelBy(way) => {
            let travel = shown.travel.map(|travel| Travel { way, ..travel });
            go(state, travel, workings);
        }
        Message::Present(on) => {
            state.presenting = on;
            return Dirty::ADDRESS;
        }
        Message::Limits(on) => shown.limits = on,
        Message::Rod(on) => hold_rod(state, on, workings),
        Message::RodTo(by) => {
            shown.rod = shown.rod.map(|rod| rod.moved(workings.instrument(), by));
        }
        Message::RodThickness(diameter_m) => {
            shown.rod = shown.rod.map(|rod| Rod { diameter_m, ..rod });
        }
        Message::LeastCover(by) => shown.least_cover = moved_cover(shown.least_cover, by),
        Message::RodAt(criterion) => hold_rod_at(state, criterion, workings),
        Message::Settle => {
            state.history.settle();
            state.editor.settle();
        }
        Message::Dismiss => {
            state.notices.clear();
            return Dirty::NOTICES;
        }
        Message::ReduceMotion(reduced) => state.reduced_motion = reduced,
        // The others are told apart in `act`.
        _ => {}
    }
    Dirty::NOTHING
}

/// A refusal as a sentence.
#[must_use]
pub fn sentence(words: &Words, refused: &FieldError) -> String {
    let FieldError { field, value, allowed } = refused;
    words.fill("error.field", &[("field", field), ("value", value), ("allowed", allowed)])
}

fn open_address(state: &mut State, text: &str, workings: &mut Workings, words: &Words) -> Dirty {
    let mut read = address::read(text, &state.shown);
    let (camera, guides) = (state.camera(workings), state.guides());
    jump(state, read.shown.instant, workings);
    if let Choice::Own(spec) = &read.shown.instrument {
        let (own, is_new) = read.shown.shelf.find_or_add(spec.as_ref().clone());
        if is_new {
            state.tell(words.fill("editor.from-address", &[("name", &own.name)]));
        }
        read.shown.instrument = Choice::Own(own);
    }
    state.editor.forget();
    workings.set_instrument(&read.shown.instrument, read.shown.travel);
    let is_same_stone = state.shown.instrument == read.shown.instrument;
    state.shown = read.shown;
    state.presenting = read.presenting;
    state.stand();
    state.walk_from(camera, workings);
    if !is_same_stone {
        // There is no way from one instrument to another.
        (state.jump, state.walk) = (None, None);
    }
    fade_from(state, guides);
    fit_rod(state, workings);
    if !read.refused.is_empty() {
        let sentences: Vec<String> = read.refused.iter().map(|it| sentence(words, it)).collect();
        let sentences = sentences.join("; ");
        state.tell(words.fill("error.address", &[("sentences", &sentences)]));
    }
    Dirty::ALL
}

/// Stops whatever moves the moment by itself.
fn halt(state: &mut State) {
    state.playing = false;
    state.following_now = false;
    state.noon_pass = false;
    state.jump = None;
    state.carry = Default::default();
}

/// Goes to a moment, by a short glide.
fn jump(state: &mut State, instant: Instant, workings: &mut Workings) {
    let from = state.on_screen(workings).instant;
    halt(state);
    if !state.reduced_motion && from != instant {
        state.jump = Some(Glide::new(workings.dial_time(from), JUMP_S));
    }
    state.shown.instant = instant;
}

/// Puts the moment where the hand puts it.
fn place(state: &mut State, time: DialTime, workings: &mut Workings) -> Result<(), FieldError> {
    let instant = workings.instant(time)?;
    halt(state);
    state.shown.instant = instant;
    Ok(())
}

/// The dial's date and time now, glides left aside.
pub(super) fn now(state: &State, workings: &mut Workings) -> DialTime {
    workings.dial_time(state.shown.instant)
}

/// Shows another instrument.
pub(super) fn choose_instrument(
    state: &mut State,
    choice: Choice,
    workings: &mut Workings,
) -> Result<(), FieldError> {
    // The same time of day there: the same instant could be night.
    let time = now(state, workings);
    workings.set_instrument(&choice, state.shown.travel);
    let instant = workings.instant(time)?;
    state.jump = None;
    state.following_now = false;
    state.stand();
    state.shown.instrument = choice;
    state.editor.forget();
    state.shown.instant = instant;
    state.shown.lens_s = None;
    state.shown.view = View::from(state.shown.view.standpoint);
    workings.refresh(&state.shown);
    if state.shown.rod.is_some() {
        state.shown.rod = Some(Rod::at_start(workings.instrument(), workings.moment()));
    }
    Ok(())
}

fn go_now(state: &mut State, instant: Instant, workings: &mut Workings) -> Result<(), FieldError> {
    jump(state, instant, workings);
    state.playing = true;
    state.following_now = true;
    Ok(())
}

fn pass_noon(state: &mut State, workings: &mut Workings, words: &Words) -> Dirty {
    let date = now(state, workings).date;
    let day = workings.day_of(date).ok().filter(|day| !day.stretches.is_empty());
    let noon = day.and_then(|day| day.noon);
    let Some(begin) = noon.and_then(|pass| pass.meridian.plus_seconds(-MARGIN_S).ok()) else {
        let carried = workings.instrument().off_latitude_rad() != 0.0;
        let key = if carried { "error.no-noon.carried" } else { "error.no-noon" };
        return state.tell(words.say(key).to_owned());
    };
    jump(state, begin, workings);
    state.playing = true;
    state.noon_pass = true;
    state.shown.noon = true;
    Dirty::NOTHING
}

fn play_pause(state: &mut State) {
    state.playing = !state.playing;
    state.following_now = false;
    state.carry = Default::default();
}

fn move_day(state: &mut State, by: Move, workings: &mut Workings) -> Result<(), FieldError> {
    let time = now(state, workings);
    let division_s = f64::from(workings.instrument().graduation().smallest_s());
    let seconds = match by {
        Move::To(seconds) => seconds,
        Move::Steps(steps) => stepped(time.seconds, steps, division_s),
        Move::Leaps(leaps) => time.seconds + f64::from(leaps) * HOUR_S,
        Move::First | Move::Last => {
            let day = workings.day_of(time.date)?;
            let (first, last) = (day.stretches.first(), day.stretches.last());
            let end =
                if by == Move::First { first.map(|s| s.from_s) } else { last.map(|s| s.to_s) };
            end.unwrap_or(NOON_S)
        }
    };
    // The strip is one day: its handle does not leave it, not even by an instant's rounding.
    let seconds = seconds.clamp(1.0, SECONDS_PER_DAY - 1.0);
    place(state, DialTime { seconds, ..time }, workings)
}

/// The next mark in a direction, or the one so many further.
pub(super) fn stepped(value: f64, steps: i32, division: f64) -> f64 {
    let marks = value / division;
    let hardly = HARDLY_S / division;
    let here = if steps > 0 { (marks + hardly).floor() } else { (marks - hardly).ceil() };
    (here + f64::from(steps)) * division
}

fn move_year(state: &mut State, by: Move, workings: &mut Workings) -> Result<(), FieldError> {
    let time = now(state, workings);
    let date = moved_date(time.date, by);
    place(state, DialTime { date, ..time }, workings)
}

/// A date moved along the year; steps and leaps may leave the year.
fn moved_date(date: NaiveDate, by: Move) -> NaiveDate {
    let months = |count: u32| Months::new(count);
    let moved = match by {
        // Day 365.6 is still the 31st of December.
        Move::To(day) => NaiveDate::from_yo_opt(date.year(), day.round().clamp(1.0, 366.0) as u32)
            .or_else(|| NaiveDate::from_yo_opt(date.year(), 365)),
        Move::Steps(steps) => date.checked_add_signed(chrono::TimeDelta::days(steps.into())),
        Move::Leaps(leaps) if leaps < 0 => date.checked_sub_months(months(leaps.unsigned_abs())),
        Move::Leaps(leaps) => date.checked_add_months(months(leaps.unsigned_abs())),
        Move::First => NaiveDate::from_ymd_opt(date.year(), 1, 1),
        Move::Last => NaiveDate::from_ymd_opt(date.year(), 12, 31),
    };
    moved.unwrap_or(date)
}

fn go_to_season(
    state: &mut State,
    index: usize,
    workings: &mut Workings,
) -> Result<(), FieldError> {
    let time = now(state, workings);
    let Some(season) = workings.year().seasons.get(index).copied() else { return Ok(()) };
    let date = workings.dial_time(season.instant).date;
    let instant = workings.instant(DialTime { date, ..time })?;
    jump(state, instant, workings);
    Ok(())
}

fn type_date(state: &mut State, text: &str, workings: &mut Workings) -> Result<(), FieldError> {
    let instant = workings.at_same_clock(typed::date(text)?, state.shown.instant)?;
    jump(state, instant, workings);
    Ok(())
}

fn type_time(state: &mut State, text: &str, workings: &mut Workings) -> Result<(), FieldError> {
    let time = typed::time(text)?;
    let date = typed::civil_at(workings.instrument(), state.shown.instant).date();
    let instant = typed::instant_of(workings.instrument(), date.and_time(time))?;
    jump(state, instant, workings);
    Ok(())
}

fn walk_to(state: &mut State, standpoint: Standpoint, workings: &Workings) {
    let from = state.camera(workings);
    state.stand();
    state.shown.view = View::from(standpoint);
    state.walk_from(from, workings);
}

/// Goes to another latitude, or home when there is none to go to.
fn go(state: &mut State, travel: Option<Travel>, workings: &mut Workings) {
    state.shown.travel = travel;
    workings.set_instrument(&state.shown.instrument, travel);
    fit_rod(state, workings);
}

/// Goes to a latitude as a person writes it: the first quantity of the table.
fn type_latitude(state: &mut State, text: &str, workings: &mut Workings) -> Result<(), FieldError> {
    let (quantity, spec) = (&QUANTITIES[0], state.shown.instrument.spec());
    let latitude_deg = parse(quantity, text, &spec)?;
    if !quantity.allows(&spec, latitude_deg) {
        return Err(quantity.refusal(&spec, latitude_deg));
    }
    go(state, state.shown.travel.map(|travel| Travel { latitude_deg, ..travel }), workings);
    Ok(())
}

fn show_guide(state: &mut State, guide: Guide, on: bool) {
    let from = state.guides();
    state.shown.guides = state.shown.guides.with(guide, on);
    fade_from(state, from);
}

/// Lets the guides fade to how they are now to be.
fn fade_from(state: &mut State, from: Strengths) {
    let changed = from != Strengths::from(state.shown.guides);
    state.fade = (!state.reduced_motion && changed).then(|| Glide::new(from, FADE_S));
}

/// Takes the camera in hand.
fn see(state: &mut State, view: View) {
    state.stand();
    state.shown.view = view;
}

/// Lets the camera go after a hand has turned it, and ends that gesture.
fn coast(state: &mut State, speed: DVec2) {
    state.history.settle();
    state.coast = Coast::new(speed).filter(|_| !state.reduced_motion);
}

/// Where the middle of the lens goes.
fn moved_lens(lens_s: Option<f64>, by: Move, workings: &Workings) -> f64 {
    let division_s = f64::from(workings.instrument().graduation().smallest_s());
    let here_s = lens_s.unwrap_or_else(|| lens_at_edge_s(workings));
    let (first_s, last_s) = (NOON_S / 2.0, NOON_S * 1.5);
    let seconds = match by {
        Move::To(seconds) => seconds,
        Move::Steps(steps) => stepped(here_s, steps, division_s),
        Move::Leaps(leaps) => here_s + f64::from(leaps) * QUARTER_S,
        Move::First => first_s,
        Move::Last => last_s,
    };
    seconds.clamp(first_s, last_s)
}

/// Where the lens stands when it follows the edge: at the Sun's place, within the quadrants.
#[must_use]
pub fn lens_at_edge_s(workings: &Workings) -> f64 {
    let moment = workings.moment();
    let exact_s = moment.reading.as_ref().map(|reading| reading.exact_s);
    exact_s.unwrap_or_else(|_| workings.now().seconds).clamp(NOON_S / 2.0, NOON_S * 1.5)
}

fn hold_rod(state: &mut State, on: bool, workings: &mut Workings) {
    workings.refresh(&state.shown);
    state.shown.rod = on.then(|| Rod::at_start(workings.instrument(), workings.moment()));
}

fn hold_rod_at(state: &mut State, criterion: Criterion, workings: &mut Workings) {
    workings.refresh(&state.shown);
    let (instrument, moment) = (workings.instrument(), workings.moment());
    let least_cover = state.shown.least_cover;
    let place = |rod: Rod| rod.at_edge(instrument, moment, criterion, least_cover);
    state.shown.rod = state.shown.rod.map(|rod| place(rod).unwrap_or(rod));
}

/// What the eye sees of a shadow, set anew: in whole hundredths, up to the most that is offered.
fn moved_cover(least_cover: f64, by: Move) -> f64 {
    let here = least_cover * 100.0;
    let per_cent = match by {
        Move::To(per_cent) => per_cent,
        Move::Steps(steps) => here + f64::from(steps),
        Move::Leaps(leaps) => here + f64::from(leaps) * COVER_LEAP,
        Move::First => 0.0,
        Move::Last => f64::INFINITY,
    };
    per_cent.round().clamp(0.0, MOST_COVER * 100.0) / 100.0
}

/// A rod that does not fit the instrument is held at the nearest place that does.
pub(super) fn fit_rod(state: &mut State, workings: &Workings) {
    let fit = |rod: Rod| rod.moved(workings.instrument(), Move::To(rod.axial_m * 1000.0));
    state.shown.rod = state.shown.rod.map(fit);
}

fn undo(state: &mut State, workings: &mut Workings) -> Dirty {
    let Some(before) = state.history.undo(&state.shown) else { return Dirty::NOTHING };
    let theme = state.shown.theme;
    halt(state);
    state.stand();
    state.fade = None;
    state.shown = before;
    workings.set_instrument(&state.shown.instrument, state.shown.travel);
    state.editor.forget();
    if theme == state.shown.theme { Dirty::CONTROLS } else { Dirty::ALL }
}
