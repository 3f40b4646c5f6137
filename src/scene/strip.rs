//! What the two strips have in common: their size, and the track the handle runs over.

use chrono::NaiveDate;
use glam::DVec2;

use super::drawing::{Drawing, Stroke};
use super::palette::Palette;
use super::texture::cased_line;
use crate::core::instrument::Instrument;
use crate::core::moment::Moment;
use crate::core::reading::{NOON_S, SECONDS_PER_RADIAN};
use crate::core::shadow::wrapped;
use crate::words::Words;

/// How a strip is to be drawn.
#[derive(Clone, Copy, Debug)]
pub struct StripView<'a> {
    /// Width and height, CSS pixels.
    pub size: DVec2,
    /// Colours.
    pub palette: &'a Palette,
    /// Words.
    pub words: &'a Words,
    /// Size of the labels, CSS pixels.
    pub label_px: f64,
}

/// Room for marks and labels under a track, in label sizes.
const LABELS_BELOW: f64 = 1.65;

impl StripView<'_> {
    /// Pixels by which lines grow with the labels: one at the smallest size of the page.
    pub(super) fn unit(&self) -> f64 {
        self.label_px / 13.0
    }

    /// Upper and lower side of the track, below room for labels of `above` sizes.
    pub(super) fn track_px(&self, above: f64) -> (f64, f64) {
        let top = above * self.label_px;
        let bottom = self.size.y - LABELS_BELOW * self.label_px;
        (top, bottom.max(top + 4.0))
    }

    /// Draws the accent line at the handle's place, a little longer than the track.
    pub(super) fn draw_now(&self, drawing: &mut Drawing, px: f64, (top, bottom): (f64, f64)) {
        let unit = self.unit();
        let line = [DVec2::new(px, top - 2.0 * unit), DVec2::new(px, bottom + 3.0 * unit)];
        let stroke = Stroke::solid(self.palette.accent, 2.4 * unit);
        cased_line(drawing, &line, stroke, self.palette.paper);
    }
}

/// Local apparent time of a moment, seconds since midnight: the place of the day's handle.
pub(super) fn apparent_s(instrument: &Instrument, moment: &Moment) -> f64 {
    let sun = &moment.sun.sun;
    let longitude_rad = instrument.site().longitude_rad();
    let hour_angle_rad = wrapped(sun.sidereal_time_rad + longitude_rad - sun.right_ascension_rad);
    NOON_S + hour_angle_rad * SECONDS_PER_RADIAN
}

/// Date of a moment as the dial counts it, from one apparent midnight to the next: the place of
/// the year's handle.
pub(super) fn dial_date(instrument: &Instrument, moment: &Moment) -> NaiveDate {
    let to_noon_s = NOON_S - apparent_s(instrument, moment);
    let noon = moment.instant.saturating_plus_seconds(to_noon_s);
    noon.saturating_plus_seconds(instrument.zone_offset().seconds()).civil().date()
}
