//! What a random shop's `shop.toml` says, and its text.

use super::dice::Dice;
use std::collections::BTreeMap;

/// Fees of a channel, or of any order: what is not written is `None`.
#[derive(Debug, Default, Clone, Copy)]
pub struct Fees {
    /// Per cent of what was charged.
    pub percent: Option<&'static str>,
    /// For each card charge.
    pub fixed: Option<&'static str>,
    /// Card charges of an order that does not say.
    pub payments: Option<i64>,
}

/// The settings, as text where they are numbers.
#[derive(Debug, Default)]
pub struct Options {
    pub spares: Option<&'static str>,
    pub cost_flow: Option<&'static str>,
    pub tips_count: bool,
    pub reclaim_purchase_tax: bool,
    pub target: Option<String>,
    pub floor: Option<String>,
    pub fees: Fees,
    pub channel_fees: BTreeMap<&'static str, Fees>,
    pub materials: BTreeMap<&'static str, &'static str>,
    pub helpers: BTreeMap<&'static str, String>,
    pub reach: Option<i64>,
    pub own_stages: BTreeMap<&'static str, &'static str>,
    pub order_headings: Vec<(&'static str, &'static str)>,
}

/// The stages every shop has (DESIGN §3).
const STAGES: [(&str, &str); 13] = [
    ("plan", "orders"),
    ("shopping", "weight"),
    ("mix", "weight"),
    ("roll", "pieces"),
    ("bake", "pieces"),
    ("icing", "weight"),
    ("tint", "colours"),
    ("decorate", "minutes"),
    ("dry", "unattended"),
    ("pack", "pieces"),
    ("deliver", "delivery"),
    ("clean", "pieces"),
    ("admin", "orders"),
];

impl Options {
    pub fn roll(dice: &mut Dice, channels: &[&'static str], helpers: &[&'static str]) -> Self {
        let mut options = Self { tips_count: dice.chance(40), reclaim_purchase_tax: dice.chance(30), ..Self::default() };
        options.spares = dice.one(&[None, Some("0"), Some("10"), Some("12.5"), Some("7")]);
        options.cost_flow = dice.one(&[None, Some("latest"), Some("average"), Some("fifo")]);
        if dice.chance(85) {
            options.target = Some(dice.cents(1200, 2600));
            options.floor = dice.chance(60).then(|| dice.cents(700, 1200));
        }
        if dice.chance(80) {
            options.fees = Fees {
                percent: Some(dice.one(&["2.9", "2.6", "3.25", "0"])),
                fixed: dice.chance(80).then(|| dice.one(&["0.30", "0.10", "0.00"])),
                payments: dice.chance(50).then(|| dice.whole(0, 2)),
            };
        }
        for &channel in channels {
            let own = Fees {
                percent: dice.chance(70).then(|| dice.one(&["5", "6.5", "1.75"])),
                fixed: dice.chance(60).then(|| dice.one(&["0.20", "0.45", "0.05"])),
                payments: dice.chance(40).then(|| dice.whole(0, 2)),
            };
            if dice.chance(60) {
                options.channel_fees.insert(channel, own);
            }
        }
        for (size, price) in [("mini", "0.11"), ("regular", "0.30"), ("large", "0.387")] {
            if dice.chance(75) {
                options.materials.insert(size, price);
            }
        }
        options.helpers = helpers.iter().map(|who| (*who, dice.cents(901, 1799))).collect();
        options.reach = dice.one(&[None, Some(0), Some(3), Some(10)]);
        for (stage, chance, shared_by) in [
            ("paint", 40, ["minutes", "pieces"]),
            ("photos", 30, ["colours", "orders"]),
            ("porch", 20, ["delivery", "weight"]),
            ("clean", 30, ["orders", "colours"]),
            ("cool", 20, ["unattended", "unattended"]),
        ] {
            if dice.chance(chance) {
                options.own_stages.insert(stage, dice.one(&shared_by));
            }
        }
        if dice.chance(25) {
            options.order_headings = vec![("date", "Pick-up day"), ("quantity", "How many")];
        }
        options
    }

    /// Every stage of the shop.
    pub fn stages(&self) -> Vec<&'static str> {
        STAGES.iter().map(|(stage, _)| *stage).chain(self.own_stages.keys().copied()).collect()
    }

    /// How a stage's minutes are shared; an entry without a stage is shared by minutes.
    pub fn shared_by(&self, stage: &str) -> &'static str {
        let known = STAGES.iter().find(|(name, _)| *name == stage).map(|(_, shared_by)| *shared_by);
        self.own_stages.get(stage).copied().or(known).unwrap_or("minutes")
    }

    /// The text of `shop.toml`.
    pub fn toml(&self) -> String {
        let mut text = vec!["currency = \"USD\"".to_owned()];
        text.extend(self.spares.map(|spares| format!("spares = \"{spares} %\"")));
        text.extend(self.cost_flow.map(|flow| format!("cost_flow = \"{flow}\"")));
        text.push(format!("tips_count = {}", self.tips_count));
        text.push(format!("reclaim_purchase_tax = {}", self.reclaim_purchase_tax));
        text.push("[wage]".to_owned());
        text.extend(self.target.as_ref().map(|target| format!("target = {target}")));
        text.extend(self.floor.as_ref().map(|floor| format!("floor = {floor}")));
        let mut fees = |heading: String, fees: &Fees| {
            text.push(heading);
            text.extend(fees.percent.map(|percent| format!("percent = \"{percent} %\"")));
            text.extend(fees.fixed.map(|fixed| format!("fixed = {fixed}")));
            text.extend(fees.payments.map(|payments| format!("payments = {payments}")));
        };
        fees("[fees]".to_owned(), &self.fees);
        for (channel, own) in &self.channel_fees {
            fees(format!("[fees.\"{channel}\"]"), own);
        }
        text.push("[materials]".to_owned());
        text.extend(self.materials.iter().map(|(size, price)| format!("{size} = {price}")));
        text.push("[helpers]".to_owned());
        text.extend(self.helpers.iter().map(|(who, rate)| format!("{who} = {rate}")));
        text.push("[hours]".to_owned());
        text.extend(self.reach.map(|reach| format!("reach = {reach}")));
        text.push("[stages]".to_owned());
        text.extend(self.own_stages.iter().map(|(stage, shared_by)| format!("{stage} = \"{shared_by}\"")));
        text.push("[columns.orders]".to_owned());
        text.extend(self.order_headings.iter().map(|(ours, hers)| format!("\"{hers}\" = \"{ours}\"")));
        text.join("\n") + "\n"
    }
}
