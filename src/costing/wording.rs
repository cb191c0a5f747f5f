//! Stock amounts and stages in the maker's words.

use crate::quantity::millionths::Money;
use crate::quantity::ratio;
use crate::quantity::unit::Dimension;
use crate::reading::problem::printable;
use crate::shop::items::Measure;
use rust_decimal::RoundingStrategy;

/// Decimals an amount is stored with.
const DECIMALS: u32 = 12;

/// Names a stage as a thing one does: `decorating`; a stage of the shop's own by its name.
#[must_use]
pub fn doing(stage: &str) -> String {
    let doing = match stage {
        "plan" => "planning",
        "mix" => "mixing",
        "roll" => "rolling",
        "bake" => "baking",
        "tint" => "tinting",
        "decorate" => "decorating",
        "pack" => "packing",
        "deliver" => "delivery",
        "clean" => "cleaning",
        own => return printable(own),
    };
    doing.to_owned()
}

/// Words a difference in an item's stock: "14 fewer bags", "720 g less butter", "2 more boxes", "50 g more butter".
///
/// `missing` is in trillionths of the item's base unit, negative if there is more than the logs say.
#[must_use]
pub fn difference(missing: i128, measured: Dimension, item: &str) -> String {
    let (figure, is_one) = rounded(missing.abs());
    let is_less = missing > 0;
    if measured == Dimension::Count {
        format!("{figure} {} {}", if is_less { "fewer" } else { "more" }, if is_one { singular(item) } else { plural(item) })
    } else {
        format!("{figure} {} {} {item}", measured.base_unit(), if is_less { "less" } else { "more" })
    }
}

/// Writes an amount of money as a cell holds it, to two decimals: `4.50`.
#[must_use]
pub(crate) fn as_written(amount: Money) -> String {
    let mut amount = amount.decimal().round_dp_with_strategy(2, RoundingStrategy::MidpointAwayFromZero);
    amount.rescale(2);
    amount.to_string()
}

/// Words an amount with its unit; pieces have none: "120 g", "12".
#[must_use]
pub fn amount(amount: i128, measured: Dimension) -> String {
    let (figure, _) = rounded(amount);
    if measured == Dimension::Count { figure } else { format!("{figure} {}", measured.base_unit()) }
}

/// Names an item in the plural, or as a mass: "bags", "butter".
#[must_use]
pub(crate) fn collective(item: &str, measured: Dimension) -> String {
    if measured == Dimension::Count { plural(item) } else { item.to_owned() }
}

/// Names the column that would give an amount a weight, if one would: `grams_per_cup for gel`, `grams_each for egg`.
#[must_use]
pub(crate) fn weight_of(item: &str, measure: Measure) -> Option<String> {
    match measure.dimension() {
        Dimension::Volume => Some(format!("grams_per_cup for {item}")),
        Dimension::Count => Some(format!("grams_each for {item}")),
        Dimension::Mass | Dimension::Length => None,
    }
}

/// Rounds to whole units from 100 up, else to three significant digits and at most two decimals. Also returns whether
/// the result is exactly one.
fn rounded(amount: i128) -> (String, bool) {
    let unit = 10_i128.pow(DECIMALS);
    let decimals = match amount / unit {
        100.. => 0,
        10.. => 1,
        _ => 2,
    };
    let scaled = ratio::divide(amount, 10_i128.pow(DECIMALS - decimals)).unwrap_or_default();
    let scale = 10_i128.pow(decimals);
    let mut figure = thousands(scaled / scale);
    let part = format!("{:0width$}", scaled % scale, width = decimals as usize);
    let part = part.trim_end_matches('0');
    if decimals > 0 && !part.is_empty() {
        figure = format!("{figure}.{part}");
    }
    let is_one = figure == "1";
    (figure, is_one)
}

fn thousands(value: i128) -> String {
    let digits = value.to_string();
    let mut text = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

/// Forms the plural of an English noun; a plural, and a name that does not end in an ASCII letter, stay as they are.
fn plural(item: &str) -> String {
    let ends = |endings: &[&str]| endings.iter().any(|ending| item.ends_with(ending));
    let before_y = item.strip_suffix('y').and_then(|stem| stem.chars().last());
    match before_y {
        Some(letter) if letter.is_ascii_alphabetic() && !"aeiou".contains(letter) => format!("{}ies", &item[..item.len() - 1]),
        _ if ends(&["ss", "x", "z", "ch", "sh"]) => format!("{item}es"),
        _ if ends(&["s"]) || !item.ends_with(|letter: char| letter.is_ascii_lowercase()) => item.to_owned(),
        _ => format!("{item}s"),
    }
}

/// Forms the singular of a plain English plural.
fn singular(item: &str) -> String {
    let stem = item.strip_suffix('s').filter(|stem| !stem.ends_with('s'));
    stem.unwrap_or(item).to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    const UNIT: i128 = 1_000_000_000_000;

    #[test]
    fn differences_read_as_people_say_them() {
        for (missing, unit, item, expected) in [
            (14 * UNIT, Dimension::Count, "bag", "14 fewer bags"),
            (UNIT, Dimension::Count, "eggs", "1 fewer egg"),
            (-2 * UNIT, Dimension::Count, "box", "2 more boxes"),
            (-UNIT, Dimension::Count, "box", "1 more box"),
            (720_440 * UNIT / 1000, Dimension::Mass, "butter", "720 g less butter"),
            (99_209 * UNIT / 1000, Dimension::Mass, "flour", "99.2 g less flour"),
            (UNIT / 2, Dimension::Count, "berry", "0.5 fewer berries"),
            (-12_345 * UNIT, Dimension::Volume, "milk", "12,345 mL more milk"),
            (3 * UNIT, Dimension::Count, "蜂蜜", "3 fewer 蜂蜜"),
        ] {
            assert_eq!(difference(missing, unit, item), expected);
        }
        assert_eq!((amount(120 * UNIT, Dimension::Mass), amount(12 * UNIT, Dimension::Count)), ("120 g".into(), "12".into()));
        assert_eq!((collective("glass", Dimension::Count), collective("butter", Dimension::Mass)), ("glasses".into(), "butter".into()));
    }
}
