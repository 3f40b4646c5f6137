//! A drawing list onto a canvas of the browser.

use std::ops::Range;

use js_sys::Array;
use wasm_bindgen::JsValue;
use web_sys::CanvasRenderingContext2d;

use super::{anchor_word, families};
use crate::scene::drawing::{Anchor, Colour, Drawing, Mark, Stroke, TextStyle, Typeface};

/// Paints a picture over whatever was there, in CSS pixels: the context's transform already
/// carries the ratio of device to CSS pixels.
pub fn paint(context: &CanvasRenderingContext2d, drawing: &Drawing) {
    let size = drawing.size();
    context.clear_rect(0.0, 0.0, size.x, size.y);
    context.set_line_join("round");
    context.set_line_cap("butt");
    context.set_text_baseline("alphabetic");
    let mut painter = Painter { context, drawing, pen: Pen::default(), saved: Vec::new() };
    for mark in drawing.marks() {
        painter.mark(mark);
    }
}

/// What the context is known to be set to. A value is sent only when it changes: calls out of
/// WebAssembly, and colours as text above all, cost more than the painting itself.
#[derive(Clone, Copy, Debug, Default)]
struct Pen {
    fill: Option<Colour>,
    stroke: Option<Colour>,
    width: Option<f64>,
    dash: Option<Option<(f64, f64)>>,
    font: Option<(Typeface, f64)>,
    anchor: Option<Anchor>,
}

/// The work in hand.
#[derive(Debug)]
struct Painter<'a> {
    context: &'a CanvasRenderingContext2d,
    drawing: &'a Drawing,
    pen: Pen,
    /// The pen outside each open clip, which returns when the clip ends.
    saved: Vec<Pen>,
}

impl Painter<'_> {
    /// Paints one mark. Results of the context are dropped where they tell of numbers that are
    /// not finite or colours that are not colours: a drawing holds neither.
    fn mark(&mut self, mark: &Mark) {
        match mark {
            Mark::Fill { contours, colour } => {
                self.trace(contours, true);
                self.set_fill(*colour);
                self.context.fill();
            }
            Mark::Gradient { contours, from, to, stops } => {
                let gradient = self.context.create_linear_gradient(from.x, from.y, to.x, to.y);
                for (offset, colour) in self.drawing.stops(stops) {
                    let _ = gradient.add_color_stop(*offset as f32, &css(*colour));
                }
                self.trace(contours, true);
                self.context.set_fill_style_canvas_gradient(&gradient);
                self.pen.fill = None;
                self.context.fill();
            }
            Mark::Line { contours, closed, stroke } => {
                self.trace(contours, *closed);
                self.set_stroke(stroke);
                self.context.stroke();
            }
            Mark::Text { at, text, style } => {
                let text = self.drawing.text_of(text);
                self.set_type(style);
                if let Some((colour, width)) = style.halo {
                    self.set_stroke(&Stroke::solid(colour, width));
                    let _ = self.context.stroke_text(text, at.x, at.y);
                }
                self.set_fill(style.colour);
                let _ = self.context.fill_text(text, at.x, at.y);
            }
            Mark::Clip { contours } => {
                self.context.save();
                self.saved.push(self.pen);
                self.trace(contours, true);
                self.context.clip();
            }
            Mark::Unclip => {
                self.context.restore();
                self.pen = self.saved.pop().unwrap_or_default();
            }
        }
    }

    /// Makes contours the current path.
    fn trace(&self, contours: &Range<usize>, closed: bool) {
        self.context.begin_path();
        for contour in self.drawing.contours(contours) {
            let Some((first, rest)) = contour.split_first() else { continue };
            self.context.move_to(first.x, first.y);
            for point in rest {
                self.context.line_to(point.x, point.y);
            }
            if closed {
                self.context.close_path();
            }
        }
    }

    fn set_fill(&mut self, colour: Colour) {
        if self.pen.fill.replace(colour) != Some(colour) {
            self.context.set_fill_style_str(&css(colour));
        }
    }

    fn set_stroke(&mut self, stroke: &Stroke) {
        if self.pen.stroke.replace(stroke.colour) != Some(stroke.colour) {
            self.context.set_stroke_style_str(&css(stroke.colour));
        }
        if self.pen.width.replace(stroke.width) != Some(stroke.width) {
            self.context.set_line_width(stroke.width);
        }
        if self.pen.dash.replace(stroke.dash) != Some(stroke.dash) {
            let dash = stroke.dash.map_or_else(Array::new, |(dash, gap)| {
                Array::of2(&JsValue::from_f64(dash), &JsValue::from_f64(gap))
            });
            let _ = self.context.set_line_dash(&dash);
        }
    }

    fn set_type(&mut self, style: &TextStyle) {
        let font = (style.typeface, style.size);
        if self.pen.font.replace(font) != Some(font) {
            self.context.set_font(&format!("{}px {}", style.size, families(style.typeface)));
        }
        if self.pen.anchor.replace(style.anchor) != Some(style.anchor) {
            self.context.set_text_align(match style.anchor {
                Anchor::Middle => "center",
                Anchor::Start | Anchor::End => anchor_word(style.anchor),
            });
        }
    }
}

/// A colour as CSS text.
fn css(colour: Colour) -> String {
    let [red, green, blue] = colour.rgb;
    format!("#{red:02x}{green:02x}{blue:02x}{:02x}", colour.alpha)
}
