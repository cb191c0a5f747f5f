//! Points on two axes, with lines to measure by: amounts against amounts, or times against times.

use std::collections::BTreeSet;

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::names;
use super::plot::{MANY, Plot};
use crate::chart::draw::heading::{axis_title, heading, key, only_words};
use crate::chart::draw::page::Page;
use crate::chart::draw::picture::{Picture, Role};
use crate::chart::draw::sign::KeySign;
use crate::chart::draw::times;
use crate::chart::{AmountStyle, Chart, Heading, Series, Tone, Width, words};

/// How an axis runs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Measure {
    /// Even steps, zero among them.
    Amounts(AmountStyle),
    /// Minutes, equal factors at equal lengths. Where both axes are times they are alike, and the plot is a square.
    Times,
}

impl Default for Measure {
    fn default() -> Self {
        Self::Amounts(AmountStyle::default())
    }
}

/// One of the two axes.
#[derive(Debug, Clone, Default)]
pub struct Dimension {
    /// What it measures.
    pub title: String,
    /// How it runs.
    pub measure: Measure,
    /// It reaches at least as far as this.
    pub reach: Option<Decimal>,
}

/// One point. It is left out where it is left of zero, or a time that no order takes.
#[derive(Debug, Clone, Default)]
pub struct Point {
    /// What it stands for; those without a name are not said in words.
    pub name: String,
    /// Its amounts as they are to be read.
    pub label: String,
    /// Its place across.
    pub across: Decimal,
    /// Its place up.
    pub up: Decimal,
    /// A range of 90 % across, in either order.
    pub range: Option<(Decimal, Decimal)>,
    /// The number of its series, which decides its sign.
    pub series: usize,
    /// Whether its name is written beside it; where there is no room, a number that a list below the plot explains.
    pub is_named: bool,
}

/// How a line looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineLook {
    /// The one to measure by: dark, its words bold.
    Target,
    /// Another: thin and grey.
    Faint,
    /// What the chart is about: blue and broad.
    Main,
    /// Where both axes agree: dark and thin.
    Even,
}

/// A straight line: up = `base` + `slope` × across. Between times its base must be zero.
#[derive(Debug, Clone)]
pub struct Line {
    /// Where it stands at zero.
    pub base: Decimal,
    /// What each unit across adds.
    pub slope: Decimal,
    /// The words at its end. A line whose words find no room is not drawn.
    pub words: String,
    /// How it looks.
    pub look: LineLook,
}

/// What the points of a stretch come to together: a bold level line, and an entry below the plot.
#[derive(Debug, Clone, Default)]
pub struct Level {
    /// What the stretch is called.
    pub name: String,
    /// The amount as it is to be read, or why there is none.
    pub label: String,
    /// A few words beneath; may be empty.
    pub note: String,
    /// Where it begins.
    pub from: Decimal,
    /// Where it ends; `None` for no end.
    pub to: Option<Decimal>,
    /// What its points come to; `None` draws no line.
    pub amount: Option<Decimal>,
}

/// A corner of the plot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Corner {
    /// Upper left.
    TopLeft,
    /// Upper right.
    TopRight,
    /// Lower left.
    BottomLeft,
    /// Lower right.
    BottomRight,
}

/// Points and lines.
#[derive(Debug, Clone, Default)]
pub struct Scatter {
    /// What stands over the chart.
    pub heading: Heading,
    /// The axis across.
    pub across: Dimension,
    /// The axis up.
    pub up: Dimension,
    /// What the signs of the points mean, in the order of the key; the first lies on top.
    pub series: Vec<Series>,
    /// The points; where there is too little room for all names, those that come first have theirs.
    pub points: Vec<Point>,
    /// What a range is called in the key.
    pub range: String,
    /// Lines through the plot.
    pub lines: Vec<Line>,
    /// Upright lines, each with the words above it.
    pub uprights: Vec<(Decimal, String)>,
    /// Levels of stretches, listed below the plot.
    pub levels: Vec<Level>,
    /// What a level is called in the key.
    pub level: String,
    /// Between times: from the even line ÷ this factor to the even line × it lies the usual, called so in the key.
    pub band: Option<(Decimal, String)>,
    /// Words in corners, where nothing is in their way.
    pub corners: Vec<(Corner, String, Tone)>,
    /// Points far out of the rest are arrow heads at the edge, if they have words for the key: for one, and for many
    /// after their number.
    pub beyond: Option<[String; 2]>,
    /// What is said where there is nothing to draw, in place of the usual sentence.
    pub sentence: String,
    /// What is said in words before the points.
    pub said: Vec<String>,
}

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
        let (words, mut lines) = plot.draw_lines(&mut picture, self);
        if !is_crowd {
            lines.extend(self.draw_points(&mut picture, &plot, &points, false));
        }
        let (entries, labels) = names::draw(&mut picture, &plot, &points, (words, lines));
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

/// The least and the greatest amount across, and up.
pub type Ranges = ((Decimal, Decimal), (Decimal, Decimal));

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

impl Line {
    /// Whether it is the one to measure by and runs level, so that on a narrow page the key has its words.
    pub(super) fn is_level(&self) -> bool {
        self.look == LineLook::Target && self.slope.is_zero()
    }
}
