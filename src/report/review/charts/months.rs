//! Wage and hours month by month.

use super::{Standing, amounts, in_hours, target_line};
use crate::chart::{AmountStyle, Column, Columns, Fill, Heading, Month, Panel};
use crate::quantity::millionths::{Minutes, Money};
use crate::report::words::{Currency, hours};
use crate::review::Review;
use crate::review::bridge::SMALL;
use crate::review::months::MonthRow;
use rust_decimal::Decimal;

/// The most months shown: those before would make the others too thin.
const MOST: usize = 24;

/// Charts the months up to the period's last.
#[must_use]
pub(crate) fn month_by_month(review: &Review, currency: &Currency) -> Columns {
    let months = &review.months[review.months.len().saturating_sub(MOST)..];
    let current = |row: &MonthRow| review.period.from.is_some() && review.period.holds(row.month.first());
    let pay = Panel {
        axis: "hourly pay, before your own taxes".to_owned(),
        amounts: amounts(currency),
        line: target_line(review.target, currency),
        missing: "no hourly pay".to_owned(),
    };
    let worked = Panel { axis: "hours".to_owned(), amounts: AmountStyle::counted(" h", 0), ..Panel::default() };
    let (pay_words, hours_words) = (pay_words(months), hours_words(months));
    Columns {
        heading: Heading {
            title: finding(months, currency),
            subtitle: "Hourly pay and your hours by month of hand-over, all hours and costs counted".to_owned(),
        },
        key: Standing::ALL.map(|standing| (standing.fill(), standing.in_key(review.target).to_owned())).into(),
        rough: "few orders, so rough".to_owned(),
        panels: vec![pay, worked],
        months: months
            .iter()
            .map(|row| Month {
                name: row.month.first().date().format("%b").to_string(),
                year: row.month.first().date().format("%Y").to_string(),
                is_current: current(row),
                columns: vec![pay_column(row, &pay_words, review.target, currency), hours_column(row, &hours_words)],
                gap: if row.orders == 0 { "no orders" } else { "no hours" }.to_owned(),
            })
            .collect(),
    }
}

fn pay_column(row: &MonthRow, words: &impl Fn(&MonthRow) -> &'static str, target: Option<Money>, currency: &Currency) -> Option<Column> {
    let wage = row.wage?;
    let (standing, label) = (Standing::of(row.wage, target), currency.exact(wage));
    let judged = standing.word().map_or_else(String::new, |(word, _)| format!(", {word}"));
    let few = if is_few(row) { ", few orders" } else { "" };
    Some(Column {
        amount: wage.decimal(),
        said: format!("{label} an hour{judged}{few}"),
        label,
        word: words(row).to_owned(),
        fill: standing.fill(),
        is_rough: is_few(row),
    })
}

fn hours_column(row: &MonthRow, words: &impl Fn(&MonthRow) -> &'static str) -> Option<Column> {
    let label = format!("{} h", hours(row.minutes));
    (row.minutes != Minutes::ZERO).then(|| Column {
        amount: in_hours(row.minutes).max(Decimal::ZERO),
        said: label.clone(),
        label,
        word: words(row).to_owned(),
        fill: Fill::Hours,
        is_rough: false,
    })
}

/// The best month and the worst, of three or more with orders enough to say so.
fn pay_words(months: &[MonthRow]) -> impl Fn(&MonthRow) -> &'static str {
    let telling: Vec<Money> = months.iter().filter(|row| !is_few(row)).filter_map(|row| row.wage).collect();
    let (best, worst) = (telling.iter().max().copied(), telling.iter().min().copied());
    let is_ranked = telling.len() >= 3 && best != worst;
    move |row| match row.wage {
        wage if !is_ranked || is_few(row) || wage.is_none() => "",
        wage if wage == best => "best",
        wage if wage == worst => "worst",
        _ => "",
    }
}

/// The month with most hours, of three or more.
fn hours_words(months: &[MonthRow]) -> impl Fn(&MonthRow) -> &'static str {
    let worked = || months.iter().map(|row| row.minutes).filter(|minutes| *minutes != Minutes::ZERO);
    let most = worked().max().filter(|_| worked().count() >= 3);
    move |row| if Some(row.minutes) == most { "most" } else { "" }
}

/// The last month, and how many of them paid.
fn finding(months: &[MonthRow], currency: &Currency) -> String {
    let paid: Vec<&MonthRow> = months.iter().filter(|row| row.wage.is_some()).collect();
    let Some((month, wage)) = paid.last().and_then(|row| Some((row.month, row.wage?))) else {
        return "No month has known hours".to_owned();
    };
    let last = format!("{} paid {} an hour", month.in_words(), currency.exact(wage));
    if paid.len() == 1 || paid.iter().all(|row| row.surplus.is_none()) {
        return last;
    }
    let covered = paid.iter().filter(|row| row.surplus.is_some_and(|surplus| surplus >= Money::ZERO)).count();
    let covered = if covered == 0 { "none".to_owned() } else { covered.to_string() };
    format!("{last}; {covered} of {} months covered your time", paid.len())
}

fn is_few(row: &MonthRow) -> bool {
    usize::try_from(row.known_orders).is_ok_and(|orders| orders < SMALL)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Month as Calendar;

    /// A month of a wage in dollars, orders with known hours, and hours.
    fn row(month: &str, wage: Option<i128>, known_orders: i64, hours: i128) -> MonthRow {
        MonthRow {
            month: Calendar::parse(month).unwrap(),
            orders: known_orders,
            known_orders,
            pieces: 0,
            pay: Money::ZERO,
            minutes: Minutes(hours * 60_000_000),
            wage: wage.map(|dollars| Money(dollars * 1_000_000)),
            surplus: None,
        }
    }

    fn words(rows: &[MonthRow]) -> (Vec<&'static str>, Vec<&'static str>) {
        let (pay, hours) = (pay_words(rows), hours_words(rows));
        (rows.iter().map(pay).collect(), rows.iter().map(hours).collect())
    }

    #[test]
    fn best_and_worst_are_named_unless_few_orders_stand_behind_them() {
        let mut rows = vec![
            row("2026-01", Some(14), 9, 38),
            row("2026-02", None, 0, 0),
            row("2026-03", Some(30), 2, 71),
            row("2026-04", Some(20), 9, 44),
        ];
        assert_eq!(words(&rows), (vec![""; 4], vec!["", "", "most", ""]), "of two none is best");
        rows.push(row("2026-05", Some(18), 9, 12));
        assert_eq!(words(&rows).0, ["worst", "", "", "best", ""]);
        for row in &mut rows {
            row.wage = row.wage.and(Some(Money(1)));
        }
        assert_eq!(words(&rows).0, [""; 5], "all alike");
    }

    #[test]
    fn a_month_is_judged_and_said_with_its_caution() {
        let target = Some(Money(20_000_000));
        let column = |row: &MonthRow| pay_column(row, &|_| "", target, &Currency::of("USD"));
        let few = column(&row("2026-03", Some(16), 2, 12)).unwrap();
        assert!(few.is_rough && few.fill == Fill::Below);
        assert_eq!((few.label.as_str(), few.said.as_str()), ("$16.00", "$16.00 an hour, below, few orders"));
        let good = column(&row("2026-04", Some(20), 9, 12)).unwrap();
        assert!(!good.is_rough && good.fill == Fill::Above && good.said == "$20.00 an hour, above");
        assert!(column(&row("2026-02", None, 0, 0)).is_none() && hours_column(&row("2026-02", None, 0, 0), &|_| "").is_none());
    }
}
