//! How long whole commands take on shops that are hard to learn from: minutes that fit the pieces exactly, and hundreds of
//! designs. Compare ratios within one run: machines are noisy. `cargo bench --locked --bench learning`

use divan::Bencher;
use fairdozen::minutes::model::count;
use fairdozen::minutes::random::Random;
use std::fmt::{self, Write};

fn main() {
    divan::main();
}

/// A shop that is hard to learn from.
#[derive(Debug, Clone, Copy)]
enum Hard {
    /// A hundred orders of six pieces, each logged as 50 minutes.
    ConstantMinutes,
    /// Seven minutes a piece over 200 orders of twelve designs.
    RuleOfThumb,
    /// Four new designs in each order, without a card.
    NewDesigns(usize),
    /// Designs at random in orders, so that nearly all are coupled.
    Mixed(usize, usize),
}

impl fmt::Display for Hard {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::ConstantMinutes => write!(out, "constant minutes"),
            Self::RuleOfThumb => write!(out, "rule of thumb"),
            Self::NewDesigns(designs) => write!(out, "{designs} new designs"),
            Self::Mixed(designs, orders) => write!(out, "{designs} designs mixed in {orders} orders"),
        }
    }
}

const SHOPS: [Hard; 7] = [
    Hard::ConstantMinutes,
    Hard::RuleOfThumb,
    Hard::NewDesigns(80),
    Hard::NewDesigns(140),
    Hard::NewDesigns(600),
    Hard::NewDesigns(5000),
    Hard::Mixed(600, 2000),
];

impl Hard {
    /// The designs of each order with their pieces.
    fn orders(self, random: &mut Random) -> Vec<Vec<(usize, usize)>> {
        let pieces = |random: &mut Random| 3 + random.below(10);
        let at_random = |designs: usize, random: &mut Random| {
            let mut order: Vec<(usize, usize)> = (0..3).map(|_| (random.below(designs), pieces(random))).collect();
            order.sort_unstable();
            order.dedup_by_key(|(design, _)| *design);
            order
        };
        match self {
            Self::ConstantMinutes => vec![vec![(0, 6)]; 100],
            Self::RuleOfThumb => (0..200).map(|_| at_random(12, random)).collect(),
            Self::NewDesigns(designs) => {
                (0..designs / 4).map(|order| (0..4).map(|at| (4 * order + at, pieces(random))).collect()).collect()
            }
            Self::Mixed(designs, orders) => (0..orders).map(|_| at_random(designs, random)).collect(),
        }
    }

    /// Minutes logged for an order.
    fn minutes(self, order: &[(usize, usize)], random: &mut Random) -> f64 {
        let pieces = count(order.iter().map(|(_, pieces)| pieces).sum());
        match self {
            Self::ConstantMinutes => 50.0,
            Self::RuleOfThumb => 7.0 * pieces,
            Self::NewDesigns(_) | Self::Mixed(..) => {
                let expected = 50.0 + order.iter().map(|(design, pieces)| [3.0, 7.0, 16.0][design % 3] * count(*pieces)).sum::<f64>();
                (expected * libm::exp(0.2 * random.normal()) / 5.0).round() * 5.0
            }
        }
    }

    /// The shop as a folder.
    fn written(self) -> tempfile::TempDir {
        let mut random = Random::new(61, 0);
        let folder = tempfile::tempdir().expect("a temporary folder");
        let (mut orders, mut hours) =
            (String::from("order,date,design,quantity,price,colours\n"), String::from("date,minutes,stage,order\n"));
        for (number, order) in self.orders(&mut random).iter().enumerate() {
            let day = format!("2026-{:02}-{:02}", 1 + number % 12, 1 + number % 28);
            for (design, pieces) in order {
                let _ = writeln!(orders, "K{number},{day},design {design},{pieces},4.50,{}", 3 + number % 5);
            }
            let _ = writeln!(hours, "{day},{},decorate,K{number}\n{day},60,bake,K{number}", self.minutes(order, &mut random));
        }
        let settings = "currency = \"USD\"\nspares = 5\n[wage]\ntarget = 20\n[fees]\npercent = 2\n[materials]\nregular = 0.3\n";
        for (name, text) in [("orders.csv", orders.as_str()), ("hours.csv", &hours), ("shop.toml", settings)] {
            std::fs::write(folder.path().join(name), text).expect("the shop can be written");
        }
        folder
    }
}

fn run(bencher: Bencher, shop: Hard, command: &str) {
    let folder = shop.written();
    bencher.bench(|| {
        let outcome = fairdozen::cli::run(["fairdozen", command, folder.path().to_str().expect("a plain path")]);
        assert_eq!(outcome.code, 0, "{}", outcome.err);
    });
}

#[divan::bench(args = SHOPS, sample_count = 3, sample_size = 1)]
fn check(bencher: Bencher, shop: Hard) {
    run(bencher, shop, "check");
}

#[divan::bench(args = SHOPS, sample_count = 3, sample_size = 1)]
fn minutes(bencher: Bencher, shop: Hard) {
    run(bencher, shop, "minutes");
}

#[divan::bench(args = SHOPS, sample_count = 3, sample_size = 1)]
fn wage(bencher: Bencher, shop: Hard) {
    run(bencher, shop, "wage");
}
