//! How long each room takes, on the demo shop and on an invented one of 20,000 orders. Compare ratios within one
//! run: machines are noisy. `cargo bench --locked`

use divan::Bencher;
use fairdozen::costing::{MinutesBy, Options, cost};
use fairdozen::pricing::next_list::{Wanted, next_list};
use fairdozen::pricing::season::next_start;
use fairdozen::quantity::Period;
use fairdozen::quantity::millionths::Money;
use fairdozen::review::{By, Question, Review, WageTable};
use fairdozen::shop::Shop;
use fairdozen::shop::load::{Folder, Skipped};
use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::Path;

fn main() {
    divan::main();
}

const DEMO: &str = "fixtures/ninebell-quay";
/// Orders of the invented shop.
const MANY: usize = 20_000;

/// A shop of three lines an order, written once into the temporary folder.
fn large() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let (mut orders, mut hours) = (String::from("order,date,design,quantity,price,colours\n"), String::from("date,minutes,stage,order\n"));
    let mut purchases = String::from("date,item,size,unit,paid\n");
    for order in 0..MANY {
        let date = format!("2025-{:02}-{:02}", order * 12 / MANY + 1, order % 28 + 1);
        for line in 0..3 {
            let design = (order * 7 + line * 5) % 40;
            let _ =
                writeln!(orders, "W{order:06},{date},design {design},{},{}.50,{}", 4 + (order + line) % 9, 3 + design % 9, 2 + order % 6);
        }
        let _ = writeln!(hours, "{date},{},decorate,W{order:06}\n{date},{},bake,W{order:06}", 90 + order % 70, 60 + order % 40);
    }
    for month in 1..=12 {
        let _ =
            writeln!(purchases, "2025-{month:02}-01,flour,50,kg,{}.00\n2025-{month:02}-02,bag,9000,each,{}.00", 60 + month, 200 + month);
    }
    let mut recipes = String::from("for,item,amount,unit\n");
    for design in 0..40 {
        let _ = writeln!(recipes, "design {design},flour,{},g\ndesign {design},bag,1,each", 12 + design % 30);
    }
    let settings = "currency = \"USD\"\n[wage]\ntarget = 20\n[fees]\npercent = \"2.9 %\"\nfixed = 0.30\n";
    let items = "item,class\nbag,packaging\n";
    for (name, text) in [
        ("orders.csv", orders.as_str()),
        ("hours.csv", &hours),
        ("purchases.csv", &purchases),
        ("recipes.csv", &recipes),
        ("items.csv", items),
        ("shop.toml", settings),
    ] {
        std::fs::write(folder.path().join(name), text).expect("the shop can be written");
    }
    folder
}

fn load(path: &Path) -> Shop {
    let loaded = Folder::open(path).load(&Skipped::new());
    loaded.shop.unwrap_or_else(|| panic!("the shop can be read: {:?}", loaded.problems))
}

#[divan::bench]
fn read_the_demo(bencher: Bencher) {
    bencher.bench(|| load(Path::new(DEMO)));
}

#[divan::bench]
fn cost_the_demo(bencher: Bencher) {
    let shop = load(Path::new(DEMO));
    bencher.bench(|| cost(&shop, Options::default()));
}

#[divan::bench]
fn review_the_demo(bencher: Bencher) {
    let shop = load(Path::new(DEMO));
    let costed = cost(&shop, Options::default()).expect("the demo can be costed");
    bencher.bench(|| Review::of(&shop, &costed, Period::default()));
}

/// All of `tiers` but the minutes' fit, on the demo: four tiers of sixteen designs.
#[divan::bench]
fn price_the_demo(bencher: Bencher) {
    let shop = load(Path::new(DEMO));
    let options = Options { minutes: MinutesBy::Learned { trend: false }, ..Options::default() };
    let costed = cost(&shop, options).expect("the demo can be costed");
    bencher.bench(|| next_list(&shop, &costed, options, &wanted(&shop, 4)).expect("the demo can be priced"));
}

/// The same for a shop of sixty designs and eight tiers.
#[divan::bench(sample_count = 20)]
fn price_sixty_designs(bencher: Bencher) {
    let folder = sixty();
    let shop = load(folder.path());
    let options = Options { minutes: MinutesBy::Learned { trend: false }, ..Options::default() };
    let costed = cost(&shop, options).expect("the shop can be costed");
    assert!(costed.learned.as_ref().is_some_and(Result::is_ok), "minutes are learned");
    bencher.bench(|| next_list(&shop, &costed, options, &wanted(&shop, 8)).expect("the shop can be priced"));
}

fn wanted(shop: &Shop, tiers: usize) -> Wanted {
    Wanted {
        target: Money(20_000_000),
        floor: Some(Money(12_000_000)),
        tiers: Some(tiers),
        keep: false,
        max_rise: None,
        unassigned: true,
        costs: BTreeMap::new(),
        season: Period::default(),
        starts: next_start(shop).unwrap(),
    }
}

/// Sixty designs in six tiers, in 240 orders of four lines.
fn sixty() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a temporary folder");
    let mut orders = String::from("order,date,design,quantity,price,colours\n");
    let (mut hours, mut designs) = (String::from("date,minutes,stage,order\n"), String::from("design,tier,minutes_each\n"));
    for design in 0..60 {
        let _ = writeln!(designs, "design {design},tier {},{}", design / 10, 2 + design / 3);
    }
    for order in 0..240 {
        let date = format!("2026-{:02}-{:02}", order * 12 / 240 + 1, order % 28 + 1);
        let mut minutes = 15;
        for line in 0..4 {
            let (design, pieces) = ((order * 7 + line * 13) % 60, 4 + (order + line) % 9);
            minutes += pieces * (2 + design / 3);
            let _ = writeln!(orders, "W{order:04},{date},design {design},{pieces},,{}", 2 + order % 6);
        }
        let _ =
            writeln!(hours, "{date},{},decorate,W{order:04}\n{date},{},bake,W{order:04}", minutes * (9 + order % 3) / 10, 60 + order % 40);
    }
    let mut tiers = String::from("tier,price\n");
    for tier in 0..6 {
        let _ = writeln!(tiers, "tier {tier},{}.25", 3 + 2 * tier);
    }
    for (name, text) in [
        ("orders.csv", orders.as_str()),
        ("hours.csv", &hours),
        ("designs.csv", &designs),
        ("tiers.csv", &tiers),
        ("shop.toml", "currency = \"USD\"\n[wage]\ntarget = 20\n[fees]\npercent = \"2.9 %\"\nfixed = 0.30\n"),
    ] {
        std::fs::write(folder.path().join(name), text).expect("the shop can be written");
    }
    folder
}

#[divan::bench(sample_count = 10)]
fn read_many_orders(bencher: Bencher) {
    let folder = large();
    bencher.bench(|| load(folder.path()));
}

#[divan::bench(sample_count = 10)]
fn cost_many_orders(bencher: Bencher) {
    let folder = large();
    let shop = load(folder.path());
    bencher.bench(|| cost(&shop, Options::default()));
}

#[divan::bench(sample_count = 10)]
fn wage_of_many_orders(bencher: Bencher) {
    let folder = large();
    let shop = load(folder.path());
    let costed = cost(&shop, Options::default()).expect("the shop can be costed");
    bencher.bench(|| WageTable::of(&shop, &costed, Question { by: By::Design, period: Period::default() }));
}
