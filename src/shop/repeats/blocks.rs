//! Blocks of rows that repeat earlier blocks.

use super::suffix_automaton::SuffixAutomaton;
use std::collections::{BTreeMap, BinaryHeap};

/// The fewest rows of a block: two rows in a row may be the same by chance.
const LEAST: usize = 3;

/// Rows in a row that repeat as many earlier ones, which they do not overlap.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Block {
    /// The first row of the earlier ones.
    pub first: usize,
    /// The first row of those that repeat them.
    pub again: usize,
    /// How many rows each has.
    pub length: usize,
}

/// The blocks among rows, of which `alike` gives the first row that each is like: the longest first, no row in two of them, each of at
/// least three rows that are not all the same; in the order of rows.
///
/// Only rows in runs that all stand elsewhere, too, can be in a block, so in sound logs next to none are looked at closer. In these the
/// longest earlier stretch of each row is known in linear time; taking the longest first costs a sort.
pub(super) fn blocks(alike: &[usize]) -> Vec<Block> {
    let (rows, sequence) = candidates(alike);
    if sequence.len() < 2 * LEAST {
        return Vec::new();
    }
    let earlier = SuffixAutomaton::of(&sequence).longest_earlier(&sequence);
    // Where the run of equal rows that each row is in ends.
    let mut run_ends = vec![sequence.len(); sequence.len()];
    for at in (1..sequence.len()).rev() {
        run_ends[at - 1] = if sequence[at - 1] == sequence[at] { run_ends[at] } else { at };
    }
    let is_block = |at: usize, length: usize| length >= LEAST && run_ends[at] < at + length;
    // The longest first; of these the one that begins first.
    let mut longest: BinaryHeap<(usize, std::cmp::Reverse<usize>)> =
        earlier.iter().enumerate().filter(|(at, of)| is_block(*at, of.length)).map(|(at, of)| (of.length, std::cmp::Reverse(at))).collect();
    let mut taken: BTreeMap<usize, usize> = BTreeMap::new();
    while let Some((length, std::cmp::Reverse(at))) = longest.pop() {
        if taken.range(..=at).next_back().is_some_and(|(_, end)| *end > at) {
            continue;
        }
        let free = taken.range(at..).next().map_or(length, |(next, _)| length.min(next - at));
        if free == length {
            taken.insert(at, at + length);
        } else if is_block(at, free) {
            longest.push((free, std::cmp::Reverse(at)));
        }
    }
    let block = |(at, end): (usize, usize)| Block { first: rows[earlier[at].first], again: rows[at], length: end - at };
    taken.into_iter().map(block).collect()
}

/// The rows that may be in a block and what each is like. Between two runs stands a mark that is like nothing else, so that no block goes
/// over their border.
fn candidates(alike: &[usize]) -> (Vec<usize>, Vec<usize>) {
    let mut times = vec![0_usize; alike.len()];
    for first in alike {
        times[*first] += 1;
    }
    let (mut rows, mut sequence) = (Vec::new(), Vec::new());
    let mut start = 0;
    for run in alike.chunk_by(|one, other| (times[*one] > 1) == (times[*other] > 1)) {
        if times[run[0]] > 1 && run.len() >= LEAST {
            rows.extend(start..start + run.len());
            sequence.extend_from_slice(run);
            rows.push(alike.len());
            sequence.push(alike.len() + start);
        }
        start += run.len();
    }
    (rows, sequence)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn of(text: &str) -> Vec<(usize, usize, usize)> {
        let letters: Vec<char> = text.chars().collect();
        let alike: Vec<usize> = letters.iter().map(|letter| letters.iter().position(|first| first == letter).unwrap()).collect();
        blocks(&alike).into_iter().map(|Block { first, again, length }| (first, again, length)).collect()
    }

    #[test]
    fn a_block_names_both_places_and_is_as_long_as_it_can_be() {
        assert_eq!(of("abcdeabcde"), [(0, 5, 5)]);
        assert_eq!(of("xabcdeyabcdez"), [(1, 7, 5)]);
        assert_eq!(of("abcabcabc"), [(0, 3, 3), (0, 6, 3)]);
        assert_eq!(of("abcxabcyabcx"), [(0, 4, 3), (0, 8, 4)]);
        // The longest comes first, though another begins before it.
        assert_eq!(of("xyabcdefg12xy3xyab4abcdefg"), [(0, 14, 4), (2, 19, 7)]);
    }

    #[test]
    fn two_rows_or_equal_rows_are_no_block() {
        for text in ["", "a", "abab", "aaaaaaaa", "abcxab", "abcdcba", "abxcabyc"] {
            assert_eq!(of(text), [], "{text}");
        }
        assert_eq!(of("aabaab"), [(0, 3, 3)]);
    }

    /// Every block there is, by trying all.
    fn has_block(rows: &[usize], covered: &[bool]) -> bool {
        (0..rows.len()).any(|first| {
            (first + LEAST..rows.len().saturating_sub(LEAST - 1)).any(|again| {
                let is_free = covered[again..again + LEAST].iter().all(|covered| !covered);
                let (one, other) = (&rows[first..first + LEAST], &rows[again..again + LEAST]);
                is_free && one == other && one.iter().any(|row| *row != one[0])
            })
        })
    }

    proptest! {
        #[test]
        fn every_block_is_sound_and_none_is_left(rows in proptest::collection::vec(0..5_usize, 0..60)) {
            let alike: Vec<usize> = rows.iter().map(|row| rows.iter().position(|first| first == row).unwrap()).collect();
            let found = blocks(&alike);
            let mut covered = vec![false; rows.len()];
            for Block { first, again, length } in found {
                prop_assert!(first + length <= again && length >= LEAST);
                prop_assert_eq!(&rows[first..first + length], &rows[again..again + length]);
                prop_assert!(rows[again..again + length].iter().any(|row| *row != rows[again]));
                for row in &mut covered[again..again + length] {
                    prop_assert!(!*row);
                    *row = true;
                }
            }
            prop_assert!(!has_block(&rows, &covered));
        }
    }
}
