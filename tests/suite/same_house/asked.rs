//! The shops, and what each is asked.

use super::changed::Minutes;
use crate::harness::{Trial, repository};
use crate::random_shop::{RandomShop, cell};
use std::path::{Path, PathBuf};

/// Random shops: the seeds from 1 to this.
const SHOPS: u64 = 40;
/// Those of them whose minutes are learned.
const LEARNED: [u64; 3] = [1, 3, 6];
/// Reviews draw charts, which takes longest: random shops up to this seed have one.
const REVIEWED: u64 = 2;

/// Where a shop comes from.
pub enum From {
    /// A folder of the repository.
    Folder(PathBuf),
    Seed(u64),
}

/// A shop by its name.
pub struct Shop {
    pub name: String,
    pub from: From,
}

/// All the shops, in the order of the file of digests.
pub fn shops() -> Vec<Shop> {
    let kept =
        ["ninebell-quay", "tiny-shop", "awkward-names"].map(|name| (name.to_owned(), From::Folder(repository("fixtures").join(name))));
    let mut broken: Vec<PathBuf> = std::fs::read_dir(repository("fixtures/broken")).unwrap().map(|entry| entry.unwrap().path()).collect();
    broken.sort();
    let broken = broken.into_iter().map(|path| (format!("broken/{}", path.file_name().unwrap().to_str().unwrap()), From::Folder(path)));
    let random = (1..=SHOPS).map(|seed| (format!("random {seed}"), From::Seed(seed)));
    kept.into_iter().chain(broken).chain(random).map(|(name, from)| Shop { name, from }).collect()
}

/// A shop's folder, with what it is asked.
pub struct Asked {
    pub folder: Folder,
    pub questions: Vec<Question>,
}

/// A folder that is kept, or that goes with the trial.
pub enum Folder {
    Kept(PathBuf),
    Written(Trial),
}

impl Folder {
    pub fn path(&self) -> &Path {
        match self {
            Self::Kept(path) => path,
            Self::Written(trial) => trial.path(),
        }
    }
}

/// A command with its options.
pub struct Question {
    pub command: &'static str,
    pub options: Vec<String>,
    pub minutes: Minutes,
}

impl Question {
    /// As typed, but for the shop.
    pub fn line(&self) -> String {
        let quoted = |option: &String| if option.contains(' ') { format!("\"{option}\"") } else { option.clone() };
        std::iter::once(self.command.to_owned()).chain(self.options.iter().map(quoted)).collect::<Vec<_>>().join(" ")
    }
}

/// Names of a shop that questions speak of.
struct Names {
    designs: [String; 2],
    tier: String,
    item: String,
    month: String,
}

impl Shop {
    pub fn asked(&self) -> Asked {
        match &self.from {
            From::Folder(path) => Asked { folder: Folder::Kept(path.clone()), questions: self.of_fixture() },
            From::Seed(seed) => {
                let shop = RandomShop::of(*seed);
                let questions = questions(&Names::of(&shop), LEARNED.contains(seed), *seed <= REVIEWED);
                Asked { folder: Folder::Written(shop.trial()), questions }
            }
        }
    }

    fn of_fixture(&self) -> Vec<Question> {
        let names = |designs: [&str; 2], tier: &str, item: &str, month: &str| Names {
            designs: designs.map(str::to_owned),
            tier: tier.to_owned(),
            item: item.to_owned(),
            month: month.to_owned(),
        };
        match self.name.as_str() {
            "ninebell-quay" => questions(&names(["night moth", "periwinkle shell"], "character", "butter", "2026-10"), true, true),
            "tiny-shop" => questions(&names(["acorn", "gate"], "small", "flour", "2026-03"), false, true),
            "awkward-names" => {
                let [star, small, flour] = ["star", "small", "flour"].map(|name| format!("<script>alert(1)</script> {name}"));
                questions(&names([&star, "\"><img src=x onerror=alert(2)> & 'moon'"], &small, &flour, "2026-08"), false, true)
            }
            _ => broken(),
        }
    }
}

impl Names {
    /// The first in each of a random shop's tables, and the month in the middle of its orders; a word it does not know where it has none.
    fn of(shop: &RandomShop) -> Self {
        let all = |table: &str, column: &str| {
            let mut all: Vec<String> =
                shop.rows(table).iter().map(|row| cell(row, column).to_owned()).filter(|name| !name.is_empty()).collect();
            all.sort();
            all.dedup();
            all
        };
        let first = |names: &[String], at: usize| names.get(at).or(names.first()).map_or_else(|| "nothing".to_owned(), String::clone);
        let designs = all("orders", "design");
        let days = all("orders", "date");
        Self {
            designs: [first(&designs, 0), first(&designs, 1)],
            tier: first(&all("tiers", "tier"), 0),
            item: first(&all("purchases", "item"), 0),
            month: days[days.len() / 2][..7].to_owned(),
        }
    }
}

/// Collects questions; options are one text, in which a name stands between bars.
#[derive(Default)]
struct Asking(Vec<Question>);

impl Asking {
    fn ask(&mut self, command: &'static str, minutes: Minutes, options: &str) {
        let words = |(at, part): (usize, &str)| match at % 2 {
            0 => part.split_whitespace().map(str::to_owned).collect(),
            _ => vec![part.to_owned()],
        };
        let by_card = minutes == Minutes::Any && !matches!(command, "check" | "minutes") && !options.contains("--minutes");
        let by: &[&str] = if by_card { &["--minutes", "card"] } else { &[] };
        let options = options.split('|').enumerate().flat_map(words).chain(by.iter().map(|word| (*word).to_owned())).collect();
        self.0.push(Question { command, options, minutes });
    }
}

/// What a shop with errors is asked.
fn broken() -> Vec<Question> {
    let mut asking = Asking::default();
    asking.ask("check", Minutes::Any, "--json");
    asking.ask("wage", Minutes::Any, "--json");
    for (command, options) in
        [("wage", "--by order --json"), ("export", ""), ("tiers", "--json --target 20"), ("minutes", "--by stage --csv")]
    {
        asking.ask(command, Minutes::Any, &format!("{options} --skip-bad-rows"));
    }
    asking.0
}

/// What a shop is asked: by its card, and by learned minutes where these are asked for too.
fn questions(names: &Names, learned: bool, reviewed: bool) -> Vec<Question> {
    let Names { designs: [one, other], tier, item, month } = names;
    let mut asking = Asking::default();
    let mut ask = |command, options: &str| asking.ask(command, Minutes::Any, options);
    ask("check", "--json");
    ask("check", "--json --cost-flow fifo");
    for by in ["design", "tier", "order", "month", "theme", "channel", "order-size", "colours"] {
        ask("wage", &format!("--by {by} --json"));
    }
    ask("wage", "--by design --csv");
    ask("wage", &format!("--by tier --csv --month {month} --cost-flow latest"));
    ask("wage", &format!("--by order --json --to {month}-15 --cost-flow average"));
    ask("wage", "--by design --json --minutes equal --cost-flow fifo");
    ask("wage", "--by order --csv --hide-orders");
    ask("minutes", "--by stage --json");
    ask("minutes", &format!("--by stage --csv --from {month}-05"));
    ask("export", "--cost-flow fifo");
    ask("export", &format!("--month {month}"));
    ask("tiers", "--json --target 20");
    ask("tiers", &format!("--csv --tiers 2 --target 18 --if |{item} +20%|"));
    ask("tiers", "--json --max-rise 15% --without-unassigned");
    ask("whatif", "--by design --json --minimum 24");
    ask("whatif", &format!("--by order --csv --if |{item} x2|"));
    ask("whatif", &format!("--json --prices prices.csv --fewer |{one} 20%| --fewer |orders 10%|"));
    ask("whatif", &format!("--by design --csv --target 21 --fewer |{tier} 20%|"));
    ask("quote", &format!("|12 {one}, 6 {other}| --json"));
    ask("quote", &format!("|1 dozen {tier}| --json --rush=20% --colours 5 --target 22"));
    if reviewed {
        ask("review", &format!("--month {month}"));
    }
    if learned {
        for (command, options) in [
            ("wage", "--by design --json"),
            ("wage", "--by order --csv"),
            ("minutes", "--json"),
            ("minutes", "--csv --trend"),
            ("export", ""),
            ("tiers", "--json --target 20"),
            ("whatif", "--by tier --json --minimum 24"),
        ] {
            asking.ask(command, Minutes::Learned, options);
        }
        asking.ask("quote", Minutes::Learned, &format!("|12 {one}| --json"));
        if reviewed {
            asking.ask("review", Minutes::Learned, &format!("--month {month}"));
        }
    }
    asking.0
}

/// A price list to try, of the tier a question speaks of.
pub fn prices(questions: &[Question]) -> Option<String> {
    let of_tier = questions.iter().flat_map(|question| &question.options).find_map(|option| option.strip_prefix("1 dozen "))?;
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(["tier", "price"]).unwrap();
    writer.write_record([of_tier, "4.25"]).unwrap();
    Some(String::from_utf8(writer.into_inner().unwrap()).unwrap())
}
