//! Undo: what the page showed before each thing that was done.

use super::state::Shown;

/// How many steps back are kept.
const DEPTH: usize = 200;

/// What a person is doing while many small changes count as one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Gesture {
    /// Moving the handle of the day strip.
    Day,
    /// Moving the handle of the year strip.
    Year,
    /// Moving the lens.
    Lens,
    /// Sliding the rod.
    Rod,
    /// Travelling along the meridian.
    Travel,
    /// Setting what the eye sees of a shadow.
    LeastCover,
    /// Turning or zooming the court.
    Court,
    /// Changing one field of an instrument.
    Field(&'static str),
}

/// Past states of what is shown, oldest first.
#[derive(Clone, Debug, Default)]
pub struct History {
    past: Vec<Shown>,
    open: Option<Gesture>,
}

impl History {
    /// Keeps a state that is about to change. Within one gesture only its first state is kept.
    pub fn keep(&mut self, before: Shown, gesture: Option<Gesture>) {
        if gesture.is_some() && gesture == self.open {
            return;
        }
        self.open = gesture;
        if self.past.last() == Some(&before) {
            return;
        }
        if self.past.len() == DEPTH {
            self.past.remove(0);
        }
        self.past.push(before);
    }

    /// Ends a gesture: the next change is a step of its own.
    pub fn settle(&mut self) {
        self.open = None;
    }

    /// Takes the last state back out, passing over states that show what is shown already.
    pub fn undo(&mut self, now: &Shown) -> Option<Shown> {
        self.open = None;
        while let Some(before) = self.past.pop() {
            if before != *now {
                return Some(before);
            }
        }
        None
    }

    /// Whether there is anything to take back.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.past.is_empty()
    }
}
