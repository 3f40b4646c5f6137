//! The shadow against rays cast at triangle meshes (`tests/reference/SHADOWS.md`).
#![cfg(not(target_arch = "wasm32"))]

mod common;

use common::mesh::{instrument, side, sun};
use common::table;
use common::worst::Worst;
use noonwedge::core::instrument::AxialEnd;
use noonwedge::core::pointer::{Criterion, place_for_edge_m};
use noonwedge::core::shadow::{axial_shadow_m, shadow_edge};

/// The traced edge is bracketed to 1e-9° or so (its column `precision_deg`).
const EDGE_DEG: f64 = 1e-6;
/// The mesh lies up to 5.4e-8 R inside the round surface.
const AXIAL_R: f64 = 1e-7;
/// The ball of 1e-4 R has facets up to 8.4e-8 R inside its round surface, on top of that.
const BALL_R: f64 = 2e-7;

#[test]
fn reference_shadow_edge_lies_where_rays_find_it() {
    let mut worst = Worst::of("edge of the shadow", "°");
    for row in table::open("shadow_edge.csv").rows() {
        let (instrument, middle_m) = instrument(&row);
        let edge = shadow_edge(&instrument, sun(&row))
            .unwrap_or_else(|reason| panic!("{}: {reason:?}", row.place()));
        assert_eq!(edge.side, side(&row));
        let off_deg = edge.hour_angle_rad.to_degrees() - row.number("traced_H_deg");
        worst.see(off_deg, || row.place());
        let traced_m = row.number("z_m") - middle_m;
        assert!(edge.axial_m.0 <= traced_m && traced_m <= edge.axial_m.1);
    }
    worst.must_be_below(EDGE_DEG);
}

#[test]
fn reference_points_of_the_style_throw_their_shadow_where_rays_hit() {
    let mut of_point = Worst::of("shadow of a point of the style", "R");
    let mut at_edge = Worst::of("pointer with its shadow at an edge", "R");
    let mut of_ball = Worst::of("shadow of a ball", "R");
    for row in table::open("axial.csv").rows() {
        let (instrument, middle_m) = instrument(&row);
        let (side, sun, radius_m) = (side(&row), sun(&row), row.number("R_m"));
        let shadow_m =
            axial_shadow_m(&instrument, side, row.number("t_m") - middle_m, sun.declination_rad);
        let off_r = (shadow_m + middle_m - row.number("shadow_z_m")) / radius_m;
        of_point.see(off_r, || row.place());
        for (edge, column) in [(AxialEnd::North, "tN_m"), (AxialEnd::South, "tS_m")] {
            let place_m =
                place_for_edge_m(&instrument, side, edge, Criterion::Middle, sun, (0.0, 0.0));
            let off_r = (place_m + middle_m - row.number(column)) / radius_m;
            at_edge.see(off_r, || row.place());
        }
        if let Some(ball_m) = row.optional::<f64>("ball_shadow_z_m") {
            let off_r = (shadow_m + middle_m - ball_m) / radius_m;
            of_ball.see(off_r, || row.place());
        }
    }
    of_point.must_be_below(AXIAL_R);
    at_edge.must_be_below(AXIAL_R);
    of_ball.must_be_below(BALL_R);
}
