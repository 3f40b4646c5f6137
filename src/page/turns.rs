//! Whose turn it is to be drawn: while the picture creeps, a frame takes on one part of it.
//!
//! In slow play nothing moves by more than a fraction of a pixel from frame to frame. Drawing
//! everything that has moved in one frame would make that frame long, and the next ones empty.

use super::dirty::Dirty;

/// The order of turns. What moves fastest comes every second time.
const ORDER: [Dirty; 16] = [
    CLOSE,
    Dirty::GROUND,
    CLOSE,
    Dirty::BACK,
    CLOSE,
    Dirty::MIDDLE,
    CLOSE,
    Dirty::FRONT,
    CLOSE,
    STRIPS,
    CLOSE,
    Dirty::SIGNS,
    CLOSE,
    Dirty::FIGURES,
    CLOSE,
    Dirty::LADDER,
];
/// The enlarged pictures, of which one is open.
const CLOSE: Dirty = Dirty::LENS.and(Dirty::NOON);
/// What seldom changes to be seen.
const STRIPS: Dirty = Dirty::LAND.and(Dirty::DAY).and(Dirty::YEAR).and(Dirty::SCALE);

/// Takes turns.
#[derive(Clone, Copy, Debug, Default)]
pub struct Turns {
    next: usize,
}

impl Turns {
    /// Of what is out of date, what this frame takes on: the next turn that has anything to do,
    /// and whatever takes no turns.
    pub fn take(&mut self, dirty: Dirty) -> Dirty {
        let others = ORDER.iter().fold(dirty, |rest, &turn| rest.without(turn));
        for _ in 0..ORDER.len() {
            let turn = ORDER[self.next];
            self.next = (self.next + 1) % ORDER.len();
            if dirty.has(turn) {
                return others | dirty.only(turn);
            }
        }
        others
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn everything_gets_its_turn_and_the_lens_every_other() {
        let mut turns = Turns::default();
        let wanted = Dirty::COURT | Dirty::LENS | Dirty::TEXT | Dirty::DAY;
        let mut drawn = Dirty::NOTHING;
        for frame in 0..ORDER.len() {
            let now = turns.take(wanted);
            assert_eq!(now.has(Dirty::LENS), frame % 2 == 0);
            assert!(!(now.has(Dirty::LENS) && now.has(Dirty::COURT)));
            drawn |= now;
        }
        assert_eq!(drawn, wanted);
    }

    #[test]
    fn a_single_part_need_not_wait() {
        let mut turns = Turns::default();
        for _ in 0..5 {
            assert_eq!(turns.take(Dirty::DAY), Dirty::DAY);
        }
        assert_eq!(turns.take(Dirty::NOTHING), Dirty::NOTHING);
    }

    #[test]
    fn what_takes_no_turns_is_never_put_off() {
        let mut turns = Turns::default();
        let urgent = Dirty::CONTROLS | Dirty::NOTICES | Dirty::ADDRESS;
        for _ in 0..ORDER.len() {
            assert!(turns.take(urgent | Dirty::PICTURES).only(urgent) == urgent);
        }
    }
}
