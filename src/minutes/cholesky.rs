//! Cholesky factors of symmetric positive definite matrices.
//!
//! Written here because libraries choose their arithmetic by the processor at run time, and results must be the same
//! bits everywhere: these loops add in one fixed order.

/// A lower triangular factor `L` with `L Lᵀ` the matrix; rows one after another, full square.
#[derive(Debug, Clone)]
pub struct Cholesky {
    size: usize,
    lower: Vec<f64>,
}

impl Cholesky {
    /// The factor of a symmetric matrix, of which the lower triangle is read; `None` where it is not positive definite.
    #[must_use]
    pub fn of(mut matrix: Vec<f64>, size: usize) -> Option<Self> {
        let mut below = vec![0.0; size];
        for at in 0..size {
            let pivot = matrix[at * size + at];
            if !(pivot > 0.0 && pivot.is_finite()) {
                return None;
            }
            let root = pivot.sqrt();
            matrix[at * size + at] = root;
            for row in at + 1..size {
                below[row] = matrix[row * size + at] / root;
                matrix[row * size + at] = below[row];
            }
            for row in at + 1..size {
                let factor = below[row];
                if factor != 0.0 {
                    let cells = &mut matrix[row * size + at + 1..=row * size + row];
                    for (cell, other) in cells.iter_mut().zip(&below[at + 1..=row]) {
                        *cell -= factor * other;
                    }
                }
            }
        }
        for row in 0..size {
            matrix[row * size + row + 1..(row + 1) * size].fill(0.0);
        }
        Some(Self { size, lower: matrix })
    }

    /// The logarithm of the matrix's determinant.
    #[must_use]
    pub fn log_determinant(&self) -> f64 {
        (0..self.size).map(|at| 2.0 * libm::log(self.lower[at * self.size + at])).sum()
    }

    /// Solves `matrix x = right`, in place.
    pub fn solve(&self, right: &mut [f64]) {
        self.forward(right);
        self.backward(right);
    }

    /// Solves `L x = right`, in place.
    pub fn forward(&self, right: &mut [f64]) {
        for row in 0..self.size {
            let done: f64 = self.row(row)[..row].iter().zip(&*right).map(|(l, x)| l * x).sum();
            right[row] = (right[row] - done) / self.lower[row * self.size + row];
        }
    }

    /// Solves `Lᵀ x = right`, in place.
    pub fn backward(&self, right: &mut [f64]) {
        for row in (0..self.size).rev() {
            let value = right[row] / self.lower[row * self.size + row];
            right[row] = value;
            for (cell, l) in right[..row].iter_mut().zip(self.row(row)) {
                *cell -= value * l;
            }
        }
    }

    /// `L x`.
    #[must_use]
    pub fn times(&self, x: &[f64]) -> Vec<f64> {
        (0..self.size).map(|row| self.row(row)[..=row].iter().zip(x).map(|(l, x)| l * x).sum()).collect()
    }

    /// The matrix's inverse, whole.
    #[must_use]
    pub fn inverse(&self) -> Vec<f64> {
        let mut inverse = vec![0.0; self.size * self.size];
        for at in 0..self.size {
            let column = &mut inverse[at * self.size..(at + 1) * self.size];
            column[at] = 1.0;
            self.solve(column);
        }
        inverse
    }

    fn row(&self, row: usize) -> &[f64] {
        &self.lower[row * self.size..(row + 1) * self.size]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn factor_solve_and_determinant_agree_with_a_matrix_worked_by_hand() {
        // [[4, 2], [2, 5]] = L Lᵀ with L = [[2, 0], [1, 2]]; its determinant is 16.
        let factor = Cholesky::of(vec![4.0, 2.0, 2.0, 5.0], 2).unwrap();
        assert_eq!(factor.lower, [2.0, 0.0, 1.0, 2.0]);
        assert!((factor.log_determinant() - libm::log(16.0)).abs() < 1e-14);
        let mut right = [8.0, 12.0];
        factor.solve(&mut right);
        assert!((right[0] - 1.0).abs() < 1e-14 && (right[1] - 2.0).abs() < 1e-14);
        assert_eq!(factor.times(&[1.0, 1.0]), [2.0, 3.0]);
        let inverse = factor.inverse();
        let expected = [5.0 / 16.0, -2.0 / 16.0, -2.0 / 16.0, 4.0 / 16.0];
        assert!(inverse.iter().zip(expected).all(|(found, expected)| (found - expected).abs() < 1e-14));
    }

    #[test]
    fn a_matrix_that_is_not_positive_definite_has_no_factor() {
        assert!(Cholesky::of(vec![1.0, 2.0, 2.0, 1.0], 2).is_none());
        assert!(Cholesky::of(vec![f64::NAN], 1).is_none());
    }
}
