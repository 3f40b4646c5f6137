//! Which element asks for what.

use wasm_bindgen::{JsCast, JsValue};
use web_sys::{HtmlElement, HtmlInputElement, HtmlSelectElement, KeyboardEvent, MediaQueryList};

use super::binder::{self, plain_key};
use super::editor_events;
use super::find::{all, by_id, document, switch_id, window};
use super::pictures::Picture;
use super::save::Format;
use super::signal::Signal;
use super::{address_bar, gestures, language, present, travel, wall_clock};
use crate::core::decimal;
use crate::core::ladder::Rounding;
use crate::core::light::LimbDarkening;
use crate::core::pointer::Criterion;
use crate::page::keys::{CameraKey, Move};
use crate::page::message::Message;
use crate::page::speed::Speed;
use crate::scene::camera::Standpoint;
use crate::scene::guide::Guide;
use crate::scene::palette::Theme;
use crate::words::Words;

/// Radians by which a button turns the camera, in steps of the arrow keys.
const BUTTON_TURN: f64 = 3.0;

/// Collects what listens for the first program.
pub(super) type Binder = binder::Binder<Signal>;

/// Binds every element.
pub(super) fn everything(binder: &mut Binder) -> Result<(), JsValue> {
    choices(binder)?;
    buttons(binder)?;
    standpoints(binder)?;
    seasons(binder)?;
    sliders(binder)?;
    typed(binder)?;
    keys(binder)?;
    browser(binder)?;
    gestures::court(binder)?;
    gestures::lens(binder)?;
    editor_events::bind(binder)?;
    travel::bind(binder)?;
    present::bind(binder)?;
    for picture in Picture::ALL {
        binder.size(picture.id(), move |size| Signal::Size(picture, size))?;
    }
    Ok(())
}

impl Binder {
    /// A button that asks for something.
    pub(super) fn button(
        &mut self,
        id: &str,
        ask: impl Fn() -> Message + 'static,
    ) -> Result<(), JsValue> {
        let button: HtmlElement = by_id(id)?;
        self.on(&button, "click", move |_| Some(Signal::Ask(ask())))
    }

    /// A list of choices; `read` makes a wish of the value chosen.
    fn list(
        &mut self,
        id: &str,
        read: impl Fn(&str) -> Option<Message> + 'static,
    ) -> Result<(), JsValue> {
        let list: HtmlSelectElement = by_id(id)?;
        self.on(&list.clone(), "change", move |_| read(&list.value()).map(Signal::Ask))
    }

    /// A switch.
    fn switch(&mut self, id: &str, ask: impl Fn(bool) -> Message + 'static) -> Result<(), JsValue> {
        let switch: HtmlInputElement = by_id(id)?;
        self.on(&switch.clone(), "change", move |_| Some(Signal::Ask(ask(switch.checked()))))
    }

    /// A slider: dragged, tapped, or moved by keys.
    pub(super) fn slider(
        &mut self,
        id: &str,
        ask: impl Fn(Move) -> Message + Copy + 'static,
    ) -> Result<(), JsValue> {
        let slider: HtmlInputElement = by_id(id)?;
        for ends in ["change", "blur"] {
            self.on(&slider, ends, |_| Some(Signal::Ask(Message::Settle)))?;
        }
        self.slide(&slider, move |by| Signal::Ask(ask(by)))
    }

    /// A field that is typed into, read when the reader has done.
    pub(super) fn field(
        &mut self,
        id: &str,
        ask: impl Fn(String) -> Message + 'static,
    ) -> Result<(), JsValue> {
        let field: HtmlInputElement = by_id(id)?;
        self.on(&field, "blur", |_| Some(Signal::LeftField))?;
        self.on(&field.clone(), "change", move |_| {
            // An empty value is a date half typed: on leaving, the field shows the last good one.
            let value = Some(field.value()).filter(|value| !value.is_empty());
            value.map(|value| Signal::Ask(ask(value)))
        })
    }
}

fn choices(binder: &mut Binder) -> Result<(), JsValue> {
    let instruments: HtmlSelectElement = by_id("instrument")?;
    binder.on(&instruments.clone(), "change", move |_| {
        Some(Signal::Instrument(instruments.value()))
    })?;
    binder.list("theme", |key| {
        Theme::ALL.into_iter().find(|theme| theme.key() == key).map(Message::Theme)
    })?;
    languages(binder)?;
    binder.list("speed", |key| Speed::by_key(key).map(Message::Speed))?;
    binder.list("rod-thickness", |metres| decimal::parse(metres).map(Message::RodThickness))?;
    binder.switch("refraction", Message::Refraction)?;
    binder.switch("limb", |dark| {
        Message::Limb(if dark { LimbDarkening::Linear } else { LimbDarkening::Uniform })
    })?;
    binder.switch("limits", Message::Limits)?;
    for guide in Guide::ALL {
        binder.switch(&switch_id(guide), move |on| Message::Guide(guide, on))?;
    }
    binder.switch("round", |on| Message::Round(if on { Rounding::Minute } else { Rounding::None }))
}

/// The lists of languages: what is chosen in one is chosen in all, and comes with a signal.
fn languages(binder: &mut Binder) -> Result<(), JsValue> {
    for list in language::lists()? {
        let notes = binder.notes.clone();
        binder.on(&list.clone(), "change", move |_| {
            let tag = list.value();
            // The lists are there: this one is among them.
            let _: Result<(), JsValue> = language::choose(&tag);
            let (come, notes) = (tag.clone(), notes.clone());
            let note = move |words| notes.note(Signal::Language(come, words));
            language::load(&tag, Words::first, note).err().map(|_| Signal::Language(tag, None))
        })?;
    }
    Ok(())
}

fn buttons(binder: &mut Binder) -> Result<(), JsValue> {
    let turn = |right| move || Message::CameraKey(CameraKey::Turn(right, 0.0));
    let zoom = |steps| move || Message::CameraKey(CameraKey::Zoom(steps));
    binder.button("turn-left", turn(-BUTTON_TURN))?;
    binder.button("turn-right", turn(BUTTON_TURN))?;
    binder.button("nearer", zoom(1.0))?;
    binder.button("farther", zoom(-1.0))?;
    binder.button("play", || Message::PlayPause)?;
    binder.button("now", || Message::Now(wall_clock::now()))?;
    binder.button("noon", || Message::PassNoon)?;
    binder.button("undo", || Message::Undo)?;
    binder.button("rod-middle", || Message::RodAt(Criterion::Middle))?;
    binder.button("rod-last", || Message::RodAt(Criterion::LastTrace))?;
    leaving(binder, "noon-close", "noon", || Message::CloseNoon)?;
    leaving(binder, "lens-follow", "lens-place", || Message::LensHome)?;
    leaving(binder, "dismiss", "main", || Message::Dismiss)?;
    let rod: HtmlElement = by_id("rod")?;
    binder.on(&rod.clone(), "click", move |_| {
        let held = rod.get_attribute("aria-pressed").as_deref() == Some("true");
        Some(Signal::Ask(Message::Rod(!held)))
    })?;
    saving(binder)?;
    for (id, open) in [("help", true), ("understood", false)] {
        binder.on(&by_id(id)?, "click", move |_| Some(Signal::Help(open)))?;
    }
    binder.on(&by_id("caution")?, "close", |_| Some(Signal::Help(false)))
}

/// The two buttons that save a picture, and the lists that say which and how large.
fn saving(binder: &mut Binder) -> Result<(), JsValue> {
    for (id, in_pixels) in [("save-svg", false), ("save-png", true)] {
        let (what, size) = (by_id::<HtmlSelectElement>("save-what")?, by_id("save-size")?);
        let size: HtmlSelectElement = size;
        binder.on(&by_id(id)?, "click", move |_| {
            let id = what.value();
            let picture = Picture::ALL.into_iter().find(|picture| picture.id() == id);
            let scale = decimal::parse(&size.value()).unwrap_or(1.0);
            let format = if in_pixels { Format::Png(scale) } else { Format::Svg };
            Some(Signal::Save(picture, format))
        })?;
    }
    Ok(())
}

/// A button that goes away when it is pressed, and hands the focus on.
pub(super) fn leaving(
    binder: &mut Binder,
    id: &str,
    heir: &str,
    ask: impl Fn() -> Message + 'static,
) -> Result<(), JsValue> {
    let heir: HtmlElement = by_id(heir)?;
    binder.on(&by_id(id)?, "click", move |_| {
        // An element that can't take the focus leaves it where it is.
        let _: Result<(), JsValue> = heir.focus();
        Some(Signal::Ask(ask()))
    })
}

fn standpoints(binder: &mut Binder) -> Result<(), JsValue> {
    binder.list("standpoint", |key| Standpoint::by_key(key).map(Message::Standpoint))?;
    for button in all("[data-view]")? {
        let key = button.get_attribute("data-view").unwrap_or_default();
        binder.on(&button, "click", move |_| {
            Standpoint::by_key(&key).map(Message::Standpoint).map(Signal::Ask)
        })?;
    }
    Ok(())
}

fn seasons(binder: &mut Binder) -> Result<(), JsValue> {
    for (index, button) in all("#seasons button")?.iter().enumerate() {
        binder.on(button, "click", move |_| Some(Signal::Ask(Message::Season(index))))?;
    }
    Ok(())
}

fn sliders(binder: &mut Binder) -> Result<(), JsValue> {
    binder.slider("day-place", Message::Day)?;
    binder.slider("year-place", Message::Year)?;
    binder.slider("lens-place", Message::Lens)?;
    binder.slider("rod-place", Message::RodTo)?;
    binder.slider("rod-eye", Message::LeastCover)
}

fn typed(binder: &mut Binder) -> Result<(), JsValue> {
    binder.field("date", Message::TypedDate)?;
    binder.field("time", Message::TypedTime)
}

/// The court turns by keys when it has the focus.
fn keys(binder: &mut Binder) -> Result<(), JsValue> {
    binder.on(&by_id("court-hold")?, "keydown", |event| {
        let event: &KeyboardEvent = event.dyn_ref()?;
        let key = plain_key(event).and_then(|key| CameraKey::of_key(&key))?;
        event.prevent_default();
        Some(Signal::Ask(Message::CameraKey(key)))
    })
}

/// What the browser itself has to tell.
fn browser(binder: &mut Binder) -> Result<(), JsValue> {
    let window = window()?;
    binder
        .on(&window, "hashchange", |_| Some(Signal::Ask(Message::Address(address_bar::read()))))?;
    binder.on(&window, address_bar::WANTED, |_| Some(Signal::TellAddress))?;
    let page = document()?;
    binder.on(&page.clone(), "visibilitychange", move |_| Some(Signal::InSight(!page.hidden())))?;
    if let Some(query) = window.match_media("(prefers-reduced-motion: reduce)")? {
        binder.notes.note(Signal::Ask(Message::ReduceMotion(query.matches())));
        let asked: MediaQueryList = query.clone();
        binder.on(&query, "change", move |_| {
            Some(Signal::Ask(Message::ReduceMotion(asked.matches())))
        })?;
    }
    Ok(())
}
