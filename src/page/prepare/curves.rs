//! The year's curves, drawn from the choices at the sheets.

use chrono::Datelike;
use glam::DVec2;

use super::Prepare;
use crate::page::state::Shown;
use crate::page::workings::Workings;
use crate::scene::drawing::Drawing;
use crate::scene::year_plots::{self, YearPlotsView};
use crate::words::Words;

/// Adds the curves to a drawing, once the year is worked out.
pub fn draw(
    drawing: &mut Drawing,
    prepare: &Prepare,
    words: &Words,
    shown: &Shown,
    workings: &Workings,
    size: DVec2,
    label_px: f64,
) {
    if let Some(table) = prepare.table() {
        let view = view(prepare, words, shown, workings, size, label_px);
        year_plots::draw(drawing, table, &view);
    }
}

/// The day of the year under a point of its curves, counted from 1.
#[must_use]
pub fn day_under(
    prepare: &Prepare,
    words: &Words,
    shown: &Shown,
    workings: &Workings,
    size: DVec2,
    label_px: f64,
    at: DVec2,
) -> Option<f64> {
    let view = view(prepare, words, shown, workings, size, label_px);
    year_plots::day_at(prepare.table()?, &view, at).map(|day| day as f64 + 1.0)
}

fn view<'a>(
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
