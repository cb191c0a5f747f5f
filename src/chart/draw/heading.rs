//! What surrounds every chart: title and subtitle, the key, what an axis measures, and the sentence where there is
//! nothing to draw.

use super::page::BELOW;
use super::picture::{Picture, Role, Words};
use super::sign::KeySign;
use super::theme::SOFT_INK;
use super::{font::Weight, text};

/// What stands over a chart.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Heading {
    /// What the chart finds, as a sentence.
    pub title: String,
    /// What it shows: period, count, caution.
    pub subtitle: String,
}

impl Picture {
    /// Finished, its last line ending at `bottom`.
    pub(in crate::chart) fn finished(self, bottom: f64, heading: &Heading) -> Self {
        let label = text::clean(&format!("{}. {}", heading.title, heading.subtitle));
        Self { height: (bottom + BELOW).ceil(), label, ..self }
    }
}

/// From a sign of the key to its words, and between two entries.
const SIGN_ROOM: f64 = 30.0;
const BETWEEN: f64 = 22.0;

/// Draws the title in at most four lines, subtitle in at most five, half as many more on a narrow page; returns where the next
/// thing may begin.
pub fn heading(picture: &mut Picture, heading: &Heading) -> f64 {
    picture.role(Role::Heading);
    let page = picture.page();
    let (most_of_title, most_of_subtitle) = if page.is_narrow { (6, 8) } else { (4, 5) };
    let title = text::wrap(&text::clean(&heading.title), Weight::SemiBold, page.title.size, page.room(), most_of_title);
    let y = page.margin - 8.0 + page.title.line;
    let y = picture.lines((page.margin, y), page.title.line, &title, |line| Words::new(line, page.title.size).bold());
    let y = y - page.title.line + 6.0 + page.subtitle.line;
    let subtitle = text::wrap(&text::clean(&heading.subtitle), Weight::Regular, page.subtitle.size, page.room(), most_of_subtitle);
    let y = picture.lines((page.margin, y), page.subtitle.line, &subtitle, |line| Words::new(line, page.subtitle.size).ink(SOFT_INK));
    y - page.subtitle.line + 20.0
}

/// Draws a whole picture where a sentence says all there is; without one, the usual sentence.
pub(crate) fn only_words(mut picture: Picture, about: &Heading, sentence: &str) -> Picture {
    let sentence = if sentence.is_empty() { "There is nothing to draw for this period yet." } else { sentence };
    let page = picture.page();
    let y = heading(&mut picture, about) + 12.0;
    let lines = text::wrap(&text::clean(sentence), Weight::Regular, page.body.size, page.room(), 6);
    let below = picture.lines((page.margin, y), page.body.line, &lines, |line| Words::new(line, page.body.size));
    picture.finished(below - page.body.line, about)
}

/// Draws the key, as many entries to a line as fit, without those that have no words; returns where the next thing may begin.
pub fn key(picture: &mut Picture, top: f64, entries: &[(KeySign, String)]) -> f64 {
    picture.role(Role::Key);
    let page = picture.page();
    let (mut x, mut y) = (page.margin, top + 14.0);
    let mut below = top;
    for (sign, entry) in entries.iter().filter(|(_, entry)| !entry.is_empty()) {
        let entry = text::clean(entry);
        let width = SIGN_ROOM + text::width(&entry, Weight::Regular, page.small.size);
        if x > page.margin && x + width > page.right() {
            (x, y) = (page.margin, y + 24.0);
        }
        sign.draw(picture, x, y - 4.5);
        let lines = text::wrap(&entry, Weight::Regular, page.small.size, page.room() - SIGN_ROOM, 2);
        let next = picture.lines((x + SIGN_ROOM, y), page.small.line, &lines, |line| Words::new(line, page.small.size));
        x += width + BETWEEN;
        if lines.len() > 1 {
            y = next - page.small.line;
        }
        below = y + 20.0;
    }
    below
}

/// Draws what an axis measures, from `left` on; from further left where it would leave the page, and on two lines where one is
/// too short. Returns the baseline of the last.
pub(crate) fn axis_title(picture: &mut Picture, title: &str, (left, y): (f64, f64)) -> f64 {
    picture.role(Role::Axis);
    let page = picture.page();
    let lines = text::wrap(&text::clean(title), Weight::Regular, page.small.size, page.room(), if page.is_narrow { 2 } else { 1 });
    let widest = lines.iter().map(|line| text::width(line, Weight::Regular, page.small.size)).fold(0.0, f64::max);
    let left = left.min(page.right() - widest).max(page.margin);
    let below = picture.lines((left, y), page.small.line, &lines, |line| Words::new(line, page.small.size).ink(SOFT_INK));
    (below - page.small.line).max(y)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::draw::fill::Fill;
    use crate::chart::draw::page::{Page, Width};
    use crate::chart::draw::sign::Sign;

    #[test]
    fn the_key_goes_on_to_a_second_line_rather_than_off_the_page() {
        for width in [Width::Wide, Width::Narrow] {
            let entries = |count: usize| vec![(KeySign::Sign(Sign::Bar(Fill::Sum)), "an element of the cost".to_owned()); count];
            let mut picture = Picture::new(Page::new(width));
            let one = key(&mut picture, 0.0, &entries(1));
            let many = key(&mut picture, 0.0, &entries(9));
            assert!(many >= one + 24.0);
            assert!(key(&mut picture, 7.0, &[]).to_bits() == 7.0_f64.to_bits());
            assert!(key(&mut picture, 7.0, &[(KeySign::Range, String::new())]).to_bits() == 7.0_f64.to_bits());
        }
    }
}
