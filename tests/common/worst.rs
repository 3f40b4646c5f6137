//! The largest deviation of a quantity from its reference.

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
        Self { quantity, unit, deviation: 0.0, place: "nowhere".into(), count: 0 }
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
        println!(
            "{}: largest deviation {:.3e} {} of {}, at {}",
            self.quantity, self.deviation, self.unit, self.count, self.place
        );
    }

    /// Prints the largest deviation and panics if it is not below `tolerance`.
    pub fn must_be_below(&self, tolerance: f64) {
        self.print();
        assert!(
            self.deviation < tolerance,
            "{} deviates by {:.3e} {}, more than {tolerance:.3e}, at {}",
            self.quantity,
            self.deviation,
            self.unit,
            self.place
        );
    }
}
