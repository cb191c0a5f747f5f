//! `tiers`, `whatif` and `quote`, as a maker and as a program sees them.

use crate::demo::SHOP;
use crate::harness::{Trial, figure, repository, row, run_on};
use fairdozen::cli::Outcome;
use rust_decimal::Decimal;
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::Path;

/// The season that `tiers` sets prices by on the demo.
const SEASON: [&str; 4] = ["--from", "2025-11-01", "--to", "2026-10-31"];
/// Today's prices on the demo, for any day.
const TODAY: &str = "tier,price\nnumeral,3.25\nshape,4.75\nscene,6.50\ncharacter,11.00\n";

fn fine(outcome: Outcome) -> String {
    assert_eq!(outcome.code, 0, "{}{}", outcome.out, outcome.err);
    outcome.out
}

fn json(shop: &Path, command: &str, options: &[&str]) -> Value {
    serde_json::from_str(&fine(run_on(shop, command, &[options, &["--json"]].concat()))).unwrap()
}

fn number(value: &Value, field: &str) -> Decimal {
    figure(value, field).parse().unwrap()
}

fn rows<'a>(table: &'a Value, of: &str) -> &'a Vec<Value> {
    table[of].as_array().unwrap()
}

fn keys(value: &Value) -> String {
    value.as_object().unwrap().keys().cloned().collect::<Vec<_>>().join(" ")
}

/// A text without its line breaks.
fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A copy of the demo that may be written to; reviews that lie in it are left out.
fn demo_copy() -> Trial {
    let trial = Trial::new(&[]);
    for entry in std::fs::read_dir(repository(SHOP)).unwrap().map(Result::unwrap).filter(|entry| entry.path().is_file()) {
        trial.write(entry.file_name().to_str().unwrap(), &std::fs::read(entry.path()).unwrap());
    }
    trial
}

fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let entries = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap());
    entries.map(|entry| (entry.file_name().into_string().unwrap(), std::fs::read(entry.path()).unwrap())).collect()
}

/// Minutes that can be added up by hand: 2 a piece to bake, 2 and 10 to decorate as the card says, 20 to plan.
fn by_hand(target: &str) -> Trial {
    let settings = format!("currency = \"USD\"\n[wage]\ntarget = {target}\n");
    Trial::new(&[
        ("shop.toml", &settings),
        ("orders.csv", "order,date,design,quantity,price\nA1,2026-03-10,acorn,12,\nA1,2026-03-10,gate,4,\n"),
        ("designs.csv", "design,tier,minutes_each\nacorn,small,2\ngate,large,10\n"),
        ("tiers.csv", "tier,price\nsmall,3.00\nlarge,9.00\n"),
        ("hours.csv", "date,minutes,stage,order\n2026-03-09,20,plan,A1\n2026-03-09,32,bake,A1\n2026-03-09,64,decorate,A1\n"),
    ])
}

const CARD: [&str; 2] = ["--minutes", "card"];

/// Of 116 minutes a piece carries 20 ÷ 16 = 1.25 of planning: an acorn 5.25 in all, a gate 13.25.
#[test]
fn a_small_list_can_be_worked_out_by_hand() {
    let list = json(by_hand("18").path(), "tiers", &CARD);
    let (acorn, gate) = (row(&list, "acorn"), row(&list, "gate"));
    // At 0.30 a minute 1.575 and 3.975; at 3.00 and 9.00 an hour pays 34.29 and 40.75: nothing need change.
    assert_eq!((figure(acorn, "fair_price"), figure(gate, "fair_price")), ("1.575000", "3.975000"));
    assert_eq!((figure(acorn, "wage_per_hour"), figure(gate, "wage_per_hour")), ("34.285714", "40.754717"));
    assert_eq!((figure(acorn, "new_price"), figure(gate, "new_price")), ("3.000000", "9.000000"));
    assert_eq!((&acorn["fair_low"], &acorn["chance_of_target"]), (&Value::Null, &Value::Null));
    let season = &list["season"];
    assert_eq!((figure(&season["before"], "wage_per_hour"), &season["before"]), ("37.241379", &season["after"]));
    // Set-up of 6.00 over what a mean piece leaves: 72 ÷ 16 less 0.30 × 6 minutes of its own = 2.70.
    assert_eq!(list["smallest_order"], 3);
    // At 40 an hour an acorn needs 5.25 × 2 ÷ 3 = 3.50 and a gate 8.83.
    let list = json(by_hand("40").path(), "tiers", &CARD);
    assert_eq!((figure(row(&list, "acorn"), "new_price"), figure(row(&list, "gate"), "new_price")), ("3.500000", "9.000000"));
    // Raised by 6.00 on 12 acorns that left 36.00: 6 ÷ 42 may be lost. Nothing on gates.
    let small = rows(&list, "tiers").iter().find(|tier| tier["tier"] == "small").unwrap();
    assert_eq!(figure(small, "may_lose_for_pay"), "0.142857");
    assert_eq!(rows(&list, "tiers")[1]["may_lose_for_pay"], Value::Null);
}

#[test]
fn a_set_is_quoted_by_hand() {
    let shop = by_hand("18");
    let quote = |options: &[&str]| json(shop.path(), "quote", &[options, &CARD].concat());
    let of = quote(&["6 acorn, 2 gate"]);
    // 20 + 6 × 4 + 2 × 12 minutes; 18 + 18 for them; fair at 0.30 a minute; set-up 6.00 over 21.60 left by eight pieces.
    assert_eq!((figure(&of, "owner_minutes"), figure(&of, "price"), figure(&of, "fair_price")), ("68.000000", "36.000000", "20.400000"));
    assert_eq!((figure(&of, "wage_per_hour"), &of["smallest_order"], &of["charge_more"]), ("31.764706", &3.into(), &Value::Null));
    // Tiers, dozens, new designs, a rush: 12 × 3 + 1 × 9 and a fifth more.
    let of = quote(&["1 dozen small, 1 iron gate:large", "--rush=20%"]);
    assert_eq!((figure(&of, "price"), figure(&of, "rush"), &rows(&of, "rows")[1]["new_design"]), ("54.000000", "9.000000", &true.into()));
    // One acorn alone: 24 minutes at 0.30 are 7.20, of which it brings 3.00; three more bring 1.80 each.
    let of = quote(&["1 acorns"]);
    assert_eq!((figure(&of, "charge_more"), &of["more_pieces"]["pieces"], &of["smallest_order"]), ("4.200000", &3.into(), &4.into()));
}

#[test]
fn a_quote_that_cannot_be_read_says_what_to_write() {
    let shop = by_hand("18");
    for (set, says) in [
        ("", "the set is empty"),
        ("acorn", "write how many and of what"),
        ("0 acorn", "write a number from 1 to"),
        ("99999999 acorn", "write a number from 1 to"),
        ("x acorn", "write how many and of what"),
        ("1.5 acorn", "write how many and of what"),
        ("6 acron", "did you mean acorn?"),
        ("6 fox", "if it is new, name its tier: \"6 fox:large\""),
        ("6 fox:lrge", "did you mean large?"),
        ("6 gate:small", "gate is no new design; leave the tier out: \"6 gate\""),
        ("6 :large", "write how many and of what"),
    ] {
        let outcome = shop.run("quote", &[set]);
        assert_eq!((outcome.code, outcome.out.as_str()), (2, ""), "{set}");
        assert!(outcome.err.contains(says), "{set}: {}", outcome.err);
    }
}

/// A rush is charged on every piece, so a set that pays with it is not too small with it.
#[test]
fn a_rush_counts_for_the_size_worth_its_set_up() {
    let shop = by_hand("20");
    for rush in 0..60 {
        let quote = json(shop.path(), "quote", &[&["2 acorn, 1 gate", &format!("--rush={rush}%")], &CARD[..]].concat());
        let pays = number(&quote, "price") >= number(&quote, "fair_price");
        assert_eq!(quote["smallest_order"].as_i64().is_some_and(|pieces| pieces <= 3), pays, "{rush} %: {quote}");
    }
}

/// A piece more brings its part of the rush: as many more as are asked for are enough, and one fewer is not.
#[test]
fn more_pieces_bring_more_rush() {
    let shop = Trial::new(&[
        ("shop.toml", "currency = \"USD\"\n[wage]\ntarget = 20\n"),
        ("tiers.csv", "tier,price\nmini,3.00\n"),
        ("designs.csv", "design,tier,minutes_each\nbell,mini,5\n"),
        ("orders.csv", "order,date,design,quantity,price\nA,2026-03-10,bell,12,\n"),
        ("hours.csv", "date,minutes,stage,order\n2026-03-09,105,decorate,A\n2026-03-09,60,plan,A\n"),
    ]);
    let quote = |pieces: i64| json(shop.path(), "quote", &[&format!("{pieces} bell"), "--rush=20%", "--minutes", "card"]);
    // 20 an hour for 60 minutes and 8.75 a piece, of 3.60: 20 ÷ (3.60 − 2.916667) is 29.3 pieces.
    assert_eq!((&quote(18)["more_pieces"]["pieces"], &quote(18)["smallest_order"]), (&12.into(), &30.into()));
    assert_eq!((&quote(30)["charge_more"], &quote(29)["more_pieces"]["pieces"]), (&Value::Null, &1.into()));
}

/// What is not known of a new design is how it differs from its tier's others: that widens its range, not its middle.
#[test]
fn a_new_design_is_less_certain_than_its_tier() {
    let shop = repository(SHOP);
    let (tier, new) = (json(&shop, "quote", &["12 character"]), json(&shop, "quote", &["12 lighthouse:character"]));
    assert_eq!((&tier["price"], &tier["fair_price"], &tier["wage_per_hour"]), (&new["price"], &new["fair_price"], &new["wage_per_hour"]));
    let width = |quote: &Value| number(quote, "fair_high") - number(quote, "fair_low");
    assert!(width(&new) > width(&tier) * "1.5".parse::<Decimal>().unwrap(), "{new} {tier}");
    let known = json(&shop, "quote", &["12 orchard fox"]);
    assert!(number(&new, "fair_low") > number(&known, "fair_low") / Decimal::from(2));
}

#[test]
fn a_day_before_the_list_has_no_price() {
    let told = run_on(&repository(SHOP), "quote", &["6 shape", "--date", "2020-01-01"]);
    assert_eq!((told.code, told.err.as_str()), (2, "shape has no list price on 2020-01-01; tiers.csv gives its first from 2025-08-01\n"));
}

/// A list price of nil says nothing of what is charged.
#[test]
fn a_price_of_nil_on_the_list_is_none() {
    let shop = by_hand("20");
    shop.write("tiers.csv", b"tier,price\nsmall,0\nlarge,9.00\n");
    shop.write("orders.csv", b"order,date,design,quantity,price\nA1,2026-03-10,acorn,12,3.00\nA1,2026-03-10,gate,4,9.00\n");
    let list = json(shop.path(), "tiers", &CARD);
    let acorn = row(&list, "acorn");
    assert_eq!((figure(acorn, "old_price"), figure(acorn, "fair_price")), ("3.000000", "1.750000"));
}

/// Prices on their endings, strictly rising, each tier at the wage; and `whatif` confirms the promise to the last digit.
#[test]
fn the_demos_list_keeps_its_promise() {
    let shop = repository(SHOP);
    let list = json(&shop, "tiers", &[]);
    assert_eq!(list["schema"], "fairdozen.tiers/1");
    let tiers = rows(&list, "tiers");
    assert_eq!(tiers.iter().map(|tier| tier["tier"].as_str().unwrap()).collect::<Vec<_>>(), ["numeral", "shape", "scene", "character"]);
    let prices: Vec<Decimal> = tiers.iter().map(|tier| number(tier, "price")).collect();
    assert!(
        prices.windows(2).all(|pair| pair[0] < pair[1]) && prices.iter().all(|price| (price * Decimal::from(4)).fract().is_zero()),
        "{prices:?}"
    );
    for tier in tiers {
        assert!(number(tier, "wage_per_hour") >= Decimal::from(20), "{tier}");
        let (low, wage, high) = (number(tier, "wage_low"), number(tier, "wage_per_hour"), number(tier, "wage_high"));
        assert!(low < wage && wage < high, "{tier}");
    }
    for design in rows(&list, "rows") {
        assert!(number(design, "wage_per_hour") >= Decimal::from(15), "above the floor: {design}");
        assert!(
            number(design, "fair_low") < number(design, "fair_price") && number(design, "fair_price") < number(design, "fair_high"),
            "{design}"
        );
    }
    // The generator's truth: characters take half as long again as the card says, so theirs is the price that must rise.
    assert!(prices[3] > Decimal::from(15) && prices[0] == "3.25".parse().unwrap(), "{prices:?}");
    let wage: Value = json(&shop, "wage", &SEASON);
    for field in ["revenue", "owner_pay", "wage_per_hour"] {
        assert_eq!(list["season"]["before"][field], wage["all_in"][field], "{field}");
    }
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("next.csv");
    let lines = tiers.iter().map(|tier| format!("{},{}\n", tier["tier"].as_str().unwrap(), figure(tier, "price")));
    std::fs::write(&file, format!("tier,price\n{}", lines.collect::<String>())).unwrap();
    let would = json(&shop, "whatif", &[&["--prices", file.to_str().unwrap()], &SEASON[..]].concat());
    for field in ["revenue", "owner_pay", "wage_per_hour"] {
        assert_eq!(list["season"]["after"][field], would["all_in"]["after"][field], "{field}");
    }
    assert!(number(&would["all_in"]["after"], "wage_per_hour") >= Decimal::from(20), "{would}");
    for tier in rows(&would, "rows").iter().filter(|tier| tier["tier"].is_string()) {
        // Set-up is spread over all pieces alike, where an order's own falls on its own: near, not equal.
        assert!(number(&tier["after"], "wage_per_hour") > Decimal::from(19), "{tier}");
    }
}

/// What may be lost, taken off, leaves what today's prices leave: in money by one share, in wage by the other. But for a few
/// dollars of more than nine thousand: set prices and discounts are shared by list value, which other tiers' raises shift.
#[test]
fn losing_what_may_be_lost_leaves_just_what_today_does() {
    let shop = repository(SHOP);
    let list = json(&shop, "tiers", &[]);
    let folder = tempfile::tempdir().unwrap();
    let write = |name: &str, text: &str| {
        let path = folder.path().join(name);
        std::fs::write(&path, text).unwrap();
        path.to_str().unwrap().to_owned()
    };
    let today = write("today.csv", TODAY);
    let would = |prices: &str, fewer: &[&str]| {
        json(&shop, "whatif", &[&["--prices", prices], fewer, &SEASON[..]].concat())["all_in"]["after"].clone()
    };
    let before = would(&today, &[]);
    for (tier, old, near) in [("shape", "shape,4.75", "2"), ("scene", "scene,6.50", "2"), ("character", "character,11.00", "5")] {
        let found = rows(&list, "tiers").iter().find(|row| row["tier"] == tier).unwrap();
        let only = write("only.csv", &TODAY.replace(old, &format!("{tier},{}", figure(found, "price"))));
        let lost = |field: &str| format!("{tier} {}%", (number(found, field) * Decimal::from(100)).normalize());
        let after = would(&only, &["--fewer", &lost("may_lose_for_pay")]);
        assert!((number(&after, "owner_pay") - number(&before, "owner_pay")).abs() < near.parse().unwrap(), "{tier}: {after} {before}");
        let after = would(&only, &["--fewer", &lost("may_lose_for_wage")]);
        let gain = number(&after, "wage_per_hour") - number(&before, "wage_per_hour");
        // Where all may be lost, the wage is no lower without any.
        let all = number(found, "may_lose_for_wage") == Decimal::ONE;
        assert!(if all { gain >= Decimal::ZERO } else { gain.abs() < "0.01".parse().unwrap() }, "{tier}: {after}");
        assert!(number(found, "may_lose_for_wage") > number(found, "may_lose_for_pay"));
    }
}

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
    assert!(text.contains("The file has no price for large: as it was."), "{text}");
}

#[test]
fn whatif_that_asks_for_nothing_or_for_the_unknown_is_wrong_usage() {
    let shop = by_hand("18");
    shop.write("odd.csv", b"tier,price\nsmal,3.00\nlarge,x\n");
    shop.write("none.csv", b"tier,price\n");
    let (odd, none) = (shop.path().join("odd.csv"), shop.path().join("none.csv"));
    for (options, says) in [
        (&[][..], "nothing is to be other than it was"),
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

#[test]
fn tiers_that_cannot_be_told_say_why() {
    let orders = ("orders.csv", "order,date,design,quantity,price\nA1,2026-03-10,acorn,12,3.00\n");
    let target = ("shop.toml", "currency = \"USD\"\n[wage]\ntarget = 20\n");
    let hours = ("hours.csv", "date,minutes,order\n2026-03-09,60,A1\n");
    let no_target = Trial::new(&[orders, hours]);
    let no_hours = Trial::new(&[orders, target]);
    let free = Trial::new(&[("orders.csv", "order,date,design,quantity,price\nA1,2026-03-10,acorn,12,0\n"), hours, target]);
    let empty = Trial::new(&[("orders.csv", "order,date,design,quantity,price\n"), target]);
    let untiered = Trial::new(&[orders, hours, target]);
    for (shop, options, says) in [
        (&no_target, &[][..], "give --target 20"),
        (&no_hours, &[], "no hours are known"),
        (&free, &[], "nothing with a price was sold"),
        (&empty, &[], "nothing with a price was sold"),
        (&untiered, &["--keep"], "designs.csv gives none to acorn"),
        (&untiered, &["--max-rise", "lots"], "write it as 15%"),
        (&untiered, &["--target", "0"], "write an amount above nil"),
        (&untiered, &["--tiers", "0"], "write a whole number from 1 to 12"),
        (&untiered, &["--starts", "2026-05-01"], "--write"),
        (&untiered, &["--write", "--skip-bad-rows"], "--write needs sound tables"),
        (&untiered, &["--if", "butter x2"], "is nothing you bought; the shop has none"),
    ] {
        let outcome = shop.run("tiers", options);
        assert_eq!((outcome.code, outcome.out.as_str()), (2, ""), "{options:?}: {}", outcome.out);
        assert!(outcome.err.contains(says), "{options:?}: {}", outcome.err);
    }
}

/// One design, no card, no tiers, a whole-order note as its hours: more tiers asked for than there are designs.
#[test]
fn one_design_without_a_card_is_one_tier() {
    let trial = Trial::new(&[
        ("shop.toml", "currency = \"USD\"\n[wage]\ntarget = 20\n"),
        ("orders.csv", "order,date,design,quantity,price\nA1,2026-03-10,\"<acorn \"\"& co\"\"\",12,3.00\n"),
        ("hours.csv", "date,minutes,order\n2026-03-09,120,A1\n"),
    ]);
    let list = json(trial.path(), "tiers", &["--tiers", "8"]);
    // 10 minutes a piece at a third of a dollar.
    let tier = &rows(&list, "tiers")[0];
    assert_eq!((rows(&list, "tiers").len(), figure(tier, "price"), &tier["tier"]), (1, "3.500000", &"tier 1".into()));
    let folder = tempfile::tempdir().unwrap();
    let text = fine(trial.run("tiers", &["--out", folder.path().to_str().unwrap()]));
    assert!(text.contains("<acorn \"& co\""), "{text}");
    assert_eq!(files(folder.path()).keys().collect::<Vec<_>>(), ["next-list.csv", "price-ladder.png", "raise.png"]);
    // Written, it has a card and a list, and orders are what they were.
    let before = fine(trial.run("export", &[]));
    fine(trial.run("tiers", &["--write"]));
    assert_eq!(std::fs::read_to_string(trial.path().join("tiers.csv")).unwrap(), "tier,price,from\ntier 1,3.50,2026-04-01\n");
    assert_eq!(std::fs::read_to_string(trial.path().join("designs.csv")).unwrap(), "design,tier\n\"<acorn \"\"& co\"\"\",tier 1\n");
    assert_eq!(fine(trial.run("export", &[])).replace("tier 1", ""), before);
    assert_eq!(trial.run("check", &[]).code, 0);
}

#[test]
fn yen_have_no_decimals_and_stay_in_tens() {
    let trial = Trial::new(&[
        ("shop.toml", "currency = \"JPY\"\n[wage]\ntarget = 1500\nfloor = 1400\n"),
        ("orders.csv", "order,date,design,quantity,price\nA1,2026-03-10,acorn,12,\nA1,2026-03-10,gate,4,\n"),
        ("designs.csv", "design,tier,minutes_each\nacorn,small,8\ngate,large,40\n"),
        ("tiers.csv", "tier,price\nsmall,150\nlarge,700\n"),
        ("hours.csv", "date,minutes,stage,order\n2026-03-09,256,decorate,A1\n"),
    ]);
    let list = json(trial.path(), "tiers", &CARD);
    // 8 and 40 minutes at 25 yen: 200 and 1000.
    assert_eq!(rows(&list, "tiers").iter().map(|tier| figure(tier, "price")).collect::<Vec<_>>(), ["200.000000", "1000.000000"]);
    let text = flowing(&fine(trial.run("tiers", &CARD)));
    assert!(text.contains("small ¥150 to ¥200, large ¥700 to ¥1,000"), "{text}");
    // One tier for both: its mean would be 400, but a gate at the floor of 1400 needs 934.
    let list = json(trial.path(), "tiers", &["--tiers", "1", "--minutes", "card"]);
    assert_eq!(figure(&rows(&list, "tiers")[0], "price"), "940.000000");
}

/// Orders alike but for their colours, hours logged on two of eight: what colours would do is what the two alone say.
#[test]
fn orders_without_hours_change_nothing_of_what_colours_would_do() {
    let shop = |orders: usize| {
        let row = |order| format!("A{order},2026-03-{:02},bell,12,3.5,{}\n", order + 1, if order % 2 == 0 { 6 } else { 4 });
        let rows = std::iter::once("order,date,design,quantity,price,colours\n".to_owned()).chain((0..orders).map(row)).collect::<String>();
        Trial::new(&[
            ("shop.toml", "currency = \"USD\"\n[wage]\ntarget = 20\n"),
            ("orders.csv", &rows),
            ("designs.csv", "design,tier,minutes_each\nbell,shape,5\n"),
            ("tiers.csv", "tier,price\nshape,3.5\n"),
            (
                "hours.csv",
                "date,minutes,stage,order\n2026-03-01,60,decorate,A0\n2026-03-01,90,tint,A0\n2026-03-02,60,decorate,A1\n2026-03-02,60,tint,A1\n",
            ),
        ])
    };
    let said = |shop: &Trial| {
        let text = fine(shop.run("tiers", &CARD));
        let section = text.split("What would do instead").nth(1).unwrap().split("What this rests on").next().unwrap().to_owned();
        let of_colours: String = section.split_once("fewer colours").or_else(|| section.split_once("colour")).unwrap().1.to_owned();
        of_colours
    };
    let of_two = said(&shop(2));
    assert!(of_two.contains("a charge of $"), "{of_two}");
    assert_eq!(said(&shop(8)), of_two);
}

#[test]
fn a_cap_says_what_is_still_short() {
    let shop = repository(SHOP);
    let text = fine(run_on(&shop, "tiers", &["--max-rise", "15%"]));
    assert!(text.starts_with("As near to $20 an hour as can be had within a rise of 15 %:"), "{text}");
    assert!(flowing(&text).contains("Character still falls $1,"), "{text}");
    assert!(flowing(&text).contains("Under your floor of $15 stay orchard fox ("), "{text}");
    let list = json(&shop, "tiers", &["--max-rise", "15%"]);
    for design in rows(&list, "rows") {
        assert!(number(design, "new_price") <= number(design, "old_price") * "1.15".parse::<Decimal>().unwrap(), "{design}");
    }
}

#[test]
fn keeping_designs_in_their_tiers_moves_none() {
    for options in [&["--keep"][..], &["--keep", "--without-unassigned"], &["--keep", "--if", "butter +20%", "--if", "eggs x2"]] {
        let list = json(&repository(SHOP), "tiers", options);
        assert!(rows(&list, "rows").iter().all(|row| row["old_tier"] == row["new_tier"]), "{options:?}");
    }
    let fair = |options: &[&str]| number(row(&json(&repository(SHOP), "tiers", options), "orchard fox"), "fair_price");
    assert!(fair(&["--without-unassigned"]) < fair(&[]) && fair(&[]) < fair(&["--if", "butter x2"]));
    assert!(fair(&["--target", "25"]) > fair(&[]));
}

#[test]
fn programs_read_these_fields() {
    let shop = repository(SHOP);
    let list = json(&shop, "tiers", &[]);
    assert_eq!(keys(&list), "schema currency target floor rows tiers season smallest_order");
    let of_row = "key pieces old_tier new_tier old_price new_price fair_price fair_low fair_high wage_per_hour chance_of_target";
    assert_eq!(keys(&list["rows"][0]), of_row);
    assert_eq!(keys(&list["tiers"][0]), "tier price pieces wage_per_hour wage_low wage_high may_lose_for_pay may_lose_for_wage");
    assert_eq!((keys(&list["season"]), keys(&list["season"]["after"])), ("before after".into(), "revenue owner_pay wage_per_hour".into()));
    let csv = fine(run_on(&shop, "tiers", &["--csv"]));
    assert_eq!((csv.lines().next().unwrap(), csv.lines().count()), (of_row.replace(' ', ",").as_str(), 17));
    let would = json(&shop, "whatif", &["--minimum", "24"]);
    assert_eq!(keys(&would), "schema currency from to by target rows total all_in orders orders_turned_away");
    assert_eq!(
        (keys(&would["rows"][0]), keys(&would["total"]["after"])),
        ("key tier before after".into(), "pieces revenue owner_pay owner_minutes wage_per_hour surplus".into())
    );
    let csv = fine(run_on(&shop, "whatif", &["--minimum", "24", "--csv"]));
    assert!(csv.starts_with("part,key,tier,pieces_before,revenue_before,") && csv.contains("\nall_in,all in,,"), "{csv}");
    let quote = json(&shop, "quote", &["6 numeral, 12 shape, 6 character"]);
    assert!(
        keys(&quote).starts_with("schema currency target rows pieces colours rush price fair_price fair_low fair_high owner_minutes"),
        "{}",
        keys(&quote)
    );
    assert_eq!(quote["schema"], "fairdozen.quote/1");
}

#[test]
fn texts_fit_a_hundred_columns_and_every_help_has_an_example() {
    let shop = repository(SHOP);
    let set = "6 numeral, 12 shape, 6 character";
    for (command, options) in [("tiers", &["--tiers", "8"][..]), ("whatif", &["--fewer", "character 33.3%"]), ("quote", &[set, "--rush"])] {
        let text = fine(run_on(&shop, command, options));
        assert!(text.lines().all(|line| line.chars().count() <= 100), "{text}");
        let help = fine(fairdozen::cli::run(["fairdozen", command, "--help"]));
        assert!(help.contains("Example: fairdozen"), "{help}");
    }
}

#[test]
fn writing_adds_rows_and_changes_nothing_else() {
    let shop = demo_copy();
    let before = files(shop.path());
    let facts = fine(shop.run("export", &[]));
    let said = fine(shop.run("tiers", &["--write"]));
    assert!(said.contains("The new list is in tiers.csv: 4 prices from 2026-11-01; the old rows are still there."), "{said}");
    let after = files(shop.path());
    for (name, bytes) in &after {
        match name.as_str() {
            "tiers.csv" => assert!(bytes.starts_with(&before[name]) && bytes.len() > before[name].len()),
            _ => assert!(bytes == &before[name], "{name}"),
        }
    }
    assert_eq!(after.len(), before.len());
    let added = String::from_utf8(after["tiers.csv"][before["tiers.csv"].len()..].to_vec()).unwrap();
    assert!(added.lines().count() == 4 && added.lines().all(|line| line.ends_with(",2026-11-01")), "{added}");
    assert_eq!(fine(shop.run("export", &[])), facts, "no past figure changed");
    // A second time there is nothing to write; another list from that day would be a second one.
    let again = fine(shop.run("tiers", &["--write"]));
    assert!(again.ends_with("Nothing was written: this is your list of 2026-11-01 already.\n"), "{again}");
    let other = shop.run("tiers", &["--write", "--target", "25"]);
    assert_eq!(other.code, 2);
    assert!(other.err.contains("from 2026-11-01 already") && other.err.contains("--starts"), "{}", other.err);
    assert_eq!(files(shop.path()), after);
    let quote = json(shop.path(), "quote", &["6 character"]);
    assert!(number(&quote["rows"][0], "price_per_piece") > Decimal::from(15), "quotes are at the newest list");
    let quote = json(shop.path(), "quote", &["6 character", "--date", "2026-10-31"]);
    assert_eq!(figure(&quote["rows"][0], "price_per_piece"), "11.000000");
}

/// A gate among acorns that takes ten times as long moves up; its past row has no price of its own, and keeps the one it had.
#[test]
fn a_design_moves_and_its_past_stays() {
    let shop = by_hand("20\nfloor = 15");
    shop.write("designs.csv", b"design,tier,minutes_each,mine\r\nacorn,small,2,x\r\ngate,small,30,\"y,z\"\r\ntower,large,32,\r\n");
    shop.write(
        "orders.csv",
        b"order,date,design,quantity,price,who\nA1,2026-03-10,acorn,12,,Ann\nA1,2026-03-10,gate,4,,\nA1,2026-03-10,tower,4,,\n",
    );
    shop.write("hours.csv", b"date,minutes,stage,order\n2026-03-09,272,decorate,A1\n");
    let before = files(shop.path());
    let facts = fine(shop.run("export", &CARD));
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().to_str().unwrap();
    let refused = shop.run("tiers", &["--write", "--minutes", "card", "--starts", "2026-03-10"]);
    assert_eq!((refused.code, refused.out.as_str()), (1, ""));
    assert!(refused.err.contains("2 rows of orders.csv (gate, tower) have no price of their own"), "{}", refused.err);
    assert_eq!(files(shop.path()), before, "nothing was written");
    let said = fine(shop.run("tiers", &["--write", "--minutes", "card", "--out", out]));
    assert!(said.contains("In designs.csv moved: gate to large."), "{said}");
    let after = files(shop.path());
    assert_eq!(
        String::from_utf8(after["designs.csv"].clone()).unwrap(),
        "design,tier,minutes_each,mine,earlier_tiers\r\nacorn,small,2,x,\r\ngate,large,30,\"y,z\",small until 2026-03-31\r\ntower,large,32,,\r\n"
    );
    assert_eq!(after["orders.csv"], before["orders.csv"]);
    assert!(String::from_utf8(after["tiers.csv"].clone()).unwrap().ends_with(",2026-04-01\n"));
    let money = |facts: &str| facts.lines().map(|line| line.split(',').skip(13).take(10).collect::<Vec<_>>().join(",")).collect::<Vec<_>>();
    assert_eq!(money(&fine(shop.run("export", &CARD))), money(&facts));
    // Its list price of that time is still 3.00; from the list's first day on it is that of its new tier, and the list stays.
    let quoted = |day: &str| {
        let quote = json(shop.path(), "quote", &[&["1 gate", "--date", day], &CARD[..]].concat());
        (quote["rows"][0]["tier"].as_str().unwrap().to_owned(), figure(&quote["rows"][0], "price_per_piece").to_owned())
    };
    assert_eq!(quoted("2026-03-31"), ("small".into(), "3.000000".into()));
    assert_eq!(quoted("2026-04-01"), ("large".into(), "10.500000".into()));
    let again = json(shop.path(), "tiers", &CARD);
    for design in rows(&again, "rows") {
        assert_eq!((&design["old_price"], &design["old_tier"]), (&design["new_price"], &design["new_tier"]), "{design}");
    }
    assert!(fine(shop.run("tiers", &CARD)).ends_with("This is your list of 2026-04-01 already: there is nothing to write.\n"));
}

/// What a list with moved designs and a new tier promises, `whatif` finds: from the list itself, before it is written and after.
#[test]
fn a_list_that_moves_designs_keeps_its_promise_when_it_is_written() {
    for tiers in ["3", "5"] {
        let shop = demo_copy();
        let folder = tempfile::tempdir().unwrap();
        let out = folder.path().to_str().unwrap();
        let file = folder.path().join("next-list.csv");
        let options = ["--tiers", tiers, "--minutes", "card"];
        let list = json(shop.path(), "tiers", &[&options[..], &["--out", out]].concat());
        let would = || json(shop.path(), "whatif", &[&["--prices", file.to_str().unwrap()], &SEASON[..], &CARD].concat());
        let before = would();
        for field in ["revenue", "owner_pay", "wage_per_hour"] {
            assert_eq!(list["season"]["after"][field], before["all_in"]["after"][field], "{tiers} {field}");
        }
        let (facts, tables) = (fine(shop.run("export", &CARD)), files(shop.path()));
        fine(shop.run("tiers", &[&options[..], &["--write"]].concat()));
        let changed: Vec<String> =
            files(shop.path()).into_iter().filter(|(name, bytes)| tables[name] != *bytes).map(|(name, _)| name).collect();
        assert_eq!(changed, ["designs.csv", "tiers.csv"]);
        assert_eq!(shop.run("check", &[]).code, 0);
        assert_eq!(would()["all_in"], before["all_in"], "{tiers}");
        // By design and day nothing else changed: only the tiers' own column.
        let without_tier = |facts: &str| -> Vec<String> {
            let at = facts.lines().next().unwrap().split(',').position(|name| name == "tier").unwrap();
            let cells =
                |line: &str| line.split(',').enumerate().filter(|(column, _)| *column != at).map(|(_, cell)| cell.to_owned()).collect();
            facts
                .lines()
                .map(|line| {
                    let cells: Vec<String> = cells(line);
                    cells.join(",")
                })
                .collect()
        };
        assert!(without_tier(&fine(shop.run("export", &CARD))) == without_tier(&facts), "{tiers}: no past figure changed");
        // Asked again, the list is the one there is.
        let again = json(shop.path(), "tiers", &options);
        for (one, other) in rows(&list, "rows").iter().zip(rows(&again, "rows")) {
            assert_eq!((&one["key"], &one["new_price"], &one["fair_price"]), (&other["key"], &other["old_price"], &other["fair_price"]));
            assert_eq!(other["old_price"], other["new_price"]);
        }
        // Its own list is no change, and the next list promises the same of the season that it began in.
        let own = shop.path().join("tiers.csv");
        let own = json(shop.path(), "whatif", &[&["--prices", own.to_str().unwrap()], &CARD[..]].concat());
        assert_eq!(own["all_in"]["before"], own["all_in"]["after"], "{tiers}");
        let next = json(shop.path(), "tiers", &["--tiers", "2", "--minutes", "card", "--out", out]);
        assert_eq!(next["season"]["after"]["revenue"], would()["all_in"]["after"]["revenue"], "{tiers}");
    }
}

/// A list from an earlier day takes the place of one that was to start later, for the designs that move too.
#[test]
fn a_list_written_from_an_earlier_day_holds_from_that_day() {
    let shop = Trial::new(&[
        ("shop.toml", "currency = \"USD\"\n[wage]\ntarget = 20\n"),
        ("tiers.csv", "tier,price\nshape,4.00\nscene,8.00\n"),
        ("designs.csv", "design,tier,minutes_each\nbell,shape,10\nstar,shape,11\nmoth,scene,20\nfox,shape,24\n"),
        (
            "orders.csv",
            "order,date,design,quantity,price\nA,2026-03-10,bell,12,\nA,2026-03-10,star,12,\nA,2026-03-10,moth,12,\nA,2026-03-10,fox,12,\n",
        ),
        ("hours.csv", "date,minutes,stage,order\n2026-03-09,780,decorate,A\n"),
    ]);
    fine(shop.run("tiers", &["--write", "--minutes", "card", "--starts", "2027-01-01"]));
    let card = || std::fs::read_to_string(shop.path().join("designs.csv")).unwrap();
    assert!(card().contains("fox,scene,24,shape until 2026-12-31"), "{}", card());
    let text = fine(shop.run("tiers", &["--write", "--minutes", "card"]));
    assert!(text.contains("fox from shape to scene") && text.contains("In designs.csv moved: fox to scene."), "{text}");
    assert!(card().contains("fox,scene,24,shape until 2026-03-31"), "{}", card());
    let quote = |day: &str| json(shop.path(), "quote", &[&["12 fox", "--date", day], &CARD[..]].concat())["rows"][0]["tier"].clone();
    assert_eq!((quote("2026-03-31"), quote("2026-06-01")), ("shape".into(), "scene".into()));
    assert_eq!(shop.run("check", &[]).code, 0);
}

/// What the season did not sell is not on the list, and stays where it is.
#[test]
fn designs_out_of_season_stay_in_their_tier() {
    for options in [&[][..], &["--keep"]] {
        let shop = by_hand("20");
        shop.write("designs.csv", b"design,tier,minutes_each\nacorn,small,2\ngate,large,10\ncastle,wedding,60\n");
        shop.write("tiers.csv", b"tier,price\nsmall,3.00\nlarge,2.00\nwedding,40.00\n");
        let text = fine(shop.run("tiers", &[&["--write", "--minutes", "card"], options].concat()));
        assert!(text.contains("Not sold in this time, so not on the list: castle (wedding)."), "{text}");
        assert!(std::fs::read_to_string(shop.path().join("designs.csv")).unwrap().contains("castle,wedding,60\n"));
        let quote = json(shop.path(), "quote", &[&["1 castle"], &CARD[..]].concat());
        assert_eq!(figure(&quote, "price"), "40.000000");
    }
}

#[test]
fn keeping_tiers_asks_for_one_for_each_design_sold() {
    let shop = by_hand("20");
    shop.write("designs.csv", b"design,tier,minutes_each\nacorn,small,2\ngate,,10\n");
    shop.write("orders.csv", b"order,date,design,quantity,price\nA1,2026-03-10,acorn,12,\nA1,2026-03-10,gate,4,9\n");
    let told = shop.run("tiers", &["--keep", "--minutes", "card"]);
    assert!(told.code == 2 && told.err.contains("designs.csv gives none to gate"), "{}", told.err);
    // Moved into a tier, it had no list price before: its own list stays no change.
    fine(shop.run("tiers", &["--tiers", "1", "--write", "--minutes", "card"]));
    assert!(std::fs::read_to_string(shop.path().join("designs.csv")).unwrap().contains("no tier until 2026-03-31"));
    let own = shop.path().join("tiers.csv");
    let own = json(shop.path(), "whatif", &[&["--prices", own.to_str().unwrap()], &CARD[..]].concat());
    assert_eq!(own["all_in"]["before"], own["all_in"]["after"]);
}

/// Two designs timed within one order tell themselves apart, though there is too little to learn from.
#[test]
fn designs_timed_by_themselves_are_priced_by_what_they_took() {
    let shop = Trial::new(&[
        ("shop.toml", "currency = \"USD\"\n[wage]\ntarget = 20\n"),
        ("orders.csv", "order,date,design,quantity,price\nA1,2026-03-10,owl,6,11.00\nA1,2026-03-10,five,12,3.00\n"),
        ("hours.csv", "date,minutes,stage,order,design\n2026-03-09,150,decorate,A1,owl\n2026-03-09,48,decorate,A1,five\n"),
    ]);
    let list = json(shop.path(), "tiers", &[]);
    // 25 and 4 minutes at a third of a dollar.
    let fair = |design: &str| number(row(&list, design), "fair_price").round_dp(2).to_string();
    assert_eq!((fair("owl"), fair("five")), ("8.33".into(), "1.33".into()));
    assert!(fine(shop.run("tiers", &[])).contains("of designs you timed by themselves"));
}

/// A design may be called as its tier is. Where it alone moves, the list still says what each design costs.
#[test]
fn a_design_named_as_its_tier_moves_by_itself() {
    let shop = by_hand("20\nfloor = 15");
    shop.write("designs.csv", b"design,tier,minutes_each\nacorn,small,2\nsmall,small,30\ntower,large,32\n");
    shop.write(
        "orders.csv",
        b"order,date,design,quantity,price\nA1,2026-03-10,acorn,12,\nA1,2026-03-10,small,4,\nA1,2026-03-10,tower,4,\n",
    );
    shop.write("hours.csv", b"date,minutes,stage,order\n2026-03-09,272,decorate,A1\n");
    let folder = tempfile::tempdir().unwrap();
    let list = json(shop.path(), "tiers", &[&CARD[..], &["--out", folder.path().to_str().unwrap()]].concat());
    assert_eq!((&row(&list, "small")["new_tier"], &row(&list, "acorn")["new_tier"]), (&"large".into(), &"small".into()));
    let file = folder.path().join("next-list.csv");
    let would = json(shop.path(), "whatif", &[&["--prices", file.to_str().unwrap(), "--by", "design"], &CARD[..]].concat());
    for design in rows(&list, "rows") {
        let name = design["key"].as_str().unwrap();
        let found = row(&would, name);
        assert_eq!(number(&found["after"], "revenue"), number(design, "new_price") * number(&found["after"], "pieces"), "{name}");
    }
}
