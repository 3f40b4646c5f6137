//! The day strip: what the dial does from the first to the last sunlight; its track is the
//! picture of the shadow sliding down one quadrant and up the other.

mod errors;

use glam::DVec2;

use super::axis::Axis;
use super::drawing::{Anchor, Drawing, Stroke, rectangle};
use super::lettering::{Lettering, label, text_width};
use super::strip::{StripView, apparent_s};
use super::texture::hatch;
use crate::core::day::{DayOutline, Stretch, StretchKind};
use crate::core::instrument::{Instrument, SOLSTICE_DECLINATION_DEG};
use crate::core::moment::Moment;
use crate::core::reading::{NOON_S, SECONDS_PER_RADIAN};
use crate::scene::drawing::Typeface;
use crate::words::figures::duration;

/// Shortest day that the strip spans, seconds of apparent time.
const LEAST_SPAN_S: (f64, f64) = (5.0 * 3600.0, 19.0 * 3600.0);
/// The strip begins and ends on a whole number of these, seconds.
const SPAN_STEP_S: f64 = 1800.0;
/// How far under the horizon the Sun's centre is when its last light reaches the dial, radians:
/// refraction and semidiameter, rounded up to a degree.
const LAST_LIGHT_RAD: f64 = 0.0175;
/// Seconds from a quadrant's foot to its upper end.
const QUADRANT_S: f64 = 6.0 * 3600.0;
/// Hours between two labels, of which the finest that has room is used.
const HOUR_STEPS: [u32; 5] = [1, 2, 3, 6, 12];

/// Local apparent time along the strip, seconds since midnight: the site's longest day, the same
/// for every date so that days can be compared.
#[must_use]
pub fn axis(instrument: &Instrument, width_px: f64) -> Axis {
    let latitude_rad = instrument.site().latitude_rad();
    let declination_rad = SOLSTICE_DECLINATION_DEG.to_radians();
    let (sin_product, cos_product) = (
        latitude_rad.abs().sin() * declination_rad.sin(),
        latitude_rad.cos() * declination_rad.cos(),
    );
    let cos_set = (-LAST_LIGHT_RAD.sin() - sin_product) / cos_product;
    let half_day_s = if cos_set > -1.0 { cos_set.acos() * SECONDS_PER_RADIAN } else { NOON_S };
    let down = |time: f64| (time / SPAN_STEP_S).floor() * SPAN_STEP_S;
    let from_s = down(NOON_S - half_day_s).min(LEAST_SPAN_S.0).max(0.0);
    Axis::along_strip((from_s, 2.0 * NOON_S - from_s), width_px)
}

/// Upper and lower side of the track, CSS pixels: the handle runs along its middle.
#[must_use]
pub fn track_px(view: &StripView<'_>) -> (f64, f64) {
    view.track_px(TOP_LABELS)
}

/// Draws the strip. The handle is the page's; a line marks its place.
pub fn draw(
    drawing: &mut Drawing,
    instrument: &Instrument,
    moment: &Moment,
    day: &DayOutline,
    view: &StripView<'_>,
) {
    let mut strip = strip(drawing, instrument, day, view);
    strip.draw_night();
    for stretch in &day.stretches {
        strip.draw_stretch(stretch);
    }
    strip.draw_noon_gap();
    strip.draw_errors();
    strip.draw_hours();
    strip.draw_names();
    let now_px = strip.axis.px(apparent_s(instrument, moment));
    view.draw_now(strip.drawing, now_px, (strip.top, strip.bottom));
}

/// A strip ready to be drawn.
fn strip<'a>(
    drawing: &'a mut Drawing,
    instrument: &Instrument,
    day: &'a DayOutline,
    view: &'a StripView<'a>,
) -> Strip<'a> {
    let (top, bottom) = track_px(view);
    let letters = Lettering::new(view.size);
    let axis = axis(instrument, view.size.x);
    let carried = instrument.off_latitude_rad() != 0.0;
    Strip { drawing, day, view, axis, top, bottom, letters, carried }
}

/// Room for labels over the track, in label sizes.
const TOP_LABELS: f64 = 1.3;

/// Where in its stretch the name of a quadrant may stand, from the outer end towards noon.
const SHARES_TOWARDS_NOON: [f64; 6] = [0.6, 0.5, 0.4, 0.3, 0.22, 0.12];

/// Key of a name, and its place along the strip.
type Name = (&'static str, f64, Anchor);

/// A day strip being drawn.
struct Strip<'a> {
    drawing: &'a mut Drawing,
    day: &'a DayOutline,
    view: &'a StripView<'a>,
    axis: Axis,
    top: f64,
    bottom: f64,
    letters: Lettering,
    /// Whether the dial stands at a latitude for which it was not built.
    carried: bool,
}

impl Strip<'_> {
    /// The track as it is while the Sun is down.
    fn draw_night(&mut self) {
        let track = self.field(self.axis.min, self.axis.max);
        let colour = self.view.palette.hair.faded(0.55);
        self.drawing.fill(rectangle(track.0, track.1), colour);
    }

    /// The part of the track between two times.
    fn field(&self, from_s: f64, to_s: f64) -> (DVec2, DVec2) {
        let at = |time: f64| self.axis.px(time.clamp(self.axis.min, self.axis.max));
        (DVec2::new(at(from_s), self.top), DVec2::new(at(to_s), self.bottom))
    }

    /// Height at which the shadow's edge lies: XII at the foot of the track, VI at its top.
    fn edge_y(&self, time_s: f64) -> f64 {
        let share = ((time_s - NOON_S).abs() / QUADRANT_S).min(1.0);
        self.bottom - share * (self.bottom - self.top)
    }

    /// The shadow's edge over a stretch: straight, unless the dial was carried elsewhere.
    fn edge_line(&self, stretch: &Stretch) -> Vec<DVec2> {
        let times =
            if self.carried { self.times_in(stretch) } else { vec![stretch.from_s, stretch.to_s] };
        let read_s = |time_s: f64| time_s + if self.carried { self.error_s(time_s) } else { 0.0 };
        let at = |time_s: f64| DVec2::new(self.axis.px(time_s), self.edge_y(read_s(time_s)));
        times.into_iter().map(at).collect()
    }

    fn draw_stretch(&mut self, stretch: &Stretch) {
        match stretch.kind {
            StretchKind::West | StretchKind::East => self.draw_readable(stretch),
            StretchKind::BeyondEnd | StretchKind::StyleTooShort => self.draw_unreadable(stretch),
            StretchKind::Blind => {} // Drawn over its neighbours, wider than scale.
        }
    }

    /// A quadrant that reads: sun above the edge of the shadow, shadow below.
    fn draw_readable(&mut self, stretch: &Stretch) {
        let palette = self.view.palette;
        let (min, max) = self.field(stretch.from_s, stretch.to_s);
        self.drawing.fill(rectangle(min, max), palette.lit);
        let mut shadow = self.edge_line(stretch);
        shadow.extend([max, DVec2::new(min.x, max.y)]);
        self.drawing.fill(shadow, palette.umbra);
        let rule = Stroke::solid(palette.rule, self.view.unit());
        self.drawing.outline(rectangle(min, max), rule);
    }

    /// The Sun is up, but the dial can't be read.
    fn draw_unreadable(&mut self, stretch: &Stretch) {
        let palette = self.view.palette;
        let unit = self.view.unit();
        let (min, max) = self.field(stretch.from_s, stretch.to_s);
        self.drawing.fill(rectangle(min, max), palette.panel);
        hatch(self.drawing, (min, max), 7.0 * unit, Stroke::solid(palette.rule, 1.3 * unit));
        self.drawing.outline(rectangle(min, max), Stroke::solid(palette.rule, unit));
    }

    /// The blind interval as a gap, wider than scale so that it is seen, under a bracket.
    fn draw_noon_gap(&mut self) {
        let blind = |stretch: &&Stretch| stretch.kind == StretchKind::Blind;
        let Some(stretch) = self.day.stretches.iter().find(blind) else { return };
        let unit = self.view.unit();
        let palette = self.view.palette;
        let (min, max) = self.field(stretch.from_s, stretch.to_s);
        let middle = f64::midpoint(min.x, max.x);
        let half = ((max.x - min.x) / 2.0).max(4.0 * unit);
        let (left, right) = (middle - half, middle + half);
        let gap =
            rectangle(DVec2::new(left, self.top - unit), DVec2::new(right, self.bottom + unit));
        self.drawing.fill(gap, palette.paper);
        let sides = [left, right].map(|x| [DVec2::new(x, self.top), DVec2::new(x, self.bottom)]);
        self.drawing.lines(sides, Stroke::solid(palette.rule, unit));
        let (foot, head) = (self.top - 2.0 * unit, self.top - 7.0 * unit);
        let bracket = [(left, foot), (left, head), (right, head), (right, foot)];
        let bracket = bracket.map(|(x, y)| DVec2::new(x, y));
        self.drawing.line(bracket, Stroke::solid(palette.ink_2, 1.3 * unit));
        self.letters.reserve(DVec2::new(left, 0.0), DVec2::new(right, self.top));
        let time = duration(self.view.words, stretch.to_s - stretch.from_s);
        let text = self.view.words.fill("day.blind", &[("time", &time)]);
        let style = label(self.view.label_px, palette.ink_2, Anchor::Start);
        let at = DVec2::new(right + 6.0 * unit, self.names_y());
        self.letters.set(self.drawing, at, &text, style);
    }

    /// Baseline of the names over the track.
    fn names_y(&self) -> f64 {
        self.top - 4.0 * self.view.unit()
    }

    /// Names over the track what each part of it shows, as far as there is room.
    fn draw_names(&mut self) {
        if self.day.stretches.is_empty() {
            let middle = self.axis.px(f64::midpoint(self.axis.min, self.axis.max));
            self.name_all(&[vec![("day.sun-down", middle, Anchor::Middle)]]);
        }
        self.name_all(&[self.beyond_names()]);
        self.name_all(&SHARES_TOWARDS_NOON.map(|share| self.quadrant_names(share)));
        if let Some((from_s, to_s)) = self.longest(StretchKind::StyleTooShort) {
            let middle = self.axis.px(f64::midpoint(from_s, to_s));
            self.name_all(&[vec![("day.too-short", middle, Anchor::Middle)]]);
        }
        self.name_errors();
    }

    /// Names of the stretches beyond the quadrants' ends, from their outer ends inwards.
    fn beyond_names(&self) -> Vec<Name> {
        let spans = self.spans(StretchKind::BeyondEnd).into_iter();
        let named = spans.map(|(from_s, to_s)| {
            if self.carried {
                ("day.no-edge", self.axis.px(f64::midpoint(from_s, to_s)), Anchor::Middle)
            } else if f64::midpoint(from_s, to_s) < NOON_S {
                ("day.before-quadrant", self.axis.px(from_s), Anchor::Start)
            } else {
                ("day.after-quadrant", self.axis.px(to_s), Anchor::End)
            }
        });
        named.collect()
    }

    /// Names of the quadrants, each this share of its stretch from the outer end towards noon.
    fn quadrant_names(&self, share: f64) -> Vec<Name> {
        let west = self.longest(StretchKind::West).map(|(from_s, to_s)| {
            ("day.west", self.axis.px(from_s + share * (to_s - from_s)), Anchor::Middle)
        });
        let east = self.longest(StretchKind::East).map(|(from_s, to_s)| {
            ("day.east", self.axis.px(to_s - share * (to_s - from_s)), Anchor::Middle)
        });
        west.into_iter().chain(east).collect()
    }

    /// Sets names that belong together: all of them in full if any of the places has room for
    /// that, else all in their short form, else what fits.
    fn name_all(&mut self, places: &[Vec<Name>]) {
        for form in ["", "-short"] {
            for names in places {
                let texts = names.iter().map(|&(key, x, anchor)| {
                    let text = self.view.words.say(&format!("{key}{form}")).to_owned();
                    let style = label(self.view.label_px, self.view.palette.ink, anchor);
                    (DVec2::new(x, self.names_y()), text, style)
                });
                let texts: Vec<_> = texts.collect();
                if self.letters.set_all(self.drawing, &texts) {
                    return;
                }
            }
        }
        // No room for all of them anywhere: those that have room where they would best stand.
        for (key, x, anchor) in places.first().into_iter().flatten() {
            let text = self.view.words.say(&format!("{key}-short")).to_owned();
            let style = label(self.view.label_px, self.view.palette.ink, *anchor);
            self.letters.set(self.drawing, DVec2::new(*x, self.names_y()), &text, style);
        }
    }

    /// Beginnings and ends of the stretches of a kind.
    fn spans(&self, kind: StretchKind) -> Vec<(f64, f64)> {
        let alike = self.day.stretches.iter().filter(|stretch| stretch.kind == kind);
        alike.map(|stretch| (stretch.from_s, stretch.to_s)).collect()
    }

    /// The longest stretch of a kind.
    fn longest(&self, kind: StretchKind) -> Option<(f64, f64)> {
        let length = |span: &(f64, f64)| span.1 - span.0;
        self.spans(kind).into_iter().max_by(|a, b| length(a).total_cmp(&length(b)))
    }

    /// Hour marks under the track.
    fn draw_hours(&mut self) {
        let unit = self.view.unit();
        let palette = self.view.palette;
        let step = self.hour_step();
        let hours = (0..=24_u32)
            .map(|hour| (hour, f64::from(hour) * 3600.0))
            .filter(|(_, time)| (self.axis.min..=self.axis.max).contains(time));
        let hours: Vec<_> = hours.map(|(hour, time)| (hour, self.axis.px(time))).collect();
        let marks = hours.iter().map(|(hour, px)| {
            let length = if hour.is_multiple_of(step) { 5.0 } else { 3.0 };
            [DVec2::new(*px, self.bottom), DVec2::new(*px, self.bottom + length * unit)]
        });
        self.drawing.lines(marks, Stroke::solid(palette.rule, 1.2 * unit));
        for (hour, px) in hours.into_iter().filter(|(hour, _)| hour.is_multiple_of(step)) {
            let colour = if hour == 12 { palette.ink } else { palette.ink_2 };
            let style = label(self.view.label_px, colour, Anchor::Middle);
            let at = DVec2::new(px, self.bottom + 1.38 * self.view.label_px);
            let text = hour.to_string();
            self.letters.set(self.drawing, at, &self.view.words.figure(&text), style);
        }
    }

    /// Hours between two labels.
    fn hour_step(&self) -> u32 {
        let hour_px = 3600.0 * self.axis.px_per_unit();
        let room = 1.5 * text_width("12", Typeface::Sans, self.view.label_px);
        HOUR_STEPS.into_iter().find(|step| f64::from(*step) * hour_px >= room).unwrap_or(12)
    }
}

#[cfg(test)]
mod tests {
    use glam::DVec2;
    use proptest::prelude::*;

    use super::*;
    use crate::core::reading::{shown_at, sun_on_dial};
    use crate::core::sky::{SunTrack, sun_at_site};
    use crate::core::time::Instant;
    use crate::scene::checks::{
        DATES, TIMES_S, assert_finite, assert_large, assert_legible, conditions, day, dial_at,
        instant, moment, presets,
    };
    use crate::scene::palette::Theme;
    use crate::scene::strip::dial_date;
    use crate::words::Words;

    /// Altitude from which the error runs smoothly enough for straight lines, radians (4°).
    const LEAST_ALTITUDE_RAD: f64 = 0.07;
    /// Straight lines between errors ten minutes apart, seconds.
    const CURVE_S: f64 = 1.0;

    fn drawn(
        instrument: &Instrument,
        moment: &Moment,
        day: &DayOutline,
        (width, height, label_px): (f64, f64, f64),
    ) -> Drawing {
        let words = Words::english();
        let size = DVec2::new(width, height);
        let view = StripView { size, palette: Theme::Day.palette(), words: &words, label_px };
        let mut drawing = Drawing::new(size);
        draw(&mut drawing, instrument, moment, day, &view);
        drawing
    }

    #[test]
    fn no_words_touch_or_are_cut_off_on_any_day_of_any_instrument() {
        let mut track = SunTrack::new();
        let sizes = [
            (300.0, 60.0, 13.0),
            (362.0, 56.0, 13.0),
            (690.0, 80.0, 15.0),
            (1100.0, 70.0, 13.0),
            (1300.0, 100.0, 23.0),
        ];
        let mut dials = presets();
        dials.extend([90.0, 78.0, -70.0, 0.0].map(dial_at));
        for instrument in dials {
            for date in DATES {
                let moment = moment(&instrument, &mut track, date, TIMES_S[4]);
                let day = day(&instrument, &moment, &mut track);
                for size in sizes {
                    let what = format!("{} {date} {size:?}", instrument.spec().latitude_deg);
                    let drawing = drawn(&instrument, &moment, &day, size);
                    assert_legible(&drawing, &what);
                    assert_large(&drawing, size.2, &what);
                    assert_finite(&drawing, &what);
                }
            }
        }
    }

    #[test]
    fn the_axis_holds_the_longest_day_and_is_the_same_all_year() {
        let hours = |instrument: &Instrument| {
            let axis = axis(instrument, 1000.0);
            (axis.min / 3600.0, axis.max / 3600.0)
        };
        let spans: Vec<(f64, f64)> = presets().iter().map(hours).collect();
        let expected = [(4.5, 19.5), (4.5, 19.5), (4.5, 19.5), (1.5, 22.5), (5.0, 19.0)];
        assert_eq!(spans, expected);
        assert_eq!(hours(&dial_at(70.0)), (0.0, 24.0));
        assert_eq!(hours(&dial_at(-90.0)), (0.0, 24.0));
    }

    #[test]
    fn the_curve_of_refraction_is_the_error_that_the_reading_has() {
        let mut track = SunTrack::new();
        let words = Words::english();
        let size = DVec2::new(1100.0, 90.0);
        let palette = Theme::Day.palette();
        let view = StripView { size, palette, words: &words, label_px: 13.0 };
        let (mut compared, mut largest_off, mut largest_s) = (0, 0.0_f64, 0.0_f64);
        for instrument in presets() {
            let noon = moment(&instrument, &mut track, "2026-10-18", 0.0);
            let day = day(&instrument, &noon, &mut track);
            let mut drawing = Drawing::new(size);
            let strip = strip(&mut drawing, &instrument, &day, &view);
            let Some(full_s) = strip.full_scale_s() else { panic!("refraction hardly counts") };
            for step in -40..=40 {
                let at = moment(&instrument, &mut track, "2026-10-18", f64::from(step) * 487.0);
                let Ok(reading) = &at.reading else { continue };
                if at.sun.seen.altitude_rad < LEAST_ALTITUDE_RAD {
                    continue;
                }
                let airless = sun_at_site(&at.sun.sun, instrument.site(), None);
                let angle = sun_on_dial(&instrument, &airless).hour_angle_rad;
                let error_s = reading.exact_s - shown_at(&instrument, reading.edge.side, angle);
                let curve_s = strip.error_s(apparent_s(&instrument, &at));
                let y = strip.error_y(curve_s, full_s);
                assert!(y > strip.top && y < strip.bottom, "the curve leaves the track: {y}");
                largest_off = largest_off.max((curve_s - error_s).abs());
                largest_s = largest_s.max(error_s.abs());
                compared += 1;
            }
        }
        println!("refraction: off by {largest_off:.2} s of {largest_s:.1} s, {compared} times");
        assert!(compared > 150 && largest_s > 5.0, "{compared} compared, to {largest_s} s");
        assert!(largest_off < CURVE_S, "the curve is off by {largest_off} s");
    }

    #[test]
    fn the_sun_is_up_only_on_the_strip() {
        let mut track = SunTrack::new();
        for instrument in presets() {
            let axis = axis(&instrument, 1000.0);
            for date in DATES {
                let moment = moment(&instrument, &mut track, date, 0.0);
                for stretch in day(&instrument, &moment, &mut track).stretches {
                    let inside = stretch.from_s >= axis.min && stretch.to_s <= axis.max;
                    assert!(inside, "{date}: {stretch:?} leaves {axis:?}");
                }
            }
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(48))]
        #[test]
        fn any_day_at_any_latitude_can_be_drawn(
            latitude in prop_oneof![-90.0..90.0_f64, Just(90.0), Just(-90.0)],
            ms in Instant::FIRST.unix_ms()..Instant::LAST.unix_ms(),
            width in 20.0..1400.0_f64,
            height in 20.0..120.0_f64,
            label_px in 13.0..24.0_f64,
        ) {
            let instrument = dial_at(latitude);
            let mut track = SunTrack::new();
            let moment = Moment::compute(&instrument, instant(ms), &conditions(), &mut track);
            let date = dial_date(&instrument, &moment);
            if let Ok(day) = DayOutline::compute(&instrument, date, &conditions(), &mut track) {
                let drawing = drawn(&instrument, &moment, &day, (width, height, label_px));
                assert_finite(&drawing, "day strip");
                assert_legible(&drawing, "day strip");
            }
        }
    }
}
