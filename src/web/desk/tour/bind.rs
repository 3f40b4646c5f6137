//! Which element of a tour's panel and bar asks for what.

use std::cell::Cell;
use std::rc::Rc;

use wasm_bindgen::{JsCast, JsValue};
use web_sys::{
    BroadcastChannel, Element, Event, EventTarget, FileReader, HtmlElement, HtmlInputElement,
    HtmlTextAreaElement, KeyboardEvent, MessageEvent, PointerEvent, StorageEvent,
};

use super::signal::{Act, Signal, Whose};
use super::{PROJECTOR, is_projector};
use crate::page::tour::bench::Text;
use crate::page::tour::file;
use crate::page::tour::link::Word;
use crate::page::tour::run::Step;
use crate::web::binder::{self, plain_key};
use crate::web::desk::signal;
use crate::web::find::{all, by_id, document, window};
use crate::web::storage;

type Binder = binder::Binder<signal::Signal>;

/// The projector's window, by the name by which it is found again.
const WINDOW: &str = "noonwedge-projector";

fn tour(signal: Signal) -> Option<signal::Signal> {
    Some(signal::Signal::Tour(signal))
}

/// Binds every element, and what the other window says.
pub(in crate::web::desk) fn everything(
    binder: &mut Binder,
    channel: Option<&BroadcastChannel>,
) -> Result<(), JsValue> {
    panel(binder)?;
    stops(binder)?;
    files(binder)?;
    bar(binder)?;
    keys(binder)?;
    let window = window()?;
    if let Some(channel) = channel {
        binder.on(channel, "message", |event| {
            tour(Signal::Heard(event.dyn_ref::<MessageEvent>()?.data().as_string()?))
        })?;
    }
    binder.on(&window, "storage", |event| {
        let key = event.dyn_ref::<StorageEvent>()?.key();
        tour(Signal::Kept).filter(|_| key.as_deref() == Some(storage::TOUR))
    })?;
    // It waits for the page's language, as everything that is asked of the desk does.
    if !is_projector() && storage::tour_run().is_some() {
        binder.notes.note(signal::Signal::Tour(Signal::Resume));
    }
    if is_projector() {
        // Its own list of languages is out of sight.
        binder.on(&window, "storage", |event| {
            let key = event.dyn_ref::<StorageEvent>()?.key();
            tour(Signal::Speak).filter(|_| key.as_deref() == Some(storage::LANGUAGE))
        })?;
        let channel = channel.cloned();
        binder.on(&window, "pagehide", move |_| {
            // In the event itself: there is no frame after it.
            channel.as_ref()?.post_message(&Word::Gone.write().into()).ok()?;
            None
        })?;
        for kind in ["pointerdown", "wheel", "input"] {
            binder.on_first(&window, kind, |_| tour(Signal::Touched))?;
        }
    }
    binder.on(&*document()?, "fullscreenchange", |_| tour(Signal::Screen))
}

/// A button that asks for something.
fn button(binder: &mut Binder, id: &str, signal: Signal) -> Result<(), JsValue> {
    let button: HtmlElement = by_id(id)?;
    binder.on(&button.clone(), "click", move |_| {
        let disabled = button.get_attribute("aria-disabled").as_deref() == Some("true");
        tour(signal.clone()).filter(|_| !disabled)
    })
}

fn panel(binder: &mut Binder) -> Result<(), JsValue> {
    let editor: HtmlElement = by_id("editor")?;
    let (put_away, part): (HtmlElement, HtmlElement) = (by_id("edit")?, by_id("tour-part")?);
    binder.on(&by_id("tour")?, "click", move |_| {
        let opens = part.hidden() || !editor.hidden();
        // Both stand in the same place.
        if !editor.hidden() {
            put_away.click();
        }
        tour(Signal::Open(opens))
    })?;
    for (id, signal) in [
        ("tour-close", Signal::Open(false)),
        ("tour-fold", Signal::Fold),
        ("tour-record", Signal::Record),
        ("tour-undo", Signal::Undo),
        ("tour-export", Signal::Export),
        ("tour-copy", Signal::Copy),
        ("tour-run", Signal::Run),
    ] {
        button(binder, id, signal)?;
    }
    for choice in all("[data-whose]")? {
        let own = choice.get_attribute("data-whose").as_deref() == Some("own");
        let whose = if own { Whose::Own } else { Whose::Shipped };
        binder.on(&choice, "click", move |_| tour(Signal::Show(whose)))?;
    }
    let name: HtmlInputElement = by_id("tour-name")?;
    binder.on(&name.clone(), "input", move |_| tour(Signal::Write(Text::Name, name.value())))?;
    // In the event itself: browsers open windows only for a hand.
    binder.on(&by_id("tour-projector")?, "click", |_| tour(Signal::Projector(open_projector())))
}

/// Opens the projector's window where this one is; tells whether the browser has done so.
fn open_projector() -> bool {
    let opened = window().and_then(|window| {
        let location = window.location();
        let url = format!("{}?{PROJECTOR}{}", location.pathname()?, location.hash()?);
        let features = "popup,width=1280,height=720";
        window.open_with_url_and_target_and_features(&url, WINDOW, features)
    });
    matches!(opened, Ok(Some(_)))
}

/// The stop that an event has happened to.
fn stop_of(event: &Event) -> Option<(Element, usize)> {
    let element: Element = event.target()?.dyn_into().ok()?;
    let row = element.closest("[data-at]").ok()??;
    Some((element, row.get_attribute("data-at")?.parse().ok()?))
}

/// The list hears for all its stops: they come and go.
fn stops(binder: &mut Binder) -> Result<(), JsValue> {
    let list: EventTarget = by_id::<HtmlElement>("tour-list")?.into();
    binder.on(&list, "click", |event| {
        let (element, at) = stop_of(event)?;
        let button = element.closest("[data-act]").ok()??;
        let disabled = button.get_attribute("aria-disabled").as_deref() == Some("true");
        let act = Act::by_key(&button.get_attribute("data-act")?)?;
        tour(Signal::Act(at, act)).filter(|_| !disabled)
    })?;
    binder.on(&list, "keydown", |event| {
        let key: &KeyboardEvent = event.dyn_ref()?;
        let act = match key.key().as_str() {
            "ArrowUp" if key.alt_key() => Act::Earlier,
            "ArrowDown" if key.alt_key() => Act::Later,
            _ => return None,
        };
        let (_, at) = stop_of(event)?;
        event.prevent_default();
        tour(Signal::Act(at, act))
    })?;
    binder.on(&list, "input", |event| {
        let (element, at) = stop_of(event)?;
        let field: &HtmlTextAreaElement = element.dyn_ref()?;
        let text = if field.id() == "stop-caption" { Text::Caption(at) } else { Text::Notes(at) };
        tour(Signal::Write(text, field.value()))
    })?;
    binder.on(&list, "change", |event| {
        let (element, at) = stop_of(event)?;
        let field: &HtmlInputElement = element.dyn_ref()?;
        tour(match field.id().as_str() {
            "stop-plays" => Signal::Plays(at, field.checked()),
            "stop-asks" => Signal::Asks(at, field.checked()),
            _ => Signal::Seconds(at, field.value()),
        })
    })
}

fn files(binder: &mut Binder) -> Result<(), JsValue> {
    let reader = FileReader::new()?;
    let read = reader.clone();
    binder.on(&reader, "load", move |_| tour(Signal::Import(read.result().ok()?.as_string()?)))?;
    let field: HtmlInputElement = by_id("tour-file")?;
    let chosen = field.clone();
    binder.on(&field, "change", move |_| {
        let file = chosen.files()?.get(0)?;
        // The same file can be chosen again once it is mended.
        chosen.set_value("");
        if file.size() > file::LARGEST as f64 {
            return tour(Signal::TooLarge);
        }
        // A second file while the first is being read is not taken.
        reader.read_as_text(&file).ok()?;
        None
    })?;
    binder.on(&by_id("tour-import")?, "click", move |_| {
        field.click();
        None
    })
}

fn bar(binder: &mut Binder) -> Result<(), JsValue> {
    for (id, signal) in [
        ("tour-back", Signal::Step(Step::Back)),
        ("tour-forward", Signal::Step(Step::Next)),
        ("tour-hold", Signal::Hold),
        ("tour-notes-button", Signal::Notes),
        ("tour-end", Signal::End),
    ] {
        button(binder, id, signal)?;
    }
    // In the event itself: browsers give the whole screen only to a hand.
    for id in ["tour-screen", "tour-wait-screen"] {
        binder.on(&by_id(id)?, "click", |_| {
            let page = document().ok()?;
            if page.fullscreen_element().is_some() {
                page.exit_fullscreen();
            } else {
                // Without the screen the tour runs in its window.
                drop(page.document_element()?.request_fullscreen());
            }
            None
        })?;
    }
    let bar: EventTarget = by_id::<HtmlElement>("tour-bar")?.into();
    let down = Rc::new(Cell::new(None));
    let pressed = Rc::clone(&down);
    let place = |event: &Event| {
        let event: &PointerEvent = event.dyn_ref()?;
        // A mouse marks text.
        if event.pointer_type() == "mouse" {
            return None;
        }
        Some((event.pointer_id(), f64::from(event.client_x()), f64::from(event.client_y())))
    };
    binder.on(&bar, "pointerdown", move |event| {
        pressed.set(place(event));
        None
    })?;
    binder.on(&bar, "pointerup", move |event| {
        let (id, x, y) = place(event)?;
        let (_, from_x, from_y) = down.take().filter(|(finger, ..)| *finger == id)?;
        tour(Signal::Step(Step::of_swipe(x - from_x, y - from_y)?))
    })
}

/// The keys of a clicker, wherever the focus is; the others where they mean nothing else.
fn keys(binder: &mut Binder) -> Result<(), JsValue> {
    let bar: HtmlElement = by_id("tour-bar")?;
    binder.on_first(&*window()?, "keydown", move |event| {
        let page = document().ok()?;
        if bar.hidden() || page.query_selector("dialog[open]").ok()?.is_some() {
            return None;
        }
        let event: &KeyboardEvent = event.dyn_ref()?;
        let key = plain_key(event)?;
        if key == "Escape" {
            return tour(Signal::End);
        }
        let step = Step::of_key(&key)?;
        let target: Element = event.target()?.dyn_into().ok()?;
        let meant_for = |selector: &str| target.closest(selector).ok().flatten().is_some();
        let taken = match key.as_str() {
            "PageUp" | "PageDown" => false,
            " " => meant_for("button, input, select, textarea"),
            _ => meant_for("select, textarea, input:not([type=range], [type=checkbox])"),
        };
        if taken {
            return None;
        }
        event.prevent_default();
        event.stop_propagation();
        // A key held down is one step.
        tour(Signal::Step(step)).filter(|_| !event.repeat())
    })
}
