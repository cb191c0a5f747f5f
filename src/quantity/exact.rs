//! Figures of constant tables.

use rust_decimal::Decimal;

/// A figure of a constant table, as its source prints it. For tables only: a figure that is not
/// digits with at most one point stops the compiler.
pub(super) const fn exact(figure: &str) -> Decimal {
    let text = figure.as_bytes();
    let mut digits: u64 = 0;
    let mut scale = 0;
    let mut past_the_point = false;
    let mut at = 0;
    while at < text.len() {
        if text[at] == b'.' {
            assert!(!past_the_point, "two points in one figure");
            past_the_point = true;
        } else {
            assert!(text[at].is_ascii_digit(), "not a figure");
            digits = digits * 10 + (text[at] - b'0') as u64;
            scale += past_the_point as u32;
        }
        at += 1;
    }
    let b = digits.to_le_bytes();
    let low = u32::from_le_bytes([b[0], b[1], b[2], b[3]]);
    let middle = u32::from_le_bytes([b[4], b[5], b[6], b[7]]);
    Decimal::from_parts(low, middle, 0, false, scale)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_read_as_printed() {
        for figure in ["0", "1", "0.5", "453.59237", "14.78676478125", "1844674407370955161.5"] {
            assert_eq!(exact(figure).to_string(), figure);
        }
    }
}
