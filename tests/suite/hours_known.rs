//! Which orders have known hours, and what is answered where some lack a usual stage (DESIGN §4, "Hours known").

use crate::harness::{Trial, figure, row};
use fairdozen::costing::{Costed, Options, cost};
use fairdozen::minutes::random::Random;
use fairdozen::quantity::Period;
use fairdozen::review::headline::Headline;
use fairdozen::shop::Shop;
use fairdozen::shop::folder::Folder;
use fairdozen::shop::load::Skipped;
use std::fmt::Write;

/// Orders A01, A02 … of ten owls at 4.00, handed over one a day.
fn orders(count: usize) -> String {
    let mut orders = "order,date,kind,design,quantity,price\n".to_owned();
    for order in 1..=count {
        writeln!(orders, "A{order:02},2026-05-{order:02},cookie,owl,10,4.00").unwrap();
    }
    orders
}

/// For each of them an entry of each stage, but for those left out.
fn hours(count: usize, stages: &[(&str, u32)], without: &[(usize, &str)]) -> String {
    let mut hours = "date,minutes,stage,order\n".to_owned();
    for order in 1..=count {
        for (stage, minutes) in stages.iter().filter(|(stage, _)| !without.contains(&(order, stage))) {
            writeln!(hours, "2026-05-{order:02},{minutes},{stage},A{order:02}").unwrap();
        }
    }
    hours
}

const STAGES: &[(&str, u32)] = &[("bake", 20), ("decorate", 100), ("pack", 5)];
const TARGET: &str = "currency = \"USD\"\n[wage]\ntarget = 20\n";

fn shop(orders: &str, hours: &str) -> Trial {
    Trial::new(&[("orders.csv", orders), ("hours.csv", hours), ("shop.toml", TARGET)])
}

/// Whether the hours of each order are known.
fn known(trial: &Trial) -> Vec<bool> {
    let table = trial.wage("order", &["--minutes", "equal"]);
    table["rows"].as_array().unwrap().iter().map(|row| figure(row, "hours_known") == "1.000000").collect()
}

fn costed(trial: &Trial) -> (Shop, Costed) {
    let shop = Folder::open(trial.path()).load(&Skipped::new()).shop.unwrap();
    let costed = cost(&shop, Options::default()).unwrap();
    (shop, costed)
}

#[test]
fn an_order_that_lacks_a_usual_stage_has_no_hourly_pay_and_is_named() {
    let trial = shop(&orders(13), &hours(13, STAGES, &[(3, "decorate"), (5, "pack")]));
    let expected: Vec<bool> = (1..=13).map(|order| order != 3).collect();
    assert_eq!(known(&trial), expected, "packing takes under a tenth of the time, so no order needs it");
    let table = trial.wage("order", &["--minutes", "equal"]);
    assert_eq!((&row(&table, "A03")["wage_per_hour"], &row(&table, "A03")["verdict"]), (&().into(), &().into()));
    // $40 for 125 minutes is $19.20 an hour; with the order that seems to take 25 minutes it would have been $20.54.
    assert_eq!(figure(row(&table, "A01"), "wage_per_hour"), "19.200000");
    let (shop, costed) = costed(&trial);
    let headline = Headline::of(&shop, &costed, Period::default()).unwrap();
    assert_eq!((headline.orders_known, headline.lacking.len()), (12, 1));
    // 12 × 125 − 5 minutes are known; the order lacking 100 has 25.
    let usual = headline.at_usual_time.unwrap();
    assert_eq!((headline.minutes.0, usual.minutes.0), (1_495_000_000, 1_620_000_000));
    let said = trial.run("review", &["--month", "2026-05"]).out;
    let flat = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains("the 12 orders with hours; one lacks its decorating (at its usual time it would be $19.26 an hour)"), "{said}");
    assert!(flat.contains("Log decorating for A03: without them its $40 has no hourly pay."), "{said}");
    let check = trial.run("check", &[]).out;
    assert!(check.contains("A03") && check.contains("decorating"), "{check}");
}

#[test]
fn a_stage_is_usual_from_twelve_orders_and_four_in_five_that_have_it() {
    let few = shop(&orders(11), &hours(11, STAGES, &[(3, "decorate")]));
    assert!(known(&few).iter().all(|known| *known), "of eleven orders none is told to be usual");
    // Twelve of fifteen orders are four in five; eleven are not.
    let without = |orders: std::ops::RangeInclusive<usize>| orders.map(|order| (order, "decorate")).collect::<Vec<_>>();
    let usual = shop(&orders(15), &hours(15, STAGES, &without(1..=3)));
    assert_eq!(known(&usual).iter().filter(|known| !**known).count(), 3);
    let unusual = shop(&orders(15), &hours(15, STAGES, &without(1..=4)));
    assert!(known(&unusual).iter().all(|known| *known));
}

#[test]
fn zero_minutes_say_that_none_were_needed() {
    let trial = shop(&orders(13), &(hours(13, STAGES, &[(3, "decorate")]) + "2026-05-03,0,decorate,A03\n"));
    assert!(known(&trial).iter().all(|known| *known));
}

#[test]
fn work_without_a_stage_covers_all_and_one_by_one_only_all_designs_do() {
    let left_out = hours(13, STAGES, &[(3, "decorate"), (4, "decorate"), (5, "decorate")]);
    let two_designs = orders(13) + "A04,2026-05-04,cookie,gate,5,4.00\nA05,2026-05-05,cookie,gate,5,4.00\n";
    let timed = "date,minutes,stage,order,design\n".to_owned()
        + &left_out.lines().skip(1).map(|line| format!("{line},\n")).collect::<Vec<_>>().concat()
        + "2026-05-03,90,,A03,\n2026-05-04,60,decorate,A04,owl\n2026-05-05,60,decorate,A05,owl\n2026-05-05,40,decorate,A05,gate\n";
    let expected: Vec<bool> = (1..=13).map(|order| order != 4).collect();
    assert_eq!(known(&shop(&two_designs, &timed)), expected, "of A04 only the owls were timed");
}

#[test]
fn an_entry_that_names_no_order_gives_its_stage_to_those_it_serves() {
    // A30 is handed over alone, nine days after the others: the entry of its day serves it.
    let apart = |text: String| text.replace("A13,2026-05-13", "A30,2026-05-28");
    let logged = hours(13, STAGES, &[(13, "decorate")]).replace("A13", "A30") + "2026-05-26,80,decorate,\n";
    assert!(known(&shop(&apart(orders(13)), &logged)).iter().all(|known| *known));
}

#[test]
fn where_entries_name_few_orders_all_hours_are_shared_and_known() {
    let by_day = "date,minutes,stage,order\n2026-05-01,900,decorate,\n2026-05-02,60,bake,A02\n";
    assert!(known(&shop(&orders(13), by_day)).iter().all(|known| *known));
    let half =
        hours(13, STAGES, &[]).lines().filter(|line| !("A08".."A14").contains(&&line[line.len() - 3..])).collect::<Vec<_>>().join("\n");
    assert_eq!(known(&shop(&orders(13), &half)), (1..=13).map(|order| order < 8).collect::<Vec<_>>());
}

#[test]
fn lacking_a_usual_delivery_leaves_only_the_delivery_unknown() {
    let delivered = (1..=13).map(|order| format!("A{order:02},2026-05-{order:02},delivery,,,9\n")).collect::<Vec<_>>().concat();
    let brought = (1..=12).map(|order| format!("2026-05-{order:02},30,deliver,A{order:02}\n")).collect::<Vec<_>>().concat();
    let trial = shop(&(orders(13) + &delivered), &(hours(13, STAGES, &[]) + &brought));
    let table = trial.wage("design", &["--minutes", "equal"]);
    let of = |key: &str| figure(row(&table, key), "hours_known").to_owned();
    // Twelve of thirteen delivery lines.
    assert_eq!((of("owl"), of("delivery")), ("1.000000".into(), "0.923077".into()));
    let (shop, costed) = costed(&trial);
    let headline = Headline::of(&shop, &costed, Period::default()).unwrap();
    assert_eq!((headline.orders_known, headline.lacking[0].is_delivery), (13, true));
    // Its usual time is what the other twelve took each.
    assert_eq!(headline.lacking[0].usual.owner_minutes.0, 30_000_000);
}

#[test]
fn an_order_without_hours_is_taken_at_the_time_of_the_others() {
    let all: Vec<(usize, &str)> = STAGES.iter().map(|(stage, _)| (3, *stage)).collect();
    let trial = shop(&orders(13), &hours(13, STAGES, &all));
    let (shop, costed) = costed(&trial);
    let headline = Headline::of(&shop, &costed, Period::default()).unwrap();
    assert_eq!(headline.at_usual_time.unwrap().minutes.0, 13 * 125_000_000);
    assert!(headline.lacking[0].stages.is_empty());
}

/// Three dozen orders of two or three of six designs; an order's decorating is 20 % off what its pieces take.
fn world(seed: u64, forgotten: bool) -> Trial {
    const MINUTES: [f64; 6] = [2.5, 3.5, 6.0, 8.0, 14.0, 18.0];
    let mut random = Random::new(seed, 12);
    let (mut orders, mut hours) = ("order,date,design,quantity,price\n".to_owned(), "date,minutes,stage,order\n".to_owned());
    for order in 0..36 {
        let day = format!("2026-{:02}-{:02}", 3 + order / 12, 1 + 2 * (order % 12));
        let mut expected = 0.0;
        for design in 0..6 {
            if random.below(5) < 2 || design == order % 6 {
                let pieces = 4 + random.below(15);
                let price = [2.50, 3.00, 4.25, 5.00, 7.50, 9.00][design];
                writeln!(orders, "W{order:02},{day},design {design},{pieces},{price:.2}").unwrap();
                expected += MINUTES[design] * f64::from(u32::try_from(pieces).unwrap());
            }
        }
        let took = expected * libm::exp(0.2 * random.normal());
        for (stage, minutes) in [("plan", 15.0), ("bake", 40.0), ("decorate", took), ("pack", 10.0)] {
            if !(forgotten && stage == "decorate" && order % 12 == usize::try_from(seed % 12).unwrap()) {
                writeln!(hours, "{day},{minutes:.0},{stage},W{order:02}").unwrap();
            }
        }
    }
    shop(&orders, &hours)
}

#[test]
fn forgotten_decorating_leaves_hourly_pay_near_that_of_complete_logs() {
    const WORLDS: u64 = 200;
    let headline = |trial: &Trial| {
        let (shop, costed) = costed(trial);
        Headline::of(&shop, &costed, Period::default()).unwrap()
    };
    // In millionths, rounded up.
    let off = |told: i128, truth: i128| ((told - truth).abs() * 1_000_000 + truth - 1) / truth;
    let (mut of_known, mut at_usual) = (0, 0);
    for seed in 0..WORLDS {
        let truth = headline(&world(seed, false)).wage.unwrap().0;
        let told = headline(&world(seed, true));
        assert_eq!((told.orders_known, told.lacking.len()), (33, 3));
        of_known += off(told.wage.unwrap().0, truth);
        at_usual += off(told.at_usual_time.unwrap().wage.unwrap().0, truth);
    }
    let (of_known, at_usual) = (of_known / i128::from(WORLDS), at_usual / i128::from(WORLDS));
    assert!(of_known < 30_000 && at_usual < 30_000, "{of_known} {at_usual}");
}
