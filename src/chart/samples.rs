//! Invented rows for the tests of the charts.

use rust_decimal::Decimal;

use super::AmountStyle;

pub(super) fn dec(text: &str) -> Decimal {
    text.parse().unwrap()
}

pub(super) fn dollars() -> AmountStyle {
    AmountStyle { prefix: "$".into(), suffix: String::new(), decimals: 2 }
}
