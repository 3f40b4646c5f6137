//! A straight scale between a value and its place on the screen.

/// Where values lie along a strip. The centre of the handle runs over the same pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Axis {
    /// Value at the left end.
    pub min: f64,
    /// Value at the right end, above `min`.
    pub max: f64,
    /// Left end, CSS pixels.
    pub left_px: f64,
    /// Right end, CSS pixels, to the right of `left_px`.
    pub right_px: f64,
}

impl Axis {
    /// Breadth of the handle that lies over a strip, CSS pixels.
    pub const THUMB_PX: f64 = 28.0;

    /// An axis along a strip of this width, leaving room for half a handle at either end.
    #[must_use]
    pub fn along_strip((min, max): (f64, f64), width_px: f64) -> Self {
        let left_px = Self::THUMB_PX / 2.0;
        Self { min, max, left_px, right_px: (width_px - left_px).max(left_px + 1.0) }
    }

    /// Place of a value, CSS pixels; values outside lie outside.
    #[must_use]
    pub fn px(&self, value: f64) -> f64 {
        self.left_px + (value - self.min) * self.px_per_unit()
    }

    /// Value at a place.
    #[must_use]
    pub fn value(&self, px: f64) -> f64 {
        self.min + (px - self.left_px) / self.px_per_unit()
    }

    /// Pixels in a unit of the value.
    #[must_use]
    pub fn px_per_unit(&self) -> f64 {
        (self.right_px - self.left_px) / (self.max - self.min)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_and_places_go_there_and_back() {
        for width in [10.0, 362.0, 1100.0] {
            let axis = Axis::along_strip((18_000.0, 68_400.0), width);
            assert_eq!(axis.px(axis.min), axis.left_px);
            assert!((axis.px(axis.max) - axis.right_px).abs() < 1e-9);
            for value in [18_000.0, 30_001.5, 68_400.0, 0.0] {
                let back = axis.value(axis.px(value));
                assert!((back - value).abs() < 1e-8, "{value} came back as {back}");
            }
        }
    }
}
