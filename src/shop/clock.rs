//! The time of each row of the hours log: minutes as written, else what the clock says.

use super::kinds::{NO_MINUTES, NO_TIME, PAST_THE_CLOCK, TWO_ENDS};
use crate::reading::Problem;
use crate::reading::Table;

/// A stretch of the clock.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Clock {
    /// Its start, in seconds after midnight.
    pub start: i64,
    /// Its end, in seconds after the midnight before its start.
    pub end: i64,
}

/// Seconds of a day.
pub(crate) const DAY: i64 = 24 * 60 * 60;

/// Each row's minutes in millionths, as written, else from start to end; and the clock, where it has both.
pub(super) fn timed(table: &mut Table, problems: &mut Vec<Problem>) -> Vec<Option<(i64, Option<Clock>)>> {
    let written = table.millionths("minutes");
    let starts = table.spans("start");
    let ends = table.wholes("end");
    (0..table.rows())
        .map(|row| {
            let (start, beside) = starts[row].map_or((None, None), |(start, end)| (Some(start), end));
            if beside.is_some_and(|beside| ends[row].is_some_and(|end| end != beside)) {
                let problem = table.problem(&TWO_ENDS, row, "end", "is not the end that the cell of the start has");
                problems.push(problem.instead("write the end once"));
                return None;
            }
            let end = ends[row].or(beside);
            let clock = start.zip(end).map(|(start, end)| Clock { start, end: start + (end - start).rem_euclid(DAY) });
            let minutes = match (written[row], start, end) {
                (Some(minutes), Some(start), Some(end)) if minutes > span(start, end) => {
                    let problem = table.problem(&PAST_THE_CLOCK, row, "minutes", "there are more minutes than lie between start and end");
                    problems.push(problem.instead("correct minutes, start or end"));
                    None
                }
                // Fewer minutes than the clock says are work with a break in it.
                (Some(minutes), _, _) => Some(minutes),
                (None, Some(start), Some(end)) if start == end => {
                    let problem = table.problem(&NO_TIME, row, "end", "the end is the start, so no time passed");
                    problems.push(problem.instead("correct one of them, or write the minutes"));
                    Some(0)
                }
                (None, Some(start), Some(end)) => Some(span(start, end)),
                _ if ["minutes", "start", "end"].iter().any(|column| table.is_wrong(row, column)) => None,
                _ => {
                    let problem = table.problem(&NO_MINUTES, row, "minutes", "the row has no minutes");
                    problems.push(problem.instead("write the minutes, or both start and end"));
                    None
                }
            };
            minutes.map(|minutes| (minutes, clock))
        })
        .collect()
}

/// Millionths of a minute from one time of day to another, in seconds after midnight; an end before the start is past midnight.
fn span(start: i64, end: i64) -> i64 {
    // A second is a sixtieth of a minute, rounded half up.
    ((end - start).rem_euclid(DAY) * 1_000_000 + 30) / 60
}
