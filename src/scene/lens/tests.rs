//! Tests of the lens as a picture.

use proptest::prelude::*;

use super::*;
use crate::core::light::{LimbDarkening, SunDisc, lit_fraction};
use crate::core::penumbra::{half_width_rad, uncovered_fraction};
use crate::core::reading::hour_angle_of_mark;
use crate::core::sky::SunTrack;
use crate::core::time::Instant;
use crate::scene::checks::{
    DATES, TIMES_S, assert_finite, assert_large, assert_legible, conditions, dial_at, instant,
    moment, presets,
};
use crate::scene::drawing::Mark;
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
