//! The size of the page's type, on which the labels of pictures go by.

use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

use super::find::{document, window};
use crate::core::decimal;

/// Smallest size of a label, CSS pixels.
const LEAST_LABEL_PX: f64 = 14.0;
/// Size of a label beside the page's type.
const LABEL_SHARE: f64 = 14.0 / 15.0;

/// Size of labels on pictures, CSS pixels.
pub(super) fn label_px() -> f64 {
    (size_px() * LABEL_SHARE).max(LEAST_LABEL_PX)
}

/// Size of the page's type, CSS pixels.
fn size_px() -> f64 {
    const USUAL_PX: f64 = 15.0;
    let read = || -> Option<f64> {
        let root: HtmlElement = document().ok()?.document_element()?.dyn_into().ok()?;
        let style = window().ok()?.get_computed_style(&root).ok()??;
        let size = style.get_property_value("font-size").ok()?;
        decimal::parse(size.strip_suffix("px")?)
    };
    read().unwrap_or(USUAL_PX)
}
