//! The speaker's own tour at work: what is recorded, written, put in another order, taken back.

use super::moment::Moment;
use super::{
    LONGEST_CAPTION, LONGEST_NAME, LONGEST_NOTES, MOST_STOPS, Seconds, Stop, Tour, file, tidy,
};
use crate::core::decimal;
use crate::core::field::{FieldError, quoted};
use crate::page::update::sentence;
use crate::words::Words;

/// How many changes can be taken back.
const MOST_UNDONE: usize = 100;

/// A text of a tour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Text {
    /// The tour's name.
    Name,
    /// The caption of a stop.
    Caption(usize),
    /// The notes of a stop.
    Notes(usize),
}

/// A change of the tour. Stops are counted from nought.
#[derive(Clone, Debug)]
pub enum Change {
    /// A moment becomes the last stop.
    Record(Moment),
    /// A stop shows another moment.
    Retake(usize, Moment),
    /// A text is written, letter by letter.
    Write(Text, String),
    /// How long a stop stands, as it is typed; nothing waits for the speaker.
    Seconds(usize, String),
    /// Whether the clock runs at a stop.
    Plays(usize, bool),
    /// Whether a stop covers the reading.
    Asks(usize, bool),
    /// A stop moves by so many places.
    Shift(usize, isize),
    /// A stop is taken out.
    Delete(usize),
    /// A file takes the tour's place.
    Import(String),
    /// The stops of another tour come behind.
    Append(Tour),
    /// The last change is taken back.
    Undo,
}

/// The speaker's own tour, and what has been done to it.
#[derive(Clone, Debug, Default)]
pub struct Bench {
    tour: Tour,
    past: Vec<Tour>,
    typing: Option<Text>,
    open: Option<usize>,
    stamp: u32,
    said: String,
    faults: Vec<String>,
}

impl Bench {
    /// A tour as it was kept.
    ///
    /// # Errors
    /// Why what was kept can't be used.
    pub fn read(text: &str) -> Result<Self, Vec<FieldError>> {
        file::read(text).map(|tour| Self { tour, ..Self::default() })
    }

    /// The tour.
    #[must_use]
    pub fn tour(&self) -> &Tour {
        &self.tour
    }

    /// The stop that is being edited.
    #[must_use]
    pub fn open(&self) -> Option<usize> {
        self.open
    }

    /// Opens a stop to be edited, or none.
    pub fn set_open(&mut self, open: Option<usize>) {
        self.open = open.filter(|at| *at < self.tour.stops.len());
        self.typing = None;
        self.stamp += 1;
    }

    /// Another number whenever more has changed than what stands in the fields being typed into.
    #[must_use]
    pub fn stamp(&self) -> u32 {
        self.stamp
    }

    /// What the last change has led to.
    #[must_use]
    pub fn said(&self) -> &str {
        &self.said
    }

    /// Says something else.
    pub fn say(&mut self, sentence: String) {
        self.said = sentence;
        self.faults.clear();
    }

    /// The faults of the last file, a sentence each.
    #[must_use]
    pub fn faults(&self) -> &[String] {
        &self.faults
    }

    /// Whether a change can be taken back.
    #[must_use]
    pub fn can_undo(&self) -> bool {
        !self.past.is_empty()
    }

    /// Takes over what another window has made of the tour; what was here can be brought back.
    pub fn take_over(&mut self, tour: Tour) {
        if tour != self.tour {
            self.keep(None);
            self.tour = tour;
            self.set_open(self.open);
        }
    }

    /// Tells the tour in other words, if it is a copy in which nothing is changed; tells whether it was.
    pub fn retell(&mut self, before: &Tour, told: &Tour) -> bool {
        let is_copy = self.tour == *before && before != told;
        if is_copy {
            self.tour = told.clone();
            self.stamp += 1;
        }
        is_copy
    }

    /// Makes a change; tells whether the tour is another.
    pub fn act(&mut self, change: Change, words: &Words) -> bool {
        let before = self.tour.clone();
        self.faults.clear();
        match change {
            Change::Write(text, typed) => self.write(text, typed),
            Change::Seconds(at, typed) => self.time(at, &typed, words),
            Change::Plays(at, on) | Change::Asks(at, on) => {
                self.keep(None);
                if let Some(stop) = self.tour.stops.get_mut(at) {
                    let plays = matches!(change, Change::Plays(..));
                    *(if plays { &mut stop.plays } else { &mut stop.asks }) = on;
                }
            }
            Change::Undo => {
                if let Some(tour) = self.past.pop() {
                    self.tour = tour;
                    self.set_open(self.open);
                    self.said = words.say("tour.said.undone").to_owned();
                }
            }
            Change::Import(text) => self.import(&text, words),
            bold => {
                self.keep(None);
                self.said = self.arrange(bold, words);
                self.stamp += 1;
            }
        }
        let changed = before != self.tour;
        // What has changed nothing need not be taken back.
        if !changed && self.past.last() == Some(&self.tour) {
            self.past.pop();
            self.typing = None;
        }
        changed
    }

    /// Keeps the tour as it is, so that it can be brought back; once for a text while it is typed.
    fn keep(&mut self, typing: Option<Text>) {
        if typing.is_none() || typing != self.typing {
            self.past.push(self.tour.clone());
            let too_many = self.past.len().saturating_sub(MOST_UNDONE);
            self.past.drain(..too_many);
        }
        self.typing = typing;
    }

    fn write(&mut self, text: Text, typed: String) {
        self.keep(Some(text));
        let (field, longest) = match text {
            Text::Name => (Some(&mut self.tour.name), LONGEST_NAME),
            Text::Caption(at) => {
                (self.tour.stops.get_mut(at).map(|stop| &mut stop.caption), LONGEST_CAPTION)
            }
            Text::Notes(at) => {
                (self.tour.stops.get_mut(at).map(|stop| &mut stop.notes), LONGEST_NOTES)
            }
        };
        if let Some(field) = field {
            *field = tidy(&typed).chars().take(longest).collect();
        }
    }

    fn time(&mut self, at: usize, typed: &str, words: &Words) {
        let typed = typed.trim();
        let refused =
            || Seconds::new(f64::NAN).err().map(|it| FieldError { value: quoted(typed), ..it });
        let seconds = match decimal::parse(typed).map(Seconds::new) {
            None if typed.is_empty() => Ok(None),
            None => Err(refused()),
            Some(Ok(seconds)) => Ok(Some(seconds)),
            Some(Err(refused)) => Err(Some(refused)),
        };
        self.keep(None);
        match seconds {
            Ok(seconds) => {
                if let Some(stop) = self.tour.stops.get_mut(at) {
                    stop.seconds = seconds;
                }
            }
            Err(refused) => {
                self.said = refused.map_or(String::new(), |it| sentence(words, &it));
                // The field shows again what stands.
                self.stamp += 1;
            }
        }
    }

    fn import(&mut self, text: &str, words: &Words) {
        match file::read(text) {
            Ok(tour) => {
                self.keep(None);
                self.tour = tour;
                self.set_open(None);
                let count = self.tour.stops.len().to_string();
                self.said = words.fill("tour.said.imported", &[("count", &count)]);
            }
            Err(faults) => {
                self.faults = faults.iter().map(|fault| sentence(words, fault)).collect();
                self.said = words.say("tour.said.refused").to_owned();
            }
        }
    }

    /// Changes what stops there are and in which order; says what has been done.
    fn arrange(&mut self, change: Change, words: &Words) -> String {
        let stops = &mut self.tour.stops;
        let numbered = |key: &str, at: usize| words.fill(key, &[("number", &(at + 1).to_string())]);
        let full = || words.fill("tour.said.full", &[("most", &MOST_STOPS.to_string())]);
        match change {
            Change::Record(_) if stops.len() >= MOST_STOPS => full(),
            Change::Record(moment) => {
                stops.push(Stop { moment, ..Stop::default() });
                let at = stops.len() - 1;
                self.open = Some(at);
                numbered("tour.said.recorded", at)
            }
            Change::Retake(at, moment) => {
                let Some(stop) = stops.get_mut(at) else { return String::new() };
                stop.moment = moment;
                numbered("tour.said.retaken", at)
            }
            Change::Shift(at, by) => {
                let to = at.checked_add_signed(by).filter(|to| *to < stops.len());
                let Some(to) = to.filter(|_| at < stops.len()) else { return String::new() };
                let stop = stops.remove(at);
                stops.insert(to, stop);
                self.open = self.open.map(|open| if open == at { to } else { open });
                numbered("tour.said.moved", to)
            }
            Change::Delete(at) if at < stops.len() => {
                stops.remove(at);
                self.open = None;
                numbered("tour.said.deleted", at)
            }
            Change::Append(tour) if stops.len() + tour.stops.len() > MOST_STOPS => full(),
            Change::Append(tour) => {
                let count = tour.stops.len().to_string();
                stops.extend(tour.stops);
                if self.tour.name.is_empty() {
                    self.tour.name = tour.name;
                }
                words.fill("tour.said.appended", &[("count", &count)])
            }
            _ => String::new(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bench(captions: &[&str]) -> Bench {
        let stop = |caption: &&str| Stop { caption: (*caption).to_owned(), ..Stop::default() };
        let tour = Tour { name: "Ours".to_owned(), stops: captions.iter().map(stop).collect() };
        Bench { tour, ..Bench::default() }
    }

    fn captions(bench: &Bench) -> Vec<&str> {
        bench.tour().stops.iter().map(|stop| stop.caption.as_str()).collect()
    }

    #[test]
    fn stops_are_recorded_moved_and_deleted_and_everything_can_be_taken_back() {
        let words = Words::english();
        let mut bench = bench(&["a", "b"]);
        let moment = Moment::read("view=pole").unwrap_or_default();
        assert!(bench.act(Change::Record(moment.clone()), &words));
        assert_eq!(bench.tour().stops[2].moment, moment);
        assert_eq!((bench.open(), bench.said()), (Some(2), "Stop 3 recorded."));
        assert!(bench.act(Change::Shift(2, -1), &words));
        assert_eq!((captions(&bench), bench.open()), (vec!["a", "", "b"], Some(1)));
        assert!(!bench.act(Change::Shift(0, -1), &words));
        assert!(!bench.act(Change::Shift(2, 1), &words));
        assert!(!bench.act(Change::Delete(9), &words));
        assert!(bench.act(Change::Delete(0), &words));
        assert_eq!(captions(&bench), ["", "b"]);
        for _ in 0..3 {
            assert!(bench.act(Change::Undo, &words));
        }
        assert_eq!(captions(&bench), ["a", "b"]);
        assert!(!bench.can_undo() && !bench.act(Change::Undo, &words));
    }

    #[test]
    fn a_text_typed_is_taken_back_at_once() {
        let words = Words::english();
        let mut bench = bench(&["a", "b"]);
        let stamp = bench.stamp();
        for text in ["a n", "a ne", "a new"] {
            assert!(bench.act(Change::Write(Text::Caption(0), text.to_owned()), &words));
        }
        bench.act(Change::Write(Text::Notes(0), "ask".to_owned()), &words);
        assert_eq!(bench.stamp(), stamp, "the fields are not made anew under the hand");
        bench.act(Change::Undo, &words);
        assert_eq!(captions(&bench), ["a new", "b"]);
        bench.act(Change::Undo, &words);
        assert_eq!(captions(&bench), ["a", "b"]);
        let long = "x".repeat(LONGEST_CAPTION + 1);
        bench.act(Change::Write(Text::Caption(1), long), &words);
        assert_eq!(bench.tour().stops[1].caption.len(), LONGEST_CAPTION);
    }

    #[test]
    fn a_time_that_is_none_is_refused_and_said() {
        let words = Words::english();
        let mut bench = bench(&["a"]);
        assert!(bench.act(Change::Seconds(0, " 12 ".to_owned()), &words));
        for typed in ["0", "3601", "1.5", "soon", "-3"] {
            assert!(!bench.act(Change::Seconds(0, typed.to_owned()), &words), "{typed}");
            assert!(bench.said().contains("from 1 to 3600"), "{}", bench.said());
        }
        assert_eq!(bench.tour().stops[0].seconds.map(Seconds::get), Some(12));
        assert!(bench.act(Change::Seconds(0, String::new()), &words));
        assert_eq!(bench.tour().stops[0].seconds, None);
        bench.act(Change::Undo, &words);
        assert_eq!(bench.tour().stops[0].seconds.map(Seconds::get), Some(12));
    }

    #[test]
    fn a_file_takes_the_tours_place_and_a_bad_one_leaves_it() {
        let words = Words::english();
        let mut bench = bench(&["a"]);
        assert!(!bench.act(Change::Import("{\"format\": \"noonwedge-tour\"}".to_owned()), &words));
        assert_eq!((captions(&bench), bench.faults().len()), (vec!["a"], 1));
        assert!(!bench.can_undo());
        let other = file::write(&super::super::shipped::tour(&words));
        assert!(bench.act(Change::Import(other), &words));
        assert!(bench.tour().stops.len() > 5 && bench.faults().is_empty());
        bench.act(Change::Undo, &words);
        assert_eq!(captions(&bench), ["a"]);
    }

    #[test]
    fn a_copy_is_told_anew_until_something_is_changed_in_it() {
        let words = Words::english();
        let shipped = super::super::shipped::tour(&words);
        let told = Tour { name: "Another language".to_owned(), ..shipped.clone() };
        let mut bench = Bench::default();
        assert!(!bench.retell(&shipped, &told));
        bench.act(Change::Append(shipped.clone()), &words);
        assert!(bench.retell(&shipped, &told));
        assert_eq!(bench.tour(), &told);
        bench.act(Change::Write(Text::Caption(0), "My own".to_owned()), &words);
        let edited = bench.tour().clone();
        assert!(!bench.retell(&told, &shipped));
        assert_eq!(bench.tour(), &edited);
    }

    #[test]
    fn a_tour_has_no_more_stops_than_it_may() {
        let words = Words::english();
        let mut bench = bench(&["a"; MOST_STOPS]);
        assert!(!bench.act(Change::Record(Moment::default()), &words));
        assert!(!bench.act(Change::Append(super::super::shipped::tour(&words)), &words));
        assert_eq!(bench.said(), "A tour has at most 200 stops.");
    }

    #[test]
    fn what_another_window_has_made_is_taken_over_and_nothing_is_lost() {
        let words = Words::english();
        let mut bench = bench(&["a"]);
        bench.take_over(Tour::default());
        assert_eq!(captions(&bench), Vec::<&str>::new());
        bench.act(Change::Undo, &words);
        assert_eq!(captions(&bench), ["a"]);
    }
}
