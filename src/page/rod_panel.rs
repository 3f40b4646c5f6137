//! What the declination scale says beside the rod, in figures and in a sentence.

use super::rod::{Rod, edge_in_reach, side};
use super::workings::Workings;
use crate::core::instrument::AxialEnd;
use crate::core::pointer::{Criterion, PointerReading, SCALE_DIVISION_ARCMIN, scale_at};
use crate::scene::scale::throws_shadow;
use crate::words::{Words, figures};

/// How near to a place the rod counts as being there, metres: half a millimetre.
const AT_PLACE_M: f64 = 0.000_5;

/// The texts beside the scale.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RodPanel {
    /// On which scale it is read.
    pub scale: String,
    /// What is read, to ten minutes of arc.
    pub read: String,
    /// The Sun's declination as its light arrives.
    pub truth: String,
    /// What is read minus what is true.
    pub bias: String,
    /// What the shadow does at the edge, and why the figures differ.
    pub sentence: String,
    /// What the eye is taken to see of a shadow: in a sentence, and in short.
    pub eye: [String; 2],
    /// Whether the style reaches an edge of the quadrant today.
    pub reaches: bool,
    /// Whether the eye sees the last trace of the shadow leave over an edge.
    pub has_trace: bool,
}

/// Writes the panel.
#[must_use]
pub fn panel(words: &Words, workings: &Workings, rod: &Rod, least_cover: f64) -> RodPanel {
    let (instrument, moment) = (workings.instrument(), workings.moment());
    let edge = rod.edge(instrument, moment);
    let division_rad = (SCALE_DIVISION_ARCMIN / 60.0).to_radians();
    let read_rad = (scale_at(instrument, edge, rod.axial_m) / division_rad).round() * division_rad;
    let true_rad = moment.on_dial.declination_rad;
    let trace = rod.at_edge(instrument, moment, Criterion::LastTrace, least_cover);
    let angle = |rad| words.figure(&figures::signed_degrees(rad)).into_owned();
    RodPanel {
        scale: words.fill("reading.rod.read-at", &[("edge", edge_name(words, edge))]),
        read: angle(read_rad),
        truth: angle(true_rad),
        bias: angle(read_rad - true_rad),
        sentence: sentence(words, workings, rod, least_cover),
        eye: ["reading.rod.eye.value", "reading.rod.eye.short"]
            .map(|key| words.fill(key, &[("cover", &per_cent(least_cover))])),
        reaches: edge_in_reach(instrument, moment).is_some(),
        has_trace: trace.is_some(),
    }
}

/// "north edge".
fn edge_name(words: &Words, edge: AxialEnd) -> &str {
    words.say(match edge {
        AxialEnd::North => "reading.rod.edge.north",
        AxialEnd::South => "reading.rod.edge.south",
    })
}

/// A share in whole hundredths, `12`.
fn per_cent(share: f64) -> String {
    format!("{:.0}", share * 100.0)
}

/// What the shadow of the rod does, and what that makes of the reading.
fn sentence(words: &Words, workings: &Workings, rod: &Rod, least_cover: f64) -> String {
    let (instrument, moment) = (workings.instrument(), workings.moment());
    let reach = edge_in_reach(instrument, moment);
    let (Some(_), Ok(pointer)) = (reach, rod.pointer(instrument)) else {
        return words.say("reading.rod.out-of-reach").to_owned();
    };
    if !throws_shadow(moment) {
        return words.say("reading.rod.no-shadow").to_owned();
    }
    let shadow = pointer.shadow(instrument, side(moment), &moment.disc());
    let at_edge = at_edge(words, workings, rod, &shadow, least_cover);
    format!("{at_edge} {}", patch(words, &shadow, least_cover))
}

/// Where the shadow is, of the edge that is read.
fn at_edge(
    words: &Words,
    workings: &Workings,
    rod: &Rod,
    shadow: &PointerReading,
    least_cover: f64,
) -> String {
    let (instrument, moment) = (workings.instrument(), workings.moment());
    let edge = rod.edge(instrument, moment);
    let there = |criterion| {
        let place_m = rod.place_m(instrument, moment, edge, criterion, least_cover);
        place_m.is_some_and(|place_m| (rod.axial_m - place_m).abs() < AT_PLACE_M)
    };
    let name = edge_name(words, edge);
    if there(Criterion::Middle) {
        words.fill("reading.rod.at-middle", &[("edge", name)])
    } else if there(Criterion::LastTrace) {
        let cover = per_cent(least_cover);
        words.fill("reading.rod.at-last-trace", &[("edge", name), ("cover", &cover)])
    } else {
        let inside_m = (instrument.quadrant_edge_m(edge) - shadow.shadow_m) * edge.sign();
        let key = if inside_m >= 0.0 { "reading.rod.inside" } else { "reading.rod.outside" };
        words.fill(key, &[("length", &figures::length(words, inside_m.abs())), ("edge", name)])
    }
}

/// How dark the patch is, and whether the eye sees it.
fn patch(words: &Words, shadow: &PointerReading, least_cover: f64) -> String {
    let cover = per_cent(shadow.peak_cover);
    match shadow.core_m {
        _ if shadow.peak_cover <= least_cover => {
            let least = per_cent(least_cover);
            words.fill("reading.rod.unseen", &[("cover", &cover), ("least", &least)])
        }
        Some((south, north)) => {
            words.fill("reading.rod.core", &[("length", &figures::length(words, north - south))])
        }
        None => words.fill("reading.rod.no-core", &[("cover", &cover)]),
    }
}
