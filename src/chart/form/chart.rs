//! What every form can do.

use crate::chart::draw::heading::Heading;
use crate::chart::draw::page::Width;
use crate::chart::draw::picture::Picture;
use crate::chart::words::one_line;

/// A finished chart.
pub trait Chart {
    /// What stands over it.
    fn heading(&self) -> &Heading;

    /// The chart laid out for one width, as tall as it needs. Without anything to draw, a sentence says so.
    fn picture(&self, width: Width) -> Picture;

    /// The rows in words, a line each with its name and figures, as plain text without control characters; of more
    /// than 60 the first 60 and how many more there are.
    fn rows_in_words(&self) -> Vec<String>;

    /// The chart as SVG, with a white ground of its own.
    fn svg(&self, width: Width) -> String {
        self.picture(width).svg()
    }

    /// The chart for an HTML page; see [`Picture::svg_in_page`]. `id` must differ from picture to picture.
    fn svg_in_page(&self, id: &str, width: Width) -> String {
        self.picture(width).svg_in_page(id)
    }

    /// The chart in words: title, subtitle, then the [rows](Self::rows_in_words), a line each.
    fn alternative(&self) -> String {
        let Heading { title, subtitle } = self.heading();
        let heading = [title, subtitle].map(|text| one_line(text)).into_iter().filter(|line| !line.is_empty());
        heading.chain(self.rows_in_words()).collect::<Vec<_>>().join("\n")
    }
}
