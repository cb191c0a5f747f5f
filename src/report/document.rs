//! A finished result as a person reads it: sections of paragraphs, lists, tables and notes, wherever they are shown.

use super::screen::Screen;
use std::borrow::Cow;

/// An answer to be printed on a terminal, or to be placed on a page.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Document {
    /// Its sections, the answer first.
    pub sections: Vec<Section>,
    /// What `--details` adds to its first screen, as the end of a sentence; blank where it adds nothing.
    pub details: &'static str,
}

/// Blocks under a heading.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Section {
    /// The heading; blank where there is none.
    pub heading: String,
    /// What stands under it, in order.
    pub blocks: Vec<Block>,
}

/// One thing to read, and on which screens it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Block {
    /// The screen it is left to; `None` where it stands on both.
    pub only_on: Option<Screen>,
    /// What there is to read.
    pub content: Content,
}

/// What a block holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Content {
    /// Sentences, apart from what comes before and after.
    Paragraph(String),
    /// Items of a list, directly below the line that leads to them where that is not blank.
    List(String, Vec<String>),
    /// A table.
    Table(Table),
    /// Labels with a figure each; a label indented by two spaces is a part of the one above.
    Figures(Vec<(&'static str, String)>),
    /// A sentence or two on what is above, close to other notes.
    Note(String),
    /// The same, its later lines indented: one of several findings.
    Finding(String),
    /// A line that is not to be broken, because it holds a path or a command.
    Line(String),
}

/// A table ready to be shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table {
    /// Columns, the name of a row first.
    pub columns: Vec<Column>,
    /// Cells, as many as there are columns.
    pub rows: Vec<Vec<String>>,
    /// How many of the last rows are totals.
    pub totals: usize,
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// Its heading; a line break where it may be broken.
    pub heading: Cow<'static, str>,
    /// Whether it holds words rather than figures, which stand to the right.
    pub is_words: bool,
    /// What it tells of a row.
    pub tells: Tells,
}

/// What a column tells of a row, so that a page can put first what decides.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tells {
    /// What the row is of.
    Name,
    /// What an hour paid.
    HourlyPay,
    /// The range of that.
    Range,
    /// Money above or below the target.
    Surplus,
    /// The verdict.
    Verdict,
    /// How sure the verdict is.
    Certainty,
    /// What changed in all.
    Change,
    /// What the figure before it becomes.
    Becomes,
    /// Something further.
    More,
}

impl Column {
    /// Makes the column of names, the first.
    #[must_use]
    pub fn name(heading: impl Into<Cow<'static, str>>) -> Self {
        Self { heading: heading.into(), is_words: true, tells: Tells::Name }
    }

    /// Makes a column of words.
    #[must_use]
    pub fn words(heading: &'static str) -> Self {
        Self { heading: heading.into(), is_words: true, tells: Tells::More }
    }

    /// Makes a column of figures.
    #[must_use]
    pub fn figures(heading: impl Into<Cow<'static, str>>) -> Self {
        Self { heading: heading.into(), is_words: false, tells: Tells::More }
    }

    /// Makes a column that every table of pay has, under its usual heading.
    #[must_use]
    pub fn of(tells: Tells) -> Self {
        let heading = match tells {
            Tells::Name | Tells::More => "",
            Tells::Becomes => "with\nchange",
            Tells::HourlyPay => "hourly\npay",
            Tells::Range => "range\n(90 %)",
            Tells::Surplus => "above /\nbelow",
            Tells::Verdict => "verdict",
            Tells::Certainty => "how\nsure",
            Tells::Change => "total\nchange",
        };
        let is_words = matches!(tells, Tells::Name | Tells::Verdict | Tells::Certainty);
        Self { heading: heading.into(), is_words, tells }
    }
}

impl Block {
    /// Makes a paragraph.
    #[must_use]
    pub(crate) fn paragraph(text: impl Into<String>) -> Self {
        Self::from(Content::Paragraph(text.into()))
    }

    /// Makes a list.
    #[must_use]
    pub fn list(items: Vec<String>) -> Self {
        Self::from(Content::List(String::new(), items))
    }

    /// Makes a note.
    #[must_use]
    pub fn note(text: impl Into<String>) -> Self {
        Self::from(Content::Note(text.into()))
    }

    /// Leaves it to `--details`.
    #[must_use]
    pub(crate) fn under_details(self) -> Self {
        Self { only_on: Some(Screen::Details), ..self }
    }

    /// Leaves it to the first screen.
    #[must_use]
    pub(crate) fn on_first(self) -> Self {
        Self { only_on: Some(Screen::First), ..self }
    }

    /// Returns whether it stands on a screen and holds anything.
    #[must_use]
    pub(crate) fn stands_on(&self, screen: Screen) -> bool {
        let is_empty = match &self.content {
            Content::List(_, items) => items.is_empty(),
            Content::Paragraph(text) | Content::Note(text) | Content::Finding(text) | Content::Line(text) => text.is_empty(),
            Content::Table(table) => table.rows.is_empty(),
            Content::Figures(lines) => lines.is_empty(),
        };
        !is_empty && self.only_on.is_none_or(|only| only == screen)
    }
}

impl From<Content> for Block {
    fn from(content: Content) -> Self {
        Self { only_on: None, content }
    }
}

impl From<Table> for Block {
    fn from(table: Table) -> Self {
        Content::Table(table).into()
    }
}

impl Document {
    /// Makes an empty one.
    #[must_use]
    pub fn new(details: &'static str) -> Self {
        Self { sections: Vec::new(), details }
    }

    /// Begins a section.
    pub fn section(&mut self, heading: impl Into<String>) {
        self.sections.push(Section { heading: heading.into(), blocks: Vec::new() });
    }

    /// Adds a block to the last section.
    pub fn push(&mut self, block: impl Into<Block>) {
        self.extend([block.into()]);
    }

    /// The same with each item of its lists as `words` has it.
    #[must_use]
    pub(crate) fn with_lists(mut self, words: impl Fn(&str) -> String) -> Self {
        for block in self.sections.iter_mut().flat_map(|section| &mut section.blocks) {
            if let Content::List(_, items) = &mut block.content {
                for item in items {
                    *item = words(item);
                }
            }
        }
        self
    }

    /// Adds a note to the last section.
    pub fn note(&mut self, text: impl Into<String>) {
        self.push(Block::note(text));
    }
}

impl Extend<Block> for Document {
    /// Adds blocks to the last section.
    fn extend<I: IntoIterator<Item = Block>>(&mut self, blocks: I) {
        if self.sections.is_empty() {
            self.section("");
        }
        if let Some(section) = self.sections.last_mut() {
            section.blocks.extend(blocks);
        }
    }
}
