//! A dialog of the desk, opened over the page.

use wasm_bindgen::JsValue;
use web_sys::HtmlDialogElement;

use crate::web::find::by_id;

/// A dialog.
#[derive(Debug)]
pub(super) struct Dialog(HtmlDialogElement);

impl Dialog {
    /// The dialog with this id.
    pub(super) fn new(id: &str) -> Result<Self, JsValue> {
        by_id(id).map(Self)
    }

    /// Its element.
    pub(super) fn element(&self) -> &HtmlDialogElement {
        &self.0
    }

    pub(super) fn is_open(&self) -> bool {
        self.0.open()
    }

    /// Opens it, if it is not open.
    pub(super) fn open(&self) {
        if !self.0.open() {
            // A dialog that is not open can be opened.
            drop(self.0.show_modal());
        }
    }

    pub(super) fn close(&self) {
        self.0.close();
    }
}
