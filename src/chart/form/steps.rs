//! Steps from one amount to another, a bar a step: sums stand on zero, changes hang where the one before ended.

use rust_decimal::Decimal;

use crate::chart::draw::amounts::AmountStyle;
use crate::chart::draw::axis::Axis;
use crate::chart::draw::fill::Fill;
use crate::chart::draw::heading::Heading;
use crate::chart::draw::heading::{axis_title, heading, key, only_words};
use crate::chart::draw::page::Page;
use crate::chart::draw::page::Width;
use crate::chart::draw::picture::{Layer, Picture, Role};
use crate::chart::draw::row::Row;
use crate::chart::draw::sign::{KeySign, Sign};
use crate::chart::draw::table::Table;
use crate::chart::draw::theme::{FAINT, SOFT_INK};
use crate::chart::form::chart::Chart;
use crate::chart::words;

/// A bar narrower than this could not be seen.
const NARROWEST: f64 = 1.5;

/// One step.
#[derive(Debug, Clone)]
pub struct Step {
    /// Its words.
    pub row: Row,
    /// The whole sum for a sum; for a change what it adds, negative for what goes off.
    pub amount: Decimal,
    /// A sum stands on zero; a change goes on from the step before.
    pub is_sum: bool,
    /// How its bar is filled.
    pub fill: Fill,
}

/// Steps in the order given. They are drawn as they are: that they add up is the caller's.
#[derive(Debug, Clone, Default)]
pub struct Steps {
    /// What stands over the chart.
    pub heading: Heading,
    /// What the axis measures.
    pub axis: String,
    /// How amounts are written at the ticks.
    pub amounts: AmountStyle,
    /// What a fill means; those that do not occur are left out of the key.
    pub key: Vec<(Fill, String)>,
    /// Over the columns of figures; empty for none.
    pub columns: Vec<String>,
    /// The steps, from the top down.
    pub steps: Vec<Step>,
}

impl Chart for Steps {
    fn heading(&self) -> &Heading {
        &self.heading
    }

    fn picture(&self, width: Width) -> Picture {
        let page = Page::new(width);
        let mut picture = Picture::new(page);
        if self.steps.is_empty() {
            return only_words(picture, &self.heading, "");
        }
        let below_heading = heading(&mut picture, &self.heading);
        let below_key = key(&mut picture, below_heading, &self.key());
        let table = Table::new(&page, self.steps.iter().map(|step| &step.row).collect(), &self.columns, (below_key, 20.0));
        let ends = self.ends();
        let reached = || ends.iter().flat_map(|(from, to)| [*from, *to]);
        let range = (reached().fold(Decimal::ZERO, Decimal::min), reached().fold(Decimal::ZERO, Decimal::max));
        let axis = Axis::across(range, table.plot, &self.amounts, &page);
        axis.draw_lines(&mut picture, &table.spans(&page));
        table.draw(&mut picture);
        let half = if table.is_close {
            8.0
        } else if page.is_narrow {
            10.0
        } else {
            11.0
        };
        let places: Vec<_> = ends.iter().map(|(from, to)| (axis.place(*from), axis.place(*to))).collect();
        for (at, ((step, (from, to)), placed)) in self.steps.iter().zip(&places).zip(&table.placed).enumerate() {
            picture.role(Role::Data(at));
            let (left, right) = (from.min(*to), from.max(*to));
            let right = if step.amount.is_zero() { right } else { right.max(left + NARROWEST) };
            step.fill.draw(&mut picture, [left, placed.middle() - half, right, placed.middle() + half]);
            // On to the next step, through a row where nothing moved.
            if let Some(next) = table.placed.get(at + 1) {
                let top = placed.middle() + if step.amount.is_zero() { -half } else { half };
                // Beneath the words between two rows of a narrow page.
                let (layer, colour) = if page.is_narrow { (Layer::Ground, FAINT) } else { (Layer::Over, SOFT_INK) };
                picture.line(layer, [(*to, top), (*to, next.middle() - half)], 1.0, colour);
            }
        }
        for y in table.tick_baselines() {
            axis.draw_labels(&mut picture, y);
        }
        let bottom = axis_title(&mut picture, &self.axis, (axis.title_left(&page), table.bottom + 38.0));
        picture.finished(bottom, &self.heading)
    }

    fn rows_in_words(&self) -> Vec<String> {
        words::said(self.steps.iter().map(|step| words::row(&step.row, "", &self.columns, Vec::new())))
    }
}

impl Steps {
    fn key(&self) -> Vec<(KeySign, String)> {
        let occurs = |fill: Fill| self.steps.iter().any(|step| step.fill == fill && !step.amount.is_zero());
        let entries = self.key.iter().filter(|(fill, _)| occurs(*fill));
        entries.map(|(fill, words)| (KeySign::Sign(Sign::Bar(*fill)), words.clone())).collect()
    }

    /// Where each bar begins and ends.
    fn ends(&self) -> Vec<(Decimal, Decimal)> {
        let mut reached = Decimal::ZERO;
        let ends = self.steps.iter().map(|step| {
            let from = if step.is_sum { Decimal::ZERO } else { reached };
            reached = from.saturating_add(step.amount);
            (from, reached)
        });
        ends.collect()
    }
}
