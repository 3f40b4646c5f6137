//! What the size of a dial buys: instruments side by side, in one measure of length and in one
//! measure of time. A larger dial has wider divisions, but not a sharper edge.

use glam::DVec2;

use super::drawing::{Anchor, Colour, Drawing, Stroke, TextStyle, Typeface, rectangle};
use super::lettering::{Lettering, figure, label, text_width};
use super::palette::Palette;
use crate::core::light::LimbDarkening;
use crate::core::resolution::{EYE_LENGTH_M, EYE_SHARE_OF_PENUMBRA, Resolution};
use crate::words::Words;
use crate::words::figures::with_unit;

/// Width from which the two measures stand side by side, in label sizes.
const SIDE_BY_SIDE_LABELS: f64 = 42.0;
/// Heights, in label sizes: the lesson, the name of a measure, one instrument, the assumption.
const LESSON_LABELS: f64 = 2.2;
const HEADING_LABELS: f64 = 1.9;
const ROW_LABELS: f64 = 6.3;
const NOTE_LABELS: f64 = 1.6;
/// Stone shown beyond the broadest soft edge, as a share of it.
const STONE_OVER_EDGE: f64 = 1.45;
/// Marks closer together than this are left out, CSS pixels.
const CLOSEST_PX: f64 = 2.2;
/// Marks closer together than this are cut thin, CSS pixels.
const DENSE_PX: f64 = 8.0;
/// Stops of the soft edge: a straight line between two is right to a step of an 8-bit colour.
const STOPS: u32 = 32;
/// Lengths of the scale bar, millimetres.
const BARS_MM: [f64; 8] = [200.0, 100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0];

/// How instruments are to be compared.
#[derive(Clone, Copy, Debug)]
pub struct SizesView<'a> {
    /// Width and height, CSS pixels; see [`height_px`].
    pub size: DVec2,
    /// Colours.
    pub palette: &'a Palette,
    /// Words.
    pub words: &'a Words,
    /// Size of the labels, CSS pixels.
    pub label_px: f64,
    /// How bright the Sun's disc is towards its limb.
    pub limb: LimbDarkening,
}

/// Height that so many instruments need at a width, CSS pixels.
#[must_use]
pub fn height_px(instruments: usize, width_px: f64, label_px: f64) -> f64 {
    let measures = if is_side_by_side(width_px, label_px) { 1.0 } else { 2.0 };
    let rows = HEADING_LABELS + ROW_LABELS * instruments as f64;
    (LESSON_LABELS + measures * rows + NOTE_LABELS) * label_px
}

fn is_side_by_side(width_px: f64, label_px: f64) -> bool {
    width_px >= SIDE_BY_SIDE_LABELS * label_px
}

/// Draws the comparison, in the order given: each instrument's name and what it resolves.
pub fn draw(drawing: &mut Drawing, instruments: &[(&str, Resolution)], view: &SizesView<'_>) {
    let letters = Lettering::new(view.size);
    let unit = view.label_px / 13.0;
    let mut sizes = Sizes { drawing, instruments, view, unit, letters };
    sizes.draw_lesson();
    for measure in [Measure::Length, Measure::Time] {
        sizes.draw_measure(measure);
    }
    sizes.draw_note();
}

/// In what the instruments are compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Measure {
    /// Metres along the arc.
    Length,
    /// Seconds.
    Time,
}

impl Measure {
    fn penumbra(self, resolution: &Resolution) -> f64 {
        match self {
            Self::Length => resolution.penumbra_m,
            Self::Time => resolution.penumbra_s,
        }
    }

    fn division(self, resolution: &Resolution) -> f64 {
        match self {
            Self::Length => resolution.division_m,
            Self::Time => resolution.division_s,
        }
    }

    fn minute(self, resolution: &Resolution) -> f64 {
        match self {
            Self::Length => 60.0 * resolution.speed_m_per_s,
            Self::Time => 60.0,
        }
    }

    fn by_eye(self, resolution: &Resolution) -> f64 {
        match self {
            Self::Length => resolution.by_eye_s * resolution.speed_m_per_s,
            Self::Time => resolution.by_eye_s,
        }
    }

    fn key(self) -> &'static str {
        match self {
            Self::Length => "sizes.length",
            Self::Time => "sizes.time",
        }
    }
}

/// The place of one measure in the picture.
#[derive(Clone, Copy, Debug)]
struct Column {
    left: f64,
    right: f64,
    top: f64,
}

/// A comparison being drawn.
struct Sizes<'a> {
    drawing: &'a mut Drawing,
    instruments: &'a [(&'a str, Resolution)],
    view: &'a SizesView<'a>,
    unit: f64,
    letters: Lettering,
}

impl Sizes<'_> {
    /// The lesson in a sentence.
    fn draw_lesson(&mut self) {
        let style = figure(1.3 * self.view.label_px, self.view.palette.ink, Anchor::Start);
        let at = DVec2::new(0.0, 1.45 * self.view.label_px);
        let words = self.view.words;
        let texts = ["sizes.lesson", "sizes.lesson-short"].map(|key| words.say(key));
        let _ = texts.into_iter().any(|text| self.letters.set(self.drawing, at, text, style));
    }

    /// Where a measure stands.
    fn column(&self, measure: Measure) -> Column {
        let width = self.view.size.x;
        let top = LESSON_LABELS * self.view.label_px;
        let gap = 22.0 * self.unit;
        let below =
            (HEADING_LABELS + ROW_LABELS * self.instruments.len() as f64) * self.view.label_px;
        match (measure, is_side_by_side(width, self.view.label_px)) {
            (Measure::Length, true) => Column { left: 0.0, right: (width - gap) / 2.0, top },
            (Measure::Time, true) => Column { left: (width + gap) / 2.0, right: width, top },
            (Measure::Length, false) => Column { left: 0.0, right: width, top },
            (Measure::Time, false) => Column { left: 0.0, right: width, top: top + below },
        }
    }

    /// Pixels in a unit of a measure: the broadest soft edge fits.
    fn px_per_unit(&self, measure: Measure, column: &Column) -> f64 {
        let edges = self.instruments.iter().map(|(_, resolution)| measure.penumbra(resolution));
        let broadest = edges.fold(f64::MIN_POSITIVE, f64::max);
        (column.right - column.left).max(1.0) / (STONE_OVER_EDGE * broadest)
    }

    /// One measure: its name, and every instrument in it.
    fn draw_measure(&mut self, measure: Measure) {
        let column = self.column(measure);
        let px_per_unit = self.px_per_unit(measure, &column);
        self.draw_heading(measure, &column, px_per_unit);
        for index in 0..self.instruments.len() {
            let rows = HEADING_LABELS + ROW_LABELS * index as f64;
            let top = column.top + rows * self.view.label_px;
            self.draw_row(measure, index, Column { top, ..column }, px_per_unit);
        }
    }

    /// The name of a measure, and a bar of it.
    fn draw_heading(&mut self, measure: Measure, column: &Column, px_per_unit: f64) {
        let (palette, words) = (self.view.palette, self.view.words);
        let unit = self.unit;
        let y = column.top + 1.2 * self.view.label_px;
        let rule =
            [DVec2::new(column.left, y + 6.0 * unit), DVec2::new(column.right, y + 6.0 * unit)];
        self.drawing.line(rule, Stroke::solid(palette.rule, unit));
        let (bars, one, bar_unit): (&[f64], f64, &str) = match measure {
            Measure::Length => (&BARS_MM, 0.001, "figures.mm"),
            Measure::Time => (&[60.0, 30.0, 10.0], 1.0, "figures.s"),
        };
        let longest = 0.22 * (column.right - column.left);
        let fits = bars.iter().find(|&&bar| bar * one * px_per_unit <= longest);
        if let Some(&bar) = fits {
            let left = column.right - bar * one * px_per_unit;
            let (head, foot) = (y - 7.0 * unit, y);
            let line = [(left, head), (left, foot), (column.right, foot), (column.right, head)];
            self.drawing.line(
                line.map(|(x, y)| DVec2::new(x, y)),
                Stroke::solid(palette.ink_2, 1.4 * unit),
            );
            let style = label(self.view.label_px, palette.ink_2, Anchor::End);
            let at = DVec2::new(left - 5.0 * unit, y);
            self.letters.reserve(DVec2::new(left, head), DVec2::new(column.right, foot));
            let text = with_unit(words, &bar.to_string(), bar_unit);
            self.letters.set(self.drawing, at, &words.figure(&text), style);
        }
        let style = label(self.view.label_px, palette.ink_2, Anchor::Start);
        let texts =
            ["", "-short"].map(|form| words.say(&format!("{}{form}", measure.key())).to_owned());
        let at = DVec2::new(column.left, y);
        let _ = texts.iter().any(|text| self.letters.set(self.drawing, at, text, style));
    }

    /// One instrument in one measure: a strip of stone with its soft edge and its divisions.
    fn draw_row(&mut self, measure: Measure, index: usize, column: Column, px_per_unit: f64) {
        let Some(&(name, resolution)) = self.instruments.get(index) else { return };
        let label_px = self.view.label_px;
        let name_y = column.top + 1.25 * label_px;
        let strip = (column.top + 1.75 * label_px, column.top + 4.0 * label_px);
        self.draw_strip(measure, &resolution, &column, strip, px_per_unit);
        self.draw_name(measure, name, &resolution, &column, name_y);
        self.draw_edge_measure(measure, &resolution, &column, strip.1, px_per_unit);
    }

    /// The instrument's name, and beside it its division.
    fn draw_name(
        &mut self,
        measure: Measure,
        name: &str,
        resolution: &Resolution,
        column: &Column,
        y: f64,
    ) {
        let palette = self.view.palette;
        let style = figure(1.08 * self.view.label_px, palette.ink, Anchor::Start);
        let at = DVec2::new(column.left, y);
        let named = self.letters.set(self.drawing, at, name, style);
        let beside = match measure {
            Measure::Length => self.length_texts(resolution),
            Measure::Time => self.time_texts(resolution),
        };
        let style = label(self.view.label_px, palette.ink_2, Anchor::End);
        let right = DVec2::new(column.right, y);
        let width =
            if named { text_width(name, Typeface::Serif, 1.08 * self.view.label_px) } else { 0.0 };
        let room = column.right - column.left - width - 8.0 * self.unit;
        let fits = |text: &&String| text_width(text, Typeface::Sans, self.view.label_px) <= room;
        let _ = beside
            .iter()
            .filter(fits)
            .any(|text| self.letters.set(self.drawing, right, text, style));
    }

    /// Division and speed on the stone, longest first.
    fn length_texts(&self, resolution: &Resolution) -> Vec<String> {
        let words = self.view.words;
        let division = millimetres(self.view.words, resolution.division_m);
        let speed = millimetres(self.view.words, resolution.speed_m_per_s * 60.0);
        let values = [("division", division.as_str()), ("speed", &speed)];
        ["sizes.division-and-speed", "sizes.division-and-speed-short", "sizes.division-bare"]
            .map(|key| words.fill(key, &values))
            .to_vec()
    }

    /// How many divisions the soft edge covers, longest first.
    fn time_texts(&self, resolution: &Resolution) -> Vec<String> {
        let words = self.view.words;
        let division = seconds(self.view.words, resolution.division_s);
        let count = one_decimal(resolution.divisions_per_penumbra());
        let values = [("division", division.as_str()), ("count", &count)];
        ["sizes.covers", "sizes.covers-short", "sizes.covers-bare"]
            .map(|key| words.fill(key, &values))
            .to_vec()
    }

    /// The strip of stone, lit at the left.
    fn draw_strip(
        &mut self,
        measure: Measure,
        resolution: &Resolution,
        column: &Column,
        (top, bottom): (f64, f64),
        px_per_unit: f64,
    ) {
        let palette = self.view.palette;
        let middle = f64::midpoint(column.left, column.right);
        let half = measure.penumbra(resolution) / 2.0 * px_per_unit;
        let (min, max) = (DVec2::new(column.left, top), DVec2::new(column.right, bottom));
        let across = (column.right - column.left).max(1.0);
        let stops: Vec<(f64, Colour)> = (0..=STOPS)
            .map(|stop| {
                // Closest near the two ends of the soft edge, where the light bends most.
                let clear = (std::f64::consts::PI * f64::from(stop) / f64::from(STOPS)).cos();
                let place = (middle - clear * half - column.left) / across;
                let light = self.view.limb.past_edge(clear);
                (place.clamp(0.0, 1.0), palette.umbra.mixed(palette.lit, light))
            })
            .collect();
        self.drawing.gradient(rectangle(min, max), (min, DVec2::new(max.x, top)), stops);
        self.draw_divisions(measure, resolution, column, (top, bottom), px_per_unit);
        self.drawing.outline(rectangle(min, max), Stroke::solid(palette.rule, self.unit));
    }

    /// The marks of the smallest division, and higher ones of the minutes, from the middle of the
    /// soft edge.
    fn draw_divisions(
        &mut self,
        measure: Measure,
        resolution: &Resolution,
        column: &Column,
        (top, bottom): (f64, f64),
        px_per_unit: f64,
    ) {
        let palette = self.view.palette;
        let middle = f64::midpoint(column.left, column.right);
        let half = measure.penumbra(resolution) / 2.0 * px_per_unit;
        let minute = measure.minute(resolution) * px_per_unit;
        let division = measure.division(resolution) * px_per_unit;
        for (pitch, height, width) in [(division, 0.36, 1.0), (minute, 0.8, 2.0)] {
            if pitch < CLOSEST_PX {
                continue;
            }
            let width = if pitch < DENSE_PX { 1.1 } else { width };
            let each_way = ((column.right - column.left) / 2.0 / pitch).floor() as i32;
            let mut lines = [(palette.cut, Vec::new()), (palette.cut_umbra, Vec::new())];
            for index in -each_way..=each_way {
                let px = middle + f64::from(index) * pitch;
                let head = bottom - height * (bottom - top);
                let line = [DVec2::new(px, bottom), DVec2::new(px, head)];
                lines[usize::from(px > middle + 0.3 * half)].1.push(line);
            }
            for (colour, lines) in lines.into_iter().filter(|(_, lines)| !lines.is_empty()) {
                self.drawing.lines(lines, Stroke::solid(colour, width * self.unit));
            }
        }
    }

    /// The breadth of the soft edge under the strip, and what the eye can tell of it.
    fn draw_edge_measure(
        &mut self,
        measure: Measure,
        resolution: &Resolution,
        column: &Column,
        strip_bottom: f64,
        px_per_unit: f64,
    ) {
        let palette = self.view.palette;
        let unit = self.unit;
        let middle = f64::midpoint(column.left, column.right);
        let y = strip_bottom + 6.0 * unit;
        let half = (measure.penumbra(resolution) / 2.0 * px_per_unit).max(0.5 * unit);
        self.draw_span((middle - half, middle + half), y, palette.ink, 1.5);
        let eye = (measure.by_eye(resolution) / 2.0 * px_per_unit).max(0.5 * unit);
        let line = [DVec2::new(middle - eye, y), DVec2::new(middle + eye, y)];
        self.drawing.line(line, Stroke::solid(palette.accent, 5.0 * unit));
        let words = self.view.words;
        let (edge, eye) = match measure {
            Measure::Length => (
                millimetres(self.view.words, resolution.penumbra_m),
                millimetres(self.view.words, measure.by_eye(resolution)),
            ),
            Measure::Time => (
                seconds(self.view.words, resolution.penumbra_s),
                seconds(self.view.words, resolution.by_eye_s),
            ),
        };
        let base = y + 1.35 * self.view.label_px;
        let texts = [
            words.fill("sizes.penumbra", &[("breadth", &edge)]),
            words.fill("sizes.penumbra-bare", &[("breadth", &edge)]),
        ];
        let style = label(self.view.label_px, palette.ink, Anchor::Start);
        let at = DVec2::new(column.left, base);
        let _ = texts.iter().any(|text| self.letters.set(self.drawing, at, text, style));
        let text = words.fill("sizes.by-eye", &[("length", &eye)]);
        let style = TextStyle { colour: palette.accent, anchor: Anchor::End, ..style };
        let at = DVec2::new(column.right, base);
        self.letters.set(self.drawing, at, &text, style);
    }

    /// A line with an end at either side.
    fn draw_span(&mut self, (left, right): (f64, f64), y: f64, colour: Colour, width: f64) {
        let tick = 4.0 * self.unit;
        let lines = [
            [DVec2::new(left, y), DVec2::new(right, y)],
            [DVec2::new(left, y - tick), DVec2::new(left, y + tick)],
            [DVec2::new(right, y - tick), DVec2::new(right, y + tick)],
        ];
        self.drawing.lines(lines, Stroke::solid(colour, width * self.unit));
    }

    /// What the eye is taken to tell.
    fn draw_note(&mut self) {
        let words = self.view.words;
        let share = format!("{:.0}", 1.0 / EYE_SHARE_OF_PENUMBRA);
        let length = format!("{:.2}", EYE_LENGTH_M * 1000.0);
        let values = [("share", share.as_str()), ("length", &length)];
        let texts = ["sizes.note", "sizes.note-short", "sizes.note-bare"]
            .map(|key| words.fill(key, &values));
        let style = label(self.view.label_px, self.view.palette.ink_2, Anchor::Start);
        let at = DVec2::new(0.0, self.view.size.y - 0.5 * self.view.label_px);
        let _ = texts.iter().any(|text| self.letters.set(self.drawing, at, text, style));
    }
}

/// A length in millimetres, to two figures at least.
fn millimetres(words: &Words, metres: f64) -> String {
    let value = metres * 1000.0;
    let decimals = if value >= 99.5 {
        0
    } else if value >= 0.995 {
        1
    } else {
        2
    };
    with_unit(words, &format!("{value:.decimals$}"), "figures.mm")
}

/// Seconds, without decimals unless there are few.
fn seconds(words: &Words, value: f64) -> String {
    let decimals = usize::from(value < 9.95 && value.fract() > 0.05);
    with_unit(words, &format!("{value:.decimals$}"), "figures.s")
}

fn one_decimal(value: f64) -> String {
    if value < 99.95 { format!("{value:.1}") } else { format!("{value:.0}") }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::scene::checks::{assert_finite, assert_legible, presets};
    use crate::scene::drawing::Mark;
    use crate::scene::palette::Theme;

    /// Semidiameter of the Sun, radians: 16′.
    const SEMIDIAMETER_RAD: f64 = 0.004_654;

    fn resolutions() -> Vec<(String, Resolution)> {
        let of = |declination_rad: f64| {
            move |instrument: crate::core::instrument::Instrument| {
                let resolution = Resolution::of(&instrument, SEMIDIAMETER_RAD, declination_rad);
                (instrument.spec().name.clone(), resolution)
            }
        };
        presets().into_iter().map(of(0.2)).collect()
    }

    fn drawn(instruments: &[(&str, Resolution)], size: DVec2, label_px: f64) -> Drawing {
        let words = Words::english();
        let palette = Theme::Day.palette();
        let limb = LimbDarkening::Uniform;
        let mut drawing = Drawing::new(size);
        draw(
            &mut drawing,
            instruments,
            &SizesView { size, palette, words: &words, label_px, limb },
        );
        drawing
    }

    #[test]
    fn no_words_touch_or_are_cut_off_at_any_width() {
        let all = resolutions();
        let all: Vec<(&str, Resolution)> =
            all.iter().map(|(name, resolution)| (name.as_str(), *resolution)).collect();
        for (width, label_px) in [(300.0, 13.0), (364.0, 14.0), (640.0, 14.0), (900.0, 23.0)] {
            for count in 1..=all.len() {
                let size = DVec2::new(width, height_px(count, width, label_px));
                let drawing = drawn(&all[..count], size, label_px);
                assert_legible(&drawing, &format!("{count} at {width}"));
                assert_finite(&drawing, &format!("{count} at {width}"));
            }
        }
    }

    #[test]
    fn soft_edges_are_drawn_in_one_measure_each() {
        let all = resolutions();
        let all: Vec<(&str, Resolution)> =
            all.iter().map(|(name, resolution)| (name.as_str(), *resolution)).collect();
        let size = DVec2::new(900.0, height_px(all.len(), 900.0, 14.0));
        let drawing = drawn(&all, size, 14.0);
        let broad = |mark: &Mark| match mark {
            Mark::Gradient { from, to, stops, .. } => {
                let stops = drawing.stops(stops);
                let (first, last) = (stops.first()?, stops.last()?);
                Some((last.0 - first.0) * (to.x - from.x))
            }
            _ => None,
        };
        let edges: Vec<f64> = drawing.marks().iter().filter_map(broad).collect();
        let (on_stone, in_time) = edges.split_at(all.len());
        for (index, (name, resolution)) in all.iter().enumerate() {
            let expected = resolution.penumbra_m / all[0].1.penumbra_m;
            let off = (on_stone[index] / on_stone[0] - expected).abs();
            assert!(off < 1e-9 * expected, "{name} is off its scale by {off}");
            assert!((in_time[index] - in_time[0]).abs() < 1e-9, "{name} is not as soft as others");
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(48))]
        #[test]
        fn any_size_of_picture_can_be_drawn(
            width in 20.0..1400.0_f64,
            height in 20.0..900.0_f64,
            label_px in 13.0..24.0_f64,
            count in 0..6_usize,
        ) {
            let all = resolutions();
            let some: Vec<(&str, Resolution)> = all
                .iter()
                .take(count)
                .map(|(name, resolution)| (name.as_str(), *resolution))
                .collect();
            let drawing = drawn(&some, DVec2::new(width, height), label_px);
            assert_finite(&drawing, "sizes");
            assert_legible(&drawing, "sizes");
        }
    }
}
