//! The two widths a chart is drawn in, and the sizes that go with each. Lengths are CSS pixels.

/// What a chart is drawn for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Width {
    /// A desk, paper, a PNG: 640 CSS pixels.
    Wide,
    /// A phone: 358 CSS pixels, what a screen of 390 leaves between the margins of its page. No letter is under 12.
    Narrow,
}

/// Widths, margins and sizes of letters.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Page {
    pub is_narrow: bool,
    pub width: f64,
    /// Empty border on both sides and above.
    pub margin: f64,
    pub title: Type,
    pub subtitle: Type,
    pub body: Type,
    pub small: Type,
}

/// The size of letters and from one baseline to the next.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Type {
    pub size: f64,
    pub line: f64,
}

/// From the baseline of the last line to the lower edge.
pub(crate) const BELOW: f64 = 18.0;

const fn letters(size: f64, line: f64) -> Type {
    Type { size, line }
}

impl Page {
    pub const fn new(width: Width) -> Self {
        match width {
            Width::Wide => Self {
                is_narrow: false,
                width: 640.0,
                margin: 21.0,
                title: letters(23.0, 30.0),
                subtitle: letters(15.25, 21.0),
                body: letters(14.5, 18.0),
                small: letters(12.5, 16.0),
            },
            Width::Narrow => Self {
                is_narrow: true,
                width: 358.0,
                margin: 10.0,
                title: letters(18.0, 24.0),
                subtitle: letters(14.0, 19.0),
                body: letters(14.0, 18.0),
                small: letters(12.0, 15.0),
            },
        }
    }

    /// Returns where the right margin begins.
    pub fn right(&self) -> f64 {
        self.width - self.margin
    }

    /// Returns the room between the margins.
    pub fn room(&self) -> f64 {
        self.width - 2.0 * self.margin
    }
}
