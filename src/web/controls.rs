//! The controls, brought in line with the state.

use chrono::Datelike;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, HtmlElement, HtmlInputElement, HtmlSelectElement};

use super::editor::option;
use super::find::{all, by_id, document, switch_id};
use super::marks::{Text, set_attribute, set_disabled, set_hidden, set_pressed};
use super::pictures::{Picture, Pictures};
use super::present::Presenting;
use super::travel::TravelPanel;
use crate::core::instrument::Preset;
use crate::core::ladder::Rounding;
use crate::core::light::LimbDarkening;
use crate::page::choice::{Choice, Shelf};
use crate::page::labels;
use crate::page::rod::{THICKNESSES_M, style_ends_m};
use crate::page::rod_panel;
use crate::page::state::State;
use crate::page::typed;
use crate::page::update::lens_at_edge_s;
use crate::page::workings::Workings;
use crate::scene::axis::Axis;
use crate::scene::camera::Standpoint;
use crate::scene::guide::Guide;
use crate::scene::{day_strip, year_strip};
use crate::words::{Words, figures};

/// How near the handle of the year strip may come to a season's button before the button stops
/// catching presses, CSS pixels.
const CLEAR_OF_HANDLE_PX: f64 = 36.0;
/// Size of a season's button, CSS pixels.
const SEASON_PX: f64 = 44.0;

/// The controls that show the state.
#[derive(Debug)]
pub(super) struct Controls {
    root: Element,
    presenting: Presenting,
    travel: TravelPanel,
    instrument: HtmlSelectElement,
    own_dials: HtmlElement,
    own_names: Vec<String>,
    refraction: HtmlInputElement,
    limb: HtmlInputElement,
    limits: HtmlInputElement,
    limits_part: HtmlElement,
    guides: Vec<(Guide, HtmlInputElement)>,
    theme: HtmlSelectElement,
    speed: HtmlSelectElement,
    play: HtmlElement,
    play_label: Text,
    views: Vec<Element>,
    standpoint: HtmlSelectElement,
    sighting: Text,
    round: HtmlInputElement,
    now: HtmlElement,
    rod: HtmlElement,
    rod_parts: [HtmlElement; 2],
    lens_part: HtmlElement,
    rod_middle: HtmlElement,
    rod_last: HtmlElement,
    thickness: HtmlSelectElement,
    lens_follow: HtmlElement,
    noon_panel: HtmlElement,
    undo: HtmlElement,
    date: HtmlInputElement,
    time: HtmlInputElement,
    day: HtmlInputElement,
    year: HtmlInputElement,
    lens: HtmlInputElement,
    rod_place: HtmlInputElement,
    rod_eye: HtmlInputElement,
    holds: [HtmlElement; 2],
    seasons: Vec<HtmlElement>,
}

impl Controls {
    /// Finds the controls.
    pub(super) fn new(words: &Words) -> Result<Self, JsValue> {
        let root = document()?.document_element().ok_or_else(|| JsValue::from_str("no root"))?;
        let thickness: HtmlSelectElement = by_id("rod-thickness")?;
        let seasons = all("#seasons button")?;
        let mut controls = Self {
            root,
            presenting: Presenting::new()?,
            travel: TravelPanel::new()?,
            instrument: by_id("instrument")?,
            own_dials: by_id("own-dials")?,
            own_names: Vec::new(),
            refraction: by_id("refraction")?,
            limb: by_id("limb")?,
            limits: by_id("limits")?,
            limits_part: by_id("limits-part")?,
            guides: Guide::ALL
                .into_iter()
                .map(|guide| Ok((guide, by_id(&switch_id(guide))?)))
                .collect::<Result<_, JsValue>>()?,
            theme: by_id("theme")?,
            speed: by_id("speed")?,
            play: by_id("play")?,
            play_label: Text::new("play-label")?,
            views: all("[data-view]")?,
            standpoint: by_id("standpoint")?,
            sighting: Text::new("sighting")?,
            round: by_id("round")?,
            now: by_id("now")?,
            rod: by_id("rod")?,
            rod_parts: [by_id("scale-part")?, by_id("rod-part")?],
            lens_part: by_id("lens-part")?,
            rod_middle: by_id("rod-middle")?,
            rod_last: by_id("rod-last")?,
            thickness,
            lens_follow: by_id("lens-follow")?,
            noon_panel: by_id("noon-panel")?,
            undo: by_id("undo")?,
            date: by_id("date")?,
            time: by_id("time")?,
            day: by_id("day-place")?,
            year: by_id("year-place")?,
            lens: by_id("lens-place")?,
            rod_place: by_id("rod-place")?,
            rod_eye: by_id("rod-eye")?,
            holds: [by_id("day-hold")?, by_id("year-hold")?],
            seasons: seasons.into_iter().filter_map(|it| it.dyn_into().ok()).collect(),
        };
        controls.speak(words)?;
        Ok(controls)
    }

    /// Writes what stands in the language alone, whatever the state.
    pub(super) fn speak(&mut self, words: &Words) -> Result<(), JsValue> {
        set_attribute(&self.own_dials, "label", words.say("page.instrument.own"));
        self.thickness.set_text_content(None);
        fill_thicknesses(&self.thickness, words)
    }

    /// Buttons, switches and lists.
    pub(super) fn show(&mut self, words: &Words, state: &State) {
        let shown = &state.shown;
        set_attribute(&self.root, "data-theme", shown.theme.key());
        self.presenting.show(words, state.presenting);
        // Elements of one's own making can be made.
        let _: Result<(), JsValue> = self.list_own(state);
        choose(&self.instrument, &instrument_key(&shown.instrument));
        choose(&self.theme, shown.theme.key());
        choose(&self.speed, shown.speed.key());
        choose(&self.standpoint, shown.view.standpoint.key());
        self.refraction.set_checked(shown.refraction);
        self.limb.set_checked(shown.limb == LimbDarkening::Linear);
        self.limits.set_checked(shown.limits);
        for (guide, switch) in &self.guides {
            switch.set_checked(shown.guides.has(*guide));
        }
        self.round.set_checked(shown.rounding == Rounding::Minute);
        set_attribute(
            &self.play,
            "class",
            if state.playing { "chief is-playing" } else { "chief" },
        );
        self.play_label.set(words.say(if state.playing { "play.pause" } else { "play.play" }));
        for view in &self.views {
            let key = view.get_attribute("data-view");
            set_pressed(view, key.as_deref() == Some(shown.view.standpoint.key()));
        }
        set_pressed(&self.now, state.following_now);
        set_pressed(&self.rod, shown.rod.is_some());
        // Whoever is shown the way along the stone must not take it into the Sun.
        let sights = shown.rod.is_some() || shown.view.standpoint == Standpoint::AlongPole;
        self.sighting.set(if sights { words.say("caution.sighting") } else { "" });
        // One picture at a time beside the court: noon, the rod's scale, or the lens.
        let rod_away = shown.rod.is_none() || shown.noon;
        let lens_away = shown.rod.is_some() || shown.noon;
        self.rod_parts.iter().for_each(|part| set_hidden(part, rod_away));
        set_hidden(&self.lens_part, lens_away);
        set_hidden(&self.limits_part, lens_away);
        if let Some(rod) = shown.rod {
            choose(&self.thickness, &rod.diameter_m.to_string());
        }
        set_hidden(&self.noon_panel, !shown.noon);
        set_disabled(&self.undo, state.history.is_empty());
    }

    /// Lists the person's own instruments.
    fn list_own(&mut self, state: &State) -> Result<(), JsValue> {
        let names: Vec<String> = state.shown.shelf.iter().map(|own| own.name.clone()).collect();
        if names == self.own_names {
            return Ok(());
        }
        self.own_dials.set_text_content(None);
        for name in &names {
            self.own_dials.append_child(&*option(&format!("{OWN}{name}"), name)?)?;
        }
        set_hidden(&self.own_dials, names.is_empty());
        self.own_names = names;
        Ok(())
    }

    /// The handles of the strips, which move with every frame of play.
    pub(super) fn show_handles(&self, workings: &Workings, pictures: &mut Pictures) {
        let day_axis = day_strip::axis(workings.instrument(), pictures.size(Picture::Day).x);
        let seconds = workings.now().seconds;
        slide(&self.day, &day_axis, seconds);
        let on_strip = (day_axis.min..=day_axis.max).contains(&seconds);
        set_attribute(&self.day, "class", if on_strip { "" } else { "beyond" });
        let year_axis = year_strip::axis(workings.year().year, pictures.size(Picture::Year).x);
        slide(&self.year, &year_axis, f64::from(workings.now().date.ordinal()));
    }

    /// Fields and the texts of handles, which change with the moment.
    pub(super) fn show_moment(
        &mut self,
        words: &Words,
        state: &State,
        workings: &Workings,
        pictures: &mut Pictures,
    ) {
        let civil = typed::civil_at(workings.instrument(), workings.moment().instant);
        set_unless_typing(&self.date, &typed::date_field(civil));
        set_unless_typing(&self.time, &typed::time_field(civil));
        set_attribute(&self.day, "aria-valuetext", &labels::day_value(words, workings));
        set_attribute(&self.year, "aria-valuetext", &labels::year_value(words, workings));
        let lens_s = state.shown.lens_s.unwrap_or_else(|| lens_at_edge_s(workings));
        set_value(&self.lens, lens_s.round());
        let text = labels::lens_value(words, workings, &state.shown);
        set_attribute(&self.lens, "aria-valuetext", &text);
        set_hidden(&self.lens_follow, state.shown.lens_s.is_none());
        self.travel.show(words, &state.shown, workings);
        self.show_rod(words, state, workings);
        self.show_seasons(words, state, workings, pictures);
        let day = pictures.strip_view(Picture::Day, state, words);
        let year = pictures.strip_view(Picture::Year, state, words);
        raise(&self.holds[0], day_strip::track_px(&day), day.size.y);
        raise(&self.holds[1], year_strip::track_px(&year), year.size.y);
    }

    fn show_seasons(
        &mut self,
        words: &Words,
        state: &State,
        workings: &Workings,
        pictures: &mut Pictures,
    ) {
        let view = pictures.strip_view(Picture::Year, state, words);
        let axis = year_strip::axis(workings.year().year, view.size.x);
        let day = f64::from(workings.now().date.ordinal());
        let marks = year_strip::season_marks(workings.instrument(), workings.year(), &view);
        let seasons = workings.year().seasons.iter().enumerate();
        for ((button, mark), (index, season)) in self.seasons.iter().zip(marks).zip(seasons) {
            place(button, "left", mark.at.x - SEASON_PX / 2.0);
            place(button, "top", mark.at.y - SEASON_PX / 2.0);
            set_attribute(button, "aria-label", &labels::season(words, workings, index, season));
            let clear = (axis.px(day) - mark.at.x).abs() > CLEAR_OF_HANDLE_PX;
            set_attribute(button, "class", if clear { "" } else { "under-handle" });
        }
    }

    fn show_rod(&mut self, words: &Words, state: &State, workings: &Workings) {
        let Some(rod) = state.shown.rod else { return };
        let (south, north) = style_ends_m(workings.instrument());
        set_attribute(&self.rod_place, "min", &format!("{:.0}", (south * 1000.0).ceil()));
        set_attribute(&self.rod_place, "max", &format!("{:.0}", (north * 1000.0).floor()));
        set_value(&self.rod_place, (rod.axial_m * 1000.0).round());
        let panel = rod_panel::panel(words, workings, &rod, state.shown.least_cover);
        let text = words.fill("reading.rod.place.value", &[("read", &panel.read)]);
        set_attribute(&self.rod_place, "aria-valuetext", &text);
        set_value(&self.rod_eye, (state.shown.least_cover * 100.0).round());
        set_attribute(&self.rod_eye, "aria-valuetext", &panel.eye[1]);
        for (button, works) in
            [(&self.rod_middle, panel.reaches), (&self.rod_last, panel.has_trace)]
        {
            set_disabled(button, !works);
        }
    }
}

/// What stands before the names of the person's own instruments in the list.
const OWN: &str = "own:";

/// The value of an instrument's entry in the list.
fn instrument_key(choice: &Choice) -> String {
    match choice {
        Choice::BuiltIn(preset) => preset.key.to_owned(),
        Choice::Own(spec) => format!("{OWN}{}", spec.name),
    }
}

/// The instrument of an entry of the list.
pub(super) fn instrument_of_key(key: &str, shelf: &Shelf) -> Option<Choice> {
    match key.strip_prefix(OWN) {
        Some(name) => shelf.by_name(name).cloned().map(Choice::Own),
        None => Preset::by_key(key).map(Choice::BuiltIn),
    }
}

/// Chooses an entry of a list, if another is chosen.
pub(super) fn choose(list: &HtmlSelectElement, key: &str) {
    if list.value() != key {
        list.set_value(key);
    }
}

/// Writes a field, unless the reader is in it.
pub(super) fn set_unless_typing(field: &HtmlInputElement, value: &str) {
    let active = document().ok().and_then(|page| page.active_element());
    let typing = active.is_some_and(|active| active.id() == field.id());
    if !typing && field.value() != value {
        field.set_value(value);
    }
}

/// Sets a slider's value, if it is another.
pub(super) fn set_value(slider: &HtmlInputElement, value: f64) {
    let value = value.to_string();
    if slider.value() != value {
        slider.set_value(&value);
    }
}

/// Puts a slider's handle where the axis of its picture has the value.
fn slide(slider: &HtmlInputElement, axis: &Axis, value: f64) {
    set_attribute(slider, "min", &axis.min.round().to_string());
    set_attribute(slider, "max", &axis.max.round().to_string());
    set_value(slider, value.round());
}

/// Lifts a strip's slider so that its handle runs along the middle of the track.
fn raise(hold: &HtmlElement, (top, bottom): (f64, f64), height_px: f64) {
    place(hold, "--below", height_px - (top + bottom));
}

/// Sets a length of an element's style, CSS pixels.
fn place(element: &HtmlElement, property: &str, px: f64) {
    let value = format!("{px:.1}px");
    let style = element.style();
    if style.get_property_value(property).as_deref() != Ok(&value) {
        // The properties are properties.
        let _: Result<(), JsValue> = style.set_property(property, &value);
    }
}

/// Offers the thicknesses of the rod.
fn fill_thicknesses(list: &HtmlSelectElement, words: &Words) -> Result<(), JsValue> {
    for diameter_m in THICKNESSES_M {
        let length = figures::length(words, diameter_m);
        let text = words.figure(&length);
        list.append_child(&*option(&diameter_m.to_string(), &text)?)?;
    }
    Ok(())
}
