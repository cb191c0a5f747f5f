//! Sizes of a cookie, which pick the assumed materials of a design without a recipe.

use std::ops::{Index, IndexMut};

/// A size of a cookie.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Size {
    /// A mini.
    Mini,
    /// A regular piece.
    #[default]
    Regular,
    /// A large piece.
    Large,
}

impl Size {
    /// All sizes.
    pub const ALL: [Self; 3] = [Self::Mini, Self::Regular, Self::Large];

    /// Returns its name in designs.csv.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Mini => "mini",
            Self::Regular => "regular",
            Self::Large => "large",
        }
    }
}

/// One value for each size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct BySize<T>([T; Size::ALL.len()]);

impl<T> Index<Size> for BySize<T> {
    type Output = T;

    fn index(&self, size: Size) -> &T {
        &self.0[size as usize]
    }
}

impl<T> IndexMut<Size> for BySize<T> {
    fn index_mut(&mut self, size: Size) -> &mut T {
        &mut self.0[size as usize]
    }
}
