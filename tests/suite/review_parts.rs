//! What a review is made of: month by month, order sizes, ingredient prices, stock that is missing, what is worth doing.

use crate::harness::{Trial, repository};
use fairdozen::costing::{Costed, MinutesBy, Options, cost};
use fairdozen::period::year_to;
use fairdozen::quantity::millionths::{Minutes, Money};
use fairdozen::quantity::{Day, Month, Period};
use fairdozen::report::review::worth::worth_doing;
use fairdozen::report::words::Currency;
use fairdozen::review::Review;
use fairdozen::review::advice::{Advice, MOST};
use fairdozen::review::headline::Headline;
use fairdozen::review::{By, Question, WageTable};
use fairdozen::shop::load::{Folder, Shop, Skipped};
use std::path::Path;

fn costed(folder: &Path, minutes: MinutesBy) -> (Shop, Costed) {
    let shop = Folder::open(folder).load(&Skipped::new()).shop.unwrap();
    let costed = cost(&shop, Options { minutes, ..Options::default() }).unwrap();
    (shop, costed)
}

fn month(text: &str) -> Period {
    Period::of(Month::parse(text).unwrap())
}

fn day(text: &str) -> Day {
    Day::parse(text).unwrap()
}

#[test]
fn each_month_is_what_its_own_headline_says() {
    let (shop, costed) = costed(&repository("fixtures/ninebell-quay"), MinutesBy::Card);
    let review = Review::of(&shop, &costed, month("2026-10")).unwrap();
    assert_eq!(review.months.last().unwrap().month, Month::parse("2026-10").unwrap());
    assert!(review.months.windows(2).all(|pair| pair[1].month == pair[0].month.next()), "no month is left out");
    for row in &review.months {
        let headline = Headline::of(&shop, &costed, Period::of(row.month)).unwrap();
        assert_eq!((row.pay, row.minutes), (headline.pay, headline.minutes), "{}", row.month);
        assert_eq!(row.surplus, headline.missing.map(|missing| -missing), "{}", row.month);
        if row.orders > 0 {
            assert_eq!(row.wage, headline.wage, "{}", row.month);
        } else {
            assert_eq!(row.wage, None, "{}", row.month);
        }
    }
    let january = review.months.iter().find(|row| row.month == Month::parse("2026-01").unwrap()).unwrap();
    assert!(january.orders == 0 && january.minutes > Minutes::ZERO, "the demo has a month of hours without orders");
}

#[test]
fn orders_by_size_are_the_year_s_orders_with_known_hours() {
    let (shop, costed) = costed(&repository("fixtures/ninebell-quay"), MinutesBy::Card);
    let period = month("2026-10");
    assert_eq!(year_to(period), Period { from: Some(day("2025-11-01")), to: Some(day("2026-10-31")) });
    let review = Review::of(&shop, &costed, period).unwrap();
    let table = WageTable::of(&shop, &costed, Question { by: By::Order, period: year_to(period) }).unwrap();
    let mut expected: Vec<(String, i64, Money)> = table
        .rows
        .iter()
        .filter(|row| row.known.pieces > 0)
        .filter_map(|row| Some((row.key.clone(), row.pieces, row.wage_per_hour?)))
        .collect();
    let mut found: Vec<(String, i64, Money)> =
        review.orders_of_size.iter().map(|order| (order.order.clone(), order.pieces, order.wage)).collect();
    expected.sort();
    found.sort();
    assert_eq!(found, expected);
    let within = review.orders_of_size.iter().filter(|order| order.in_period).count();
    assert_eq!(within, review.headline.orders_known, "every order of the month with hours has pieces");
    assert_eq!(review.sizes.total.orders, table.total.orders);
}

/// By hand, fixtures/tiny-shop/README.md §3: flour 11.00 ÷ 5000 g in March, 14.00 ÷ 5000 g in April; icing sugar 6.60 ÷ 2000 g.
#[test]
fn prices_paid_are_landed_and_for_one_base_unit() {
    let (shop, costed) = costed(&repository("fixtures/tiny-shop"), MinutesBy::Card);
    let review = Review::of(&shop, &costed, month("2026-04")).unwrap();
    let told: Vec<(&str, &str, Vec<String>)> = review
        .item_prices
        .iter()
        .map(|item| {
            let prices = item.prices.iter().map(|(day, price)| format!("{day} {}", price.normalize())).collect();
            (item.item.as_str(), item.measured.base_unit(), prices)
        })
        .collect();
    let flour = vec!["2026-03-01 0.0022".to_owned(), "2026-04-01 0.0028".to_owned()];
    assert_eq!(told, [("flour", "g", flour), ("icing sugar", "g", vec!["2026-03-01 0.0033".to_owned()])], "packaging is left out");
    assert_eq!(review.item_prices[0].spent, 25_000_000);
}

const STOCKED: &[(&str, &str)] = &[
    ("shop.toml", "currency = \"USD\"\ncost_flow = \"average\"\n[wage]\ntarget = 20\n"),
    ("orders.csv", "order,date,design,quantity,price\nA,2026-03-07,bell,12,4\nB,2026-04-04,bell,12,4\nC,2026-05-02,bell,2,4\n"),
    ("recipes.csv", "for,item,amount,unit\nbell,flour,100,g\n"),
    ("purchases.csv", "date,item,size,unit,paid\n2026-03-01,flour,1,kg,2.00\n2026-04-20,flour,1,kg,3.00\n"),
    ("counts.csv", "date,item,amount,unit\n2026-05-31,flour,500,g\n"),
    ("hours.csv", "date,minutes,order\n2026-03-06,60,A\n2026-05-01,30,C\n"),
];

/// By hand: 1,200 g in March of 1,000 g bought is 200 g short at 0.002; 1,200 g in April, with none left, is short whole. In May
/// 200 of 1,000 g were used, and 500 of the 800 g that should be left are: 300 g at 0.003 are missing.
#[test]
fn what_runs_short_and_what_counts_miss_belongs_to_its_month() {
    let trial = Trial::new(STOCKED);
    let (shop, costed) = costed(trial.path(), MinutesBy::Equal);
    let told = |text: &str| {
        let review = Review::of(&shop, &costed, month(text)).unwrap();
        let of = |missing: &[fairdozen::review::stock::Missing]| -> Vec<String> {
            missing
                .iter()
                .map(|one| {
                    format!("{} {} {} {}", one.item, one.quantity.amount.0 / 1_000_000_000_000, one.measured.base_unit(), one.quantity.cost)
                })
                .collect()
        };
        (of(&review.shortfalls), of(&review.gaps))
    };
    assert_eq!(told("2026-03"), (vec!["flour 200 g 400000".to_owned()], vec![]));
    assert_eq!(told("2026-04"), (vec!["flour 1200 g 2400000".to_owned()], vec![]));
    assert_eq!(told("2026-05"), (vec![], vec!["flour 300 g 900000".to_owned()]));
}

/// By hand: April's one order has no hours and ran 1,200 g short; its 48.00 are what is not known.
#[test]
fn what_is_worth_doing_names_the_figure_it_comes_from() {
    let trial = Trial::new(STOCKED);
    let (shop, costed) = costed(trial.path(), MinutesBy::Equal);
    let said = |text: &str| worth_doing(&Review::of(&shop, &costed, month(text)).unwrap(), &Currency::of("USD"));
    assert_eq!(
        said("2026-04"),
        [
            "Log hours for B: without them its $48 has no hourly pay.",
            "Log a purchase of flour, or count it: you used 1,200 g more than you bought, costed at $2.40."
        ]
    );
    assert_eq!(said("2026-03"), ["Log a purchase of flour, or count it: you used 200 g more than you bought, costed at $0.40."]);
    // May: 8.00 for half an hour falls short of 20.00 an hour. But over the year 14 bells took 90 minutes, 2.14 each at the target, and
    // flour for 0.30 at its last price and what ran short: 4.00 pays, so a raise is no remedy for an order of two.
    assert_eq!(said("2026-05"), [] as [&str; 0]);
}

/// By hand: 12 bells on a list of 5.00, a fifth off: 48.00 for 4 hours. 80.00 at 20.00 an hour is 6.67 a piece; on the list that
/// is 8.33, for what is charged is four fifths of it. The gift beside it is no matter of its price, and takes half of the hours.
#[test]
fn a_raise_is_of_the_list_price_and_never_of_a_gift() {
    let orders =
        "order,date,kind,design,quantity,price\nA,2026-03-07,cookie,bell,12,5\nA,2026-03-07,discount,,,12\nB,2026-03-08,cookie,gift,12,0\n";
    let files = [
        ("shop.toml", "currency = \"USD\"\n[wage]\ntarget = 20\n"),
        ("orders.csv", orders),
        ("hours.csv", "date,minutes,order\n2026-03-06,240,A\n2026-03-06,240,B\n"),
    ];
    let trial = Trial::new(&files);
    let (shop, costed) = costed(trial.path(), MinutesBy::Equal);
    let said = worth_doing(&Review::of(&shop, &costed, month("2026-03")).unwrap(), &Currency::of("USD"));
    assert_eq!(
        said,
        [
            "Ask $8.33 for bell instead of $5.00 to earn $20 an hour over all your logs, or save 8 minutes a piece. In March 2026 its 12 pieces fell $32 short."
        ]
    );
}

#[test]
fn without_any_hours_logging_them_is_what_is_worth_doing() {
    let trial = Trial::new(&[("orders.csv", "order,date,design,quantity,price\nA,2026-03-07,bell,12,5\n")]);
    let (shop, costed) = costed(trial.path(), MinutesBy::Card);
    let review = Review::of(&shop, &costed, month("2026-03")).unwrap();
    assert_eq!(review.advice, [Advice::LogAnyHours]);
}

#[test]
fn at_most_five_things_are_worth_doing_and_none_rests_on_a_verdict_too_close_to_call() {
    let (shop, costed) = costed(&repository("fixtures/ninebell-quay"), MinutesBy::Learned { trend: false });
    for text in ["2025-09", "2025-12", "2026-02", "2026-05", "2026-07", "2026-10"] {
        let review = Review::of(&shop, &costed, month(text)).unwrap();
        assert!((1..=MOST).contains(&review.advice.len()), "{text}: {:?}", review.advice);
        for worth in &review.advice {
            if let Advice::Raise { design } = worth {
                assert!(design.row.is_conclusive() && design.row.known.surplus().unwrap() < Money::ZERO, "{text}: {}", design.row.key);
            }
        }
        let sentences = worth_doing(&review, &Currency::of("USD"));
        assert!(sentences.iter().all(|sentence| sentence.contains(|c: char| c.is_ascii_digit())), "{text}: {sentences:?}");
    }
}
