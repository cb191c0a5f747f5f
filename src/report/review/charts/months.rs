//! Wage and hours month by month.

use super::{amounts, in_hours};
use crate::chart::{MonthBar, MonthsChart, Standing};
use crate::quantity::millionths::{Minutes, Money};
use crate::report::words::{Currency, hours};
use crate::review::Review;
use crate::review::bridge::SMALL;
use crate::review::months::MonthRow;

/// The most months shown: those before would make the others too thin.
const MOST: usize = 24;

/// The months up to the period's last.
#[must_use]
pub fn month_by_month(review: &Review, currency: &Currency) -> MonthsChart {
    let months = &review.months[review.months.len().saturating_sub(MOST)..];
    let current = |row: &MonthRow| review.period.from.is_some() && review.period.holds(row.month.first());
    MonthsChart {
        title: finding(months, currency),
        subtitle: "Hourly pay and your hours by month of hand-over, all hours and costs counted".to_owned(),
        wage_axis: "hourly pay, before your own taxes".to_owned(),
        hours_axis: "hours".to_owned(),
        amounts: amounts(currency),
        months: months.iter().map(|row| bar(row, current(row), review.target, currency)).collect(),
        target: review.target.map(|target| (target.decimal(), format!("target {}", currency.exact(target)))),
    }
}

fn bar(row: &MonthRow, current: bool, target: Option<Money>, currency: &Currency) -> MonthBar {
    let date = row.month.first().date();
    MonthBar {
        month: date.format("%b").to_string(),
        year: date.format("%Y").to_string(),
        wage: row.wage.map(Money::decimal),
        wage_label: currency.known(row.wage),
        hours: (row.minutes != Minutes::ZERO).then(|| in_hours(row.minutes)),
        hours_label: format!("{} h", hours(row.minutes)),
        few: is_few(row),
        current,
        standing: match (row.wage, target) {
            (Some(wage), Some(target)) if wage >= target => Standing::Over,
            (Some(_), Some(_)) => Standing::Short,
            _ => Standing::Unknown,
        },
    }
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
