//! What has to hold in the browser as it does natively: this crate's arithmetic, run by a real one.
#![cfg(target_arch = "wasm32")]

use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

/// Radians; the tolerance SOFA's own validation program allows this routine.
const NUTATION_TOLERANCE_RAD: f64 = 1e-13;

/// SOFA's validation case for `nut00b` (t_sofa_c, release 2023-10-11): its sines and cosines come from
/// the wasm build's own mathematics library, not from the machine's.
#[wasm_bindgen_test]
fn nutation_matches_the_published_case() {
    let (dpsi_rad, deps_rad) = sofars::pnp::nut00b(2_400_000.5, 53_736.0);

    let deviation_rad = (dpsi_rad - -0.963_255_229_114_836_3e-5)
        .abs()
        .max((deps_rad - 0.406_319_710_662_115_9e-4).abs());
    assert!(deviation_rad < NUTATION_TOLERANCE_RAD, "off by {deviation_rad:e} rad");
}
