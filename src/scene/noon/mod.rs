//! The pass through noon on both quadrants at once: the two feet with the wall between them, the
//! three intervals that are often taken for one, and how much of the Sun each foot sees.
//!
//! Everything lies along one axis of time, noon in the middle. The arcs are in the measure in which
//! the shadow runs along that axis, west at the left; the wall between them is drawn narrow.

mod countdown;
mod curves;
mod feet;
mod intervals;
mod sight;

use glam::DVec2;

use super::axis::Axis;
use super::drawing::{Anchor, Colour, Drawing};
use super::lettering::{Lettering, figure, label};
use super::palette::Palette;
use super::stone_light::StoneLight;
use crate::core::dial::DialAngles;
use crate::core::instrument::{Instrument, Side};
use crate::core::light::SunDisc;
use crate::core::moment::Moment;
use crate::core::noon::NoonPass;
use crate::core::penumbra::half_width_rad;
use crate::core::reading::{NOON_S, SECONDS_PER_RADIAN, hour_angle_of_mark};
use crate::core::time::Instant;
use crate::words::Words;

/// Least time shown to either side of noon, seconds.
const LEAST_HALF_S: f64 = 90.0;
/// Time shown to either side of noon, beside that of the outermost boundary.
const HALF_OVER_OUTERMOST: f64 = 1.3;
/// Within this of noon the declination of the moment is that of noon, seconds.
const NEAR_NOON_S: f64 = 900.0;
/// Height at which everything has room, in label sizes.
const HEIGHT_LABELS: f64 = 29.0;

/// How the pass through noon is to be drawn.
#[derive(Clone, Copy, Debug)]
pub struct NoonView<'a> {
    /// Width and height, CSS pixels; see [`height_px`].
    pub size: DVec2,
    /// Colours.
    pub palette: &'a Palette,
    /// Words.
    pub words: &'a Words,
    /// Size of the labels, CSS pixels.
    pub label_px: f64,
}

/// Height at which the whole picture has room, CSS pixels. It can be drawn higher, and lower: then
/// the curves are the first to go.
#[must_use]
pub fn height_px(label_px: f64) -> f64 {
    HEIGHT_LABELS * label_px
}

/// Clock time along the picture, seconds from the meridian, negative before it.
#[must_use]
pub fn axis(instrument: &Instrument, pass: &NoonPass, view: &NoonView<'_>) -> Axis {
    let unit = view.label_px / 13.0;
    let half_s = half_span_s(instrument, pass);
    let left_px = 46.0 * unit;
    let right_px = (view.size.x - 10.0 * unit).max(left_px + 1.0);
    Axis { min: -half_s, max: half_s, left_px, right_px }
}

/// Draws the pass through noon. The moment may be any of the day of the pass.
pub fn draw(
    drawing: &mut Drawing,
    instrument: &Instrument,
    moment: &Moment,
    pass: &NoonPass,
    view: &NoonView<'_>,
) {
    let mut noon = noon(drawing, instrument, moment, pass, view);
    let layout = noon.layout;
    noon.draw_countdown();
    noon.draw_sights();
    if layout.intervals {
        noon.draw_line_of_moment();
    }
    noon.draw_feet();
    if layout.intervals {
        noon.draw_intervals();
    }
    if layout.curves {
        noon.draw_curves();
    }
}

/// A pass ready to be drawn.
fn noon<'a>(
    drawing: &'a mut Drawing,
    instrument: &'a Instrument,
    moment: &'a Moment,
    pass: &'a NoonPass,
    view: &'a NoonView<'a>,
) -> Noon<'a> {
    Noon {
        drawing,
        instrument,
        moment,
        pass,
        view,
        layout: Layout::of(view),
        axis: axis(instrument, pass, view),
        sun: NoonSun::new(instrument, moment, pass),
        light: StoneLight::new(instrument, moment),
        letters: Lettering::new(view.size),
    }
}

/// Share of the Sun's light that reaches the first usable mark of the west and of the east foot at
/// a moment, each 0 to 1.
#[must_use]
pub fn feet_light(instrument: &Instrument, moment: &Moment) -> [f64; 2] {
    let light = StoneLight::new(instrument, moment);
    Side::BOTH.map(|side| light.at(side, first_mark_rad(instrument, side)))
}

/// Angle of the first usable mark of a quadrant: at the wall, or beyond a foot gap.
fn first_mark_rad(instrument: &Instrument, side: Side) -> f64 {
    let gap_s = instrument.foot_gap_rad() * SECONDS_PER_RADIAN;
    hour_angle_of_mark(instrument, side, NOON_S + side.sign() * gap_s)
}

/// Time to either side of noon that is shown, seconds: at least ninety, and all that happens.
fn half_span_s(instrument: &Instrument, pass: &NoonPass) -> f64 {
    let from_noon = |instant: Instant| instant.seconds_since(pass.meridian).abs();
    let gap_s = instrument.foot_gap_rad() * SECONDS_PER_RADIAN;
    let soft_s = from_noon(pass.soft.0).max(from_noon(pass.soft.1));
    let blind_s = from_noon(pass.blind.0).max(from_noon(pass.blind.1));
    (HALF_OVER_OUTERMOST * soft_s.max(blind_s).max(gap_s + soft_s)).max(LEAST_HALF_S)
}

/// Heights of the parts, CSS pixels.
#[derive(Clone, Copy, Debug)]
struct Layout {
    /// One pixel at the smallest label size of the page.
    unit: f64,
    /// Baselines of the countdown, and of the line under it.
    headline_y: f64,
    state_y: f64,
    /// Middle of the row that shows what each foot sees.
    sight_y: f64,
    /// Upper and lower side of the feet.
    feet: (f64, f64),
    /// Upper side of the intervals, and height of one of them.
    intervals_y: f64,
    interval_height: f64,
    /// Upper and lower side of the curves.
    plot: (f64, f64),
    /// Whether there is room for them.
    intervals: bool,
    curves: bool,
}

impl Layout {
    fn of(view: &NoonView<'_>) -> Self {
        let unit = view.label_px / 13.0;
        let spare = (view.size.y - height_px(view.label_px)).max(0.0);
        let feet_top = 92.0 * unit;
        let feet_bottom = feet_top + 62.0 * unit + 0.3 * spare;
        let intervals_y = feet_bottom + 22.0 * unit;
        let interval_height = 28.0 * unit;
        let intervals_bottom = intervals_y + 3.0 * interval_height;
        let plot_top = intervals_bottom + 12.0 * unit;
        let plot_bottom = view.size.y - 20.0 * unit;
        Self {
            unit,
            headline_y: 20.0 * unit,
            state_y: 39.0 * unit,
            sight_y: 64.0 * unit,
            feet: (feet_top, feet_bottom.min((view.size.y - 4.0 * unit).max(feet_top + 4.0))),
            intervals_y,
            interval_height,
            plot: (plot_top, plot_bottom),
            intervals: intervals_bottom <= view.size.y,
            curves: plot_bottom - plot_top >= 40.0 * unit,
        }
    }
}

/// The Sun as it passes the plane of the wall.
#[derive(Clone, Copy, Debug)]
struct NoonSun {
    declination_rad: f64,
    semidiameter_rad: f64,
    /// Angle about the style through which the Sun goes in a second, radians.
    rate: f64,
}

impl NoonSun {
    fn new(instrument: &Instrument, moment: &Moment, pass: &NoonPass) -> Self {
        let near = moment.instant.seconds_since(pass.meridian).abs() < NEAR_NOON_S;
        // Farther away the air bends the light otherwise than at noon.
        let declination_rad = if near {
            moment.on_dial.declination_rad
        } else {
            instrument.frame().angles(moment.sun.airless.vector).declination_rad
        };
        let semidiameter_rad = moment.sun.semidiameter_rad;
        let rate = 2.0 * half_width_rad(semidiameter_rad, declination_rad) / pass.soft_s().max(1.0);
        Self { declination_rad, semidiameter_rad, rate }
    }

    /// Its place on the dial, seconds from the meridian.
    fn at(&self, offset_s: f64) -> DialAngles {
        DialAngles { hour_angle_rad: self.rate * offset_s, declination_rad: self.declination_rad }
    }

    /// Half width of the soft edge on the quadrants, radians.
    fn half_width_rad(&self) -> f64 {
        half_width_rad(self.semidiameter_rad, self.declination_rad)
    }
}

/// A pass through noon being drawn.
struct Noon<'a> {
    drawing: &'a mut Drawing,
    instrument: &'a Instrument,
    moment: &'a Moment,
    pass: &'a NoonPass,
    view: &'a NoonView<'a>,
    layout: Layout,
    axis: Axis,
    sun: NoonSun,
    /// The light of the moment.
    light: StoneLight<'a>,
    letters: Lettering,
}

impl Noon<'_> {
    /// An instant, seconds from the meridian.
    fn offset_s(&self, instant: Instant) -> f64 {
        instant.seconds_since(self.pass.meridian)
    }

    /// Angle of the first usable mark of a quadrant: at the wall, or beyond a foot gap.
    fn first_mark_rad(&self, side: Side) -> f64 {
        first_mark_rad(self.instrument, side)
    }

    /// Share of the Sun's light that reaches the first usable mark, 0 to 1, so many seconds from
    /// the meridian.
    fn foot_light(&self, side: Side, offset_s: f64) -> f64 {
        self.light_after(offset_s).at(side, self.first_mark_rad(side))
    }

    /// The Sun's light so many seconds from the meridian.
    fn light_after(&self, offset_s: f64) -> StoneLight<'_> {
        let (centre, semidiameter_rad) = (self.sun.at(offset_s), self.sun.semidiameter_rad);
        let disc = SunDisc { centre, semidiameter_rad, ..self.moment.disc() };
        StoneLight::of(self.instrument, disc)
    }

    /// The same at the moment itself.
    fn foot_light_now(&self, side: Side) -> f64 {
        self.light.at(side, self.first_mark_rad(side))
    }

    /// Whether the Sun is down as it passes the plane of the wall.
    fn sun_is_down_at_noon(&self) -> bool {
        !self.light_after(0.0).is_up()
    }

    /// Colour of the stone under this much light.
    fn stone(&self, light: f64) -> Colour {
        self.view.palette.umbra.mixed(self.view.palette.lit, light)
    }

    /// Colour of engraving under this much light.
    fn cut(&self, light: f64) -> Colour {
        if light > LIGHT_ENGRAVING_BELOW {
            self.view.palette.cut
        } else {
            self.view.palette.cut_umbra
        }
    }

    /// Sets the first of some texts that has room, as near to its place as it can stand.
    fn set_first(&mut self, texts: &[String], at: DVec2, anchor: Anchor, read: Option<Colour>) {
        let style = match read {
            Some(colour) => figure(1.3 * self.view.label_px, colour, anchor),
            None => label(self.view.label_px, self.view.palette.ink, anchor),
        };
        let _ = texts.iter().any(|text| self.letters.set_within(self.drawing, at, text, style));
    }
}

/// Light below which engraving is cut light where the theme does so.
const LIGHT_ENGRAVING_BELOW: f64 = 0.3;

#[cfg(test)]
mod tests;
