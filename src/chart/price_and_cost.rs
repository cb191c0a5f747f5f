//! What a piece costs, element by element, against what it is sold for.

use std::collections::BTreeSet;

use rust_decimal::Decimal;

use super::axis::AmountStyle;
use super::canvas::{Align, Canvas, Layer, Words};
use super::frame::{self, Axis};
use super::marks::{self, Sign};
use super::row::{self, Figure, Row, RowText, Rows};
use super::text;
use super::theme::{self, BELOW, SHORT_INK, SMALL};

/// Over the price, and the cost with the word "short" beneath it.
const HEADINGS: [&str; 2] = ["price", "cost"];

/// One stacked bar with its price.
#[derive(Debug, Clone)]
pub struct CostRow {
    /// What the bar is for. Two lines are shown, the rest cut short with `…`.
    pub name: String,
    /// Cost a piece by element, in the currency's main unit, in the order of [`CostChart::elements`]. A negative part
    /// (a credit) is not drawn. Parts past the last element are drawn and named `other`.
    pub parts: Vec<Decimal>,
    /// Price a piece, in the currency's main unit: where the mark stands.
    pub price: Decimal,
    /// The price as it is to be read.
    pub price_label: String,
    /// The whole cost as it is to be read.
    pub cost_label: String,
    /// Whether the price does not cover the cost: the row then has the word, and what is not covered is hatched.
    pub short: bool,
}

/// Costs a piece in stacked bars, in the order given, from zero, each with its price.
#[derive(Debug, Clone)]
pub struct CostChart {
    /// What the chart finds, as a sentence.
    pub title: String,
    /// What it shows: period, count, caution.
    pub subtitle: String,
    /// What the axis measures, such as `per piece, USD`.
    pub axis: String,
    /// How amounts are written at the ticks and in the bars.
    pub amounts: AmountStyle,
    /// The elements of cost, in the order of the stack.
    pub elements: Vec<String>,
    /// The rows, from the top down.
    pub rows: Vec<CostRow>,
}

impl CostChart {
    /// The chart as SVG, 640 CSS pixels wide and as tall as it needs. Without rows, a sentence says so.
    #[must_use]
    pub fn svg(&self) -> String {
        if self.rows.is_empty() {
            return frame::nothing_to_draw(&self.title, &self.subtitle);
        }
        let mut canvas = Canvas::default();
        let below_heading = frame::heading(&mut canvas, &self.title, &self.subtitle);
        let below_key = frame::key(&mut canvas, below_heading, &self.key());
        let texts: Vec<_> = self.rows.iter().map(CostRow::text).collect();
        let rows = Rows::new(texts, &HEADINGS, |close| below_key + row::heading_room(true, close));
        let axis = Axis::new(self.range(), rows.plot_left, &self.amounts);
        axis.draw_lines(&mut canvas, rows.top, rows.bottom);
        rows.draw_headings(&mut canvas, &HEADINGS);
        rows.draw(&mut canvas);
        for (bar, row) in self.rows.iter().zip(&rows.placed) {
            self.draw_bar(&mut canvas, &axis, bar, row, if rows.close { 9.0 } else { 12.0 });
        }
        if rows.close {
            axis.draw_labels(&mut canvas, rows.top - 8.0);
        }
        axis.draw_labels(&mut canvas, rows.bottom + 18.0);
        axis.draw_title(&mut canvas, &self.axis, rows.bottom + 38.0);
        canvas.svg(rows.bottom + 38.0 + BELOW, &frame::label(&self.title, &self.subtitle))
    }

    fn key(&self) -> Vec<(Sign, String)> {
        let named = self.elements.iter().map(String::as_str);
        let most_parts = self.rows.iter().map(|row| row.parts.len()).max().unwrap_or(0);
        let unnamed = (most_parts > self.elements.len()).then_some("other");
        let occurs = |index: usize| self.rows.iter().any(|row| row.parts.iter().skip(index).take(1).any(|part| !part.is_zero()));
        let parts = named.chain(unnamed).enumerate().filter(|(index, name)| occurs(*index) || unnamed == Some(*name));
        let mut key: Vec<_> = parts.map(|(index, name)| (Sign::Plain(theme::part(index).0), name.to_owned())).collect();
        key.push((Sign::Pin, "price".to_owned()));
        // In the fills it is drawn over.
        let hatched: BTreeSet<_> = self.rows.iter().flat_map(CostRow::not_covered).map(|index| self.place_in_key(index)).collect();
        if let (Some(first), Some(last)) = (hatched.first(), hatched.last()) {
            key.push((Sign::HatchedPair(theme::part(*first).0, theme::part(*last).0), "not covered".to_owned()));
        }
        key
    }

    /// Parts past the last element share one place.
    fn place_in_key(&self, index: usize) -> usize {
        index.min(self.elements.len())
    }

    fn range(&self) -> (Decimal, Decimal) {
        let prices = || self.rows.iter().map(|row| row.price);
        let costs = self.rows.iter().map(CostRow::drawn_cost);
        (prices().fold(Decimal::ZERO, Decimal::min), prices().chain(costs).fold(Decimal::ZERO, Decimal::max))
    }

    fn draw_bar(&self, canvas: &mut Canvas, axis: &Axis, bar: &CostRow, row: &Row, half_height: f64) {
        let (top, bottom) = (row.middle() - half_height, row.middle() + half_height);
        let price_x = axis.scale.x(bar.price);
        let covered = if bar.short { axis.scale.x(bar.price.max(Decimal::ZERO)) } else { axis.scale.right };
        let mut before = Decimal::ZERO;
        for (index, part) in bar.parts.iter().enumerate() {
            let after = before.saturating_add((*part).max(Decimal::ZERO));
            let (left, right) = (axis.scale.x(before), axis.scale.x(after));
            before = after;
            let (fill, ink) = theme::part(self.place_in_key(index));
            // A white gap sets neighbours apart, as far as the part is wide enough to lose it.
            let gap = if right - left > 3.0 { 1.0 } else { 0.0 };
            canvas.rect(Layer::Fill, [left, top, right - gap, bottom], fill);
            let amount = text::clean(&self.amounts.write(*part, self.amounts.decimals));
            let words = Words::new(amount, SMALL).ink(ink).rim(fill).align(Align::Middle);
            // Never over the hatching.
            if let Some(x) = clear_of(price_x, (left, (right - gap).min(covered)), words.width()) {
                canvas.words((x, row.middle() + 4.5), words);
            }
        }
        // Nothing where the price covers it all: the place is empty then.
        canvas.hatching([covered, top, axis.scale.x(before), bottom]);
        marks::pin(canvas, price_x, top - 5.0, bottom + 5.0);
    }
}

/// The middle of the wider side of a part, beside the price mark if that crosses it; `None` if a label of `width`
/// does not fit there.
fn clear_of(mark: f64, (left, right): (f64, f64), width: f64) -> Option<f64> {
    const FROM_EDGE: f64 = 5.0;
    const FROM_MARK: f64 = 8.0;
    let (left, right) = (left + FROM_EDGE, right - FROM_EDGE);
    let sides = [(left, right.min(mark - FROM_MARK)), (left.max(mark + FROM_MARK), right)];
    let (left, right) = if sides[0].1 - sides[0].0 >= sides[1].1 - sides[1].0 { sides[0] } else { sides[1] };
    (right - left >= width).then(|| f64::midpoint(left, right))
}

impl CostRow {
    fn text(&self) -> RowText {
        let word = self.short.then_some(("short", SHORT_INK));
        let figures = vec![Figure::new(&self.price_label, None), Figure::new(&self.cost_label, word)];
        RowText::new(&self.name, "", figures)
    }

    /// The parts that the price does not cover, or not wholly.
    fn not_covered(&self) -> Vec<usize> {
        let mut reached = Decimal::ZERO;
        let mut parts = Vec::new();
        for (index, part) in self.parts.iter().enumerate() {
            reached = reached.saturating_add((*part).max(Decimal::ZERO));
            if self.short && *part > Decimal::ZERO && reached > self.price {
                parts.push(index);
            }
        }
        parts
    }

    /// The length of the bar.
    fn drawn_cost(&self) -> Decimal {
        self.parts.iter().fold(Decimal::ZERO, |sum, part| sum.saturating_add((*part).max(Decimal::ZERO)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::png;
    use crate::chart::samples::{attribute, axis, dec, four_costs, rectangles, row, texts};

    /// Okabe and Ito's sky blue, vermillion, yellow, bluish green, orange and blue, in the order of the stack.
    const FILLS: [&str; 6] = ["#56B4E9", "#D55E00", "#F0E442", "#009E73", "#E69F00", "#0072B2"];
    const HATCH: &str = "url(#fairdozen-hatch)";

    #[test]
    fn parts_follow_one_another_from_zero_with_their_amounts() {
        let svg = four_costs().svg();
        let (zero, dollar) = axis(&svg);
        let parts = [0.41, 0.30, 0.39, 0.52, 1.60, 12.15];
        let mut before = 0.0;
        for (fill, part) in FILLS.into_iter().zip(parts) {
            // The key's first, then one a row; the last row is the character's.
            let [x, _, width, _] = *rectangles(&svg, fill).iter().rfind(|[x, ..]| *x >= zero - 0.5).unwrap();
            // Half a pixel of rounding at either end, and the white gap.
            assert!((x - (zero + before * dollar)).abs() <= 0.5, "{fill} begins at {x}");
            assert!((width - part * dollar).abs() <= 2.0, "{fill} is {width} wide for {part}");
            before += part;
        }
        assert!(texts(&svg).iter().any(|(text, _)| *text == "$12.15"));
    }

    #[test]
    fn the_price_stands_at_its_amount() {
        let svg = four_costs().svg();
        let (zero, dollar) = axis(&svg);
        for price in [2.75, 4.25, 7.00, 10.50] {
            let at =
                |line: &&str| line.contains("stroke-width=\"12\"") && (attribute(line, "x1") / 4.0 - zero - price * dollar).abs() <= 0.25;
            assert_eq!(svg.lines().filter(|line| line.starts_with("<line")).filter(at).count(), 1, "{price}");
        }
    }

    #[test]
    fn what_the_price_does_not_cover_is_hatched_and_named() {
        let svg = four_costs().svg();
        let (zero, dollar) = axis(&svg);
        // One in the key; detailed is short by 0.38, the character by 4.87.
        let hatched = rectangles(&svg, HATCH);
        assert_eq!(hatched.len(), 3);
        let [x, _, width, _] = hatched[2];
        assert!((x - 1.0 - zero - 10.50 * dollar).abs() <= 0.5 && (width + 2.0 - 4.87 * dollar).abs() <= 1.0);
        assert_eq!(texts(&svg).iter().filter(|(text, _)| *text == "short").count(), 2);

        let mut dear = four_costs();
        dear.rows.truncate(2);
        assert!(!dear.svg().contains("short") && !dear.svg().contains("not covered"));
    }

    #[test]
    fn labels_and_order_are_the_callers() {
        let svg = four_costs().svg();
        let texts: Vec<_> = texts(&svg).into_iter().map(|(text, _)| text).collect();
        let at = |wanted: &str| texts.iter().position(|text| *text == wanted).unwrap_or_else(|| panic!("no {wanted}"));
        let expected = ["ingredients", "packaging", "fees", "helper pay", "overhead", "your time at $20.00", "Mini", "$2.75", "$2.25"];
        assert!(expected.windows(2).all(|pair| at(pair[0]) < at(pair[1])), "{texts:?}");
        assert!(at("Detailed") < at("$7.00") && at("$7.00") < at("$7.38") && at("$7.38") < at("Character"));
    }

    #[test]
    fn credits_are_not_drawn_and_unnamed_parts_are_other() {
        let mut chart = four_costs();
        let plain = chart.svg();
        chart.rows = vec![row("Mini", &["-0.40", "0.20", "0.10", "0.12", "0.31", "1.42", "0.55"], "2.75")];
        let svg = chart.svg();
        assert!(!plain.contains(">\nother") && texts(&svg).iter().any(|(text, _)| *text == "other"));
        assert_eq!(rectangles(&svg, FILLS[0]).len(), 1, "the key's alone");
        assert_eq!(rectangles(&svg, "#CC79A7").len(), 2, "the key's and the part's");
    }

    #[test]
    fn the_sign_of_what_is_not_covered_has_the_fills_that_are_hatched() {
        let key_of = |chart: &CostChart| {
            let svg = chart.svg();
            let sign = rectangles(&svg, HATCH)[0];
            let under = |fill: &&str| {
                let held = |[x, y, width, height]: &[f64; 4]| {
                    *x <= sign[0] + sign[2] - 2.0 && x + width >= sign[0] + 2.0 && *y <= sign[1] && y + height >= sign[1] + sign[3]
                };
                rectangles(&svg, fill).iter().any(held)
            };
            FILLS.into_iter().filter(|fill| under(fill)).collect::<Vec<_>>()
        };
        let mut chart = four_costs();
        assert_eq!(key_of(&chart), ["#0072B2"], "only time is not covered");
        // Down into the overhead, which ends at 3.22.
        chart.rows[3].price = dec("2.50");
        assert_eq!(key_of(&chart), ["#E69F00", "#0072B2"]);
    }

    #[test]
    fn no_amount_stands_on_the_hatching() {
        let mut chart = four_costs();
        for price in ["0.10", "3.30", "5", "8", "12", "15.30"] {
            chart.rows[3].price = dec(price);
            let svg = chart.svg();
            let hatched = rectangles(&svg, HATCH);
            for (text, line) in texts(&svg).into_iter().filter(|(_, line)| line.contains("\"middle\"")) {
                let (x, y) = (attribute(line, "x") / 4.0, attribute(line, "y") / 4.0 + 5.0);
                let on = |[left, top, width, height]: &[f64; 4]| (*left..left + width).contains(&x) && (*top..top + height).contains(&y);
                assert!(!hatched.iter().any(on), "{text} at a price of {price}");
            }
        }
    }

    #[test]
    fn an_element_that_costs_nothing_anywhere_is_not_in_the_key() {
        let mut chart = four_costs();
        for row in &mut chart.rows {
            row.parts[3] = Decimal::ZERO;
        }
        let svg = chart.svg();
        let named = |name: &str| texts(&svg).iter().any(|(text, _)| *text == name);
        assert!(!named("helper pay") && named("overhead") && rectangles(&svg, FILLS[3]).is_empty());
        assert_eq!(rectangles(&svg, FILLS[4]).len(), 5, "the others keep their fills");
    }

    #[test]
    fn labels_keep_clear_of_the_price_mark_and_of_the_ends() {
        assert_eq!(clear_of(500.0, (0.0, 100.0), 40.0), Some(50.0));
        assert_eq!(clear_of(20.0, (0.0, 100.0), 40.0), Some(61.5));
        assert_eq!(clear_of(80.0, (0.0, 100.0), 40.0), Some(38.5));
        assert_eq!(clear_of(50.0, (0.0, 100.0), 40.0), None);
        assert_eq!(clear_of(500.0, (0.0, 45.0), 40.0), None);
    }

    #[test]
    fn no_rows_make_a_sentence() {
        let mut chart = four_costs();
        chart.rows.clear();
        assert!(chart.svg().contains("There is nothing to draw for this period yet."));
        assert!(png(&chart.svg()).is_ok());
    }

    #[test]
    fn odd_data_are_drawn_all_the_same() {
        let mut chart = four_costs();
        chart.elements.clear();
        chart.rows[0].parts.clear();
        chart.rows[1].price = dec("-3");
        chart.rows[2].parts = vec![Decimal::MAX, Decimal::MAX];
        chart.rows[3].price = Decimal::MIN;
        assert!(png(&chart.svg()).is_ok());
        assert_eq!(chart.svg(), chart.svg());
    }
}
