//! Prices paid for items over time: a row an item, on the same days, each up and down on a scale of its own.

use chrono::NaiveDate;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::canvas::{Align, Canvas, Layer, Words};
use super::frame;
use super::row::{self, Figure, Row, RowText, Rows};
use super::text;
use super::theme::{BASELINE, BELOW, GRID, LEARNED, MARGIN, OVER_INK, SHORT_INK, SMALL, SOFT_INK, WHITE, WIDTH};

/// Over the first price, the latest, and the change.
const HEADINGS: [&str; 3] = ["first", "latest", "change"];
/// From the edges of a row to the highest and the lowest price.
const PADDING: f64 = 9.0;
/// A row is at least as high as this part of its middle price, either way: a change of a few percent stays small.
const LEAST_REACH: f64 = 0.15;
/// Between two labels of days.
const APART: f64 = 12.0;

/// One purchase.
#[derive(Debug, Clone)]
pub struct PricePaid {
    /// The day it was bought.
    pub day: NaiveDate,
    /// The landed price of one base unit, in the currency's main unit.
    pub price: Decimal,
}

/// One item.
#[derive(Debug, Clone)]
pub struct ItemPrices {
    /// The item. Two lines are shown, the rest cut short with `…`.
    pub name: String,
    /// What the price is of, such as `a lb, landed`; may be empty.
    pub note: String,
    /// Its purchases, in any order; of one day they keep the order given.
    pub paid: Vec<PricePaid>,
    /// The first price as it is to be read, such as `$3.47`.
    pub first_label: String,
    /// The latest price as it is to be read; `not bought` is written where this is empty and nothing was bought.
    pub latest_label: String,
    /// The change between them as it is to be read, such as `+32 %`. The word "dearer" or "cheaper" stands beneath it.
    pub change_label: String,
}

/// Items from the top down, in the order given: a dozen is as many as a reader takes in.
#[derive(Debug, Clone)]
pub struct ItemPricesChart {
    /// What the chart finds, as a sentence.
    pub title: String,
    /// What it shows: period, count, caution.
    pub subtitle: String,
    /// What the rows show, such as `landed price of each purchase, each item on its own scale`.
    pub axis: String,
    /// The items.
    pub items: Vec<ItemPrices>,
    /// Days to be named below the rows, in order, such as the first of each month; those without room are left out.
    pub ticks: Vec<(NaiveDate, String)>,
}

/// From days to places across the page.
#[derive(Debug, Clone, Copy)]
struct Days {
    first: NaiveDate,
    last: NaiveDate,
    left: f64,
    right: f64,
}

impl Days {
    fn x(&self, day: NaiveDate) -> f64 {
        let days = |until: NaiveDate| u32::try_from(until.signed_duration_since(self.first).num_days()).map_or(0.0, f64::from);
        let span = days(self.last).max(1.0);
        self.left + (days(day) / span).min(1.0) * (self.right - self.left)
    }

    fn hold(&self, day: NaiveDate) -> bool {
        (self.first..=self.last).contains(&day)
    }
}

impl ItemPricesChart {
    /// The chart as SVG, 640 CSS pixels wide and as tall as it needs. Without a purchase, a sentence says so.
    #[must_use]
    pub fn svg(&self) -> String {
        let days = || self.items.iter().flat_map(|item| &item.paid).map(|paid| paid.day);
        let (Some(first), Some(last)) = (days().min(), days().max()) else {
            return frame::nothing_to_draw(&self.title, &self.subtitle);
        };
        let mut canvas = Canvas::default();
        let below_heading = frame::heading(&mut canvas, &self.title, &self.subtitle);
        let texts = self.items.iter().map(ItemPrices::text).collect();
        let rows = Rows::new(texts, &HEADINGS, |close| below_heading + row::heading_room(true, close));
        // The dots of the first and the last day stay on the page.
        let days = Days { first, last, left: rows.plot_left + 5.0, right: WIDTH - MARGIN - 5.0 };
        rows.draw_headings(&mut canvas, &HEADINGS);
        rows.draw(&mut canvas);
        self.draw_ticks(&mut canvas, &days, &rows);
        for (item, row) in self.items.iter().zip(&rows.placed) {
            item.draw(&mut canvas, &days, row);
        }
        frame::axis_title(&mut canvas, &self.axis, (rows.plot_left, rows.bottom + 38.0));
        canvas.svg(rows.bottom + 38.0 + BELOW, &frame::label(&self.title, &self.subtitle))
    }

    /// A line through all rows at each day that is named, and its name.
    fn draw_ticks(&self, canvas: &mut Canvas, days: &Days, rows: &Rows) {
        let mut free_from = rows.plot_left - 20.0;
        for (day, label) in self.ticks.iter().filter(|(day, _)| days.hold(*day)) {
            let words = Words::new(text::clean(label), SMALL).ink(SOFT_INK).align(Align::Middle);
            let (x, half) = (days.x(*day), words.width() / 2.0);
            let middle = x.min(WIDTH - MARGIN - half);
            if middle - half < free_from {
                continue;
            }
            free_from = middle + half + APART;
            canvas.line(Layer::Ground, [(x, rows.top), (x, rows.bottom)], 1.0, GRID);
            if rows.close {
                canvas.words((middle, rows.top - 8.0), words.clone());
            }
            canvas.words((middle, rows.bottom + 18.0), words);
        }
    }
}

impl ItemPrices {
    fn text(&self) -> RowText {
        let mut paid: Vec<_> = self.paid.iter().collect();
        paid.sort_by_key(|paid| paid.day);
        let (Some(first), Some(latest)) = (paid.first(), paid.last()) else {
            let words = if self.latest_label.trim().is_empty() { "not bought" } else { &self.latest_label };
            return RowText::new(&self.name, &self.note, vec![Figure::missing(""), Figure::missing(words), Figure::missing("")]);
        };
        let word = match latest.price.cmp(&first.price) {
            std::cmp::Ordering::Greater => Some(("dearer", SHORT_INK)),
            std::cmp::Ordering::Less => Some(("cheaper", OVER_INK)),
            std::cmp::Ordering::Equal => None,
        };
        let figures =
            vec![Figure::missing(&self.first_label), Figure::new(&self.latest_label, None), Figure::new(&self.change_label, word)];
        RowText::new(&self.name, &self.note, figures)
    }

    /// A price holds until the next is paid: steps, a dot at each purchase, and a thin line from the latest on.
    fn draw(&self, canvas: &mut Canvas, days: &Days, row: &Row) {
        let mut paid: Vec<_> = self.paid.iter().map(|paid| (paid.day, paid.price.to_f64().unwrap_or(0.0))).collect();
        paid.sort_by_key(|(day, _)| *day);
        let (low, high) = paid.iter().fold((f64::MAX, f64::MIN), |(low, high), (_, price)| (low.min(*price), high.max(*price)));
        let middle = f64::midpoint(low, high);
        let reach = ((high - low) / 2.0).max(LEAST_REACH * middle.abs()).max(f64::MIN_POSITIVE);
        let half = (row.bottom - row.top) / 2.0 - PADDING;
        let places: Vec<_> = paid.iter().map(|(day, price)| (days.x(*day), row.middle() - (price - middle) / reach * half)).collect();
        for pair in places.windows(2) {
            if let [(x, y), (next_x, next_y)] = pair {
                canvas.line(Layer::Over, [(*x, *y), (*next_x, *y)], 2.0, LEARNED);
                canvas.line(Layer::Over, [(*next_x, *y), (*next_x, *next_y)], 2.0, LEARNED);
            }
        }
        if let Some((x, y)) = places.last() {
            canvas.line(Layer::Over, [(*x, *y), (days.right, *y)], 1.0, BASELINE);
        }
        for place in places {
            canvas.circle(Layer::Over, place, 4.0, WHITE);
            canvas.circle(Layer::Over, place, 3.0, LEARNED);
        }
    }
}
