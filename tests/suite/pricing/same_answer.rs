//! The same question has the same answer, whichever command it is put to.

use super::{CARD, by_hand, fine, flowing, json, number, rows};
use crate::demo::SHOP;
use crate::harness::{Trial, figure, repository, row, run_on};
use crate::random_shop::for_many_shops;
use fairdozen::costing::{MinutesBy, Options, cost};
use fairdozen::period::{last_year, latest_month};
use fairdozen::pricing::cost::Smallest;
use fairdozen::pricing::next_list::{NextList, Wanted, next_list};
use fairdozen::pricing::season::next_start;
use fairdozen::quantity::Period;
use fairdozen::quantity::millionths::Money;
use fairdozen::report::review::worth::worth_doing;
use fairdozen::report::words::Currency;
use fairdozen::review::Review;
use fairdozen::review::list_prices::ListPrice;
use fairdozen::shop::Shop;
use fairdozen::shop::load::{Folder, Skipped};
use rust_decimal::Decimal;
use serde_json::Value;
use std::cell::Cell;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// A shop, the review of its latest month, and its next list.
struct Asked {
    shop: Shop,
    review: Review,
    list: NextList,
}

/// `None` where there is no target or no list to make.
fn ask(folder: &Path, minutes: MinutesBy) -> Option<Asked> {
    let shop = Folder::open(folder).load(&Skipped::new()).shop.unwrap();
    let options = Options { minutes, ..Options::default() };
    let costed = cost(&shop, options).unwrap();
    let month = Period::of(latest_month(&shop)?);
    let review = Review::of(&shop, &costed, month).unwrap();
    let wanted = Wanted {
        target: shop.settings.target?,
        floor: shop.settings.floor,
        tiers: None,
        keep: false,
        max_rise: None,
        unassigned: true,
        costs: BTreeMap::new(),
        season: last_year(&shop),
        starts: next_start(&shop).unwrap(),
    };
    let list = next_list(&shop, &costed, options, &wanted).ok()?;
    Some(Asked { shop, review, list })
}

fn pieces(smallest: Option<Smallest>) -> Value {
    smallest.and_then(Smallest::pieces).into()
}

/// From how many pieces on an order pays its set-up, today and at the next list's prices, by every command.
#[test]
fn every_command_names_one_smallest_order() {
    let demo = repository(SHOP);
    let mut any_size = false;
    for (minutes, options) in [(MinutesBy::Card, &CARD[..]), (MinutesBy::Learned { trend: false }, &[])] {
        let asked = ask(&demo, minutes).unwrap();
        assert_eq!(asked.review.smallest_order, Some(asked.list.alternatives.smallest));
        let of = pieces(asked.review.smallest_order);
        let tiers = json(&demo, "tiers", options);
        assert_eq!(tiers["smallest_order_at_old_prices"], of);
        // Whichever minimum is tried, and whatever orders it turns away, the size worth accepting is one.
        for minimum in ["12", "36"] {
            assert_eq!(json(&demo, "whatif", &[&["--minimum", minimum], options].concat())["smallest_order"], of);
        }
        let (up, never) = (format!("from {of} pieces up"), "no order of your usual mix pays $20 an hour, however large");
        for (command, asked) in [("whatif", ["--minimum", "24"]), ("tiers", ["--details", "--hide-orders"])] {
            let said = flowing(&fine(run_on(&demo, command, &[&asked, options].concat())));
            assert!(said.contains(if of.is_null() { never } else { &up }), "{of} {said}");
        }
        let list = written(&demo, options);
        let file = list.path().join("next-list.csv");
        let would = json(&demo, "whatif", &[&["--prices", file.to_str().unwrap(), "--minimum", "24"], options].concat());
        assert_eq!(would["smallest_order"], tiers["smallest_order"]);
        assert!(of.is_null() || tiers["smallest_order"].as_i64() < of.as_i64());
        any_size |= of.is_i64();
    }
    assert!(any_size);
    assert_eq!(json(&demo, "whatif", &["--if", "butter x2"])["smallest_order"], Value::Null, "no minimum was asked about");
}

/// The next list as `tiers` writes it.
fn written(shop: &Path, options: &[&str]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    fine(run_on(shop, "tiers", &[&["--out", folder.path().to_str().unwrap()], options].concat()));
    folder
}

/// 3.00 less 4 minutes at 6.00 an hour leaves 2.60, 9.00 less 12 minutes 7.80; three acorns and a gate leave 15.60. Twenty minutes
/// of planning cost 2.00: an eighth of that, half a piece, so that one is enough. At 40.00 an hour the four leave 2.00 and planning
/// costs 13.33: from 27 pieces on.
#[test]
fn a_quote_of_the_usual_mix_has_the_same_smallest_order() {
    for (target, smallest) in [("6.00", 1), ("40.00", 27)] {
        let shop = by_hand(target);
        let Asked { review, list, .. } = ask(shop.path(), MinutesBy::Card).unwrap();
        let quoted = json(shop.path(), "quote", &[&["12 acorn, 4 gate"][..], &CARD].concat());
        let would = json(shop.path(), "whatif", &[&["--minimum", "2"][..], &CARD].concat());
        let answers = [
            pieces(review.smallest_order),
            pieces(Some(list.alternatives.smallest)),
            quoted["smallest_order"].clone(),
            would["smallest_order"].clone(),
        ];
        assert!(answers.iter().all(|answer| *answer == smallest), "{target}: {answers:?}");
    }
}

/// What the review advises to ask for a design is what `tiers` calls its fair price, and the price now is the same.
#[test]
fn the_review_advises_the_list_price_that_tiers_calls_fair() {
    let demo = repository(SHOP);
    let asked = ask(&demo, MinutesBy::Learned { trend: false }).unwrap();
    let tiers = json(&demo, "tiers", &[]);
    let advised = advised(&asked);
    assert!(advised.len() >= 3, "{advised:?}");
    for (key, price) in &advised {
        let of = row(&tiers, key);
        assert_eq!((figure(of, "fair_price"), figure(of, "old_price")), (&*price.fair.stored(), &*price.now.stored()), "{key}");
    }
    // On the page and in its list of things to do the price stands in words, and there is no other.
    let currency = Currency::of("USD");
    let said = flowing(&fine(run_on(
        &demo,
        "review",
        &["--month", "2026-10", "--out", written(&demo, &[]).path().join("page").to_str().unwrap()],
    )));
    let raised = advised.iter().filter(|(key, _)| said.contains(&format!("for {key} instead of"))).collect::<Vec<_>>();
    assert!(!raised.is_empty(), "{said}");
    for (key, price) in raised {
        let (fair, now) = (currency.exact(price.fair), currency.exact(price.now));
        assert!(said.contains(&format!("Ask {fair} for {key} instead of {now}")), "{said}");
    }
    // Each price is said once: where a design is not raised there, where it is decided on.
    let must_be = "To pay $20 an hour over the year to October 2026 its list price must be ";
    let said_again = said.match_indices(must_be).map(|(at, _)| &said[at + must_be.len()..]).collect::<Vec<_>>();
    assert!(!said_again.is_empty(), "{said}");
    for rest in said_again {
        let is_advised = |(_, price): &(String, ListPrice)| {
            rest.starts_with(&format!("{}, not {}.", currency.exact(price.fair), currency.exact(price.now)))
        };
        assert!(advised.iter().any(is_advised), "{rest}");
    }
    assert!(worth_doing(&asked.review, &currency).iter().any(|line| line.starts_with("Ask ")));
}

/// The designs that need a decision, and their list prices.
fn advised(asked: &Asked) -> Vec<(String, ListPrice)> {
    asked.review.below_target.iter().filter_map(|design| Some((design.row.key.clone(), design.list_price?))).collect()
}

/// Two dozen more of a design in a quote cost what `tiers` makes fair prices of: its own materials and minutes at the target.
#[test]
fn a_piece_costs_the_same_in_a_quote_and_on_the_list() {
    let demo = repository(SHOP);
    let Asked { shop, list, .. } = ask(&demo, MinutesBy::Card).unwrap();
    let quote = |pieces: i64, key: &str| json(&demo, "quote", &[&[format!("{pieces} {key}").as_str()], &CARD[..]].concat());
    for of in &list.rows {
        let (dozen, more) = (quote(12, &of.key), quote(36, &of.key));
        assert_eq!(figure(&rows(&dozen, "rows")[0], "minutes_per_piece"), of.piece.own_minutes.stored(), "{}", of.key);
        let own = list.season.own_piece(of.design).unwrap();
        let kept = list.season.after_fees();
        let fair = Money(kept.into(own.needs(shop.settings.target.unwrap()).unwrap().0 * 24).unwrap());
        let found = number(&more, "fair_price") - number(&dozen, "fair_price");
        assert!((found - fair.decimal()).abs() < Decimal::new(1, 4), "{}: {found} {fair:?}", of.key);
        // The list adds the piece's part of its order: box, fixed fees, set-up and colours.
        assert!(own.materials == of.piece.materials && own.own_minutes == of.piece.own_minutes && own.cost() < of.piece.cost());
    }
}

/// By hand: an order of 16 is the season's one order, so that its pieces' fair prices on the list add up to the set's.
#[test]
fn fair_prices_on_the_list_add_up_to_the_quote_of_the_usual_order() {
    let shop = by_hand("18");
    let (tiers, quoted) = (json(shop.path(), "tiers", &CARD), json(shop.path(), "quote", &[&["12 acorn, 4 gate"][..], &CARD].concat()));
    let sum: Decimal =
        rows(&tiers, "rows").iter().map(|row| number(row, "fair_price") * Decimal::from(row["pieces"].as_i64().unwrap())).sum();
    assert_eq!(number(&quoted, "fair_price"), sum);
}

/// Of small random shops: one smallest order, one fair list price of each design, one answer to what the next list would have earned.
#[test]
fn random_shops_get_one_answer_too() {
    let compared = Cell::new((0, 0, 0));
    for_many_shops(40, 71, |shop, _| {
        let trial: Trial = shop.trial();
        let Some(asked) = ask(trial.path(), MinutesBy::Card) else { return Ok(()) };
        let (orders, designs, lists) = compared.get();
        assert_eq!(asked.review.smallest_order, Some(asked.list.alternatives.smallest));
        let sold: BTreeSet<String> = asked.list.rows.iter().map(|row| row.key.clone()).collect();
        let prices = advised(&asked);
        for (key, price) in prices.iter().filter(|(key, _)| sold.contains(key)) {
            let of = asked.list.rows.iter().find(|row| row.key == *key).unwrap();
            assert_eq!((price.now, price.fair), (of.old_price, of.fair_price), "{key}");
        }
        compared.set((orders + 1, designs + prices.len(), lists));
        let tiers = json(trial.path(), "tiers", &CARD);
        let list = written(trial.path(), &CARD);
        let file = list.path().join("next-list.csv");
        let season = last_year(&asked.shop);
        let days = [("--from", season.from), ("--to", season.to)];
        let days: Vec<String> = days.into_iter().filter_map(|(option, day)| Some(format!("{option}={}", day?))).collect();
        let days: Vec<&str> = days.iter().map(String::as_str).collect();
        let options = [&["--prices", file.to_str().unwrap(), "--minimum", "1"], &days[..], &CARD].concat();
        let would = json(trial.path(), "whatif", &options);
        assert_eq!(would["smallest_order"], tiers["smallest_order"]);
        for field in ["revenue", "owner_pay", "wage_per_hour"] {
            assert_eq!(would["all_in"]["after"][field], tiers["season"]["after"][field], "{field}");
        }
        let today = json(trial.path(), "whatif", &[&["--minimum", "1"], &CARD[..]].concat());
        let of = pieces(asked.review.smallest_order);
        assert_eq!([&today["smallest_order"], &tiers["smallest_order_at_old_prices"]], [&of, &of]);
        compared.set((orders + 1, designs + prices.len(), lists + 1));
        Ok(())
    });
    let (orders, designs, lists) = compared.get();
    assert!(orders >= 10 && designs >= 10 && lists >= 3, "{orders} {designs} {lists}");
}
