//! The instruments side by side: their dialog.

use wasm_bindgen::JsValue;
use web_sys::HtmlElement;

use super::dialog::Dialog;
use crate::page::sizes_table::{self, Row};
use crate::page::state::Shown;
use crate::page::workings::Workings;
use crate::scene::sizes;
use crate::web::find::{by_id, row};
use crate::web::marks::Text;
use crate::web::page_type::label_px;
use crate::web::surface::{Size, Surface};
use crate::words::Words;

/// The elements of the dialog.
#[derive(Debug)]
pub(super) struct SizesView {
    pub(super) dialog: Dialog,
    picture: Surface,
    caption: Text,
    body: HtmlElement,
    written: Vec<Row>,
}

impl SizesView {
    /// Finds the elements.
    pub(super) fn new() -> Result<Self, JsValue> {
        Ok(Self {
            dialog: Dialog::new("sizes-dialog")?,
            picture: Surface::new("sizes-picture")?,
            caption: Text::new("sizes-caption")?,
            body: by_id("sizes-rows")?,
            written: Vec::new(),
        })
    }

    /// Takes another size of the picture.
    pub(super) fn resize(&mut self, size: Size) {
        self.picture.resize(size);
    }

    /// Shows the instruments under the Sun of the moment.
    pub(super) fn show(
        &mut self,
        words: &Words,
        shown: &Shown,
        workings: &Workings,
    ) -> Result<(), JsValue> {
        self.picture.paint(|drawing, size| {
            let (palette, limb) = (shown.theme.palette(), shown.limb);
            let view = sizes::SizesView { size, palette, words, label_px: label_px(), limb };
            sizes::draw(drawing, &sizes_table::resolutions(words, workings), &view);
        });
        self.caption.set(&sizes_table::caption(words, workings));
        let rows = sizes_table::rows(words, workings);
        if rows != self.written {
            self.body.set_text_content(None);
            for Row { name, cells } in &rows {
                let cells: Vec<String> = std::iter::once(name).chain(cells).cloned().collect();
                self.body.append_child(&*row(&cells, "row")?)?;
            }
            self.written = rows;
        }
        Ok(())
    }
}
