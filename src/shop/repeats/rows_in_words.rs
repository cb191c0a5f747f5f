//! The rows of a file in words.

use crate::reading::Place;

/// Most stretches of rows that are named.
const STRETCHES: usize = 4;

/// Rows that follow one another, blank ones passed over: "rows 12 to 23".
pub(super) fn stretch_in_words(places: &[Place]) -> String {
    match places {
        [first, .., last] => format!("rows {} to {}", first.row, last.row),
        places => rows_in_words(places),
    }
}

/// Any rows, in rising order: "row 12", "rows 12, 14 to 16 and 20"; of many stretches the first four.
pub(super) fn rows_in_words(places: &[Place]) -> String {
    let rows: Vec<u32> = places.iter().map(|place| place.row).collect();
    let stretches: Vec<&[u32]> = rows.chunk_by(|one, next| one + 1 == *next).collect();
    let said = |rows: &&[u32]| match rows {
        [first, .., last] => format!("{first} to {last}"),
        rows => rows.iter().map(u32::to_string).collect(),
    };
    let named: Vec<String> = stretches.iter().take(STRETCHES).map(said).collect();
    let word = if rows.len() == 1 { "row" } else { "rows" };
    let left = rows.len() - stretches.iter().take(STRETCHES).map(|rows| rows.len()).sum::<usize>();
    match (named.split_last(), left) {
        (Some((last, before)), 0) if !before.is_empty() => format!("{word} {} and {last}", before.join(", ")),
        (_, 0) => format!("{word} {}", named.concat()),
        (_, left) => format!("{word} {} and {left} more", named.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_read_as_a_person_says_them() {
        let said = |rows: &[u32]| rows_in_words(&rows.iter().map(|row| Place::of_row(*row, *row)).collect::<Vec<_>>());
        assert_eq!(said(&[12]), "row 12");
        assert_eq!(said(&[12, 13]), "rows 12 to 13");
        assert_eq!(said(&[12, 14]), "rows 12 and 14");
        assert_eq!(said(&[12, 14, 15, 16, 20]), "rows 12, 14 to 16 and 20");
        assert_eq!(said(&[1, 3, 5, 7, 9, 10]), "rows 1, 3, 5, 7 and 2 more");
    }
}
