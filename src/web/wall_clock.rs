//! The clock on the wall: the only place where the page asks for the time.

use crate::core::time::Instant;

/// The present, as far as the browser knows it.
pub(super) fn now() -> Instant {
    // Whole milliseconds within the range of f64.
    Instant::from_unix_ms_saturating(js_sys::Date::now() as i64)
}
