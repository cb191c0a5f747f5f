//! What a maker types to change something: `butter +20%`, `eggs x2`, `character 20%`.

use super::error::{Nearest, TypedError, UnknownName};
use crate::quantity::{Factor, Percent, number};
use crate::reading::nearest::{bare, nearest};
use rust_decimal::Decimal;
use std::collections::BTreeSet;
use std::fmt;

/// Something and the factor it changes by.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Change {
    /// As typed.
    pub of: String,
    /// The factor.
    pub times: Factor,
}

impl fmt::Display for Change {
    /// As it may be typed: `butter +20%`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let percent = (Decimal::from_i128_with_scale(self.times.numerator, 0) / Decimal::from_i128_with_scale(self.times.divisor, 0)
            - Decimal::ONE)
            * Decimal::ONE_HUNDRED;
        let sign = if percent.is_sign_negative() { "" } else { "+" };
        write!(f, "{} {sign}{}%", self.of, percent.normalize())
    }
}

/// Reads `butter +20%`, `butter -5 %`, `eggs x2`.
///
/// # Errors
/// [`TypedError::PriceChange`] where it is none.
pub fn price_change(text: &str) -> Result<Change, TypedError> {
    let advice = || TypedError::PriceChange(text.to_owned());
    let (of, amount) = last_word(text).ok_or_else(advice)?;
    let times = if let Some(factor) = amount.strip_prefix(['x', '×', 'X']) {
        number::plain(factor).filter(|factor| *factor >= Decimal::ZERO && *factor <= Decimal::from(1000)).and_then(Factor::from_decimal)
    } else {
        let (sign, size) = match amount.strip_prefix('+') {
            Some(size) => (1, size),
            None => (-1, amount.strip_prefix(['-', '−']).ok_or_else(advice)?),
        };
        Percent::parse(size)
            .filter(|_| size.ends_with('%'))
            .map(|percent| Factor { numerator: Percent::WHOLE + sign * i128::from(percent.0), divisor: Percent::WHOLE })
    };
    let times = times.filter(|times| times.numerator >= 0).ok_or_else(advice)?;
    Ok(Change { of: of.to_owned(), times })
}

/// Reads `character 20%`: so much less of it.
///
/// # Errors
/// [`TypedError::Fewer`] where it is none.
pub fn fewer(text: &str) -> Result<Change, TypedError> {
    let advice = || TypedError::Fewer(text.to_owned());
    let (of, amount) = last_word(text).ok_or_else(advice)?;
    let size = amount.strip_prefix(['-', '−']).unwrap_or(&amount);
    let times = Percent::parse(size).filter(|_| size.ends_with('%')).and_then(Factor::less).ok_or_else(advice)?;
    Ok(Change { of: of.to_owned(), times })
}

/// A percentage as typed: `15%`.
///
/// # Errors
/// [`TypedError::Percent`] where it is none.
pub fn percent(text: &str) -> Result<Percent, TypedError> {
    Percent::parse(text.trim()).ok_or_else(|| TypedError::Percent(text.to_owned()))
}

/// The name before and the amount at the end, white space before a percent sign taken out.
fn last_word(text: &str) -> Option<(&str, String)> {
    let text = text.trim();
    let (body, sign) = text.strip_suffix('%').map_or((text, ""), |body| (body.trim_end(), "%"));
    let (name, amount) = body.rsplit_once(char::is_whitespace)?;
    let name = name.trim();
    (!name.is_empty()).then(|| (name, format!("{amount}{sign}")))
}

/// The known name meant: as written, else the only one that differs in nothing but case, spaces or a plural.
///
/// # Errors
/// [`UnknownName`], with the nearest name; `what` says what it is none of.
pub fn meant<'a>(text: &str, known: impl Iterator<Item = &'a str>, what: &'static str) -> Result<&'a str, UnknownName> {
    let known: BTreeSet<&str> = known.collect();
    if let Some(exact) = known.get(text) {
        return Ok(exact);
    }
    let alike: Vec<&str> = known.iter().copied().filter(|name| bare(name) == bare(text)).collect();
    if let [only] = alike.as_slice() {
        return Ok(only);
    }
    let nearest = match (nearest(text, known.iter().copied()), known.len()) {
        (Some(near), _) => Nearest::Name(near.to_owned()),
        (None, 0) => Nearest::None,
        (None, 1..=12) => Nearest::Any(known.into_iter().map(str::to_owned).collect()),
        _ => Nearest::AsInTables,
    };
    Err(UnknownName { text: text.to_owned(), what, nearest })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn changes_of_price_are_exact_factors() {
        for (text, of, value) in [
            ("butter +20%", "butter", 120),
            ("icing sugar -5 %", "icing sugar", 95),
            ("eggs x2", "eggs", 200),
            ("egg ×0.5", "egg", 50),
            ("butter x0", "butter", 0),
            ("butter −100%", "butter", 0),
        ] {
            let change = price_change(text).unwrap();
            assert_eq!((change.of.as_str(), change.times.of(100)), (of, Ok(value)), "{text}");
        }
        for wrong in
            ["butter", "+20%", "butter 20%", "butter +20", "butter x", "butter x-1", "butter -101%", "butter +x%", "", "butter x2000"]
        {
            assert!(price_change(wrong).is_err(), "{wrong}");
        }
    }

    #[test]
    fn a_change_may_be_typed_again_as_it_is_shown() {
        for (text, shown) in [
            ("butter +20%", "butter +20%"),
            ("icing sugar -5 %", "icing sugar -5%"),
            ("eggs x2", "eggs +100%"),
            ("egg ×0.335", "egg -66.5%"),
        ] {
            let change = price_change(text).unwrap();
            assert_eq!(change.to_string(), shown);
            assert_eq!(price_change(shown).unwrap().times.of(1_000_000), change.times.of(1_000_000), "{text}");
        }
    }

    #[test]
    fn fewer_of_something_leaves_the_rest() {
        assert_eq!(
            fewer("character 20%").unwrap(),
            Change { of: "character".into(), times: Factor { numerator: 80_000_000, divisor: 100_000_000 } }
        );
        assert_eq!(fewer("kite over dunes -100 %").unwrap().times.of(7), Ok(0));
        for wrong in ["character", "20%", "character 20", "character 120%", "character x2"] {
            assert!(fewer(wrong).is_err(), "{wrong}");
        }
    }

    #[test]
    fn names_may_be_plural_but_not_guessed() {
        let known = ["egg", "butter", "night moth"];
        assert_eq!(meant("Eggs", known.into_iter(), "no item"), Ok("egg"));
        assert_eq!(meant("night-moths", known.into_iter(), "no item"), Ok("night moth"));
        let says = |text, known: &[&'static str]| meant(text, known.iter().copied(), "no item").unwrap_err().to_string();
        assert_eq!(says("buter", &known), "'buter' is no item; did you mean butter?");
        assert_eq!(says("salt", &["ab", "a b"]), "'salt' is no item; there are: a b, ab");
    }
}
