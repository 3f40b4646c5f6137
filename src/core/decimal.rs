//! Decimal numbers as people and files write them.

/// The double nearest to a number written with digits and, if there are any, a sign, a point and an
/// exponent; `None` for any other text, and for a number too large for a double.
#[must_use]
pub fn parse(text: &str) -> Option<f64> {
    if is_decimal(text) { nearest(text).filter(|number| number.is_finite()) } else { None }
}

/// Noughts of the scripts that have digits of their own; nine digits follow each.
const NOUGHTS: [char; 10] = ['٠', '۰', '०', '০', '੦', '૦', '௦', '౦', '೦', '๐'];

/// A text with the digits of any of the world's larger scripts written as ASCII ones.
#[must_use]
pub fn with_ascii_digits(text: &str) -> String {
    let digit_of = |letter: char, nought: char| {
        let above = u32::from(letter).checked_sub(u32::from(nought))?;
        char::from_digit(above, 10)
    };
    let ascii = |letter| NOUGHTS.into_iter().find_map(|nought| digit_of(letter, nought));
    text.chars().map(|letter| ascii(letter).unwrap_or(letter)).collect()
}

fn is_decimal(text: &str) -> bool {
    let unsigned = |text: &str| text.strip_prefix(['+', '-']).unwrap_or(text).to_owned();
    let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    let unsigned_text = unsigned(text);
    let (number, exponent) = match unsigned_text.split_once(['e', 'E']) {
        Some((number, exponent)) => (number, Some(unsigned(exponent))),
        None => (unsigned_text.as_str(), None),
    };
    let (whole, fraction) = number.split_once('.').unwrap_or((number, ""));
    digits(whole)
        && digits(fraction)
        && whole.len() + fraction.len() > 0
        && exponent.is_none_or(|exponent| !exponent.is_empty() && digits(&exponent))
}

#[cfg(not(target_arch = "wasm32"))]
fn nearest(text: &str) -> Option<f64> {
    text.parse().ok()
}

/// In the page by the browser's own reader, which is as exact: the library's brings tables of 10 kB.
#[cfg(target_arch = "wasm32")]
fn nearest(text: &str) -> Option<f64> {
    Some(js_sys::parse_float(text))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_of_other_scripts_are_read_as_ascii_ones() {
        assert_eq!(with_ascii_digits("−٣١.٦ ۹ ०९ 5x"), "−31.6 9 09 5x");
    }

    #[test]
    fn numbers_are_read_and_nothing_else_is() {
        for (text, number) in
            [("31.6", 31.6), ("-.5", -0.5), ("+7.", 7.0), ("2e-3", 0.002), ("0", 0.0)]
        {
            assert_eq!(parse(text), Some(number), "{text}");
        }
        for text in ["", ".", "-", "1 ", "nan", "inf", "1e", "1e+", "0x1", "1.2.3", "--1", "1e999"]
        {
            assert_eq!(parse(text), None, "{text}");
        }
    }
}
