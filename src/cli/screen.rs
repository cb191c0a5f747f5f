//! Documents as wide as the screen they are printed on.

use crate::report::document::Document;
use crate::report::screen::Screen;
use crate::report::terminal::{self, WIDTH, printed_within};
use std::io::IsTerminal;
use std::sync::OnceLock;
use terminal_size::{Width, terminal_size_of};

/// Columns of the terminal that the program prints on.
static COLUMNS: OnceLock<usize> = OnceLock::new();

/// Fits what is printed to the terminal, where the output stream is one. Whoever calls [`super::run`] without it gets lines of up to 100
/// columns, wherever they go.
pub fn fit_terminal() {
    let out = std::io::stdout();
    if let Some((Width(columns), _)) = out.is_terminal().then(|| terminal_size_of(&out)).flatten() {
        COLUMNS.get_or_init(|| usize::from(columns));
    }
}

/// A document for the output stream.
pub(crate) fn on_screen(document: &Document, screen: Screen) -> String {
    printed_within(document, screen, columns())
}

/// Sentences broken into lines for the output stream.
pub(crate) fn prose(text: &str) -> String {
    terminal::prose_within(text, columns())
}

/// Items for the output stream, two columns in.
pub fn listed(items: &[String]) -> String {
    terminal::list_within("", items, columns())
}

fn columns() -> usize {
    COLUMNS.get().copied().unwrap_or(WIDTH)
}
