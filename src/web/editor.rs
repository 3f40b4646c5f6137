//! The editor of instruments: its fields made from the table of quantities, and kept up to date.

use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, HtmlElement, HtmlInputElement, HtmlSelectElement, HtmlTemplateElement};

use super::browser_zones;
use super::controls::{choose, set_unless_typing};
use super::find::{all, by_id, piece};
use super::marks::{Text, set_attribute, set_disabled, set_expanded, set_hidden, write};
use super::save;
use crate::core::instrument::{Kind, Quantity, file};
use crate::page::choice::Choice;
use crate::page::editor_panel::{self as panel, Field};
use crate::page::state::State;
use crate::page::workings::Workings;
use crate::words::Words;

/// The editor's elements.
#[derive(Debug)]
pub(super) struct Editor {
    part: HtmlElement,
    open: HtmlElement,
    said: Text,
    whose: Text,
    clock_now: Text,
    faults: HtmlElement,
    fields: Vec<(&'static Quantity, Line)>,
    name: Line,
    zone: Line,
    zone_part: HtmlElement,
    offset_part: HtmlElement,
    zones: HtmlElement,
    clock: HtmlSelectElement,
    ends: HtmlSelectElement,
    numerals: HtmlSelectElement,
    cuts: Vec<HtmlSelectElement>,
    export: HtmlElement,
    delete: HtmlElement,
    undo: HtmlElement,
    told: Vec<String>,
}

/// A field with what stands around it.
#[derive(Debug)]
struct Line {
    input: HtmlInputElement,
    hint: Option<Element>,
    wrong: Element,
}

impl Editor {
    /// Finds the elements, and makes the fields of the quantities.
    pub(super) fn new(words: &Words) -> Result<Self, JsValue> {
        let editor = Self {
            fields: make_fields()?,
            part: by_id("editor")?,
            open: by_id("edit")?,
            said: Text::new("editor-said")?,
            whose: Text::new("editor-whose")?,
            clock_now: Text::new("clock-now")?,
            faults: by_id("editor-faults")?,
            name: Line { input: by_id("field-name")?, hint: None, wrong: by_id("wrong-name")? },
            zone: Line { input: by_id("field-zone")?, hint: None, wrong: by_id("wrong-zone")? },
            zone_part: by_id("clock-zone")?,
            offset_part: by_id("clock-offset")?,
            zones: by_id("zones")?,
            clock: by_id("dial-clock")?,
            ends: by_id("dial-ends")?,
            numerals: by_id("dial-numerals")?,
            cuts: all("[data-choice=cut]")?
                .into_iter()
                .filter_map(|it| it.dyn_into().ok())
                .collect(),
            export: by_id("dial-export")?,
            delete: by_id("dial-delete")?,
            undo: by_id("editor-undo")?,
            told: Vec::new(),
        };
        editor.speak(words)?;
        Ok(editor)
    }

    /// Writes what stands in the language alone, whatever the state.
    pub(super) fn speak(&self, words: &Words) -> Result<(), JsValue> {
        let mut fields = self.fields.iter();
        fields.try_for_each(|(quantity, line)| name_field(&line.input, quantity, words))
    }

    /// Shows the editor, or hides it.
    pub(super) fn show(&mut self, words: &Words, state: &State) {
        let open = state.editor.open;
        set_hidden(&self.part, !open);
        set_expanded(&self.open, open);
        if !open {
            return;
        }
        let choice = &state.shown.instrument;
        let spec = choice.spec();
        for (quantity, line) in &self.fields {
            line.show(&panel::field(words, state, &spec, quantity));
        }
        self.name.show(&panel::typed(state, "name", spec.name.clone(), String::new()));
        let zone = spec.time_zone.clone().unwrap_or_default();
        self.zone.show(&panel::typed(state, "clock.time_zone", zone, String::new()));
        let by_name = spec.time_zone.is_some() || state.editor.wrong("clock.time_zone").is_some();
        set_hidden(&self.zone_part, !by_name);
        set_hidden(&self.offset_part, by_name);
        choose(&self.clock, if by_name { "zone" } else { panel::clock_key(&spec) });
        choose(&self.ends, spec.end_faces.key());
        choose(&self.numerals, spec.numerals.key());
        self.whose.set(panel::whose(words, choice));
        self.said.set(&state.editor.said);
        let own = matches!(choice, Choice::Own(_));
        set_disabled(&self.delete, !own);
        set_disabled(&self.undo, state.history.is_empty());
        let text = file::write(&spec, file::Layout::Full);
        set_attribute(&self.export, "href", &save::address(&text, "application/json"));
        set_attribute(&self.export, "download", &format!("{}.json", spec.name));
        // Elements of one's own making can be made.
        let _: Result<(), JsValue> = self.make_lists(words, state);
    }

    /// What the clocks show on the date of the moment.
    pub(super) fn show_moment(&mut self, words: &Words, workings: &Workings) {
        if !self.part.hidden() {
            self.clock_now.set(&panel::clock_line(words, workings));
        }
    }

    /// The lists whose entries change: divisions, faults, and the names of zones.
    fn make_lists(&mut self, words: &Words, state: &State) -> Result<(), JsValue> {
        let cuts = panel::cuts(words, &state.shown.instrument.spec());
        for (index, list) in self.cuts.iter().enumerate() {
            let line = list.parent_element().and_then(|it| it.dyn_into::<HtmlElement>().ok());
            if let Some(line) = line {
                set_hidden(&line, index >= cuts.len());
            }
            let Some(cut) = cuts.get(index) else { continue };
            // The first entry that can differ tells which divisions the list is of.
            let mark = cut.choices.get(1).map_or("", |(_, text)| text);
            if list.get_attribute("data-of").as_deref() != Some(mark) {
                set_attribute(list, "data-of", mark);
                list.set_text_content(None);
                for (parts, text) in &cut.choices {
                    list.append_child(&*option(&parts.to_string(), text)?)?;
                }
            }
            choose(list, &cut.chosen.to_string());
        }
        if self.told != state.editor.faults {
            self.told.clone_from(&state.editor.faults);
            self.faults.set_text_content(None);
            for fault in &self.told {
                self.faults.append_child(&*piece("li", fault)?)?;
            }
            set_hidden(&self.faults, self.told.is_empty());
        }
        if !self.zone_part.hidden() && self.zones.child_element_count() == 0 {
            for name in browser_zones::names() {
                self.zones.append_child(&*option(&name, "")?)?;
            }
        }
        Ok(())
    }
}

impl Line {
    fn show(&self, field: &Field) {
        set_unless_typing(&self.input, &field.text);
        set_attribute(
            &self.input,
            "aria-invalid",
            if field.wrong.is_empty() { "false" } else { "true" },
        );
        if let Some(hint) = &self.hint {
            write(hint, &field.hint);
        }
        write(&self.wrong, &field.wrong);
    }
}

/// An entry of a list.
pub(super) fn option(value: &str, text: &str) -> Result<Element, JsValue> {
    let option = piece("option", text)?;
    option.set_attribute("value", value)?;
    Ok(option)
}

/// Makes a field for every quantity that the page names.
fn make_fields() -> Result<Vec<(&'static Quantity, Line)>, JsValue> {
    let mould: HtmlTemplateElement = by_id("field-mould")?;
    let mut fields = Vec::new();
    for place in all("[data-fields]")? {
        let paths = place.get_attribute("data-fields").unwrap_or_default();
        for quantity in paths.split(' ').filter_map(Quantity::by_path) {
            let copy = mould.content().clone_node_with_deep(true)?;
            place.append_child(&copy)?;
            let field = place.last_element_child().ok_or_else(|| JsValue::from_str("no field"))?;
            fields.push((quantity, make_field(&field, quantity)?));
        }
    }
    Ok(fields)
}

/// Fills a new field in: names of its elements, range and step; its words come later.
fn make_field(field: &Element, quantity: &Quantity) -> Result<Line, JsValue> {
    let find = |selector: &str| piece_of(field, selector);
    let id = quantity.path.replace('.', "-");
    let (label, hint, wrong) = (find("label")?, find(".hint")?, find(".wrong")?);
    let input: HtmlInputElement = find("input")?.unchecked_into();
    label.set_attribute("for", &format!("field-{id}"))?;
    hint.set_id(&format!("hint-{id}"));
    wrong.set_id(&format!("wrong-{id}"));
    input.set_id(&format!("field-{id}"));
    input.set_attribute("data-path", quantity.path)?;
    input.set_attribute("aria-describedby", &format!("hint-{id} wrong-{id}"))?;
    let plain = quantity.kind == Kind::Plain;
    if plain {
        input.set_attribute("inputmode", "decimal")?;
        input.set_type("number");
        let (min, max) = quantity.range;
        input.set_min(&(min * quantity.per_file_unit).to_string());
        input.set_max(&(max * quantity.per_file_unit).to_string());
        input.set_step(&quantity.step.to_string());
    }
    for selector in STEPS {
        let button = find(selector)?;
        button.set_attribute("data-path", quantity.path)?;
        // The arrow keys in the field do the same.
        button.set_attribute("tabindex", "-1")?;
        button.toggle_attribute_with_force("hidden", !plain)?;
    }
    Ok(Line { input, hint: Some(hint), wrong })
}

/// The buttons of a field that make its value less and more.
const STEPS: [&str; 2] = ["[data-step='-1']", "[data-step='1']"];

/// Writes the words of a field.
fn name_field(input: &HtmlInputElement, quantity: &Quantity, words: &Words) -> Result<(), JsValue> {
    let field = input.closest(".field")?.ok_or_else(|| JsValue::from_str("no field"))?;
    let name = words.say(&format!("editor.field.{}", quantity.path)).to_owned();
    piece_of(&field, "label")?.set_text_content(Some(&name));
    if quantity.kind == Kind::Plain {
        let unit = words.unit(quantity.unit);
        piece_of(&field, ".unit")?.set_text_content(Some(unit));
        let label = words.fill("editor.label", &[("field", &name), ("unit", unit)]);
        input.set_attribute("aria-label", &label)?;
    }
    for (selector, key) in STEPS.into_iter().zip(["editor.less", "editor.more"]) {
        let label = words.fill(key, &[("field", &name)]);
        piece_of(&field, selector)?.set_attribute("aria-label", &label)?;
    }
    Ok(())
}

/// The first element inside another that matches a selector.
fn piece_of(field: &Element, selector: &str) -> Result<Element, JsValue> {
    field.query_selector(selector)?.ok_or_else(|| JsValue::from_str(selector))
}
