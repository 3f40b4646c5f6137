//! The panel of travel: the latitude as a handle and as a text, its marks, and what is told of it.

use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, HtmlElement, HtmlInputElement};

use super::bind::Binder;
use super::controls::{set_unless_typing, set_value};
use super::find::{all, by_id};
use super::marks::{Text, set_attribute, set_expanded, set_hidden, set_pressed};
use super::signal::Signal;
use crate::page::message::Message;
use crate::page::state::Shown;
use crate::page::travel::{self, POLES_DEG, Way};
use crate::page::workings::Workings;
use crate::words::Words;

/// The elements of the panel.
#[derive(Debug)]
pub(super) struct TravelPanel {
    panel: HtmlElement,
    open: HtmlElement,
    ways: Vec<Element>,
    place: HtmlInputElement,
    latitude: HtmlInputElement,
    marks: Vec<Element>,
    told: [Text; 2],
}

impl TravelPanel {
    /// Finds the elements.
    pub(super) fn new() -> Result<Self, JsValue> {
        Ok(Self {
            panel: by_id("travel")?,
            open: by_id("travel-open")?,
            ways: all("[data-way]")?,
            place: by_id("travel-place")?,
            latitude: by_id("travel-latitude")?,
            marks: all(".named li")?,
            told: [Text::new("travel-told")?, Text::new("travel-special")?],
        })
    }

    /// Shows where the dial has gone.
    pub(super) fn show(&mut self, words: &Words, shown: &Shown, workings: &Workings) {
        set_hidden(&self.panel, shown.travel.is_none());
        set_expanded(&self.open, shown.travel.is_some());
        let Some(travel) = shown.travel else { return };
        for way in &self.ways {
            set_pressed(way, way.get_attribute("data-way").as_deref() == Some(travel.way.key()));
        }
        set_value(&self.place, travel.latitude_deg);
        let text = travel::latitude(words, travel.latitude_deg);
        set_attribute(&self.place, "aria-valuetext", &text);
        set_unless_typing(&self.latitude, &text);
        let home_deg = shown.instrument.spec().latitude_deg;
        let places = travel::named_deg(workings).into_iter().chain([home_deg]);
        for (mark, latitude_deg) in self.marks.iter().zip(places) {
            let (south, north) = POLES_DEG;
            let share = (latitude_deg - south) / (north - south);
            let mark: Option<&HtmlElement> = mark.dyn_ref();
            // The property is one of our own.
            let _: Option<Result<(), JsValue>> =
                mark.map(|mark| mark.style().set_property("--at", &share.to_string()));
        }
        let [told, special] = &mut self.told;
        told.set(&travel::told(words, workings, travel.way));
        special.set(&travel::special(words, workings));
    }
}

/// Binds the panel.
pub(super) fn bind(binder: &mut Binder) -> Result<(), JsValue> {
    let open: HtmlElement = by_id("travel-open")?;
    binder.on(&open.clone(), "click", move |_| {
        let is_open = open.get_attribute("aria-expanded").as_deref() == Some("true");
        Some(Signal::Ask(Message::Travel(!is_open)))
    })?;
    binder.button("travel-home", || Message::TravelHome)?;
    for button in all("[data-way]")? {
        let key = button.get_attribute("data-way").unwrap_or_default();
        binder.on(&button, "click", move |_| {
            Way::by_key(&key).map(Message::TravelBy).map(Signal::Ask)
        })?;
    }
    binder.slider("travel-place", Message::TravelTo)?;
    binder.field("travel-latitude", Message::TravelTyped)
}
