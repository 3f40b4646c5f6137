//! How far the reading strays over the day, as a curve over the track: by refraction, or because
//! the dial was carried elsewhere.

use glam::DVec2;

use super::Strip;
use crate::core::day::{Stretch, StretchKind};
use crate::scene::drawing::{Anchor, Stroke};
use crate::scene::lettering::label;
use crate::scene::texture::cased_line;
use crate::words::figures::duration;

/// Errors to which the curve's scale may run, seconds.
const FULL_SCALES_S: [f64; 18] = [
    2.0, 5.0, 10.0, 20.0, 30.0, 60.0, 90.0, 120.0, 150.0, 200.0, 300.0, 600.0, 1200.0, 2400.0,
    3600.0, 7200.0, 14_400.0, 28_800.0,
];
/// Error below which there is nothing to show, seconds.
const LEAST_S: f64 = 0.5;
/// Share of the track's half height that the full scale takes.
const FULL_SCALE_SHARE: f64 = 0.82;

impl Strip<'_> {
    /// The error of the reading: upwards, the dial shows too late a time.
    pub(super) fn draw_errors(&mut self) {
        let Some(full_s) = self.full_scale_s() else { return };
        let unit = self.view.unit();
        let palette = self.view.palette;
        let zero_y = self.error_y(0.0, full_s);
        let dash = Some((3.0 * unit, 3.0 * unit));
        let axis = Stroke { dash, ..Stroke::solid(palette.ink, unit) };
        let readable: Vec<Stretch> =
            self.day.stretches.iter().filter(|stretch| reads(stretch)).copied().collect();
        for stretch in readable {
            let at = |time_s: f64, y: f64| DVec2::new(self.axis.px(time_s), y);
            let line = [at(stretch.from_s, zero_y), at(stretch.to_s, zero_y)];
            let curve: Vec<DVec2> = self
                .times_in(&stretch)
                .into_iter()
                .map(|time_s| at(time_s, self.error_y(self.error_s(time_s), full_s)))
                .collect();
            self.drawing.line(line, axis);
            cased_line(self.drawing, &curve, Stroke::solid(palette.ink, 1.9 * unit), palette.lit);
        }
    }

    /// Names the curve over its outer end, with its largest error.
    pub(super) fn name_errors(&mut self) {
        if self.full_scale_s().is_none() {
            return;
        }
        let largest = duration(self.view.words, self.largest_error_s());
        let [first, last] = [StretchKind::West, StretchKind::East].map(|kind| self.longest(kind));
        let places =
            [first.map(|span| (span.0, Anchor::Start)), last.map(|span| (span.1, Anchor::End))];
        let keys = if self.carried {
            ["day.carried", "day.carried-short"]
        } else {
            ["day.refraction", "day.refraction-short"]
        };
        for key in keys {
            let text = self.view.words.fill(key, &[("error", &largest)]);
            for (time_s, anchor) in places.into_iter().flatten() {
                let at = DVec2::new(self.axis.px(time_s), self.names_y());
                let style = label(self.view.label_px, self.view.palette.ink_2, anchor);
                if self.letters.set(self.drawing, at, &text, style) {
                    return;
                }
            }
        }
    }

    /// Height of an error on the track.
    pub(super) fn error_y(&self, error_s: f64, full_s: f64) -> f64 {
        let middle = f64::midpoint(self.top, self.bottom);
        middle - error_s / full_s * FULL_SCALE_SHARE * (self.bottom - self.top) / 2.0
    }

    /// The end of the scale; `None` when the reading hardly strays.
    pub(super) fn full_scale_s(&self) -> Option<f64> {
        let largest_s = self.largest_error_s();
        let holds = |full_s: &f64| largest_s <= *full_s;
        (largest_s >= LEAST_S).then(|| FULL_SCALES_S.into_iter().find(holds)).flatten()
    }

    /// The largest error while a quadrant reads, without sign, seconds.
    fn largest_error_s(&self) -> f64 {
        let readable = self.day.stretches.iter().filter(|stretch| reads(stretch));
        let times = readable.flat_map(|stretch| self.times_in(stretch));
        times.map(|time_s| self.error_s(time_s).abs()).fold(0.0, f64::max)
    }

    /// Times of a stretch at which the error is known, and those of its ends that lie between two
    /// such times: nothing is made up at sunrise, where the error grows fast.
    pub(super) fn times_in(&self, stretch: &Stretch) -> Vec<f64> {
        let known = || self.day.errors.iter().map(|&(time_s, _)| time_s);
        let (first, last) = (known().next(), known().next_back());
        let first_s = first.map_or(stretch.from_s, |first| first.max(stretch.from_s));
        let last_s = last.map_or(stretch.to_s, |last| last.min(stretch.to_s));
        let inside = known().filter(|time_s| *time_s > first_s && *time_s < last_s);
        std::iter::once(first_s).chain(inside).chain([last_s]).collect()
    }

    /// How far the reading strays at a time, seconds; shown minus true.
    pub(super) fn error_s(&self, time_s: f64) -> f64 {
        let after = self.day.errors.partition_point(|(time, _)| *time < time_s);
        let at = |index: usize| self.day.errors.get(index).copied();
        match (after.checked_sub(1).and_then(at), at(after)) {
            (Some((from, low)), Some((to, high))) if to > from => {
                low + (high - low) * (time_s - from) / (to - from)
            }
            (Some((_, error)), _) | (None, Some((_, error))) => error,
            (None, None) => 0.0,
        }
    }
}

/// Whether a quadrant reads on a stretch.
fn reads(stretch: &Stretch) -> bool {
    matches!(stretch.kind, StretchKind::West | StretchKind::East)
}
