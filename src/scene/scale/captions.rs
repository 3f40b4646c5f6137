//! What the two scales say at the rod, in words.

use glam::DVec2;

use super::Scale;
use crate::core::instrument::AxialEnd;
use crate::core::order::order_short;
use crate::core::pointer::{Criterion, scale_at};
use crate::scene::drawing::Anchor;
use crate::scene::lettering::{figure, label};
use crate::words::figures::{length, signed_degrees};

impl Scale<'_> {
    /// The reading on each scale at the foot, south at the left as on the stone; the one whose
    /// edge the shadow is on stands out. Without a shadow, why.
    pub(super) fn draw_captions(&mut self) {
        if self.patch.is_none() {
            let words = self.view.words;
            let texts = [words.say("scale.no-shadow"), words.say("scale.no-shadow-short")];
            let _ = texts.into_iter().any(|text| self.caption(text, Anchor::Middle, false));
            return;
        }
        // What is read comes first, so that it has the room it needs.
        let mut edges = AxialEnd::BOTH;
        order_short(&mut edges, |&a, &b| self.is_on_edge(a) && !self.is_on_edge(b));
        for edge in edges {
            let anchor = if edge == AxialEnd::North { Anchor::End } else { Anchor::Start };
            let reads = self.is_on_edge(edge);
            let texts = self.caption_texts(edge);
            let _ = texts.into_iter().any(|text| self.caption(&text, anchor, reads));
        }
    }

    /// One caption on the lowest line; tells whether there was room for it.
    fn caption(&mut self, text: &str, anchor: Anchor, reads: bool) -> bool {
        let palette = self.view.palette;
        let x = match anchor {
            Anchor::Start => 2.0,
            Anchor::Middle => self.view.size.x / 2.0,
            Anchor::End => self.view.size.x - 2.0,
        };
        let style = if reads {
            figure(1.3 * self.view.label_px, palette.accent, anchor)
        } else {
            label(self.view.label_px, palette.ink_2, anchor)
        };
        self.letters.set(self.drawing, DVec2::new(x, self.layout.captions_y), text, style)
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
                words.fill(&format!("scale.{name}-reads"), &values),
                words.fill("scale.reads-bare", &values),
            ];
        }
        let Some(place) = self.place_for(edge, Criterion::Middle) else {
            return vec![
                words.say(&format!("scale.{name}-out-of-reach")).to_owned(),
                words.say("scale.no-style").to_owned(),
            ];
        };
        let away = length(words, (place - self.view.pointer.axial_m()).abs());
        let values = [("away", away.as_str())];
        vec![
            words.fill(&format!("scale.{name}-away"), &values),
            words.fill("scale.away-bare", &values),
        ]
    }
}
