//! What every chart has in common, and its figures in words for those who cannot see it: title, subtitle, and a line
//! for each row.

use rust_decimal::Decimal;

use super::axis::AmountStyle;
use super::dollar::DollarKind;
use super::wage_by_tier::Standing;
use super::{
    BridgeChart, CostChart, DollarChart, ItemPricesChart, LoggedChart, MinutesChart, MonthsChart, OrderSizeChart, PriceMinutesChart,
    StagesChart, WageChart, in_page, time_axis,
};

/// A finished chart.
pub trait Chart {
    /// The chart as SVG, with a white ground of its own.
    fn svg(&self) -> String;

    /// What the chart finds, as a sentence.
    fn title(&self) -> &str;

    /// What it shows: period, count, caution.
    fn subtitle(&self) -> &str;

    /// The rows in words, a line each with its name and figures, as plain text without control characters; of more
    /// than 60 the first 60 and how many more there are.
    fn rows_in_words(&self) -> Vec<String>;

    /// The chart in words: title, subtitle, then the [rows](Self::rows_in_words), a line each.
    fn alternative(&self) -> String {
        let heading = [self.title(), self.subtitle()].map(one_line).into_iter().filter(|line| !line.is_empty());
        heading.chain(self.rows_in_words()).collect::<Vec<_>>().join("\n")
    }

    /// The chart for an HTML page; see [`in_page`]. `id` must differ from chart to chart.
    fn svg_in_page(&self, id: &str) -> String {
        in_page::in_page(&self.svg(), id)
    }
}

/// What is the same of every chart: its picture, and its heading from its fields.
macro_rules! drawn_under_its_heading {
    () => {
        fn svg(&self) -> String {
            Self::svg(self)
        }

        fn title(&self) -> &str {
            &self.title
        }

        fn subtitle(&self) -> &str {
            &self.subtitle
        }
    };
}
pub(super) use drawn_under_its_heading;

/// More rows than this are counted, not said.
const MOST: usize = 60;

/// Without empty lines, and not more than a listener bears.
pub(super) fn said(rows: impl Iterator<Item = String>) -> Vec<String> {
    let mut rows: Vec<_> = rows.filter(|line| !line.is_empty()).collect();
    let more = rows.len().saturating_sub(MOST);
    rows.truncate(MOST);
    if more > 0 {
        rows.push(format!("and {more} more"));
    }
    rows
}

/// `name: figure, figure`, without the empty ones.
pub(super) fn row(name: &str, figures: &[&str]) -> String {
    let figures: Vec<_> = figures.iter().map(|figure| one_line(figure)).filter(|figure| !figure.is_empty()).collect();
    if figures.is_empty() { one_line(name) } else { format!("{}: {}", one_line(name), figures.join(", ")) }
}

/// Neither line breaks nor marks that turn the direction of what follows; letters that the picture's font lacks stay, for
/// these words are read in another.
fn one_line(text: &str) -> String {
    let is_mark = |letter: char| matches!(letter, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}');
    let shown = |letter: &char| letter.is_whitespace() || !(letter.is_control() || is_mark(*letter));
    text.chars().filter(shown).collect::<String>().split_whitespace().collect::<Vec<_>>().join(" ")
}

fn word(standing: Standing) -> &'static str {
    match standing {
        Standing::Over => "above",
        Standing::Short => "below",
        Standing::Unknown => "",
    }
}

/// The words beside a line in the chart.
fn line_words(line: Option<&(Decimal, String)>) -> Option<String> {
    line.map(|(_, words)| one_line(words))
}

pub(super) fn interval(low: Option<Decimal>, high: Option<Decimal>, amounts: &AmountStyle) -> String {
    let (Some(low), Some(high)) = (low, high) else { return String::new() };
    let write = |amount| amounts.write(amount, amounts.decimals);
    format!("from {} to {} (90 %)", write(low.min(high)), write(low.max(high)))
}

impl Chart for WageChart {
    drawn_under_its_heading!();

    fn rows_in_words(&self) -> Vec<String> {
        let rows = self.bars.iter().map(|bar| {
            let label = if bar.wage.is_none() && bar.label.trim().is_empty() { "no hours" } else { &bar.label };
            let (word, interval) =
                if bar.wage.is_some() { (word(bar.standing), interval(bar.low, bar.high, &self.amounts)) } else { ("", String::new()) };
            row(&bar.name, &[label, word, &interval, &bar.note])
        });
        said(line_words(self.target.as_ref()).into_iter().chain(rows))
    }
}

impl Chart for CostChart {
    drawn_under_its_heading!();

    fn rows_in_words(&self) -> Vec<String> {
        let rows = self.rows.iter().map(|cost| {
            let names = self.elements.iter().map(String::as_str).chain(std::iter::repeat("other"));
            let write = |amount| self.amounts.write(amount, self.amounts.decimals);
            let parts: Vec<_> = cost.parts.iter().zip(names).map(|(part, name)| format!("{name} {}", write(*part))).collect();
            let (price, all) = (format!("price {}", cost.price_label), format!("cost {}", cost.cost_label));
            row(&cost.name, &[&price, &all, if cost.short { "short" } else { "" }, &parts.join(", ")])
        });
        said(rows)
    }
}

impl Chart for MinutesChart {
    drawn_under_its_heading!();

    fn rows_in_words(&self) -> Vec<String> {
        let minutes = |minutes: f64| format!("{minutes:.1} min");
        let rows = self.groups.iter().flat_map(|group| &group.rows).map(|design| {
            let label = if design.minutes.is_none() && design.label.trim().is_empty() { "not sold with hours" } else { &design.label };
            let interval = match (design.minutes, design.low, design.high) {
                (Some(_), Some(low), Some(high)) => format!("from {} to {} (90 %)", minutes(low), minutes(high)),
                _ => String::new(),
            };
            let guess = design.card.map_or_else(String::new, |card| format!("your guess {}", minutes(card)));
            let apart = if design.minutes.is_some() && !design.told_apart { "not told apart" } else { "" };
            row(&design.name, &[label, &interval, &guess, apart, &design.note])
        });
        said(rows)
    }
}

impl Chart for LoggedChart {
    drawn_under_its_heading!();

    fn rows_in_words(&self) -> Vec<String> {
        let mut points: Vec<_> = self.points.iter().collect();
        // Those that are looked for first; without a time last.
        points.sort_by(|a, b| b.far_off.cmp(&a.far_off).then_with(|| b.farness().total_cmp(&a.farness())));
        let rows = points.into_iter().map(|point| {
            let time = |what: &str, minutes: f64| {
                if time_axis::is_drawn(minutes) { format!("{what} {}", time_axis::label(minutes)) } else { String::new() }
            };
            let off = if point.far_off { "far off" } else { "" };
            row(&point.name, &[&time("logged", point.logged), &time("expected", point.expected), off])
        });
        said(rows)
    }
}

impl Chart for PriceMinutesChart {
    drawn_under_its_heading!();

    fn rows_in_words(&self) -> Vec<String> {
        said(self.points.iter().map(|point| row(&point.name, &[&point.label, word(point.standing)])))
    }
}

impl Chart for MonthsChart {
    drawn_under_its_heading!();

    fn rows_in_words(&self) -> Vec<String> {
        let rows = self.months.iter().map(|month| {
            let name = format!("{} {}", month.month, month.year);
            let wage = if month.wage.is_some() { format!("{} an hour", month.wage_label) } else { "no hourly pay".to_owned() };
            let hours = if month.hours.is_some() { &month.hours_label } else { "" };
            let (word, few) = if month.wage.is_some() { (word(month.standing), month.few) } else { ("", false) };
            row(&name, &[&wage, word, hours, if few { "few orders" } else { "" }])
        });
        said(line_words(self.target.as_ref()).into_iter().chain(rows))
    }
}

impl Chart for DollarChart {
    drawn_under_its_heading!();

    fn rows_in_words(&self) -> Vec<String> {
        let rows = self.steps.iter().map(|step| {
            let share = if step.share.trim().is_empty() { String::new() } else { format!("{} {}", step.share, self.share_heading) };
            let word = if let DollarKind::Outcome(standing) = step.kind { word(standing) } else { "" };
            row(&step.name, &[&step.label, &share, word, &step.note])
        });
        said(rows)
    }
}

impl Chart for BridgeChart {
    drawn_under_its_heading!();

    fn rows_in_words(&self) -> Vec<String> {
        let end = |end: &super::BridgeEnd| row(&end.name, &[&end.label, &end.note]);
        let steps = self.steps.iter().map(|step| row(&step.name, &[&step.label, &step.note]));
        said([end(&self.start)].into_iter().chain(steps).chain([end(&self.end)]))
    }
}

impl Chart for OrderSizeChart {
    drawn_under_its_heading!();

    /// The classes, not every order.
    fn rows_in_words(&self) -> Vec<String> {
        let marked = [&self.target, &self.smallest].into_iter().filter_map(|line| line_words(line.as_ref()));
        let classes = self.classes.iter().map(|class| row(&class.name, &[&class.label, &class.note]));
        said(marked.chain(classes))
    }
}

impl Chart for ItemPricesChart {
    drawn_under_its_heading!();

    fn rows_in_words(&self) -> Vec<String> {
        let rows = self.items.iter().map(|item| {
            if item.paid.is_empty() {
                let words = if item.latest_label.trim().is_empty() { "not bought" } else { &item.latest_label };
                return row(&item.name, &[words, &item.note]);
            }
            let (first, latest) = (format!("first {}", item.first_label), format!("latest {}", item.latest_label));
            row(&item.name, &[&first, &latest, &item.change_label, &item.note])
        });
        said(rows)
    }
}

impl Chart for StagesChart {
    drawn_under_its_heading!();

    fn rows_in_words(&self) -> Vec<String> {
        let stages = self.stages.iter().map(|stage| row(&stage.name, &[&stage.label, &stage.share, &stage.note]));
        let waiting = self.waiting.iter().map(|waiting| row(&waiting.name, &[&waiting.label, "waiting, not work", &waiting.note]));
        said(stages.chain(waiting))
    }
}
