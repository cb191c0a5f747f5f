//! Orders that were written twice, whatever rows stand between.

use crate::reading::Table;
use std::collections::BTreeMap;

/// An order written twice, or more often.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct OrderTwice {
    /// Its id.
    pub order: String,
    /// The rows of the order, once.
    pub first: Vec<usize>,
    /// All its other rows.
    pub again: Vec<usize>,
}

/// The orders that consist of two or more copies of the same rows, of which at least two are different; in the order of their first rows.
///
/// An order has as many copies as the greatest common divisor of how often each of its rows stands: two boxes of moons and a tip, pasted
/// twice, are four rows and two. One row more of one of them, and it is no copy.
pub(super) fn orders_twice(table: &Table, alike: &[usize]) -> Vec<OrderTwice> {
    let Some((orders, names)) = table.text_of("order") else { return Vec::new() };
    let mut rows_of = BTreeMap::new();
    for (row, order) in orders.iter().enumerate() {
        if let Some(order) = order {
            rows_of
                .entry(order.number())
                .or_insert_with(|| (*order, BTreeMap::<usize, Vec<usize>>::new()))
                .1
                .entry(alike[row])
                .or_default()
                .push(row);
        }
    }
    let mut twice: Vec<OrderTwice> = rows_of
        .into_values()
        .filter_map(|(order, rows)| {
            let copies = rows.values().fold(0, |common, same| greatest_common_divisor(common, same.len()));
            if rows.len() < 2 || copies < 2 {
                return None;
            }
            let (mut first, mut again) = (Vec::new(), Vec::new());
            for same in rows.values() {
                let (once, more) = same.split_at(same.len() / copies);
                first.extend_from_slice(once);
                again.extend_from_slice(more);
            }
            first.sort_unstable();
            again.sort_unstable();
            Some(OrderTwice { order: names.text(order).to_owned(), first, again })
        })
        .collect();
    twice.sort_by_key(|order| order.first[0]);
    twice
}

fn greatest_common_divisor(one: usize, other: usize) -> usize {
    if other == 0 { one } else { greatest_common_divisor(other, one % other) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::table::Reading;
    use crate::reading::{Cells, Known};
    use crate::shop::specification::ORDERS;
    use std::collections::BTreeSet;

    fn of(rows: &[&str]) -> Vec<(String, Vec<usize>, Vec<usize>)> {
        let text = format!("order,date,design,quantity,price\n{}\n", rows.join("\n"));
        let reading = Reading::default();
        let cells = Cells::of_csv("orders.csv", text.as_bytes(), Known { specification: &ORDERS, columns: &reading.columns });
        let table = Table::read(&ORDERS, &cells, &reading, &BTreeSet::new(), &mut Vec::new());
        orders_twice(&table, &table.alike()).into_iter().map(|order| (order.order, order.first, order.again)).collect()
    }

    const MOON: &str = "A1,2026-03-01,moon,12,4";
    const STAR: &str = "A1,2026-03-01,star,6,3";
    const OTHER: &str = "A2,2026-03-02,moon,12,4";

    #[test]
    fn an_order_is_found_with_others_between() {
        let a1 = |first: &[usize], again: &[usize]| ("A1".to_owned(), first.to_vec(), again.to_vec());
        assert_eq!(of(&[MOON, STAR, OTHER, STAR, MOON]), [a1(&[0, 1], &[3, 4])]);
        assert_eq!(of(&[MOON, STAR, MOON, STAR, OTHER, MOON, STAR]), [a1(&[0, 1], &[2, 3, 5, 6])]);
        assert_eq!(of(&[MOON, MOON, STAR, MOON, MOON, STAR]), [a1(&[0, 1, 2], &[3, 4, 5])]);
    }

    #[test]
    fn a_row_that_stands_twice_is_no_order_twice() {
        for rows in [&[MOON, MOON][..], &[MOON, MOON, STAR], &[MOON, MOON, MOON, STAR, STAR], &[MOON, STAR, OTHER]] {
            assert_eq!(of(rows), [], "{rows:?}");
        }
    }
}
