//! Partitions a sequence into contiguous runs with strictly increasing places at the least score: exact, by dynamic programming.
//!
//! With the price ladder the things are designs by fair price, the runs tiers and the places prices. With places that
//! cost nothing it is optimal one-dimensional clustering (Fisher 1958; Wang and Song 2011), whose published answers it
//! is tested against.

use std::ops::Range;

/// A division.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Runs<S> {
    /// Each run's end, exclusive, and its place.
    pub runs: Vec<(usize, usize)>,
    /// The score.
    pub score: S,
}

/// Where a best score came from: the run's start and the place of the run before.
type From = (u32, u32);

/// At each place of the next run the least score before it, and where the run before stands.
type Below<S> = Vec<Option<(S, u32)>>;

/// The best of so many runs up to an end, at each place the last may stand; empty until there is one.
#[derive(Clone)]
struct Cells<S> {
    best: Vec<Option<S>>,
    from: Vec<From>,
}

/// The division of `count` things into exactly `parts` runs with strictly rising places below `places`, at the least
/// score; the earliest of equals. `None` where there is none.
///
/// `weigh` fills in the score of the run from its first to its second argument (exclusive) at each place, `None` where
/// it may not stand. It is called with starts ascending and, for each, ends ascending. `link` gives, for a run that begins at
/// its first argument and stands at the place that is its second, the lower places where the run before is well put;
/// elsewhere `penalty` is added.
pub(crate) fn best_runs<S>(
    count: usize,
    parts: usize,
    places: usize,
    (nothing, penalty): (S, S),
    link: impl Fn(usize, usize) -> Range<usize>,
    mut weigh: impl FnMut(usize, usize, &mut [Option<S>]),
) -> Option<Runs<S>>
where
    S: Copy + PartialOrd + std::ops::Add<Output = S>,
{
    if parts == 0 || parts > count {
        return None;
    }
    let at = |part: usize, end: usize| (part - 1) * (count + 1) + end;
    // As many things before as there are runs before, and behind as many as are to come.
    let in_reach = |part: usize, end: usize| part <= end && parts - part <= count - end && (part < parts || end == count);
    let mut cells: Vec<Cells<S>> = vec![Cells { best: Vec::new(), from: Vec::new() }; parts * (count + 1)];
    let mut run: Vec<Option<S>> = vec![None; places];
    for start in 0..count {
        // The least over lower places of all runs before: final by now, since those start earlier.
        let before = |part: usize| -> Below<S> {
            let least = Least::of(&cells[at(part, start)].best);
            let of = |place: usize| {
                let range = link(start, place);
                let near = least.within(range.start..range.end.min(place));
                let any = least.within(0..place).map(|(score, before)| (score + penalty, before));
                match (near, any) {
                    (Some(near), Some(any)) if any.0 < near.0 => Some(any),
                    (near, any) => near.or(any),
                }
            };
            (0..places).map(of).collect()
        };
        let reached = |part: &usize| in_reach(*part, start) && !cells[at(*part, start)].best.is_empty();
        let below: Vec<(usize, Below<S>)> = if start == 0 {
            vec![(1, vec![Some((nothing, 0)); places])]
        } else {
            (1..parts).filter(reached).map(|part| (part + 1, before(part))).collect()
        };
        // No later run looks at what ends here.
        (1..=parts).for_each(|part| cells[at(part, start)].best = Vec::new());
        if below.is_empty() {
            continue;
        }
        for end in start + 1..=count {
            run.fill(None);
            weigh(start, end, &mut run);
            for (part, below) in below.iter().filter(|(part, _)| in_reach(*part, end)) {
                let Cells { best, from } = &mut cells[at(*part, end)];
                if best.is_empty() {
                    best.resize(places, None);
                    from.resize(places, (0, 0));
                }
                for (place, (own, below)) in run.iter().zip(below).enumerate() {
                    let (Some(own), Some((score, before))) = (own, below) else { continue };
                    let score = *score + *own;
                    if best[place].is_none_or(|known| score < known) {
                        best[place] = Some(score);
                        from[place] = (u32::try_from(start).ok()?, *before);
                    }
                }
            }
        }
    }
    let mut found: Option<(S, usize)> = None;
    for (place, score) in cells[at(parts, count)].best.iter().enumerate() {
        if let Some(score) = *score
            && found.is_none_or(|(known, _)| score < known)
        {
            found = Some((score, place));
        }
    }
    let (score, mut place) = found?;
    let (mut runs, mut end) = (Vec::with_capacity(parts), count);
    for part in (1..=parts).rev() {
        runs.push((end, place));
        let (start, before) = cells[at(part, end)].from[place];
        (end, place) = (start as usize, before as usize);
    }
    runs.reverse();
    Some(Runs { runs, score })
}

/// The least score of any range of places, the lowest of equals: tables of ranges whose lengths are powers of two.
struct Least<S> {
    tables: Vec<Below<S>>,
}

impl<S: Copy + PartialOrd> Least<S> {
    fn of(scores: &[Option<S>]) -> Self {
        let mut tables: Vec<Below<S>> = vec![(0..).zip(scores).map(|(place, score)| score.map(|score| (score, place))).collect()];
        let mut half = 1;
        while 2 * half <= scores.len() {
            let last = &tables[tables.len() - 1];
            let table = (0..=scores.len() - 2 * half).map(|at| Self::less(last[at], last[at + half])).collect();
            tables.push(table);
            half *= 2;
        }
        Self { tables }
    }

    fn less(one: Option<(S, u32)>, other: Option<(S, u32)>) -> Option<(S, u32)> {
        match (one, other) {
            (Some(one), Some(other)) if other.0 < one.0 => Some(other),
            (one, other) => one.or(other),
        }
    }

    fn within(&self, range: Range<usize>) -> Option<(S, u32)> {
        let length = range.end.checked_sub(range.start).filter(|length| *length > 0)?;
        let level = length.ilog2() as usize;
        let table = &self.tables[level];
        Self::less(table[range.start], table[range.end - (1 << level)])
    }
}
