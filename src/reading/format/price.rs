//! Prices: money for one piece, or for a dozen.

use super::money::Signs;
use super::number::{self, DECIMALS_KEPT, Mark, bounded};
use super::{Format, Wrong};
use crate::quantity::millionths::Money;
use crate::quantity::{Price, dozens};
use crate::reading::problem_kind::{NOT_A_PRICE, TOO_MANY_DECIMALS};
use crate::reading::specification::Least;
use rust_decimal::Decimal;

/// Words that say "for each piece" by themselves.
const EACH: [&str; 3] = ["each", "ea", "apiece"];

/// Words for a price of 0, without hyphens.
const FREE: [&str; 8] = ["free", "comp", "comped", "complimentary", "gift", "donated", "donation", "no charge"];

/// Whether a text says that nothing was charged: `free`, `no charge`.
#[must_use]
pub fn is_free(text: &str) -> bool {
    let words = text.trim().trim_end_matches(['.', '!']).to_lowercase().replace('-', " ");
    FREE.contains(&words.as_str())
}

/// Prices, as quoted.
pub(in crate::reading) struct Prices {
    pub signs: Signs,
    pub least: Least,
}

impl Prices {
    /// The amount of a price, and how many pieces it is for.
    fn amount(&self, text: &str, mark: Mark) -> Option<(Decimal, i32)> {
        if is_free(text) {
            return Some((Decimal::ZERO, 1));
        }
        let (amount, pieces) = per(text)?;
        Some((self.signs.read(amount, mark)?, pieces))
    }
}

/// Splits a price from the pieces it is for: `54/dozen`, `54 a dozen`, `4.50 each`. `None` where no number of pieces is meant.
fn per(text: &str) -> Option<(&str, i32)> {
    let ends = text.trim_end_matches('.');
    let head = ends.trim_end_matches(|c: char| c.is_ascii_alphabetic());
    let unit = &ends[head.len()..];
    let (is_dozen, is_each) = (dozens::is_dozen(unit), EACH.iter().any(|word| word.eq_ignore_ascii_case(unit)));
    if !(is_dozen || is_each || dozens::is_piece(unit)) {
        return Some((text, 1));
    }
    let head = head.trim_end();
    let joined = head.strip_suffix('/').or_else(|| {
        let (before, word) = head.rsplit_once(char::is_whitespace)?;
        ["per", "a"].iter().any(|joins| joins.eq_ignore_ascii_case(word)).then_some(before)
    });
    let amount = joined.or(is_each.then_some(head))?;
    Some((amount.trim_end(), if is_dozen { 12 } else { 1 }))
}

impl Format for Prices {
    type Style = Mark;
    type Plain = Price;
    type Value = Price;

    fn depends(&self, text: &str) -> bool {
        number::depends(text)
    }

    fn plain(&self, text: &str, mark: Mark) -> Option<Price> {
        let (amount, pieces) = self.amount(text, mark)?;
        Money::from_decimal(amount).map(|amount| Price { amount, pieces })
    }

    fn read(&self, text: &str, mark: Mark) -> Result<Price, Wrong> {
        self.signs.check(per(text).map_or(text, |(amount, _)| amount))?;
        let Some((amount, pieces)) = self.amount(text, mark) else {
            let advice = mark.write("write 4.50 for one piece, or 54/dozen");
            return Err((&NOT_A_PRICE, "is not a price".into(), advice));
        };
        let Some(stored) = Money::from_decimal(amount) else {
            return Err((&TOO_MANY_DECIMALS, "has more than six decimals".into(), DECIMALS_KEPT.into()));
        };
        bounded(amount, self.least).map(|_| Price { amount: stored, pieces })
    }

    fn written(&self, plain: &Price, mark: Mark) -> String {
        mark.write(&plain.to_string())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str, mark: Mark) -> Result<String, String> {
        let prices = Prices { signs: Signs::of("USD"), least: Least::Nil };
        prices.read(text, mark).map(|price| price.to_string()).map_err(|(_, what, _)| what.into_owned())
    }

    #[test]
    fn a_price_is_for_a_piece_or_a_dozen() {
        for (text, expected) in [
            ("4.50", "4.50"),
            ("2.125", "2.125"),
            ("$4.50 each", "4.50"),
            ("4.50ea", "4.50"),
            ("4.50 ea.", "4.50"),
            ("4.50/pc", "4.50"),
            ("$4.50 a piece", "4.50"),
            ("4.50 per cookie", "4.50"),
            ("54/dozen", "54.00/dozen"),
            ("54 / Dozen", "54.00/dozen"),
            ("$54.00 / dozen", "54.00/dozen"),
            ("54/doz", "54.00/dozen"),
            ("54/dz.", "54.00/dozen"),
            ("54 USD per dozen", "54.00/dozen"),
            ("$1,054 a dozen", "1054.00/dozen"),
            ("free", "0.00"),
            ("Free!", "0.00"),
            ("Comp", "0.00"),
            ("no-charge", "0.00"),
        ] {
            assert_eq!(read(text, Mark::Point).as_deref(), Ok(expected), "{text}");
        }
        assert_eq!(read("54,50 $ / dozen", Mark::Comma).as_deref(), Ok("54.50/dozen"));
        for wrong in ["54 dozen", "54//dozen", "dozen", "/dozen", "a dozen", "54/12", "54/box", "4.50 piece", "none", "free sample", "$"] {
            assert_eq!(read(wrong, Mark::Point), Err("is not a price".into()), "{wrong}");
        }
        assert_eq!(read("£54/dozen", Mark::Point), Err("is in £, but the shop's currency is USD".into()));
        assert_eq!(read("($4.50)", Mark::Point), Err("is less than 0".into()));
    }
}
