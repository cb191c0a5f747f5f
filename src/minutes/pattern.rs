//! Sparsity patterns of symmetric matrices, and the order in which their rows are eliminated.
//!
//! Rows with few entries are eliminated one at a time, the fewest first (minimum degree: George and Liu, "Computer
//! Solution of Large Sparse Positive Definite Systems", 1981); the rest is mostly full: the dense core.

use std::collections::BTreeSet;

/// Sparsity pattern of a matrix: which entries may differ from zero, and the order of elimination.
#[derive(Debug)]
pub(crate) struct Pattern {
    /// Each row's place in the order of elimination.
    pub(super) places: Vec<usize>,
    /// Number of rows eliminated one at a time; the others are the dense core.
    pub(super) sparse: usize,
    /// Starts of each sparse column's entries in `rows`, and the end of the last.
    pub(super) starts: Vec<usize>,
    /// Places of the entries below the diagonal, ascending within a column.
    pub(super) rows: Vec<usize>,
    /// For each sparse place, the entries of earlier columns that lie in its row.
    pub(super) in_row: Vec<Vec<usize>>,
}

impl Pattern {
    /// Computes the pattern of a matrix whose rows are coupled if some clique holds both. Rows that are `kept` stay
    /// in the core, since nearly all others are coupled to them.
    #[must_use]
    pub fn of<C: AsRef<[usize]>>(size: usize, kept: impl Fn(usize) -> bool, cliques: impl IntoIterator<Item = C>) -> Self {
        let mut neighbours = neighbours(size, &kept, cliques);
        let mut queue: BTreeSet<(usize, usize)> = (0..size).filter(|row| !kept(*row)).map(|row| (neighbours[row].len(), row)).collect();
        let mut order = Vec::with_capacity(size);
        let mut below = Vec::new();
        // Past this point the rest is so full that dense elimination is faster.
        while let Some((_, row)) = queue.first().copied().filter(|(degree, _)| 2 * degree < size - order.len()) {
            queue.pop_first();
            order.push(row);
            let mine = std::mem::take(&mut neighbours[row]);
            for other in mine.iter().copied().filter(|other| !kept(*other)) {
                queue.remove(&(neighbours[other].len(), other));
                neighbours[other] = united(&neighbours[other], &mine, [row, other]);
                queue.insert((neighbours[other].len(), other));
            }
            below.push(mine);
        }
        let sparse = order.len();
        let is_eliminated: BTreeSet<usize> = order.iter().copied().collect();
        order.extend((0..size).filter(|row| !is_eliminated.contains(row)));
        let mut places = vec![0; size];
        for (place, row) in order.iter().enumerate() {
            places[*row] = place;
        }
        let (mut starts, mut rows, mut in_row) = (vec![0], Vec::new(), vec![Vec::new(); sparse]);
        for of_column in below {
            let mut of_column: Vec<usize> = of_column.into_iter().map(|row| places[row]).collect();
            of_column.sort_unstable();
            for place in of_column {
                if let Some(in_row) = in_row.get_mut(place) {
                    in_row.push(rows.len());
                }
                rows.push(place);
            }
            starts.push(rows.len());
        }
        Self { places, sparse, starts, rows, in_row }
    }

    /// Returns the number of rows.
    #[must_use]
    pub fn size(&self) -> usize {
        self.places.len()
    }

    /// Lists the pairs of different rows whose entry may differ from zero, each once.
    pub fn coupled(&self) -> impl Iterator<Item = (usize, usize)> {
        let mut of_place = vec![0; self.size()];
        for (row, place) in self.places.iter().enumerate() {
            of_place[*place] = row;
        }
        let sparse = (0..self.sparse).flat_map(move |column| self.entries(column).map(move |entry| (self.rows[entry], column)));
        let first = self.sparse;
        let core = (first..self.size()).flat_map(move |row| (first..row).map(move |column| (row, column)));
        sparse.chain(core).map(move |(row, column)| (of_place[row], of_place[column]))
    }

    pub(super) fn core(&self) -> usize {
        self.size() - self.sparse
    }

    pub(super) fn entries(&self, column: usize) -> std::ops::Range<usize> {
        self.starts[column]..self.starts[column + 1]
    }

    /// Returns the start of the core among the values: diagonals of sparse columns come first, then their entries.
    pub(super) fn core_at(&self) -> usize {
        self.sparse + self.rows.len()
    }

    /// Finds an entry of the lower triangle among the values, by places; `None` if it is always zero.
    pub(super) fn index(&self, one: usize, other: usize) -> Option<usize> {
        let (column, row) = if one < other { (one, other) } else { (other, one) };
        if column >= self.sparse {
            return Some(self.core_at() + (column - self.sparse) * self.core() + row - self.sparse);
        }
        if column == row {
            return Some(column);
        }
        let entries = self.entries(column);
        let start = entries.start;
        self.rows[entries].binary_search(&row).ok().map(|at| self.sparse + start + at)
    }
}

/// Finds, for each row that is not kept, the rows it shares a clique with, ascending.
fn neighbours<C: AsRef<[usize]>>(size: usize, kept: impl Fn(usize) -> bool, cliques: impl IntoIterator<Item = C>) -> Vec<Vec<usize>> {
    let mut neighbours = vec![Vec::new(); size];
    for clique in cliques {
        let clique = clique.as_ref();
        for row in clique.iter().filter(|row| !kept(**row)) {
            neighbours[*row].extend(clique.iter().copied().filter(|other| other != row));
        }
    }
    for of in &mut neighbours {
        of.sort_unstable();
        of.dedup();
    }
    neighbours
}

/// Merges two ascending lists, without some rows.
fn united(one: &[usize], other: &[usize], without: [usize; 2]) -> Vec<usize> {
    let mut all = Vec::with_capacity(one.len() + other.len());
    let (mut left, mut right) = (one.iter().copied().peekable(), other.iter().copied().peekable());
    loop {
        let next = match (left.peek(), right.peek()) {
            (Some(one), Some(other)) if one == other => {
                left.next();
                right.next()
            }
            (Some(one), Some(other)) if one < other => left.next(),
            (Some(_), None) => left.next(),
            (_, Some(_)) => right.next(),
            (None, None) => break,
        };
        all.extend(next.filter(|row| !without.contains(row)));
    }
    all
}
