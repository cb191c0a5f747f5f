//! Lists of names, and how many of them a sentence holds.

/// Names that a sentence holds where there are many.
pub const NAMED: usize = 3;
/// Names of orders to be looked up one by one, of which a sentence holds more.
pub const ORDERS_NAMED: usize = 8;

/// Joins things in a row: `a`, `a and b`, `a, b and c`.
#[must_use]
pub fn and(things: &[String]) -> String {
    match things {
        [] => String::new(),
        [only] => only.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// Joins the first names, and says how many more there are: `a, b, c and 2 more`. A single name more is not left out.
#[must_use]
pub fn first_of(names: &[String], most: usize) -> String {
    if names.len() <= most + 1 {
        return and(names);
    }
    let more = format!("{} more", super::number(names.len() - most));
    and(&names[..most].iter().cloned().chain([more]).collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_have_commas_and_one_and() {
        let names = ["a", "b", "c"].map(str::to_owned);
        assert_eq!([0, 1, 2, 3].map(|count| and(&names[..count])), ["", "a", "a and b", "a, b and c"]);
    }

    #[test]
    fn of_many_names_the_first_are_given_and_the_others_counted() {
        let names = ["a", "b", "c", "d", "e"].map(str::to_owned);
        assert_eq!([3, 4, 5].map(|count| first_of(&names[..count], 3)), ["a, b and c", "a, b, c and d", "a, b, c and 2 more"]);
    }
}
