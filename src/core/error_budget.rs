//! How far the dial may stand from a watch at one moment, and why.

use crate::core::instrument::Instrument;
use crate::core::moment::Moment;
use crate::core::resolution::Resolution;
use crate::core::time::UTC_BEGIN;

/// The most by which UT1, which the Sun keeps, may differ from UTC, which a watch keeps, seconds:
/// leap seconds have held it below this since 1972.
pub const UT1_MINUS_UTC_S: f64 = 0.9;

/// A cause for the dial to differ from the watch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// The mark nearest to the edge is read: half a smallest division.
    Division,
    /// The edge is soft: what the eye tells of its middle, an assumption; see [`Resolution`].
    Penumbra,
    /// The air lifts the Sun.
    Refraction,
    /// The masonry differs from the plan, or stands at a latitude for which it was not built.
    Alignment,
    /// The correction is rounded.
    Rounding,
    /// The Sun is seen from the ground, not from the Earth's centre.
    Place,
    /// The Earth does not turn evenly: UT1 − UTC.
    EarthRotation,
}

/// What a cause does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Effect {
    /// It is known at this moment: the dial is ahead of the watch by so much, seconds, or behind
    /// when negative.
    Known(f64),
    /// It may go either way: at most so much, seconds, not negative.
    EitherWay(f64),
}

/// Every cause and its effect at one moment, and their sums.
#[derive(Clone, Debug, PartialEq)]
pub struct ErrorBudget {
    /// The causes, those of known sign last.
    pub terms: [(Cause, Effect); 7],
    /// Sum of what is known, with signs, seconds: the dial ahead of the watch.
    pub known_s: f64,
    /// Root of the sum of the squares of what may go either way, seconds: a likely sum.
    pub likely_s: f64,
    /// Plain sum of what may go either way, seconds: the worst case.
    pub worst_s: f64,
}

impl ErrorBudget {
    /// The budget of a moment; `None` while the dial can't be read.
    #[must_use]
    pub fn of(instrument: &Instrument, moment: &Moment) -> Option<Self> {
        let ladder = moment.ladder.as_ref()?;
        let declination_rad = moment.on_dial.declination_rad;
        let eye = Resolution::of(instrument, moment.sun.semidiameter_rad, declination_rad);
        // Before 1972 clocks kept the Earth's own time.
        let rotation_s = if moment.instant < UTC_BEGIN { 0.0 } else { UT1_MINUS_UTC_S };
        let parts = &ladder.residual;
        // The ladder's residual is watch minus dial; here it is the dial that is ahead.
        let terms = [
            (Cause::Division, Effect::EitherWay(eye.division_s / 2.0)),
            (Cause::Penumbra, Effect::EitherWay(eye.by_eye_s)),
            (Cause::EarthRotation, Effect::EitherWay(rotation_s)),
            (Cause::Refraction, Effect::Known(-parts.refraction_s)),
            (Cause::Alignment, Effect::Known(-parts.alignment_s - parts.latitude_s)),
            (Cause::Rounding, Effect::Known(ladder.rounding_s)),
            (Cause::Place, Effect::Known(-parts.place_s)),
        ];
        let (mut known_s, mut squares, mut worst_s) = (0.0, 0.0, 0.0);
        for (_, effect) in terms {
            match effect {
                Effect::Known(seconds) => known_s += seconds,
                Effect::EitherWay(seconds) => {
                    squares += seconds * seconds;
                    worst_s += seconds;
                }
            }
        }
        Some(Self { terms, known_s, likely_s: squares.sqrt(), worst_s })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::core::instrument::{Alignment, InstrumentSpec, PRESETS};
    use crate::core::ladder::Rounding;
    use crate::core::moment::Conditions;
    use crate::core::sky::{Air, SunTrack};
    use crate::core::time::Instant;

    fn effect(budget: &ErrorBudget, cause: Cause) -> f64 {
        let found = budget.terms.iter().find(|(it, _)| *it == cause);
        match found {
            Some((_, Effect::Known(seconds) | Effect::EitherWay(seconds))) => *seconds,
            None => panic!("every cause has its term"),
        }
    }

    /// Every quarter of an hour of a year of every instrument, as planned and out of true, with
    /// and without air and rounding.
    #[test]
    fn the_dial_stands_as_far_from_the_watch_as_the_budget_says() {
        let crooked = Alignment {
            gnomon_azimuth_deg: 0.2,
            gnomon_altitude_deg: -0.12,
            west_zero_deg: 0.05,
            east_zero_deg: -0.07,
            ..Alignment::default()
        };
        let mut track = SunTrack::new();
        let mut read = 0;
        for preset in &PRESETS {
            for alignment in [Alignment::default(), crooked.clone()] {
                let made = Instrument::new(InstrumentSpec { alignment, ..preset.spec() });
                let Ok(instrument) = made else { panic!("{}", preset.key) };
                for step in 0..400 {
                    let at = Instant::from_unix_ms(1_767_225_600_000 + step * 79_200_000);
                    let Ok(at) = at else { panic!("in range") };
                    let rounding = if step % 2 == 0 { Rounding::None } else { Rounding::Minute };
                    let air = (step % 3 != 0).then(Air::default);
                    let conditions = Conditions { air, rounding, ..Conditions::default() };
                    let moment = Moment::compute(&instrument, at, &conditions, &mut track);
                    let Some(budget) = ErrorBudget::of(&instrument, &moment) else {
                        assert!(moment.reading.is_err());
                        continue;
                    };
                    let (Some(ladder), Ok(reading)) = (&moment.ladder, &moment.reading) else {
                        panic!("a budget without a reading")
                    };
                    read += 1;
                    // Dial minus watch, but for the division that was really rounded away.
                    let ahead_s = -ladder.residual_s() - reading.rounding_s();
                    assert!((ahead_s - budget.known_s).abs() < 0.01, "{ahead_s} {budget:?}");
                    assert!(reading.rounding_s().abs() <= effect(&budget, Cause::Division) + 1e-9);
                    assert!((-ladder.residual_s() - budget.known_s).abs() <= budget.worst_s + 0.01);
                    assert!(budget.likely_s <= budget.worst_s);
                    let no_air = conditions.air.is_none();
                    assert_eq!(effect(&budget, Cause::Refraction) == 0.0, no_air);
                    assert!(effect(&budget, Cause::Rounding).abs() <= 30.0 + 1e-9);
                    assert_eq!(effect(&budget, Cause::EarthRotation), UT1_MINUS_UTC_S);
                }
            }
        }
        assert!(read > 1000, "{read} readings");
    }

    #[test]
    fn the_terms_are_those_of_the_instrument_and_the_sums_are_theirs() {
        let Ok(instrument) = PRESETS[0].instrument() else { panic!("a preset") };
        let at = Instant::from_unix_ms(1_792_304_674_000).unwrap_or(Instant::FIRST);
        let mut track = SunTrack::new();
        let moment = Moment::compute(&instrument, at, &Conditions::default(), &mut track);
        let Some(budget) = ErrorBudget::of(&instrument, &moment) else { panic!("it reads") };
        // Divided to 20 s; a tenth of a soft edge of 2 min 10 s.
        assert_eq!(effect(&budget, Cause::Division), 10.0);
        assert!((effect(&budget, Cause::Penumbra) - 13.0).abs() < 0.3);
        assert!(effect(&budget, Cause::Alignment).abs() < 1e-6);
        let eye_s = effect(&budget, Cause::Penumbra);
        assert!((budget.worst_s - (10.0 + eye_s + 0.9)).abs() < 1e-9);
        let squares = 100.0 + eye_s * eye_s + 0.81;
        assert!((budget.likely_s - squares.sqrt()).abs() < 1e-9);
        // In 1900 clocks kept the Earth's own time.
        let old = Instant::from_unix_ms(1_792_304_674_000 - 3_976_214_400_000);
        let moment = Moment::compute(
            &instrument,
            old.unwrap_or(Instant::FIRST),
            &Conditions::default(),
            &mut track,
        );
        let budget = ErrorBudget::of(&instrument, &moment);
        let Some(budget) = budget else { panic!("it reads") };
        assert_eq!(effect(&budget, Cause::EarthRotation), 0.0);
    }
}
