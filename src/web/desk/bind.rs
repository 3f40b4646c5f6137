//! Which element of the desk asks for what.

use glam::DVec2;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{
    BroadcastChannel, HtmlElement, HtmlInputElement, HtmlSelectElement, KeyboardEvent, MouseEvent,
};

use super::signal::{Act, Link, Picture, Signal};
use super::tour;
use crate::page::answers::Question;
use crate::page::prepare::quantity::Quantity;
use crate::page::prepare::{Ask, Leaf};
use crate::scene::year_plots::Curve;
use crate::web::address_bar;
use crate::web::find::{all, by_id, window};
use crate::web::{binder, language};
use crate::words::Words;

type Binder = binder::Binder<Signal>;

/// Binds every element, and the channel to other windows.
pub(super) fn everything(
    binder: &mut Binder,
    channel: Option<&BroadcastChannel>,
) -> Result<(), JsValue> {
    let window = window()?;
    for kind in [address_bar::WRITTEN, "hashchange"] {
        binder.on(&window, kind, |_| Some(Signal::Address))?;
    }
    language(binder)?;
    binder.size("year-plots", |size| Signal::Size(Picture::Year, size))?;
    binder.size("sizes-picture", |size| Signal::Size(Picture::Sizes, size))?;
    for (id, open) in [("sizes", true), ("sizes-close", false)] {
        binder.on(&by_id(id)?, "click", move |_| Some(Signal::Sizes(open)))?;
    }
    binder.size("share-picture", |size| Signal::Size(Picture::Code, size))?;
    sheets(binder)?;
    curves(binder)?;
    answers(binder)?;
    share(binder)?;
    tour::everything(binder, channel)
}

/// What visitors ask.
fn answers(binder: &mut Binder) -> Result<(), JsValue> {
    for (id, open) in [("ask", true), ("answers-close", false)] {
        binder.on(&by_id(id)?, "click", move |_| Some(Signal::Answers(open)))?;
    }
    for button in all("[data-question]")? {
        let key = button.get_attribute("data-question").unwrap_or_default();
        binder.on(&button, "click", move |_| Question::by_key(&key).map(Signal::Question))?;
    }
    binder.on(&by_id("answers")?, "keydown", |event| {
        let event: &KeyboardEvent = event.dyn_ref()?;
        (event.key() == "Escape").then_some(Signal::Answers(false))
    })?;
    binder.on(&by_id("answers-back")?, "click", |_| Some(Signal::BackFromAnswers))
}

/// The link and its code.
fn share(binder: &mut Binder) -> Result<(), JsValue> {
    for (id, open) in [("share", true), ("share-close", false)] {
        binder.on(&by_id(id)?, "click", move |_| Some(Signal::Share(open)))?;
    }
    for (id, what) in
        [("share-copy", Link::Copy), ("share-system", Link::Share), ("share-save", Link::Save)]
    {
        binder.on(&by_id(id)?, "click", move |_| Some(Signal::Link(what)))?;
    }
    Ok(())
}

/// The page's language, now and whenever it becomes another.
fn language(binder: &mut Binder) -> Result<(), JsValue> {
    let notes = binder.notes.clone();
    let load = move || {
        let notes = notes.clone();
        let note = move |words| notes.note(Signal::Language(words));
        language::load(&language::spoken(), Words::english, note)
    };
    load()?;
    let window = window()?;
    binder.on(&window, language::TURNED, move |_| load().err().map(|_| Signal::Language(None)))
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
    })
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
    binder.slide(&by_id("year-read")?, |by| Signal::Prepare(Ask::Read(by)))?;
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
