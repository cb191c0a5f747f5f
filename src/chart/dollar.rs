//! Where each dollar of the orders went: from revenue, cost by cost, to what is left for the maker's time and whether
//! that is over or short of her wage.

use rust_decimal::Decimal;

use super::axis::AmountStyle;
use super::font::Weight;
use super::row::{Figure, RowText};
use super::text;
use super::theme::{self, OVER, OVER_INK, SHORT, SHORT_INK, SMALL, UNKNOWN};
use super::wage_by_tier::Standing;
use super::waterfall::{self, Look, Step};

/// Over the amounts.
const AMOUNT: &str = "amount";
const HEADING_AT_MOST: f64 = 110.0;

/// What a step is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DollarKind {
    /// A sum, drawn from zero: the revenue, what is left.
    Sum,
    /// An element of the cost that goes off, drawn from where the step before ended, to the left if its amount is
    /// negative. Holds its place among the elements of cost (ingredients first, the maker's time last), as in
    /// [`CostChart::elements`](super::CostChart::elements): from it follows the fill, so that a colour means the same
    /// in both charts whatever is left out here.
    Cost(usize),
    /// Anything else that goes off or comes on: grey.
    Change,
    /// The last sum, judged: has the word "above" or "below", and is hatched where it is below.
    Outcome(Standing),
}

/// One step.
#[derive(Debug, Clone)]
pub struct DollarStep {
    /// What it is, such as `ingredients`. Two lines are shown, the rest cut short with `…`.
    pub name: String,
    /// A few words beneath the name; may be empty.
    pub note: String,
    /// The amount in the currency's main unit: negative for what goes off, the whole sum for a sum.
    pub amount: Decimal,
    /// The amount as it is to be read, such as `−$412.00`.
    pub label: String,
    /// What it is of each unit of revenue, such as `31 ¢`; may be empty.
    pub share: String,
    /// Sum, change or outcome.
    pub kind: DollarKind,
}

/// Revenue down to surplus, in the order given.
#[derive(Debug, Clone)]
pub struct DollarChart {
    /// What the chart finds, as a sentence.
    pub title: String,
    /// What it shows: period, count, caution.
    pub subtitle: String,
    /// What the axis measures, such as `all orders of the month, USD`.
    pub axis: String,
    /// Over the column of shares, such as `of each $1`.
    pub share_heading: String,
    /// How amounts are written at the ticks.
    pub amounts: AmountStyle,
    /// The steps, from the top down.
    pub steps: Vec<DollarStep>,
}

impl DollarChart {
    /// The chart as SVG, 640 CSS pixels wide and as tall as it needs. Without steps, a sentence says so.
    #[must_use]
    pub fn svg(&self) -> String {
        let steps = self.steps.iter().map(|step| {
            let look = match step.kind {
                DollarKind::Sum => waterfall::SUM,
                DollarKind::Cost(element) => Look::plain(theme::part(element).0),
                DollarKind::Outcome(Standing::Over) => Look::plain(OVER),
                DollarKind::Outcome(Standing::Short) => Look::hatched(SHORT),
                DollarKind::Change | DollarKind::Outcome(Standing::Unknown) => Look::plain(UNKNOWN),
            };
            Step { text: step.text(), amount: step.amount, is_sum: !matches!(step.kind, DollarKind::Cost(_) | DollarKind::Change), look }
        });
        let share_heading = text::elide(&text::clean(&self.share_heading), Weight::Regular, SMALL, HEADING_AT_MOST);
        let headings = [AMOUNT, share_heading.as_str()];
        let frame = waterfall::Frame {
            title: &self.title,
            subtitle: &self.subtitle,
            axis: &self.axis,
            amounts: &self.amounts,
            headings: &headings,
            key: Vec::new(),
        };
        waterfall::svg(&frame, steps.collect())
    }
}

impl DollarStep {
    fn text(&self) -> RowText {
        let word = match self.kind {
            DollarKind::Outcome(Standing::Over) => Some(("above", OVER_INK)),
            DollarKind::Outcome(Standing::Short) => Some(("below", SHORT_INK)),
            _ => None,
        };
        RowText::new(&self.name, &self.note, vec![Figure::new(&self.label, word), Figure::new(&self.share, None)])
    }
}
