//! The years of dates that are written without one, from their neighbours in the column.

use super::{Written, is_on, on};
use crate::quantity::Day;
use std::ops::RangeInclusive;

/// The days of a column, with a year for each date without one where the column's order leaves exactly one.
///
/// A column runs in order where its whole dates never fall, or never rise. A date without a year then lies between the nearest
/// whole dates before and after it; it stays `None` where one of these is missing, or several years fit, or none does.
#[must_use]
pub fn dated(cells: &[Option<Written>]) -> Vec<Option<Day>> {
    let whole: Vec<(usize, Day)> = cells
        .iter()
        .enumerate()
        .filter_map(|(row, cell)| match cell {
            Some(Written::Day(day)) => Some((row, *day)),
            _ => None,
        })
        .collect();
    let mut days = vec![None; cells.len()];
    for (row, day) in &whole {
        days[*row] = Some(*day);
    }
    let rises = whole.windows(2).all(|pair| pair[0].1 <= pair[1].1);
    let falls = whole.windows(2).all(|pair| pair[0].1 >= pair[1].1);
    if whole.len() < cells.iter().flatten().count() && (rises || falls) {
        for pair in whole.windows(2) {
            let (first, last) = (pair[0].0 + 1, pair[1].0);
            let between: Vec<(usize, &Written)> = (first..last).filter_map(|row| cells[row].as_ref().map(|cell| (row, cell))).collect();
            let bounds = pair[0].1.min(pair[1].1)..=pair[0].1.max(pair[1].1);
            for ((row, _), day) in between.iter().zip(only_days(&between, &bounds, pair[0].1 <= pair[1].1)) {
                days[*row] = day;
            }
        }
    }
    days
}

/// The day of each cell where the run of them can lie in the bounds, in order, in one way alone.
fn only_days(run: &[(usize, &Written)], bounds: &RangeInclusive<Day>, rises: bool) -> Vec<Option<Day>> {
    let in_order: Vec<&Written> =
        if rises { run.iter().map(|(_, cell)| *cell).collect() } else { run.iter().rev().map(|(_, cell)| *cell).collect() };
    // Earliest days from the front, latest days from the back: one way alone where they are the same.
    let mut least = *bounds.start();
    let earliest: Option<Vec<Day>> = in_order
        .iter()
        .map(|cell| {
            least = candidates(cell, &(least..=*bounds.end())).min()?;
            Some(least)
        })
        .collect();
    let mut most = *bounds.end();
    let latest: Option<Vec<Day>> = in_order
        .iter()
        .rev()
        .map(|cell| {
            most = candidates(cell, &(*bounds.start()..=most)).max()?;
            Some(most)
        })
        .collect();
    let (Some(earliest), Some(latest)) = (earliest, latest) else { return vec![None; run.len()] };
    let mut days: Vec<Option<Day>> = earliest.iter().zip(latest.iter().rev()).map(|(one, other)| (one == other).then_some(*one)).collect();
    if !rises {
        days.reverse();
    }
    days
}

/// The days within bounds that a cell without a year may mean.
fn candidates(cell: &Written, bounds: &RangeInclusive<Day>) -> impl Iterator<Item = Day> {
    let bounds = bounds.clone();
    let (month, day, weekday) = match cell {
        Written::WithoutYear { month, day, weekday } => (*month, *day, *weekday),
        Written::Day(_) => (0, 0, None),
    };
    let years = bounds.start().month().0.div_euclid(12)..=bounds.end().month().0.div_euclid(12);
    years.filter_map(move |year| on(year, month, day)).filter(move |day| bounds.contains(day) && weekday.is_none_or(|at| is_on(*day, at)))
}

#[cfg(test)]
mod tests {
    use super::super::{DateStyle, written};
    use super::*;

    fn days(texts: &[&str]) -> Vec<String> {
        let cells: Vec<Option<Written>> = texts.iter().map(|text| written(text, DateStyle::MonthDayYear)).collect();
        dated(&cells).iter().map(|day| day.map_or_else(|| "-".to_owned(), |day| day.to_string())).collect()
    }

    #[test]
    fn neighbours_in_order_give_the_year() {
        assert_eq!(days(&["2026-09-03", "Sep 5", "", "9/9", "2026-10-01"])[1..4], ["2026-09-05", "-", "2026-09-09"]);
        assert_eq!(days(&["2025-12-20", "12/30", "1/2", "2026-01-05"])[1..3], ["2025-12-30", "2026-01-02"]);
        assert_eq!(days(&["2026-01-05", "1/2", "12/30", "2025-12-20"])[1..3], ["2026-01-02", "2025-12-30"]);
    }

    #[test]
    fn a_year_that_is_not_certain_is_not_given() {
        // No neighbour after it, two years that fit, none that fits, a column out of order, and no year anywhere.
        assert_eq!(days(&["2026-09-03", "9/5"])[1], "-");
        assert_eq!(days(&["2025-09-03", "9/5", "2026-10-01"])[1], "-");
        assert_eq!(days(&["2026-09-03", "9/2", "2026-10-01"])[1], "-");
        assert_eq!(days(&["2026-09-03", "9/5", "2026-10-01", "2026-09-04"])[1], "-");
        assert_eq!(days(&["9/3", "9/5"]), ["-", "-"]);
        // The weekday leaves one of two years: 2025-09-05 was a Friday.
        assert_eq!(days(&["2025-09-03", "Fri 9/5", "2026-10-01"])[1], "2025-09-05");
        assert_eq!(days(&["2023-09-03", "2/29", "2026-10-01"])[1], "2024-02-29");
    }
}
