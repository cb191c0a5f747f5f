//! Cholesky factors of symmetric positive definite matrices, and the dot products they rest on.
//!
//! Written here because libraries choose their arithmetic by the processor at run time, and results must be the same
//! bits everywhere: these loops add in one fixed order.

/// Computes the dot product of two slices of equal length, in eight running sums that do not wait for each other.
#[must_use]
pub(crate) fn dot(one: &[f64], other: &[f64]) -> f64 {
    let ((ones, one), (others, other)) = (one.as_chunks::<8>(), other.as_chunks::<8>());
    let mut sums = [0.0; 8];
    for (one, other) in ones.iter().zip(others) {
        for (sum, (one, other)) in sums.iter_mut().zip(one.iter().zip(other)) {
            *sum += one * other;
        }
    }
    let rest: f64 = one.iter().zip(other).map(|(one, other)| one * other).sum();
    ((sums[0] + sums[4]) + (sums[1] + sums[5])) + ((sums[2] + sums[6]) + (sums[3] + sums[7])) + rest
}

/// Adds rows, each times its factor, to `sums`. Four rows at a time, which reads and writes the sums a quarter as
/// often.
pub(crate) fn add_rows<'a>(sums: &mut [f64], rows: impl IntoIterator<Item = (f64, &'a [f64])>) {
    let mut rows = rows.into_iter();
    loop {
        match [rows.next(), rows.next(), rows.next(), rows.next()] {
            [Some(one), Some(two), Some(three), Some(four)] => add_four(sums, [one, two, three, four]),
            few => {
                for (factor, row) in few.into_iter().flatten() {
                    for (sum, value) in sums.iter_mut().zip(row) {
                        *sum += factor * value;
                    }
                }
                return;
            }
        }
    }
}

fn add_four(sums: &mut [f64], rows: [(f64, &[f64]); 4]) {
    let [(one, ones), (two, twos), (three, threes), (four, fours)] = rows;
    let values = ones.iter().zip(twos).zip(threes.iter().zip(fours));
    for (sum, ((a, b), (c, d))) in sums.iter_mut().zip(values) {
        *sum += (one * a + two * b) + (three * c + four * d);
    }
}

/// Subtracts from four columns (from the diagonal down) their projection on four earlier ones. One reading of the
/// earlier columns serves all four: in a large matrix reading takes the time.
fn subtract_four(columns: [&mut [f64]; 4], earlier: [&[f64]; 4]) {
    let [one, two, three, four] = columns;
    let factors: [[f64; 4]; 4] = std::array::from_fn(|column| earlier.map(|earlier| earlier[column]));
    let [a, b, c, d] = earlier;
    let own = one.iter_mut().zip(two).zip(three.iter_mut().zip(four));
    for (((one, two), (three, four)), ((a, b), (c, d))) in own.zip(a.iter().zip(b).zip(c.iter().zip(d))) {
        let sum = |of: &[f64; 4]| (of[0] * a + of[1] * b) + (of[2] * c + of[3] * d);
        *one -= sum(&factors[0]);
        *two -= sum(&factors[1]);
        *three -= sum(&factors[2]);
        *four -= sum(&factors[3]);
    }
}

/// The lower triangular factor `L` with `L Lᵀ` the matrix, stored by column as a full square with zeros above the
/// diagonal.
#[derive(Debug, Clone)]
pub(crate) struct Cholesky {
    size: usize,
    columns: Vec<f64>,
}

/// Columns factored together.
const PANEL: usize = 4;

fn four_of<T>(items: impl Iterator<Item = T>) -> Option<[T; 4]> {
    items.collect::<Vec<T>>().try_into().ok()
}

impl Cholesky {
    /// Factors a symmetric matrix given by columns, of which the lower triangle is read; `None` if it is not positive
    /// definite.
    #[must_use]
    pub fn of(mut matrix: Vec<f64>, size: usize) -> Option<Self> {
        for first in (0..size).step_by(PANEL) {
            let (earlier, rest) = matrix.split_at_mut(first * size);
            let width = PANEL.min(size - first);
            let panel = &mut rest[..width * size];
            if width == PANEL {
                for four in earlier.chunks_exact(PANEL * size) {
                    let columns = panel.chunks_exact_mut(size).map(|column| &mut column[first..]);
                    let earlier = four.chunks_exact(size).map(|column| &column[first..]);
                    subtract_four(four_of(columns)?, four_of(earlier)?);
                }
            } else {
                for (at, column) in panel.chunks_exact_mut(size).enumerate() {
                    let earlier = earlier.chunks_exact(size).map(|earlier| (-earlier[first + at], &earlier[first..]));
                    add_rows(&mut column[first..], earlier);
                }
            }
            for at in 0..width {
                let (before, own) = panel.split_at_mut(at * size);
                let (above, own) = own[..size].split_at_mut(first + at);
                above.fill(0.0);
                add_rows(own, before.chunks_exact(size).map(|before| (-before[first + at], &before[first + at..])));
                if !(own[0] > 0.0 && own[0].is_finite()) {
                    return None;
                }
                let root = own[0].sqrt();
                for value in own {
                    *value /= root;
                }
            }
        }
        Some(Self { size, columns: matrix })
    }

    /// Computes the logarithm of the matrix's determinant.
    #[must_use]
    pub(crate) fn log_determinant(&self) -> f64 {
        (0..self.size).map(|at| 2.0 * libm::log(self.below(at)[0])).sum()
    }

    /// Solves `L x = right`, in place.
    pub(crate) fn forward(&self, right: &mut [f64]) {
        for at in 0..self.size {
            let column = self.below(at);
            let (value, rest) = right[at..].split_at_mut(1);
            value[0] /= column[0];
            add_rows(rest, [(-value[0], &column[1..])]);
        }
    }

    /// Solves `Lᵀ x = right`, in place.
    pub(crate) fn backward(&self, right: &mut [f64]) {
        for at in (0..self.size).rev() {
            let column = self.below(at);
            right[at] = (right[at] - dot(&column[1..], &right[at + 1..])) / column[0];
        }
    }

    /// Computes `L x`.
    #[must_use]
    pub fn times(&self, x: &[f64]) -> Vec<f64> {
        let mut product = vec![0.0; self.size];
        add_rows(&mut product, x.iter().copied().zip(self.columns.chunks(self.size)));
        product
    }

    /// Computes the whole inverse: the sum of outer products of the rows of `L⁻¹`.
    #[must_use]
    pub(crate) fn inverse(&self) -> Vec<f64> {
        let size = self.size;
        // Column by column of L⁻¹, whose rows above the diagonal are zero.
        let mut root = vec![0.0; size * size];
        for at in 0..size {
            let column = &mut root[at * size + at..(at + 1) * size];
            column[0] = 1.0;
            for below in 0..size - at {
                let own = self.below(at + below);
                let (value, rest) = column[below..].split_at_mut(1);
                value[0] /= own[0];
                add_rows(rest, [(-value[0], &own[1..])]);
            }
        }
        let mut inverse = vec![0.0; size * size];
        for row in 0..size {
            for column in 0..=row {
                let value = dot(&root[row * size + row..(row + 1) * size], &root[column * size + row..(column + 1) * size]);
                inverse[row * size + column] = value;
                inverse[column * size + row] = value;
            }
        }
        inverse
    }

    /// Returns a column from the diagonal down.
    fn below(&self, at: usize) -> &[f64] {
        &self.columns[at * self.size + at..(at + 1) * self.size]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn factor_solve_and_determinant_agree_with_a_matrix_worked_by_hand() {
        // [[4, 2], [2, 5]] = L Lᵀ with L = [[2, 0], [1, 2]]; its determinant is 16.
        let factor = Cholesky::of(vec![4.0, 2.0, 2.0, 5.0], 2).unwrap();
        assert_eq!(factor.columns, [2.0, 1.0, 0.0, 2.0]);
        assert!((factor.log_determinant() - libm::log(16.0)).abs() < 1e-14);
        let mut right = [8.0, 12.0];
        factor.forward(&mut right);
        factor.backward(&mut right);
        assert!((right[0] - 1.0).abs() < 1e-14 && (right[1] - 2.0).abs() < 1e-14);
        assert_eq!(factor.times(&[1.0, 1.0]), [2.0, 3.0]);
        let inverse = factor.inverse();
        let expected = [5.0 / 16.0, -2.0 / 16.0, -2.0 / 16.0, 4.0 / 16.0];
        assert!(inverse.iter().zip(expected).all(|(found, expected)| (found - expected).abs() < 1e-14));
    }

    #[test]
    fn sums_of_products_and_of_rows_are_those_of_plain_loops() {
        for size in [0, 1, 7, 8, 9, 23] {
            let rows: Vec<Vec<f64>> = (0..9).map(|row| (0..size).map(|at| f64::from(row * 5 + at * 3 % 7) - 4.0).collect()).collect();
            let plain: f64 = rows[0].iter().zip(&rows[1]).map(|(one, other)| one * other).sum();
            assert!((dot(&rows[0], &rows[1]) - plain).abs() < 1e-9);
            for count in 0..rows.len() {
                let mut sums = vec![1.0; rows[0].len()];
                add_rows(&mut sums, rows[..count].iter().zip(1..).map(|(row, factor)| (f64::from(factor), row.as_slice())));
                for (at, sum) in sums.iter().enumerate() {
                    let plain: f64 = rows[..count].iter().zip(1..).map(|(row, factor)| f64::from(factor) * row[at]).sum();
                    assert!((sum - 1.0 - plain).abs() < 1e-9);
                }
            }
        }
    }

    #[test]
    fn a_matrix_that_is_not_positive_definite_has_no_factor() {
        assert!(Cholesky::of(vec![1.0, 2.0, 2.0, 1.0], 2).is_none());
        assert!(Cholesky::of(vec![f64::NAN], 1).is_none());
    }
}
