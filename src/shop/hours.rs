//! Hours: stretches of work, with the orders and designs they name.

use super::clock::{Clock, timed};
use super::designs::Designs;
use super::everyday_forms::STAGE_FORMS;
use super::kinds::{
    DESIGN_OF_SEVERAL, LATER_ORDER, LONG_TIMER, NOT_IN_ORDER, OTHER_NAME_IN_ORDER, UNKNOWN_DESIGN, UNKNOWN_HELPER, UNKNOWN_ORDER,
    UNKNOWN_STAGE, UNSOLD_DESIGN,
};
use super::order_links::{Linked, Linker, NoLink, note_orders};
use super::orders::{Kind, Orders};
use super::settings::{Settings, SharedBy};
use crate::ids::{Design, Helper, Id, IdVec, Names, Order, Stage, Text};
use crate::quantity::millionths::Money;
use crate::quantity::{Day, ratio};
use crate::reading::format::Style;
use crate::reading::format::date::DateStyle;
use crate::reading::format::word::{Forms, Vocabulary, key};
use crate::reading::nearest::bare;
use crate::reading::problem_kind::AMBIGUOUS_FORMAT;
use crate::reading::{Place, Problem, ProblemKind, Table};
use std::collections::HashSet;

/// One stretch of work.
#[derive(Debug, Clone)]
pub struct Entry {
    /// The day it began.
    pub day: Day,
    /// Millionths of a minute.
    pub minutes: i64,
    /// The kind of work.
    pub stage: Option<Id<Stage>>,
    /// The orders it names, by its place in [`Hours::links`].
    pub link: Option<usize>,
    /// The design it names.
    pub design: Option<Id<Design>>,
    /// How many of the design it made, where it says.
    pub pieces: Option<i64>,
    /// The helper, or the owner.
    pub who: Option<Id<Helper>>,
    /// When it was, where both start and end are written.
    pub clock: Option<Clock>,
    /// Where it stands.
    pub place: Place,
}

/// The hours log.
#[derive(Debug, Clone, Default)]
pub struct Hours {
    /// Its rows.
    pub entries: Vec<Entry>,
    /// Stages, sorted.
    pub stages: Names<Stage>,
    shared_by: IdVec<Stage, SharedBy>,
    /// Helpers, sorted.
    pub helpers: Names<Helper>,
    /// The sets of orders that entries name, each sorted and without doubles.
    pub links: Vec<Vec<Id<Order>>>,
}

/// Minutes past which a timer was probably left on. Common practice, no source.
const LONG: i64 = 12 * 60 * 1_000_000;

impl Hours {
    /// Reads the `hours` log; an entry without a date or minutes is left out, with a problem.
    pub fn read(table: &mut Table, settings: &Settings, orders: &Orders, designs: &Designs, problems: &mut Vec<Problem>) -> Self {
        let days = table.days("date");
        let timed = timed(table, problems);
        let stages = Names::sorted(settings.stages.keys().map(String::as_str));
        let helpers = Names::sorted(settings.helpers.keys().map(String::as_str));
        let stage = known(table, "stage", &stages, &STAGE, settings, problems);
        let who = known(table, "who", &helpers, &WHO, settings, problems);
        let (design_texts, design_names) = table.text("design");
        let pieces = table.wholes("pieces");
        let (order_texts, order_names) = table.text("order");
        let dates = table.format_of("order").and_then(DateStyle::named);
        let mut linker = Linker::new(orders, &order_names, dates);
        let linked: IdVec<Text, Result<Linked, NoLink>> = order_names.iter().map(|text| linker.link(text)).collect();
        let (links, renumbered) = linker.sorted();
        note_orders(table, &order_texts, &order_names, &linked);
        let sold = design_texts.iter().any(Option::is_some).then(|| pairs_sold(orders));
        let mut entries = Vec::with_capacity(table.rows());
        let mut has_asked = false;
        for row in 0..table.rows() {
            let link = match order_texts[row].map(|text| (&linked[text], order_names.text(text))) {
                None | Some((Err(NoLink::Undated), _)) => None,
                Some((Ok(linked), _)) => Some(renumbered[linked.number]),
                Some((Err(NoLink::Later), text)) => {
                    problems.extend(timed[row].map(|(minutes, _)| later_order(table, row, text, minutes, settings)));
                    continue;
                }
                Some((Err(NoLink::OneOfSeveral(date, days)), _)) => {
                    if !std::mem::replace(&mut has_asked, true) {
                        problems.push(which_date(table, row, date, days));
                    }
                    None
                }
                Some((Err(NoLink::Unknown(what, advice)), text)) => {
                    let problem = table.problem(&UNKNOWN_ORDER, row, "order", *what).found_order(text);
                    problems.push(problem.instead(advice.clone()));
                    None
                }
            };
            let design_text = design_texts[row].map(|text| design_names.text(text));
            let design = design_text.and_then(|text| {
                let design = designs.find(text);
                if design.is_none() {
                    let (kind, card) = if designs.on_card { (&UNKNOWN_DESIGN, "designs.csv") } else { (&UNSOLD_DESIGN, "orders.csv") };
                    let problem = table.problem(kind, row, "design", format!("is not in {card}")).found(text);
                    problems.push(match designs.nearest(text) {
                        Some(near) => problem.did_you_mean(near),
                        None => problem.instead(format!("spell it as {card} does, or leave it blank")),
                    });
                }
                design
            });
            if let (Some(design), Some(link), Some(sold)) = (design, link, &sold) {
                check_design_of_order(table, (row, design_text.unwrap_or_default()), design, designs, &links[link], sold, problems);
            }
            let (Some(day), Some((minutes, clock))) = (days[row], timed[row]) else { continue };
            if minutes > LONG {
                problems.push(long_timer(table, row, minutes, settings));
            }
            entries.push(Entry {
                day,
                minutes,
                stage: stage[row],
                link,
                design,
                pieces: pieces[row],
                who: who[row],
                clock,
                place: table.places[row],
            });
        }
        Self { entries, stages, shared_by: settings.stages.values().copied().collect(), helpers, links }
    }

    /// How minutes of a stage are shared; work without a stage is shared as decorating is.
    #[must_use]
    pub fn shared_by(&self, stage: Option<Id<Stage>>) -> SharedBy {
        stage.map_or(SharedBy::Minutes, |stage| self.shared_by[stage])
    }

    /// Whether an entry is of an unattended stage, such as drying.
    #[must_use]
    pub fn is_unattended(&self, entry: &Entry) -> bool {
        self.shared_by(entry.stage) == SharedBy::Unattended
    }

    /// The entries that are work.
    pub fn worked(&self) -> impl Iterator<Item = &Entry> {
        self.entries.iter().filter(|entry| !self.is_unattended(entry))
    }
}

/// The warning of a timer that was probably left on; its time at the target wage is at stake.
fn long_timer(table: &Table, row: usize, minutes: i64, settings: &Settings) -> Problem {
    let whole = minutes / 1_000_000;
    let what = match (whole / 60, whole % 60) {
        (hours, 0) => format!("the timer ran for {hours} h"),
        (hours, minutes) => format!("the timer ran for {hours} h {minutes} min"),
    };
    let problem = table.problem(&LONG_TIMER, row, "minutes", what).instead("if it was left on, write the minutes you worked");
    worth(minutes, settings).map_or(problem.clone(), |worth| problem.at_stake(worth))
}

/// What minutes, in millionths, are worth at the target; `None` without one.
pub fn worth(minutes: i64, settings: &Settings) -> Option<Money> {
    settings.target.and_then(|target| ratio::multiply_divide(target.0, minutes.into(), 60 * 1_000_000).ok()).map(Money)
}

/// The warning of work on an order that the orders do not have yet: it waits for them, in no answer. Its time at the target is at stake.
fn later_order(table: &Table, row: usize, id: &str, minutes: i64, settings: &Settings) -> Problem {
    let what = "comes after all orders of orders.csv, so its minutes wait for it and are in no answer";
    let problem = table.problem(&LATER_ORDER, row, "order", what).found_order(id);
    let problem = problem.instead("add the order when it is handed over, or spell it as orders.csv does");
    worth(minutes, settings).map_or(problem.clone(), |worth| problem.at_stake(worth))
}

/// Asks how the hand-over dates are written that stand in place of orders.
fn which_date(table: &Table, row: usize, date: &str, days: &[(DateStyle, Day)]) -> Problem {
    let said: Vec<String> = days.iter().map(|(style, day)| format!("{day} as {}", style.name())).collect();
    let lines: Vec<String> = days.iter().map(|(style, _)| format!("order = \"{}\"", style.name())).collect();
    let row = table.places[row].row;
    let what = format!("in row {row} is {}, and neither the column nor your orders tell which", said.join(" or "));
    let problem = Problem::of_file(&AMBIGUOUS_FORMAT, &table.file, what).column("order").found(date);
    problem.instead(format!("write {} under [formats.hours] in shop.toml", lines.join(" or ")))
}

/// How to report a name that is not in a closed list.
struct Unlisted {
    kind: &'static ProblemKind,
    what: &'static str,
    forms: Forms,
    /// What to do about one that is none of them, given it as a key of `shop.toml`.
    otherwise: fn(&str) -> String,
}

const STAGE: Unlisted = Unlisted {
    kind: &UNKNOWN_STAGE,
    what: "is not a stage",
    forms: STAGE_FORMS,
    otherwise: |key| format!("or, if it is work of its own, say under [stages] how to share it, for example {key} = \"pieces\""),
};
const WHO: Unlisted = Unlisted {
    kind: &UNKNOWN_HELPER,
    what: "is not a helper",
    forms: Forms::NONE,
    otherwise: |_| "or leave it blank for yourself, or add the helper's hourly rate under [helpers] in shop.toml".to_owned(),
};

/// Gives the everyday words of an hours log's stages and helpers, and the shop's own, the spelling that the settings have.
pub(crate) fn respell(table: &mut Table, settings: &Settings) {
    let (stages, helpers) = (settings.stages.keys(), settings.helpers.keys());
    let words: [(&str, Vec<&str>, Forms); 2] =
        [("stage", stages.map(String::as_str).collect(), STAGE.forms), ("who", helpers.map(String::as_str).collect(), WHO.forms)];
    for (column, words, forms) in words {
        let vocabulary = Vocabulary { words: &words, forms, own: &settings.words };
        table.respell(column, |text| vocabulary.find(text).map(|found| words[found.at]));
    }
}

/// Reads a column of names from a closed list; a name outside it is a problem.
fn known<T>(
    table: &mut Table,
    column: &str,
    list: &Names<T>,
    unlisted: &Unlisted,
    settings: &Settings,
    problems: &mut Vec<Problem>,
) -> Vec<Option<Id<T>>> {
    let (texts, names) = table.text(column);
    let words: Vec<&str> = list.iter().collect();
    let vocabulary = Vocabulary { words: &words, forms: unlisted.forms, own: &settings.words };
    let found: IdVec<Text, Option<Id<T>>> = names.iter().map(|text| list.find(text)).collect();
    texts
        .iter()
        .enumerate()
        .map(|(row, text)| {
            let text = (*text)?;
            let name = found[text];
            if name.is_none() {
                let text = names.text(text);
                let problem = table.problem(unlisted.kind, row, column, unlisted.what).found(text);
                let otherwise = (unlisted.otherwise)(&key(text));
                let line = vocabulary.line(text);
                let problem = problem.instead(match (&line, words.as_slice()) {
                    (Some(_), _) => vocabulary.advice(text),
                    (None, []) => otherwise.trim_start_matches("or ").to_owned(),
                    (None, [only]) => format!("write {only}; {otherwise}"),
                    (None, _) => format!("{}; {otherwise}", vocabulary.advice(text)),
                });
                problems.push(match line {
                    Some(line) => problem.to_paste("words", line),
                    None => problem,
                });
            }
            name
        })
        .collect()
}

/// Designs of each order; `None` stands for one that is not known.
fn pairs_sold(orders: &Orders) -> HashSet<(Id<Order>, Option<Id<Design>>)> {
    let rows = (0..orders.rows()).filter(|row| orders.kind[*row] == Kind::Cookie);
    rows.map(|row| (orders.order[row], orders.design[row])).collect()
}

fn check_design_of_order(
    table: &Table,
    (row, text): (usize, &str),
    design: Id<Design>,
    designs: &Designs,
    link: &[Id<Order>],
    sold: &HashSet<(Id<Order>, Option<Id<Design>>)>,
    problems: &mut Vec<Problem>,
) {
    if let [order] = link {
        if sold.contains(&(*order, None)) {
            // One of its designs is not known, which is a problem already: it may be this one.
            return;
        }
        if !sold.contains(&(*order, Some(design))) {
            let sells = |other: &Id<Design>| sold.contains(&(*order, Some(*other))) && bare(designs.names.text(*other)) == bare(text);
            problems.push(match designs.all().find(sells).map(|other| designs.names.text(other)) {
                Some(other) => {
                    let what = format!("is '{other}' in the order this row names, which looks like the same design");
                    let advice = if designs.on_card {
                        format!("if so, keep {other} in designs.csv and list {text} under its also_called")
                    } else {
                        "if so, list both names as one design in designs.csv, as check --names shows".to_owned()
                    };
                    table.problem(&OTHER_NAME_IN_ORDER, row, "design", what).found(text).instead(advice)
                }
                None => {
                    let problem = table.problem(&NOT_IN_ORDER, row, "design", "is not in the order this row names").found(text);
                    problem.instead("correct the design or the order")
                }
            });
        }
    } else if !link.is_empty() {
        let problem = table.problem(&DESIGN_OF_SEVERAL, row, "design", "is named together with several orders").found(text);
        problems.push(problem.instead("split the row by order, or leave the design blank"));
    }
}
