//! The sheets that prepare a day: their dialog, brought in line with what was asked.

use wasm_bindgen::JsValue;
use web_sys::{Element, HtmlElement, HtmlInputElement};

use chrono::Datelike;

use super::dialog::Dialog;
use crate::page::prepare::sheet::{Sheet, Table};
use crate::page::prepare::{Leaf, Prepare, csv};
use crate::page::state::Shown;
use crate::page::workings::Workings;
use crate::web::find::{all, by_id, piece, row, window};
use crate::web::marks::{Text, set_attribute, set_hidden, set_pressed};
use crate::web::save;
use crate::words::Words;

/// The elements of the dialog.
#[derive(Debug)]
pub(super) struct PrepareView {
    pub(super) dialog: Dialog,
    leaves: Vec<Element>,
    card_part: HtmlElement,
    year_parts: [HtmlElement; 2],
    title: Text,
    place: Text,
    tables: HtmlElement,
    notes: Text,
    read: HtmlInputElement,
    read_text: Text,
    written: Sheet,
}

impl PrepareView {
    /// Finds the elements.
    pub(super) fn new() -> Result<Self, JsValue> {
        Ok(Self {
            dialog: Dialog::new("prepare-dialog")?,
            leaves: all("[data-leaf]")?,
            card_part: by_id("card-part")?,
            year_parts: [by_id("year-part")?, by_id("year-tools")?],
            title: Text::new("sheet-title")?,
            place: Text::new("sheet-place")?,
            tables: by_id("sheet-tables")?,
            notes: Text::new("sheet-notes")?,
            read: by_id("year-read")?,
            read_text: Text::new("year-read-text")?,
            written: Sheet::default(),
        })
    }

    /// Prints what the dialog shows.
    pub(super) fn print() {
        if let Ok(window) = window() {
            // A browser that can't print has said so itself.
            drop(window.print());
        }
    }

    /// Shows the sheet on top.
    pub(super) fn show(
        &mut self,
        words: &Words,
        prepare: &mut Prepare,
        shown: &Shown,
        workings: &Workings,
    ) -> Result<(), JsValue> {
        set_attribute(self.dialog.element(), "data-sheet", prepare.leaf.key());
        for button in &self.leaves {
            let key = button.get_attribute("data-leaf");
            set_pressed(button, key.as_deref() == Some(prepare.leaf.key()));
        }
        set_hidden(&self.card_part, prepare.leaf != Leaf::Card);
        self.year_parts.iter().for_each(|part| set_hidden(part, prepare.leaf != Leaf::Year));
        if prepare.leaf == Leaf::Year {
            self.show_read(words, prepare, workings);
        }
        let sheet = prepare.sheet(words, shown, workings);
        if sheet == self.written {
            return Ok(());
        }
        self.title.set(&sheet.title);
        self.place.set(&sheet.place);
        self.notes.set(&sheet.notes.join("\n"));
        if sheet.tables != self.written.tables {
            self.tables.set_text_content(None);
            for table in &sheet.tables {
                self.tables.append_child(&*written(words, table)?)?;
            }
        }
        self.written = sheet;
        Ok(())
    }

    /// The day of the year that is read.
    fn show_read(&mut self, words: &Words, prepare: &Prepare, workings: &Workings) {
        let days = prepare.table().map_or(365, |table| table.days.len());
        set_attribute(&self.read, "max", &days.to_string());
        let ordinal = prepare.date(workings).ordinal().to_string();
        if self.read.value() != ordinal {
            self.read.set_value(&ordinal);
        }
        let text = prepare.reading(words, workings);
        set_attribute(&self.read, "aria-valuetext", &text);
        self.read_text.set(&text);
    }

    /// Hands the year to the reader as a file.
    pub(super) fn save_csv(&self, prepare: &Prepare, workings: &Workings) -> Result<(), JsValue> {
        let Some(table) = prepare.table() else { return Ok(()) };
        let text = csv::write(workings.instrument(), table);
        let name = format!("noonwedge {} {}.csv", workings.instrument().spec().name, table.year);
        save::text(&text, "text/csv", &name)
    }
}

/// A table of the sheet as an element, its note below it.
fn written(words: &Words, table: &Table) -> Result<Element, JsValue> {
    let section = piece("section", "")?;
    let element = piece("table", "")?;
    if !table.caption.is_empty() {
        element.append_child(&*piece("caption", &table.caption)?)?;
    }
    if !table.head.is_empty() {
        let head = piece("thead", "")?;
        head.append_child(&*row(&table.head, "col")?)?;
        element.append_child(&head)?;
    }
    let body = piece("tbody", "")?;
    for cells in &table.rows {
        let cells: Vec<_> = cells.iter().map(|cell| words.figure(cell).into_owned()).collect();
        body.append_child(&*row(&cells, "row")?)?;
    }
    element.append_child(&body)?;
    section.append_child(&element)?;
    if !table.note.is_empty() {
        section.append_child(&*piece("p", &table.note)?)?;
    }
    Ok(section)
}
