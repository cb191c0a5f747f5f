//! Names of months: English, German and French, as Unicode CLDR has them. The one list of them.

use std::sync::LazyLock;

/// One row of names for each language, length and place in a sentence.
const TABLE: &str = include_str!("../../fixtures/cldr/month_names.csv");

/// The names in English, January first.
pub(crate) static ENGLISH: LazyLock<[&str; 12]> = LazyLock::new(|| {
    let mut names = rows().next().into_iter().flatten();
    std::array::from_fn(|_| names.next().unwrap_or_default())
});

/// Every name in small letters without points, with its month, 1 to 12.
static NAMES: LazyLock<Vec<(String, u32)>> = LazyLock::new(|| {
    let mut names: Vec<(String, u32)> = rows().flat_map(|row| row.map(|name| name.trim_end_matches('.').to_lowercase()).zip(1..)).collect();
    names.sort();
    names.dedup();
    names
});

/// The names of each row, January first.
fn rows() -> impl Iterator<Item = impl Iterator<Item = &'static str>> {
    TABLE.lines().filter(|line| !line.starts_with('#')).skip(1).map(|line| line.split(',').skip(3))
}

/// The month of a name in small letters without points, 1 to 12.
#[must_use]
pub fn month(folded: &str) -> Option<u32> {
    NAMES.binary_search_by(|(name, _)| name.as_str().cmp(folded)).ok().map(|at| NAMES[at].1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_one_month_in_every_language() {
        assert!(NAMES.windows(2).all(|pair| pair[0].0 != pair[1].0), "{NAMES:?}");
        for (name, expected) in [("september", 9), ("sep", 9), ("sept", 9), ("märz", 3), ("mars", 3), ("juil", 7), ("août", 8), ("dez", 12)]
        {
            assert_eq!(month(name), Some(expected), "{name}");
        }
        assert_eq!(month("smarch"), None);
        assert_eq!((ENGLISH[0], ENGLISH[11]), ("January", "December"));
        for (name, number) in ENGLISH.iter().zip(1..) {
            let name = name.to_lowercase();
            assert_eq!((month(&name), month(&name[..3])), (Some(number), Some(number)), "{name}");
        }
    }
}
