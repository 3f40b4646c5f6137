//! How bright the stone is at the shadow's edge, in words.

use crate::core::light::{clear_sun, contrast};
use crate::core::moment::Moment;
use crate::words::Words;

/// The light on either side of the shadow's edge, and the contrast between them; `None` when the
/// Sun throws no edge. At the edge the rays stand in the plane of the style and the surface's
/// normal, so they fall at the declination to it.
#[must_use]
pub fn sentence(words: &Words, moment: &Moment) -> Option<String> {
    moment.reading.as_ref().ok()?;
    let slant = moment.on_dial.declination_rad.cos();
    let sun = clear_sun(moment.sun.seen.altitude_rad).falling(slant, 1.0);
    let (full, shade) = (klx(sun.total_klx()), klx(sun.sky_klx));
    let contrast = format!("{:.0}", contrast(sun, 0.0) * 100.0);
    let values = [("sun", full.as_str()), ("shade", shade.as_str()), ("contrast", &contrast)];
    Some(words.fill("reading.light", &values))
}

/// Kilolux to two figures.
fn klx(value: f64) -> String {
    if value < 9.95 { format!("{value:.1}") } else { format!("{value:.0}") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::state::Shown;
    use crate::page::workings::Workings;

    #[test]
    fn a_mid_morning_is_bright_and_a_night_has_no_edge() {
        let mut shown = Shown::first();
        let words = Words::english();
        let mut sentence_after = |seconds: f64| {
            shown.instant = shown.instant.saturating_plus_seconds(seconds);
            let Ok(workings) = Workings::new(&shown) else { panic!("a first visit") };
            sentence(&words, workings.moment())
        };
        let told = sentence_after(0.0);
        assert!(told.is_some_and(|told| told.contains("96 klx") && told.contains("93 %")));
        assert_eq!(sentence_after(43_200.0), None);
    }
}
