//! `check`.

use super::arguments::Check;
use super::outcome::Outcome;

pub fn run(_arguments: &Check) -> Outcome {
    Outcome::default()
}
