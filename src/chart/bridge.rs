//! What moved the surplus from one period to the next: from the one through signed steps to the other.

use rust_decimal::Decimal;

use super::axis::AmountStyle;
use super::marks::Sign;
use super::row::{Figure, RowText};
use super::theme::{OVER, SHORT};
use super::waterfall::{self, Look, Step};

const UP: Look = Look::plain(OVER);
const DOWN: Look = Look::hatched(SHORT);

/// The surplus of one period.
#[derive(Debug, Clone)]
pub struct BridgeEnd {
    /// The period, such as `April 2026`.
    pub name: String,
    /// A few words beneath the name; may be empty.
    pub note: String,
    /// The surplus in the currency's main unit.
    pub amount: Decimal,
    /// The surplus as it is to be read, such as `−$84.20`.
    pub label: String,
}

/// One thing that moved it.
#[derive(Debug, Clone)]
pub struct BridgeStep {
    /// What it is, such as `minutes a piece`. Two lines are shown, the rest cut short with `…`.
    pub name: String,
    /// A few words beneath the name; may be empty.
    pub note: String,
    /// By how much it moved the surplus, in the currency's main unit: positive is up.
    pub change: Decimal,
    /// The change as it is to be read, with its sign, such as `+$31.00`.
    pub label: String,
}

/// From the one surplus to the other, in the order given. The steps are drawn as they are: that they add up is the
/// caller's, as [`unexplained`](Self::unexplained) says.
#[derive(Debug, Clone)]
pub struct BridgeChart {
    /// What the chart finds, as a sentence.
    pub title: String,
    /// What it shows: the two periods, caution.
    pub subtitle: String,
    /// What the axis measures, such as `above or below your target, USD`.
    pub axis: String,
    /// How amounts are written at the ticks.
    pub amounts: AmountStyle,
    /// The period it began from.
    pub start: BridgeEnd,
    /// What moved it, from the top down.
    pub steps: Vec<BridgeStep>,
    /// The period it came to.
    pub end: BridgeEnd,
}

impl BridgeChart {
    /// The chart as SVG, 640 CSS pixels wide and as tall as it needs. Without steps the two ends stand alone.
    #[must_use]
    pub fn svg(&self) -> String {
        let changes = self.steps.iter().map(|step| Step {
            text: row_text(&step.name, &step.note, &step.label),
            amount: step.change,
            is_sum: false,
            look: if step.change < Decimal::ZERO { DOWN } else { UP },
        });
        let steps = [self.start.step()].into_iter().chain(changes).chain([self.end.step()]);
        let frame = waterfall::Frame {
            title: &self.title,
            subtitle: &self.subtitle,
            axis: &self.axis,
            amounts: &self.amounts,
            headings: &[""],
            key: self.key(),
        };
        waterfall::svg(&frame, steps.collect())
    }

    /// What the steps leave of the change; nil where they add up. Amounts too large to add keep to the largest there is.
    #[must_use]
    pub fn unexplained(&self) -> Decimal {
        let reached = self.steps.iter().fold(self.start.amount, |sum, step| sum.saturating_add(step.change));
        self.end.amount.saturating_sub(reached)
    }

    /// Only what occurs in this chart.
    fn key(&self) -> Vec<(Sign, String)> {
        let entries = [
            (self.steps.iter().any(|step| step.change > Decimal::ZERO), UP, "better, to the right"),
            (self.steps.iter().any(|step| step.change < Decimal::ZERO), DOWN, "worse, to the left"),
        ];
        entries.into_iter().filter(|(occurs, ..)| *occurs).map(|(_, look, words)| (look.sign(), words.to_owned())).collect()
    }
}

impl BridgeEnd {
    fn step(&self) -> Step {
        Step { text: row_text(&self.name, &self.note, &self.label), amount: self.amount, is_sum: true, look: waterfall::SUM }
    }
}

fn row_text(name: &str, note: &str, label: &str) -> RowText {
    RowText::new(name, note, vec![Figure::new(label, None)])
}
