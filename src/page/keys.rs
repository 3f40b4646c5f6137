//! What the keys of a slider do: the same on every slider of the page.

/// A move of a slider's handle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Move {
    /// To a value of the slider's own scale.
    To(f64),
    /// By so many smallest steps.
    Steps(i32),
    /// By so many large steps.
    Leaps(i32),
    /// To the beginning.
    First,
    /// To the end.
    Last,
}

impl Move {
    /// The move a key asks for, by the key's name in the browser; `None` for any other key.
    #[must_use]
    pub fn of_key(key: &str, shift: bool) -> Option<Self> {
        let by = |sign: i32| if shift { Self::Leaps(sign) } else { Self::Steps(sign) };
        match key {
            "ArrowRight" | "ArrowUp" => Some(by(1)),
            "ArrowLeft" | "ArrowDown" => Some(by(-1)),
            "PageUp" => Some(Self::Leaps(1)),
            "PageDown" => Some(Self::Leaps(-1)),
            "Home" => Some(Self::First),
            "End" => Some(Self::Last),
            _ => None,
        }
    }
}

/// A move of the camera by key.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CameraKey {
    /// Turn by so many steps to the right and upwards.
    Turn(f64, f64),
    /// Nearer (positive) or farther, in steps.
    Zoom(f64),
    /// Back to the standpoint.
    Home,
}

impl CameraKey {
    /// What a key does to the camera; `None` for any other key.
    #[must_use]
    pub fn of_key(key: &str) -> Option<Self> {
        match key {
            "ArrowRight" => Some(Self::Turn(1.0, 0.0)),
            "ArrowLeft" => Some(Self::Turn(-1.0, 0.0)),
            "ArrowUp" => Some(Self::Turn(0.0, 1.0)),
            "ArrowDown" => Some(Self::Turn(0.0, -1.0)),
            "+" | "=" => Some(Self::Zoom(1.0)),
            "-" | "−" | "_" => Some(Self::Zoom(-1.0)),
            "Home" => Some(Self::Home),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn arrows_step_and_shift_or_page_keys_leap() {
        assert_eq!(Move::of_key("ArrowLeft", false), Some(Move::Steps(-1)));
        assert_eq!(Move::of_key("ArrowUp", true), Some(Move::Leaps(1)));
        assert_eq!(Move::of_key("PageDown", false), Some(Move::Leaps(-1)));
        assert_eq!(Move::of_key("Tab", false), None);
        assert_eq!(CameraKey::of_key("="), Some(CameraKey::Zoom(1.0)));
        assert_eq!(CameraKey::of_key("Tab"), None);
    }
}
