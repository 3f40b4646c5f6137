//! A short, eased way from one value to another.

/// How long a change of standpoint takes, seconds.
pub const STANDPOINT_S: f64 = 0.6;
/// How long a guide takes to come or go, seconds.
pub const FADE_S: f64 = 0.35;
/// How long a jump to another moment takes, seconds.
pub const JUMP_S: f64 = 0.4;

/// A value under way from where it was to where it is to be; the goal is kept elsewhere.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Glide<T> {
    /// Where it began.
    pub from: T,
    elapsed_s: f64,
    length_s: f64,
}

impl<T> Glide<T> {
    /// Sets out.
    #[must_use]
    pub fn new(from: T, length_s: f64) -> Self {
        Self { from, elapsed_s: 0.0, length_s }
    }

    /// Goes on for a while; `None` once it has arrived.
    #[must_use]
    pub fn after(self, seconds: f64) -> Option<Self> {
        let elapsed_s = self.elapsed_s + seconds;
        (elapsed_s < self.length_s).then_some(Self { elapsed_s, ..self })
    }

    /// Share of the way covered, 0 to 1, slow at both ends.
    #[must_use]
    pub fn share(&self) -> f64 {
        let t = (self.elapsed_s / self.length_s).clamp(0.0, 1.0);
        t * t * (3.0 - 2.0 * t)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_glide_begins_and_ends_at_rest_and_then_is_over() {
        let glide = Glide::new(0.0, 0.4);
        assert_eq!(glide.share(), 0.0);
        let half = glide.after(0.2).map(|glide| glide.share());
        assert_eq!(half, Some(0.5));
        assert_eq!(glide.after(0.4), None);
    }
}
