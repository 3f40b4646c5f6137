//! How deep the rod's shadow is across its breadth, as a curve under the quadrant.

use glam::DVec2;

use super::Scale;
use super::patch::Patch;
use crate::scene::drawing::{Anchor, Stroke, TextStyle};
use crate::scene::lettering::label;

/// Peak below which a shadow is shallow.
const SHALLOW: f64 = 0.4;

impl Scale<'_> {
    /// The share of the Sun that the rod hides, south to north, what of it the eye sees, and its
    /// peak; `carried_m` brings the quadrant under the rod.
    pub(super) fn draw_profile(&mut self, patch: &Patch<'_>, carried_m: f64) {
        let Some((top, bottom)) = self.layout.profile else { return };
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let close = self.close;
        let px = |place_m: f64| close.px(place_m + carried_m);
        let y = |cover: f64| bottom - cover * (bottom - top);
        let curve = |(from, to): (f64, f64)| {
            let places = patch.places_m().into_iter().filter(move |at| (from..=to).contains(at));
            let places = std::iter::once(from).chain(places).chain([to]);
            places.map(|at| DVec2::new(px(at), y(patch.cover_at(at)))).collect::<Vec<_>>()
        };
        let across = |y: f64| [DVec2::new(0.0, y), DVec2::new(self.view.size.x, y)];
        self.drawing.line(across(bottom), Stroke::solid(palette.rule, unit));
        self.drawing.line(across(top), Stroke::solid(palette.hair, unit));
        if let Some(seen) = patch.seen_m(self.view.least_cover) {
            let ends = [DVec2::new(px(seen.1), bottom), DVec2::new(px(seen.0), bottom)];
            let visible: Vec<_> = curve(seen).into_iter().chain(ends).collect();
            self.drawing.fill(visible, palette.umbra);
            let traces = [seen.0, seen.1].map(|at| {
                let x = px(at);
                [DVec2::new(x, y(patch.cover_at(at))), DVec2::new(x, bottom + 3.0 * unit)]
            });
            self.drawing.lines(traces, Stroke::solid(palette.accent, 1.6 * unit));
        }
        self.drawing.line(curve(patch.limits_m), Stroke::solid(palette.ink, 2.0 * unit));
        self.name_peak(patch, (px(patch.middle_m), y(patch.peak_cover)));
        self.draw_threshold(patch, y(self.view.least_cover.clamp(0.0, 1.0)));
    }

    /// The largest share, beside the peak.
    fn name_peak(&mut self, patch: &Patch<'_>, (px, y): (f64, f64)) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let share = format!("{:.0}", patch.peak_cover * 100.0);
        let words = self.view.words;
        let texts =
            ["scale.peak", "scale.peak-short"].map(|key| words.fill(key, &[("share", &share)]));
        // Half way down either side of the shadow.
        let breadth_m = |(south, north): (f64, f64)| north - south;
        let flat_m = patch.core_m.map_or(0.0, breadth_m);
        let aside = (breadth_m(patch.limits_m) + flat_m) / 4.0 * self.close.px_per_unit();
        let beside = [(aside + 8.0 * unit, Anchor::Start), (-aside - 8.0 * unit, Anchor::End)];
        // A shallow shadow leaves no room beside its peak; above it there is.
        let (places, base) = if patch.peak_cover < SHALLOW {
            (vec![(0.0, Anchor::Middle)], y - 5.0 * unit)
        } else {
            let highest = self.layout.close_quadrant.1 + 13.0 * unit;
            (beside.to_vec(), y.max(highest) + 0.6 * self.view.label_px)
        };
        for text in &texts {
            for &(off, anchor) in &places {
                let style = label(self.view.label_px, palette.ink, anchor);
                if self.letters.set(self.drawing, DVec2::new(px + off, base), text, style) {
                    return;
                }
            }
        }
    }

    /// The share from which the eye is taken to see the shadow.
    fn draw_threshold(&mut self, patch: &Patch<'_>, y: f64) {
        let palette = self.view.palette;
        let unit = self.layout.unit;
        let dash = Some((5.0 * unit, 4.0 * unit));
        let line = [DVec2::new(0.0, y), DVec2::new(self.view.size.x, y)];
        self.drawing.line(line, Stroke { dash, ..Stroke::solid(palette.accent, 1.3 * unit) });
        let share = format!("{:.0}", self.view.least_cover * 100.0);
        let words = self.view.words;
        let form = if patch.peak_cover <= self.view.least_cover { "unseen" } else { "seen" };
        let texts = [format!("scale.{form}"), format!("scale.{form}-short")]
            .map(|key| words.fill(&key, &[("share", &share)]));
        let halo = Some((palette.paper, 3.0 * unit));
        let at = DVec2::new(self.view.size.x - 2.0 * unit, y - 4.0 * unit);
        let style = TextStyle { halo, ..label(self.view.label_px, palette.accent, Anchor::End) };
        let _ = texts.iter().any(|text| self.letters.set(self.drawing, at, text, style));
    }
}
