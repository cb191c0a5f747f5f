//! Charts of learned minutes: figures with their labels, ready to be drawn.

use super::words::{capitalised, counted};
use crate::chart::{LoggedChart, LoggedPoint, MinutesChart, MinutesGroup, MinutesRow as Drawn};
use crate::minutes::observations::Covers;
use crate::review::minutes::{MinutesRow, MinutesTable};

/// Minutes a piece by design, tiers grouped, the card's guesses marked.
#[must_use]
pub fn minutes_each(table: &MinutesTable) -> MinutesChart {
    let mut groups: Vec<MinutesGroup> = Vec::new();
    let mut tier = None;
    for row in &table.rows {
        if tier != Some(&row.tier) {
            tier = Some(&row.tier);
            let name = row
                .tier
                .clone()
                .unwrap_or_else(|| if table.rows.iter().any(|row| row.tier.is_some()) { "no tier".to_owned() } else { String::new() });
            groups.push(MinutesGroup { name, rows: Vec::new() });
        }
        if let Some(group) = groups.last_mut() {
            group.rows.push(drawn(row));
        }
    }
    let orders = table.fit.as_ref().map_or(0, |beside| i64::try_from(beside.orders).unwrap_or(i64::MAX));
    let what = match table.fit.as_ref().map(|beside| beside.covers) {
        Some(Covers::Whole) => "minutes of all work per piece",
        _ => "minutes of decorating per piece",
    };
    MinutesChart {
        title: finding(&table.rows),
        subtitle: format!("From the hours of {} in all your logs", counted(orders, "order", "orders")),
        axis: what.to_owned(),
        groups,
    }
}

fn drawn(row: &MinutesRow) -> Drawn {
    Drawn {
        name: row.key.clone(),
        note: format!("{}, {}", counted(row.orders, "order", "orders"), counted(row.pieces, "piece", "pieces")),
        minutes: row.learned.map(|learned| learned.median),
        low: row.learned.map(|learned| learned.low),
        high: row.learned.map(|learned| learned.high),
        card: card(row),
        label: row.learned.map_or_else(String::new, |learned| in_minutes(learned.median)),
        told_apart: row.told_apart == Some(true),
    }
}

fn card(row: &MinutesRow) -> Option<f64> {
    row.card.and_then(|card| card.stored().parse().ok())
}

/// `2.1 min`; from ten on, whole.
fn in_minutes(minutes: f64) -> String {
    if minutes < 9.95 { format!("{minutes:.1} min") } else { format!("{minutes:.0} min") }
}

/// The guess that is furthest off, of those the logs do not fit.
fn finding(rows: &[MinutesRow]) -> String {
    let off = rows.iter().filter_map(|row| Some((row, row.learned?, card(row).filter(|card| *card > 0.0)?)));
    let off = off.filter(|(_, learned, card)| *card < learned.low || *card > learned.high);
    let factor = |median: f64, card: f64| if median > card { median / card } else { card / median };
    let worst = off.max_by(|one, other| factor(one.1.median, one.2).total_cmp(&factor(other.1.median, other.2)));
    if let Some((row, learned, card)) = worst {
        let of = |minutes: f64| in_minutes(minutes).trim_end_matches(" min").trim_end_matches(".0").to_owned();
        return format!("{} takes you {} minutes, not the {} on your card", capitalised(&row.key), of(learned.median), of(card));
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

/// Logged beside expected minutes of each order.
#[must_use]
pub fn logged(table: &MinutesTable) -> LoggedChart {
    let far = i64::try_from(table.far_off().count()).unwrap_or(i64::MAX);
    let all = i64::try_from(table.predictions.len()).unwrap_or(i64::MAX);
    let title = match far {
        0 => "Every order took about what its pieces add up to".to_owned(),
        far => format!("{} of {all} took far from what its pieces add up to", counted(far, "order", "orders")),
    };
    LoggedChart {
        title,
        subtitle: "Hours logged for each order, and the hours its set-up, colours and pieces add up to".to_owned(),
        expected_axis: "expected for its pieces".to_owned(),
        logged_axis: "logged by you".to_owned(),
        usual: table.fit.as_ref().map_or(1.0, |beside| libm::exp(beside.noise.median)),
        points: table
            .predictions
            .iter()
            .map(|(name, of)| LoggedPoint { name: name.clone(), expected: of.expected, logged: of.logged, far_off: of.far_off })
            .collect(),
    }
}
