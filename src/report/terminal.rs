//! Documents on a terminal, at most 100 columns wide: prose wrapped, numbers to the right, words to the left. A table too wide for a
//! narrow terminal is folded: a row's name on a line, what it tells below.

use super::document::{Block, Content, Document, Table, Tells};
use super::screen::Screen;
use super::words::{NO_BREAK, unbroken};
use comfy_table::{CellAlignment, ContentArrangement, LineStyle, TableStyle};
use std::borrow::Cow;
use std::fmt::Write;
use textwrap::{Options, WordSeparator, WordSplitter, WrapAlgorithm};

/// Columns a line may take: in files and pipes, and on a terminal that has them.
pub(crate) const WIDTH: usize = 100;
/// Columns of the narrowest terminal that is heeded.
const NARROWEST: usize = 40;
/// Columns of a label, and of the figure beside it.
const LABEL: usize = 58;
/// Columns of that figure.
const FIGURE: usize = 14;
/// Letters of a name that always stand on its first line.
const LEAST_NAME: usize = 14;
/// Lines that a name may take.
const NAME_LINES: usize = 2;

/// Prints a document's first screen, or all of it, 100 columns wide; a first screen ends by saying what `--details` adds.
#[must_use]
pub fn printed(document: &Document, screen: Screen) -> String {
    printed_within(document, screen, WIDTH)
}

/// The same within other columns: not less than 40, not more than 100.
#[must_use]
pub(crate) fn printed_within(document: &Document, screen: Screen, width: usize) -> String {
    let width = width.clamp(NARROWEST, WIDTH);
    let mut text = String::new();
    let mut ends_with_table = false;
    for section in &document.sections {
        let mut blocks = section.blocks.iter().filter(|block| block.stands_on(screen)).peekable();
        if blocks.peek().is_none() {
            continue;
        }
        text.push_str(if text.is_empty() { "" } else { "\n" });
        if !section.heading.is_empty() {
            let _ = writeln!(text, "{}\n", wrapped(&section.heading, "", "", width));
        }
        while let Some(block) = blocks.next() {
            text.push_str(&shown(&block.content, width));
            let stays_close = blocks.peek().is_none_or(|next| is_close(block) && is_close(next));
            text.push_str(if stays_close { "" } else { "\n" });
            ends_with_table = matches!(block.content, Content::Table(_));
        }
    }
    if screen == Screen::First && !document.details.is_empty() {
        let apart = if ends_with_table { "\n" } else { "" };
        let details = format!("--details shows {}.", document.details);
        let _ = writeln!(text, "{apart}{}", wrapped(&details, "", "", width));
    }
    text
}

/// Whether no blank line parts a block from others like it.
fn is_close(block: &Block) -> bool {
    matches!(block.content, Content::Note(_) | Content::Finding(_) | Content::Line(_))
}

fn shown(content: &Content, width: usize) -> String {
    match content {
        Content::Paragraph(text) | Content::Note(text) => wrapped(text, "", "", width) + "\n",
        Content::Finding(text) => wrapped(text, "", "  ", width) + "\n",
        Content::Line(text) => format!("{text}\n"),
        Content::List(lead, items) => list_within(lead, items, width),
        Content::Table(table) => aligned(table, width),
        Content::Figures(lines) => lines.iter().fold(String::new(), |text, (label, figure)| text + &labelled(label, figure, width)),
    }
}

/// A label and its figure to the right; on a narrow terminal a long label leaves the figure to the next line.
fn labelled(label: &str, figure: &str, width: usize) -> String {
    let to = width.min(2 + LABEL + FIGURE);
    let left = to.saturating_sub(2 + label.chars().count());
    if left > figure.chars().count() {
        format!("  {label}{figure:>left$}\n")
    } else {
        format!("{}\n{figure:>to$}\n", wrapped(label, "  ", "    ", width))
    }
}

/// Prints a list, its items two columns in, below the line that leads to it where that is not blank.
#[must_use]
pub fn list(lead: &str, items: &[String]) -> String {
    list_within(lead, items, WIDTH)
}

/// The same within other columns: not less than 40, not more than 100.
#[must_use]
pub(crate) fn list_within(lead: &str, items: &[String], width: usize) -> String {
    let width = width.clamp(NARROWEST, WIDTH);
    let lead = if lead.is_empty() { String::new() } else { format!("{lead}\n") };
    items.iter().fold(lead, |text, item| text + &wrapped(item, "  ", "    ", width) + "\n")
}

/// Breaks prose into lines between its words, within columns: not less than 40, not more than 100.
#[must_use]
pub(crate) fn prose_within(text: &str, width: usize) -> String {
    wrapped(text, "", "", width.clamp(NARROWEST, WIDTH))
}

fn wrapped(text: &str, first: &str, later: &str, width: usize) -> String {
    let text = unbroken(text);
    let options = Options::new(width).initial_indent(first).subsequent_indent(later).break_words(false);
    let options = options.wrap_algorithm(WrapAlgorithm::FirstFit).word_separator(WordSeparator::AsciiSpace);
    textwrap::fill(&text, options.word_splitter(WordSplitter::NoHyphenation)).replace(NO_BREAK, " ")
}

/// A table with a rule above its totals. Where it is too wide, its names take two lines, then its other words do; what two lines do not
/// hold is cut, with an ellipsis. Where that is not enough on a narrow terminal, the table is folded.
fn aligned(table: &Table, width: usize) -> String {
    let over = |text: &str| text.lines().map(|line| line.chars().count()).max().unwrap_or(0).saturating_sub(width);
    let mut room: Vec<usize> = (0..table.columns.len()).map(|at| longest(table, at)).collect();
    let mut text = drawn(table, &room);
    for at in (0..room.len()).filter(|at| table.columns[*at].is_words) {
        let over = over(&text);
        if over == 0 {
            break;
        }
        room[at] = room[at].saturating_sub(over).max(LEAST_NAME);
        text = drawn(table, &room);
    }
    if over(&text) > 0 && width < WIDTH { folded(table, width) } else { text }
}

/// Each row as its name, and below it every cell that is not blank, with its heading.
fn folded(table: &Table, width: usize) -> String {
    let mut text = String::new();
    for (at, row) in table.rows.iter().enumerate() {
        if at > 0 && at + table.totals == table.rows.len() {
            let _ = writeln!(text, "{}", "─".repeat(width));
        }
        let name = row.first().map_or("", String::as_str);
        let mut told: Vec<String> = Vec::new();
        for (column, cell) in table.columns.iter().zip(row).skip(1).filter(|(_, cell)| !cell.trim().is_empty()) {
            match told.last_mut().filter(|_| column.tells == Tells::Becomes) {
                Some(before) if before.ends_with(&format!(": {}", cell.trim())) => {}
                Some(before) => before.extend([" → ", cell.trim()]),
                None => told.push(format!("{}: {}", column.heading.replace('\n', " "), cell.trim())),
            }
        }
        let _ = writeln!(text, "{}\n{}", wrapped(name, "", "  ", width), filled(told.into_iter(), width));
    }
    text
}

/// Lines two columns in, each of as many items as fit: an item is broken only where it is wider than a line.
fn filled(items: impl Iterator<Item = String>, width: usize) -> String {
    let mut lines: Vec<String> = Vec::new();
    for item in items {
        match lines.last_mut().filter(|line| line.chars().count() + 4 + item.chars().count() <= width) {
            Some(line) => line.extend(["; ", &item]),
            None => lines.push(item),
        }
    }
    let lines: Vec<String> = lines.iter().map(|line| wrapped(line, "  ", "    ", width)).collect();
    lines.join("\n")
}

/// Letters of a column's longest cell.
fn longest(table: &Table, at: usize) -> usize {
    table.rows.iter().filter_map(|row| row.get(at)).map(|cell| cell.chars().count()).max().unwrap_or(0)
}

fn drawn(table: &Table, room: &[usize]) -> String {
    let mut drawn = comfy_table::Table::new();
    drawn.load_style(TableStyle::new().header_separator(LineStyle::none().fill('─').junction('─')));
    drawn.set_content_arrangement(ContentArrangement::Disabled);
    drawn.set_header(table.columns.iter().map(|column| column.heading.as_ref()));
    for row in &table.rows {
        drawn.add_row(row.iter().zip(room).map(|(cell, room)| in_lines(cell, *room)));
    }
    for (drawn, column) in drawn.column_iter_mut().zip(&table.columns) {
        drawn.set_padding((0, 1));
        drawn.set_cell_alignment(if column.is_words { CellAlignment::Left } else { CellAlignment::Right });
    }
    let text = drawn.to_string();
    let lines: Vec<&str> = text.lines().map(str::trim_end).collect();
    let is_rule = |line: &str| line.contains('─') && line.trim_matches('─').is_empty();
    // As wide as what it stands above: the last column's padding is no part of it.
    let width = lines.iter().filter(|line| !is_rule(line)).map(|line| line.chars().count()).max().unwrap_or(0);
    let rule = "─".repeat(width);
    let mut lines: Vec<&str> = lines.into_iter().map(|line| if is_rule(line) { rule.as_str() } else { line }).collect();
    if table.totals > 0 && table.totals < table.rows.len() {
        lines.insert(lines.len() - table.totals, &rule);
    }
    lines.join("\n") + "\n"
}

/// A cell broken between its words, or within one that is too long.
fn in_lines(text: &str, room: usize) -> Cow<'_, str> {
    if text.chars().count() <= room {
        return Cow::from(text);
    }
    let options = Options::new(room).word_separator(WordSeparator::AsciiSpace).word_splitter(WordSplitter::NoHyphenation);
    let mut lines = textwrap::wrap(text, options.wrap_algorithm(WrapAlgorithm::FirstFit));
    if lines.len() > NAME_LINES {
        lines.truncate(NAME_LINES);
        if let Some(last) = lines.last_mut() {
            *last = last.chars().take(room.saturating_sub(1)).chain(['…']).collect::<String>().into();
        }
    }
    Cow::from(lines.join("\n"))
}

#[cfg(test)]
mod tests {
    use super::super::document::Column;
    use super::*;

    fn table(names: &[&str], totals: usize) -> Table {
        let rows = names.iter().map(|name| [*name, "9.50", ""].map(String::from).to_vec()).collect();
        Table { columns: vec![Column::name("design"), Column::figures("paid"), Column::of(Tells::Verdict)], rows, totals }
    }

    #[test]
    fn figures_stand_to_the_right_and_totals_below_a_rule() {
        let mut table = table(&["moth", "total"], 1);
        table.rows[0][2] = "pays".to_owned();
        table.rows[1][1] = "19.00".to_owned();
        let expected = "design   paid  verdict\n──────────────────────\nmoth     9.50  pays\n──────────────────────\ntotal   19.00\n";
        assert_eq!(aligned(&table, WIDTH), expected);
    }

    #[test]
    fn long_names_take_two_lines_and_are_cut_after_these() {
        let text = aligned(&table(&["x".repeat(300).as_str()], 0), WIDTH);
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH), "{text}");
        assert!(text.contains('…'));
        let whole = aligned(&table(&["paper lantern ".repeat(10).trim()], 0), WIDTH);
        assert!(whole.lines().all(|line| line.chars().count() <= WIDTH), "{whole}");
        assert!(!whole.contains('…') && whole.matches("lantern").count() == 10, "{whole}");
        let mut two = table(&["moth"], 0);
        two.columns[1] = Column::words("tier");
        two.rows[0][..2].fill("lantern ".repeat(12));
        let text = aligned(&two, WIDTH);
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH), "{text}");
    }

    #[test]
    fn a_table_too_wide_for_a_narrow_terminal_is_folded() {
        let columns = ["design", "pieces", "you got\neach", "minutes\na piece", "hourly\npay"];
        let columns =
            columns.iter().enumerate().map(|(at, name)| if at == 0 { Column::name(*name) } else { Column::figures(*name) }).collect();
        let row = |cells: [&str; 5]| cells.map(String::from).to_vec();
        let rows = vec![row(["paper lantern of spring", "12", "$4.50", "", "$18.40"]), row(["total", "12", "$4.50", "9.5", "$18.40"])];
        let table = Table { columns, rows, totals: 1 };
        assert!(aligned(&table, 52).starts_with("design"), "cutting the name is enough");
        let expected = "paper lantern of spring\n  pieces: 12; you got each: $4.50\n  hourly pay: $18.40\n\
            ────────────────────────────────────────\n\
            total\n  pieces: 12; you got each: $4.50\n  minutes a piece: 9.5\n  hourly pay: $18.40\n";
        assert_eq!(aligned(&table, 40), expected);
    }

    #[test]
    fn what_a_figure_becomes_stands_after_an_arrow_where_a_table_is_folded() {
        let (pay, hours) = (Column::figures("your\npay"), Column::figures("hours"));
        let columns = vec![Column::name("tier"), pay, Column::of(Tells::Becomes), hours, Column::of(Tells::Becomes)];
        let rows = vec![["scene", "$2,949", "$4,334", "233.6", "233.6"].map(String::from).to_vec()];
        let table = Table { columns, rows, totals: 0 };
        assert_eq!(folded(&table, 60), "scene\n  your pay: $2,949 → $4,334; hours: 233.6\n");
    }

    #[test]
    fn a_label_too_long_leaves_its_figure_to_the_next_line() {
        assert_eq!(labelled("hours logged", "12.5", WIDTH), format!("  {:<58}{:>14}\n", "hours logged", "12.5"));
        assert_eq!(labelled("hours logged", "12.5", 40), format!("  hours logged{:>26}\n", "12.5"));
        let text = labelled("work on these orders in other months", "12.5 h", 40);
        assert_eq!(text, format!("  work on these orders in other months\n{:>40}\n", "12.5 h"));
    }

    #[test]
    fn prose_is_wrapped_between_words() {
        let text = prose_within(&"word ".repeat(40), WIDTH);
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH));
        assert_eq!((text.lines().count(), text.split_whitespace().count()), (2, 40));
        let text = list("Some:", &["word ".repeat(40)]);
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH) && text.starts_with("Some:\n  word"));
        assert!(text.lines().skip(2).all(|line| line.starts_with("    word")), "{text}");
        let text = prose_within(&format!("{}x 90 % sure", "word ".repeat(19)), WIDTH);
        assert!(text.ends_with("\n90 % sure"), "{text}");
        let path = "x/".repeat(80);
        assert_eq!(prose_within(&format!("In {path} now"), WIDTH), format!("In\n{path}\nnow"));
    }

    #[test]
    fn sections_and_blocks_stand_apart_and_notes_together() {
        let mut document = Document::new("the rest");
        document.push(Block::paragraph("Answer."));
        document.section("Heading");
        document.push(table(&["moth"], 0));
        document.note("One.");
        document.push(Block::note("Two.").under_details());
        document.note("Three.");
        document.section("Only there");
        document.push(Block::list(vec!["item".to_owned()]).under_details());
        let table = "design  paid  verdict\n─────────────────────\nmoth    9.50\n";
        let first = format!("Answer.\n\nHeading\n\n{table}\nOne.\nThree.\n--details shows the rest.\n");
        assert_eq!(printed(&document, Screen::First), first);
        let whole = format!("Answer.\n\nHeading\n\n{table}\nOne.\nTwo.\nThree.\n\nOnly there\n\n  item\n");
        assert_eq!(printed(&document, Screen::Details), whole);
    }
}
