//! Money: a number, with or without its currency's sign or ISO 4217 code before or after it.

use super::number::{self, DECIMALS_KEPT, Mark, bounded};
use super::{Format, Wrong};
use crate::quantity::millionths::Money;
use crate::quantity::ratio;
use crate::reading::problem_kind::{NOT_MONEY, OTHER_CURRENCY, TOO_MANY_DECIMALS};
use crate::reading::specification::Least;
use iso_currency::Currency;
use rust_decimal::Decimal;

/// Everyday signs beside the one that the ISO 4217 table has.
const EVERYDAY: &[(&str, &[&str])] = &[
    ("AUD", &["A$", "AU$"]),
    ("CAD", &["C$", "CA$"]),
    ("CHF", &["Fr.", "Fr", "SFr."]),
    ("CNY", &["￥", "元"]),
    ("DKK", &["kr", "kr."]),
    ("HKD", &["$"]),
    ("INR", &["Rs", "Rs."]),
    ("ISK", &["kr", "kr."]),
    ("JPY", &["￥", "円"]),
    ("MXN", &["MX$"]),
    ("NOK", &["kr", "kr."]),
    ("NZD", &["NZ$"]),
    ("PLN", &["zł", "zl"]),
    ("SEK", &["kr", "kr."]),
    ("SGD", &["$"]),
    ("USD", &["US$"]),
    ("CZK", &["Kč"]),
    ("HUF", &["Ft"]),
];

/// The signs of a shop's currency.
#[derive(Debug, Clone)]
pub(crate) struct Signs {
    /// Its ISO 4217 code; blank where it is not known, and any sign may stand.
    code: String,
    own: Vec<String>,
}

/// An amount apart from its signs.
struct Amount<'t> {
    is_negative: bool,
    number: &'t str,
    signs: [&'t str; 2],
}

impl Signs {
    /// The signs of a currency, by its ISO 4217 code.
    #[must_use]
    pub fn of(code: &str) -> Self {
        let everyday = EVERYDAY.iter().filter(|(of, _)| *of == code).flat_map(|(_, signs)| signs.iter().map(|sign| (*sign).to_owned()));
        let symbol = Currency::from_code(code).map(|currency| currency.symbol().symbol);
        Self { code: code.to_owned(), own: everyday.chain(symbol).chain([code.to_owned()]).collect() }
    }

    /// Reads an amount of money with any currency's sign.
    #[must_use]
    pub fn read(&self, text: &str, mark: Mark) -> Option<Decimal> {
        let amount = Amount::of(text)?;
        if !amount.signs.iter().all(|sign| sign.is_empty() || self.is_own(sign) || is_sign(sign)) {
            return None;
        }
        let mut value = number::unsigned(amount.number, mark)?;
        value.set_sign_negative(amount.is_negative && !value.is_zero());
        Some(value)
    }

    /// Checks that an amount has no other currency's sign.
    ///
    /// # Errors
    /// The sign it has.
    pub(in crate::reading) fn check(&self, text: &str) -> Result<(), Wrong> {
        let signs = Amount::of(text).map_or([""; 2], |amount| amount.signs);
        match signs.iter().find(|sign| !self.code.is_empty() && !self.is_own(sign) && is_sign(sign)) {
            Some(sign) => {
                let what = format!("is in {sign}, but the shop's currency is {}", self.code);
                Err((&OTHER_CURRENCY, what.into(), format!("write the amount in {}", self.code)))
            }
            None => Ok(()),
        }
    }

    fn is_own(&self, sign: &str) -> bool {
        self.own.iter().any(|own| own.eq_ignore_ascii_case(sign))
    }
}

/// Whether a text is the sign or the code of any currency.
fn is_sign(text: &str) -> bool {
    // The currency signs of Unicode (general category Sc) that are in use.
    let is_symbol =
        |c: char| matches!(c, '$' | '¢'..='¥' | '֏' | '؋' | '฿' | '៛' | '\u{20A0}'..='\u{20CF}' | '﷼' | '＄' | '￠' | '￡' | '￥' | '￦');
    let is_symbolic = text.chars().any(is_symbol) && text.chars().all(|c| is_symbol(c) || c.is_ascii_alphabetic());
    let is_everyday = || EVERYDAY.iter().any(|(_, signs)| signs.iter().any(|sign| sign.eq_ignore_ascii_case(text)));
    is_symbolic || is_everyday() || Currency::from_code(&text.to_ascii_uppercase()).is_some()
}

impl<'t> Amount<'t> {
    /// Takes an amount apart: a minus or brackets, and a currency's sign on either side of the number.
    fn of(text: &'t str) -> Option<Self> {
        let is_digit = |c: char| c.is_ascii_digit();
        let (first, last) = (text.find(is_digit)?, text.rfind(is_digit)?);
        // ".5" begins with its mark, but the point of "Fr.5" is the currency's.
        let before = &text[..first];
        let is_of_number = before.ends_with(['.', ',']) && !before[..before.len() - 1].ends_with(char::is_alphabetic);
        let first = first - usize::from(is_of_number);
        let (before, number, after) = (&text[..first], &text[first..=last], &text[last + 1..]);
        if before.is_empty() && after.is_empty() {
            return Some(Self { is_negative: false, number, signs: ["", ""] });
        }
        let minus = ['-', '\u{2212}'];
        let minuses = before.matches(minus).count() + after.matches(minus).count();
        let brackets = (before.matches('(').count(), after.matches(')').count());
        let is_negative = match (minuses, brackets) {
            (0, (0, 0)) => false,
            (1, (0, 0)) | (0, (1, 1)) => true,
            _ => return None,
        };
        let bare = |side: &'t str| side.trim_matches(|c: char| c.is_whitespace() || minus.contains(&c) || c == '(' || c == ')');
        Some(Self { is_negative, number, signs: [bare(before), bare(after)] })
    }
}

/// Amounts of money.
pub(in crate::reading) struct Amounts {
    pub signs: Signs,
    pub least: Least,
}

impl Format for Amounts {
    type Style = Mark;
    type Plain = Decimal;
    type Value = i64;

    fn depends(&self, text: &str) -> bool {
        number::depends(text)
    }

    fn plain(&self, text: &str, mark: Mark) -> Option<Decimal> {
        self.signs.read(text, mark)
    }

    fn read(&self, text: &str, mark: Mark) -> Result<i64, Wrong> {
        self.signs.check(text)?;
        let value = self.signs.read(text, mark).ok_or_else(|| (&NOT_MONEY, "is not an amount of money".into(), number::advice(mark)))?;
        millionths(bounded(value, self.least)?)
    }

    fn written(&self, plain: &Decimal, mark: Mark) -> String {
        number::write(*plain, mark)
    }
}

/// A number in millionths.
///
/// # Errors
/// Where it has more decimals than are kept.
pub(in crate::reading) fn millionths(value: Decimal) -> Result<i64, Wrong> {
    let stored = Money::from_decimal(value).and_then(|money| ratio::narrow(money.0).ok());
    stored.ok_or_else(|| (&TOO_MANY_DECIMALS, "has more than six decimals".into(), DECIMALS_KEPT.into()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(currency: &str, text: &str, mark: Mark) -> Option<String> {
        Signs::of(currency).read(text, mark).map(|value| value.normalize().to_string())
    }

    #[test]
    fn signs_and_codes_stand_before_or_after() {
        for (currency, text, expected) in [
            ("USD", "$4.50", "4.5"),
            ("USD", "4.50 usd", "4.5"),
            ("USD", "US$ 1,234.50", "1234.5"),
            ("USD", "$4.50 USD", "4.5"),
            ("USD", "-$5.00", "-5"),
            ("USD", "$-5.00", "-5"),
            ("USD", "$5.00-", "-5"),
            ("USD", "($5.00)", "-5"),
            ("USD", "$ (5.00)", "-5"),
            ("USD", "\u{2212}5", "-5"),
            ("USD", "$.50", "0.5"),
            ("CAD", "C$4.50", "4.5"),
            ("AUD", "$4.50", "4.5"),
            ("GBP", "£4.50", "4.5"),
            ("CHF", "Fr. 1'234.50", "1234.5"),
            ("CHF", "Fr.4.50", "4.5"),
            ("INR", "₹1,00,000.50", "100000.5"),
            ("INR", "Rs. 500", "500"),
        ] {
            assert_eq!(read(currency, text, Mark::Point).as_deref(), Some(expected), "{currency} {text}");
            assert!(Signs::of(currency).check(text).is_ok(), "{currency} {text}");
        }
        for (currency, text, expected) in [
            ("EUR", "4,50\u{A0}€", "4.5"),
            ("EUR", "-5,00 €", "-5"),
            ("EUR", "EUR 1.234,50", "1234.5"),
            ("SEK", "1 234,50 kr", "1234.5"),
            ("PLN", "12,00 zł", "12"),
            ("DKK", "kr. 12,00", "12"),
        ] {
            assert_eq!(read(currency, text, Mark::Comma).as_deref(), Some(expected), "{currency} {text}");
        }
    }

    #[test]
    fn another_currency_is_named() {
        let other = |currency: &str, text: &str| Signs::of(currency).check(text).err().map(|(_, what, _)| what.into_owned());
        assert_eq!(other("USD", "€4.50").as_deref(), Some("is in €, but the shop's currency is USD"));
        assert_eq!(other("USD", "4.50 GBP").as_deref(), Some("is in GBP, but the shop's currency is USD"));
        assert_eq!(other("EUR", "-$4.50").as_deref(), Some("is in $, but the shop's currency is EUR"));
        assert_eq!(other("CAD", "US$4.50").as_deref(), Some("is in US$, but the shop's currency is CAD"));
        assert_eq!(other("USD", "50¢").as_deref(), Some("is in ¢, but the shop's currency is USD"));
        assert_eq!((other("", "€4.50"), read("", "€4.50", Mark::Point)), (None, Some("4.5".into())));
    }

    #[test]
    fn what_is_no_money_is_refused() {
        for wrong in [
            "",
            "$",
            "$$",
            "free",
            "4.50x",
            "--5",
            "(5",
            "5)",
            "-(5)",
            "$-5-",
            "4.50 4.50",
            "$4.50 each",
            "12.-",
            "4e3",
            "NaN",
            "54 € / Dutzend",
        ] {
            assert_eq!(read("USD", wrong, Mark::Point), None, "{wrong}");
        }
    }
}
