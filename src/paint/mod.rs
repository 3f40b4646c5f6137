//! Painters: a drawing list onto a canvas, or into SVG text. They decide nothing.

#[cfg(target_arch = "wasm32")]
pub mod aside;
#[cfg(target_arch = "wasm32")]
pub mod canvas;
pub mod packed;
pub mod svg;

use crate::scene::drawing::{Anchor, Typeface};

/// The font families of a typeface, best first, as CSS. Single quotes, to stand in attributes.
fn families(typeface: Typeface) -> &'static str {
    match typeface {
        Typeface::Sans => "system-ui,'Segoe UI',Roboto,'Noto Sans',sans-serif",
        Typeface::Serif => {
            "'Iowan Old Style','Palatino Linotype',Palatino,'Noto Serif',Georgia,serif"
        }
    }
}

/// The word for an anchor in SVG (`text-anchor`).
fn anchor_word(anchor: Anchor) -> &'static str {
    match anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    }
}
