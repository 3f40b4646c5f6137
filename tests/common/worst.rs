//! The largest deviation of a quantity from its reference.

use std::fmt;

/// Keeps the largest deviation seen, and where.
#[derive(Debug)]
pub struct Worst {
    quantity: &'static str,
    unit: &'static str,
    deviation: f64,
    place: String,
    count: usize,
}

impl Worst {
    /// Nothing seen yet of a quantity measured in `unit`.
    pub fn of(quantity: &'static str, unit: &'static str) -> Self {
        Self { quantity, unit, deviation: 0.0, place: String::new(), count: 0 }
    }

    /// Takes a deviation of either sign; one that is not a number counts as the largest.
    pub fn see(&mut self, deviation: f64, place: impl FnOnce() -> String) {
        self.count += 1;
        let size = if deviation.is_nan() { f64::INFINITY } else { deviation.abs() };
        if size > self.deviation {
            self.deviation = size;
            self.place = place();
        }
    }

    /// The largest deviation seen, without its sign.
    pub fn deviation(&self) -> f64 {
        self.deviation
    }

    /// How many deviations were seen.
    pub fn count(&self) -> usize {
        self.count
    }

    /// Prints the largest deviation.
    pub fn print(&self) {
        println!("{self}");
    }

    /// Prints the largest deviation and panics if it is not below `tolerance`.
    pub fn must_be_below(&self, tolerance: f64) {
        self.print();
        assert!(self.deviation < tolerance, "{self}; allowed are {tolerance:.3e} {}", self.unit);
    }
}

impl fmt::Display for Worst {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { quantity, unit, deviation, place, count } = self;
        write!(f, "{quantity}: largest deviation {deviation:.3e} {unit} of {count}")?;
        if place.is_empty() {
            return Ok(());
        }
        write!(f, ", at {place}")
    }
}
