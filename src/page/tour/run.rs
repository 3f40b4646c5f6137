//! A tour being run: at which stop, for how long, and what comes by itself.

use super::{Stop, Tour};

/// How long the page travels to a stop before its clock is started, seconds.
const ARRIVAL_S: f64 = 1.0;
/// How far a finger must move to turn to another stop, CSS pixels.
const SWIPE_PX: f64 = 40.0;

/// A step through a tour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// To the next stop, and behind the last one to the end.
    Next,
    /// To the one before.
    Back,
    /// To the first stop.
    First,
    /// To the last stop.
    Last,
}

impl Step {
    /// The step a key asks for, by the key's name in the browser; a clicker sends the same.
    #[must_use]
    pub fn of_key(key: &str) -> Option<Self> {
        match key {
            "PageDown" | "ArrowRight" | " " => Some(Self::Next),
            "PageUp" | "ArrowLeft" => Some(Self::Back),
            "Home" => Some(Self::First),
            "End" => Some(Self::Last),
            _ => None,
        }
    }

    /// The step a finger asks for that has moved so far, CSS pixels right and down.
    #[must_use]
    pub fn of_swipe(right: f64, down: f64) -> Option<Self> {
        let across = right.abs() >= SWIPE_PX && right.abs() >= 2.0 * down.abs();
        across.then_some(if right < 0.0 { Self::Next } else { Self::Back })
    }
}

/// What comes by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cue {
    /// The page's clock is to be started.
    Play,
    /// The stop's time is up: the tour has gone on.
    GoneOn,
}

/// A tour being run. It always has a stop; behind the last one it is at its end.
#[derive(Clone, Debug)]
pub struct Run {
    tour: Tour,
    at: usize,
    in_stop_s: f64,
    total_s: f64,
    held: bool,
    started: bool,
}

impl Run {
    /// Begins a tour at a stop, the last one if there are fewer; `None` for a tour without stops.
    #[must_use]
    pub fn begin(tour: Tour, at: usize) -> Option<Self> {
        let last = tour.stops.len().checked_sub(1)?;
        let at = at.min(last);
        Some(Self { tour, at, in_stop_s: 0.0, total_s: 0.0, held: false, started: false })
    }

    /// Takes a tour up again at a stop, or at its end, after it has run for so long.
    #[must_use]
    pub fn resume(tour: Tour, at: usize, total_s: f64) -> Option<Self> {
        let mut run = Self::begin(tour, 0)?;
        run.go(at);
        run.total_s = total_s;
        Some(run)
    }

    /// The tour.
    #[must_use]
    pub fn tour(&self) -> &Tour {
        &self.tour
    }

    /// Tells the tour in other words, if it is this one with nothing changed; tells whether it was.
    pub fn retell(&mut self, before: &Tour, told: &Tour) -> bool {
        let is_it = self.tour == *before && before != told;
        if is_it {
            self.tour = told.clone();
        }
        is_it
    }

    /// Which stop it is at, from nought; behind the last one, how many there are.
    #[must_use]
    pub fn at(&self) -> usize {
        self.at
    }

    /// The stop; `None` at the end.
    #[must_use]
    pub fn stop(&self) -> Option<&Stop> {
        self.tour.stops.get(self.at)
    }

    /// The stop that comes next.
    #[must_use]
    pub fn next(&self) -> Option<&Stop> {
        self.tour.stops.get(self.at + 1)
    }

    /// Since it began, seconds.
    #[must_use]
    pub fn total_s(&self) -> f64 {
        self.total_s
    }

    /// How much of a timed stop is over, 0 to 1; `None` if the stop waits for the speaker.
    #[must_use]
    pub fn share(&self) -> Option<f64> {
        let seconds = f64::from(self.stop()?.seconds?.get());
        Some((self.in_stop_s / seconds).min(1.0))
    }

    /// Whether its time stands still.
    #[must_use]
    pub fn is_held(&self) -> bool {
        self.held
    }

    /// Whether something of the stop can stand still: its time, or the page's clock.
    #[must_use]
    pub fn can_be_held(&self) -> bool {
        self.stop().is_some_and(|stop| stop.plays || stop.seconds.is_some())
    }

    /// Lets the stop's time stand still, or go on.
    pub fn hold(&mut self, held: bool) {
        self.held = held;
    }

    /// Steps; tells whether it has come to another place.
    pub fn step(&mut self, step: Step) -> bool {
        let last = self.tour.stops.len().saturating_sub(1);
        self.go(match step {
            Step::Next => self.at + 1,
            Step::Back => self.at.saturating_sub(1),
            Step::First => 0,
            Step::Last => last,
        })
    }

    /// Goes to a stop, or behind the last one; tells whether it was elsewhere.
    pub fn go(&mut self, at: usize) -> bool {
        let at = at.min(self.tour.stops.len());
        let moved = at != self.at;
        if moved {
            self.at = at;
            (self.in_stop_s, self.held, self.started) = (0.0, false, false);
        }
        moved
    }

    /// Lets time pass.
    pub fn after(&mut self, seconds: f64) -> Option<Cue> {
        self.total_s += seconds;
        if self.held {
            return None;
        }
        self.in_stop_s += seconds;
        let stop = self.tour.stops.get(self.at)?;
        if stop.seconds.is_some_and(|length| self.in_stop_s >= f64::from(length.get())) {
            self.step(Step::Next);
            return Some(Cue::GoneOn);
        }
        if stop.plays && !self.started && self.in_stop_s >= ARRIVAL_S {
            self.started = true;
            return Some(Cue::Play);
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::tour::Seconds;

    fn tour(stops: &[(Option<f64>, bool)]) -> Tour {
        let stop = |(seconds, plays): &(Option<f64>, bool)| Stop {
            seconds: seconds.and_then(|seconds| Seconds::new(seconds).ok()),
            plays: *plays,
            ..Stop::default()
        };
        Tour { name: String::new(), stops: stops.iter().map(stop).collect() }
    }

    fn run(stops: &[(Option<f64>, bool)]) -> Run {
        Run::begin(tour(stops), 0).unwrap_or_else(|| panic!("a tour with stops"))
    }

    #[test]
    fn a_tour_without_stops_cannot_be_run() {
        assert!(Run::begin(Tour::default(), 0).is_none());
        let late = Run::begin(tour(&[(None, false); 2]), 9);
        assert_eq!(late.map(|run| run.at()), Some(1));
    }

    #[test]
    fn a_tour_is_taken_up_where_it_was_even_at_its_end() {
        let place = |at| {
            let run = Run::resume(tour(&[(None, false); 2]), at, 75.0);
            run.map(|run| (run.at(), run.total_s(), run.stop().is_some()))
        };
        assert_eq!(place(1), Some((1, 75.0, true)));
        assert_eq!(place(2), Some((2, 75.0, false)));
        assert!(Run::resume(Tour::default(), 0, 0.0).is_none());
    }

    #[test]
    fn steps_stay_inside_and_behind_the_last_stop_is_the_end() {
        let mut run = run(&[(None, false); 3]);
        assert!(!run.step(Step::Back));
        assert!(run.step(Step::Next) && run.step(Step::Next));
        assert_eq!((run.at(), run.next()), (2, None));
        assert!(run.step(Step::Next));
        assert_eq!((run.at(), run.stop()), (3, None));
        assert!(!run.step(Step::Next));
        assert!(run.step(Step::Back));
        assert_eq!(run.at(), 2);
        assert!(run.step(Step::First) && !run.step(Step::First));
        assert!(run.step(Step::Last));
        assert_eq!(run.at(), 2);
        assert!(run.go(usize::MAX));
        assert_eq!(run.at(), 3);
    }

    #[test]
    fn a_timed_stop_plays_and_goes_on_and_can_be_held() {
        let mut run = run(&[(Some(10.0), true), (None, false)]);
        assert_eq!(run.after(0.5), None);
        assert_eq!(run.after(0.5), Some(Cue::Play));
        assert_eq!(run.after(4.0), None);
        assert_eq!(run.share(), Some(0.5));
        run.hold(true);
        assert_eq!(run.after(100.0), None);
        assert_eq!(run.share(), Some(0.5));
        run.hold(false);
        assert_eq!(run.after(5.0), Some(Cue::GoneOn));
        assert_eq!((run.at(), run.total_s(), run.can_be_held()), (1, 110.0, false));
        assert_eq!(run.after(1e6), None);
        assert_eq!(run.at(), 1);
    }

    #[test]
    fn a_tour_told_anew_stays_at_its_stop_and_another_stays_as_it_is() {
        let before = tour(&[(Some(10.0), false), (None, true)]);
        let told = Tour { name: "Another language".to_owned(), ..before.clone() };
        let Some(mut run) = Run::begin(before.clone(), 0) else { panic!("a tour with stops") };
        run.after(5.0);
        assert!(!run.retell(&before, &before));
        assert!(run.retell(&before, &told));
        assert_eq!((run.tour(), run.share()), (&told, Some(0.5)));
        assert!(!run.retell(&before, &told), "it is the other one now");
    }

    #[test]
    fn a_step_begins_the_time_of_a_stop_anew() {
        let mut run = run(&[(Some(10.0), false), (Some(10.0), true)]);
        run.after(9.0);
        run.hold(true);
        run.step(Step::Next);
        assert!(!run.is_held());
        assert_eq!(run.after(9.5), Some(Cue::Play));
        assert_eq!(run.after(0.5), Some(Cue::GoneOn));
        assert_eq!((run.at(), run.stop()), (2, None));
    }

    #[test]
    fn keys_and_fingers_step_and_nothing_else_does() {
        assert_eq!(Step::of_key("PageDown"), Some(Step::Next));
        assert_eq!(Step::of_key(" "), Some(Step::Next));
        assert_eq!(Step::of_key("ArrowLeft"), Some(Step::Back));
        assert_eq!(Step::of_key("ArrowUp"), None);
        assert_eq!(Step::of_swipe(-60.0, 10.0), Some(Step::Next));
        assert_eq!(Step::of_swipe(60.0, -10.0), Some(Step::Back));
        assert_eq!(Step::of_swipe(-60.0, 40.0), None);
        assert_eq!(Step::of_swipe(-30.0, 0.0), None);
    }
}
