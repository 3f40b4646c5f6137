//! The figures of an answer: computed for the instrument and the moment on the page.

use super::Question;
use crate::core::almanac::DayEvents;
use crate::core::error_budget::ErrorBudget;
use crate::core::instrument::Instrument;
use crate::core::ladder::clock_of;
use crate::core::resolution::Resolution;
use crate::core::time::Instant;
use crate::page::ladder_rows;
use crate::page::workings::Workings;
use crate::words::{Words, figures as written};

/// Days from full Moon to full Moon, on average (Meeus, Astronomical Algorithms, 2nd ed., chapter 49).
const SYNODIC_MONTH_DAYS: f64 = 29.530_588_861;
const DAY_S: f64 = 86_400.0;

/// A figure and what it tells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figure {
    /// What it tells.
    pub name: String,
    /// The figure.
    pub value: String,
}

/// The figures of an answer, for what the page shows.
#[must_use]
pub fn figures(question: Question, words: &Words, workings: &Workings) -> Vec<Figure> {
    let figure = |(key, value): (&str, String)| Figure {
        name: words.say(key).to_owned(),
        value: words.figure(&value).into_owned(),
    };
    named(question, words, workings).into_iter().map(figure).collect()
}

/// The figures, by the keys of their names.
fn named(question: Question, words: &Words, workings: &Workings) -> Vec<(&'static str, String)> {
    let (instrument, moment) = (workings.instrument(), workings.moment());
    let corrections = &moment.corrections;
    match question {
        Question::Slope | Question::Across => {
            let latitude = instrument.site().latitude_rad();
            let hemisphere =
                if latitude < 0.0 { "answers.latitude.south" } else { "answers.latitude.north" };
            let told = words.fill(hemisphere, &[("degrees", &written::degrees(latitude.abs()))]);
            let name = if question == Question::Slope {
                "answers.slope.latitude"
            } else {
                "answers.across.latitude"
            };
            vec![(name, told), ("answers.hour", written::degrees(15_f64.to_radians()))]
        }
        Question::Noon => {
            let Some(pass) = &workings.day().noon else { return Vec::new() };
            vec![
                ("answers.noon.meridian", clock(instrument, pass.meridian)),
                ("answers.noon.blind", lasting(words, instrument, pass.blind)),
                ("answers.noon.soft", lasting(words, instrument, pass.soft)),
            ]
        }
        Question::Watch => {
            let mut rows = vec![
                ("answers.watch.equation", written::signed_clock(corrections.to_mean_s)),
                ("answers.watch.place", written::signed_clock(corrections.to_zone_s)),
            ];
            if corrections.summer_s != 0.0 {
                rows.push(("answers.watch.summer", written::signed_clock(corrections.summer_s)));
            }
            rows.push(("answers.watch.sum", written::signed_clock(corrections.total_s())));
            rows
        }
        Question::Off => {
            let (Some(ladder), Some(budget)) =
                (&moment.ladder, ErrorBudget::of(instrument, moment))
            else {
                return Vec::new();
            };
            // As the ladder beside the court has it: true minus shown, the stone's own marks included.
            let behind_s = ladder_rows::left_over_s(ladder);
            let key = if behind_s > 0.0 { "answers.off.behind" } else { "answers.off.ahead" };
            let mut rows = vec![(key, written::duration(words, behind_s))];
            if let Some(cause) = ladder_rows::largest_cause(words, instrument, ladder) {
                rows.push(("answers.off.most", cause));
            }
            let either_way = |seconds: f64| format!("± {}", written::duration(words, seconds));
            rows.push(("answers.off.likely", either_way(budget.likely_s)));
            rows.push(("answers.off.worst", either_way(budget.worst_s)));
            rows
        }
        Question::Size => {
            let sun = &moment.sun;
            let declination = moment.on_dial.declination_rad;
            let resolution = Resolution::of(instrument, sun.semidiameter_rad, declination);
            let millimetres = |metres: f64| {
                written::with_unit(words, &format!("{:.1}", metres * 1000.0), "figures.mm")
            };
            vec![
                ("answers.size.radius", written::length(words, instrument.radius_m())),
                ("answers.size.division", millimetres(resolution.division_m)),
                ("answers.size.speed", millimetres(resolution.speed_m_per_s * 60.0)),
                ("answers.size.edge", millimetres(resolution.penumbra_m)),
                ("answers.size.edge-s", written::duration(words, resolution.penumbra_s)),
            ]
        }
        Question::Winter => {
            let DayEvents { rise, set, transit, .. } = workings.day().events;
            let mut rows = Vec::new();
            if let (Some(rise), Some(set)) = (rise, set) {
                let light_s = set.seconds_since(rise).rem_euclid(DAY_S);
                rows.push(("answers.winter.light", written::duration(words, light_s)));
            }
            if transit.is_some() {
                let latitude = instrument.site().latitude_rad();
                let declination = moment.sun.sun.declination_rad;
                let altitude = std::f64::consts::FRAC_PI_2 - (latitude - declination).abs();
                rows.push(("answers.winter.noon", written::degrees(altitude)));
            }
            rows.push((
                "answers.winter.declination",
                written::signed_degrees(moment.sun.sun.declination_rad),
            ));
            rows
        }
        Question::Moon => {
            vec![("answers.moon.daily", written::duration(words, DAY_S / SYNODIC_MONTH_DAYS))]
        }
    }
}

fn clock(instrument: &Instrument, instant: Instant) -> String {
    written::clock(clock_of(instrument, instant))
}

/// From when until when, and how long by the times as they are written.
fn lasting(words: &Words, instrument: &Instrument, (from, to): (Instant, Instant)) -> String {
    let [begin, end] = [from, to].map(|instant| clock(instrument, instant));
    let length_s = to.whole_seconds_since(from);
    format!("{begin} – {end} ({})", written::duration(words, length_s as f64))
}
