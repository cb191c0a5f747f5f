//! The bridge adds up, whatever the two periods hold: its parts, its designs, and both ends against the headlines.

use crate::harness::{Trial, repository, run_on};
use crate::random_shop::for_many_shops;
use fairdozen::costing::figure::{Figure, Figures};
use fairdozen::costing::stock::Quantity;
use fairdozen::costing::{Costed, MinutesBy, Options, column, cost};
use fairdozen::ids::{Id, Item};
use fairdozen::quantity::millionths::Money;
use fairdozen::quantity::{Amount, Month, Period};
use fairdozen::review::bridge::{Effect, Group, Part, Side, Sums, sides};
use fairdozen::review::headline::Headline;
use fairdozen::review::{BasePeriod, Bridge};
use fairdozen::shop::Shop;
use fairdozen::shop::load::{Folder, Skipped};
use proptest::prelude::*;
use proptest::test_runner::TestCaseResult;
use std::collections::BTreeMap;
use std::path::Path;

fn read(path: &Path) -> Shop {
    let loaded = Folder::open(path).load(&Skipped::new());
    loaded.shop.unwrap_or_else(|| panic!("{:?}", loaded.problems))
}

fn month(text: &str) -> Period {
    Period::of(Month::parse(text).unwrap())
}

/// Every month from the first order or hours to the last.
fn months(shop: &Shop) -> Vec<Month> {
    let days = shop.orders.heads.iter().filter_map(|head| head.day).chain(shop.hours.entries.iter().map(|entry| entry.day));
    let (first, last) = (days.clone().min().unwrap().month(), days.max().unwrap().month());
    (first.0..=last.0).map(Month).collect()
}

fn sum<'a>(effects: impl Iterator<Item = &'a Effect>, has_wages: bool) -> Effect {
    let mut sum = Effect { wage: has_wages.then_some(Money::ZERO), ..Effect::default() };
    for effect in effects {
        sum.add(effect);
    }
    sum
}

/// Parts, designs and designs' parts are the change between both ends, to the last stored digit.
fn adds_up(bridge: &Bridge) -> TestCaseResult {
    let (then, now) = (bridge.then.whole, bridge.now.whole);
    let change = Effect {
        pay: now.pay - then.pay,
        minutes: now.minutes - then.minutes,
        surplus: now.surplus - then.surplus,
        wage: now.wage.zip(then.wage).map(|(now, then)| now - then),
    };
    let has_wages = change.wage.is_some();
    prop_assert_eq!(bridge.change, change);
    prop_assert_eq!(sum(bridge.parts.iter().map(|(_, effect)| effect), has_wages), change);
    prop_assert_eq!(sum(bridge.groups.iter().map(|group| &group.change), has_wages), change);
    for group in &bridge.groups {
        prop_assert_eq!(sum(group.parts.iter().map(|(_, effect)| effect), has_wages), group.change);
    }
    for (part, effect) in &bridge.parts {
        let of_groups = bridge.groups.iter().flat_map(|group| &group.parts).filter(|(found, _)| found == part);
        prop_assert_eq!(sum(of_groups.map(|(_, effect)| effect), has_wages), *effect, "{:?}", part);
    }
    let items = bridge.items.values();
    prop_assert_eq!(items.clone().map(|item| item.price).sum::<Money>(), bridge.part(Part::IngredientPrices).pay);
    prop_assert_eq!(bridge.steps(usize::MAX).last().map_or(then.surplus, |step| step.reached), now.surplus);
    prop_assert_eq!(bridge.steps(3).last().map_or(then.surplus, |step| step.reached), now.surplus);
    Ok(())
}

/// Both ends are what the two reviews say at their head.
fn stands_on_the_headlines(shop: &Shop, costed: &Costed, bridge: &Bridge) -> TestCaseResult {
    for end in [&bridge.then, &bridge.now] {
        let headline = Headline::of(shop, costed, end.period).unwrap();
        if costed.hours_known.any {
            prop_assert_eq!((end.whole.pay, end.whole.minutes, end.whole.wage), (headline.pay, headline.minutes, headline.wage));
            prop_assert_eq!(headline.missing.map_or(end.whole.pay, |missing| -missing), end.whole.surplus);
            prop_assert_eq!((end.orders, end.left_out), (headline.orders_known, headline.lacking.len()));
        } else {
            prop_assert_eq!((end.whole.pay, end.whole.surplus), (headline.pay_of_all, headline.pay_of_all));
            prop_assert_eq!((bridge.target, end.left_out), (None, 0));
        }
    }
    Ok(())
}

pub fn figures(sums: &[(Figure, i128)]) -> Figures {
    let mut figures = Figures::default();
    for (figure, sum) in sums {
        figures[*figure] = *sum;
    }
    figures
}

/// Any sums, sensible or not.
fn any_sums() -> impl Strategy<Value = Sums> {
    let tier = prop::option::of((0_u32..2).prop_map(Id::new));
    let used = (-50_i128..1_000_000_000, -5_i128..90_000_000).prop_map(|(amount, cost)| Quantity { amount: Amount(amount), cost });
    let items = prop::collection::btree_map((0_u32..3).prop_map(Id::new), used, 0..3);
    let money = || 0_i128..500_000_000;
    let minutes = || 0_i128..900_000_000;
    let pieces = prop_oneof![1 => Just(0_i64), 6 => 1_i64..90];
    let costs = (money(), money(), money(), money(), money(), money(), money());
    (tier, pieces, money(), items, costs, minutes(), minutes()).prop_map(
        |(tier, pieces, charged, items, costs, piece_minutes, set_up_minutes)| {
            let (rush, discount, other_ingredients, packaging, fees, helper_pay, overhead) = costs;
            let ingredients = other_ingredients + items.values().map(|used| used.cost).sum::<i128>();
            let figures = figures(&[
                (Figure::Pieces, pieces.into()),
                (Figure::ListValue, charged),
                (Figure::Rush, rush),
                (Figure::Discount, discount),
                (Figure::Ingredients, ingredients),
                (Figure::Packaging, packaging),
                (Figure::Fees, fees),
                (Figure::HelperPay, helper_pay),
                (Figure::Overhead, overhead),
                (Figure::PieceMinutes, piece_minutes),
                (Figure::OwnerMinutes, piece_minutes + set_up_minutes),
            ]);
            Sums { tier, orders: pieces.min(3), figures, items }
        },
    )
}

fn any_side() -> impl Strategy<Value = Side> {
    let designs = (0..4).map(|design| Group::Design(Id::new(design)));
    let groups: Vec<Group> = designs.chain([Group::Delivery, Group::KeptDeposits, Group::Unassigned]).collect();
    let groups = prop::collection::btree_map(prop::sample::select(groups), any_sums(), 0..6);
    (groups, prop_oneof![Just(0_i128), 9_000_000_i128..40_000_000]).prop_map(|(mut groups, target)| {
        for (group, sums) in &mut groups {
            if !matches!(group, Group::Design(_)) {
                sums.figures[Figure::Pieces] = 0;
            }
        }
        Side { groups, target: Money(target) }
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn parts_add_up_between_any_two_sides(then in any_side(), now in any_side()) {
        adds_up(&Bridge::between(&then, &now).unwrap())?;
    }

    #[test]
    fn swapping_the_sides_turns_the_change_round(then in any_side(), now in any_side()) {
        let (there, back) = (Bridge::between(&then, &now).unwrap(), Bridge::between(&now, &then).unwrap());
        prop_assert_eq!(there.change.surplus, -back.change.surplus);
        prop_assert_eq!(there.change.wage, back.change.wage.map(|wage| -wage));
        // What is no matter of pieces has no base to be measured from: its pay and its hours turn round exactly.
        for part in [Part::RushAndTips, Part::DiscountsAndRefunds, Part::Delivery, Part::KeptDeposits, Part::Overhead, Part::Unassigned] {
            prop_assert_eq!(there.part(part).pay, -back.part(part).pay);
            prop_assert_eq!(there.part(part).minutes.0, -back.part(part).minutes.0);
        }
    }

    #[test]
    fn nothing_changes_between_a_side_and_itself(side in any_side()) {
        let bridge = Bridge::between(&side, &side).unwrap();
        prop_assert_eq!(bridge.moved(), vec![]);
        prop_assert!(bridge.groups.iter().all(|group| group.parts.is_empty()));
    }

    /// With as many of each design as before, nothing sold changed; at the same rates for more of each in proportion, all is volume.
    #[test]
    fn twice_as_many_of_everything_is_volume_alone(side in any_side()) {
        let mut twice = side.clone();
        for (group, sums) in &mut twice.groups {
            if matches!(group, Group::Design(_)) {
                let once = sums.clone();
                sums.add(&once).unwrap();
                for figure in [Figure::Overhead, Figure::Rush, Figure::Discount] {
                    sums.figures[figure] = once.figures[figure];
                }
            }
        }
        // A design without pieces has no unit to be more of.
        prop_assume!(side.groups.iter().all(|(group, sums)| !matches!(group, Group::Design(_)) || sums.figures[Figure::Pieces] > 0));
        // A price needs an amount.
        prop_assume!(side.groups.values().flat_map(|sums| sums.items.values()).all(|used| used.amount > Amount::ZERO));
        let moved = Bridge::between(&side, &twice).unwrap().moved();
        prop_assert!(moved.iter().all(|(part, _)| *part == Part::Volume), "{:?}", moved);
    }
}

#[test]
fn without_a_base_all_is_volume() {
    let minutes = 60_000_000;
    let charged = [(Figure::Pieces, 4), (Figure::ListValue, 40_000_000), (Figure::PieceMinutes, minutes), (Figure::OwnerMinutes, minutes)];
    let pieces = Sums { figures: figures(&charged), ..Sums::default() };
    let now = Side { groups: [(Group::Design(Id::new(0)), pieces)].into(), target: Money(20_000_000) };
    let bridge = Bridge::between(&Side { target: now.target, ..Side::default() }, &now).unwrap();
    let moved: Vec<(Part, Money)> = bridge.moved().into_iter().map(|(part, effect)| (part, effect.surplus)).collect();
    assert_eq!(moved, [(Part::Volume, Money(20_000_000))]);
    assert_eq!((bridge.change.wage, bridge.then.orders), (None, 0));
}

/// A new design without a tier that the base period knows is held against the shop's average.
#[test]
fn a_new_design_is_held_against_its_tier_else_the_shop() {
    let (small, large, character) = (Id::new(0), Id::new(1), Id::new(2));
    let [acorn, fern, gate, otter] = [0, 1, 2, 3].map(|design| Group::Design(Id::new(design)));
    let sums = |tier, charged| {
        let figures = figures(&[(Figure::Pieces, 10), (Figure::ListValue, charged)]);
        Sums { tier: Some(tier), figures, ..Sums::default() }
    };
    let side = |groups: [(Group, Sums); 2]| Side { groups: groups.into(), target: Money::ZERO };
    let then = side([(acorn, sums(small, 20_000_000)), (gate, sums(large, 80_000_000))]);
    let now = side([(fern, sums(small, 30_000_000)), (otter, sums(character, 90_000_000))]);
    let bridge = Bridge::between(&then, &now).unwrap();
    let prices = |design: Group| {
        let group = bridge.groups.iter().find(|group| group.group == design).unwrap();
        group.parts.iter().find(|(part, _)| *part == Part::Prices).unwrap().1.pay
    };
    // The tier charged 2 a piece, the shop 5.
    assert_eq!((prices(fern), prices(otter)), (Money(10_000_000), Money(40_000_000)));
}

#[test]
fn the_target_is_a_part_where_two_are_given() {
    let side = |target: i128, minutes: i128| {
        let minutes = minutes * 1_000_000;
        let figures = figures(&[(Figure::Pieces, 1), (Figure::PieceMinutes, minutes), (Figure::OwnerMinutes, minutes)]);
        let sums = Sums { figures, ..Sums::default() };
        Side { groups: [(Group::Design(Id::new(0)), sums)].into(), target: Money(target * 1_000_000) }
    };
    let bridge = Bridge::between(&side(20, 60), &side(24, 30)).unwrap();
    // Half an hour less at 20; half an hour at 4 more.
    assert_eq!(bridge.part(Part::PieceMinutes).surplus, Money(10_000_000));
    assert_eq!(bridge.part(Part::Target).surplus, Money(-2_000_000));
    assert_eq!(bridge.part(Part::Target).wage, Some(Money::ZERO));
}

#[test]
fn random_shops_add_up_and_stand_on_their_headlines() {
    for_many_shops(40, 31, |shop, _| {
        let trial = shop.trial();
        let shop = read(trial.path());
        let costed = cost(&shop, Options::default()).unwrap();
        for pair in months(&shop).windows(2) {
            let bridge = Bridge::of(&shop, &costed, Period::of(pair[0]), Period::of(pair[1])).unwrap();
            adds_up(&bridge)?;
            stands_on_the_headlines(&shop, &costed, &bridge)?;
            let same = Bridge::of(&shop, &costed, Period::of(pair[1]), Period::of(pair[1])).unwrap();
            prop_assert_eq!(same.moved(), vec![]);
        }
        Ok(())
    });
}

#[test]
fn the_order_of_rows_changes_no_part() {
    for_many_shops(20, 32, |mut shop, mut dice| {
        let bridges = |trial: &Trial| {
            let shop = read(trial.path());
            let costed = cost(&shop, Options::default()).unwrap();
            let months = months(&shop);
            let of = |pair: &[Month]| Bridge::of(&shop, &costed, Period::of(pair[0]), Period::of(pair[1])).unwrap();
            months.windows(2).map(of).collect::<Vec<Bridge>>()
        };
        let before = bridges(&shop.trial());
        for table in shop.tables.values_mut() {
            dice.shuffle(&mut table.rows);
        }
        prop_assert_eq!(bridges(&shop.trial()), before);
        Ok(())
    });
}

/// What lines took of items is what the facts say that they cost: nothing but assumed materials is left over.
#[test]
fn ingredients_told_apart_by_item_are_the_ingredients_of_the_facts() {
    let told = std::cell::Cell::new(0);
    for_many_shops(40, 33, |shop, _| {
        let trial = shop.trial();
        let shop = read(trial.path());
        for flow in ["latest", "average", "fifo"] {
            let flow = fairdozen::shop::settings::COST_FLOWS.iter().find(|(name, _)| *name == flow).map(|(_, flow)| *flow);
            let costed = cost(&shop, Options { cost_flow: flow, ..Options::default() }).unwrap();
            let [whole, _] = sides::sides(&shop, &costed, [Period::default(), Period::of(months(&shop)[0])]).unwrap();
            let mut amounts: BTreeMap<Id<Item>, i128> = BTreeMap::new();
            for (group, sums) in &whole.side.groups {
                let has_rows = match group {
                    Group::Design(design) => costed.bill.has_rows[*design],
                    Group::Delivery | Group::KeptDeposits => true,
                    Group::Unassigned => continue,
                };
                // A design without rows takes what every order takes, beside its assumed materials.
                prop_assert!(!has_rows || sums.other_ingredients() == Money::ZERO, "{:?} {:?}", group, sums);
                for (item, used) in &sums.items {
                    *amounts.entry(*item).or_default() += used.amount.0;
                    told.set(told.get() + 1);
                }
            }
            if costed.facts.values(&column::KNOWN).unwrap().into_iter().all(|known| known) {
                for (item, amount) in amounts {
                    let used: i128 = costed.materials.movements[item].used.values().map(|amount| amount.0).sum();
                    let missing: i128 = costed.materials.runs[item].gaps.iter().map(|gap| gap.missing.0).sum();
                    prop_assert_eq!(amount, used + missing, "{}", shop.item_names.text(item));
                }
            }
        }
        Ok(())
    });
    assert!(told.get() > 500, "{}", told.get());
}

/// A tenth of the flour was gone at the count: that is use, not price.
#[test]
fn what_a_count_found_missing_is_use_and_not_price() {
    let trial = Trial::new(&[
        ("shop.toml", "currency = \"USD\"\ncost_flow = \"average\"\n"),
        ("orders.csv", "order,date,design,quantity,price\nM,2026-03-10,acorn,10,3.00\nA,2026-04-10,acorn,10,3.00\n"),
        ("purchases.csv", "date,item,packs,size,unit,paid\n2026-03-01,flour,1,1,kg,10.00\n"),
        ("recipes.csv", "for,item,amount,unit\nacorn,flour,20,g\n"),
        ("counts.csv", "date,item,amount,unit\n2026-03-31,flour,800,g\n2026-04-30,flour,580,g\n"),
    ]);
    let shop = read(trial.path());
    let bridge = Bridge::of(&shop, &cost(&shop, Options::default()).unwrap(), month("2026-03"), month("2026-04")).unwrap();
    // 220 g in place of 200, at a cent a gram.
    assert_eq!((bridge.part(Part::IngredientUse).pay, bridge.part(Part::IngredientPrices).pay), (Money(-200_000), Money::ZERO));
    assert_eq!(bridge.change.pay, Money(-200_000));
}

#[test]
fn all_months_of_the_demo_add_up() {
    let shop = read(&repository("fixtures/ninebell-quay"));
    for minutes in [MinutesBy::Learned { trend: false }, MinutesBy::Card] {
        let costed = cost(&shop, Options { minutes, ..Options::default() }).unwrap();
        let months = months(&shop);
        assert!(months.len() > 12);
        for pair in months.windows(2) {
            let bridge = Bridge::of(&shop, &costed, Period::of(pair[0]), Period::of(pair[1])).unwrap();
            adds_up(&bridge).unwrap();
            stands_on_the_headlines(&shop, &costed, &bridge).unwrap();
        }
        let season = |name: &str| shop.settings.seasons[name];
        let bridge = Bridge::of(&shop, &costed, season("spring 2026"), season("lantern night 2026")).unwrap();
        adds_up(&bridge).unwrap();
        stands_on_the_headlines(&shop, &costed, &bridge).unwrap();
        let against = BasePeriod::LastYear.period(month("2026-10"), &shop.settings).unwrap();
        adds_up(&Bridge::of(&shop, &costed, against, month("2026-10")).unwrap()).unwrap();
    }
}

fn review(options: &[&str]) -> fairdozen::cli::Outcome {
    let out = tempfile::tempdir().unwrap();
    let options: Vec<&str> =
        ["--minutes", "card", "--details", "--out", out.path().to_str().unwrap()].iter().chain(options).copied().collect();
    run_on(&repository("fixtures/ninebell-quay"), "review", &options)
}

#[test]
fn a_review_is_held_against_what_was_asked_for() {
    for (options, heading) in [
        (&["--month", "2026-10"][..], "What changed since September 2026\n"),
        (&["--month", "2026-10", "--against", "previous"], "What changed since September 2026\n"),
        (&["--month", "2026-10", "--against", "last-year"], "What changed since October 2025\n"),
        (&["--month", "2026-10", "--against", "2026-05"], "What changed since May 2026\n"),
        (&["--month", "2026-10", "--against", "spring 2026"], "What changed since spring 2026\n"),
        (&["--season", "spring 2026"], "What changed since October 2025 to January 2026\n"),
        (&["--from", "2026-10-05", "--to", "2026-10-18"], "What changed since 2026-09-21 to 2026-10-04\n"),
    ] {
        let outcome = review(options);
        assert_eq!((outcome.code, outcome.err.as_str()), (0, ""), "{options:?}");
        assert!(outcome.out.contains(heading), "{options:?}: {}", outcome.out);
        assert!(outcome.out.lines().all(|line| line.chars().count() <= 100), "{options:?}: {}", outcome.out);
    }
    // An open end has nothing as long before it: the section is left out.
    let open = review(&["--from", "2026-01-01"]);
    assert!(open.code == 0 && !open.out.contains("What changed"), "{}", open.out);
}

/// The demo's timer left on overnight is in November: the gain of December's minutes rests on it.
#[test]
fn a_likely_logging_mistake_is_told_before_its_effect_is_believed() {
    let out = tempfile::tempdir().unwrap();
    let of = |month: &str| {
        run_on(&repository("fixtures/ninebell-quay"), "review", &["--month", month, "--details", "--out", out.path().to_str().unwrap()]).out
    };
    assert!(of("2025-12").contains("Check the hours of L028 first"), "{}", of("2025-12"));
    assert!(!of("2026-10").contains("Check the hours"), "{}", of("2026-10"));
}

#[test]
fn a_base_that_is_none_is_refused_with_advice() {
    for (options, expected) in [
        (
            &["--month", "2026-10", "--against", "spring 2062"][..],
            "--against: there is no season 'spring 2062'; did you mean 'spring 2026'?; or write previous, last-year, or a \
             month as september or 2026-09\n",
        ),
        (
            &["--month", "2026-10", "--against", "xyz"],
            "--against: there is no season 'xyz'; your settings have: lantern night 2026, midwinter 2025, spring 2026, summer 2026; or write previous, \
             last-year, or a month as september or 2026-09\n",
        ),
        (&["--month", "2026-10", "--against", "2026-10"], "--against names the period under review itself; name another\n"),
        (
            &["--from", "2026-01-01", "--against", "last-year"],
            "--against compares with a period that has a first and a last day; give --month, --season, or both --from and --to\n",
        ),
    ] {
        let outcome = review(options);
        assert_eq!((outcome.code, outcome.out.as_str(), outcome.err.as_str()), (2, "", expected), "{options:?}");
    }
}

#[test]
fn a_base_without_orders_is_said_to_be_one() {
    let outcome = review(&["--month", "2026-10", "--against", "2021-03"]);
    assert_eq!(outcome.code, 0);
    let said = "What changed since March 2021\n\n  Nothing was handed over in March 2021: there is nothing to compare October 2026 with.\n";
    assert!(outcome.out.contains(said), "{}", outcome.out);
}

#[test]
fn the_table_for_programs_adds_up_to_the_last_stored_digit() {
    let out = tempfile::tempdir().unwrap();
    let options = ["--month", "2026-09", "--out", out.path().to_str().unwrap()];
    assert_eq!(run_on(&repository("fixtures/ninebell-quay"), "review", &options).code, 0);
    let mut reader = csv::Reader::from_path(out.path().join("bridge.csv")).unwrap();
    let rows: Vec<BTreeMap<String, String>> = reader.deserialize().map(Result::unwrap).collect();
    let exact = |row: &BTreeMap<String, String>, column: &str| Money::from_decimal(row[column].parse().unwrap()).unwrap();
    let one = |part: &str| rows.iter().find(|row| row["group"] == "all" && row["part"] == part).unwrap();
    for column in ["pay", "minutes", "surplus", "wage_per_hour"] {
        let change = exact(one("now"), column) - exact(one("then"), column);
        let all = rows.iter().filter(|row| row["group"] == "all" && row["part"] != "now" && row["part"] != "then");
        assert_eq!(all.map(|row| exact(row, column)).sum::<Money>(), change, "{column}");
        let designs = rows.iter().filter(|row| row["group"] != "all" && row["part"] == "change");
        assert_eq!(designs.map(|row| exact(row, column)).sum::<Money>(), change, "{column}");
    }
    assert_eq!((one("then")["from"].as_str(), one("now")["to"].as_str()), ("2026-08-01", "2026-09-30"));
}

/// Three orders a side say little, and a shop without hours or target is told what was left of the money.
#[test]
fn small_samples_and_missing_hours_are_said() {
    let trial = Trial::new(&[(
        "orders.csv",
        "order,date,design,quantity,price\nS1,2026-09-10,moth,12,4.00\nO1,2026-10-10,moth,12,5.00\nO2,2026-10-28,moth,6,5.00\n",
    )]);
    let outcome = trial.run("review", &["--month", "2026-10", "--details"]);
    assert_eq!(outcome.code, 0, "{}", outcome.err);
    let expected = "October 2026 left you $42 more than September 2026: pieces sold +$24, higher prices +$18.\n";
    assert!(outcome.out.contains(expected), "{}", outcome.out);
    assert!(
        outcome.out.contains("A few orders say little: only 1 order in September 2026 and 2 orders in October 2026."),
        "{}",
        outcome.out
    );
    assert!(outcome.out.contains("left for") && !outcome.out.contains("Minutes are yours alone"), "{}", outcome.out);
}

/// The demo's logs begin in August 2025: three months are no measure for a whole year, unless they are asked for by name.
#[test]
fn a_year_is_not_compared_with_the_few_months_before_it() {
    let year = ["--from", "2025-11-01", "--to", "2026-10-31"];
    let said = "Your logs begin in August 2025, so there is no full year before to compare with.";
    let alone = review(&year);
    assert!(alone.out.contains(said) && !alone.out.contains("What changed since"), "{}", alone.out);
    let asked = review(&[&year[..], &["--against", "last-year"]].concat());
    assert!(!asked.out.contains(said) && asked.out.contains("What changed since November 2024 to October 2025"), "{}", asked.out);
}
