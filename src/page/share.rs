//! A link as a picture that a phone's camera reads (QR code, ISO/IEC 18004).

use glam::DVec2;
use qrcodegen::{QrCode, QrCodeEcc};

use crate::scene::drawing::{Colour, Drawing, rectangle};

/// Light border that readers need, in modules.
const QUIET: i32 = 4;
const DARK: Colour = Colour::hex(0x00_0000);
const LIGHT: Colour = Colour::hex(0xff_ffff);

/// The code of a link; `None` when the link is too long for one.
///
/// With the least redundancy: codes on a screen or on fresh paper are clean, and small modules are what
/// keeps a camera from reading.
#[must_use]
pub fn code(link: &str) -> Option<QrCode> {
    QrCode::encode_text(link, QrCodeEcc::Low).ok()
}

/// Adds a code to a drawing, as large as whole pixels allow; black on white in every theme, since
/// readers want it so.
pub fn draw(drawing: &mut Drawing, code: &QrCode) {
    let size = drawing.size();
    drawing.fill(rectangle(DVec2::ZERO, size), LIGHT);
    let modules = f64::from(code.size() + 2 * QUIET);
    let module = (size.min_element() / modules).floor().max(1.0);
    let origin = ((size - module * modules) / 2.0).floor() + module * f64::from(QUIET);
    for y in 0..code.size() {
        // Dark modules side by side make one piece.
        let mut from = 0;
        for x in 0..=code.size() {
            if x < code.size() && code.get_module(x, y) {
                continue;
            }
            if from < x {
                let corner = origin + module * DVec2::new(f64::from(from), f64::from(y));
                let size = module * DVec2::new(f64::from(x - from), 1.0);
                drawing.fill(rectangle(corner, corner + size), DARK);
            }
            from = x + 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::drawing::Mark;

    #[test]
    fn a_link_has_a_code_unless_it_is_too_long() {
        assert!(code("https://example.org/#i=great&t=2026-06-21T08:00:00Z").is_some());
        // The most that a code holds at the least redundancy: 2953 bytes (ISO/IEC 18004, table 7).
        assert!(code(&"x".repeat(2953)).is_some());
        assert!(code(&"x".repeat(2954)).is_none());
    }

    /// Read again by another library, from the drawing.
    #[test]
    #[cfg(not(target_arch = "wasm32"))]
    fn a_reader_reads_the_link() {
        let link = "https://example.org/dial/#i=great&t=2026-06-21T08:00:00Z&show=axis,paths";
        let Some(code) = code(link) else { panic!("a short link") };
        let mut drawing = Drawing::new(DVec2::new(300.0, 300.0));
        draw(&mut drawing, &code);
        let dark = |x: usize, y: usize| {
            let at = DVec2::new(x as f64 + 0.5, y as f64 + 0.5);
            drawing.marks().iter().skip(1).any(|mark| match mark {
                Mark::Fill { contours, .. } => drawing
                    .contours(contours)
                    .any(|corners| at.cmpge(corners[0]).all() && at.cmple(corners[2]).all()),
                _ => false,
            })
        };
        let mut image =
            rqrr::PreparedImage::prepare_from_greyscale(
                300,
                300,
                |x, y| {
                    if dark(x, y) { 0 } else { 255 }
                },
            );
        let grids = image.detect_grids();
        let read = grids.first().and_then(|grid| grid.decode().ok()).map(|(_, text)| text);
        assert_eq!(read.as_deref(), Some(link));
    }

    #[test]
    fn every_dark_module_is_drawn_once() {
        let Some(code) = code("https://example.org/") else { panic!("a short link") };
        let mut drawing = Drawing::new(DVec2::new(400.0, 400.0));
        draw(&mut drawing, &code);
        let side = f64::from(code.size() + 2 * QUIET);
        let module = (400.0 / side).floor();
        let covered: f64 = drawing
            .marks()
            .iter()
            .skip(1)
            .filter_map(|mark| match mark {
                Mark::Fill { contours, .. } => Some(contours.clone()),
                _ => None,
            })
            .flat_map(|contours| drawing.contours(&contours).map(area).collect::<Vec<_>>())
            .sum();
        let dark = (0..code.size())
            .flat_map(|y| (0..code.size()).map(move |x| (x, y)))
            .filter(|&(x, y)| code.get_module(x, y))
            .count();
        assert_eq!(covered, dark as f64 * module * module);
    }

    /// Area of an upright rectangle.
    fn area(corners: &[DVec2]) -> f64 {
        let size = corners[2] - corners[0];
        (size.x * size.y).abs()
    }
}
