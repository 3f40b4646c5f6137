//! The declination scale close up: the style from the side with a rod held on it, the quadrant
//! below, and the rod's shadow leaving over the quadrant's edge.
//!
//! North is to the right. Lengths along the axis are true; the radius is shortened.

mod captions;
mod close_up;
mod overview;
mod patch;
mod profile;

use glam::DVec2;

use self::patch::Patch;
use super::axis::Axis;
use super::drawing::{Colour, Drawing};
use super::lettering::Lettering;
use super::palette::Palette;
use crate::core::instrument::{AxialEnd, Instrument, Side};
use crate::core::moment::Moment;
use crate::core::pointer::{
    Criterion, Pointer, graduation_m, on_style, place_for_edge_m, place_for_trace_m,
};
use crate::core::reading::NoReading;
use crate::words::Words;

/// Declination to which the scales are shown, degrees.
const SCALE_END_DEG: i32 = 24;
/// Height of the close view from which the curve of the shadow's depth has room, in label sizes.
const PROFILE_FROM: f64 = 8.0;
/// Half of what the close view spans, as an angle of the scale, radians (1.6°).
const CLOSE_HALF_RAD: f64 = 0.028;

/// How the declination scale is to be drawn.
#[derive(Clone, Copy, Debug)]
pub struct ScaleView<'a> {
    /// Width and height, CSS pixels.
    pub size: DVec2,
    /// Colours.
    pub palette: &'a Palette,
    /// Words.
    pub words: &'a Words,
    /// The rod.
    pub pointer: &'a Pointer,
    /// Part of the Sun's disc that the rod must hide for the eye to see its shadow, 0 to 1: 0.05
    /// is a usual assumption, 0 an eye that sees the last trace of all.
    pub least_cover: f64,
    /// Size of the labels, CSS pixels.
    pub label_px: f64,
}

/// Axial coordinates along the view, metres: as far as the scales of both edges are of use. The
/// style may end before; a rod can't be held where there is no style.
#[must_use]
pub fn axis(instrument: &Instrument, width_px: f64) -> Axis {
    let end_rad = f64::from(SCALE_END_DEG).to_radians();
    let south = graduation_m(instrument, AxialEnd::South, -end_rad);
    let north = graduation_m(instrument, AxialEnd::North, end_rad);
    Axis::along_strip((south, north), width_px)
}

/// Draws the declination scale.
pub fn draw(drawing: &mut Drawing, instrument: &Instrument, moment: &Moment, view: &ScaleView<'_>) {
    let layout = Layout::of(view);
    let patch = throws_shadow(moment).then(|| Patch::new(instrument, moment, view.pointer));
    let mut scale = Scale {
        drawing,
        instrument,
        moment,
        view,
        layout,
        axis: axis(instrument, view.size.x),
        close: close_axis(instrument, moment, view),
        patch,
        letters: Lettering::new(view.size),
    };
    if layout.overview {
        scale.draw_beam();
        scale.draw_overview();
    }
    scale.draw_captions();
    scale.draw_close_up();
}

/// Whether the Sun shines on a quadrant past the style's edge.
#[must_use]
pub fn throws_shadow(moment: &Moment) -> bool {
    use NoReading::{BeyondQuadrantEnd, Night, SunUnderHorizon};
    !matches!(moment.reading, Err(BeyondQuadrantEnd { .. } | Night { .. } | SunUnderHorizon { .. }))
}

/// The piece of the style round the rod that is shown enlarged.
fn close_axis(instrument: &Instrument, moment: &Moment, view: &ScaleView<'_>) -> Axis {
    let soft_m = instrument.radius_m() * moment.sun.semidiameter_rad;
    let patch_m = view.pointer.diameter_m() + 2.0 * soft_m;
    let half_m = (instrument.radius_m() * CLOSE_HALF_RAD).max(1.1 * patch_m);
    let middle_m = view.pointer.axial_m();
    Axis {
        min: middle_m - half_m,
        max: middle_m + half_m,
        left_px: 0.0,
        right_px: view.size.x.max(1.0),
    }
}

/// Heights of the parts, CSS pixels.
#[derive(Clone, Copy, Debug)]
struct Layout {
    /// One pixel at the smallest label size of the page.
    unit: f64,
    /// Whether there is room for the whole style and quadrant above.
    overview: bool,
    /// The style's edge in the overview.
    style_y: f64,
    /// Upper and lower side of the quadrant in the overview.
    quadrant: (f64, f64),
    /// Upper and lower side of the enlarged scale.
    close_scale: (f64, f64),
    /// Upper and lower side of the enlarged quadrant.
    close_quadrant: (f64, f64),
    /// Upper and lower side of the curve of the shadow's depth, where there is room for it.
    profile: Option<(f64, f64)>,
    /// Baseline of the captions at the foot.
    captions_y: f64,
}

impl Layout {
    fn of(view: &ScaleView<'_>) -> Self {
        let unit = view.label_px / 13.0;
        let overview = view.size.y >= 18.0 * view.label_px;
        let captions_y = view.size.y - 6.0 * unit;
        let foot = captions_y - 23.0 * unit;
        let start = if overview { (0.42 * view.size.y).max(112.0 * unit) } else { 0.0 };
        let labels = 18.0 * unit;
        // Two bands, a row of labels over each; the scale's the higher for its two rows of numbers.
        let bands = (foot - start - 2.0 * labels).max(20.0 * unit);
        let has_profile = bands >= PROFILE_FROM * view.label_px;
        let shares = if has_profile { (0.54, 0.12) } else { (0.62, 0.38) };
        let close_scale = (start + labels, start + labels + shares.0 * bands);
        let quadrant_top = close_scale.1 + labels;
        let quadrant_bottom = quadrant_top + shares.1 * bands;
        let quadrant_y = start - 30.0 * unit;
        Self {
            unit,
            overview,
            style_y: 34.0 * unit,
            quadrant: (quadrant_y, quadrant_y + 16.0 * unit),
            close_scale,
            close_quadrant: (quadrant_top, quadrant_bottom),
            profile: has_profile.then_some((quadrant_bottom + 13.0 * unit, foot + 4.0 * unit)),
            captions_y,
        }
    }
}

/// A declination scale being drawn.
struct Scale<'a> {
    drawing: &'a mut Drawing,
    instrument: &'a Instrument,
    moment: &'a Moment,
    view: &'a ScaleView<'a>,
    layout: Layout,
    axis: Axis,
    close: Axis,
    /// The rod's shadow, while the Sun throws one.
    patch: Option<Patch<'a>>,
    letters: Lettering,
}

impl Scale<'_> {
    /// The quadrant in use.
    fn side(&self) -> Side {
        Side::at_hour_angle(self.moment.on_dial.hour_angle_rad)
    }

    /// South and north end of the style, axial metres.
    fn style_m(&self) -> (f64, f64) {
        let [north, south] = AxialEnd::BOTH.map(|end| self.instrument.style_end_m(end));
        (south, north)
    }

    /// South and north edge of the quadrants, axial metres.
    fn quadrant_m(&self) -> (f64, f64) {
        let [north, south] = AxialEnd::BOTH.map(|end| self.instrument.quadrant_edge_m(end));
        (south, north)
    }

    /// Where the rod would have to be held for its shadow to be at an edge, if the style reaches.
    fn place_for(&self, edge: AxialEnd, criterion: Criterion) -> Option<f64> {
        let size = (self.moment.sun.semidiameter_rad, self.view.pointer.diameter_m());
        let (sun, side) = (self.moment.on_dial, self.side());
        let patch = self.patch?;
        let place = match criterion {
            Criterion::Middle => {
                place_for_edge_m(self.instrument, side, edge, criterion, sun, size)
            }
            Criterion::LastTrace => {
                let least_cover = self.view.least_cover;
                if patch.peak_cover <= least_cover {
                    return None;
                }
                let diameter_m = self.view.pointer.diameter_m();
                let disc = self.moment.disc();
                place_for_trace_m(self.instrument, side, edge, least_cover, &disc, diameter_m)
            }
        };
        on_style(self.instrument, place).then_some(place)
    }

    /// Whether some of the rod's shadow lies on an edge of the quadrant.
    fn is_on_edge(&self, edge: AxialEnd) -> bool {
        let edge_m = self.instrument.quadrant_edge_m(edge);
        self.patch.is_some_and(|patch| (patch.limits_m.0..=patch.limits_m.1).contains(&edge_m))
    }

    /// The quadrant's stone: lit while the Sun throws the rod's shadow on it.
    fn stone(&self, cover: f64) -> Colour {
        let palette = self.view.palette;
        let light = if self.patch.is_some() { 1.0 - cover } else { 0.0 };
        palette.umbra.mixed(palette.lit, light)
    }

    /// The stone between two axial places with the rod's shadow on it, as stops of a gradient.
    fn stone_stops(&self, (from_m, to_m): (f64, f64)) -> Vec<(f64, Colour)> {
        let places = self.patch.map(|patch| patch.places_m()).unwrap_or_default();
        let inside = places.into_iter().filter(|place| (from_m..=to_m).contains(place));
        let places = std::iter::once(from_m).chain(inside).chain([to_m]);
        let stop = |place: f64| {
            let cover = self.patch.map_or(0.0, |patch| patch.cover_at(place));
            (((place - from_m) / (to_m - from_m)).clamp(0.0, 1.0), self.stone(cover))
        };
        places.map(stop).collect()
    }
}

#[cfg(test)]
mod tests;
