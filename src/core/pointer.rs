//! The declination scale: a rod held on the style, and where its shadow leaves the quadrant.

use crate::core::dial::DialAngles;
use crate::core::field::{FieldError, in_range};
use crate::core::instrument::{AxialEnd, Instrument, Side};
use crate::core::light::{LimbDarkening, SunDisc};
use crate::core::shadow::{axial_shadow_m, axial_shift_m};

/// Smallest division of the declination scales: ten minutes of arc (common practice, no source).
pub const SCALE_DIVISION_ARCMIN: f64 = 10.0;

/// A rod of round section held square across a style edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pointer {
    axial_m: f64,
    diameter_m: f64,
}

/// What the scale says with the rod where it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PointerReading {
    /// Axial coordinate of the middle of the rod's shadow, metres.
    pub shadow_m: f64,
    /// South and north limit of the shadow with its soft edges, axial metres.
    pub patch_m: (f64, f64),
    /// South and north limit of the full shadow; `None` when the rod is too thin to cover the Sun.
    pub core_m: Option<(f64, f64)>,
    /// Largest part of the Sun's light the rod takes, 0 to 1.
    pub peak_cover: f64,
}

/// A way to decide that the shadow is at the quadrant's edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Criterion {
    /// The middle of the rod's shadow is on the edge: unbiased.
    Middle,
    /// The last trace of the shadow leaves over the edge: reads too large by about half the
    /// Sun's breadth and half the rod's.
    LastTrace,
}

impl Pointer {
    /// Smallest and largest rod, metres.
    pub const DIAMETER_M: (f64, f64) = (0.001, 0.2);
    /// A finger, metres (common practice, no source).
    pub const FINGER_M: f64 = 0.018;

    /// Holds a rod at an axial coordinate of the style.
    ///
    /// # Errors
    /// When the place is not on the style, or the rod is not a rod.
    pub fn new(instrument: &Instrument, axial_m: f64, diameter_m: f64) -> Result<Self, FieldError> {
        let style =
            (instrument.style_end_m(AxialEnd::South), instrument.style_end_m(AxialEnd::North));
        in_range("place of the rod on the style", axial_m, style, "m")?;
        in_range("thickness of the rod", diameter_m, Self::DIAMETER_M, "m")?;
        Ok(Self { axial_m, diameter_m })
    }

    /// Axial coordinate of the rod, metres.
    #[must_use]
    pub fn axial_m(&self) -> f64 {
        self.axial_m
    }

    /// Thickness of the rod, metres.
    #[must_use]
    pub fn diameter_m(&self) -> f64 {
        self.diameter_m
    }

    /// Where the rod's shadow falls.
    #[must_use]
    pub fn shadow(&self, instrument: &Instrument, side: Side, disc: &SunDisc) -> PointerReading {
        let (sun, semidiameter_rad) = (disc.centre, disc.semidiameter_rad);
        let at = |tangent: f64, limb: f64| {
            self.limit_m(instrument, side, tangent, sun.declination_rad + limb * semidiameter_rad)
        };
        let core = (at(-1.0, -1.0), at(1.0, 1.0));
        // The rod stands off the stone by the length of the ray, R / cos δ.
        let ray_m = instrument.built_radius_m(side) / sun.declination_rad.cos();
        let half_width = (self.diameter_m / 2.0 / ray_m).asin() / semidiameter_rad;
        PointerReading {
            shadow_m: axial_shadow_m(instrument, side, self.axial_m, sun.declination_rad),
            patch_m: (at(-1.0, 1.0), at(1.0, -1.0)),
            core_m: (core.0 < core.1).then_some(core),
            peak_cover: band_cover(disc.limb, half_width.min(1.0)),
        }
    }

    /// Share of the Sun's light that the rod keeps from an axial coordinate of the quadrant.
    #[must_use]
    pub fn cover_at(
        &self,
        instrument: &Instrument,
        side: Side,
        disc: &SunDisc,
        axial_m: f64,
    ) -> f64 {
        // In the plane of style and ray: the rod's axis seen from the stone, and half its width.
        let radius_m = instrument.built_radius_m(side);
        let ray_m = radius_m.hypot(self.axial_m - axial_m);
        let towards_rod = (self.axial_m - axial_m).atan2(radius_m);
        let off = towards_rod - disc.centre.declination_rad;
        let half = (self.diameter_m / 2.0 / ray_m).asin();
        let edge = |angle: f64| disc.limb.past_edge(angle / disc.semidiameter_rad);
        edge(off + half) - edge(off - half)
    }

    /// Where the ray that touches the rod on its north (+1) or south (−1) side meets the quadrant.
    fn limit_m(&self, instrument: &Instrument, side: Side, tangent: f64, ray_rad: f64) -> f64 {
        let touched_m = self.axial_m + tangent * self.diameter_m / 2.0 / ray_rad.cos();
        axial_shadow_m(instrument, side, touched_m, ray_rad)
    }
}

/// Share of a disc's light behind a central band of this half width (in semidiameters).
fn band_cover(limb: LimbDarkening, half_width: f64) -> f64 {
    2.0 * limb.past_edge(half_width) - 1.0
}

/// Declination that the scale of an edge of the quadrants shows at a place on the style, radians:
/// a tangent scale whose zero stands square to that edge.
#[must_use]
pub fn scale_at(instrument: &Instrument, edge: AxialEnd, axial_m: f64) -> f64 {
    ((axial_m - instrument.quadrant_edge_m(edge)) / instrument.radius_m()).atan()
}

/// Place on the style of a graduation of the scale, axial metres: the inverse of [`scale_at`].
#[must_use]
pub fn graduation_m(instrument: &Instrument, edge: AxialEnd, declination_rad: f64) -> f64 {
    instrument.quadrant_edge_m(edge) + instrument.radius_m() * declination_rad.tan()
}

/// Where the rod must be held for its shadow to be at an edge of the quadrant, by a criterion.
#[must_use]
pub fn place_for_edge_m(
    instrument: &Instrument,
    side: Side,
    edge: AxialEnd,
    criterion: Criterion,
    sun: DialAngles,
    (semidiameter_rad, diameter_m): (f64, f64),
) -> f64 {
    let (limb_rad, half_m) = match criterion {
        Criterion::Middle => (0.0, 0.0),
        Criterion::LastTrace => (edge.sign() * semidiameter_rad, edge.sign() * diameter_m / 2.0),
    };
    let ray_rad = sun.declination_rad + limb_rad;
    instrument.quadrant_edge_m(edge) - axial_shift_m(instrument, side, ray_rad)
        + half_m / ray_rad.cos()
}

/// Where a rod must be held for the last trace of its shadow to leave over an edge, when the eye
/// sees a trace as long as the rod takes `least_cover` of the Sun's light (0 to the rod's peak).
///
/// With `least_cover` 0 this is [`Criterion::LastTrace`] itself. Found by halving, to 1e-9 m.
#[must_use]
pub fn place_for_trace_m(
    instrument: &Instrument,
    side: Side,
    edge: AxialEnd,
    least_cover: f64,
    disc: &SunDisc,
    diameter_m: f64,
) -> f64 {
    let size = (disc.semidiameter_rad, diameter_m);
    let place = |criterion| place_for_edge_m(instrument, side, edge, criterion, disc.centre, size);
    let (mut seen_m, mut gone_m) = (place(Criterion::Middle), place(Criterion::LastTrace));
    let edge_m = instrument.quadrant_edge_m(edge);
    while (gone_m - seen_m).abs() > 1e-9 {
        let axial_m = f64::midpoint(seen_m, gone_m);
        let rod = Pointer { axial_m, diameter_m };
        if rod.cover_at(instrument, side, disc, edge_m) > least_cover {
            seen_m = axial_m;
        } else {
            gone_m = axial_m;
        }
    }
    f64::midpoint(seen_m, gone_m)
}

/// Whether the style reaches a place.
#[must_use]
pub fn on_style(instrument: &Instrument, axial_m: f64) -> bool {
    (instrument.style_end_m(AxialEnd::South)..=instrument.style_end_m(AxialEnd::North))
        .contains(&axial_m)
}
