//! What a piece leaves of its price after costs, against the minutes it takes, with lines of equal wage.
//!
//! Costs are taken off the price first, because they differ by design: so a point lies over the line of a wage exactly
//! where the design pays it.

use super::{Standing, amounts};
use crate::chart::{AmountStyle, Dimension, Heading, Line, LineLook, Measure, Point, Scatter, Series, Sign};
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio;
use crate::report::words::{Currency, capitalised, period_in_words};
use crate::review::{Review, Row};
use rust_decimal::Decimal;

/// The most designs shown.
const MOST: usize = 40;

/// Charts the designs with known hours, most sold first.
#[must_use]
pub(crate) fn price_and_minutes(review: &Review, currency: &Currency) -> Scatter {
    let mut rows: Vec<(&Row, Money, Minutes)> =
        review.designs.rows.iter().filter_map(|row| Some((row, left_each(row)?, minutes_each(row)?))).collect();
    rows.sort_by(|(one, ..), (other, ..)| other.known.pieces.cmp(&one.known.pieces).then_with(|| one.key.cmp(&other.key)));
    rows.truncate(MOST);
    let signs = [Sign::Above, Sign::Below, Sign::Unknown].into_iter().zip(Standing::ALL);
    Scatter {
        heading: Heading {
            title: finding(&rows, currency),
            subtitle: format!(
                "A piece of each design, set-up included, {}{}",
                period_in_words(review.period),
                if review.target.is_some() { ": above the thick line it pays your target" } else { "" }
            ),
        },
        across: Dimension {
            title: "minutes of your time per piece".to_owned(),
            measure: Measure::Amounts(AmountStyle::counted(" min", 0)),
            reach: None,
        },
        up: Dimension {
            title: "left of a piece's price after everything but your time".to_owned(),
            measure: Measure::Amounts(amounts(currency)),
            reach: None,
        },
        series: signs.map(|(sign, standing)| Series::said(sign, standing.in_key(review.target))).collect(),
        points: rows.iter().map(|(row, left, minutes)| point(row, *left, *minutes, review.target, currency)).collect(),
        range: "range of minutes (90 %)".to_owned(),
        lines: lines(&rows, review.target, currency),
        ..Scatter::default()
    }
}

fn left_each(row: &Row) -> Option<Money> {
    row.known.owner_pay().each_of(row.known.pieces)
}

fn minutes_each(row: &Row) -> Option<Minutes> {
    let minutes = ratio::divide(row.known.owner_minutes.0, i128::from(row.known.pieces)).ok()?;
    (row.known.pieces > 0 && minutes > 0).then_some(Minutes(minutes))
}

fn point(row: &Row, left: Money, minutes: Minutes, target: Option<Money>, currency: &Currency) -> Point {
    // The logs fit these wages; of the same pay they are these minutes.
    let at = |wage: Money| {
        let minutes = (left > Money::ZERO && wage > Money::ZERO).then(|| ratio::multiply_divide(left.0, 60 * MILLION, wage.0).ok())??;
        Some(Minutes(minutes).decimal())
    };
    let whole = ratio::divide(minutes.0, MILLION).unwrap_or_default();
    Point {
        name: row.key.clone(),
        label: format!("{}, {whole} min", currency.exact(left)),
        across: minutes.decimal(),
        up: left.decimal(),
        range: row.interval.and_then(|interval| Some((at(interval.high)?, at(interval.low)?))),
        series: Standing::of_row(row, target) as usize,
        is_named: true,
    }
}

/// At the target, at half of it and at half as much again; where none is aimed at, at what all pieces paid together.
fn lines(rows: &[(&Row, Money, Minutes)], target: Option<Money>, currency: &Currency) -> Vec<Line> {
    let line = |wage: Money, is_target: bool| Line {
        base: Decimal::ZERO,
        slope: wage.decimal() / Decimal::from(60),
        words: format!("{} an hour{}", currency.exact(wage), if is_target { ", your target" } else { "" }),
        look: if is_target { LineLook::Target } else { LineLook::Faint },
    };
    match target {
        Some(target) => vec![line(Money(target.0 / 2), false), line(target, true), line(Money(target.0 / 2 * 3), false)],
        None => {
            let pay: Money = rows.iter().map(|(row, ..)| row.known.owner_pay()).sum();
            let minutes: Minutes = rows.iter().map(|(row, ..)| row.known.owner_minutes).sum();
            pay.an_hour(minutes).filter(|wage| *wage > Money::ZERO).map(|wage| line(wage, false)).into_iter().collect()
        }
    }
}

/// The worst paid and the best: what each leaves for its minutes.
fn finding(rows: &[(&Row, Money, Minutes)], currency: &Currency) -> String {
    let minutes = |minutes: Minutes| ratio::divide(minutes.0, MILLION).unwrap_or_default();
    let wage = |(row, left, minutes): &&(&Row, Money, Minutes)| (left.an_hour(*minutes), row.key.clone());
    match (rows.iter().min_by_key(wage), rows.iter().max_by_key(wage)) {
        (Some((worst, least, long)), Some((best, most, short))) if worst.key != best.key => format!(
            "{} leaves {} after costs for {} minutes' work; {} {} for {}",
            capitalised(&worst.key),
            currency.exact(*least),
            minutes(*long),
            best.key,
            currency.exact(*most),
            minutes(*short)
        ),
        (Some((only, left, long)), _) => {
            format!("{} leaves {} after costs for {} minutes' work", capitalised(&only.key), currency.exact(*left), minutes(*long))
        }
        _ => "No minutes are known".to_owned(),
    }
}
