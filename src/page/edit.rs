//! Changing an instrument: the wishes of the editor, and what each of them does.

use std::rc::Rc;

use super::choice::Choice;
use super::dirty::Dirty;
use super::state::State;
use super::typed_quantity::{parse, written};
use super::update::{choose_instrument, fit_rod, now, sentence};
use super::workings::Workings;
use crate::core::field::{FieldError, quoted};
use crate::core::instrument::{
    EndFaces, Graduation, Instrument, InstrumentSpec, PRESETS, QUANTITIES, Quantity, Script,
    SummerTime, file, fit_others,
};
use crate::words::Words;

/// Degrees of a position are kept to about a metre.
const PER_DEGREE: f64 = 1e5;

/// One wish.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// Open the editor, or close it.
    Open(bool),
    /// Call the instrument something else.
    Name(String),
    /// Set a quantity as it is typed.
    Number(&'static Quantity, String),
    /// Move a quantity by so many sensible steps.
    Step(&'static Quantity, f64),
    /// Keep one offset, with or without a rule of summer time.
    Clock(SummerTime),
    /// Go by the clocks of a time zone.
    Zone(String),
    /// Cut the ends of the wall so.
    Ends(EndFaces),
    /// Cut the hours in this script.
    Numerals(Script),
    /// Cut the divisions of a level, counted from the hour, into so many parts; none ends there.
    Cut(usize, u32),
    /// Stand at this latitude and longitude, degrees.
    Place(f64, f64),
    /// Begin a new instrument that is like this one.
    Duplicate,
    /// Take this instrument of one's own away.
    Delete,
    /// Take in a file: its name and its text.
    Import(String, String),
    /// Say the text of a key.
    Say(&'static str),
}

impl Edit {
    /// The field that is changed, when a change may be one of many in a row.
    #[must_use]
    pub fn field(&self) -> Option<&'static str> {
        match self {
            Self::Number(quantity, _) | Self::Step(quantity, _) => Some(quantity.path),
            Self::Name(_) => Some("name"),
            _ => None,
        }
    }
}

/// What was typed and can't be used.
#[derive(Clone, Debug, PartialEq)]
pub struct Wrong {
    /// Path of the field.
    pub path: &'static str,
    /// What was typed.
    pub typed: String,
    /// Why it can't be used.
    pub sentence: String,
}

/// The editor beside the instrument.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Editor {
    /// Whether it stands beside the court.
    pub open: bool,
    /// What was typed and can't be used.
    pub wrong: Vec<Wrong>,
    /// What the last wish has led to.
    pub said: String,
    /// Every fault of the last file.
    pub faults: Vec<String>,
    /// The instrument as it was when its field began to be changed.
    base: Option<(&'static str, Rc<InstrumentSpec>)>,
}

impl Editor {
    /// A field has been left: the next change begins anew.
    pub fn settle(&mut self) {
        self.base = None;
    }

    /// Another instrument has come: what was typed for the one before no longer counts.
    pub fn forget(&mut self) {
        *self = Self { open: self.open, ..Self::default() };
    }

    /// What is wrong with a field.
    #[must_use]
    pub fn wrong(&self, path: &str) -> Option<&Wrong> {
        self.wrong.iter().find(|wrong| wrong.path == path)
    }

    /// The instrument from which a field is being changed. The others follow it from there, so
    /// that a value passed on the way leaves no trace.
    fn base(&mut self, path: &'static str, now: Rc<InstrumentSpec>) -> Rc<InstrumentSpec> {
        match &self.base {
            Some((of, base)) if *of == path => Rc::clone(base),
            _ => {
                self.base = Some((path, Rc::clone(&now)));
                now
            }
        }
    }
}

/// Does what is wished.
pub(super) fn edit(state: &mut State, edit: Edit, workings: &mut Workings, words: &Words) -> Dirty {
    let field = match &edit {
        Edit::Zone(_) | Edit::Clock(_) => Some("clock.time_zone"),
        Edit::Place(..) => Some("site.latitude_deg"),
        other => other.field(),
    };
    let typed = match &edit {
        Edit::Number(_, typed) | Edit::Name(typed) | Edit::Zone(typed) => typed.clone(),
        _ => String::new(),
    };
    if edit.field().is_none() {
        state.editor.settle();
    }
    state.editor.wrong.retain(|wrong| Some(wrong.path) != field);
    let outcome = act(state, edit, workings, words);
    match (outcome, field) {
        (Err(refused), Some(path)) => {
            let sentence = sentence(words, &refused);
            state.editor.wrong.push(Wrong { path, typed, sentence });
        }
        (Err(refused), None) => state.editor.said = sentence(words, &refused),
        (Ok(()), _) => {}
    }
    Dirty::CONTROLS | Dirty::TEXT
}

/// One arm a wish.
fn act(
    state: &mut State,
    edit: Edit,
    workings: &mut Workings,
    words: &Words,
) -> Result<(), FieldError> {
    let spec = state.shown.instrument.spec();
    let mut next = spec.as_ref().clone();
    match edit {
        Edit::Open(open) => {
            state.editor.forget();
            state.editor.open = open;
            return Ok(());
        }
        Edit::Say(key) => {
            state.editor.said = words.say(key).to_owned();
            return Ok(());
        }
        Edit::Duplicate => return duplicate(state, next, workings, words),
        Edit::Delete => return delete(state, workings, words),
        Edit::Import(name, text) => return import(state, &name, &text, workings, words),
        Edit::Name(name) => {
            next.name = name.trim().to_owned();
            let taken = next.name != spec.name && state.shown.shelf.by_name(&next.name).is_some();
            if taken {
                let allowed = "a name that no other of your instruments has";
                return Err(FieldError::new("name", quoted(&next.name), allowed));
            }
        }
        Edit::Number(quantity, typed) => {
            let base = state.editor.base(quantity.path, Rc::clone(&spec));
            next = quantity.changed(&base, parse(quantity, &typed, &base)?)?;
            next.name.clone_from(&spec.name);
        }
        Edit::Step(quantity, steps) => {
            let value = stepped(quantity, quantity.get(&spec), steps);
            let base = state.editor.base(quantity.path, Rc::clone(&spec));
            next = quantity.changed(&base, value)?;
            next.name.clone_from(&spec.name);
        }
        Edit::Clock(rule) => {
            next.time_zone = None;
            next.summer_time = rule;
        }
        Edit::Zone(zone) => {
            let zone = zone.trim();
            let known = workings.zone_offset_min(zone).ok_or_else(|| {
                let allowed = "a name that this browser knows, of the form Area/City";
                FieldError::new("time zone", quoted(zone), allowed)
            })?;
            next.zone_offset_min = known;
            next.summer_time = SummerTime::Never;
            next.time_zone = Some(zone.to_owned());
        }
        Edit::Ends(ends) => {
            next.end_faces = ends;
            fit_others(&mut next, None);
        }
        Edit::Numerals(script) => next.numerals = script,
        Edit::Cut(level, parts) => next.divisions = cut(&spec.divisions, level, parts),
        Edit::Place(latitude_deg, longitude_deg) => {
            let round = |degrees: f64| (degrees * PER_DEGREE).round() / PER_DEGREE;
            next.latitude_deg = round(latitude_deg);
            next.longitude_deg = round(longitude_deg);
            fit_others(&mut next, None);
            adopt(state, next, workings, words)?;
            let said = &mut state.editor.said;
            *said = [words.say("editor.located"), said].join(" ").trim().to_owned();
            return Ok(());
        }
    }
    adopt(state, next, workings, words)
}

/// The next multiple of a quantity's step in a direction, in the file's unit.
fn stepped(quantity: &Quantity, value: f64, steps: f64) -> f64 {
    let per_step = quantity.per_file_unit / quantity.step;
    let marks = value * per_step;
    let hardly = 1e-6;
    let here = if steps > 0.0 { (marks + hardly).floor() } else { (marks - hardly).ceil() };
    let (min, max) = quantity.range;
    ((here + steps) / per_step * 1e9).round().clamp(min * 1e9, max * 1e9) / 1e9
}

/// The hierarchy with one level cut anew; the levels below stay as long as they still divide.
fn cut(divisions: &[u32], level: usize, parts: u32) -> Vec<u32> {
    let mut next: Vec<u32> = divisions.iter().copied().take(level).collect();
    if parts == 0 {
        return next;
    }
    next.push(parts);
    for &below in divisions.iter().skip(level + 1) {
        next.push(below);
        if Graduation::new(&next).is_err() {
            next.pop();
            break;
        }
    }
    next
}

/// Puts a changed description in the place of the one that is shown. One that comes with the
/// project stays as it is: the change begins a copy of one's own.
fn adopt(
    state: &mut State,
    mut next: InstrumentSpec,
    workings: &mut Workings,
    words: &Words,
) -> Result<(), FieldError> {
    let before = state.shown.instrument.spec();
    if next == *before {
        return Ok(());
    }
    Instrument::new(next.clone())?;
    let mut said = moved_along(words, &state.editor, &before, &next);
    let own = match &state.shown.instrument {
        Choice::Own(_) => state.shown.shelf.replace(&before.name, next),
        Choice::BuiltIn(_) => {
            if next.name == before.name {
                next.name = copy_name(words, &before.name);
            }
            let own = state.shown.shelf.add(next);
            said = words.fill("editor.copied", &[("name", &own.name)]) + " " + &said;
            own
        }
    };
    state.editor.said = said.trim().to_owned();
    put(state, own, &before, workings);
    Ok(())
}

/// Shows a changed instrument at the same instant; elsewhere on the Earth, at the same time of day.
fn put(
    state: &mut State,
    own: Rc<InstrumentSpec>,
    before: &InstrumentSpec,
    workings: &mut Workings,
) {
    let time = now(state, workings);
    let elsewhere = own.longitude_deg != before.longitude_deg;
    state.shown.instrument = Choice::Own(own);
    workings.set_instrument(&state.shown.instrument, state.shown.travel);
    if elsewhere {
        state.jump = None;
        state.following_now = false;
        // At the ends of the years in use the instant itself stays.
        state.shown.instant = workings.instant(time).unwrap_or(state.shown.instant);
    }
    fit_rod(state, workings);
}

/// Says which other quantities had to follow the one that was changed.
fn moved_along(
    words: &Words,
    editor: &Editor,
    before: &InstrumentSpec,
    next: &InstrumentSpec,
) -> String {
    let changed = editor.base.as_ref().map_or("", |(path, _)| path);
    let base = editor.base.as_ref().map_or(before, |(_, base)| base);
    let asked = |quantity: &Quantity| {
        quantity.path == changed
            || matches!(
                quantity.path,
                "site.latitude_deg" | "site.longitude_deg" | "clock.zone_offset_min"
            )
    };
    let moved = QUANTITIES.iter().filter(|it| !asked(it) && it.get(base) != it.get(next));
    let moved = moved.map(|it| {
        let (was, is) = (written(it, it.get(base)), written(it, it.get(next)));
        words.fill(
            "editor.moved",
            &[
                ("field", words.say(&format!("editor.field.{}", it.path))),
                ("was", &was),
                ("is", &is),
                ("unit", words.unit(it.unit)),
            ],
        )
    });
    let moved: Vec<String> = moved.collect();
    if moved.is_empty() {
        return String::new();
    }
    words.fill("editor.moved-along", &[("fields", &moved.join(words.say("figures.between")))])
}

fn duplicate(
    state: &mut State,
    mut spec: InstrumentSpec,
    workings: &mut Workings,
    words: &Words,
) -> Result<(), FieldError> {
    spec.name = copy_name(words, &spec.name);
    let own = state.shown.shelf.add(spec);
    say_of(state, words, "editor.duplicated", own, workings)
}

/// The name of a copy: it is kept in files, and so has the letters alone.
fn copy_name(words: &Words, name: &str) -> String {
    words.say("editor.copy-name").replace("{name}", name)
}

/// Shows an instrument of one's own and says something of it.
fn say_of(
    state: &mut State,
    words: &Words,
    key: &str,
    own: Rc<InstrumentSpec>,
    workings: &mut Workings,
) -> Result<(), FieldError> {
    let said = words.fill(key, &[("name", &own.name)]);
    choose_instrument(state, Choice::Own(own), workings)?;
    state.editor.said = said;
    Ok(())
}

fn delete(state: &mut State, workings: &mut Workings, words: &Words) -> Result<(), FieldError> {
    let Choice::Own(own) = state.shown.instrument.clone() else { return Ok(()) };
    state.shown.shelf.remove(&own.name);
    let heir = state.shown.shelf.iter().next_back().cloned();
    choose_instrument(state, heir.map_or(Choice::BuiltIn(&PRESETS[0]), Choice::Own), workings)?;
    state.editor.said = words.fill("editor.deleted", &[("name", &own.name)]);
    Ok(())
}

fn import(
    state: &mut State,
    name: &str,
    text: &str,
    workings: &mut Workings,
    words: &Words,
) -> Result<(), FieldError> {
    state.editor.open = true;
    match file::read(text) {
        Ok(spec) => {
            let (own, _) = state.shown.shelf.find_or_add(spec);
            say_of(state, words, "editor.imported", own, workings)
        }
        Err(faults) => {
            state.editor.faults = faults.iter().map(|fault| sentence(words, fault)).collect();
            let count = faults.len().to_string();
            let key = if faults.len() == 1 { "editor.fault" } else { "editor.faults" };
            state.editor.said = words.fill(key, &[("file", &quoted(name)), ("count", &count)]);
            Ok(())
        }
    }
}
