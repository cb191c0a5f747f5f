//! Charts of learned minutes: figures with their labels, ready to be drawn.

use super::words::{capitalised, counted, estimate, spell};
use crate::chart::{
    AmountStyle, BarRow, Bars, Corner, Dimension, Figure, Heading, Line, LineLook, Measure, Point, Row, Scatter, Series, Sign, Tone,
    is_drawn,
};
use crate::minutes::observations::Covers;
use crate::minutes::predicted::Prediction;
use crate::review::minutes::{MinutesRow, MinutesTable};
use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;

/// Charts the minutes a piece by design, tiers grouped, the card's guesses marked.
#[must_use]
pub fn minutes_each(table: &MinutesTable) -> Bars {
    let has_tiers = table.rows.iter().any(|row| row.tier.is_some());
    let tier = |row: &MinutesRow| row.tier.clone().unwrap_or_else(|| "no tier".to_owned());
    let before = [None].into_iter().chain(table.rows.iter().map(Some));
    let rows = table.rows.iter().zip(before).map(|(row, before)| {
        let is_first = before.is_none_or(|before| before.tier != row.tier);
        drawn(row, (has_tiers && is_first).then(|| tier(row)))
    });
    let orders = table.fit.as_ref().map_or(0, |beside| i64::try_from(beside.orders).unwrap_or(i64::MAX));
    let what = match table.fit.as_ref().map(|beside| beside.covers) {
        Some(Covers::Whole) => "minutes of all work per piece",
        _ => "minutes of decorating per piece",
    };
    Bars {
        heading: Heading {
            title: finding(&table.rows),
            subtitle: format!("From the hours of {} in all your logs", counted(orders, "order", "orders")),
        },
        axis: what.to_owned(),
        amounts: AmountStyle::counted(" min", 1),
        series: vec![
            Series::new(Sign::Dot, "from your hours"),
            Series::said(Sign::Guess, "your own guess"),
            Series::new(Sign::Ring, "not told apart by your orders"),
        ],
        range: "range (90 %)".to_owned(),
        columns: vec![String::new()],
        rows: rows.collect(),
        ..Bars::default()
    }
}

/// Minutes that are not finite or not above 0 are not known.
fn drawn(row: &MinutesRow, group: Option<String>) -> BarRow {
    let amount = |minutes: f64| Decimal::from_f64(minutes).filter(|minutes| *minutes > Decimal::ZERO);
    let median = row.learned.and_then(|learned| amount(learned.median));
    let is_told_apart = row.told_apart == Some(true);
    let figure = match row.learned.filter(|_| median.is_some()) {
        None => Figure::light("not sold with hours"),
        Some(learned) if is_told_apart => Figure::new(in_minutes(learned.median)),
        Some(learned) => Figure::new(in_minutes(learned.median)).with("not told apart", Tone::Plain),
    };
    let note = format!("{}, {}", counted(row.orders, "order", "orders"), counted(row.pieces, "piece", "pieces"));
    let learned = median.map(|median| (if is_told_apart { 0 } else { 2 }, median));
    BarRow {
        row: Row { group, name: row.key.clone(), note, figures: vec![figure] },
        points: learned.into_iter().chain(card(row).and_then(amount).map(|card| (1, card))).collect(),
        range: row.learned.filter(|_| median.is_some()).and_then(|learned| Some((Decimal::from_f64(learned.low)?, amount(learned.high)?))),
        ..BarRow::default()
    }
}

fn card(row: &MinutesRow) -> Option<f64> {
    row.card.and_then(|card| card.stored().parse().ok())
}

/// `33.1 min`, as in the table of minutes.
fn in_minutes(minutes: f64) -> String {
    format!("{} min", estimate(minutes))
}

/// The guess that is furthest off, of those the logs do not fit.
fn finding(rows: &[MinutesRow]) -> String {
    let off = rows.iter().filter_map(|row| Some((row, row.learned?, card(row).filter(|card| *card > 0.0)?)));
    let off = off.filter(|(_, learned, card)| *card < learned.low || *card > learned.high);
    let factor = |median: f64, card: f64| if median > card { median / card } else { card / median };
    let worst = off.max_by(|one, other| factor(one.1.median, one.2).total_cmp(&factor(other.1.median, other.2)));
    if let Some((row, learned, card)) = worst {
        let of = |minutes: f64| in_minutes(minutes).trim_end_matches(" min").trim_end_matches(".0").to_owned();
        return format!("{} takes you {} minutes, not the {} you guessed", capitalised(&row.key), of(learned.median), of(card));
    }
    if rows.iter().any(|row| row.learned.is_some() && row.card.is_some()) {
        return "Your own guesses agree with your hours".to_owned();
    }
    let mut learned: Vec<(&str, f64)> = rows.iter().filter_map(|row| Some((row.key.as_str(), row.learned?.median))).collect();
    learned.sort_by(|one, other| one.1.total_cmp(&other.1));
    match learned.as_slice() {
        [] => "Minutes per piece are not known yet".to_owned(),
        [(only, minutes)] => format!("{} takes you {}", capitalised(only), in_minutes(*minutes)),
        [(quick, least), .., (slow, most)] => {
            format!("{} takes you {}; {quick} {}", capitalised(slow), in_minutes(*most), in_minutes(*least))
        }
    }
}

/// Charts the logged beside the expected minutes of each order.
#[must_use]
pub fn logged(table: &MinutesTable) -> Scatter {
    let far = i64::try_from(table.far_off().count()).unwrap_or(i64::MAX);
    let all: usize = table.predictions.iter().map(|(_, of)| of.orders.len().max(1)).sum();
    let together = if all > table.predictions.len() { "; orders logged together are one dot" } else { "" };
    let title = match far {
        0 => "Every order took about what its pieces add up to".to_owned(),
        far => format!("{} of {all} took far from what its pieces add up to", counted(far, "order", "orders")),
    };
    let usual = table.fit.as_ref().map(|beside| libm::exp(beside.noise.median)).filter(|usual| *usual > 1.0);
    let band = usual.and_then(|usual| {
        let (less, more) = (100.0 * (1.0 - 1.0 / usual), 100.0 * (usual - 1.0));
        Some((Decimal::from_f64(usual)?, format!("usual: from {less:.0} % less to {more:.0} % more")))
    });
    let times = |title: &str| Dimension { title: title.to_owned(), measure: Measure::Times, reach: None };
    Scatter {
        heading: Heading {
            title,
            subtitle: format!("Hours logged for each order, and the hours its set-up, colours and pieces add up to{together}"),
        },
        across: times("expected for its pieces (logarithmic)"),
        up: times("logged by you (logarithmic)"),
        series: vec![Series::new(Sign::FarOff, far_off_words(table.far_off().count())), Series::new(Sign::One, "an order")],
        points: orders(table),
        lines: vec![Line { base: Decimal::ZERO, slope: Decimal::ONE, words: "as expected".to_owned(), look: LineLook::Even }],
        band,
        corners: vec![
            (Corner::TopLeft, "took longer than expected".to_owned(), Tone::Plain),
            (Corner::BottomRight, "quicker than expected".to_owned(), Tone::Plain),
        ],
        ..Scatter::default()
    }
}

/// Orders far off that are named, the farthest first.
const NAMED: usize = 6;

fn far_off_words(count: usize) -> String {
    let which = "an order far from what was expected";
    if count > NAMED { format!("{which}: {count} of them, the farthest named") } else { which.to_owned() }
}

/// Those far off first, and of them the farthest; without a time last.
fn orders(table: &MinutesTable) -> Vec<Point> {
    let distance = |of: &Prediction| {
        let has_place = is_drawn(of.logged) && is_drawn(of.expected);
        if has_place { (libm::log(of.logged) - libm::log(of.expected)).abs() } else { -1.0 }
    };
    let mut orders: Vec<&(String, Prediction)> = table.predictions.iter().collect();
    orders.sort_by(|(_, a), (_, b)| b.far_off.cmp(&a.far_off).then_with(|| distance(b).total_cmp(&distance(a))));
    let point = |(at, (name, of)): (usize, &(String, Prediction))| {
        let said = |what: &str, minutes: f64| is_drawn(minutes).then(|| format!("{what} {}", spell(minutes)));
        let parts = [said("logged", of.logged), said("expected", of.expected), of.far_off.then(|| "far off".to_owned())];
        Point {
            name: name.clone(),
            label: parts.into_iter().flatten().collect::<Vec<_>>().join(", "),
            across: Decimal::from_f64(of.expected).unwrap_or_default(),
            up: Decimal::from_f64(of.logged).unwrap_or_default(),
            series: usize::from(!of.far_off),
            is_named: of.far_off && at < NAMED,
            ..Point::default()
        }
    };
    orders.into_iter().enumerate().map(point).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::minutes::learned::Estimate;

    fn order(name: &str, logged: f64, far_off: bool) -> (String, Prediction) {
        (name.to_owned(), Prediction { orders: Vec::new(), covers: Covers::Whole, logged, expected: 100.0, far_off })
    }

    fn table(predictions: Vec<(String, Prediction)>) -> MinutesTable {
        MinutesTable { rows: Vec::new(), unlearned: None, fit: None, predictions, time_next: Vec::new() }
    }

    #[test]
    fn orders_far_off_come_first_the_farthest_six_with_their_names() {
        let mut predictions: Vec<_> = (2_u32..10).map(|times| order(&format!("L{times}"), 100.0 * f64::from(times), true)).collect();
        predictions.extend([order("near", 130.0, false), order("nearer", 110.0, false), order("unknown", f64::NAN, false)]);
        let chart = logged(&table(predictions));
        let names: Vec<_> = chart.points.iter().map(|point| point.name.as_str()).collect();
        assert_eq!(names, ["L9", "L8", "L7", "L6", "L5", "L4", "L3", "L2", "near", "nearer", "unknown"]);
        assert_eq!(chart.points.iter().filter(|point| point.is_named).count(), 6);
        assert!(chart.points[5].is_named && chart.points[0].label == "logged 15 h 00 min, expected 1 h 40 min, far off");
        assert_eq!(chart.series[0].name, "an order far from what was expected: 8 of them, the farthest named");
        assert_eq!((chart.points[8].series, chart.points[10].label.as_str()), (1, "expected 1 h 40 min"));
        assert!(chart.band.is_none(), "nothing was learned of the usual");
        assert_eq!(far_off_words(6), "an order far from what was expected");
    }

    #[test]
    fn what_is_no_time_is_not_known() {
        let row = |median: f64, told_apart: bool| MinutesRow {
            key: "fox".to_owned(),
            tier: None,
            orders: 1,
            pieces: 12,
            card: None,
            learned: Some(Estimate { median, low: 1.0, high: 9.0 }),
            told_apart: Some(told_apart),
            confounded_with: Vec::new(),
        };
        for odd in [f64::NAN, f64::INFINITY, 0.0, -4.0, 1e300] {
            let bar = drawn(&row(odd, true), None);
            assert!(bar.points.is_empty() && bar.range.is_none() && bar.row.figures[0].text == "not sold with hours", "{odd}");
        }
        let bar = drawn(&row(5.0, false), None);
        assert_eq!((bar.points[0].0, bar.row.figures[0].text.as_str()), (2, "5.0 min"));
        assert!(bar.row.figures[0].word.as_ref().is_some_and(|(word, _)| word == "not told apart") && bar.range.is_some());
    }
}
