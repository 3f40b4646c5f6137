//! The next boundary in words, and what can be read now.

use glam::DVec2;

use super::Noon;
use crate::core::instrument::Side;
use crate::core::ladder::clock_of;
use crate::core::order::order_short;
use crate::core::reading::NoReading;
use crate::core::time::Instant;
use crate::scene::drawing::Anchor;
use crate::words::Words;
use crate::words::figures::{clock, duration};

impl Noon<'_> {
    /// "West quadrant lost in 0:42", and under it what can be read, and the clock.
    pub(super) fn draw_countdown(&mut self) {
        let middle = self.view.size.x / 2.0;
        let accent = Some(self.view.palette.accent);
        let texts = self.countdown_texts();
        self.set_first(&texts, DVec2::new(middle, self.layout.headline_y), Anchor::Middle, accent);
        let words = self.view.words;
        let time = clock(clock_of(self.instrument, self.moment.instant));
        let now = words.fill("noon.clock", &[("time", &time)]);
        let state = words.say(self.state_key());
        let texts = [format!("{state} · {now}"), state.to_owned(), now];
        self.set_first(&texts, DVec2::new(middle, self.layout.state_y), Anchor::Middle, None);
    }

    /// The countdown, longest first.
    fn countdown_texts(&self) -> [String; 3] {
        let words = self.view.words;
        if self.sun_is_down_at_noon() {
            let keys = ["noon.sun-down", "noon.sun-down-short", "noon.sun-down-bare"];
            return keys.map(|key| words.say(key).to_owned());
        }
        let now = self.moment.instant;
        let next = self.boundaries().into_iter().find(|(instant, _)| *instant > now);
        let (key, seconds) = match next {
            Some((instant, key)) => (key, instant.whole_seconds_since(now)),
            None => ("noon.passed", now.whole_seconds_since(self.pass.meridian)),
        };
        let time = countdown(words, seconds);
        ["", "-short", "-bare"].map(|form| words.fill(&format!("{key}{form}"), &[("time", &time)]))
    }

    /// What happens round noon, in order: when, and the words for it.
    fn boundaries(&self) -> [(Instant, &'static str); 5] {
        let pass = self.pass;
        let mut boundaries = [
            (pass.soft.0, "noon.next-soft"),
            (pass.blind.0, "noon.next-blind"),
            (pass.meridian, "noon.next-meridian"),
            (pass.blind.1, "noon.next-readable"),
            (pass.soft.1, "noon.next-full"),
        ];
        order_short(&mut boundaries, |a, b| a.0 < b.0);
        boundaries
    }

    /// What the dial shows now.
    fn state_key(&self) -> &'static str {
        match &self.moment.reading {
            Ok(reading) if reading.edge.side == Side::West => "noon.west-reads",
            Ok(_) => "noon.east-reads",
            Err(NoReading::Blind { .. }) => "noon.none-reads",
            Err(NoReading::Night { .. } | NoReading::SunUnderHorizon { .. }) => "noon.down-now",
            Err(NoReading::BeyondQuadrantEnd { .. }) => "noon.beyond-end",
            Err(NoReading::StyleTooShort { .. }) => "noon.too-short",
        }
    }
}

/// Time to go, `0:42`, by the clock that stands beside it. Hours in words.
fn countdown(words: &Words, seconds: i64) -> String {
    if seconds >= 3600 {
        return duration(words, seconds as f64);
    }
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_countdown_is_written_in_minutes_and_seconds_and_hours_in_words() {
        let words = Words::english();
        assert_eq!(countdown(&words, 0), "0:00");
        assert_eq!(countdown(&words, 42), "0:42");
        assert_eq!(countdown(&words, 120), "2:00");
        assert_eq!(countdown(&words, 7260), "2 h 1 min");
    }
}
