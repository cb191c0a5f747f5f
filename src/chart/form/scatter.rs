//! Points on two axes, with lines to measure by: amounts against amounts, or times against times.

use std::collections::BTreeSet;

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::names;
use super::plot::{MANY, Plot};
use super::points::{Dimension, Line, LineLook, Measure, Point, Ranges, Scatter};
use crate::chart::draw::heading::Heading;
use crate::chart::draw::heading::{axis_title, heading, key, only_words};
use crate::chart::draw::page::Page;
use crate::chart::draw::page::Width;
use crate::chart::draw::picture::{Picture, Role};
use crate::chart::draw::sign::KeySign;
use crate::chart::draw::times;
use crate::chart::form::chart::Chart;
use crate::chart::words;

impl Chart for Scatter {
    fn heading(&self) -> &Heading {
        &self.heading
    }

    fn picture(&self, width: Width) -> Picture {
        let page = Page::new(width);
        let mut picture = Picture::new(page);
        let points = self.drawn();
        if points.is_empty() && !self.lines.iter().any(|line| line.look == LineLook::Main) {
            return only_words(picture, &self.heading, &self.sentence);
        }
        let ranges = self.ranges(&points);
        let below_heading = heading(&mut picture, &self.heading);
        let below_key = key(&mut picture, below_heading, &self.key(&points, ranges, page.is_narrow));
        let below_title = axis_title(&mut picture, &self.up.title, (page.margin, below_key + 14.0));
        let plot = Plot::new(self, &page, ranges, below_title);
        plot.draw_ground(&mut picture, self);
        // A crowd of points would hide the lines; a few points would be hidden by them.
        let is_crowd = points.len() >= MANY;
        if is_crowd {
            self.draw_points(&mut picture, &plot, &points, true);
        }
        let (words, mut lines, barred) = plot.draw_lines(&mut picture, self);
        if !is_crowd {
            lines.extend(self.draw_points(&mut picture, &plot, &points, false));
        }
        let (entries, labels) = names::draw(&mut picture, &plot, &points, (words, lines, barred));
        plot.draw_corners(&mut picture, &self.corners, &labels);
        let below = plot.draw_axis_words(&mut picture, &self.across.title);
        let below = names::draw_list(&mut picture, below, &entries);
        let below = names::draw_levels(&mut picture, below, &self.levels);
        picture.finished(below, &self.heading)
    }

    fn rows_in_words(&self) -> Vec<String> {
        let said = self.said.iter().map(|line| words::one_line(line));
        let points = self.points.iter().filter(|point| !point.name.trim().is_empty()).map(|point| {
            let series = self.series.get(point.series).filter(|series| series.is_said).map_or("", |series| series.name.as_str());
            words::line(&point.name, [point.label.as_str(), series])
        });
        let levels = self.levels.iter().map(|level| words::line(&level.name, [level.label.as_str(), level.note.as_str()]));
        words::said(said.chain(points).chain(levels))
    }
}

impl Scatter {
    /// The points that have a place, each with its number.
    fn drawn(&self) -> Vec<(usize, &Point)> {
        let has_place =
            |dimension: &Dimension, amount: Decimal| dimension.measure != Measure::Times || amount.to_f64().is_some_and(times::is_drawn);
        let is_drawn =
            |point: &Point| point.across >= Decimal::ZERO && has_place(&self.across, point.across) && has_place(&self.up, point.up);
        self.points.iter().enumerate().filter(|(_, point)| is_drawn(point)).collect()
    }

    /// What both axes must hold: all points, or those that are not far out, and all that the lines stand at.
    fn ranges(&self, points: &[(usize, &Point)]) -> Ranges {
        use crate::chart::draw::{fence, ticks};
        let within = |amounts: Vec<Decimal>| {
            if self.beyond.is_some() {
                let (low, high) = fence::within(amounts);
                vec![low, high]
            } else {
                amounts
            }
        };
        let across = within(points.iter().map(|(_, point)| point.across).collect());
        let uprights = self.uprights.iter().map(|(amount, _)| *amount).chain(self.across.reach);
        let across = ticks::range(across.into_iter().chain(uprights), points.iter().filter_map(|(_, point)| point.range()));
        let up = within(points.iter().map(|(_, point)| point.up).collect());
        let at_end = |line: &Line| (line.look == LineLook::Main).then(|| line.base.saturating_add(line.slope.saturating_mul(across.1)));
        let lines = self.lines.iter().flat_map(|line| [Some(line.base), at_end(line)]).flatten();
        let marked = lines.chain(self.levels.iter().filter_map(|level| level.amount)).chain(self.up.reach);
        (across, ticks::range(up.into_iter().chain(marked), std::iter::empty()))
    }

    /// Only what occurs in this chart.
    fn key(&self, points: &[(usize, &Point)], (across, up): Ranges, is_narrow: bool) -> Vec<(KeySign, String)> {
        let occurs = |at: usize| points.iter().any(|(_, point)| point.series == at);
        let series = self.series.iter().enumerate().filter(|(at, _)| occurs(*at));
        let mut key: Vec<_> = series.map(|(_, series)| (KeySign::Sign(series.sign), series.name.clone())).collect();
        if points.iter().any(|(_, point)| point.range.is_some()) {
            key.push((KeySign::ThinRange, self.range.clone()));
        }
        let is_beyond = |point: &Point| point.across > across.1 || !(up.0..=up.1).contains(&point.up);
        match (&self.beyond, points.iter().filter(|(_, point)| is_beyond(point)).count()) {
            (None, _) | (_, 0) => {}
            (Some([one, _]), 1) => key.push((KeySign::Beyond, one.clone())),
            (Some([_, many]), count) => key.push((KeySign::Beyond, format!("{count} {many}"))),
        }
        if self.levels.iter().any(|level| level.amount.is_some()) {
            key.push((KeySign::Level, self.level.clone()));
        }
        key.extend(self.band.iter().map(|(_, words)| (KeySign::Band, words.clone())));
        let levels = self.lines.iter().filter(|line| is_narrow && line.is_level());
        key.extend(levels.map(|line| (KeySign::Line, line.words.clone())));
        key
    }

    /// Ranges and signs; returns the lines of the ranges. Of points in one place one is drawn.
    fn draw_points(&self, picture: &mut Picture, plot: &Plot, points: &[(usize, &Point)], is_small: bool) -> Vec<[(f64, f64); 2]> {
        let mut lines = Vec::new();
        for (at, point) in points {
            picture.role(Role::Data(*at));
            lines.extend(plot.draw_range(picture, point));
        }
        // The first series on top, and in each the first point.
        let mut ordered: Vec<_> = points.iter().rev().collect();
        ordered.sort_by_key(|(_, point)| std::cmp::Reverse(point.series));
        let mut seen = BTreeSet::new();
        for (at, point) in ordered {
            picture.role(Role::Data(*at));
            if let (Some(series), true) = (self.series.get(point.series), seen.insert((plot.quarters(point), point.series))) {
                plot.draw_point(picture, point, series.sign, is_small);
            }
        }
        lines
    }
}

impl Point {
    /// The lower end first; none left of zero.
    pub(super) fn range(&self) -> Option<(Decimal, Decimal)> {
        self.range.map(|(low, high)| (low.min(high).max(Decimal::ZERO), low.max(high).max(Decimal::ZERO)))
    }
}
