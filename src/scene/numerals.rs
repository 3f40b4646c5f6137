//! Hours as they are cut in the stone.

/// Roman hours from XII, as masons cut them (IIII, not IV).
const ROMAN: [&str; 12] =
    ["XII", "I", "II", "III", "IIII", "V", "VI", "VII", "VIII", "IX", "X", "XI"];

/// The numeral of an hour of the day, counted from midnight or from noon alike.
#[must_use]
pub fn hour_numeral(hour: u32) -> &'static str {
    ROMAN[(hour % 12) as usize]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn noon_midnight_and_the_hours_between() {
        let numerals: Vec<&str> = [0, 6, 9, 12, 16, 24].map(hour_numeral).to_vec();
        assert_eq!(numerals, ["XII", "VI", "IX", "XII", "IIII", "XII"]);
    }
}
