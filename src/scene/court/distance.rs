//! What lies beyond the court: sky, Sun, hills and lawn.

use std::f64::consts::TAU;

use glam::{DVec2, DVec3};

use super::convex::bounds;
use super::easel::Easel;
use super::light::Light;
use crate::scene::drawing::{Colour, rectangle};

/// Sky, hills and lawn, as far as the horizon is in the picture.
pub(super) fn paint(easel: &mut Easel<'_>, light: &Light<'_>) {
    let view = easel.view;
    let reach = 2.0 * view.size.length();
    let (high, low) = light.sky();
    let (paving, _) = light.paving();
    let lawn = light.far(paving.mixed(light.palette.hill_near, 0.42), 0.0);
    let Some((horizon, along, up)) = view.horizon() else {
        easel.drawing.fill(rectangle(DVec2::ZERO, view.size), lawn);
        return;
    };
    let quad = |from: f64, to: f64| {
        [(-reach, from), (reach, from), (reach, to), (-reach, to)]
            .map(|(x, y)| horizon + along * x + up * y)
    };
    let focal = view.focal();
    let tall = (0.36 * focal).max(0.3 * view.size.y);
    let sky = |share: f64| low.mixed(high, share);
    if view.in_motion {
        paint_bands(easel, quad, (-2.0, tall, reach), sky);
    } else {
        let stops = [(0.0, low), (1.0, high)];
        easel.drawing.gradient(quad(-2.0, reach), (horizon, horizon + up * tall), stops);
    }
    paint_sun(easel, light);
    paint_hills(easel, light, horizon, up);
    let (hazy, clearer) = (lawn.mixed(low, 0.5), lawn.mixed(low, 0.2));
    let deep = 0.22 * focal;
    if view.in_motion {
        let tone = |share: f64| {
            if share < 0.25 {
                hazy.mixed(clearer, 4.0 * share)
            } else {
                clearer.mixed(lawn, (share - 0.25) / 0.75)
            }
        };
        paint_bands(easel, quad, (0.0, -deep, -reach), tone);
    } else {
        let stops = [(0.0, hazy), (0.25, clearer), (1.0, lawn)];
        easel.drawing.gradient(quad(0.0, -reach), (horizon, horizon - up * deep), stops);
    }
}

/// What a gradient would paint between two heights over the horizon, and on to a third, in bands
/// of one colour each: a fraction of the work where browsers paint in software.
fn paint_bands(
    easel: &mut Easel<'_>,
    quad: impl Fn(f64, f64) -> [DVec2; 4],
    (from, to, end): (f64, f64, f64),
    tone: impl Fn(f64) -> Colour,
) {
    const BANDS: u32 = 24;
    let at = |k: u32| from + (to - from) * f64::from(k) / f64::from(BANDS);
    for k in 0..BANDS {
        let colour = tone((f64::from(k) + 0.5) / f64::from(BANDS));
        // Each lies under the next by a hair.
        fill_seen(easel, quad(at(k), at(k + 1) + (end - to).signum()), colour);
    }
    fill_seen(easel, quad(to, end), tone(1.0));
}

/// Fills what is not out of the frame.
fn fill_seen(easel: &mut Easel<'_>, corners: [DVec2; 4], colour: Colour) {
    let (low, high) = bounds(&corners);
    if easel.view.shows(low, high) {
        easel.drawing.fill(corners, colour);
    }
}

/// The Sun's disc with a little glow, where the eye looks towards it.
fn paint_sun(easel: &mut Easel<'_>, light: &Light<'_>) {
    let Some(centre) = easel.view.sun(light.to_sun).filter(|_| light.sun_is_up()) else { return };
    let disc = (light.semidiameter_rad * easel.view.focal()).max(5.0);
    let warm = light.palette.lit.mixed(light.palette.sky_low, 0.2);
    for (size, opacity) in [(9.0, 0.16), (5.0, 0.2), (2.6, 0.35), (1.0, 1.0)] {
        let ring =
            (0..36).map(|k| centre + DVec2::from_angle(f64::from(k) * TAU / 36.0) * (disc * size));
        easel.drawing.fill(ring, warm.faded(opacity));
    }
}

/// Ranges of hills: elevation and its swing, seeds, haze.
struct Range {
    base: f64,
    swing: f64,
    seed: f64,
    fineness: f64,
    haze: f64,
}

const RANGES: [Range; 3] = [
    Range { base: 0.058, swing: 0.026, seed: 0.6, fineness: 1.0, haze: 0.52 },
    Range { base: 0.030, swing: 0.014, seed: 2.4, fineness: 1.7, haze: 0.30 },
    Range { base: 0.012, swing: 0.0035, seed: 4.1, fineness: 9.0, haze: 0.10 },
];

fn paint_hills(easel: &mut Easel<'_>, light: &Light<'_>, horizon: DVec2, up: DVec2) {
    let view = easel.view;
    let steps = if view.in_motion { 50 } else { 110 };
    for (index, range) in RANGES.iter().enumerate() {
        let near = light.palette.hill_near;
        let colour = if index == 0 { light.palette.hill_far } else { near };
        // Whole numbers of waves, so that the ring closes.
        let waves = [(3.0, 1.0, 0.5), (7.0, 2.1, 0.3), (17.0, 3.0, 0.2)]
            .map(|(n, seed, share)| ((n * range.fineness).round(), seed * range.seed, share));
        let crest = |bearing: f64| {
            let swell: f64 =
                waves.iter().map(|(n, seed, share)| share * (n * bearing + seed).sin()).sum();
            range.base + range.swing * swell
        };
        let mut ridge: Vec<DVec2> = Vec::new();
        let ahead = view.horizon_ahead();
        let middle = ahead.y.atan2(ahead.x);
        for step in 0..=steps {
            let off = (f64::from(step) / f64::from(steps) - 0.5) * 2.4;
            let bearing = middle - off;
            let (sin, cos) = bearing.sin_cos();
            let seen = view.direction(DVec3::new(cos, sin, crest(bearing)));
            if seen.z > 0.15 {
                let point = view.picture(seen);
                let margin = 0.2 * view.size.length();
                if point.distance(view.size / 2.0) < view.size.length() + margin {
                    ridge.push(point);
                }
            }
        }
        let (Some(&first), Some(&last)) = (ridge.first(), ridge.last()) else { continue };
        let along = up.perp();
        let foot = |p: DVec2| horizon + along * (p - horizon).dot(along) - up * 3.0;
        ridge.extend([foot(last), foot(first)]);
        easel.drawing.fill(ridge, light.far(colour, range.haze));
    }
}
