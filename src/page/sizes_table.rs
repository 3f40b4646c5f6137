//! The instruments side by side in figures: what the picture of their sizes shows.

use super::labels;
use super::workings::Workings;
use crate::core::instrument::{PRESETS, Preset};
use crate::core::resolution::{EYE_LENGTH_M, EYE_SHARE_OF_PENUMBRA, Resolution};
use crate::words::{Words, figures};

/// One instrument.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Its name.
    pub name: String,
    /// Smallest division (mm), way of the shadow in a minute (mm), soft edge (mm), soft edge (s),
    /// divisions in the soft edge, what the eye tells (s).
    pub cells: [String; 6],
}

/// What every instrument that comes with the project resolves under the Sun of the moment.
#[must_use]
pub fn resolutions<'a>(words: &'a Words, workings: &Workings) -> Vec<(&'a str, Resolution)> {
    let sun = &workings.moment().sun;
    let resolution = |preset: &Preset| {
        let instrument = preset.instrument().ok()?;
        let declination_rad = sun.sun.declination_rad;
        let resolution = Resolution::of(&instrument, sun.semidiameter_rad, declination_rad);
        Some((labels::built_in(words, preset), resolution))
    };
    PRESETS.iter().filter_map(resolution).collect()
}

/// The rows of the table.
#[must_use]
pub fn rows(words: &Words, workings: &Workings) -> Vec<Row> {
    resolutions(words, workings).into_iter().map(|it| row(words, it)).collect()
}

fn row(words: &Words, (name, resolution): (&str, Resolution)) -> Row {
    let millimetres = |metres: f64| three_figures(metres * 1000.0);
    let cells = [
        millimetres(resolution.division_m),
        millimetres(resolution.speed_m_per_s * 60.0),
        millimetres(resolution.penumbra_m),
        three_figures(resolution.penumbra_s),
        three_figures(resolution.divisions_per_penumbra()),
        three_figures(resolution.by_eye_s),
    ];
    let cells = cells.map(|cell| words.figure(&cell).into_owned());
    Row { name: name.to_owned(), cells }
}

/// For which Sun the table holds, and what the eye is taken to tell.
#[must_use]
pub fn caption(words: &Words, workings: &Workings) -> String {
    let declination = figures::signed_degrees(workings.moment().sun.sun.declination_rad);
    let share = format!("{:.0}", 1.0 / EYE_SHARE_OF_PENUMBRA);
    let length = format!("{:.2}", EYE_LENGTH_M * 1000.0);
    let values = [("declination", declination.as_str()), ("share", &share), ("length", &length)];
    words.fill("sizes.table.caption", &values)
}

/// A number to three figures or to a whole one, `0.35`, `12.7`, `130`.
fn three_figures(value: f64) -> String {
    let decimals = if value < 9.995 {
        2
    } else if value < 99.95 {
        1
    } else {
        0
    };
    format!("{value:.decimals$}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::state::Shown;

    #[test]
    fn every_instrument_has_its_row_and_the_soft_edge_is_the_same_in_time() {
        let Ok(workings) = Workings::new(&Shown::first()) else { panic!("a first visit") };
        let words = Words::english();
        let rows = rows(&words, &workings);
        assert_eq!(rows.len(), PRESETS.len());
        let [terrace, great] = [&rows[0], &rows[1]];
        assert_eq!((terrace.name.as_str(), great.name.as_str()), ("Terrace dial", "Great dial"));
        // A division of 20 s on a radius of 2.90 m, a minute, and the same on 14.20 m for 2 s.
        assert_eq!(terrace.cells[..2], ["4.22", "12.7"]);
        assert_eq!(great.cells[..2], ["2.07", "62.0"]);
        assert!(rows.iter().all(|row| row.cells[3] == terrace.cells[3]));
        assert!(caption(&words, &workings).contains("−9° 3"), "{}", caption(&words, &workings));
    }
}
