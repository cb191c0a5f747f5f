//! Sparse Cholesky factors of symmetric positive definite matrices.
//!
//! A maker with hundreds of designs sells most of them in one or two orders, so few pairs of designs are coupled. Sparse
//! columns are factored in the order of their [`Pattern`], its core densely. Of the inverse only the entries within the
//! factor's pattern are computed (Takahashi, Fagan and Chin, 1973): those that the curvature's own entries meet.

use super::cholesky::Cholesky;
use super::pattern::Pattern;

/// A symmetric matrix with a sparsity pattern.
#[derive(Debug, Clone)]
pub(crate) struct Symmetric<'a> {
    pattern: &'a Pattern,
    values: Vec<f64>,
}

impl<'a> Symmetric<'a> {
    /// Makes a matrix of zeros.
    #[must_use]
    pub fn zero(pattern: &'a Pattern) -> Self {
        Self { pattern, values: vec![0.0; pattern.core_at() + pattern.core() * pattern.core()] }
    }

    /// Adds to an entry and to its mirror image. An entry outside the pattern stays zero.
    pub fn add(&mut self, row: usize, column: usize, value: f64) {
        if let Some(index) = self.pattern.index(self.pattern.places[row], self.pattern.places[column]) {
            self.values[index] += value;
        }
    }

    /// Returns an entry; zero outside the pattern.
    #[must_use]
    pub fn get(&self, row: usize, column: usize) -> f64 {
        self.at(self.pattern.places[row], self.pattern.places[column])
    }

    /// Returns an entry by places.
    fn at(&self, one: usize, other: usize) -> f64 {
        self.pattern.index(one, other).map_or(0.0, |index| self.values[index])
    }

    /// Factors the matrix; `None` if it is not positive definite.
    #[must_use]
    pub fn factor(self) -> Option<SparseCholesky<'a>> {
        let Self { pattern, mut values } = self;
        let (sparse, size) = (pattern.sparse, pattern.core());
        let mut work = vec![0.0; pattern.size()];
        for column in 0..sparse {
            work[column] = values[column];
            for entry in pattern.entries(column) {
                work[pattern.rows[entry]] = values[sparse + entry];
            }
            for &entry in &pattern.in_row[column] {
                let factor = values[sparse + entry];
                // The rest of that earlier column, this row's own entry first.
                let end = pattern.starts[pattern.starts.partition_point(|start| *start <= entry)];
                for later in entry..end {
                    work[pattern.rows[later]] -= factor * values[sparse + later];
                }
            }
            let pivot = std::mem::take(&mut work[column]);
            if !(pivot > 0.0 && pivot.is_finite()) {
                return None;
            }
            let root = pivot.sqrt();
            values[column] = root;
            for entry in pattern.entries(column) {
                values[sparse + entry] = std::mem::take(&mut work[pattern.rows[entry]]) / root;
            }
        }
        let mut core = values.split_off(pattern.core_at());
        for column in 0..sparse {
            let entries = pattern.entries(column);
            let first = entries.start + pattern.rows[entries.clone()].partition_point(|row| *row < sparse);
            for entry in first..entries.end {
                let (factor, into) = (values[sparse + entry], (pattern.rows[entry] - sparse) * size);
                for row in entry..entries.end {
                    core[into + pattern.rows[row] - sparse] -= factor * values[sparse + row];
                }
            }
        }
        Some(SparseCholesky { pattern, values, core: Cholesky::of(core, size)? })
    }
}

/// A factor `L` with `L Lᵀ` the matrix, its rows in the order of elimination.
#[derive(Debug, Clone)]
pub(crate) struct SparseCholesky<'a> {
    pattern: &'a Pattern,
    /// Diagonals of the sparse columns, then their entries.
    values: Vec<f64>,
    core: Cholesky,
}

impl<'a> SparseCholesky<'a> {
    /// Computes the logarithm of the matrix's determinant.
    #[must_use]
    pub(crate) fn log_determinant(&self) -> f64 {
        self.values[..self.pattern.sparse].iter().map(|root| 2.0 * libm::log(*root)).sum::<f64>() + self.core.log_determinant()
    }

    /// Solves `matrix x = right`, in place.
    pub(crate) fn solve(&self, right: &mut [f64]) {
        let pattern = self.pattern;
        let mut x = vec![0.0; pattern.size()];
        for (place, right) in pattern.places.iter().zip(&*right) {
            x[*place] = *right;
        }
        for column in 0..pattern.sparse {
            x[column] /= self.values[column];
            let value = x[column];
            for entry in pattern.entries(column) {
                x[pattern.rows[entry]] -= value * self.values[pattern.sparse + entry];
            }
        }
        self.core.forward(&mut x[pattern.sparse..]);
        self.backward_by_places(&mut x);
        for (place, right) in pattern.places.iter().zip(right) {
            *right = x[*place];
        }
    }

    /// Solves `Lᵀ x = right`: turns independent standard normal scores into draws whose covariance is the matrix's
    /// inverse.
    #[must_use]
    pub(crate) fn scaled(&self, mut right: Vec<f64>) -> Vec<f64> {
        self.backward_by_places(&mut right);
        self.pattern.places.iter().map(|place| right[*place]).collect()
    }

    fn backward_by_places(&self, x: &mut [f64]) {
        let pattern = self.pattern;
        self.core.backward(&mut x[pattern.sparse..]);
        for column in (0..pattern.sparse).rev() {
            let later: f64 = pattern.entries(column).map(|entry| x[pattern.rows[entry]] * self.values[pattern.sparse + entry]).sum();
            x[column] = (x[column] - later) / self.values[column];
        }
    }

    /// Computes the inverse within the pattern.
    #[must_use]
    pub(crate) fn inverse(&self) -> Symmetric<'a> {
        let pattern = self.pattern;
        let mut inverse = Symmetric::zero(pattern);
        inverse.values[pattern.core_at()..].copy_from_slice(&self.core.inverse());
        for column in (0..pattern.sparse).rev() {
            let root = self.values[column];
            let mut diagonal = 1.0 / root;
            for entry in pattern.entries(column) {
                let row = pattern.rows[entry];
                let others = pattern.entries(column);
                let sum: f64 = others.map(|other| self.values[pattern.sparse + other] * inverse.at(pattern.rows[other], row)).sum();
                let value = -sum / root;
                inverse.values[pattern.sparse + entry] = value;
                diagonal -= self.values[pattern.sparse + entry] * value;
            }
            inverse.values[column] = diagonal / root;
        }
        inverse
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::minutes::model::count;
    use crate::minutes::random::Random;
    use std::collections::BTreeSet;

    /// Shares of a clique's rows, and their weight.
    type Weighed = (Vec<f64>, f64);

    /// Random cliques, each with the last row, and what they add to a matrix.
    fn random_cliques(size: usize, cliques: usize, random: &mut Random) -> (Vec<Vec<usize>>, Vec<Weighed>) {
        let chosen: Vec<Vec<usize>> = (0..cliques)
            .map(|_| {
                let rows: BTreeSet<usize> = std::iter::once(size - 1).chain((0..3).map(|_| random.below(size))).collect();
                rows.into_iter().collect()
            })
            .collect();
        let weighed = chosen.iter().map(|rows| (rows.iter().map(|_| random.normal()).collect(), 0.5 + random.uniform())).collect();
        (chosen, weighed)
    }

    /// Solving, determinant, inverse and draws are those of the dense factor, for scattered rows and for full ones.
    #[test]
    fn a_sparse_factor_equals_the_dense_one() {
        for (size, cliques, seed) in [(1, 1, 1), (6, 3, 2), (40, 12, 3), (40, 60, 4), (25, 200, 5)] {
            let mut random = Random::new(seed, 0);
            let (cliques, weighed) = random_cliques(size, cliques, &mut random);
            let pattern = Pattern::of(size, |row| row == size - 1, &cliques);
            let mut sparse = Symmetric::zero(&pattern);
            let mut dense = vec![0.0; size * size];
            for at in 0..size {
                sparse.add(at, at, 0.3);
                dense[at * (size + 1)] += 0.3;
            }
            for (rows, (shares, weight)) in cliques.iter().zip(&weighed) {
                for (at, row) in rows.iter().enumerate() {
                    for (other, column) in rows.iter().enumerate() {
                        dense[row * size + column] += weight * shares[at] * shares[other];
                        if other <= at {
                            sparse.add(*row, *column, weight * shares[at] * shares[other]);
                        }
                    }
                }
            }
            let (sparse, dense) = (sparse.factor().unwrap(), Cholesky::of(dense, size).unwrap());
            assert!((sparse.log_determinant() - dense.log_determinant()).abs() < 1e-9);
            let mut solved: Vec<f64> = (0..size).map(count).collect();
            let mut expected = solved.clone();
            sparse.solve(&mut solved);
            dense.forward(&mut expected);
            dense.backward(&mut expected);
            let near = |one: f64, other: f64| (one - other).abs() < 1e-9 * other.abs().max(1.0);
            assert!(solved.iter().zip(&expected).all(|(one, other)| near(*one, *other)), "{solved:?} {expected:?}");
            let (selected, whole) = (sparse.inverse(), dense.inverse());
            for rows in &cliques {
                for (row, column) in rows.iter().flat_map(|row| rows.iter().map(move |column| (*row, *column))) {
                    assert!(near(selected.get(row, column), whole[row * size + column]), "{row} {column}");
                }
            }
            // The covariance of what scores are scaled to, from the images of the unit vectors.
            let images: Vec<Vec<f64>> =
                (0..size).map(|at| sparse.scaled((0..size).map(|other| if other == at { 1.0 } else { 0.0 }).collect())).collect();
            for row in 0..size {
                let variance: f64 = images.iter().map(|image| image[row] * image[row]).sum();
                assert!(near(variance, whole[row * (size + 1)]), "{row}");
            }
        }
    }

    #[test]
    fn scattered_rows_are_eliminated_one_at_a_time_and_full_ones_together() {
        let orders: Vec<Vec<usize>> = (0..100).map(|order| vec![4 * order, 4 * order + 1, 4 * order + 2, 4 * order + 3, 400]).collect();
        let pattern = Pattern::of(401, |row| row == 400, &orders);
        assert!(pattern.sparse > 395 && pattern.rows.len() < 4 * 401, "{} {}", pattern.sparse, pattern.rows.len());
        let full = Pattern::of(30, |_| false, [(0..30).collect::<Vec<usize>>()]);
        assert_eq!(full.sparse, 0);
    }

    #[test]
    fn a_matrix_that_is_not_positive_definite_has_no_factor() {
        let pattern = Pattern::of(9, |row| row == 8, [[0, 8], [1, 8]]);
        let mut matrix = Symmetric::zero(&pattern);
        assert!(matrix.clone().factor().is_none());
        for at in 0..9 {
            matrix.add(at, at, 1.0);
        }
        assert!(matrix.clone().factor().is_some());
        matrix.add(0, 8, 2.0);
        assert!(matrix.factor().is_none());
    }
}
