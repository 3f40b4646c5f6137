//! What the declination scale says beside the rod, in figures and in a sentence.

use super::rod::{Rod, edge_in_reach, side};
use super::workings::Workings;
use crate::core::instrument::AxialEnd;
use crate::core::pointer::{Criterion, PointerReading, SCALE_DIVISION_ARCMIN, scale_at};
use crate::words::{Words, figures};

/// How near to a place the rod counts as being there, metres: half a millimetre.
const AT_PLACE_M: f64 = 0.000_5;

/// The texts beside the scale.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RodPanel {
    /// What is read, to ten minutes of arc.
    pub read: String,
    /// The Sun's declination as its light arrives.
    pub truth: String,
    /// What is read minus what is true.
    pub bias: String,
    /// What the shadow does at the edge, and why the figures differ.
    pub sentence: String,
    /// Whether the style reaches an edge of the quadrant today.
    pub reaches: bool,
}

/// Writes the panel.
#[must_use]
pub fn panel(words: &Words, workings: &Workings, rod: &Rod) -> RodPanel {
    let (instrument, moment) = (workings.instrument(), workings.moment());
    let reach = edge_in_reach(instrument, moment);
    let edge = reach.unwrap_or(AxialEnd::North);
    let division_rad = (SCALE_DIVISION_ARCMIN / 60.0).to_radians();
    let read_rad = (scale_at(instrument, edge, rod.axial_m) / division_rad).round() * division_rad;
    let true_rad = moment.on_dial.declination_rad;
    RodPanel {
        read: figures::signed_degrees(read_rad),
        truth: figures::signed_degrees(true_rad),
        bias: figures::signed_degrees(read_rad - true_rad),
        sentence: sentence(words, workings, rod, reach),
        reaches: reach.is_some(),
    }
}

/// What the shadow of the rod does.
fn sentence(words: &Words, workings: &Workings, rod: &Rod, reach: Option<AxialEnd>) -> String {
    let (instrument, moment) = (workings.instrument(), workings.moment());
    let (Some(edge), Ok(pointer)) = (reach, rod.pointer(instrument)) else {
        return words.say("reading.rod.out-of-reach").to_owned();
    };
    if moment.reading.is_err() {
        return words.say("reading.rod.no-shadow").to_owned();
    }
    let semidiameter_rad = moment.sun.semidiameter_rad;
    let shadow = pointer.shadow(instrument, side(moment), moment.on_dial, semidiameter_rad);
    let there = |criterion| {
        (rod.axial_m - rod.place_m(instrument, moment, edge, criterion)).abs() < AT_PLACE_M
    };
    let where_key = if there(Criterion::Middle) {
        "reading.rod.at-middle"
    } else if there(Criterion::LastTrace) {
        "reading.rod.at-last-trace"
    } else {
        return format!("{} {}", off_edge(words, workings, &shadow, edge), patch(words, &shadow));
    };
    format!("{} {}", words.say(where_key), patch(words, &shadow))
}

/// "The middle of the shadow is 12 mm inside the north edge."
fn off_edge(words: &Words, workings: &Workings, shadow: &PointerReading, edge: AxialEnd) -> String {
    let edge_m = workings.instrument().quadrant_edge_m(edge);
    let inside_m = (edge_m - shadow.shadow_m) * edge.sign();
    let key = if inside_m >= 0.0 { "reading.rod.inside" } else { "reading.rod.outside" };
    words.fill(key, &[("length", &figures::length(inside_m.abs()))])
}

/// How dark the patch is.
fn patch(words: &Words, shadow: &PointerReading) -> String {
    match shadow.core_m {
        Some((south, north)) => {
            words.fill("reading.rod.core", &[("length", &figures::length(north - south))])
        }
        None => {
            let cover = format!("{:.0}", shadow.peak_cover * 100.0);
            words.fill("reading.rod.no-core", &[("cover", &cover)])
        }
    }
}
