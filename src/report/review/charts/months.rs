//! Wage and hours month by month.

use super::amounts;
use crate::chart::{MonthBar, MonthsChart, Standing};
use crate::quantity::Month;
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::ratio;
use crate::report::figures::{Currency, hours};
use crate::review::Review;
use crate::review::bridge::SMALL;
use crate::review::months::MonthRow;
use rust_decimal::Decimal;

/// The most months shown: those before would make the others too thin.
const MOST: usize = 24;

/// The months up to the period's last.
#[must_use]
pub fn month_by_month(review: &Review, currency: &Currency) -> MonthsChart {
    let months = &review.months[review.months.len().saturating_sub(MOST)..];
    let current = |row: &MonthRow| review.period.from.is_some() && review.period.holds(row.month.first());
    MonthsChart {
        title: finding(months, currency),
        subtitle: "Hourly wage and your hours by month of hand-over, what no order explains counted in".to_owned(),
        wage_axis: "paid an hour, before your own taxes".to_owned(),
        hours_axis: "hours".to_owned(),
        amounts: amounts(currency),
        months: months.iter().map(|row| bar(row, current(row), review.target, currency)).collect(),
        target: review.target.map(|target| (target.decimal(), format!("your wage {}", currency.exact(target)))),
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

/// How many months paid, and the last.
fn finding(months: &[MonthRow], currency: &Currency) -> String {
    let paid: Vec<(Month, Money)> = months.iter().filter_map(|row| Some((row.month, row.wage?))).collect();
    let covered = months.iter().filter(|row| row.surplus.is_some_and(|surplus| surplus >= Money::ZERO) && row.wage.is_some()).count();
    match paid.as_slice() {
        [] => "No month's wage can be told".to_owned(),
        [(month, wage)] => format!("{} paid {} an hour", month.in_words(), currency.exact(*wage)),
        [.., (month, wage)] if months.iter().all(|row| row.surplus.is_none()) => {
            format!("{} paid {} an hour", month.in_words(), currency.exact(*wage))
        }
        all if covered == 0 => format!("None of {} months covered your time", all.len()),
        all => format!("{covered} of {} months covered your time", all.len()),
    }
}

fn is_few(row: &MonthRow) -> bool {
    usize::try_from(row.orders).is_ok_and(|orders| orders < SMALL)
}

fn in_hours(minutes: Minutes) -> Decimal {
    Decimal::try_from_i128_with_scale(ratio::divide(minutes.0, 60).unwrap_or_default(), 6).unwrap_or_default()
}
