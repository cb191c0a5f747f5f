//! Changes that were asked for, in words.

use crate::pricing::change::Change;
use crate::quantity::millionths::{MILLION, Minutes};
use crate::quantity::ratio::divide;
use crate::reading::problem::printable;

/// Says how an item's price changes: `butter 20 % dearer`, `eggs 10 % cheaper`, `egg at twice the price`.
#[must_use]
pub fn price_change(change: &Change) -> String {
    let percent = percent(change);
    if percent == 100 * MILLION {
        return format!("{} at twice the price", printable(&change.of));
    }
    format!("{} {} {}", printable(&change.of), in_words(percent), if percent < 0 { "cheaper" } else { "dearer" })
}

/// Says how many fewer or more are sold: `20 % fewer character`, `10 % fewer orders`.
#[must_use]
pub fn volume_change(change: &Change) -> String {
    let percent = percent(change);
    format!("{} {} {}", in_words(percent), if percent < 0 { "fewer" } else { "more" }, printable(&change.of))
}

/// The change in millionths of a per cent.
fn percent(change: &Change) -> i128 {
    divide(change.times.numerator * 100 * MILLION, change.times.divisor).unwrap_or_default() - 100 * MILLION
}

fn in_words(percent: i128) -> String {
    format!("{} %", Minutes(percent.abs()).decimal().normalize())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Factor;

    #[test]
    fn prices_are_dearer_or_cheaper_and_sales_fewer() {
        let change = |of: &str, numerator| Change { of: of.to_owned(), times: Factor { numerator, divisor: 100 } };
        assert_eq!(price_change(&change("butter", 120)), "butter 20 % dearer");
        assert_eq!(price_change(&change("eggs", 90)), "eggs 10 % cheaper");
        assert_eq!(price_change(&change("egg", 200)), "egg at twice the price");
        assert_eq!(volume_change(&change("character", 80)), "20 % fewer character");
    }
}
