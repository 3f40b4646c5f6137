//! Tones of stone, ground and sky under the Sun.

use glam::{DVec2, DVec3};

use crate::core::light::{LimbDarkening, clear_sun, contrast as contrast_of};
use crate::core::moment::Moment;
use crate::scene::drawing::Colour;
use crate::scene::palette::{Palette, Theme};

use super::plan::Plan;

/// What a low Sun mixes into sky and stone.
const WARM: Colour = Colour::hex(0xefcfa2);
/// The blue that an evening lays over stone, and a night over land.
const DUSK: Colour = Colour::hex(0x5b6884);
const DARK_LAND: Colour = Colour::hex(0x333c4c);
/// Top and foot of the sky six degrees after sunset, and at night.
const DUSK_SKY: [Colour; 2] = [Colour::hex(0x44566f), Colour::hex(0xb59a90)];
const NIGHT_SKY: [Colour; 2] = [Colour::hex(0x1c2737), Colour::hex(0x46546a)];

/// The light of one moment, in the court's frame.
#[derive(Debug)]
pub(super) struct Light<'a> {
    pub(super) palette: &'a Palette,
    /// Unit vector towards the Sun as its light arrives.
    pub(super) to_sun: DVec3,
    /// Hour angle and declination about the style, as the court's frame counts them: hour angle
    /// west positive, declination positive towards the raised end of the style.
    pub(super) hour_angle_rad: f64,
    pub(super) declination_rad: f64,
    pub(super) semidiameter_rad: f64,
    /// How bright the disc is towards its limb.
    pub(super) limb: LimbDarkening,
    /// Contrast of sunlight and shade beside that of a high Sun, 0 to 1: it fades as the Sun's
    /// way through the air grows long, and while its disc sets.
    pub(super) direct: f64,
    /// 0 with the Sun high, 1 with the Sun at the horizon or under it.
    warm: f64,
    /// 0 by day, 1 once the twilight is half gone.
    dusk: f64,
    /// 0 until then, 1 at night.
    night: f64,
    /// How far night may darken this palette.
    depth: f64,
}

impl<'a> Light<'a> {
    pub(super) fn new(plan: &Plan, moment: &Moment, palette: &'a Palette) -> Self {
        let altitude_deg = moment.sun.seen.altitude_rad.to_degrees();
        let step = |from: f64, to: f64| ((altitude_deg - from) / (to - from)).clamp(0.0, 1.0);
        let glare = palette == Theme::Glare.palette();
        Self {
            palette,
            to_sun: plan.to_court(moment.sun.seen.vector),
            hour_angle_rad: moment.on_dial.hour_angle_rad,
            declination_rad: moment.on_dial.declination_rad * plan.sigma,
            semidiameter_rad: moment.sun.semidiameter_rad,
            limb: moment.limb,
            direct: direct_strength(moment),
            warm: step(20.0, 0.0),
            dusk: step(0.5, -6.0),
            night: step(-5.0, -14.0),
            depth: if glare { 0.35 } else { 1.0 },
        }
    }

    /// Ink and paper for texts over the picture: the other way round where a dark sky swallows the ink.
    pub(super) fn inks(&self) -> (Colour, Colour) {
        let (ink, paper) = (self.palette.ink, self.palette.paper);
        let (_, sky) = self.sky();
        if contrast(sky, ink) < contrast(sky, paper) { (paper, sky) } else { (ink, paper) }
    }

    /// Whether the Sun throws shadows.
    pub(super) fn sun_is_up(&self) -> bool {
        self.direct > 0.0
    }

    /// Tone of a face with this outward normal that nothing shades.
    pub(super) fn stone(&self, normal: DVec3) -> Colour {
        self.stone_over(self.shaded(normal), normal)
    }

    /// The same, with a given tone where the Sun does not reach.
    pub(super) fn stone_over(&self, shade: Colour, normal: DVec3) -> Colour {
        if self.direct == 0.0 {
            return shade;
        }
        let c = normal.dot(self.to_sun);
        let lit = self.sunlit(c);
        shade.mixed(lit, self.turned(normal) * self.direct)
    }

    /// How far a face has turned to the Sun, 0 to 1: from one side of it to the other there is no
    /// jump.
    pub(super) fn turned(&self, normal: DVec3) -> f64 {
        (normal.dot(self.to_sun) / 0.05).clamp(0.0, 1.0)
    }

    /// Tone in direct sunlight that falls at this cosine.
    fn sunlit(&self, cosine: f64) -> Colour {
        let p = self.palette;
        let grazing = p.shade.mixed(p.mid, 0.34);
        let mid = grazing.mixed(p.mid, 0.92);
        let tone = if cosine < 0.3 {
            grazing.mixed(mid, (cosine.max(0.0) / 0.3 * std::f64::consts::FRAC_PI_2).sin())
        } else {
            mid.mixed(p.lit, ((cosine - 0.3) / 0.55).min(1.0))
        };
        tone.mixed(WARM, 0.16 * self.warm * self.depth)
    }

    /// Tone of a face out of the Sun.
    pub(super) fn shaded(&self, normal: DVec3) -> Colour {
        let p = self.palette;
        let away = (-normal.dot(self.to_sun)).max(0.0) * (1.0 - self.dusk);
        // Without a Sun, the sky still tells top from side, and one side from the other.
        let by_sky = self.dusk * (0.16 - 0.2 * normal.z + 0.1 * normal.x);
        let deep = 0.12 + 0.5 * away + 0.15 * (-normal.z).max(0.0) + by_sky;
        let pale = 0.3 * self.dusk * (0.35 + 0.65 * normal.z).max(0.0);
        self.evening(p.shade.mixed(p.deep, deep).mixed(p.lit, pale))
    }

    /// Tone of the reading surface in full shadow.
    pub(super) fn umbra(&self, normal: DVec3) -> Colour {
        let p = self.palette;
        self.evening(p.umbra.mixed(self.shaded(normal), 0.3))
    }

    /// Evening and night over a tone of stone that keeps engravings legible.
    fn evening(&self, tone: Colour) -> Colour {
        tone.mixed(DUSK, (0.16 * self.dusk + 0.12 * self.night) * self.depth)
    }

    /// Paving in the Sun, and in shadow.
    pub(super) fn paving(&self) -> (Colour, Colour) {
        let p = self.palette;
        let shadow = self.darkened(p.ground_shade, 0.45);
        let sunlit = p.ground_shade.mixed(p.ground, (0.35 + 2.2 * self.to_sun.z).clamp(0.0, 1.0));
        let sunlit = sunlit.mixed(WARM, 0.22 * self.warm * self.depth);
        (shadow.mixed(sunlit, self.direct), shadow)
    }

    /// Top and foot of the sky.
    pub(super) fn sky(&self) -> (Colour, Colour) {
        let p = self.palette;
        let low = p.sky_low.mixed(WARM, self.warm * self.depth * 0.9);
        let tone = |day: Colour, which: usize| {
            let evening = day.mixed(DUSK_SKY[which], self.dusk * self.depth * 0.9);
            evening.mixed(NIGHT_SKY[which], self.night * self.depth)
        };
        (tone(p.sky_high, 0), tone(low, 1))
    }

    /// Far things, seen through air.
    pub(super) fn far(&self, colour: Colour, haze: f64) -> Colour {
        self.darkened(colour, 0.62).mixed(self.sky().1, haze)
    }

    /// A colour of the landscape, darkened by dusk and night.
    fn darkened(&self, colour: Colour, by: f64) -> Colour {
        let share = (0.55 * self.dusk + 0.45 * self.night) * by * self.depth;
        colour.mixed(DARK_LAND, share)
    }

    /// Engraving that can be read on a tone of stone.
    pub(super) fn engraving(&self, stone: Colour) -> Colour {
        let p = self.palette;
        [p.cut, p.cut_shade, p.cut_umbra].into_iter().fold(p.cut, |best, cut| {
            if contrast(cut, stone) > contrast(best, stone) { cut } else { best }
        })
    }

    /// Outlines and joints of the masonry.
    pub(super) fn line(&self) -> Colour {
        self.palette.cut.mixed(self.palette.deep, 0.22)
    }

    /// Directions towards points spread evenly over the Sun's disc.
    pub(super) fn disc(&self, count: u32) -> impl Iterator<Item = DVec3> {
        let across = self.to_sun.any_orthonormal_vector();
        let down = self.to_sun.cross(across);
        (0..count).map(move |i| {
            let i = f64::from(i);
            let radius = self.semidiameter_rad * ((i + 0.5) / f64::from(count)).sqrt();
            let place = DVec2::from_angle(i * GOLDEN_ANGLE) * radius;
            (self.to_sun + across * place.x + down * place.y).normalize()
        })
    }
}

/// Altitude at which sunlight is as strong beside the sky's as it gets, radians.
const HIGH_RAD: f64 = 0.5;

/// How strong the Sun's light is beside the sky's, 0 to 1.
fn direct_strength(moment: &Moment) -> f64 {
    let altitude_rad = moment.sun.seen.altitude_rad;
    let above = moment.limb.past_edge(altitude_rad / moment.sun.semidiameter_rad);
    let strength = |altitude_rad| contrast_of(clear_sun(altitude_rad), 0.0);
    (above * strength(altitude_rad) / strength(HIGH_RAD)).min(1.0)
}

/// Turn from one point to the next that spreads points evenly over a disc, radians.
const GOLDEN_ANGLE: f64 = 2.399_963_229_728_653;

/// Ratio of contrast of two colours, as the guidelines for the web define it.
pub(super) fn contrast(a: Colour, b: Colour) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

fn luminance(colour: Colour) -> f64 {
    let linear = colour.rgb.map(|channel| {
        let share = f64::from(channel) / 255.0;
        if share <= 0.04045 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
    });
    0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
}
