//! Lists of names, and how many of them a sentence holds.

/// Names that a sentence holds where there are many.
pub const NAMED: usize = 3;
/// Names of orders to be looked up one by one, of which a sentence holds more.
pub const ORDERS_NAMED: usize = 8;

/// Joins things in a row: `a`, `a and b`, `a, b and c`; by semicolons where one of them holds a comma or an `and`.
#[must_use]
pub fn and(things: &[String]) -> String {
    match things {
        [] => String::new(),
        [only] => only.clone(),
        [first @ .., last] if things.iter().any(|thing| is_compound(thing)) => format!("{}; and {last}", first.join("; ")),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// Whether a thing would read as several: it holds a comma or an `and` outside brackets.
fn is_compound(thing: &str) -> bool {
    let mut depth = 0_i32;
    let bare: String = thing
        .chars()
        .filter(|letter| {
            depth += i32::from(*letter == '(') - i32::from(*letter == ')');
            depth <= 0
        })
        .collect();
    bare.contains(", ") || bare.contains(" and ")
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
    fn names_that_hold_commas_or_an_and_are_parted_by_semicolons() {
        let names = ["insurance", "web page and phone", "kitchen permit, two years"].map(str::to_owned);
        assert_eq!(and(&names), "insurance; web page and phone; and kitchen permit, two years");
        let in_brackets = ["L028 (logged 12 h, expected 3 h)", "L029 (one and two)"].map(str::to_owned);
        assert_eq!(and(&in_brackets), "L028 (logged 12 h, expected 3 h) and L029 (one and two)");
    }

    #[test]
    fn of_many_names_the_first_are_given_and_the_others_counted() {
        let names = ["a", "b", "c", "d", "e"].map(str::to_owned);
        assert_eq!([3, 4, 5].map(|count| first_of(&names[..count], 3)), ["a, b and c", "a, b, c and d", "a, b, c and 2 more"]);
    }
}
