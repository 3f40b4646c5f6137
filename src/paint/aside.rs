//! A drawing list onto a canvas of the browser, painted by a thread of its own.

use glam::DVec2;
use wasm_bindgen::prelude::wasm_bindgen;
use web_sys::HtmlCanvasElement;

use super::canvas::css_families;
use super::packed::Packed;
use crate::scene::drawing::Drawing;

#[wasm_bindgen(module = "/src/paint/aside.js")]
extern "C" {
    #[derive(Debug)]
    #[wasm_bindgen(js_name = Aside)]
    type Thread;
    #[wasm_bindgen(constructor, js_class = "Aside")]
    fn new(canvas: &HtmlCanvasElement, families: &js_sys::Array) -> Thread;
    #[wasm_bindgen(method)]
    fn works(this: &Thread) -> bool;
    #[wasm_bindgen(method)]
    fn paint(
        this: &Thread,
        width: f64,
        height: f64,
        across: f64,
        down: f64,
        numbers: &[f64],
        text: &str,
    );
    #[wasm_bindgen(method)]
    fn clear(this: &Thread);
}

/// A canvas that belongs to a thread of its own.
#[derive(Debug)]
pub struct Aside {
    thread: Thread,
    packed: Packed,
}

impl Aside {
    /// Gives a canvas to a new thread, for good.
    #[must_use]
    pub fn new(canvas: &HtmlCanvasElement) -> Self {
        Self { thread: Thread::new(canvas, &css_families()), packed: Packed::default() }
    }

    /// Whether the thread is there: not in old browsers, and not yet when the page has just begun.
    #[must_use]
    pub fn works(&self) -> bool {
        self.thread.works()
    }

    /// Has a picture painted over whatever was there, with so many pixels. One that comes before
    /// the one before it is painted takes its place.
    pub fn paint(&mut self, drawing: &Drawing, pixels: DVec2) {
        self.packed.pack(drawing);
        let size = drawing.size();
        let (numbers, text) = (self.packed.numbers(), self.packed.text());
        self.thread.paint(size.x, size.y, pixels.x, pixels.y, numbers, text);
    }

    /// Has the canvas emptied as soon as what lies under it has come to be seen.
    pub fn clear(&self) {
        self.thread.clear();
    }
}
