//! Which element asks for what.

use glam::DVec2;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{
    Event, EventTarget, HtmlElement, HtmlInputElement, HtmlSelectElement, KeyboardEvent,
    MediaQueryList, MouseEvent,
};

use super::editor_events;
use super::find::{all, by_id, document, switch_id, window};
use super::gestures;
use super::listener::Listener;
use super::pictures::Picture;
use super::save::Format;
use super::shell::{Act, Notes, Signal};
use super::size_watch::SizeWatch;
use super::{address_bar, present, travel, wall_clock};
use crate::core::decimal;
use crate::core::ladder::Rounding;
use crate::core::light::LimbDarkening;
use crate::core::pointer::Criterion;
use crate::page::keys::{CameraKey, Move};
use crate::page::message::Message;
use crate::page::prepare::quantity::Quantity;
use crate::page::prepare::{Ask, Leaf};
use crate::page::speed::Speed;
use crate::scene::camera::Standpoint;
use crate::scene::guide::Guide;
use crate::scene::palette::Theme;
use crate::scene::year_plots::Curve;

/// Radians by which a button turns the camera, in steps of the arrow keys.
const BUTTON_TURN: f64 = 3.0;

/// Everything that listens; dropping it makes the page deaf.
#[derive(Debug)]
pub(super) struct Bindings {
    _listeners: Vec<Listener>,
    _sizes: Vec<SizeWatch>,
}

/// Collects listeners.
pub(super) struct Binder {
    pub(super) notes: Notes,
    listeners: Vec<Listener>,
}

/// Binds every element.
pub(super) fn everything(notes: &Notes) -> Result<Bindings, JsValue> {
    let mut binder = Binder { notes: notes.clone(), listeners: Vec::new() };
    choices(&mut binder)?;
    buttons(&mut binder)?;
    standpoints(&mut binder)?;
    seasons(&mut binder)?;
    sliders(&mut binder)?;
    typed(&mut binder)?;
    sheets(&mut binder)?;
    keys(&mut binder)?;
    browser(&mut binder)?;
    gestures::court(&mut binder)?;
    gestures::lens(&mut binder)?;
    editor_events::bind(&mut binder)?;
    travel::bind(&mut binder)?;
    present::bind(&mut binder)?;
    let sizes = Picture::ALL.map(|picture| SizeWatch::new(picture, notes));
    let sizes = sizes.into_iter().collect::<Result<_, _>>()?;
    Ok(Bindings { _listeners: binder.listeners, _sizes: sizes })
}

/// What makes a signal of an event.
type Reader = Box<dyn FnMut(&Event) -> Option<Signal>>;

impl Binder {
    /// Notes what `read` makes of an event.
    pub(super) fn on(
        &mut self,
        target: &EventTarget,
        kind: &'static str,
        read: impl FnMut(&Event) -> Option<Signal> + 'static,
    ) -> Result<(), JsValue> {
        self.listen(target, kind, Box::new(read))
    }

    /// The same for every kind of `read`, so that the program has it once.
    fn listen(
        &mut self,
        target: &EventTarget,
        kind: &'static str,
        mut read: Reader,
    ) -> Result<(), JsValue> {
        let notes = self.notes.clone();
        let run = move |event: Event| {
            if let Some(signal) = read(&event) {
                notes.note(signal);
            }
        };
        self.listeners.push(Listener::new(target, kind, run)?);
        Ok(())
    }

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
        let dragged = slider.clone();
        self.on(&slider, "input", move |_| {
            Some(Signal::Ask(ask(Move::To(dragged.value_as_number()))))
        })?;
        for ends in ["change", "blur"] {
            self.on(&slider, ends, |_| Some(Signal::Ask(Message::Settle)))?;
        }
        self.on(&slider, "keydown", move |event| {
            let event: &KeyboardEvent = event.dyn_ref()?;
            let by = plain_key(event).and_then(|key| Move::of_key(&key, event.shift_key()))?;
            event.prevent_default();
            Some(Signal::Ask(ask(by)))
        })
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

/// The key of an event without Control, Alt or Command.
pub(super) fn plain_key(event: &KeyboardEvent) -> Option<String> {
    let plain = !event.ctrl_key() && !event.alt_key() && !event.meta_key();
    plain.then(|| event.key())
}

fn choices(binder: &mut Binder) -> Result<(), JsValue> {
    let instruments: HtmlSelectElement = by_id("instrument")?;
    binder.on(&instruments.clone(), "change", move |_| {
        Some(Signal::Instrument(instruments.value()))
    })?;
    binder.list("theme", |key| {
        Theme::ALL.into_iter().find(|theme| theme.key() == key).map(Message::Theme)
    })?;
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
    for (id, open) in [("sizes", true), ("sizes-close", false)] {
        binder.on(&by_id(id)?, "click", move |_| Some(Signal::Sizes(open)))?;
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

/// The sheets that prepare a day.
fn sheets(binder: &mut Binder) -> Result<(), JsValue> {
    binder
        .on(&by_id("prepare")?, "click", |_| Some(Signal::Prepare(Ask::Turn(Leaf::default()))))?;
    for button in all("[data-leaf]")? {
        let key = button.get_attribute("data-leaf").unwrap_or_default();
        binder.on(&button, "click", move |_| {
            Leaf::by_key(&key).map(Ask::Turn).map(Signal::Prepare)
        })?;
    }
    for (id, act) in [
        ("prepare-close", Act::Close),
        ("prepare-print", Act::Print),
        ("year-csv", Act::Csv),
        ("year-go", Act::Go),
    ] {
        binder.on(&by_id(id)?, "click", move |_| Some(Signal::Sheets(act)))?;
    }
    let hours: HtmlSelectElement = by_id("card-hours")?;
    binder.on(&hours.clone(), "change", move |_| {
        hours.value().parse().ok().map(Ask::Hours).map(Signal::Prepare)
    })?;
    let quantity: HtmlSelectElement = by_id("year-quantity")?;
    binder.on(&quantity.clone(), "change", move |_| {
        Quantity::by_key(&quantity.value()).map(Ask::Quantity).map(Signal::Prepare)
    })?;
    curves(binder)
}

/// The year's curves: which are drawn, and the day that is read on them.
fn curves(binder: &mut Binder) -> Result<(), JsValue> {
    for switch in all("[data-curve]")? {
        let key = switch.get_attribute("data-curve").unwrap_or_default();
        let switch: HtmlInputElement = switch.dyn_into()?;
        binder.on(&switch.clone(), "change", move |_| {
            let curve = Curve::by_key(&key)?;
            Some(Signal::Prepare(Ask::Curve(curve, switch.checked())))
        })?;
    }
    let read = |by| Some(Signal::Prepare(Ask::Read(by)));
    let slider: HtmlInputElement = by_id("year-read")?;
    let dragged = slider.clone();
    binder.on(&slider, "input", move |_| read(Move::To(dragged.value_as_number())))?;
    binder.on(&slider, "keydown", move |event| {
        let event: &KeyboardEvent = event.dyn_ref()?;
        let by = plain_key(event).and_then(|key| Move::of_key(&key, event.shift_key()))?;
        event.prevent_default();
        read(by)
    })?;
    let plots: HtmlElement = by_id("year-plots")?;
    for kind in ["pointermove", "pointerdown"] {
        binder.on(&plots, kind, |event| {
            let event: &MouseEvent = event.dyn_ref()?;
            let at = DVec2::new(f64::from(event.offset_x()), f64::from(event.offset_y()));
            Some(Signal::Point(at))
        })?;
    }
    Ok(())
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
    let page = document()?;
    binder.on(&page.clone(), "visibilitychange", move |_| Some(Signal::InSight(!page.hidden())))?;
    if let Some(query) = window.match_media("(prefers-reduced-motion: reduce)")? {
        binder.notes.ask(Message::ReduceMotion(query.matches()));
        let asked: MediaQueryList = query.clone();
        binder.on(&query, "change", move |_| {
            Some(Signal::Ask(Message::ReduceMotion(asked.matches())))
        })?;
    }
    Ok(())
}
