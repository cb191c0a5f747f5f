//! Cost flows on the inventory examples of two textbooks: `OpenStax`, *Principles of Accounting 1*, ch. 10 (`osx_`), and
//! Hermanson, Edwards and Maher, *Accounting Principles: A Business Perspective*, Global Text, ch. 7 (`gtb_`).
//!
//! As a shop: the stock is an item bought each, a design takes one of it, nothing is spare. Opening stock is a purchase
//! on its day; a sale is an order. Cost of goods sold is then the total's ingredients, ending stock is purchases less
//! that, and gross margin is what the owner is left with. Both books' perpetual methods are ours; their periodic average
//! is so only where all is sold after all was bought.

use crate::harness::Trial;
use crate::published::{decimal, money, table};
use rust_decimal::Decimal;
use std::collections::{BTreeMap, VecDeque};
use std::fmt::Write;

/// What happened to the stock, in turn.
#[derive(Clone, Copy)]
enum Event {
    Bought(i64, Decimal),
    Sold(i64, Option<Decimal>),
}

struct Case {
    trial: Trial,
    events: Vec<Event>,
}

/// `07-05` is a day of 2026; `d3` the third of January.
fn day(text: &str) -> String {
    match text.strip_prefix('d') {
        Some(number) => format!("2026-01-{:02}", number.parse::<u32>().unwrap()),
        None => format!("2026-{text}"),
    }
}

fn cases() -> BTreeMap<String, Case> {
    let mut texts: BTreeMap<String, (String, String, Vec<Event>)> = BTreeMap::new();
    for row in table("inventory_events.csv") {
        let (purchases, orders, events) = texts.entry(row["case_id"].clone()).or_default();
        let quantity: i64 = row["qty"].parse().unwrap();
        let day = day(&row["date"]);
        if row["event"] == "sale" {
            let price = Some(&row["unit_price"]).filter(|price| !price.is_empty()).map(|price| decimal(price));
            let _ = writeln!(orders, "S{},{day},unit,{quantity},{}", row["seq"], price.unwrap_or_default());
            events.push(Event::Sold(quantity, price));
        } else {
            let each = decimal(&row["unit_cost"]);
            let _ = writeln!(purchases, "{day},stock,{quantity},each,{}", each * Decimal::from(quantity));
            events.push(Event::Bought(quantity, each));
        }
    }
    let case = |(name, (purchases, orders, events)): (String, (String, String, Vec<Event>))| {
        let trial = Trial::new(&[
            ("purchases.csv", &format!("date,item,size,unit,paid\n{purchases}")),
            ("orders.csv", &format!("order,date,design,quantity,price\n{orders}")),
            ("recipes.csv", "for,item,amount,unit\nunit,stock,1,each\n"),
        ]);
        (name, Case { trial, events })
    };
    texts.into_iter().map(case).collect()
}

impl Case {
    /// Cost of goods sold, ending stock and gross margin, as the program works them out.
    fn worked_out(&self, flow: &str) -> [Decimal; 3] {
        let wage = self.trial.wage("design", &["--cost-flow", flow]);
        let sold = money(&wage["total"], "ingredients");
        let bought: Decimal = self
            .events
            .iter()
            .map(|event| if let Event::Bought(quantity, each) = event { *each * Decimal::from(*quantity) } else { Decimal::ZERO })
            .sum();
        assert_eq!(money(&wage["unassigned"], "ingredients"), Decimal::ZERO);
        [sold, bought - sold, money(&wage["total"], "owner_pay")]
    }

    fn is_priced(&self) -> bool {
        self.events.iter().all(|event| !matches!(event, Event::Sold(_, None)))
    }

    fn sells_after_all_was_bought(&self) -> bool {
        let first = self.events.iter().position(|event| matches!(event, Event::Sold(..))).unwrap();
        self.events[first..].iter().all(|event| matches!(event, Event::Sold(..)))
    }

    /// First in, first out, unit by unit: every unit's cost stands in a queue.
    fn unit_by_unit(&self) -> Decimal {
        let mut queue = VecDeque::new();
        let mut sold = Decimal::ZERO;
        for event in &self.events {
            match *event {
                Event::Bought(quantity, each) => queue.extend((0..quantity).map(|_| each)),
                Event::Sold(quantity, _) => sold += (0..quantity).map(|_| queue.pop_front().unwrap()).sum::<Decimal>(),
            }
        }
        sold
    }

    /// The moving average, to the 28 digits of a decimal number and rounded nowhere before.
    fn moving_average(&self) -> Decimal {
        let (mut value, mut count, mut sold) = (Decimal::ZERO, Decimal::ZERO, Decimal::ZERO);
        for event in &self.events {
            match *event {
                Event::Bought(quantity, each) => {
                    value += each * Decimal::from(quantity);
                    count += Decimal::from(quantity);
                }
                Event::Sold(quantity, _) => {
                    let issued = value * Decimal::from(quantity) / count;
                    sold += issued;
                    value -= issued;
                    count -= Decimal::from(quantity);
                }
            }
        }
        sold
    }
}

#[test]
fn published_costs_of_goods_sold_are_ours_as_far_as_they_are_printed() {
    let cases = cases();
    let mut checked = 0;
    for row in table("inventory_expected.csv") {
        let case = &cases[&row["case_id"]];
        let flow = match (row["method"].as_str(), row["basis"].as_str()) {
            ("fifo", _) => "fifo",
            ("weighted_average", "perpetual") => "average",
            ("weighted_average", "periodic") if case.sells_after_all_was_bought() => "average",
            _ => continue,
        };
        let figures = case.worked_out(flow);
        for (published, ours) in ["published_cogs", "published_ending", "published_gross_margin"].into_iter().zip(figures) {
            let printed = &row[published];
            if !printed.is_empty() {
                let printed = decimal(printed);
                let rounded = ours.round_dp_with_strategy(printed.scale(), rust_decimal::RoundingStrategy::MidpointAwayFromZero);
                assert_eq!(rounded, printed, "{} {flow} {published}: {ours}", row["case_id"]);
                checked += 1;
            }
        }
    }
    // osx_gps fifo twice and average, three figures each; osx_filters fifo, gtb_ch7 fifo twice and average, two each.
    assert_eq!(checked, 17);
}

#[test]
fn every_event_list_agrees_with_the_method_done_by_hand() {
    let cases = cases();
    assert_eq!(cases.len(), 11);
    for (name, case) in &cases {
        let revenue: Decimal = case
            .events
            .iter()
            .map(|event| if let Event::Sold(quantity, Some(price)) = event { *price * Decimal::from(*quantity) } else { Decimal::ZERO })
            .sum();
        let [fifo, ending, margin] = case.worked_out("fifo");
        assert_eq!(fifo, case.unit_by_unit(), "{name}");
        assert!(ending >= Decimal::ZERO, "{name}");
        let [average, _, average_margin] = case.worked_out("average");
        let exact = case.moving_average();
        // The program rounds each day's issue to a millionth.
        assert!((average - exact).abs() < decimal("0.000004"), "{name}: {average} for {exact}");
        if case.is_priced() {
            assert_eq!((margin, average_margin), (revenue - fifo, revenue - average), "{name}");
        }
    }
}

#[test]
fn the_moving_average_of_the_books_is_exact_where_they_round() {
    let cases = cases();
    // Recomputed in exact fractions: 120 × 21 + 180 × (6 705 ÷ 255) and 511.41666…; the books print 7,253 and 511.42.
    for (name, sold, ending) in [("osx_gps", "7252.941176", "8902.058824"), ("gtb_ch7", "511.416667", "178.583333")] {
        let [ours, left, _] = cases[name].worked_out("average");
        assert_eq!((ours, left), (decimal(sold), decimal(ending)), "{name}");
    }
    assert_eq!(cases["osx_gps"].worked_out("average")[2], decimal("4087.058824"));
}
