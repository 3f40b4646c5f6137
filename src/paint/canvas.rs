//! A drawing list onto a canvas of the browser.

use js_sys::Array;
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;
use web_sys::CanvasRenderingContext2d;

use super::families;
use super::packed::{Packed, TYPEFACES};
use crate::scene::drawing::Drawing;

#[wasm_bindgen(module = "/src/paint/canvas.js")]
extern "C" {
    #[wasm_bindgen(js_name = paint)]
    fn carry_out(
        context: &CanvasRenderingContext2d,
        width: f64,
        height: f64,
        numbers: &[f64],
        text: &str,
        families: &Array,
    );
}

/// Paints drawings; it keeps what it needs for the next one.
#[derive(Debug)]
pub struct Painter {
    packed: Packed,
    families: Array,
}

impl Default for Painter {
    fn default() -> Self {
        Self { packed: Packed::default(), families: css_families() }
    }
}

/// The typefaces' families, in the order of their numbers.
pub(super) fn css_families() -> Array {
    TYPEFACES.map(|it| JsValue::from_str(families(it))).into_iter().collect()
}

impl Painter {
    /// Paints a picture over whatever was there, in CSS pixels: the context's transform already
    /// carries the ratio of device to CSS pixels.
    pub fn paint(&mut self, context: &CanvasRenderingContext2d, drawing: &Drawing) {
        self.packed.pack(drawing);
        let size = drawing.size();
        let (numbers, text) = (self.packed.numbers(), self.packed.text());
        carry_out(context, size.x, size.y, numbers, text, &self.families);
    }
}
