//! Prices over time: a strip for each row, on the same days, each up and down on a scale of its own.

use chrono::NaiveDate;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use crate::chart::draw::heading::Heading;
use crate::chart::draw::heading::{axis_title, heading, only_words};
use crate::chart::draw::page::Page;
use crate::chart::draw::page::Width;
use crate::chart::draw::picture::{Align, Layer, Picture, Role, Words};
use crate::chart::draw::row::Row;
use crate::chart::draw::table::Table;
use crate::chart::draw::text;
use crate::chart::draw::theme::{BASELINE, GRID, LEARNED, SOFT_INK, WHITE};
use crate::chart::form::chart::Chart;
use crate::chart::words;

/// From the edges of a lane to the highest and the lowest price, beside the table and beneath it.
const PADDING: f64 = 9.0;
const NARROW_PADDING: f64 = 5.0;
/// The least height of a lane.
const LANE: f64 = 34.0;
/// A strip is at least as high as this part of its middle price, either way: a change of a few percent stays small.
const LEAST_REACH: f64 = 0.15;
/// Between two labels of days.
const APART: f64 = 12.0;

/// One row.
#[derive(Debug, Clone, Default)]
pub struct Strip {
    /// Its words.
    pub row: Row,
    /// What was paid on each day, in any order; of one day they keep the order given.
    pub paid: Vec<(NaiveDate, Decimal)>,
}

/// Strips from the top down, in the order given: a dozen is as many as a reader takes in.
#[derive(Debug, Clone, Default)]
pub struct Strips {
    /// What stands over the chart.
    pub heading: Heading,
    /// What the strips show.
    pub axis: String,
    /// Over the columns of figures.
    pub columns: Vec<String>,
    /// The rows.
    pub strips: Vec<Strip>,
    /// Days to be named below the strips, in order, such as the first of each month; those without room are left out.
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
    fn place(&self, day: NaiveDate) -> f64 {
        let days = |until: NaiveDate| u32::try_from(until.signed_duration_since(self.first).num_days()).map_or(0.0, f64::from);
        let span = days(self.last).max(1.0);
        self.left + (days(day) / span).min(1.0) * (self.right - self.left)
    }
}

impl Chart for Strips {
    fn heading(&self) -> &Heading {
        &self.heading
    }

    fn picture(&self, width: Width) -> Picture {
        let page = Page::new(width);
        let mut picture = Picture::new(page);
        let days = || self.strips.iter().flat_map(|strip| &strip.paid).map(|(day, _)| *day);
        let (Some(first), Some(last)) = (days().min(), days().max()) else {
            return only_words(picture, &self.heading, "");
        };
        let below_heading = heading(&mut picture, &self.heading);
        let table = Table::new(&page, self.strips.iter().map(|strip| &strip.row).collect(), &self.columns, (below_heading, LANE));
        // The dots of the first and the last day stay on the page.
        let days = Days { first, last, left: table.plot.0 + 5.0, right: table.plot.1 - 5.0 };
        table.draw(&mut picture);
        self.draw_ticks(&mut picture, &days, &table);
        // All strips are as high as the lowest lane: a name of two lines makes no price jump further.
        let lane = table.placed.iter().map(|row| row.lane.1 - row.lane.0).fold(f64::MAX, f64::min);
        let half = lane / 2.0 - if page.is_narrow { NARROW_PADDING } else { PADDING };
        for (at, (strip, placed)) in self.strips.iter().zip(&table.placed).enumerate() {
            picture.role(Role::Data(at));
            strip.draw(&mut picture, &days, (placed.middle(), half));
        }
        let bottom = axis_title(&mut picture, &self.axis, (table.plot.0, table.bottom + 38.0));
        picture.finished(bottom, &self.heading)
    }

    fn rows_in_words(&self) -> Vec<String> {
        words::said(self.strips.iter().map(|strip| words::row(&strip.row, "", &self.columns, Vec::new())))
    }
}

impl Strips {
    /// A line through all strips at each day that is named, and its name.
    fn draw_ticks(&self, picture: &mut Picture, days: &Days, table: &Table) {
        picture.role(Role::Axis);
        let page = picture.page();
        let mut free_from = page.margin.max(table.plot.0 - 20.0);
        for (day, label) in self.ticks.iter().filter(|(day, _)| (days.first..=days.last).contains(day)) {
            let words = Words::new(text::clean(label), page.small.size).ink(SOFT_INK).align(Align::Middle);
            let (x, half) = (days.place(*day), words.width() / 2.0);
            let middle = x.max(page.margin + half).min(page.right() - half);
            if middle - half < free_from - 0.01 {
                continue;
            }
            free_from = middle + half + APART;
            for (top, bottom) in table.spans(&page) {
                picture.line(Layer::Ground, [(x, top), (x, bottom)], 1.0, GRID);
            }
            for y in table.tick_baselines() {
                picture.words((middle, y), words.clone());
            }
        }
    }
}

impl Strip {
    /// A price holds until the next is paid: steps, a dot at each purchase, and a thin line from the latest on.
    fn draw(&self, picture: &mut Picture, days: &Days, (middle_y, half): (f64, f64)) {
        let mut paid: Vec<_> = self.paid.iter().map(|(day, price)| (*day, price.to_f64().unwrap_or(0.0))).collect();
        paid.sort_by_key(|(day, _)| *day);
        let (low, high) = paid.iter().fold((f64::MAX, f64::MIN), |(low, high), (_, price)| (low.min(*price), high.max(*price)));
        let middle = f64::midpoint(low, high);
        let reach = ((high - low) / 2.0).max(LEAST_REACH * middle.abs()).max(f64::MIN_POSITIVE);
        let places: Vec<_> = paid.iter().map(|(day, price)| (days.place(*day), middle_y - (price - middle) / reach * half)).collect();
        for pair in places.windows(2) {
            if let [(x, y), (next_x, next_y)] = pair {
                picture.line(Layer::Over, [(*x, *y), (*next_x, *y)], 2.0, LEARNED);
                picture.line(Layer::Over, [(*next_x, *y), (*next_x, *next_y)], 2.0, LEARNED);
            }
        }
        if let Some((x, y)) = places.last() {
            picture.line(Layer::Over, [(*x, *y), (days.right, *y)], 1.0, BASELINE);
        }
        for place in places {
            picture.circle(Layer::Over, place, 4.0, WHITE);
            picture.circle(Layer::Over, place, 3.0, LEARNED);
        }
    }
}
