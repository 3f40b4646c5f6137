//! The link of the moment and its code, to be taken along.

use glam::DVec2;
use js_sys::{Promise, Reflect};
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{HtmlElement, HtmlInputElement, ShareData};

use super::dialog::Dialog;
use super::signal::{Link, Signal};
use crate::page::caption;
use crate::page::share::{code, draw};
use crate::page::workings::Workings;
use crate::scene::drawing::Drawing;
use crate::web::find::{by_id, window};
use crate::web::marks::{Text, set_hidden};
use crate::web::save::{self, Format};
use crate::web::shell::Notes;
use crate::web::surface::{Size, Surface};
use crate::words::Words;

/// Side of the code that is saved, CSS pixels.
const SAVED_PX: f64 = 480.0;

/// The elements of the dialog.
#[derive(Debug)]
pub(super) struct ShareView {
    pub(super) dialog: Dialog,
    caption: Text,
    link: HtmlInputElement,
    said: Text,
    system: HtmlElement,
    code_parts: [HtmlElement; 2],
    picture: Surface,
}

impl ShareView {
    /// Finds the elements.
    pub(super) fn new() -> Result<Self, JsValue> {
        let view = Self {
            dialog: Dialog::new("share-dialog")?,
            caption: Text::new("share-caption")?,
            link: by_id("share-text")?,
            said: Text::new("share-said")?,
            system: by_id("share-system")?,
            code_parts: [by_id("share-picture")?, by_id("share-save")?],
            picture: Surface::new("share-picture")?,
        };
        let navigator = window()?.navigator();
        set_hidden(&view.system, !Reflect::has(&navigator, &JsValue::from_str("share"))?);
        Ok(view)
    }

    /// Opens the dialog, with nothing said yet.
    pub(super) fn open(&mut self) {
        self.said.set("");
        self.dialog.open();
    }

    /// Takes another size of the picture.
    pub(super) fn resize(&mut self, size: Size) {
        self.picture.resize(size);
    }

    /// Shows the link of what the page shows.
    pub(super) fn show(&mut self, words: &Words, workings: &Workings) {
        let link = address();
        if self.link.value() != link {
            self.link.set_value(&link);
        }
        self.caption.set(&caption::parts(words, workings).join(" · "));
        let code = code(&link);
        self.code_parts.iter().for_each(|part| set_hidden(part, code.is_none()));
        match code {
            Some(code) => self.picture.paint(|drawing, _| draw(drawing, &code)),
            None => self.said.set(words.say("share.too-long")),
        }
    }

    /// Does something with the link.
    pub(super) fn act(
        &mut self,
        what: Link,
        words: &Words,
        workings: &Workings,
        notes: &Notes<Signal>,
    ) {
        let link = self.link.value();
        match what {
            Link::Copy => {
                self.link.select();
                match copied(&link) {
                    Ok(promise) => {
                        let notes = notes.clone();
                        settle(&promise, move |done| notes.note(Signal::Link(Link::Copied(done))));
                    }
                    Err(_) => self.said.set(words.say("share.not-copied")),
                }
            }
            Link::Copied(done) => {
                self.said.set(words.say(if done { "share.copied" } else { "share.not-copied" }));
            }
            Link::Share => {
                let data = ShareData::new();
                data.set_title(words.say("share.title"));
                data.set_url(&link);
                if let Ok(window) = window() {
                    // Whoever puts the system's sheet away wants nothing to be said.
                    settle(&window.navigator().share_with_data(&data), |_| {});
                }
            }
            Link::Save => {
                if let Some(code) = code(&link) {
                    let mut drawing = Drawing::new(DVec2::splat(SAVED_PX));
                    draw(&mut drawing, &code);
                    let name = format!("noonwedge-link-{}", workings.now().date);
                    // The page has its link.
                    let _: Result<(), JsValue> = save::save(&drawing, Format::Svg, &name);
                }
            }
        }
    }
}

/// The page's whole address, without what only this window is told.
fn address() -> String {
    let read = || {
        let location = window()?.location();
        let page = format!("{}{}", location.origin()?, location.pathname()?);
        Ok::<_, JsValue>(format!("{page}{}", location.hash()?))
    };
    read().unwrap_or_default()
}

/// Asks the browser to copy a text.
fn copied(text: &str) -> Result<Promise, JsValue> {
    let navigator = window()?.navigator();
    // Pages that are not served safely have no clipboard.
    let clipboard = Reflect::get(&navigator, &JsValue::from_str("clipboard"))?;
    let clipboard: web_sys::Clipboard = clipboard.dyn_into()?;
    Ok(clipboard.write_text(text))
}

/// Tells `end` whether the browser has done what it promised; a refusal ends here.
fn settle(promise: &Promise, end: impl Fn(bool) + Clone + 'static) {
    let ending = |done: bool| {
        let end = end.clone();
        Closure::once_into_js(move |_: JsValue| end(done))
    };
    let (done, failed) = (ending(true), ending(false));
    // Only one of the two is called; the other is let go with the promise.
    let _: Result<JsValue, JsValue> = Reflect::get(promise, &JsValue::from_str("then"))
        .and_then(|then| then.dyn_into::<js_sys::Function>())
        .and_then(|then| then.call2(promise, &done, &failed));
}
