//! Chance driven by a seed: the same seed makes the same shop on every machine.

use rand::seq::SliceRandom;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// What is rolled.
pub struct Dice(ChaCha8Rng);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(ChaCha8Rng::seed_from_u64(seed))
    }

    /// Whether something happens that does so in so many of a hundred cases.
    pub fn chance(&mut self, percent: i64) -> bool {
        self.whole(1, 100) <= percent
    }

    /// A whole number from `least` to `most`, both included.
    pub fn whole(&mut self, least: i64, most: i64) -> i64 {
        self.0.random_range(least..=most)
    }

    /// One of several.
    pub fn one<T: Clone>(&mut self, of: &[T]) -> T {
        of[self.0.random_range(0..of.len())].clone()
    }

    /// Up to `count` different ones of several.
    pub fn some<T: Clone>(&mut self, of: &[T], count: i64) -> Vec<T> {
        let mut all = of.to_vec();
        self.shuffle(&mut all);
        all.truncate(usize::try_from(count).unwrap());
        all
    }

    pub fn shuffle<T>(&mut self, of: &mut [T]) {
        of.shuffle(&mut self.0);
    }

    /// Money between two amounts given in cents.
    pub fn cents(&mut self, least: i64, most: i64) -> String {
        hundredths(self.whole(least, most))
    }

    /// An amount of the size of so many hundredths, never nil.
    pub fn around(&mut self, size: i64) -> String {
        hundredths((size * self.whole(40, 170) / 100).max(5))
    }
}

/// `1234` as `12.34`.
pub fn hundredths(value: i64) -> String {
    let sign = if value < 0 { "-" } else { "" };
    format!("{sign}{}.{:02}", value.abs() / 100, value.abs() % 100)
}
