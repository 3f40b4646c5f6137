//! The light that reaches the stone against rays cast at triangle meshes
//! (`tests/reference/SHADOWS.md`).
#![cfg(not(target_arch = "wasm32"))]

mod common;

use common::mesh::{instrument, side, sun};
use common::{Table, Worst};
use noonwedge::core::light::{LimbDarkening, SunDisc, lit_fraction};
use noonwedge::core::shadow::sees_sun;

/// The tables sample the disc in 40 000 directions: the largest error seen is 3.3e-4.
const LIT_FRACTION: f64 = 5e-4;

#[test]
fn reference_lit_fraction_is_that_of_the_sampled_disc() {
    let mut worst = Worst::new("penumbra.csv");
    for row in Table::open("penumbra.csv").rows() {
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
        let quantity = if row.text("kind") == "noon" { "foot at noon" } else { "about the edge" };
        worst.note(quantity, lit - row.number("lit_fraction"), LIT_FRACTION);
    }
    worst.finish();
}

#[test]
fn reference_points_of_the_stone_are_lit_or_dark_as_traced() {
    let mut wrong = Vec::new();
    let mut count = 0;
    for row in Table::open("lit_faces.csv").rows() {
        let (instrument, middle_m) = instrument(&row);
        let reading_rad = row.number("reading_deg").to_radians();
        let axial_m = row.number("z_m") - middle_m;
        let lit = row.text("lit") == "True";
        if sees_sun(&instrument, sun(&row), side(&row), reading_rad, axial_m) != lit {
            wrong.push(format!("{row:?}, as a point"));
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
            wrong.push(format!("{row:?}, as a disc: {share}"));
        }
        count += 1;
    }
    println!("lit_faces.csv: {} of {count} points wrong", wrong.len());
    assert!(wrong.is_empty(), "{wrong:#?}");
}
