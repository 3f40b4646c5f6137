//! How bright the Sun's disc is from its centre to its limb.

use std::f64::consts::{FRAC_PI_2, PI};

use crate::core::penumbra::uncovered_fraction;

/// A law of limb darkening.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LimbDarkening {
    /// A disc equally bright all over.
    #[default]
    Uniform,
    /// The linear law `1 − u (1 − cos θ)` with u = 0.60, for green light at 550 nm (C. W. Allen,
    /// *Astrophysical Quantities*, from memory).
    Linear,
}

/// Coefficient u of the linear law.
const LINEAR_U: f64 = 0.60;

/// Nodes and weights of Gauss and Legendre for five points on [0, 1].
const GAUSS: [(f64, f64); 5] = [
    (0.046_910_077_030_668, 0.118_463_442_528_094_5),
    (0.230_765_344_947_158_5, 0.239_314_335_249_683_2),
    (0.5, 0.284_444_444_444_444_4),
    (0.769_234_655_052_841_5, 0.239_314_335_249_683_2),
    (0.953_089_922_969_332, 0.118_463_442_528_094_5),
];

impl LimbDarkening {
    /// Share of the light that passes a straight edge; `x` as for [`uncovered_fraction`]. Exact.
    #[must_use]
    pub fn past_edge(self, x: f64) -> f64 {
        match self {
            Self::Uniform => uncovered_fraction(x),
            Self::Linear => {
                let x = x.clamp(-1.0, 1.0);
                // Under the law's second term the disc weighs like a half ball: its volume on the
                // lit side of the edge.
                let ball = FRAC_PI_2 * (2.0 / 3.0 + x - x * x * x / 3.0);
                let flat = PI * uncovered_fraction(x);
                ((1.0 - LINEAR_U) * flat + LINEAR_U * ball) / (PI * (1.0 - LINEAR_U / 3.0))
            }
        }
    }

    /// Share of the light in a part of the disc, given the area of that part inside any concentric
    /// disc of a radius from 0 to 1 (in semidiameters; π for the whole disc).
    ///
    /// # Accuracy
    /// Exact for a uniform disc; else the law is a sum over five discs, within 0.002 of the whole.
    pub(super) fn share(self, area_within: impl Fn(f64) -> f64) -> f64 {
        match self {
            Self::Uniform => area_within(1.0) / PI,
            Self::Linear => {
                // Layers of the half ball: at height s the disc has the radius √(1 − s²).
                let ball: f64 =
                    GAUSS.iter().map(|(s, w)| w * area_within((1.0 - s * s).sqrt())).sum();
                ((1.0 - LINEAR_U) * area_within(1.0) + LINEAR_U * ball)
                    / (PI * (1.0 - LINEAR_U / 3.0))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_darkened_limb_keeps_half_the_light_on_each_side() {
        for law in [LimbDarkening::Uniform, LimbDarkening::Linear] {
            assert!((law.past_edge(0.0) - 0.5).abs() < 1e-15);
            assert!((law.past_edge(0.6) + law.past_edge(-0.6) - 1.0).abs() < 1e-15);
            assert!((law.past_edge(1.0) - 1.0).abs() < 1e-15);
            assert!((law.share(|radius| PI * radius * radius) - 1.0).abs() < 1e-12);
        }
        assert!(LimbDarkening::Linear.past_edge(-0.8) < LimbDarkening::Uniform.past_edge(-0.8));
    }

    #[test]
    fn the_sum_over_discs_agrees_with_the_exact_law() {
        for step in -10..=10 {
            let x = f64::from(step) / 10.0;
            let within = |radius: f64| PI * radius * radius * uncovered_fraction(x / radius);
            let off = LimbDarkening::Linear.share(within) - LimbDarkening::Linear.past_edge(x);
            assert!(off.abs() < 0.002, "{x}: {off}");
        }
    }
}
