//! How amounts are written.

use rust_decimal::Decimal;

/// How an amount is written at a tick: `prefix`, digits with `decimals` places (none where all ticks are
/// whole), `suffix`. Signs are part of the text: `"$"` before, `" kr"` after.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct AmountStyle {
    /// Text before the digits, such as `$`.
    pub prefix: String,
    /// Text after the digits, such as ` kr`.
    pub suffix: String,
    /// Places after the point, as many as the currency has.
    pub decimals: u32,
}

impl AmountStyle {
    /// `amount` with `places` decimals, thousands apart by commas, a minus sign before the currency's.
    pub(in crate::chart) fn write(&self, amount: Decimal, places: u32) -> String {
        let rounded = amount.round_dp_with_strategy(places, rust_decimal::RoundingStrategy::MidpointAwayFromZero);
        let digits = format!("{:.*}", usize::try_from(places).unwrap_or(0), rounded.abs());
        let (whole, fraction) = digits.split_once('.').map_or((digits.as_str(), None), |(w, f)| (w, Some(f)));
        let mut written = String::new();
        if rounded.is_sign_negative() && !rounded.is_zero() {
            written.push('−');
        }
        written.push_str(&self.prefix);
        for (at, digit) in whole.chars().enumerate() {
            if at > 0 && (whole.len() - at) % 3 == 0 {
                written.push(',');
            }
            written.push(digit);
        }
        if let Some(fraction) = fraction {
            written.push('.');
            written.push_str(fraction);
        }
        written.push_str(&self.suffix);
        written
    }

    /// Writes a count with `suffix`, such as ` h`, to `decimals` places.
    #[must_use]
    pub fn counted(suffix: &str, decimals: u32) -> Self {
        Self { prefix: String::new(), suffix: suffix.to_owned(), decimals }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::tests::samples::{dec, dollars};

    #[test]
    fn amounts_are_written_exactly() {
        assert_eq!(dollars().write(dec("1234567.5"), 2), "$1,234,567.50");
        assert_eq!(dollars().write(dec("-0.004"), 2), "$0.00");
        assert_eq!(dollars().write(dec("-20"), 0), "−$20");
        assert_eq!(dollars().write(dec("0.125"), 2), "$0.13");
        let crowns = AmountStyle { prefix: String::new(), suffix: " kr".into(), decimals: 0 };
        assert_eq!(crowns.write(dec("250"), 0), "250 kr");
        assert_eq!(dollars().write(Decimal::MAX, 0), "$79,228,162,514,264,337,593,543,950,335");
    }
}
