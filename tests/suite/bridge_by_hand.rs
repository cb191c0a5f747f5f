//! Two months small enough that every part of the change between them is known by hand.
//!
//! At $30 an hour a minute is $0.50. March sold 15 cookies, April 24. A piece of March left, before overhead and with its
//! time paid: an acorn 3 − 0.04 flour − 0.10 bag − 0.30 fee − 0.20 helper − 3 minutes × 0.50 = 0.86; a gate
//! 8 − 0.08 − 0.10 − 0.80 − 0.20 − 9 × 0.50 = 2.32. Ferns are new in April, and held against their tier: the acorn.

use crate::harness::Trial;
use fairdozen::costing::{Options, cost};
use fairdozen::quantity::millionths::Money;
use fairdozen::quantity::{Month, Period};
use fairdozen::review::Bridge;
use fairdozen::review::bridge::{Group, Part, StandardFrom};
use fairdozen::shop::load::{Folder, Skipped};

const SHOP: &[(&str, &str)] = &[
    (
        "shop.toml",
        "currency = \"USD\"\n[wage]\ntarget = 30.00\n[fees]\npercent = \"10 %\"\n[helpers]\nrobin = 12.00\n[seasons]\n\"early spring\" = { from = 2026-03-01, to = 2026-03-31 }\n",
    ),
    (
        "orders.csv",
        "order,date,kind,design,quantity,price,made,status\n\
         M1,2026-03-14,cookie,acorn,10,3.00,,\n\
         M1,2026-03-14,cookie,gate,5,8.00,,\n\
         M1,2026-03-14,delivery,,,10.00,,\n\
         Q1,2026-03-20,cookie,acorn,10,3.00,,quoted\n\
         A1,2026-04-18,cookie,acorn,20,3.50,22,\n\
         A1,2026-04-18,cookie,fern,4,5.00,,\n\
         A1,2026-04-18,rush,,,9.00,,\n\
         A1,2026-04-18,discount,,,4.50,,\n\
         X1,2026-04-25,deposit kept,,,5.00,,cancelled\n",
    ),
    ("designs.csv", "design,tier\nacorn,small\nfern,small\ngate,large\n"),
    (
        "purchases.csv",
        "date,item,packs,size,unit,paid\n2026-03-01,flour,1,1,kg,2.00\n2026-03-01,bag,1,100,each,10.00\n\
         2026-04-01,flour,1,1,kg,3.00\n2026-04-01,bag,1,100,each,15.00\n",
    ),
    ("items.csv", "item,class\nbag,packaging\n"),
    (
        "recipes.csv",
        "for,item,amount,unit\nacorn,flour,20,g\nacorn,bag,1,each\ngate,flour,40,g\ngate,bag,1,each\nfern,flour,30,g\nfern,bag,1,each\n",
    ),
    (
        "hours.csv",
        "date,minutes,stage,order,design,who\n\
         2026-03-12,20,decorate,M1,acorn,\n\
         2026-03-12,40,decorate,M1,gate,\n\
         2026-03-10,15,plan,M1,,\n\
         2026-03-14,12,deliver,M1,,\n\
         2026-03-13,15,pack,M1,,robin\n\
         2026-03-18,6,plan,Q1,,\n\
         2026-04-16,50,decorate,A1,acorn,\n\
         2026-04-16,20,decorate,A1,fern,\n\
         2026-04-12,36,plan,A1,,\n\
         2026-04-17,36,pack,A1,,robin\n",
    ),
    (
        "overheads.csv",
        "from,to,what,paid,shared_by\n2026-03-01,2026-03-31,permit,30.00,pieces\n2026-04-01,2026-04-30,permit,24.00,pieces\n",
    ),
];

fn bridge() -> Bridge {
    let trial = Trial::new(SHOP);
    let loaded = Folder::open(trial.path()).load(&Skipped::new());
    let shop = loaded.shop.unwrap_or_else(|| panic!("{:?}", loaded.problems));
    let costed = cost(&shop, Options::default()).unwrap();
    let month = |text: &str| Period::of(Month::parse(text).unwrap());
    Bridge::of(&shop, &costed, month("2026-03"), month("2026-04")).unwrap()
}

fn cents(hundredths: i128) -> Money {
    Money(hundredths * 10_000)
}

/// A group's parts, in cents.
fn design(bridge: &Bridge, name: &str) -> Group {
    Group::Design(bridge.names.designs.find(name).unwrap())
}

fn parts_of(bridge: &Bridge, group: Group) -> Vec<(Part, Money)> {
    let group = bridge.groups.iter().find(|found| found.group == group).unwrap();
    group.parts.iter().map(|(part, effect)| (*part, effect.surplus)).filter(|(_, surplus)| *surplus != Money::ZERO).collect()
}

#[test]
fn both_ends_are_as_worked_by_hand() {
    let bridge = bridge();
    // Acorns 23.60 − 20 − 15, gates 34.10 − 10 − 22.50, the delivery 10 − 1 − 6, six minutes on a quote −3.
    assert_eq!(bridge.then.whole.surplus, cents(-980));
    // Acorns 55.83 − 20 − 40, ferns 16.74 − 4 − 13, the deposit 5 − 0.50.
    assert_eq!(bridge.now.whole.surplus, cents(7));
    assert_eq!((bridge.then.pieces, bridge.now.pieces, bridge.then.orders, bridge.now.orders), (15, 24, 1, 1));
    // 36.70 in 93 minutes, 53.07 in 106.
    assert_eq!((bridge.then.whole.wage, bridge.now.whole.wage), (Some(Money(23_677_419)), Some(Money(30_039_623))));
}

#[test]
fn every_part_is_as_worked_by_hand() {
    let bridge = bridge();
    let expected = [
        (Part::Prices, 1800),              // 20 × 0.50 + 4 × 2.00
        (Part::Mix, -1168),                // (20 − 16) × 0.86 + (0 − 8) × 2.32 + 4 × 0.86
        (Part::Volume, 1212),              // (16 − 10) × 0.86 + (8 − 5) × 2.32
        (Part::PieceMinutes, -1100),       // acorns 50 − 40, ferns 20 − 8: 22 minutes
        (Part::SetUpMinutes, -600),        // 30 − 20, 6 − 4: 12 minutes
        (Part::IngredientPrices, -56),     // 440 g and 120 g at 0.001 more
        (Part::IngredientUse, -16),        // 40 g more than 400, 40 g more than 80, at 0.002
        (Part::Packaging, -120),           // 24 bags at 0.05 more
        (Part::Fees, -225),                // 7.35 − 6.00, 2.10 − 1.20
        (Part::HelperPay, -240),           // 6.00 − 4.00, 1.20 − 0.80
        (Part::RushAndTips, 900),          // 9.00
        (Part::DiscountsAndRefunds, -450), // 4.50
        (Part::Delivery, -300),            // 10 − 1 − 12 minutes, gone
        (Part::KeptDeposits, 450),         // 5.00 − 0.50
        (Part::Overhead, 600),             // 30 − 24
        (Part::Unassigned, 300),           // six minutes
        (Part::Target, 0),                 // one target in the settings
    ];
    let found: Vec<(Part, Money)> = bridge.parts.iter().map(|(part, effect)| (*part, effect.surplus)).collect();
    assert_eq!(found, expected.map(|(part, sum)| (part, cents(sum))));
    assert_eq!(bridge.change.surplus, cents(987));
}

#[test]
fn every_part_of_the_wage_is_as_worked_by_hand() {
    // (ΔP − W̄ ΔH) ÷ H̄: 99.5 minutes and 26.858521 an hour are the means; worked out in exact fractions, then rounded.
    let bridge = bridge();
    let expected = [
        (Part::Prices, 10_854_271),
        (Part::Mix, -8_558_703),
        (Part::Volume, 8_729_312),
        (Part::PieceMinutes, -5_938_567),
        (Part::SetUpMinutes, -3_239_219),
        (Part::IngredientPrices, -337_688),
        (Part::IngredientUse, -96_482),
        (Part::Packaging, -723_618),
        (Part::Fees, -1_356_784),
        (Part::HelperPay, -1_447_236),
        (Part::RushAndTips, 5_427_136),
        (Part::DiscountsAndRefunds, -2_713_568),
        (Part::Delivery, -2_187_917),
        (Part::KeptDeposits, 2_713_568),
        (Part::Overhead, 3_618_090),
        (Part::Unassigned, 1_619_609),
        (Part::Target, 0),
    ];
    for ((part, effect), (named, millionths)) in bridge.parts.iter().zip(expected) {
        // What is left of rounding goes to the largest remainders: at most one millionth for each design in a part.
        let off = (effect.wage.unwrap().0 - millionths).abs();
        assert!(*part == named && off <= 3, "{part:?}: {:?}", effect.wage);
    }
    assert_eq!(bridge.parts.iter().map(|(_, effect)| effect.wage.unwrap()).sum::<Money>(), Money(30_039_623 - 23_677_419));
}

#[test]
fn designs_are_as_worked_by_hand() {
    let bridge = bridge();
    let acorn = [
        (Part::Prices, 1000),
        (Part::Mix, 344),
        (Part::Volume, 516),
        (Part::PieceMinutes, -500),
        (Part::SetUpMinutes, -500),
        (Part::IngredientPrices, -44),
        (Part::IngredientUse, -8),
        (Part::Packaging, -100),
        (Part::Fees, -135),
        (Part::HelperPay, -200),
        (Part::RushAndTips, 700),
        (Part::DiscountsAndRefunds, -350),
    ];
    assert_eq!(parts_of(&bridge, design(&bridge, "acorn")), acorn.map(|(part, sum)| (part, cents(sum))));
    let fern = [
        (Part::Prices, 800),
        (Part::Mix, 344),
        (Part::PieceMinutes, -600),
        (Part::SetUpMinutes, -100),
        (Part::IngredientPrices, -12),
        (Part::IngredientUse, -8),
        (Part::Packaging, -20),
        (Part::Fees, -90),
        (Part::HelperPay, -40),
        (Part::RushAndTips, 200),
        (Part::DiscountsAndRefunds, -100),
        (Part::Overhead, -400),
    ];
    assert_eq!(parts_of(&bridge, design(&bridge, "fern")), fern.map(|(part, sum)| (part, cents(sum))));
    let gate = [(Part::Mix, -1856), (Part::Volume, 696), (Part::Overhead, 1000)];
    assert_eq!(parts_of(&bridge, design(&bridge, "gate")), gate.map(|(part, sum)| (part, cents(sum))));
    let standards: Vec<Option<StandardFrom>> = bridge.groups.iter().map(|group| group.standard).collect();
    assert_eq!(standards[..3], [Some(StandardFrom::Own), Some(StandardFrom::Tier), Some(StandardFrom::Own)]);
    let flour = bridge.names.items.find("flour").unwrap();
    assert_eq!((bridge.items[&flour].price, bridge.items[&flour].used), (cents(-56), cents(-16)));
}

#[test]
fn a_waterfall_runs_from_one_end_to_the_other() {
    let bridge = bridge();
    let steps = bridge.steps(usize::MAX);
    assert_eq!((steps[0].part, steps[0].change, steps[0].reached), (Some(Part::Prices), cents(1800), cents(820)));
    assert_eq!((steps.len(), steps.last().unwrap().reached), (16, bridge.now.whole.surplus));
    assert!(steps.windows(2).all(|pair| pair[0].change.0.abs() >= pair[1].change.0.abs()));
    let few = bridge.steps(4);
    assert_eq!(few[..3], steps[..3]);
    assert_eq!((few.len(), few[3].part, few[3].reached), (4, None, bridge.now.whole.surplus));
}

/// The section as the maker reads it; its figures are those worked out above.
#[test]
fn the_section_reads_as_it_should() {
    let outcome = Trial::new(SHOP).run("review", &["--month", "2026-04", "--minutes", "card", "--details"]);
    assert_eq!(outcome.code, 0, "{}", outcome.err);
    let (_, section) = outcome.out.split_once("\n\nWhat changed").unwrap();
    let (section, _) = section.split_once("\n\nCheck it").unwrap();
    assert_eq!(format!("What changed{section}\n"), SECTION);
}

const SECTION: &str = "\
What changed since March 2026

April 2026 was $10 better than March 2026 with your time paid at $30: higher prices +$18, pieces
sold +$12; a different mix of designs −$12.

what changed                            above or   hourly
                                           below      pay
─────────────────────────────────────────────────────────
March 2026                                −$9.80   $23.68
  prices                                 +$18.00  +$10.85
  pieces sold                            +$12.12   +$8.73
  a different mix of designs             −$11.68   −$8.56
  minutes per piece                      −$11.00   −$5.94
  rush charges and tips                   +$9.00   +$5.43
  set-up minutes                          −$6.00   −$3.24
  overhead                                +$6.00   +$3.62
  discounts and refunds                   −$4.50   −$2.71
  kept deposits                           +$4.50   +$2.71
  deliveries                              −$3.00   −$2.19
  hours and costs not tied to an order    +$3.00   +$1.62
  helper pay                              −$2.40   −$1.45
  card fees                               −$2.25   −$1.36
  packaging                               −$1.20   −$0.72
  ingredient prices                       −$0.56   −$0.34
  ingredient use                          −$0.16   −$0.10
─────────────────────────────────────────────────────────
April 2026                                 $0.07   $30.04

design                   pieces  pieces   total   pieces   prices     your  ingredients  the rest
                           then     now  change  and mix              time
─────────────────────────────────────────────────────────────────────────────────────────────────
acorn                        10      20  +$7.23   +$8.60  +$10.00  −$10.00       −$0.52    −$0.85
gate                          5       0  −$1.60  −$11.60    $0.00    $0.00        $0.00   +$10.00
fern                          0       4  −$0.26   +$3.44   +$8.00   −$7.00       −$0.20    −$4.50
─────────────────────────────────────────────────────────────────────────────────────────────────
all designs                  15      24  +$5.37   +$0.44  +$18.00  −$17.00       −$0.72    +$4.65
deliveries and the rest                  +$4.50    $0.00    $0.00    $0.00        $0.00    +$4.50
total                                    +$9.87   +$0.44  +$18.00  −$17.00       −$0.72    +$9.15

  A few orders say little: only 1 order in March 2026 and 1 order in April 2026.
  Each line changes one thing and keeps the rest as in March 2026; the lines add up exactly.
  Minutes are yours alone; a helper's work is under helper pay.
  Designs not sold in March 2026 are compared with their tier's average then, or the shop's where
    the tier sold none.
";
