//! The suffix automaton of a sequence: the smallest automaton that reads each of its stretches.
//!
//! Built from left to right in linear time (Blumer, Blumer, Ehrenfeucht, Haussler, Chen and Seiferas 1985; Crochemore, Hancart and Lecroq,
//! *Algorithms on Strings*, 2007, section 5.4).

use std::collections::HashMap;

const ROOT: usize = 0;
const NONE: u32 = u32::MAX;

/// A set of stretches that end at the same places.
#[derive(Debug, Clone, Copy)]
struct State {
    /// The length of its longest stretch.
    length: usize,
    /// The state of the longest stretch that ends these and is not in this state.
    link: usize,
    /// Where its stretches end first.
    first_end: usize,
    /// The transition out of it that was added last.
    last_transition: u32,
}

/// A transition, in the list of those of its state.
#[derive(Debug, Clone, Copy)]
struct Transition {
    symbol: usize,
    before: u32,
}

/// The automaton.
#[derive(Debug)]
pub(super) struct SuffixAutomaton {
    states: Vec<State>,
    /// The state after each state and symbol.
    next: HashMap<(usize, usize), usize>,
    transitions: Vec<Transition>,
}

/// An earlier stretch that is the same as the one which begins at a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Earlier {
    /// How long both are.
    pub length: usize,
    /// Where the earlier one begins first.
    pub first: usize,
}

impl SuffixAutomaton {
    pub fn of(sequence: &[usize]) -> Self {
        let root = State { length: 0, link: ROOT, first_end: 0, last_transition: NONE };
        let mut automaton = Self { states: vec![root], next: HashMap::new(), transitions: Vec::new() };
        let mut last = ROOT;
        for (end, symbol) in sequence.iter().enumerate() {
            last = automaton.extend(last, end, *symbol);
        }
        automaton
    }

    /// Adds the next symbol after the state of the whole sequence so far; the state of the longer one.
    fn extend(&mut self, last: usize, end: usize, symbol: usize) -> usize {
        let added = self.states.len();
        self.states.push(State { length: end + 1, link: ROOT, first_end: end, last_transition: NONE });
        let mut at = last;
        loop {
            if let Some(known) = self.next.get(&(at, symbol)).copied() {
                self.states[added].link = self.split(at, symbol, known);
                return added;
            }
            self.set(at, symbol, added);
            if at == ROOT {
                return added;
            }
            at = self.states[at].link;
        }
    }

    /// The state of the stretches that are one symbol longer than those of `at`: `known`, or a copy of it for these alone.
    fn split(&mut self, at: usize, symbol: usize, known: usize) -> usize {
        let length = self.states[at].length + 1;
        if self.states[known].length == length {
            return known;
        }
        let copy = self.states.len();
        self.states.push(State { length, last_transition: NONE, ..self.states[known] });
        let mut of_known = self.states[known].last_transition;
        while let Some(Transition { symbol, before }) = self.transitions.get(of_known as usize).copied() {
            self.set(copy, symbol, self.next[&(known, symbol)]);
            of_known = before;
        }
        self.states[known].link = copy;
        let mut at = at;
        while self.next.get(&(at, symbol)) == Some(&known) {
            self.next.insert((at, symbol), copy);
            if at == ROOT {
                break;
            }
            at = self.states[at].link;
        }
        copy
    }

    fn set(&mut self, state: usize, symbol: usize, to: usize) {
        self.next.insert((state, symbol), to);
        let before = std::mem::replace(&mut self.states[state].last_transition, u32::try_from(self.transitions.len()).unwrap_or(NONE));
        self.transitions.push(Transition { symbol, before });
    }

    /// For each place of the sequence, the longest stretch that begins there and stands earlier without overlapping it: its *longest
    /// previous non-overlapping factor* (Crochemore, Iliopoulos, Kubica, Rytter and Waleń 2009), in linear time.
    pub(crate) fn longest_earlier(&self, sequence: &[usize]) -> Vec<Earlier> {
        let (mut state, mut length) = (ROOT, 0);
        let mut all = Vec::with_capacity(sequence.len());
        for at in 0..sequence.len() {
            while let Some(symbol) = sequence.get(at + length) {
                let Some(next) = self.next.get(&(state, *symbol)).copied().filter(|next| self.states[*next].first_end < at) else { break };
                (state, length) = (next, length + 1);
            }
            let first = if length == 0 { 0 } else { self.states[state].first_end + 1 - length };
            all.push(Earlier { length, first });
            length = length.saturating_sub(1);
            if length == self.states[self.states[state].link].length {
                state = self.states[state].link;
            }
        }
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn by_trying_all(sequence: &[usize]) -> Vec<Earlier> {
        let longest = |at: usize| {
            let of = |first: usize| {
                let longest = (0..=(at - first).min(sequence.len() - at)).rev();
                longest.into_iter().find(|length| sequence[first..first + length] == sequence[at..at + length]).unwrap_or(0)
            };
            let length = (0..at).map(of).max().unwrap_or(0);
            let first = if length == 0 { 0 } else { (0..at).find(|first| of(*first) >= length).unwrap() };
            Earlier { length, first }
        };
        (0..sequence.len()).map(longest).collect()
    }

    proptest! {
        #[test]
        fn stretches_are_those_found_by_trying_all(sequence in proptest::collection::vec(0..4_usize, 0..40)) {
            prop_assert_eq!(SuffixAutomaton::of(&sequence).longest_earlier(&sequence), by_trying_all(&sequence));
        }
    }

    #[test]
    fn it_is_linear() {
        let sequence: Vec<usize> = (0..200_000).map(|at| at % 3).collect();
        let automaton = SuffixAutomaton::of(&sequence);
        assert!(automaton.states.len() <= 2 * sequence.len() && automaton.transitions.len() <= 3 * sequence.len());
        let longest = automaton.longest_earlier(&sequence);
        assert_eq!(longest[99_999], Earlier { length: 99_999, first: 0 });
    }
}
