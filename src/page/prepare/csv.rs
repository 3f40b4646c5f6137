//! A year as comma-separated values: one line a day, units in the names of the columns.

use super::quantity::Quantity;
use crate::core::almanac::Daylight;
use crate::core::instrument::Instrument;
use crate::core::year_table::{YearDay, YearTable};
use crate::page::typed::iso;

/// Names of the columns: the Sun's state, events by the clock of the place, the rest at noon. The
/// equation of time is what is added to the dial, mean minus apparent time.
const HEAD: &str = "date,sun,rise_clock,noon_clock,set_clock,declination_deg,\
                    mean_minus_apparent_s,eccentricity_part_s,obliquity_part_s,rest_s,\
                    correction_to_zone_time_s,summer_time_s,correction_to_clock_s";

/// The whole year, lines ended as RFC 4180 wants them.
#[must_use]
pub fn write(instrument: &Instrument, table: &YearTable) -> String {
    let mut text = String::from(HEAD);
    for day in &table.days {
        text.push_str("\r\n");
        push_day(&mut text, instrument, day);
    }
    text.push_str("\r\n");
    text
}

fn push_day(text: &mut String, instrument: &Instrument, day: &YearDay) {
    text.push_str(&iso(day.date));
    text.push_str(match day.daylight {
        Daylight::Crosses => ",rises or sets",
        Daylight::NeverSets => ",up all day",
        Daylight::NeverRises => ",down all day",
    });
    let events =
        [(Quantity::Rise, day.rise), (Quantity::Noon, Some(day.noon)), (Quantity::Set, day.set)];
    for (quantity, event) in events {
        text.push(',');
        if event.is_some() {
            text.push_str(&quantity.of(instrument, day));
        }
    }
    text.push_str(&format!(",{:.4}", day.declination_rad.to_degrees()));
    let equation = day.equation.to_mean();
    for seconds in [
        equation.total_s(),
        equation.eccentricity_s,
        equation.obliquity_s,
        equation.rest_s,
        day.to_zone_s(),
        day.corrections.summer_s,
        day.corrections.total_s(),
    ] {
        text.push_str(&format!(",{seconds:.2}"));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::instrument::PRESETS;
    use crate::core::sky::SunTrack;

    #[test]
    fn every_day_has_a_line_and_every_line_every_column() {
        for preset in &PRESETS {
            let Ok(instrument) = preset.instrument() else { panic!("{}", preset.key) };
            let table = YearTable::compute(&instrument, 2026, &mut SunTrack::new());
            let Ok(table) = table else { panic!("a year") };
            let text = write(&instrument, &table);
            let lines: Vec<&str> = text.split_terminator("\r\n").collect();
            assert_eq!(lines.len(), 366);
            for (line, day) in lines[1..].iter().zip(&table.days) {
                let cells: Vec<&str> = line.split(',').collect();
                assert_eq!(cells.len(), HEAD.split(',').count(), "{line}");
                let number = |index: usize| cells[index].parse::<f64>().unwrap_or(f64::NAN);
                assert_eq!(cells[0], day.date.to_string());
                assert!((number(5).to_radians() - day.declination_rad).abs() < 1e-6);
                assert!((number(6) - number(7) - number(8) - number(9)).abs() < 0.021, "{line}");
                assert!((number(12) - number(10) - number(11)).abs() < 0.011, "{line}");
            }
        }
    }
}
