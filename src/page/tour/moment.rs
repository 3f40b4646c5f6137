//! What a stop shows: the page's address, but for what belongs to the window it is shown in.

use crate::core::field::FieldError;
use crate::page::address;
use crate::page::state::Shown;
use crate::scene::palette::Theme;

/// The fields of an address that are a window's own: a tablet stands in glare while the projector's
/// room is dark, and only the projector may present.
const OWN: [&str; 2] = ["theme", "present"];

/// What the page is to show, as its address has it; the usual first view is the empty text.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Moment(String);

impl Moment {
    /// What is shown now.
    #[must_use]
    pub fn of(shown: &Shown) -> Self {
        Self(address::write(&Shown { theme: Theme::Day, ..shown.clone() }))
    }

    /// Reads an address, with or without its `#`.
    ///
    /// # Errors
    /// Everything in it that can't be shown.
    pub fn read(text: &str) -> Result<Self, Vec<FieldError>> {
        let read = address::read(text, &Shown::first());
        if read.refused.is_empty() { Ok(Self::of(&read.shown)) } else { Err(read.refused) }
    }

    /// The text of it.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.0
    }

    /// Which instrument it shows, as its address has it; the empty text for the first one.
    #[must_use]
    pub fn dial(&self) -> &str {
        let is_dial = |part: &&str| part.starts_with("i=") || part.starts_with("dial=");
        self.0.split('&').find(is_dial).unwrap_or_default()
    }

    /// The address by which a window shows it that has `window` as its own address now.
    #[must_use]
    pub fn address(&self, window: &str) -> String {
        let window = window.strip_prefix('#').unwrap_or(window);
        let own = window.split('&').filter(|part| {
            let key = part.split_once('=').map_or(*part, |(key, _)| key);
            OWN.contains(&key)
        });
        let parts = Some(self.text()).into_iter().chain(own);
        let parts: Vec<&str> = parts.filter(|part| !part.is_empty()).collect();
        parts.join("&")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_moment_leaves_each_window_its_light() {
        let moment = Moment::read("#theme=night&i=great&view=pole").unwrap_or_default();
        assert_eq!((moment.text(), moment.dial()), ("i=great&view=pole", "i=great"));
        assert_eq!(moment.address("#t=2026-01-01T10:00:00Z"), "i=great&view=pole");
        let by_night = moment.address("#i=terrace&theme=glare&zoom=2,0,0");
        assert_eq!(by_night, "i=great&view=pole&theme=glare");
        assert_eq!((Moment::default().address("#").as_str(), Moment::default().dial()), ("", ""));
        assert_eq!(Moment::default().address("#theme=night&present=1"), "theme=night&present=1");
    }

    #[test]
    fn a_moment_that_cannot_be_shown_is_none() {
        let refused = Moment::read("i=castle&zoom=99,0,0").err().unwrap_or_default();
        assert_eq!(refused.len(), 2, "{refused:?}");
    }
}
