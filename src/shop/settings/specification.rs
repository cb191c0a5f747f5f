//! The settings of `shop.toml`: key, type, default and meaning. The one place that says so.

use super::{COST_FLOWS, CostFlow, SHARED_BY, Settings, SharedBy};
use crate::quantity::millionths::Money;
use crate::quantity::{Day, Percent};
use crate::shop::size::Size;

/// One setting.
#[derive(Debug, Clone, Copy)]
pub struct Setting {
    /// Where it stands: `wage.target` is `target` under `[wage]`. A part in capitals is a name that the maker chooses.
    pub key: &'static str,
    /// What it holds, and the field that keeps it.
    pub(super) kind: Kind,
    /// Whether its section is useless without it.
    pub required: bool,
    /// What holds where it is not written; blank where nothing does.
    pub default: &'static str,
    /// What it means, to the maker.
    pub meaning: &'static str,
    /// A value as she might write it.
    pub example: &'static str,
}

impl Setting {
    /// The section it stands in, blank for none, and its key there.
    #[must_use]
    pub fn section_and_key(&self) -> (&'static str, &'static str) {
        self.key.rsplit_once('.').unwrap_or(("", self.key))
    }

    /// The words it may hold; none where it holds anything else.
    #[must_use]
    pub fn words(&self) -> Vec<&'static str> {
        match self.kind {
            Truth(_) => vec!["true", "false"],
            Kind::CostFlow(_) => COST_FLOWS.iter().map(|(word, _)| *word).collect(),
            Kind::SharedBy(_) => SHARED_BY.iter().map(|(word, _)| *word).collect(),
            _ => Vec::new(),
        }
    }
}

/// Keeps a value in its field; the maker's own names in its key come with it.
pub(super) type Keep<T> = fn(&mut Settings, &[String], T);

/// What a value may be.
#[derive(Debug, Clone, Copy)]
pub(super) enum Kind {
    /// An ISO 4217 code.
    Currency(Keep<String>),
    /// A percentage, at most 100.
    Percent(Keep<Percent>),
    /// Money, from 0 to a million.
    Money(Keep<Money>),
    /// A list of amounts below 1.
    Endings(Keep<Vec<Money>>),
    /// A list of names of rows, each of which begins with its table's.
    Rows(Keep<Vec<String>>),
    /// A whole number from 0 to 366.
    Whole(Keep<i32>),
    /// `true` or `false`.
    Truth(Keep<bool>),
    /// A cost flow.
    CostFlow(Keep<CostFlow>),
    /// What a stage is shared by.
    SharedBy(Keep<SharedBy>),
    /// A day.
    Day(Keep<Day>),
    /// Any text.
    Text(Keep<String>),
}

use Kind::{Currency, Endings, Rows, Text, Truth, Whole};

const fn setting(key: &'static str, kind: Kind, default: &'static str, meaning: &'static str, example: &'static str) -> Setting {
    Setting { key, kind, required: false, default, meaning, example }
}

const fn required(mut setting: Setting) -> Setting {
    setting.required = true;
    setting
}

/// Every setting, section by section.
pub const SETTINGS: &[Setting] = &[
    required(setting("currency", Currency(|shop, _, code| shop.currency = code), "", "the ISO 4217 code of your currency", "\"USD\"")),
    setting(
        "spares",
        Kind::Percent(|shop, _, spares| shop.spares = spares),
        "0 %",
        "baked beyond what is sold, against breakage",
        "\"10 %\"",
    ),
    setting(
        "cost_flow",
        Kind::CostFlow(|shop, _, flow| shop.cost_flow = flow),
        "latest",
        "which purchases set the price of an item used: latest, average or fifo",
        "\"average\"",
    ),
    setting("tips_count", Truth(|shop, _, truth| shop.tips_count = truth), "false", "true: tips are revenue", "true"),
    setting(
        "reclaim_purchase_tax",
        Truth(|shop, _, truth| shop.reclaim_purchase_tax = truth),
        "false",
        "true: you get tax on purchases back, so it is no cost",
        "true",
    ),
    setting("wage.target", Kind::Money(|shop, _, target| shop.target = Some(target)), "", "the hourly pay you aim at", "20.00"),
    setting("wage.floor", Kind::Money(|shop, _, floor| shop.floor = Some(floor)), "", "the least hourly pay of any design", "15.00"),
    setting(
        "fees.percent",
        Kind::Percent(|shop, _, percent| shop.fees.percent = percent),
        "0 %",
        "card fee on everything charged",
        "\"2.9 %\"",
    ),
    setting("fees.fixed", Kind::Money(|shop, _, fixed| shop.fees.fixed = fixed), "0.00", "fee for each card charge", "0.30"),
    setting(
        "fees.payments",
        Whole(|shop, _, payments| shop.fees.payments = payments.into()),
        "1",
        "card charges in an order that does not say",
        "2",
    ),
    setting(
        "fees.CHANNEL.percent",
        Kind::Percent(|shop, names, percent| shop.fees_of_channel(names).percent = Some(percent)),
        "",
        "the same for one channel; else as above",
        "\"1.5 %\"",
    ),
    setting(
        "fees.CHANNEL.fixed",
        Kind::Money(|shop, names, fixed| shop.fees_of_channel(names).fixed = Some(fixed)),
        "",
        "the same for one channel",
        "0.10",
    ),
    setting(
        "fees.CHANNEL.payments",
        Whole(|shop, names, payments| shop.fees_of_channel(names).payments = Some(payments.into())),
        "",
        "the same for one channel",
        "0",
    ),
    setting(
        "materials.mini",
        Kind::Money(|shop, _, cost| shop.materials[Size::Mini] = Some(cost)),
        "",
        "materials of a mini piece that has no recipe",
        "0.11",
    ),
    setting(
        "materials.regular",
        Kind::Money(|shop, _, cost| shop.materials[Size::Regular] = Some(cost)),
        "",
        "the same for a regular piece",
        "0.30",
    ),
    setting(
        "materials.large",
        Kind::Money(|shop, _, cost| shop.materials[Size::Large] = Some(cost)),
        "",
        "the same for a large piece",
        "0.38",
    ),
    setting(
        "helpers.NAME",
        Kind::Money(|shop, names, rate| {
            shop.helpers.insert(names.concat(), rate);
        }),
        "",
        "a helper's hourly rate",
        "16.00",
    ),
    setting("hours.reach", Whole(|shop, _, days| shop.reach = days), "7", "days ahead that an entry naming no order serves", "10"),
    setting(
        "stages.STAGE",
        Kind::SharedBy(|shop, names, by| {
            shop.stages.insert(names.concat(), by);
        }),
        "",
        "how a stage of work is shared",
        "\"orders\"",
    ),
    setting(
        "prices.endings",
        Endings(|shop, _, endings| shop.endings = endings),
        "0.00, 0.25, 0.50, 0.75",
        "what prices may end in",
        "[0.00, 0.50]",
    ),
    required(setting(
        "seasons.NAME.from",
        Kind::Day(|shop, names, day| shop.season(names).from = Some(day)),
        "",
        "the first day of a season",
        "2026-02-01",
    )),
    required(setting("seasons.NAME.to", Kind::Day(|shop, names, day| shop.season(names).to = Some(day)), "", "its last day", "2026-05-31")),
    setting(
        "sheets.SHEET",
        Text(|shop, names, table| {
            shop.sheets.insert(names.concat(), table);
        }),
        "",
        "the table that a sheet of another name holds; none if it holds no table",
        "\"orders\"",
    ),
    setting(
        "columns.TABLE.HEADING",
        Text(|shop, names, column| {
            shop.columns.entry(names[0].clone()).or_default().insert(names[1].clone(), column);
        }),
        "",
        "the column that a heading of your own stands for",
        "\"date\"",
    ),
    setting(
        "formats.TABLE.COLUMN",
        Text(|shop, names, format| {
            shop.formats.entry(names[0].clone()).or_default().insert(names[1].clone(), format);
        }),
        "",
        "how a column is written, where its cells leave that open; TABLE may be one of its files, \"orders-2025.csv\"",
        "\"month/day/year\"",
    ),
    setting(
        "words.WORD",
        Text(|shop, names, ours| {
            shop.words.insert(names.concat(), ours);
        }),
        "",
        "the stage, kind or status that a word of your own stands for",
        "\"decorate\"",
    ),
    setting(
        "payments.WORD",
        Whole(|shop, names, charges| {
            shop.payments.insert(names.concat(), charges.into());
        }),
        "",
        "card charges of an order paid so",
        "1",
    ),
    setting(
        "repeats.keep",
        Rows(|shop, _, names| shop.repeats = names),
        "",
        "rows that stand twice in one file and are meant to, each as check names them",
        "[\"hours 2026-09-01 (3 rows)\"]",
    ),
];

/// A section of the settings, or one of them: the rest of each key that leads on from here.
pub(super) struct Section(Vec<(&'static Setting, &'static str)>);

impl Section {
    /// The whole file.
    pub fn whole() -> Self {
        Self(SETTINGS.iter().map(|setting| (setting, setting.key)).collect())
    }

    /// The keys that may stand here, without those that the maker chooses.
    pub fn keys(&self) -> Vec<&'static str> {
        let mut keys: Vec<&str> = self.0.iter().map(|(_, rest)| first(rest)).filter(|key| !is_own(key)).collect();
        keys.dedup();
        keys
    }

    /// What a key leads to; a name of the maker's own only where no setting has it. `None` where nothing has.
    pub fn at(&self, key: &str) -> Option<Self> {
        let led_to = |wanted: &dyn Fn(&str) -> bool| {
            let led = self.0.iter().filter(|(_, rest)| wanted(first(rest)));
            Self(led.map(|(setting, rest)| (*setting, rest.split_once('.').map_or("", |(_, rest)| rest))).collect())
        };
        [led_to(&|known| known == key && !is_own(known)), led_to(&is_own)].into_iter().find(|section| !section.0.is_empty())
    }

    /// The setting, where the keys lead to one and not to a section.
    pub fn setting(&self) -> Option<&'static Setting> {
        self.0.first().filter(|(_, rest)| rest.is_empty()).map(|(setting, _)| *setting)
    }

    /// The settings without which this section is useless, with their keys in it.
    pub fn required(&self) -> impl Iterator<Item = (&'static str, &'static Setting)> {
        self.0.iter().filter(|(setting, rest)| setting.required && !rest.contains('.')).map(|(setting, rest)| (*rest, *setting))
    }
}

fn first(key: &'static str) -> &'static str {
    key.split('.').next().unwrap_or_default()
}

/// Whether a part of a key stands for a name that the maker chooses.
fn is_own(part: &str) -> bool {
    !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_uppercase())
}
