//! Pictures handed to the reader as files.

use glam::DVec2;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{HtmlCanvasElement, HtmlElement};

use super::find::{by_id, document};
use super::surface::drawing_on;
use crate::paint::canvas::Painter;
use crate::paint::svg;
use crate::scene::drawing::Drawing;

/// Most pixels of a picture: what every browser gives a canvas.
const MOST_PIXELS: f64 = 16_000_000.0;

/// How a picture is written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Format {
    /// As lines and letters, sharp at any size.
    Svg,
    /// As pixels, so many to a CSS pixel either way.
    Png(f64),
}

/// Hands a picture over under a name without its ending.
pub(super) fn save(drawing: &Drawing, format: Format, name: &str) -> Result<(), JsValue> {
    match format {
        Format::Svg => text(&svg::write(drawing), "image/svg+xml", &format!("{name}.svg")),
        Format::Png(scale) => hand_over(&pixels(drawing, scale)?, &format!("{name}.png")),
    }
}

/// Hands a text over as a file of a kind.
pub(super) fn text(text: &str, kind: &str, name: &str) -> Result<(), JsValue> {
    hand_over(&address(text, kind), name)
}

/// A text as the address of a file of a kind.
pub(super) fn address(text: &str, kind: &str) -> String {
    format!("data:{kind};charset=utf-8,{}", js_sys::encode_uri_component(text))
}

/// The picture on a canvas of its own, as an address.
fn pixels(drawing: &Drawing, scale: f64) -> Result<String, JsValue> {
    let canvas: HtmlCanvasElement = document()?.create_element("canvas")?.unchecked_into();
    let size = drawing.size();
    let device = (size * scale.min((MOST_PIXELS / (size.x * size.y)).sqrt())).floor();
    let device = device.max(DVec2::ONE);
    // Below the most pixels, and so far below the range of u32.
    canvas.set_width(device.x as u32);
    canvas.set_height(device.y as u32);
    let context = drawing_on(&canvas)?;
    let ratio = device / size;
    context.set_transform(ratio.x, 0.0, 0.0, ratio.y, 0.0, 0.0)?;
    Painter::default().paint(&context, drawing);
    canvas.to_data_url()
}

/// Offers an address as a file.
fn hand_over(address: &str, name: &str) -> Result<(), JsValue> {
    let link: HtmlElement = by_id("save-link")?;
    link.set_attribute("href", address)?;
    link.set_attribute("download", name)?;
    link.click();
    link.remove_attribute("href")
}
