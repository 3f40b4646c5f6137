//! Tests of the lens as a picture.

use proptest::prelude::*;

use super::*;
use crate::core::instrument::PRESETS;
use crate::core::light::{LimbDarkening, SunDisc, lit_fraction};
use crate::core::penumbra::{half_width_rad, uncovered_fraction};
use crate::core::reading::hour_angle_of_mark;
use crate::core::sky::SunTrack;
use crate::core::time::Instant;
use crate::scene::checks::{
    DATES, TIMES_S, assert_finite, assert_large, assert_legible, conditions, dial_at, instant,
    moment, presets,
};
use crate::scene::drawing::{Mark, Typeface};
use crate::scene::lettering::{text_box, text_width};
use crate::scene::palette::Theme;

/// Half a step of an 8-bit colour, and the straight line between two stops.
const SHADE_STEP: f64 = 1.2 / 255.0;
/// The closed form of a straight edge against the exact outline of wall, arc and disc.
const CLOSED_FORM: f64 = 2e-3;

fn drawn(instrument: &Instrument, moment: &Moment, view: &LensView<'_>) -> Drawing {
    let mut drawing = Drawing::new(view.size);
    draw(&mut drawing, instrument, moment, view);
    drawing
}

fn view<'a>(words: &'a Words, (width, height): (f64, f64), label_px: f64) -> LensView<'a> {
    let palette = Theme::Day.palette();
    let size = DVec2::new(width, height);
    LensView { size, palette, words, centre_s: None, label_px, limits: false }
}

#[test]
fn no_words_touch_or_are_cut_off_at_any_time_on_any_instrument() {
    let (words, mut track) = (Words::english(), SunTrack::new());
    let sizes = [
        ((300.0, 130.0), 13.0),
        ((300.0, 200.0), 24.0),
        ((362.0, 130.0), 13.0),
        ((364.0, 190.0), 13.0),
        ((430.0, 220.0), 16.0),
        ((640.0, 300.0), 23.0),
        ((640.0, 190.0), 13.0),
    ];
    for instrument in presets() {
        for (date, time) in DATES.iter().flat_map(|date| TIMES_S.map(|time| (date, time))) {
            let moment = moment(&instrument, &mut track, date, time);
            for (size, label_px) in sizes {
                for limits in [false, true] {
                    let view = LensView { limits, ..view(&words, size, label_px) };
                    let drawing = drawn(&instrument, &moment, &view);
                    let what = format!("{} {date} {time} {size:?}", instrument.spec().name);
                    assert_legible(&drawing, &what);
                    assert_large(&drawing, label_px, &what);
                    assert_finite(&drawing, &what);
                }
            }
        }
    }
}

/// Fails when a mark that stands out, far from the next one of its kind, has no number over it.
fn assert_numbered(
    drawing: &Drawing,
    instrument: &Instrument,
    moment: &Moment,
    view: &LensView<'_>,
) {
    let (layout, window) = (Layout::of(view), Window::new(instrument, moment, view));
    let apart = |step_s: u32| f64::from(step_s) * window.px_per_s > view.size.x / 5.0;
    let finest_s = [60_u32, 300, 900, 3600].into_iter().find(|&step_s| {
        step_s.is_multiple_of(instrument.graduation().smallest_s()) && apart(step_s)
    });
    let Some(finest_s) = finest_s else { panic!("{}: nothing stands out", instrument.spec().name) };
    let (wall_left, wall_right) = window.wall_px();
    for side in Side::BOTH {
        let Some((from_s, to_s)) = window.visible_s(side) else { continue };
        let times = (from_s.ceil() as u32..=to_s as u32).filter(|time| time % finest_s == 0);
        for time in times.filter(|&time| time != 43_200) {
            let px = window.px(side, f64::from(time));
            let (text, half) = match (time % 3600, time % 300) {
                (0, _) => (None, 1.5 * view.label_px),
                (past, fifth) => {
                    let size = if fifth == 0 { 1.5 } else { 1.08 } * view.label_px;
                    let text = format!("{:02}", past / 60);
                    let half = text_width(&text, Typeface::Serif, size) / 2.0;
                    (Some(text), half)
                }
            };
            let clear = half + 0.4 * view.label_px;
            let by_wall = px + clear > wall_left && px - clear < wall_right;
            if px < half || px > view.size.x - half || by_wall {
                continue;
            }
            // A numeral of the hour before it, or the end of the stone, moves it aside.
            let near = |min: DVec2, max: DVec2| {
                let over = (f64::midpoint(min.x, max.x) - px).abs() < 1.8 * view.label_px;
                over && min.y >= layout.top && max.y <= layout.bottom
            };
            let numbered = drawing.marks().iter().any(|mark| match (mark, &text) {
                (Mark::Text { at, text: set, style }, Some(text)) => {
                    let (min, max) = text_box(*at, drawing.text_of(set), style);
                    drawing.text_of(set) == text && near(min, max)
                }
                (Mark::Fill { contours, .. }, None) => {
                    let corners = || drawing.contours(contours).flatten().copied();
                    let min = corners().fold(DVec2::MAX, DVec2::min);
                    near(min, corners().fold(DVec2::MIN, DVec2::max))
                }
                _ => false,
            });
            assert!(numbered, "the mark at {time} s, {px} px has no number");
        }
    }
}

/// Fails when an upright line runs through a text.
fn assert_not_struck(drawing: &Drawing) {
    let lines = drawing.marks().iter().filter_map(|mark| match mark {
        Mark::Line { contours, .. } => Some(drawing.contours(contours)),
        _ => None,
    });
    let upright = |ends: &[DVec2]| ends[0].x == ends[1].x;
    let lines = lines.flatten().flat_map(|line| line.windows(2)).filter(|ends| upright(ends));
    let lines: Vec<&[DVec2]> = lines.collect();
    for mark in drawing.marks() {
        let Mark::Text { at, text, style } = mark else { continue };
        let (min, max) = text_box(*at, drawing.text_of(text), style);
        // No figure goes below its line.
        let skin = 0.15 * style.size;
        for ends in &lines {
            let (top, bottom) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
            let apart = top.cmpge(max - skin).any() || bottom.cmple(min + skin).any();
            assert!(
                apart,
                "a line from {top} to {bottom} runs through “{}”",
                drawing.text_of(text)
            );
        }
    }
}

#[test]
fn the_shading_is_that_of_the_penumbra_at_every_pixel() {
    let (words, mut track) = (Words::english(), SunTrack::new());
    let view = view(&words, (640.0, 190.0), 13.0);
    let palette = view.palette;
    let red = |colour: Colour| f64::from(colour.rgb[0]);
    for instrument in presets() {
        let moment = moment(&instrument, &mut track, "2026-10-18", -7640.0);
        let sun = moment.on_dial;
        let half_rad = half_width_rad(moment.sun.semidiameter_rad, sun.declination_rad);
        let drawing = drawn(&instrument, &moment, &view);
        let window = Window::new(&instrument, &moment, &view);
        let Some((from_s, to_s)) = window.visible_s(Side::West) else { panic!("no edge in view") };
        let mut seen = 0;
        for px in 0..640 {
            let px = f64::from(px);
            let time = from_s + px / window.px_per_s;
            if time > to_s {
                continue;
            }
            let angle = hour_angle_of_mark(&instrument, Side::West, time);
            let expected = uncovered_fraction((sun.hour_angle_rad - angle) / half_rad);
            let colour = painted_at(&drawing, px);
            let light =
                (red(colour) - red(palette.umbra)) / (red(palette.lit) - red(palette.umbra));
            let off = (light - expected).abs();
            // The range between lit and umbra is less than half of all shades.
            assert!(off < 2.5 * SHADE_STEP, "{px}: light {light}, by the formula {expected}");
            seen += usize::from((0.02..0.98).contains(&expected));
        }
        assert!(seen > 20, "{}: the penumbra is {seen} px broad", instrument.spec().name);
    }
}

/// Colour of the enlarged band at a pixel column: the last gradient that reaches it.
fn painted_at(drawing: &Drawing, px: f64) -> Colour {
    let shade = |mark: &Mark| match mark {
        Mark::Gradient { from, to, stops, .. } if (from.x..=to.x).contains(&px) => {
            let place = (px - from.x) / (to.x - from.x);
            let stops = drawing.stops(stops);
            let after = stops.partition_point(|stop| stop.0 < place).clamp(1, stops.len() - 1);
            let (low, high) = (stops[after - 1], stops[after]);
            let share = (place - low.0) / (high.0 - low.0).max(1e-12);
            Some(low.1.mixed(high.1, share))
        }
        _ => None,
    };
    let painted = drawing.marks().iter().rev().find_map(shade);
    painted.unwrap_or_else(|| panic!("no stone at {px}"))
}

#[test]
fn the_light_along_both_quadrants_is_that_of_the_disc_past_wall_and_arc() {
    let mut track = SunTrack::new();
    let (mut largest, mut compared) = (0.0_f64, 0);
    for instrument in presets() {
        for (date, time) in DATES.iter().flat_map(|date| TIMES_S.map(|time| (date, time))) {
            let moment = moment(&instrument, &mut track, date, time);
            let light = StoneLight::new(&instrument, &moment);
            let disc = SunDisc {
                centre: moment.on_dial,
                semidiameter_rad: moment.sun.semidiameter_rad,
                limb: LimbDarkening::Uniform,
                horizon: true,
            };
            let near_edge = [-0.9, -0.5, 0.0, 0.4, 0.8].map(|x| {
                let angle = disc.centre.hour_angle_rad;
                angle + x * half_width_rad(disc.semidiameter_rad, disc.centre.declination_rad)
            });
            for side in Side::BOTH {
                let even =
                    (1..90).step_by(4).map(|degree| side.sign() * f64::from(degree).to_radians());
                for angle in even.chain(near_edge) {
                    let on_stone = (0.0..1.56).contains(&(angle * side.sign()));
                    if !on_stone {
                        continue;
                    }
                    let exact = lit_fraction(&instrument, &disc, side, angle, light.axial_m);
                    let off = (light.at(side, angle) - exact).abs();
                    let what = format!("{} {date} {time} {side:?}", instrument.spec().name);
                    assert!(off < CLOSED_FORM, "{what} {angle}: off by {off}");
                    largest = largest.max(off);
                    compared += 1;
                }
            }
        }
    }
    println!("light in the lens: largest deviation {largest:.2e} at {compared} points");
    assert!(compared > 5_000, "only {compared} points were compared");
}

#[test]
fn a_half_risen_sun_lights_the_stone_by_its_visible_share() {
    let mut track = SunTrack::new();
    let (mut largest, mut compared) = (0.0_f64, 0);
    for instrument in presets() {
        for step in 0..60 {
            let time = -21_700.0 + 30.0 * f64::from(step);
            let moment = moment(&instrument, &mut track, "2026-10-18", time);
            let altitude_rad = moment.sun.seen.altitude_rad;
            if altitude_rad.abs() >= moment.sun.semidiameter_rad {
                continue;
            }
            for limb in [LimbDarkening::Uniform, LimbDarkening::Linear] {
                let moment = Moment { limb, ..moment.clone() };
                let light = StoneLight::new(&instrument, &moment);
                let disc = SunDisc {
                    centre: moment.on_dial,
                    semidiameter_rad: moment.sun.semidiameter_rad,
                    limb,
                    horizon: true,
                };
                for degree in 1..90 {
                    let angle = -f64::from(degree).to_radians();
                    let exact = lit_fraction(&instrument, &disc, Side::West, angle, light.axial_m);
                    let off = (light.at(Side::West, angle) - exact).abs();
                    largest = largest.max(off);
                    compared += usize::from(exact > 0.01 && exact < 0.99);
                }
            }
        }
    }
    println!("half-risen Sun: largest deviation {largest:.2e} at {compared} points");
    assert!(compared > 20, "only {compared} points were lit in part");
    assert!(largest < CLOSED_FORM, "off by {largest}");
}

#[test]
fn both_feet_are_half_lit_at_noon_and_the_wall_stands_in_the_middle() {
    let (words, mut track) = (Words::english(), SunTrack::new());
    let view = view(&words, (364.0, 190.0), 13.0);
    for instrument in presets() {
        let moment = moment(&instrument, &mut track, "2026-10-18", 0.0);
        let light = StoneLight::new(&instrument, &moment);
        for side in Side::BOTH {
            let foot = light.at(side, 0.0);
            assert!((foot - 0.5).abs() < 1e-3, "{side:?} foot: {foot}");
        }
        let (left, right) = Window::new(&instrument, &moment, &view).wall_px();
        assert!((f64::midpoint(left, right) - 182.0).abs() < 0.1, "wall from {left} to {right}");
    }
}

#[test]
fn times_run_left_to_right_over_both_quadrants() {
    let (words, mut track) = (Words::english(), SunTrack::new());
    let view = view(&words, (364.0, 190.0), 13.0);
    for instrument in presets() {
        let moment = moment(&instrument, &mut track, "2026-10-18", 100.0);
        let window = Window::new(&instrument, &moment, &view);
        let times = [39_000.0, 43_000.0, 43_199.0].map(|time| window.px(Side::West, time));
        let later = [43_201.0, 43_300.0, 47_000.0].map(|time| window.px(Side::East, time));
        let places: Vec<f64> = times.into_iter().chain(later).collect();
        assert!(places.is_sorted(), "{places:?}");
        assert!(later[0] > window.wall_px().1 && times[2] < window.wall_px().0);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(384))]
    #[test]
    fn words_give_way_to_the_numbers_of_marks_that_stand_out(
        preset in 0..PRESETS.len(),
        (month, day) in (1..=12, 1..=28),
        from_noon_s in -21_500.0..21_500.0_f64,
        language in proptest::option::of(0..2_usize),
        // As on a desk, a tablet, a phone, a narrow window and a wall.
        (size, label_px) in prop_oneof![
            Just(((363.0, 155.0), 14.0)),
            Just(((330.0, 140.0), 14.0)),
            Just(((340.0, 150.0), 14.0)),
            Just(((290.0, 130.0), 14.0)),
            Just(((480.0, 230.0), 14.0)),
            Just(((600.0, 300.0), 28.0)),
        ],
        limits: bool,
    ) {
        let catalogues = [include_str!("../../words/ar.json"), include_str!("../../words/hi.json")];
        let words = language.map_or(Some(Words::english()), |language: usize| {
            Words::english().in_language(catalogues[language])
        });
        let Some(words) = words else { panic!("a catalogue") };
        let instrument = &presets()[preset];
        let date = format!("2026-{month:02}-{day:02}");
        let moment = moment(instrument, &mut SunTrack::new(), &date, from_noon_s);
        let view = LensView { limits, ..view(&words, size, label_px) };
        let drawing = drawn(instrument, &moment, &view);
        assert_legible(&drawing, "lens");
        assert_large(&drawing, label_px, "lens");
        // Where nothing is read, a small picture of the reason lies over some of the marks.
        if moment.reading.is_ok() {
            assert_numbered(&drawing, instrument, &moment, &view);
            assert_not_struck(&drawing);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]
    #[test]
    fn any_moment_at_any_latitude_can_be_drawn(
        latitude in -90.0..90.0_f64,
        ms in Instant::FIRST.unix_ms()..Instant::LAST.unix_ms(),
        centre in proptest::option::of(0.0..86_400.0_f64),
        width in 20.0..900.0_f64,
        height in 20.0..500.0_f64,
        label_px in 13.0..24.0_f64,
    ) {
        let words = Words::english();
        let instrument = dial_at(latitude);
        let mut track = SunTrack::new();
        let moment = Moment::compute(&instrument, instant(ms), &conditions(), &mut track);
        let view = LensView { centre_s: centre, ..view(&words, (width, height), label_px) };
        let drawing = drawn(&instrument, &moment, &view);
        assert_finite(&drawing, "lens");
        assert_legible(&drawing, "lens");
    }

    #[test]
    fn poles_and_ends_of_time_can_be_drawn(
        latitude in prop_oneof![Just(90.0_f64), Just(-90.0), Just(0.0), Just(89.999)],
        instant in prop_oneof![Just(Instant::FIRST), Just(Instant::LAST)],
    ) {
        let words = Words::english();
        let instrument = dial_at(latitude);
        let mut track = SunTrack::new();
        let moment = Moment::compute(&instrument, instant, &conditions(), &mut track);
        let drawing = drawn(&instrument, &moment, &view(&words, (364.0, 190.0), 13.0));
        assert_finite(&drawing, "lens");
    }
}
