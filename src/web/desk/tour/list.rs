//! The panel of a tour: its stops, and the fields of the one that is edited.

use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, HtmlElement, HtmlInputElement, HtmlTemplateElement, HtmlTextAreaElement};

use super::signal::{Act, Whose};
use crate::page::tour::bench::Bench;
use crate::page::tour::{Stop, Tour};
use crate::web::find::{all, by_id, piece};
use crate::web::marks::{
    Text, set_attribute, set_disabled, set_expanded, set_hidden, set_pressed, write,
};
use crate::web::page_words::fill_words;
use crate::words::Words;
use crate::words::figures;

/// What the panel shows.
#[derive(Debug)]
pub(super) struct Shown<'a> {
    /// Whether it is there at all.
    pub(super) open: bool,
    /// Whether it is small.
    pub(super) folded: bool,
    /// Which tour is listed.
    pub(super) whose: Whose,
    /// The stops listed.
    pub(super) tour: &'a Tour,
    /// The stop that is open, or was gone to.
    pub(super) at: Option<usize>,
    /// What is done to the speaker's own tour.
    pub(super) bench: &'a Bench,
}

/// The elements of the panel.
#[derive(Debug)]
pub(super) struct ListView {
    part: HtmlElement,
    opener: HtmlElement,
    rest: HtmlElement,
    fold: HtmlElement,
    fold_text: Text,
    said: Text,
    whose: Vec<Element>,
    own_parts: Vec<HtmlElement>,
    copy: HtmlElement,
    run: HtmlElement,
    run_text: Text,
    undo: HtmlElement,
    name: HtmlInputElement,
    empty: HtmlElement,
    list: HtmlElement,
    row: HtmlTemplateElement,
    form: HtmlTemplateElement,
    faults: HtmlElement,
    told: Vec<String>,
    made: Option<(Whose, u32, Option<usize>)>,
    /// The button that is to have the focus once the stops have been made anew.
    focus: Option<(usize, Act)>,
}

impl ListView {
    /// Finds the elements, and puts the panel beside the court.
    pub(super) fn new() -> Result<Self, JsValue> {
        let part: HtmlElement = by_id("tour-part")?;
        let own = all("#tour-part [data-own]")?;
        let view = Self {
            opener: by_id("tour")?,
            rest: by_id("tour-rest")?,
            fold: by_id("tour-fold")?,
            fold_text: Text::new("tour-fold")?,
            said: Text::new("tour-said")?,
            whose: all("[data-whose]")?,
            own_parts: own.into_iter().filter_map(|it| it.dyn_into().ok()).collect(),
            copy: by_id("tour-copy")?,
            run: by_id("tour-run")?,
            run_text: Text::new("tour-run")?,
            undo: by_id("tour-undo")?,
            name: by_id("tour-name")?,
            empty: by_id("tour-empty")?,
            list: by_id("tour-list")?,
            row: by_id("tour-row")?,
            form: by_id("tour-form")?,
            faults: by_id("tour-faults")?,
            told: Vec::new(),
            made: None,
            focus: None,
            part,
        };
        for side in all(".side")? {
            side.prepend_with_node_1(&view.part)?;
        }
        Ok(view)
    }

    /// Lets a button have the focus once the stops have been made anew.
    pub(super) fn focus(&mut self, at: usize, act: Act) {
        self.focus = Some((at, act));
    }

    /// Makes the stops anew when they are next shown.
    pub(super) fn forget(&mut self) {
        self.made = None;
    }

    /// Shows the panel.
    pub(super) fn show(&mut self, words: &Words, shown: &Shown<'_>) -> Result<(), JsValue> {
        let appears = self.part.hidden() && shown.open;
        set_hidden(&self.part, !shown.open);
        set_expanded(&self.opener, shown.open);
        if !shown.open {
            return Ok(());
        }
        set_attribute(&self.part, "data-folded", if shown.folded { "true" } else { "false" });
        set_hidden(&self.rest, shown.folded);
        set_expanded(&self.fold, !shown.folded);
        self.fold_text.set(words.say(if shown.folded { "tour.unfold" } else { "tour.fold" }));
        self.said.set(shown.bench.said());
        let own = shown.whose == Whose::Own;
        for button in &self.whose {
            let key = button.get_attribute("data-whose");
            set_pressed(button, (key.as_deref() == Some("own")) == own);
        }
        self.own_parts.iter().for_each(|part| set_hidden(part, !own));
        set_hidden(&self.copy, own);
        let nothing = shown.tour.stops.is_empty();
        set_hidden(&self.empty, !nothing);
        set_disabled(&self.run, nothing);
        self.run_text.set(&match shown.at {
            Some(at) => words.fill("tour.run.from", &[("number", &(at + 1).to_string())]),
            None => words.say("tour.run").to_owned(),
        });
        set_disabled(&self.undo, !shown.bench.can_undo());
        self.show_faults(shown.bench.faults())?;
        let made = (shown.whose, shown.bench.stamp(), shown.at);
        if self.made != Some(made) {
            self.made = Some(made);
            self.name.set_value(&shown.tour.name);
            self.make(words, shown)?;
        }
        for (row, stop) in self.rows().zip(&shown.tour.stops) {
            label(words, &row, stop)?;
        }
        if appears {
            by_id::<HtmlElement>("tour-heading")?.focus()?;
        }
        Ok(())
    }

    fn show_faults(&mut self, faults: &[String]) -> Result<(), JsValue> {
        if self.told != faults {
            self.told = faults.to_vec();
            self.faults.set_text_content(None);
            for fault in faults {
                self.faults.append_child(&*piece("li", fault)?)?;
            }
        }
        set_hidden(&self.faults, faults.is_empty());
        Ok(())
    }

    fn rows(&self) -> impl Iterator<Item = Element> {
        let rows = self.list.children();
        (0..rows.length()).filter_map(move |index| rows.item(index))
    }

    /// Makes the stops anew.
    fn make(&mut self, words: &Words, shown: &Shown<'_>) -> Result<(), JsValue> {
        self.list.set_text_content(None);
        for index in 0..shown.tour.stops.len() {
            let copy = self.row.content().clone_node_with_deep(true)?;
            self.list.append_child(&copy)?;
            let Some(row) = self.list.last_element_child() else { continue };
            row.set_attribute("data-at", &index.to_string())?;
            find(&row, ".tour-number")?
                .set_text_content(Some(&words.figure(&(index + 1).to_string())));
            let is_open = shown.at == Some(index);
            let button = find(&row, "button")?;
            if is_open {
                button.set_attribute("aria-current", "true")?;
            }
            if shown.whose == Whose::Own {
                set_expanded(&button, is_open);
            }
        }
        if let (Some(at), Whose::Own) = (shown.at, shown.whose) {
            self.make_form(at, shown.tour)?;
            fill_words(words, "#tour-list ")?;
        }
        let focus = self.focus.take().and_then(|(at, act)| {
            let row = self.list.children().item(u32::try_from(at).ok()?)?;
            let button = row.query_selector(&format!("[data-act={}]", act.key())).ok()??;
            button.dyn_into::<HtmlElement>().ok()
        });
        if let Some(focus) = focus {
            focus.focus()?;
        }
        Ok(())
    }

    /// The fields of the stop that is edited.
    fn make_form(&self, at: usize, tour: &Tour) -> Result<(), JsValue> {
        let index = u32::try_from(at).unwrap_or(u32::MAX);
        let (Some(row), Some(stop)) = (self.list.children().item(index), tour.stops.get(at)) else {
            return Ok(());
        };
        row.append_child(&self.form.content().clone_node_with_deep(true)?)?;
        by_id::<HtmlTextAreaElement>("stop-caption")?.set_value(&stop.caption);
        by_id::<HtmlTextAreaElement>("stop-notes")?.set_value(&stop.notes);
        let seconds = stop.seconds.map(|seconds| seconds.get().to_string()).unwrap_or_default();
        by_id::<HtmlInputElement>("stop-seconds")?.set_value(&seconds);
        by_id::<HtmlInputElement>("stop-plays")?.set_checked(stop.plays);
        by_id::<HtmlInputElement>("stop-asks")?.set_checked(stop.asks);
        for (key, last) in [("earlier", 0), ("later", tour.stops.len().saturating_sub(1))] {
            let button = find(&row, &format!("[data-act={key}]"))?;
            set_disabled(&button, at == last);
        }
        Ok(())
    }
}

/// Writes what a stop is called, and how it goes on.
fn label(words: &Words, row: &Element, stop: &Stop) -> Result<(), JsValue> {
    let first = stop.caption.lines().next().unwrap_or_default();
    let title = if first.is_empty() { words.say("tour.untitled") } else { first };
    write(&find(row, ".tour-title")?, title);
    let time = match (stop.seconds, stop.plays) {
        (Some(seconds), _) => figures::duration(words, seconds.get().into()),
        (None, true) => words.say("tour.row.plays").to_owned(),
        (None, false) => String::new(),
    };
    write(&find(row, ".tour-time")?, &time);
    Ok(())
}

/// A part of a row.
fn find(row: &Element, selector: &str) -> Result<Element, JsValue> {
    row.query_selector(selector)?.ok_or_else(|| JsValue::from_str(selector))
}
