//! `review`: whether a month or season covered your time, in words, tables and charts.

use super::arguments::{Arguments as Bare, CostingArguments, PeriodArguments, Review as Arguments};
use super::error::Error;
use super::files::answers::{Answers, Mark, OUT};
use super::outcome::Outcome;
use super::progress::while_saying;
use super::screen::on_screen;
use super::shared_options::unknown_season;
use super::shop::{costed, left_out_note, open};
use crate::chart::{self, ChartError};
use crate::period::{latest_month, logs, month_meant};
use crate::quantity::month_names;
use crate::quantity::month_words::MonthWords;
use crate::quantity::{Month, Period};
use crate::reading::Severity;
use crate::report::bridge_records::{BridgeRecord, bridge_csv};
use crate::report::check_document::verdict;
use crate::report::document::{Block, Content, Document};
use crate::report::problems::count;
use crate::report::record::headings;
use crate::report::review::charts::{Drawn, NAMES, drawn};
use crate::report::review::document::LAST_LINE;
use crate::report::review::page::page;
use crate::report::review::{answer as answer_in_words, review_document};
use crate::report::screen::Screen;
use crate::report::terminal::printed;
use crate::report::wage_records::{WageLine, wage_csv};
use crate::report::words::Currency;
use crate::review::bridge::base_period::NoBasePeriod;
use crate::review::{BasePeriod, Bridge, Review};
use crate::shop::Shop;
use crate::shop::settings::Settings;
use std::path::{Path, PathBuf};

pub fn run(arguments: &Arguments) -> Result<Outcome, Error> {
    let asked = Asked {
        shop: &arguments.shop,
        period: &arguments.period,
        against: arguments.against.as_deref(),
        costing: &arguments.costing,
        out: arguments.out.as_deref(),
        open: arguments.open,
        screen: arguments.screen.screen(),
        checked: false,
    };
    answer(&asked)
}

/// Answers without a command: what the check says, then the review of the latest month.
pub(crate) fn run_after_check(arguments: &Bare) -> Result<Outcome, Error> {
    let costing =
        CostingArguments { skip_bad_rows: arguments.skip_bad_rows, hide_orders: arguments.hide_orders, ..CostingArguments::default() };
    let period = PeriodArguments::default();
    let asked = Asked {
        shop: &arguments.shop,
        period: &period,
        against: None,
        costing: &costing,
        out: None,
        open: arguments.open,
        screen: arguments.screen.screen(),
        checked: true,
    };
    answer(&asked)
}

/// What either command asks for.
struct Asked<'a> {
    shop: &'a Path,
    period: &'a PeriodArguments,
    against: Option<&'a str>,
    costing: &'a CostingArguments,
    out: Option<&'a Path>,
    /// Whether the page is opened in a browser.
    open: bool,
    screen: Screen,
    /// Whether the check's verdict comes first.
    checked: bool,
}

fn answer(asked: &Asked<'_>) -> Result<Outcome, Error> {
    let Asked { shop, period, against, costing, out, open: opens, screen, checked } = *asked;
    let mut opened = open(shop, costing.skip_bad_rows, costing.hide_orders)?;
    let asked = period.resolve(&opened.shop)?;
    let latest = || latest_month(&opened.shop).map_or(asked, Period::of);
    let period = if asked == Period::default() { latest() } else { asked };
    let folder = out.map_or_else(|| opened.folder.path().join("reviews").join(folder_name(period, &opened.shop.settings)), Path::to_owned);
    // Without a command there is no option for another folder.
    let elsewhere = format!("write the review into another folder with fairdozen review {} --out FOLDER", shop.display());
    let answers = Answers::in_folder(&folder, names()?, if checked { &elsewhere } else { OUT })?;
    let base = base(against, period, &opened.shop)?;
    let begin = logs(&opened.shop).map(|(first, _)| first.month());
    // Half a year is no measure for a whole one; what was asked for by name is compared all the same.
    let begins_within = |base: &Period| {
        let of_begin = |month: Month| base.from.is_some_and(|from| from < month.first()) && base.to.is_some_and(|to| to >= month.first());
        against.is_none() && begin.is_some_and(of_begin)
    };
    let logs_begin = begin.filter(|_| base.as_ref().is_some_and(begins_within));
    let base = base.filter(|_| logs_begin.is_none());
    let costed = costed(&mut opened, costing.options())?;
    let mut review = Review::of(&opened.shop, &costed, period)?;
    if review.is_empty() {
        let out = format!("{}\n", answer_in_words(&review, &Currency::of(&opened.shop.settings.currency)));
        return Ok(Outcome { out, err: left_out_note(&opened.problems), code: 0 });
    }
    review.logs_begin = logs_begin;
    review.bridge = base.map(|base| Bridge::of(&opened.shop, &costed, base, period)).transpose()?;
    let currency = Currency::of(&opened.shop.settings.currency);
    let warnings = count(&opened.problems, Severity::Warning);
    let document = review_document(&review, &currency, warnings);
    let charts = drawn(&review, &currency);
    let page = page(&review, &currency, warnings, &charts)?;
    let mut written = vec![
        (PAGE.to_owned(), page.into_bytes()),
        (TEXT.to_owned(), format!("{}\n{LAST_LINE}", printed(&document, Screen::Details)).into_bytes()),
        (BY_TIER.to_owned(), wage_csv(&review.tiers)?.into_bytes()),
        (BY_DESIGN.to_owned(), wage_csv(&review.designs)?.into_bytes()),
    ];
    if let Some(bridge) = &review.bridge {
        written.push((BRIDGE.to_owned(), bridge_csv(bridge)?.into_bytes()));
    }
    let pictures = while_saying("Drawing the charts …", || pngs(&charts));
    for (chart, png) in charts.iter().zip(pictures) {
        written.push((picture(chart.name), png?));
    }
    answers.write(&written)?;
    let page = format!("The page, with {} charts beside it:\n  {}", charts.len(), folder.join(PAGE).display());
    let mut shown = Document::new(document.details);
    shown.push(Block::paragraph(if checked { verdict(&opened.problems) } else { String::new() }));
    shown.sections.extend(document.sections);
    shown.push(Content::Line(page));
    let mut err = left_out_note(&opened.problems);
    err.extend(opens.then(|| open_page(&folder.join(PAGE))).flatten());
    Ok(Outcome { out: on_screen(&shown, screen), err, code: 0 })
}

/// Opens the page in a browser; gives what to say where that fails.
fn open_page(page: &Path) -> Option<String> {
    let place = page.canonicalize().unwrap_or_else(|_| page.to_owned());
    let failed = opener::open_browser(&place).err()?;
    let why = std::error::Error::source(&failed).map_or_else(|| failed.to_string(), ToString::to_string);
    Some(format!("The page could not be opened ({why}); open {} in any browser.\n", page.display()))
}

const PAGE: &str = "index.html";
const TEXT: &str = "review.txt";
const BY_TIER: &str = "wage-by-tier.csv";
const BY_DESIGN: &str = "wage-by-design.csv";
const BRIDGE: &str = "bridge.csv";

/// Every file that a review may write, and how each is recognized.
fn names() -> Result<Vec<(String, Mark)>, Error> {
    let wages = headings::<WageLine>()?;
    let texts = [
        (PAGE, Mark::Page),
        (TEXT, Mark::Text),
        (BY_TIER, Mark::Table(wages.clone())),
        (BY_DESIGN, Mark::Table(wages)),
        (BRIDGE, Mark::Table(headings::<BridgeRecord>()?)),
    ];
    let pictures = NAMES.iter().map(|name| (picture(name), Mark::Picture));
    Ok(texts.map(|(name, mark)| (name.to_owned(), mark)).into_iter().chain(pictures).collect())
}

fn picture(name: &str) -> String {
    format!("{name}.png")
}

/// Rasterizes each chart on its own thread: together they take longer than all the rest.
fn pngs(charts: &[Drawn]) -> Vec<Result<Vec<u8>, ChartError>> {
    std::thread::scope(|scope| {
        let drawing: Vec<_> = charts.iter().map(|chart| scope.spawn(|| chart::png(&chart.svg))).collect();
        drawing.into_iter().map(|picture| picture.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic))).collect()
    })
}

fn overlap(one: Period, other: Period) -> bool {
    let begins_by = |one: Period, other: Period| one.from.zip(other.to).is_none_or(|(from, to)| from <= to);
    begins_by(one, other) && begins_by(other, one)
}

/// The period to compare with. A period with an open end is compared with none, and asking for one is an error.
fn base(asked: Option<&str>, period: Period, shop: &Shop) -> Result<Option<Period>, Error> {
    let settings = &shop.settings;
    let months = month_names::ENGLISH.map(str::to_lowercase);
    let otherwise = "or write previous, last-year, or a month as september or 2026-09";
    let against = match asked {
        // A season may bear a month's name.
        Some(name) if settings.seasons.contains_key(name) => BasePeriod::Season(name.to_owned()),
        Some(text) => match MonthWords::parse(text) {
            Some(words) => BasePeriod::Month(month_meant(words, shop)?),
            None => BasePeriod::parse(text),
        },
        None => BasePeriod::Previous,
    };
    match against.period(period, settings) {
        Ok(base) if overlap(base, period) => Err(Error::usage("--against names a period that overlaps the one reviewed; name another")),
        Ok(base) => Ok(Some(base)),
        Err(_) if asked.is_none() => Ok(None),
        Err(NoBasePeriod::OpenEnd) => Err(Error::usage(
            "--against compares with a period that has a first and a last day; give --month, --season, or both --from and --to",
        )),
        Err(NoBasePeriod::UnknownSeason(name)) => Err(Error::usage(format!(
            "--against: {}; {otherwise}",
            unknown_season(
                &name,
                settings,
                &["previous", "last-year"].into_iter().chain(months.iter().map(String::as_str)).collect::<Vec<_>>()
            )
        ))),
        Err(NoBasePeriod::Itself) => Err(Error::usage("--against names the period under review itself; name another")),
    }
}

/// A folder's name for a period: `2026-10`, a season's name, or its ends.
fn folder_name(period: Period, settings: &Settings) -> PathBuf {
    if let Some(month) = period.month() {
        return PathBuf::from(month.to_string());
    }
    let season = settings.seasons.iter().find(|(_, season)| **season == period).map(|(name, _)| name);
    if let Some(name) = season {
        return PathBuf::from(name.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect::<String>());
    }
    let end = |day: Option<crate::quantity::Day>, open: &str| day.map_or_else(|| open.to_owned(), |day| day.to_string());
    PathBuf::from(format!("{}_{}", end(period.from, "beginning"), end(period.to, "end")))
}
