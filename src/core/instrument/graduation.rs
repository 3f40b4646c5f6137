//! The hierarchy of divisions cut into the quadrants.

use crate::core::field::FieldError;

/// Seconds in an hour, the first level of every graduation.
const HOUR_S: u32 = 3600;

/// Hours cut into equal parts, those into equal parts again, down to the smallest division.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Graduation {
    levels: Vec<Level>,
}

/// One level of a graduation.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Level {
    /// Length of one division, seconds of time.
    pub division_s: u32,
}

impl Graduation {
    /// Makes the hierarchy from the numbers of parts, hour first: `[4, 15, 3]` is quarters,
    /// minutes, and parts of 20 s.
    ///
    /// # Errors
    /// More than five levels, a cut into fewer than 2 or more than 60 parts, or a smallest
    /// division that is not a whole number of seconds.
    pub fn new(parts: &[u32]) -> Result<Self, FieldError> {
        if parts.len() > 5 {
            let given = format!("{} levels", parts.len());
            return Err(FieldError::new("graduation", given, "at most 5 levels below the hour"));
        }
        let mut levels = vec![Level { division_s: HOUR_S }];
        let mut division_s = HOUR_S;
        for &count in parts {
            if !(2..=60).contains(&count) {
                let given = format!("a cut into {count} parts");
                return Err(FieldError::new("graduation", given, "cuts into 2 to 60 parts"));
            }
            if !division_s.is_multiple_of(count) {
                let given = format!("a cut of {division_s} s into {count} parts");
                let allowed = "divisions of whole seconds";
                return Err(FieldError::new("graduation", given, allowed));
            }
            division_s /= count;
            levels.push(Level { division_s });
        }
        Ok(Self { levels })
    }

    /// The levels, hour first.
    #[must_use]
    pub fn levels(&self) -> &[Level] {
        &self.levels
    }

    /// The smallest division (least count), seconds of time.
    #[must_use]
    pub fn smallest_s(&self) -> u32 {
        self.levels.last().map_or(HOUR_S, |level| level.division_s)
    }

    /// Index of the coarsest level on which a mark at this time lies, seconds from XII.
    #[must_use]
    pub fn level_of_mark(&self, seconds: u32) -> Option<usize> {
        self.levels.iter().position(|level| seconds.is_multiple_of(level.division_s))
    }

    /// Counts a time off as a reader does: so many hours, so many quarters, and so on down.
    ///
    /// `seconds` must be a whole number of smallest divisions; what is left over is dropped.
    #[must_use]
    pub fn count(&self, seconds: u32) -> Vec<(Level, u32)> {
        let mut rest = seconds;
        let counted = self.levels.iter().map(|&level| {
            let count = rest / level.division_s;
            rest %= level.division_s;
            (level, count)
        });
        counted.collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_third_of_a_minute_is_counted_off_as_a_reader_counts() {
        let Ok(graduation) = Graduation::new(&[4, 15, 3]) else { panic!("divides evenly") };
        assert_eq!(graduation.smallest_s(), 20);
        let counts: Vec<u32> =
            graduation.count(9 * 3600 + 52 * 60 + 40).into_iter().map(|(_, count)| count).collect();
        assert_eq!(counts, [9, 3, 7, 2]);
        assert_eq!(graduation.level_of_mark(900), Some(1));
        assert_eq!(graduation.level_of_mark(20), Some(3));
        assert_eq!(graduation.level_of_mark(10), None);
    }

    #[test]
    fn uneven_or_absurd_cuts_are_refused() {
        for parts in [&[7][..], &[1], &[61], &[4, 15, 60, 2], &[2, 2, 2, 2, 2, 2]] {
            assert!(Graduation::new(parts).is_err(), "{parts:?} was accepted");
        }
    }
}
