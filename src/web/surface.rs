//! A canvas with its drawing list, kept at the size and sharpness of the screen.

use glam::DVec2;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use super::find::by_id;
use crate::paint::canvas::Painter;
use crate::scene::drawing::Drawing;

/// Most pixels behind one canvas: beyond this, sharpness can't be told and painting is slow.
const MOST_PIXELS: f64 = 2_600_000.0;

/// Size of a canvas on the page and on the screen.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Size {
    /// CSS pixels.
    pub(super) css: DVec2,
    /// Pixels of the screen.
    pub(super) device: DVec2,
}

/// A canvas.
#[derive(Debug)]
pub(super) struct Surface {
    canvas: HtmlCanvasElement,
    context: CanvasRenderingContext2d,
    painter: Painter,
    /// What stands on the canvas.
    painted: Drawing,
    /// Where the next picture is drawn.
    drawing: Drawing,
    size: Size,
}

impl Surface {
    /// The canvas with this id.
    pub(super) fn new(id: &str) -> Result<Self, JsValue> {
        let canvas: HtmlCanvasElement = by_id(id)?;
        let context = canvas.get_context("2d")?.and_then(|context| context.dyn_into().ok());
        let context = context.ok_or_else(|| JsValue::from_str("no canvas drawing here"))?;
        Ok(Self {
            canvas,
            context,
            painter: Painter::default(),
            painted: Drawing::default(),
            drawing: Drawing::default(),
            size: Size::default(),
        })
    }

    /// Width and height, CSS pixels.
    pub(super) fn css_size(&self) -> DVec2 {
        self.size.css
    }

    /// Takes another size; what was painted is gone.
    pub(super) fn resize(&mut self, size: Size) {
        let pixels = size.device.x * size.device.y;
        let shrink = (MOST_PIXELS / pixels).sqrt().min(1.0);
        let device = (size.device * shrink).round().max(DVec2::ONE);
        self.size = Size { css: size.css, device };
        // Sizes of a screen are far below the range of u32.
        self.canvas.set_width(device.x as u32);
        self.canvas.set_height(device.y as u32);
        self.painted.restart(DVec2::ZERO);
    }

    /// Draws, and paints if that is another picture than the one on the canvas; nothing happens
    /// while the canvas has no size (it is hidden).
    pub(super) fn paint(&mut self, draw: impl FnOnce(&mut Drawing, DVec2)) {
        let Size { css, device } = self.size;
        if css.x < 1.0 || css.y < 1.0 {
            return;
        }
        self.drawing.restart(css);
        draw(&mut self.drawing, css);
        if self.drawing == self.painted {
            return;
        }
        let ratio = device / css;
        // Finite numbers are never refused.
        let _: Result<(), JsValue> =
            self.context.set_transform(ratio.x, 0.0, 0.0, ratio.y, 0.0, 0.0);
        self.painter.paint(&self.context, &self.drawing);
        std::mem::swap(&mut self.drawing, &mut self.painted);
    }
}
