//! What a window remembers of a tour it runs, so that a reload of the page does not end it.

use super::moment::Moment;

/// A tour under way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Resume {
    /// Whether it is the speaker's own tour; else the one that comes with the project.
    pub own: bool,
    /// Which stop it is at, from nought; behind the last one, how many there are.
    pub at: usize,
    /// How long it had run when it came there, whole seconds.
    pub total_s: u32,
    /// What the page showed before the tour was run.
    pub before: Moment,
}

impl Resume {
    /// The text that is kept.
    #[must_use]
    pub fn write(&self) -> String {
        let whose = if self.own { "own" } else { "shipped" };
        format!("{whose} {} {} {}", self.at, self.total_s, self.before.text())
    }

    /// Reads what was kept; `None` if it is nothing of the kind.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let mut parts = text.splitn(4, ' ');
        let own = match parts.next()? {
            "own" => true,
            "shipped" => false,
            _ => return None,
        };
        let at = parts.next()?.parse().ok()?;
        let total_s = parts.next()?.parse().ok()?;
        let before = Moment::read(parts.next()?).ok()?;
        Some(Self { own, at, total_s, before })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tour_under_way_is_read_as_it_was_written() {
        let before = Moment::read("i=great&view=west").unwrap_or_default();
        for resume in [
            Resume { own: true, at: 4, total_s: 312, before },
            Resume { own: false, at: 0, total_s: 0, before: Moment::default() },
        ] {
            assert_eq!(Resume::read(&resume.write()), Some(resume));
        }
    }

    #[test]
    fn nonsense_is_no_tour_under_way() {
        for text in ["", "own", "own 1", "own 1 2", "own -1 2 ", "mine 1 2 ", "own 1 2 i=castle"] {
            assert_eq!(Resume::read(text), None, "{text}");
        }
    }
}
