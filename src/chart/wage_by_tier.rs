//! Pay an hour, a bar a tier (or design, or month), against the target.

use rust_decimal::Decimal;

use super::axis::{self, AmountStyle};
use super::canvas::{Align, Canvas, Layer, Words};
use super::font::Weight;
use super::frame::{self, Axis};
use super::marks::{self, Sign};
use super::row::{Figure, Row, RowText, Rows};
use super::text;
use super::theme::{BELOW, INK, MARGIN, OVER, OVER_INK, SHORT, SHORT_INK, SMALL, UNKNOWN, WIDTH};

/// Whether a wage reaches the target.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// At or over the target.
    Over,
    /// Short of the target.
    Short,
    /// Not judged: no target, no hours, or too close to call.
    Unknown,
}

/// One bar.
#[derive(Debug, Clone)]
pub struct WageBar {
    /// What the bar is for. Two lines are shown, the rest cut short with `…`.
    pub name: String,
    /// Pay an hour in the currency's main unit; `None` where no hours are known, which draws no bar.
    pub wage: Option<Decimal>,
    /// The wage as it is to be read, such as `$9.10`; `no hours` is written where this is empty and `wage` is `None`.
    pub label: String,
    /// A few words beneath the name, such as `12 orders, 214 pieces`; may be empty.
    pub note: String,
    /// Lower end of the 90 % interval. The interval is drawn where both ends are known, and `wage` is.
    pub low: Option<Decimal>,
    /// Upper end of the 90 % interval.
    pub high: Option<Decimal>,
    /// Whether the wage reaches the target: decides the fill and the word under the label.
    pub standing: Standing,
}

/// Pay an hour in bars, in the order given, from zero.
#[derive(Debug, Clone)]
pub struct WageChart {
    /// What the chart finds, as a sentence.
    pub title: String,
    /// What it shows: period, count, caution.
    pub subtitle: String,
    /// What the axis measures, such as `pay an hour, USD`.
    pub axis: String,
    /// How amounts are written at the ticks.
    pub amounts: AmountStyle,
    /// The bars, from the top down.
    pub bars: Vec<WageBar>,
    /// The target wage and the words beside its line, such as `target $20.00`.
    pub target: Option<(Decimal, String)>,
}

impl WageChart {
    /// The chart as SVG, 640 CSS pixels wide and as tall as it needs. Without bars, a sentence says so.
    #[must_use]
    pub fn svg(&self) -> String {
        if self.bars.is_empty() {
            return frame::nothing_to_draw(&self.title, &self.subtitle);
        }
        let mut canvas = Canvas::default();
        let below_heading = frame::heading(&mut canvas, &self.title, &self.subtitle);
        let below_key = frame::key(&mut canvas, below_heading, &self.key());
        let target_baseline = below_key + 16.0;
        let below_target = if self.target.is_some() { target_baseline + 8.0 } else { below_key };
        let texts: Vec<_> = self.bars.iter().map(WageBar::text).collect();
        // A long chart has its ticks at both ends.
        let rows = Rows::new(texts, &[""], |close| below_target + if close { 22.0 } else { 0.0 });
        let axis = Axis::new(self.range(), rows.plot_left, &self.amounts);
        axis.draw_lines(&mut canvas, rows.top, rows.bottom);
        rows.draw(&mut canvas);
        for (bar, row) in self.bars.iter().zip(&rows.placed) {
            bar.draw(&mut canvas, &axis, row, if rows.close { 8.0 } else { 11.0 });
        }
        if let Some((target, words)) = &self.target {
            draw_target(&mut canvas, axis.scale.x(*target), words, target_baseline, rows.bottom);
        }
        if rows.close {
            axis.draw_labels(&mut canvas, rows.top - 8.0);
        }
        axis.draw_labels(&mut canvas, rows.bottom + 18.0);
        axis.draw_title(&mut canvas, &self.axis, rows.bottom + 38.0);
        canvas.svg(rows.bottom + 38.0 + BELOW, &frame::label(&self.title, &self.subtitle))
    }

    /// Only what occurs in this chart.
    fn key(&self) -> Vec<(Sign, String)> {
        let drawn = |standing| self.bars.iter().any(|bar| bar.wage.is_some() && bar.standing == standing);
        let mut key = Vec::new();
        if drawn(Standing::Over) {
            key.push((Sign::Plain(OVER), "above your target".to_owned()));
        }
        if drawn(Standing::Short) {
            key.push((Sign::Hatched(SHORT), "below your target".to_owned()));
        }
        if drawn(Standing::Unknown) && !key.is_empty() {
            key.push((Sign::Plain(UNKNOWN), "can't tell yet".to_owned()));
        }
        if self.bars.iter().any(|bar| bar.interval().is_some()) {
            key.push((Sign::Whisker, "range (90 %)".to_owned()));
        }
        key
    }

    fn range(&self) -> (Decimal, Decimal) {
        let target = self.target.iter().map(|(target, _)| *target);
        axis::range(self.bars.iter().filter_map(|bar| bar.wage).chain(target), self.bars.iter().filter_map(WageBar::interval))
    }
}

impl WageBar {
    fn text(&self) -> RowText {
        let figure = match (self.wage, self.standing) {
            (None, _) if self.label.trim().is_empty() => Figure::missing("no hours"),
            (None, _) => Figure::missing(&self.label),
            (_, Standing::Over) => Figure::new(&self.label, Some(("above", OVER_INK))),
            (_, Standing::Short) => Figure::new(&self.label, Some(("below", SHORT_INK))),
            (_, Standing::Unknown) => Figure::new(&self.label, None),
        };
        RowText::new(&self.name, &self.note, vec![figure])
    }

    fn interval(&self) -> Option<(Decimal, Decimal)> {
        self.wage?;
        let (low, high) = (self.low?, self.high?);
        Some((low.min(high), low.max(high)))
    }

    fn draw(&self, canvas: &mut Canvas, axis: &Axis, row: &Row, half_height: f64) {
        let Some(wage) = self.wage else { return };
        let (zero, end, middle) = (axis.scale.zero(), axis.scale.x(wage), row.middle());
        let place = [zero.min(end), middle - half_height, zero.max(end), middle + half_height];
        match self.standing {
            Standing::Over => canvas.rect(Layer::Fill, place, OVER),
            Standing::Short => canvas.hatched(place, SHORT),
            Standing::Unknown => canvas.rect(Layer::Fill, place, UNKNOWN),
        }
        if let Some((low, high)) = self.interval() {
            let ends = (axis.scale.x(low), axis.scale.x(high));
            marks::whisker(canvas, ends, middle, (axis.holds(low), axis.holds(high)));
        }
    }
}

/// The line at the target, from its words down through all rows.
fn draw_target(canvas: &mut Canvas, x: f64, words: &str, baseline: f64, bottom: f64) {
    canvas.line(Layer::Over, [(x, baseline + 6.0), (x, bottom + 4.0)], 2.0, INK);
    let words = text::elide(&text::clean(words), Weight::SemiBold, SMALL, WIDTH - 2.0 * MARGIN);
    let words = Words::new(words, SMALL).weight(Weight::SemiBold).align(Align::Middle);
    let half = words.width() / 2.0;
    canvas.words((x.min(WIDTH - MARGIN - half).max(MARGIN + half), baseline), words);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::png;
    use crate::chart::samples::{attribute, axis, bar, dec, four_tiers, rectangles, texts};

    const BLUE: &str = "#0072B2";
    const ORANGE: &str = "#E69F00";
    const HATCH: &str = "url(#fairdozen-hatch)";

    fn close(a: f64, b: f64) -> bool {
        (a - b).abs() <= 0.5
    }

    #[test]
    fn bars_begin_at_zero_and_are_as_long_as_their_wages() {
        let svg = four_tiers().svg();
        let (zero, dollar) = axis(&svg);
        // The first rectangle of each fill belongs to the key.
        let (over, short) = (&rectangles(&svg, BLUE)[1..], &rectangles(&svg, ORANGE)[1..]);
        let lengths: Vec<_> = over.iter().chain(short).map(|[x, _, width, _]| (*x, *width)).collect();
        assert_eq!(lengths.len(), 3);
        for ((x, length), wage) in lengths.into_iter().zip([26.40, 22.75, 9.10]) {
            assert!(close(x, zero) && close(length, wage * dollar), "{x} {length} for {wage}");
        }
    }

    #[test]
    fn a_loss_lies_left_of_zero() {
        let mut chart = four_tiers();
        chart.bars[3] = bar("Character", "-6.50", &[], Standing::Short);
        let svg = chart.svg();
        let (zero, dollar) = axis(&svg);
        let [x, _, width, _] = rectangles(&svg, ORANGE)[1];
        assert!(close(x + width, zero) && close(width, 6.5 * dollar));
        assert!(svg.contains("−$6.50"));
    }

    #[test]
    fn the_target_stands_at_its_amount_under_its_words() {
        let svg = four_tiers().svg();
        let (zero, dollar) = axis(&svg);
        let (_, words) = texts(&svg).into_iter().find(|(text, _)| *text == "target $20.00").unwrap();
        assert!(close(attribute(words, "x") / 4.0, zero + 20.0 * dollar));
        let upright = |line: &&str| line.starts_with("<line") && close(attribute(line, "x1") / 4.0, zero + 20.0 * dollar);
        assert!(svg.lines().filter(upright).any(|line| line.contains("#1F1F1F")));
    }

    #[test]
    fn rows_keep_the_order_given_with_label_note_and_word() {
        let svg = four_tiers().svg();
        let texts: Vec<_> = texts(&svg).into_iter().map(|(text, _)| text).collect();
        let at = |wanted: &str| texts.iter().position(|text| *text == wanted).unwrap_or_else(|| panic!("no {wanted}"));
        let expected = ["Mini", "$26.40", "above", "Basic shape", "$22.75", "Detailed", "$18.30", "Character", "$9.10", "below"];
        assert!(expected.windows(2).all(|pair| at(pair[0]) < at(pair[1])), "{texts:?}");
        assert_eq!(texts.iter().filter(|text| **text == "12 orders, 214 pieces").count(), 4);
        let mut turned = four_tiers();
        turned.bars.reverse();
        let turned = turned.svg();
        assert!(turned.find("Character").unwrap() < turned.find("Basic shape").unwrap());
    }

    #[test]
    fn short_is_said_without_colour_too() {
        let svg = four_tiers().svg();
        // One in the key, one on the bar.
        assert_eq!(rectangles(&svg, HATCH).len(), 2);
        let mut all_over = four_tiers();
        all_over.bars.truncate(2);
        let svg = all_over.svg();
        assert_eq!(rectangles(&svg, HATCH).len(), 0);
        assert!(!svg.contains("below"));
    }

    #[test]
    fn unknown_hours_are_a_word_and_no_bar() {
        let mut chart = four_tiers();
        chart.bars = vec![bar("Mini", "", &["1", "2"], Standing::Short)];
        let svg = chart.svg();
        assert!(texts(&svg).iter().any(|(text, _)| *text == "no hours"));
        for fill in [BLUE, ORANGE, HATCH, "#9A9A9A"] {
            assert_eq!(rectangles(&svg, fill).len(), 0, "{fill}");
        }
        chart.bars[0].label = "hours unknown".into();
        assert!(chart.svg().contains("hours unknown") && !chart.svg().contains("no hours"));
    }

    #[test]
    fn one_wild_interval_does_not_flatten_the_bars_and_is_drawn_open() {
        let mut chart = four_tiers();
        let calm = axis(&chart.svg()).1;
        chart.bars[3].high = Some(dec("5000"));
        let svg = chart.svg();
        assert!(axis(&svg).1 > calm / 2.0);
        assert_eq!(svg.matches("<polygon").count(), 1);
        assert_eq!(four_tiers().svg().matches("<polygon").count(), 0);
    }

    #[test]
    fn intervals_need_both_ends() {
        let mut chart = four_tiers();
        for bar in &mut chart.bars {
            bar.low = None;
        }
        assert!(four_tiers().svg().contains("(90 %)"));
        assert!(!chart.svg().contains("(90 %)"));
    }

    #[test]
    fn no_rows_make_a_sentence() {
        let mut chart = four_tiers();
        chart.bars.clear();
        let svg = chart.svg();
        assert!(svg.contains("There is nothing to draw for this period yet.") && svg.contains("Characters pay $9.10"));
        assert!(png(&svg).is_ok());
    }

    #[test]
    fn the_same_data_give_the_same_bytes() {
        assert_eq!(four_tiers().svg(), four_tiers().svg());
        assert_eq!(png(&four_tiers().svg()).unwrap(), png(&four_tiers().svg()).unwrap());
    }

    #[test]
    fn what_the_maker_typed_cannot_break_the_svg() {
        let mut chart = four_tiers();
        chart.title = "</text><script>&\u{0}\u{1B}[0m".into();
        chart.bars[0].name = "<b>\"Éclair\" & 🍪'\u{FFFF}".into();
        chart.target = Some((dec("20"), "<&>".into()));
        let svg = chart.svg();
        assert!(svg.contains("&lt;b&gt;&quot;Éclair&quot; &amp; �&apos;�"));
        assert!(!svg.contains("<script") && !svg.contains('\u{1B}') && !svg.contains('\u{0}'));
        assert!(png(&svg).is_ok());
    }
}
