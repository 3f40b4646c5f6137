//! A canvas with its drawing list, kept at the size and sharpness of the screen.

use glam::DVec2;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use super::find::by_id;
use crate::paint::canvas::Painter;
use crate::scene::drawing::Drawing;
use crate::scene::extent::Extent;

/// Most pixels behind one canvas: beyond this, sharpness can't be told and painting is slow.
const MOST_PIXELS: f64 = 2_600_000.0;
/// Room about what a fitted canvas has to show, so that it is seldom fitted anew, CSS pixels.
const ROOM_PX: f64 = 12.0;
/// A fitted canvas may be this many times larger than needed before it is fitted anew.
const LOOSE: f64 = 2.0;

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
    /// Size of the whole picture.
    size: Size,
    /// Pixels of a canvas that is as large as the picture.
    pixels: DVec2,
    fit: Fit,
}

/// How a canvas lies in its picture. Browsers that paint in software copy every canvas of a page
/// whenever one of them changes: the smaller, the better.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Fit {
    /// It is as large as the picture.
    Whole,
    /// It covers what is drawn: this part of the picture, if anything is.
    Drawn(Option<Extent>),
}

impl Surface {
    /// The canvas with this id.
    pub(super) fn new(id: &str) -> Result<Self, JsValue> {
        let canvas: HtmlCanvasElement = by_id(id)?;
        let context = drawing_on(&canvas)?;
        Ok(Self {
            canvas,
            context,
            painter: Painter::default(),
            painted: Drawing::default(),
            drawing: Drawing::default(),
            size: Size::default(),
            pixels: DVec2::ZERO,
            fit: Fit::Whole,
        })
    }

    /// The same canvas, placed so that it just covers what is drawn on it.
    pub(super) fn fitted(self) -> Self {
        Self { fit: Fit::Drawn(None), ..self }
    }

    /// Width and height of the picture, CSS pixels.
    pub(super) fn css_size(&self) -> DVec2 {
        self.size.css
    }

    /// Takes another size of the picture; what was painted is gone.
    pub(super) fn resize(&mut self, size: Size) {
        let pixels = size.device.x * size.device.y;
        let shrink = (MOST_PIXELS / pixels).sqrt().min(1.0);
        let device = (size.device * shrink).round().max(DVec2::ONE);
        self.size = Size { css: size.css, device };
        self.painted.restart(DVec2::ZERO);
        match &mut self.fit {
            Fit::Whole => self.pixels = DVec2::ZERO,
            Fit::Drawn(part) => *part = None,
        }
    }

    /// Draws, and paints if that is another picture than the one on the canvas; nothing happens
    /// while the canvas has no size (it is hidden).
    pub(super) fn paint(&mut self, draw: impl FnOnce(&mut Drawing, DVec2)) {
        let css = self.size.css;
        if css.x < 1.0 || css.y < 1.0 {
            return;
        }
        self.drawing.restart(css);
        draw(&mut self.drawing, css);
        let device = self.size.device;
        let refit = self.fit == Fit::Whole && device != self.pixels;
        if self.drawing == self.painted && !refit {
            return;
        }
        if refit {
            self.pixels = device;
            self.set_pixels(device);
        }
        let ratio = device / css;
        let origin = self.place(ratio) * ratio;
        // Finite numbers are never refused.
        let _: Result<(), JsValue> =
            self.context.set_transform(ratio.x, 0.0, 0.0, ratio.y, -origin.x, -origin.y);
        self.painter.paint(&self.context, &self.drawing);
        std::mem::swap(&mut self.drawing, &mut self.painted);
    }

    /// Fits the canvas to the drawing, if it is to be fitted; tells where in the picture its own
    /// origin lies, CSS pixels.
    fn place(&mut self, ratio: DVec2) -> DVec2 {
        let Fit::Drawn(part) = self.fit else { return DVec2::ZERO };
        let Some(needed) = Extent::of(&self.drawing) else {
            return part.map_or(DVec2::ZERO, |part| part.least);
        };
        if let Some(part) = part
            && part.holds(&needed)
            && part.area() < LOOSE * needed.area().max(ROOM_PX * ROOM_PX)
        {
            return part.least;
        }
        let picture = Extent { least: DVec2::ZERO, most: self.size.css };
        let room = Extent { least: needed.least - ROOM_PX, most: needed.most + ROOM_PX };
        let part = on_whole_pixels(&room.within(&picture), ratio);
        self.fit = Fit::Drawn(Some(part));
        self.set_pixels(((part.most - part.least) * ratio).round());
        let style = self.canvas.style();
        let size = part.most - part.least;
        let places =
            [("left", part.least.x), ("top", part.least.y), ("width", size.x), ("height", size.y)];
        for (name, px) in places {
            // These are names and values of CSS.
            let _: Result<(), JsValue> = style.set_property(name, &format!("{px}px"));
        }
        part.least
    }

    /// Gives the canvas so many pixels, which empties it.
    fn set_pixels(&self, device: DVec2) {
        // Sizes of a screen are far below the range of u32.
        self.canvas.set_width(device.x as u32);
        self.canvas.set_height(device.y as u32);
    }
}

/// What draws on a canvas.
pub(super) fn drawing_on(canvas: &HtmlCanvasElement) -> Result<CanvasRenderingContext2d, JsValue> {
    let context = canvas.get_context("2d")?.and_then(|context| context.dyn_into().ok());
    context.ok_or_else(|| JsValue::from_str("no canvas drawing here"))
}

/// The least rectangle round another whose corners lie between pixels of the screen.
fn on_whole_pixels(part: &Extent, ratio: DVec2) -> Extent {
    Extent { least: (part.least * ratio).floor() / ratio, most: (part.most * ratio).ceil() / ratio }
}
