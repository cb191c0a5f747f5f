//! The review as one page: everything in it, no script, nothing fetched; on a phone, at a desk and on paper.
//!
//! The words and tables are those of the other parts of the review; here they find their place. What a maker typed is
//! escaped by the template engine; of what is placed as it is, the style is ours and a picture's words were escaped when
//! it was drawn.

mod compact;

use self::compact::compact;
use super::answer::{answer, name};
use super::cautions::{CAUTIONS, WHEN_COUNTED};
use super::charts::{BESIDE_THE_ANSWER, Drawn};
use super::decisions::{Decision, Decisions};
use super::lacks::lacks;
use super::tiers::{few_orders, incomplete, of_the_range, tiers};
use super::ties::ties;
use super::worth::worth_doing;
use crate::chart::font::{FACES, FAMILY};
use crate::quantity::millionths::Money;
use crate::report::document::{Table, Tells};
use crate::report::wage_document::{Style, wage_table};
use crate::report::words::{Currency, capitalised, hours, number, unbroken};
use crate::report::{bridge_document, bridge_notes, bridge_text};
use crate::review::decisions::NAMED_FIRST;
use crate::review::{Bridge, Review};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use minijinja::value::Serde;
use minijinja::{AutoEscape, Environment, UndefinedBehavior, Value, escape_formatter};
use serde::Serialize;

/// What in its head says who made a page.
pub(crate) const GENERATOR: &str = "<meta name=\"generator\" content=\"fairdozen\">";
/// What every review answers.
const QUESTION: &str = "Did your prices cover your time?";
/// The charts that carry the answer, the first two of them beside it: what each tier paid; whether the month was like others;
/// what changed it; where each design's price lies beside its full cost; where the money went; and which sizes of order pay, for
/// too small an order is what a price cannot mend. The others look closer at one of these, and stand under "More charts".
const ANSWERING: [&str; 6] = ["wage-by-tier", "month-by-month", "what-moved-it", "price-and-cost", "where-it-went", "wage-by-order-size"];
/// What a phone shows of a row beside its verdict.
const DECIDING: [Tells; 4] = [Tells::Name, Tells::HourlyPay, Tells::Surplus, Tells::Change];
/// Columns that fit a phone.
const NARROW: usize = 3;

#[derive(Debug, Serialize)]
struct Page<'a> {
    generator: &'static str,
    title: String,
    fonts: String,
    style: &'static str,
    when: String,
    question: &'static str,
    answer: String,
    standing: &'static str,
    figures: Vec<Labelled>,
    tiers: PageTable,
    tier_notes: Vec<String>,
    judged: bool,
    worth: Vec<String>,
    decisions: Vec<PageDecision>,
    also: Vec<String>,
    first_pictures: Vec<Picture<'a>>,
    answering_pictures: Vec<Picture<'a>>,
    more_pictures: Vec<Picture<'a>>,
    ties: Vec<Vec<PageTie>>,
    when_counted: &'static str,
    /// What changed since another time, or why nothing is said of it.
    changed: Option<String>,
    change: Option<Change>,
    designs: PageTable,
    lacks: Vec<String>,
    cautions: &'static str,
}

/// A chart, wide and narrow, with what it says to those who cannot see it.
#[derive(Debug, Serialize)]
struct Picture<'a> {
    name: &'a str,
    wide: String,
    narrow: String,
    words: &'a [String],
}

impl<'a> Picture<'a> {
    fn of(chart: &'a Drawn) -> Self {
        Self { name: chart.name, wide: compact(&chart.in_page), narrow: compact(&chart.in_page_narrow), words: &chart.words }
    }
}

#[derive(Debug, Serialize)]
struct Labelled {
    label: &'static str,
    text: String,
}

#[derive(Debug, Serialize)]
struct PageDecision {
    design: String,
    verdict: String,
    reason: String,
    mend: String,
}

#[derive(Debug, Serialize)]
struct PageTie {
    label: &'static str,
    figure: String,
    part: bool,
}

/// What changed since another time.
#[derive(Debug, Serialize)]
struct Change {
    heading: String,
    finding: String,
    parts: Option<PageTable>,
    designs: Option<PageTable>,
    notes: Vec<String>,
}

impl Change {
    fn of(bridge: &Bridge, currency: &Currency) -> Self {
        let is_comparable = bridge.is_comparable();
        Self {
            heading: bridge_text::heading(bridge),
            // Beside the answer, where there is something to compare.
            finding: if is_comparable { String::new() } else { bridge_text::finding(bridge, currency) },
            parts: is_comparable.then(|| PageTable::of(&bridge_document::parts(bridge, currency))),
            designs: bridge_document::designs(bridge, currency).filter(|_| is_comparable).as_ref().map(PageTable::of),
            notes: if is_comparable { bridge_notes::notes(bridge, currency) } else { Vec::new() },
        }
    }
}

#[derive(Debug, Serialize)]
struct PageTable {
    headings: Vec<Cell>,
    rows: Vec<PageRow>,
    /// Whether a phone shows only what decides of it, and the rest of a row when its name is tapped.
    folds: bool,
}

#[derive(Debug, Serialize)]
struct PageRow {
    total: bool,
    /// What stands below the name on a phone.
    verdict: String,
    cells: Vec<Cell>,
}

#[derive(Debug, Serialize)]
struct Cell {
    text: String,
    words: bool,
    /// Whether a phone shows it in the row.
    decides: bool,
}

impl PageTable {
    fn of(table: &Table) -> Self {
        let verdict = table.columns.iter().position(|column| column.tells == Tells::Verdict);
        let decides = |at: usize| DECIDING.contains(&table.columns[at].tells);
        let cell = |at: usize, text: String| Cell { text, words: table.columns[at].is_words, decides: decides(at) };
        let first_total = table.rows.len().saturating_sub(table.totals);
        let rows = table.rows.iter().enumerate().map(|(row, cells)| PageRow {
            total: row >= first_total,
            verdict: verdict.map_or_else(String::new, |at| cells[at].clone()),
            cells: cells.iter().enumerate().map(|(at, text)| cell(at, text.clone())).collect(),
        });
        Self {
            headings: table.columns.iter().enumerate().map(|(at, of)| cell(at, of.heading.replace('\n', " "))).collect(),
            rows: rows.collect(),
            folds: table.columns.len() > NARROW,
        }
    }
}

/// Writes the whole page.
///
/// # Errors
/// Where the template fails, which tests rule out.
pub fn page(review: &Review, currency: &Currency, warnings: usize, charts: &[Drawn]) -> Result<String, minijinja::Error> {
    let mut environment = Environment::new();
    environment.set_undefined_behavior(UndefinedBehavior::Strict);
    environment.set_auto_escape_callback(|_| AutoEscape::Html);
    environment.set_formatter(|out, state, value| match value.as_str().filter(|_| !value.is_safe()) {
        Some(text) => escape_formatter(out, state, &Value::from(kept_together(text))),
        None => escape_formatter(out, state, value),
    });
    environment.render_str(include_str!("page.html"), Serde(contents(review, currency, warnings, charts)))
}

/// Keeps on one line what a browser would part: a number and its unit, a minus and its amount, set-up.
fn kept_together(text: &str) -> String {
    unbroken(text).replace('−', "−\u{2060}").replace("set-up", "set\u{2060}-\u{2060}up").replace("Set-up", "Set\u{2060}-\u{2060}up")
}

fn contents<'a>(review: &Review, currency: &Currency, warnings: usize, charts: &'a [Drawn]) -> Page<'a> {
    let named = |names: &[&str]| names.iter().filter_map(|name| charts.iter().find(|chart| chart.name == *name)).map(Picture::of).collect();
    let (first, answering) = ANSWERING.split_at(BESIDE_THE_ANSWER);
    let found = Decisions::of(review, currency);
    let compared = review.bridge.as_ref().filter(|bridge| bridge.is_comparable());
    let none = (found.own.is_empty() && found.judged).then(|| "No design pays too little by itself.".to_owned());
    let further = found.own.len().saturating_sub(NAMED_FIRST);
    let others = (further > 0).then(|| match further {
        1 => "One more is in the table of every design.".to_owned(),
        _ => format!("{} more are in the table of every design.", number(further)),
    });
    let decision = |Decision { design, verdict, reason, mend }| PageDecision { design, verdict, reason: capitalised(&reason), mend };
    let tie = |(label, figure): (&'static str, String)| PageTie { label: label.trim_start(), figure, part: label.starts_with(' ') };
    let also = none.into_iter().chain(others).chain([found.set_up_too_dear, found.too_close].into_iter().flatten());
    Page {
        generator: GENERATOR,
        title: format!("{}: {}", name(review), QUESTION),
        fonts: fonts(),
        style: include_str!("page.css"),
        when: name(review),
        question: QUESTION,
        answer: answer(review, currency),
        standing: match review.headline.missing {
            Some(missing) if missing > Money::ZERO => "short",
            Some(_) => "over",
            None => "",
        },
        figures: figures(review, currency),
        tiers: PageTable::of(&verdict_first(tiers(review, currency))),
        tier_notes: few_orders(review)
            .into_iter()
            .chain(incomplete(review).map(str::to_owned))
            .chain(of_the_range(review, currency).map(|[_, whole]| whole))
            .collect(),
        judged: found.judged,
        worth: worth_doing(review, currency),
        decisions: found.own.into_iter().take(NAMED_FIRST).map(decision).collect(),
        also: also.map(|sentence| capitalised(&sentence)).collect(),
        first_pictures: named(first),
        answering_pictures: named(answering),
        more_pictures: charts.iter().filter(|chart| !ANSWERING.contains(&chart.name)).map(Picture::of).collect(),
        ties: ties(review, currency).into_iter().map(|part| part.into_iter().map(tie).collect()).collect(),
        when_counted: WHEN_COUNTED,
        changed: compared.map(|bridge| bridge_text::finding(bridge, currency)).or_else(|| bridge_text::nothing_before(review)),
        change: review.bridge.as_ref().map(|bridge| Change::of(bridge, currency)),
        designs: PageTable::of(&wage_table(&review.designs, Style { currency, target: review.target, both: true })),
        lacks: lacks(review, currency, warnings).iter().map(|sentence| capitalised(sentence)).collect(),
        cautions: CAUTIONS,
    }
}

/// The charts' own font as the page carries it, so that a chart's words take the room they were given.
fn fonts() -> String {
    let face = |(weight, file): (u16, &[u8])| {
        let file = STANDARD.encode(file);
        format!(
            "@font-face {{ font-family: \"{FAMILY}\"; font-weight: {weight}; src: url(data:font/ttf;base64,{file}) format(\"truetype\"); }}\n"
        )
    };
    FACES.map(face).concat()
}

/// A table with its verdict and what that rests on next to the name.
fn verdict_first(mut table: Table) -> Table {
    const FIRST: [Tells; 6] = [Tells::Name, Tells::Verdict, Tells::Certainty, Tells::HourlyPay, Tells::Range, Tells::Surplus];
    let place = |at: &usize| FIRST.iter().position(|tells| *tells == table.columns[*at].tells).unwrap_or(FIRST.len());
    let mut order: Vec<usize> = (0..table.columns.len()).collect();
    order.sort_by_key(place);
    for row in &mut table.rows {
        *row = order.iter().map(|at| row[*at].clone()).collect();
    }
    table.columns = order.iter().map(|at| table.columns[*at].clone()).collect();
    table
}

/// The answer's figures, large.
fn figures(review: &Review, currency: &Currency) -> Vec<Labelled> {
    let headline = &review.headline;
    let Some(wage) = headline.wage else { return Vec::new() };
    let mut figures = vec![
        Labelled { label: "hourly pay", text: currency.exact(wage) },
        Labelled { label: "hours", text: hours(headline.minutes) },
        Labelled { label: "your pay", text: currency.whole(headline.pay) },
    ];
    figures.extend(review.target.map(|target| Labelled { label: "target, an hour", text: currency.exact(target) }));
    figures.extend(headline.missing.map(|missing| {
        let label = if missing > Money::ZERO { "below target" } else { "above target" };
        Labelled { label, text: currency.whole(Money(missing.0.abs())) }
    }));
    figures
}
