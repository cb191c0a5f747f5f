//! The format of a column: how its cells are written where a cell alone leaves that open, as the order of day and month.
//!
//! A format is one of the few styles of the column's kind. It is found from all cells of the column, never cell by cell: a style
//! that cannot read a cell which another style can is out. Where several styles are left and give different values, nothing is
//! guessed: the column asks. `format/` holds one file a kind.

use super::problem_kind::ProblemKind;
use std::borrow::Cow;
use std::fmt::Display;

pub mod money;
pub mod number;
pub mod percent;
pub mod pieces;
pub mod price;
pub mod size;

pub mod date;
pub mod minutes;
pub mod time;
pub mod word;

/// The ways in which the cells of one kind may be written.
pub trait Style: Copy + PartialEq + 'static {
    /// Every way, ours first: where no cell tells them apart, the first is taken.
    const ALL: &'static [Self];

    /// Its name in `shop.toml`.
    fn name(self) -> &'static str;

    /// The style of a name, regardless of letter case and blanks around it.
    fn named(name: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|style| style.name().eq_ignore_ascii_case(name.trim()))
    }
}

/// What is wrong with a cell: its kind, in words that follow the text found, and what to write instead.
pub(super) type Wrong = (&'static ProblemKind, Cow<'static, str>, String);

/// How the cells of one kind are read, each in the style of its column.
pub(super) trait Format {
    /// The styles they may be written in.
    type Style: Style;
    /// A cell's value before its bounds are checked. Styles that give equal values need no question; a question shows the values.
    type Plain: PartialEq + Display;
    /// A cell as the column keeps it.
    type Value;

    /// Whether what a text says may depend on the style; a quick look, so that a long plain column is read only once.
    fn depends(&self, text: &str) -> bool;

    /// What a text says in a style; `None` where it cannot be written so.
    fn plain(&self, text: &str, style: Self::Style) -> Option<Self::Plain>;

    /// What the cells of a column say of its style.
    fn evidence<'t>(&self, texts: &(impl Iterator<Item = &'t str> + Clone)) -> Evidence<Self::Style> {
        weigh(texts, |text, style| self.plain(text, style))
    }

    /// Reads a cell.
    fn read(&self, text: &str, style: Self::Style) -> Result<Self::Value, Wrong>;

    /// Writes what a cell says as its column does, for the advice on a cell written otherwise.
    fn written(&self, plain: &Self::Plain, style: Self::Style) -> String;
}

/// What the cells of a column say of its style.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Evidence<S> {
    /// No cell depends on the style.
    None,
    /// The style that reads the cells.
    Found {
        /// The style: it reads every cell that any style reads, or more of them than any other.
        style: S,
        /// Cells that depend on the style.
        dependent: usize,
        /// Of these, the cells that no other style reads.
        deciding: usize,
    },
    /// Several styles read the cells, with different values.
    Open {
        /// The styles that are left.
        styles: Vec<S>,
        /// The first cell that they read differently, counted from 0 over the cells given.
        cell: usize,
    },
}

/// Weighs the cells of a column; `read` gives the value of a cell in a style, or nothing where the style cannot read it.
pub fn weigh<'t, S: Style, T: PartialEq>(
    texts: &(impl Iterator<Item = &'t str> + Clone),
    read: impl Fn(&str, S) -> Option<T>,
) -> Evidence<S> {
    // Which styles read a text, a bit each; `None` where all of them say the same, or none reads it.
    let readers = |text: &str| -> Option<u32> {
        let first = read(text, S::ALL[0]);
        let (mut readers, mut differs) = (u32::from(first.is_some()), false);
        for (at, style) in S::ALL.iter().enumerate().skip(1) {
            let value = read(text, *style);
            readers |= u32::from(value.is_some()) << at;
            differs |= value != first;
        }
        differs.then_some(readers)
    };
    let (mut dependent, mut failed, mut deciding) = (0, vec![0_usize; S::ALL.len()], vec![0_usize; S::ALL.len()]);
    for readers in texts.clone().filter_map(readers) {
        dependent += 1;
        for (at, (failed, deciding)) in failed.iter_mut().zip(&mut deciding).enumerate() {
            *failed += usize::from(readers & (1 << at) == 0);
            *deciding += usize::from(readers == 1 << at);
        }
    }
    if dependent == 0 {
        return Evidence::None;
    }
    let least = failed.iter().copied().min().unwrap_or(0);
    let left: Vec<usize> = (0..S::ALL.len()).filter(|at| failed[*at] == least).collect();
    let differs = |text: &str| {
        let first = read(text, S::ALL[left[0]]);
        left[1..].iter().any(|at| read(text, S::ALL[*at]) != first)
    };
    match (left.len() > 1).then(|| texts.clone().position(differs)).flatten() {
        Some(cell) => Evidence::Open { styles: left.iter().map(|at| S::ALL[*at]).collect(), cell },
        None => Evidence::Found { style: S::ALL[left[0]], dependent, deciding: left.iter().map(|at| deciding[*at]).sum() },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two digits: tens first, or ones first.
    #[derive(Debug, Clone, Copy, PartialEq)]
    enum Order {
        Tens,
        Ones,
    }

    impl Style for Order {
        const ALL: &'static [Self] = &[Self::Tens, Self::Ones];

        fn name(self) -> &'static str {
            match self {
                Self::Tens => "tens first",
                Self::Ones => "ones first",
            }
        }
    }

    /// Numbers below 50, of two digits; one digit says itself.
    fn read(text: &str, order: Order) -> Option<u32> {
        let turned: String = if order == Order::Ones { text.chars().rev().collect() } else { text.to_owned() };
        turned.parse().ok().filter(|value| *value < 50)
    }

    fn weighed(cells: &[&str]) -> Evidence<Order> {
        weigh(&cells.iter().copied(), read)
    }

    #[test]
    fn one_cell_decides_for_its_column() {
        assert_eq!(weighed(&["1", "22", "x"]), Evidence::None);
        assert_eq!(weighed(&["12", "21"]), Evidence::Open { styles: vec![Order::Tens, Order::Ones], cell: 0 });
        assert_eq!(weighed(&["12", "48"]), Evidence::Found { style: Order::Tens, dependent: 2, deciding: 1 });
        assert_eq!(weighed(&["12", "84", "x"]), Evidence::Found { style: Order::Ones, dependent: 2, deciding: 1 });
    }

    #[test]
    fn cells_that_contradict_the_rest_leave_the_style_of_the_most() {
        assert_eq!(weighed(&["48", "84", "94"]), Evidence::Found { style: Order::Ones, dependent: 3, deciding: 2 });
        assert_eq!(weighed(&["48", "84"]), Evidence::Open { styles: vec![Order::Tens, Order::Ones], cell: 0 });
    }

    #[test]
    fn a_style_is_found_by_its_name() {
        assert_eq!((Order::named(" Ones First "), Order::named("hundreds first")), (Some(Order::Ones), None));
    }
}
