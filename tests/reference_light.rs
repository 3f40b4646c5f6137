//! The light that reaches the stone against rays cast at triangle meshes
//! (`tests/reference/SHADOWS.md`).
#![cfg(not(target_arch = "wasm32"))]

mod common;

use common::mesh::{instrument, side, sun};
use common::table;
use common::worst::Worst;
use noonwedge::core::light::{LimbDarkening, SunDisc, lit_fraction};
use noonwedge::core::shadow::sees_sun;

/// The tables sample the disc in 40 000 directions: the largest error seen is 3.3e-4.
const LIT_FRACTION: f64 = 5e-4;

#[test]
fn reference_lit_fraction_is_that_of_the_sampled_disc() {
    let mut at_noon = Worst::of("lit fraction of a foot at noon", "of the disc");
    let mut about_edge = Worst::of("lit fraction about the edge", "of the disc");
    for row in table::open("penumbra.csv").rows() {
        let (instrument, middle_m) = instrument(&row);
        let disc = SunDisc {
            centre: sun(&row),
            semidiameter_rad: row.number("rho_deg").to_radians(),
            limb: LimbDarkening::Uniform,
            horizon: false,
        };
        let reading_rad = row.number("reading_deg").to_radians();
        let axial_m = row.number("z_m") - middle_m;
        let lit = lit_fraction(&instrument, &disc, side(&row), reading_rad, axial_m);
        let worst = if row.text("kind") == Some("noon") { &mut at_noon } else { &mut about_edge };
        worst.see(lit - row.number("lit_fraction"), || row.place());
    }
    at_noon.must_be_below(LIT_FRACTION);
    about_edge.must_be_below(LIT_FRACTION);
}

#[test]
fn reference_points_of_the_stone_are_lit_or_dark_as_traced() {
    let mut wrong = Vec::new();
    let mut count = 0;
    for row in table::open("lit_faces.csv").rows() {
        let (instrument, middle_m) = instrument(&row);
        let reading_rad = row.number("reading_deg").to_radians();
        let axial_m = row.number("z_m") - middle_m;
        let lit = row.text("lit") == Some("True");
        if sees_sun(&instrument, sun(&row), side(&row), reading_rad, axial_m) != lit {
            wrong.push(format!("{}, as a point", row.place()));
        }
        // The answer holds within 0.3° of the Sun's place, so it holds for the whole disc.
        let disc = SunDisc {
            centre: sun(&row),
            semidiameter_rad: 0.2666_f64.to_radians(),
            limb: LimbDarkening::Uniform,
            horizon: false,
        };
        let share = lit_fraction(&instrument, &disc, side(&row), reading_rad, axial_m);
        if (share - f64::from(u8::from(lit))).abs() > 1e-9 {
            wrong.push(format!("{}, as a disc: {share}", row.place()));
        }
        count += 1;
    }
    println!("lit_faces.csv: {} of {count} points wrong", wrong.len());
    assert!(wrong.is_empty(), "{wrong:#?}");
}
