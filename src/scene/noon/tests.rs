//! Tests of the pass through noon as a picture.

use proptest::prelude::*;

use super::*;
use crate::core::instrument::{InstrumentSpec, PRESETS};
use crate::core::light::{LimbDarkening, SunDisc, lit_fraction};
use crate::core::penumbra::uncovered_fraction;
use crate::core::sky::SunTrack;
use crate::scene::checks::{
    DATES, assert_finite, assert_large, assert_legible, conditions, dial_at, instant, moment,
    presets,
};
use crate::scene::palette::Theme;

/// The closed form of a straight edge against the exact outline of wall, arc and disc.
const CLOSED_FORM: f64 = 2e-3;

/// Seconds from noon to draw: far away, at the boundaries, and between them.
const OFFSETS_S: [f64; 9] = [-9000.0, -90.0, -64.0, -20.0, 0.0, 5.0, 20.0, 90.0, 30_000.0];

fn view(words: &Words, size: DVec2, label_px: f64) -> NoonView<'_> {
    let palette = Theme::Day.palette();
    NoonView { size, palette, words, label_px }
}

/// The pass of a date, and a moment so long after it.
fn pass_and_moment(
    instrument: &Instrument,
    date: &str,
    offset_s: f64,
    track: &mut SunTrack,
) -> (NoonPass, Moment) {
    let near = moment(instrument, track, date, 0.0).instant;
    let Some(pass) = NoonPass::near(instrument, near, &conditions(), track) else {
        panic!("{date} has a noon")
    };
    let at = pass.meridian.saturating_plus_seconds(offset_s);
    (pass, Moment::compute(instrument, at, &conditions(), track))
}

fn with_gap(foot_gap_m: f64) -> Instrument {
    let spec = InstrumentSpec { foot_gap_m, ..PRESETS[0].spec() };
    Instrument::new(spec).unwrap_or_else(|error| panic!("{error}"))
}

fn drawn(
    instrument: &Instrument,
    moment: &Moment,
    pass: &NoonPass,
    view: &NoonView<'_>,
) -> Drawing {
    let mut drawing = Drawing::new(view.size);
    draw(&mut drawing, instrument, moment, pass, view);
    drawing
}

#[test]
fn no_words_touch_or_are_cut_off_at_any_width_on_any_instrument() {
    let (words, mut track) = (Words::english(), SunTrack::new());
    let mut dials = presets();
    dials.extend([dial_at(78.0), dial_at(-70.0), dial_at(0.0), with_gap(0.02), with_gap(0.7)]);
    for instrument in dials {
        for date in [DATES[0], DATES[1], DATES[3]] {
            for offset_s in OFFSETS_S {
                let (pass, moment) = pass_and_moment(&instrument, date, offset_s, &mut track);
                for (width, label_px) in
                    [(300.0, 13.0), (364.0, 14.0), (460.0, 14.0), (640.0, 23.0), (900.0, 14.0)]
                {
                    let size = DVec2::new(width, height_px(label_px));
                    let drawing = drawn(&instrument, &moment, &pass, &view(&words, size, label_px));
                    let what = format!("{} {date} {offset_s} {size}", instrument.spec().name);
                    assert_legible(&drawing, &what);
                    assert_large(&drawing, label_px, &what);
                    assert_finite(&drawing, &what);
                }
            }
        }
    }
}

#[test]
fn the_headline_and_every_interval_are_told_at_the_narrowest_width() {
    let (words, mut track) = (Words::english(), SunTrack::new());
    let size = DVec2::new(300.0, height_px(13.0));
    for instrument in presets() {
        for offset_s in OFFSETS_S {
            let (pass, moment) = pass_and_moment(&instrument, DATES[3], offset_s, &mut track);
            let view = view(&words, size, 13.0);
            let drawing = drawn(&instrument, &moment, &pass, &view);
            let lines = drawing.marks().iter().filter_map(|mark| match mark {
                crate::scene::drawing::Mark::Text { at, text, .. } => {
                    Some((at.y, drawing.text_of(text)))
                }
                _ => None,
            });
            let texts: Vec<_> = lines.collect();
            let layout = Layout::of(&view);
            let headline = texts.iter().any(|(y, _)| *y == layout.headline_y);
            assert!(headline, "no countdown {offset_s} s from noon");
            for word in ["nature", "custom", "true noon"] {
                let told = texts.iter().any(|(_, text)| text.contains(word));
                assert!(told, "{word} is not told {offset_s} s from noon: {texts:?}");
            }
        }
    }
}

#[test]
fn the_curves_are_the_light_at_the_feet_and_mirror_each_other() {
    let (words, mut track) = (Words::english(), SunTrack::new());
    let size = DVec2::new(640.0, 420.0);
    let mut largest = 0.0_f64;
    for instrument in presets() {
        let (pass, _) = pass_and_moment(&instrument, DATES[3], 0.0, &mut track);
        for offset_s in [-80.0, -50.0, -20.0, 0.0, 13.0, 40.0, 70.0] {
            let (_, moment) = pass_and_moment(&instrument, DATES[3], offset_s, &mut track);
            let mut drawing = Drawing::new(size);
            let view = view(&words, size, 14.0);
            let noon = noon(&mut drawing, &instrument, &moment, &pass, &view);
            let disc = SunDisc {
                centre: moment.on_dial,
                semidiameter_rad: moment.sun.semidiameter_rad,
                limb: LimbDarkening::Uniform,
                horizon: true,
            };
            for side in Side::BOTH {
                let curve = noon.foot_light(side, offset_s);
                let exact = lit_fraction(&instrument, &disc, side, 0.0, noon.light.axial_m);
                let now = noon.foot_light_now(side);
                largest = largest.max((curve - exact).abs()).max((now - exact).abs());
            }
            let sum = noon.foot_light(Side::West, offset_s) + noon.foot_light(Side::East, offset_s);
            assert!((sum - 1.0).abs() < 1e-9, "the feet share one Sun: {sum}");
        }
    }
    println!("light at the feet: largest deviation {largest:.2e}");
    assert!(largest < CLOSED_FORM, "curves off the exact light by {largest}");
}

#[test]
fn over_a_pass_each_foot_has_half_of_the_light_and_half_of_it_at_noon() {
    let (words, mut track) = (Words::english(), SunTrack::new());
    for instrument in presets() {
        let (pass, moment) = pass_and_moment(&instrument, DATES[3], 0.0, &mut track);
        let mut drawing = Drawing::new(DVec2::ONE);
        let view = view(&words, DVec2::new(640.0, 420.0), 14.0);
        let noon = noon(&mut drawing, &instrument, &moment, &pass, &view);
        for side in Side::BOTH {
            let at_noon = noon.foot_light(side, 0.0);
            assert!((at_noon - 0.5).abs() < 1e-9, "{side:?} foot at noon: {at_noon}");
            let offsets = (-90..=90).map(f64::from);
            let mean: f64 =
                offsets.map(|offset_s| noon.foot_light(side, offset_s)).sum::<f64>() / 181.0;
            assert!((mean - 0.5).abs() < 1e-9, "{side:?} foot over a pass: {mean}");
        }
    }
}

#[test]
fn a_foot_gap_parts_the_curves_by_itself() {
    let (words, mut track) = (Words::english(), SunTrack::new());
    let instrument = with_gap(0.005);
    let (pass, moment) = pass_and_moment(&instrument, DATES[3], 0.0, &mut track);
    let mut drawing = Drawing::new(DVec2::ONE);
    let view = view(&words, DVec2::new(640.0, 420.0), 14.0);
    let noon = noon(&mut drawing, &instrument, &moment, &pass, &view);
    // On the west quadrant the first usable mark stands before noon, and clears so much sooner.
    let gap_rad = 0.005 / 2.9;
    let past =
        gap_rad / half_width_rad(moment.sun.semidiameter_rad, moment.on_dial.declination_rad);
    for side in Side::BOTH {
        let light = noon.foot_light(side, 0.0);
        let expected = uncovered_fraction(past);
        assert!((light - expected).abs() < 1e-9, "{side:?}: {light}, by the formula {expected}");
    }
}

#[test]
fn a_noon_without_a_sun_is_told() {
    let (words, mut track) = (Words::english(), SunTrack::new());
    let instrument = dial_at(78.0);
    let (pass, moment) = pass_and_moment(&instrument, DATES[1], -20.0, &mut track);
    let mut drawing = Drawing::new(DVec2::ONE);
    let view = view(&words, DVec2::new(640.0, 420.0), 14.0);
    let noon = noon(&mut drawing, &instrument, &moment, &pass, &view);
    assert!(noon.sun_is_down_at_noon());
    assert_eq!(noon.foot_light(Side::West, 60.0), 0.0);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    #[test]
    fn any_pass_at_any_latitude_can_be_drawn(
        latitude in prop_oneof![-90.0..90.0_f64, Just(90.0), Just(-90.0)],
        ms in Instant::FIRST.unix_ms()..Instant::LAST.unix_ms(),
        offset_s in -200.0..200.0_f64,
        width in 20.0..900.0_f64,
        height in 20.0..700.0_f64,
        label_px in 13.0..24.0_f64,
    ) {
        let (words, mut track) = (Words::english(), SunTrack::new());
        let instrument = dial_at(latitude);
        if let Some(pass) = NoonPass::near(&instrument, instant(ms), &conditions(), &mut track) {
            let at = pass.meridian.saturating_plus_seconds(offset_s);
            let moment = Moment::compute(&instrument, at, &conditions(), &mut track);
            let view = view(&words, DVec2::new(width, height), label_px);
            let drawing = drawn(&instrument, &moment, &pass, &view);
            assert_finite(&drawing, "noon");
            assert_legible(&drawing, "noon");
        }
    }
}
