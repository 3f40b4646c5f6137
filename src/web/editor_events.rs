//! Which part of the editor asks for what.

use std::rc::Rc;

use js_sys::Function;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{
    DragEvent, Element, Event, File, FileReader, HtmlElement, HtmlInputElement, HtmlSelectElement,
    Position, PositionError,
};

use super::bind::{Binder, leaving};
use super::browser_zones;
use super::find::{by_id, window};
use super::signal::Signal;
use crate::core::decimal;
use crate::core::instrument::{EndFaces, Quantity, Script, file};
use crate::page::edit::Edit;
use crate::page::editor_panel::clock_rule;
use crate::page::message::Message;

/// Code of the error of a device that may not tell its place.
const PERMISSION_DENIED: u16 = 1;

fn ask(edit: Edit) -> Option<Signal> {
    Some(Signal::Ask(Message::Edit(edit)))
}

/// Binds the editor.
pub(super) fn bind(binder: &mut Binder) -> Result<(), JsValue> {
    let part: HtmlElement = by_id("editor")?;
    binder.on(&part, "input", |event| {
        let field: HtmlInputElement = target(event)?.dyn_into().ok()?;
        let path = field.get_attribute("data-path")?;
        // The name of a zone means nothing before it is whole.
        let quantity = Quantity::by_path(&path);
        match (path.as_str(), quantity) {
            ("name", _) => ask(Edit::Name(field.value())),
            (_, Some(quantity)) => ask(Edit::Number(quantity, field.value())),
            _ => None,
        }
    })?;
    binder.on(&part, "change", |event| chosen(&target(event)?))?;
    binder.on(&part, "focusout", |_| Some(Signal::LeftField))?;
    binder.on(&part, "click", |event| {
        let button = target(event)?.closest("[data-step]").ok().flatten()?;
        let steps = decimal::parse(&button.get_attribute("data-step")?)?;
        ask(Edit::Step(Quantity::by_path(&button.get_attribute("data-path")?)?, steps))
    })?;
    buttons(binder)?;
    files(binder)
}

/// The element an event is about.
fn target(event: &Event) -> Option<Element> {
    event.target()?.dyn_into().ok()
}

/// What a change of a list or a field asks for.
fn chosen(element: &Element) -> Option<Signal> {
    if let Some(list) = element.dyn_ref::<HtmlSelectElement>() {
        let value = list.value();
        return match list.get_attribute("data-choice")?.as_str() {
            "ends" => {
                let ends = EndFaces::ALL.into_iter().find(|ends| ends.key() == value);
                ask(Edit::Ends(ends?))
            }
            "numerals" => {
                let script = Script::ALL.into_iter().find(|script| script.key() == value);
                ask(Edit::Numerals(script?))
            }
            "cut" => {
                let level = list.id().strip_prefix("cut-")?.parse().ok()?;
                ask(Edit::Cut(level, value.parse().ok()?))
            }
            _ => match clock_rule(&value) {
                Some(rule) => ask(Edit::Clock(rule)),
                None => ask(Edit::Zone(browser_zones::of_device().unwrap_or_default())),
            },
        };
    }
    let field: &HtmlInputElement = element.dyn_ref()?;
    if field.get_attribute("data-path").as_deref() == Some("clock.time_zone") {
        return ask(Edit::Zone(field.value()));
    }
    Some(Signal::Ask(Message::Settle))
}

fn buttons(binder: &mut Binder) -> Result<(), JsValue> {
    let open: HtmlElement = by_id("edit")?;
    let heading: HtmlElement = by_id("editor-heading")?;
    let editor: HtmlElement = by_id("editor")?;
    binder.on(&open, "click", move |_| {
        let opens = editor.hidden();
        // Shown before it takes the focus; the state follows in the next frame.
        editor.set_hidden(!opens);
        if opens {
            // A heading that can't take the focus leaves it where it is.
            let _: Result<(), JsValue> = heading.focus();
        }
        ask(Edit::Open(opens))
    })?;
    leaving(binder, "editor-close", "edit", || Message::Edit(Edit::Open(false)))?;
    binder.button("editor-undo", || Message::Undo)?;
    binder.button("dial-duplicate", || Message::Edit(Edit::Duplicate))?;
    binder.button("dial-delete", || Message::Edit(Edit::Delete))?;
    let notes = binder.notes.clone();
    binder.on(&by_id("dial-locate")?, "click", move |_| {
        let notes = notes.clone();
        let said = locate(move |edit| notes.note(Signal::Ask(Message::Edit(edit))));
        ask(Edit::Say(if said.is_ok() { "editor.locate.asked" } else { "editor.locate.none" }))
    })
}

/// Asks the device where it is.
fn locate(tell: impl Fn(Edit) + Clone + 'static) -> Result<(), JsValue> {
    let device = window()?.navigator().geolocation()?;
    let refuse = tell.clone();
    let found = Closure::once_into_js(move |position: Position| {
        let place = position.coords();
        tell(Edit::Place(place.latitude(), place.longitude()));
    });
    let failed = Closure::once_into_js(move |error: PositionError| {
        let refused = error.code() == PERMISSION_DENIED;
        refuse(Edit::Say(if refused { "editor.locate.refused" } else { "editor.locate.failed" }));
    });
    let failed: &Function = failed.unchecked_ref();
    device.get_current_position_with_error_callback(found.unchecked_ref(), Some(failed))
}

/// Files come by the button, or are dropped anywhere on the page.
fn files(binder: &mut Binder) -> Result<(), JsValue> {
    let reader = FileReader::new()?;
    let name = Rc::new(std::cell::RefCell::new(String::new()));
    let named = Rc::clone(&name);
    let read = reader.clone();
    binder.on(&reader, "load", move |_| {
        let text = read.result().ok()?.as_string()?;
        ask(Edit::Import(named.take(), text))
    })?;
    let open = Rc::new(move |file: File| {
        if file.size() > file::LARGEST as f64 {
            return ask(Edit::Say("error.too-large"));
        }
        name.replace(file.name());
        // A second file while the first is being read is not taken.
        reader.read_as_text(&file).ok()?;
        None
    });
    let field: HtmlInputElement = by_id("dial-file")?;
    let chosen = (field.clone(), Rc::clone(&open));
    binder.on(&field, "change", move |_| {
        let (field, open) = &chosen;
        let file = field.files()?.get(0)?;
        let signal = open(file);
        // The same file can be chosen again once it is mended.
        field.set_value("");
        signal
    })?;
    binder.on(&by_id("dial-import")?, "click", move |_| {
        field.click();
        None
    })?;
    let window = window()?;
    binder.on(&window, "dragover", |event| {
        dropped(event)?;
        event.prevent_default();
        None
    })?;
    binder.on(&window, "drop", move |event| {
        let files = dropped(event)?;
        event.prevent_default();
        open(files.files()?.get(0)?)
    })
}

/// What is dragged over the page, if there are files in it.
fn dropped(event: &Event) -> Option<web_sys::DataTransfer> {
    let transfer = event.dyn_ref::<DragEvent>()?.data_transfer()?;
    transfer.types().includes(&"Files".into(), 0).then_some(transfer)
}
