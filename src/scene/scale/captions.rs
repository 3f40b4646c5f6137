//! What the two scales say at the rod, in words.

use glam::DVec2;

use super::Scale;
use crate::core::instrument::AxialEnd;
use crate::core::pointer::{Criterion, scale_at};
use crate::scene::drawing::{Anchor, TextStyle, Typeface};
use crate::scene::lettering::{figure, label, text_width};
use crate::words::figures::{length, signed_degrees};

impl Scale<'_> {
    /// The reading on each scale at the foot, south at the left as on the stone; the one whose
    /// edge the shadow is on stands out. Without a shadow, why.
    pub(super) fn draw_captions(&mut self) {
        if self.patch.is_none() {
            self.caption(self.view.words.say("scale.no_shadow").to_owned(), Anchor::Middle, false);
            return;
        }
        for edge in AxialEnd::BOTH {
            let anchor = if edge == AxialEnd::North { Anchor::End } else { Anchor::Start };
            let reads = self.is_on_edge(edge);
            let text = self.caption_texts(edge);
            let width = self.view.size.x / 2.0 - 1.2 * self.view.label_px;
            let size = self.caption_size(reads);
            let typeface = if reads { Typeface::Serif } else { Typeface::Sans };
            let fits = |text: &String| text_width(text, typeface, size) <= width;
            if let Some(text) = text.into_iter().find(fits) {
                self.caption(text, anchor, reads);
            }
        }
    }

    fn caption_size(&self, reads: bool) -> f64 {
        if reads { 1.3 * self.view.label_px } else { self.view.label_px }
    }

    /// One caption on the lowest line.
    fn caption(&mut self, text: String, anchor: Anchor, reads: bool) {
        let palette = self.view.palette;
        let x = match anchor {
            Anchor::Start => 2.0,
            Anchor::Middle => self.view.size.x / 2.0,
            Anchor::End => self.view.size.x - 2.0,
        };
        let size = self.caption_size(reads);
        let style: TextStyle = if reads {
            figure(size, palette.accent, anchor)
        } else {
            label(size, palette.ink_2, anchor)
        };
        self.letters.set(self.drawing, DVec2::new(x, self.layout.captions_y), &text, style);
    }

    /// What the scale of an edge says, longest first.
    fn caption_texts(&self, edge: AxialEnd) -> Vec<String> {
        let name = match edge {
            AxialEnd::North => "north",
            AxialEnd::South => "south",
        };
        let words = self.view.words;
        if self.is_on_edge(edge) {
            let place = self.view.pointer.axial_m();
            let angle = signed_degrees(scale_at(self.instrument, edge, place));
            let values = [("angle", angle.as_str())];
            return vec![
                words.fill(&format!("scale.{name}_reads"), &values),
                words.fill("scale.reads_bare", &values),
            ];
        }
        let Some(place) = self.place_for(edge, Criterion::Middle) else {
            return vec![
                words.say(&format!("scale.{name}_out_of_reach")).to_owned(),
                words.say("scale.no_style").to_owned(),
            ];
        };
        let away = length((place - self.view.pointer.axial_m()).abs());
        let values = [("away", away.as_str())];
        vec![
            words.fill(&format!("scale.{name}_away"), &values),
            words.fill("scale.away_bare", &values),
        ]
    }
}
