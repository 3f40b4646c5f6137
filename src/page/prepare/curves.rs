//! The year's curves as the choices at the sheets want them.

use chrono::Datelike;
use glam::DVec2;

use super::Prepare;
use crate::page::state::Shown;
use crate::page::workings::Workings;
use crate::scene::year_plots::YearPlotsView;
use crate::words::Words;

/// How the curves are drawn, `size` and `label_px` in CSS pixels.
#[must_use]
pub fn curves<'a>(
    prepare: &'a Prepare,
    words: &'a Words,
    shown: &Shown,
    workings: &Workings,
    size: DVec2,
    label_px: f64,
) -> YearPlotsView<'a> {
    let (palette, curves) = (shown.theme.palette(), prepare.curves.as_slice());
    let read = prepare.date(workings).ordinal0() as usize;
    YearPlotsView { size, palette, words, label_px, curves, read }
}
