//! Past orders at other prices.

use super::{CARD, by_hand, fine, flowing, json, number, rows};
use crate::demo::SHOP;
use crate::harness::{Trial, figure, repository, row, run_on};

/// The shop's own list is no change: every row's facts come back to the last digit, and they are those of `wage`.
#[test]
fn prices_unchanged_give_the_facts_back() {
    let shop = repository(SHOP);
    let own = repository(SHOP).join("tiers.csv");
    let own = own.to_str().unwrap();
    for by in ["tier", "design", "order"] {
        let would = json(&shop, "whatif", &["--prices", own, "--by", by]);
        let wage = json(&shop, "wage", &["--by", by]);
        assert_eq!(rows(&would, "rows").len(), rows(&wage, "rows").len());
        for found in rows(&would, "rows") {
            assert_eq!(found["before"], found["after"], "{by} {}", found["key"]);
            let known = row(&wage, found["key"].as_str().unwrap());
            for field in ["revenue", "owner_pay", "owner_minutes", "wage_per_hour"] {
                assert_eq!(found["after"][field], known[field], "{by} {} {field}", found["key"]);
            }
        }
        assert_eq!(would["all_in"]["before"], would["all_in"]["after"]);
    }
    // Factors of one are no change either, whatever the cost flow shares.
    let would = json(&shop, "whatif", &["--if", "butter x1", "--if", "eggs +0%", "--fewer", "character 0%", "--minimum", "1"]);
    assert_eq!(would["total"]["before"], would["total"]["after"]);
}

#[test]
fn dearer_items_cost_what_they_are_dearer_by() {
    let trial = Trial::new(&[
        ("orders.csv", "order,date,design,quantity,price\nA1,2026-03-10,acorn,10,3.00\nA2,2026-03-12,acorn,10,3.00\n"),
        (
            "purchases.csv",
            "date,item,size,unit,paid,shipping,receipt\n2026-03-01,flour,1,kg,2.00,1.00,R1\n2026-03-01,bag,100,each,8.00,,R1\n",
        ),
        ("recipes.csv", "for,item,amount,unit\nacorn,flour,20,g\nacorn,bag,1,each\n"),
        ("items.csv", "item,class\nbag,packaging\n"),
    ]);
    // 20 × 20 g of flour at 2.20 a kilogram, shipping included: 0.88. Half as much again costs 0.44 more.
    let would = json(trial.path(), "whatif", &["--if", "flour +50%"]);
    assert_eq!(number(&would["total"]["before"], "owner_pay") - number(&would["total"]["after"], "owner_pay"), "0.44".parse().unwrap());
    // One order in two is turned away, or a fifth of all pieces go: 30.00 and 12.00 of revenue.
    let would = json(trial.path(), "whatif", &["--fewer", "orders 50%"]);
    assert_eq!(figure(&would["total"]["after"], "revenue"), "30.000000");
    let would = json(trial.path(), "whatif", &["--fewer", "acorns 20%"]);
    assert_eq!((figure(&would["total"]["after"], "revenue"), figure(&would["total"]["after"], "pieces")), ("48.000000", "16.000000"));
    let would = json(trial.path(), "whatif", &["--minimum", "11"]);
    assert_eq!((figure(&would["total"]["after"], "revenue"), &would["orders_turned_away"]), ("0.000000", &2.into()));
}

#[test]
fn set_prices_rise_with_their_cookies_and_the_rest_stays() {
    let trial = Trial::new(&[
        (
            "orders.csv",
            "order,date,kind,design,quantity,price\nA1,2026-03-10,,acorn,10,\nA1,2026-03-10,,gate,5,\nA1,2026-03-10,set,,,60.00\n\
             A1,2026-03-10,discount,,,6.00\nA1,2026-03-10,delivery,,,9.00\nA2,2026-03-11,,acorn,10,4.00\n",
        ),
        ("designs.csv", "design,tier\nacorn,small\ngate,large\n"),
        ("tiers.csv", "tier,price\nsmall,3.00\nlarge,6.00\n"),
        ("next.csv", "tier,price\nsmall,3.60\n"),
    ]);
    let file = trial.path().join("next.csv");
    let would = json(trial.path(), "whatif", &["--prices", file.to_str().unwrap()]);
    // The set's cookies listed 60 and list 66 now: 60 × 66 ÷ 60. The 4.00 charged by hand becomes 4.80.
    assert_eq!(figure(&would["total"]["before"], "revenue"), "103.000000");
    assert_eq!(figure(&would["total"]["after"], "revenue"), "117.000000");
    let text = fine(trial.run("whatif", &["--prices", file.to_str().unwrap()]));
    assert!(text.contains("The file has no price for large, so it stays as it was."), "{text}");
}

#[test]
fn whatif_that_asks_for_nothing_or_for_the_unknown_is_wrong_usage() {
    let shop = by_hand("18");
    shop.write("odd.csv", b"tier,price\nsmal,3.00\nlarge,x\n");
    shop.write("none.csv", b"tier,price\n");
    let (odd, none) = (shop.path().join("odd.csv"), shop.path().join("none.csv"));
    for (options, says) in [
        (&[][..], "nothing to change: give --prices"),
        (&["--prices", "no-such-file.csv"], "cannot be read"),
        (&["--prices", odd.to_str().unwrap()], "did you mean small?"),
        (&["--prices", none.to_str().unwrap()], "has no price"),
        (&["--fewer", "smal 20%"], "did you mean small?"),
        (&["--fewer", "small 20"], "write it as \"character 20%\""),
        (&["--fewer", "small 120%"], "write it as"),
        (&["--if", "butter +20%"], "'butter' is nothing you bought"),
        (&["--if", "butter"], "write it as \"butter +20%\""),
        (&["--minimum", "0"], "write pieces as 24"),
        (&["--json", "--csv", "--minimum", "2"], "cannot be used with"),
    ] {
        let outcome = shop.run("whatif", options);
        assert_eq!((outcome.code, outcome.out.as_str()), (2, ""), "{options:?}");
        assert!(outcome.err.contains(says), "{options:?}: {}", outcome.err);
    }
}

/// A row is a tier's or, under `design`, one design's alone; prices start on their days.
#[test]
fn a_price_file_may_name_designs_and_days() {
    let shop = by_hand("20");
    shop.write("designs.csv", b"design,tier,minutes_each,also_called\nacorn,small,2,nut\nlarge,small,10,\n");
    shop.write("orders.csv", b"order,date,design,quantity,price\nA1,2026-03-10,acorn,10,\nA1,2026-03-10,large,10,\n");
    let revenue = |text: &str| {
        shop.write("next.csv", text.as_bytes());
        let file = shop.path().join("next.csv");
        let would = json(shop.path(), "whatif", &[&["--prices", file.to_str().unwrap(), "--by", "design"], &CARD[..]].concat());
        let of = |design: &str| figure(&row(&would, design)["after"], "revenue").trim_end_matches('0').trim_end_matches('.').to_owned();
        (of("acorn"), of("large"))
    };
    let were = ("30".to_owned(), "30".to_owned());
    assert_eq!(revenue("tier,price\nsmall,4\n"), ("40".into(), "40".into()));
    assert_eq!(revenue("tier;price\nsmall;4\n"), ("40".into(), "40".into()));
    // A tier of the price list has a design's name: under tier it is the tier.
    assert_eq!(revenue("tier,price\nlarge,5\n"), were);
    assert_eq!(revenue("design,price\nlarge,5\nnut,2\n"), ("20".into(), "50".into()));
    assert_eq!(
        revenue("tier,design,price,from\nsmall,,4,2026-03-01\nsmall,,9,2026-04-01\n,acorn,6,2026-03-11\n"),
        ("40".into(), "40".into())
    );
    let said = |text: &str| {
        shop.write("next.csv", text.as_bytes());
        shop.run("whatif", &["--prices", shop.path().join("next.csv").to_str().unwrap(), "--minutes", "card"])
    };
    assert!(flowing(&said("tier,design,price\nsmall,acorn,4\n").err).contains("is on the same row as a tier; leave one of the two blank"));
    assert!(flowing(&said("tier,design,price\n,,4\n").err).contains("write a tier, or a design under design"));
    assert!(flowing(&said("design,price\nacorn,4\nnut,5\n").err).contains("has two prices from this day"));
    assert!(said("small,4\n").err.contains("is not a price list: it must have the headings tier and price, or design and price"));
    assert!(flowing(&fine(said("design,price\nacorn,4\n"))).contains("The file has no price for large, so it stays as it was."));
    assert!(
        flowing(&fine(said("tier,price,from\nsmall,4,2027-01-01\n"))).contains("This list starts on 2027-01-01, after all of these orders")
    );
}

#[test]
fn nothing_left_is_said_in_words() {
    let shop = by_hand("20");
    let text = flowing(&fine(shop.run("whatif", &["--minimum", "2 dozen", "--minutes", "card"])));
    assert!(text.starts_with("With no order under 24 pieces, no order in your logs would be left"), "{text}");
}

#[test]
fn what_a_price_file_leaves_out_stays_as_it_was_one_or_many() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("next.csv");
    for (prices, says) in [
        ("tier,price\ncharacter,14\nscene,7\nshape,5\n", "The file has no price for numeral, so it stays as it was."),
        ("tier,price\ncharacter,14\nscene,7\n", "numeral, so they stay as they were."),
    ] {
        std::fs::write(&file, prices).unwrap();
        let said = flowing(&fine(run_on(&repository(SHOP), "whatif", &["--prices", file.to_str().unwrap(), "--minutes", "card"])));
        assert!(said.contains(says), "{said}");
    }
}
