//! Zeros of a function of time, between moments where its sign is known to change.

/// Seconds within which a zero is found.
const TOLERANCE_S: f64 = 0.001;

/// More steps than any search needs: halving alone would bring a day below the tolerance.
const MOST_STEPS: usize = 60;

/// A moment and the function's value there.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sample {
    pub(super) seconds: f64,
    pub(super) value: f64,
}

/// The zero of `f` between two samples of opposite sign, in seconds.
///
/// The rule of false position as amended by "Illinois" (M. Dowell and P. Jarratt, BIT 11 (1971)
/// 168): the zero stays bracketed throughout.
pub(super) fn zero_between(mut a: Sample, mut b: Sample, mut f: impl FnMut(f64) -> f64) -> f64 {
    for _ in 0..MOST_STEPS {
        let seconds = b.seconds - b.value * (b.seconds - a.seconds) / (b.value - a.value);
        let new = Sample { seconds, value: f(seconds) };
        let step = (new.seconds - b.seconds).abs();
        if new.value == 0.0 || step < TOLERANCE_S {
            return new.seconds;
        }
        if (new.value < 0.0) != (b.value < 0.0) {
            a = b;
        } else {
            a.value /= 2.0;
        }
        b = new;
    }
    b.seconds
}
