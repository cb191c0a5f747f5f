//! The next price list.

use super::{CARD, DETAILS, SEASON, TODAY, by_hand, files, fine, flowing, json, keys, number, rows};
use crate::demo::SHOP;
use crate::harness::{Trial, figure, repository, row, run_on};
use rust_decimal::Decimal;
use serde_json::Value;

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
        (&no_hours, &[], "no order of this period has hours"),
        (&free, &[], "nothing with a price was sold"),
        (&empty, &[], "nothing with a price was sold"),
        (&untiered, &["--keep"], "designs.csv has no tier for acorn"),
        (&untiered, &["--max-rise", "lots"], "write it as 15%"),
        (&untiered, &["--target", "0"], "write an amount above 0"),
        (&untiered, &["--tiers", "0"], "write a whole number from 1 to 12"),
        (&untiered, &["--starts", "2026-05-01"], "--write"),
        (&untiered, &["--write", "--skip-bad-rows"], "--write changes your tables, so they must have no errors"),
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
    assert!(text.contains("raise small from ¥150 to ¥200 and large from ¥700 to ¥1,000."), "{text}");
    // One tier for both: its mean would be 400, but a gate at the floor of 1400 needs 934.
    let list = json(trial.path(), "tiers", &["--tiers", "1", "--minutes", "card"]);
    assert_eq!(figure(&rows(&list, "tiers")[0], "price"), "940.000000");
}

/// Orders alike but for their colours, hours logged on two of four: what colours would do is what the two alone say.
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
        let text = fine(shop.run("tiers", &DETAILS));
        let section = text.split("What would help instead").nth(1).unwrap().split("What this is based on").next().unwrap().to_owned();
        let of_colours: String = section.split_once("fewer colours").or_else(|| section.split_once("colour")).unwrap().1.to_owned();
        of_colours
    };
    let of_two = said(&shop(2));
    assert!(of_two.contains("a charge of $"), "{of_two}");
    assert_eq!(said(&shop(4)), of_two);
}

#[test]
fn a_cap_says_what_is_still_short() {
    let shop = repository(SHOP);
    let text = fine(run_on(&shop, "tiers", &["--max-rise", "15%"]));
    assert!(text.starts_with("As near to $20 an hour as prices can come within a rise of 15 %:"), "{text}");
    assert!(flowing(&text).contains("Character would still fall $1,"), "{text}");
    assert!(flowing(&text).contains("Still below your floor of $15: orchard fox ("), "{text}");
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
    assert_eq!(keys(&list), "schema currency target floor rows tiers season smallest_order smallest_order_at_old_prices search_thinned");
    let of_row = "key pieces old_tier new_tier old_price new_price fair_price fair_low fair_high wage_per_hour chance_of_target";
    assert_eq!(keys(&list["rows"][0]), of_row);
    assert_eq!(keys(&list["tiers"][0]), "tier price pieces wage_per_hour wage_low wage_high may_lose_for_pay may_lose_for_wage");
    assert_eq!((keys(&list["season"]), keys(&list["season"]["after"])), ("before after".into(), "revenue owner_pay wage_per_hour".into()));
    let csv = fine(run_on(&shop, "tiers", &["--csv"]));
    assert_eq!((csv.lines().next().unwrap(), csv.lines().count()), (of_row.replace(' ', ",").as_str(), 17));
    let would = json(&shop, "whatif", &["--minimum", "24"]);
    assert_eq!(keys(&would), "schema currency from to by target rows total all_in orders orders_turned_away smallest_order");
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
    assert!(fine(shop.run("tiers", &["--details"])).contains("as logged for designs you timed by themselves"));
}

/// 44.00 short at 60.00 an hour: 12 acorns at 5.25 and 4 gates at 13.25 minutes, at a dollar a minute, for 36.00 and 36.00.
#[test]
fn what_would_do_instead_makes_up_for_just_what_is_short() {
    let text = flowing(&fine(by_hand("60").run("tiers", &DETAILS)));
    // 27.00 of it on acorns, 17.00 on gates; planning takes 20 minutes.
    for line in [
        " small: $27 short over the season; 2.3 minutes less on each piece would close it ",
        " large: $17 short over the season; 4.3 minutes less on each piece would close it ",
        " a set-up charge of $44.00 on each order would close it for all tiers together (a set-up costs you $20.00) ",
        " a minimum order would not be enough: at today's prices no order of your usual mix pays $60 an hour, however large ",
    ] {
        assert!(text.contains(line), "{line}{text}");
    }
}

/// A floor above the wage aimed at rules every price, and is said to.
#[test]
fn a_floor_above_the_target_is_told() {
    let shop = by_hand("20\nfloor = 25");
    assert!(shop.run("check", &[]).out.contains("key wage.floor: the floor is above wage.target"), "{}", shop.run("check", &[]).out);
    assert!(flowing(&fine(shop.run("tiers", &CARD))).contains("every design at least your floor of $25, which is higher:"));
}

/// From 3.00 to 400.50 there are 1,590 quarters: too many to try each.
#[test]
fn a_search_that_was_thinned_says_so() {
    let shop = by_hand("18");
    let said = |shop: &Trial| flowing(&fine(shop.run("tiers", &CARD)));
    assert_eq!(json(shop.path(), "tiers", &CARD)["search_thinned"], false);
    assert!(!said(&shop).contains("too many amounts"), "{}", said(&shop));
    shop.write("tiers.csv", b"tier,price\nsmall,3.00\nlarge,400.50\n");
    assert_eq!(json(shop.path(), "tiers", &CARD)["search_thinned"], true);
    assert!(said(&shop).contains("so only those near your old and fair prices were tried: a slightly better list may exist."));
    // One tier at a time is exact however long the row is.
    for options in [["--keep", "--minutes", "card"], ["--tiers=1", "--minutes", "card"]] {
        assert_eq!(json(shop.path(), "tiers", &options)["search_thinned"], false, "{options:?}");
    }
}
