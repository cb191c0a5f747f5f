//! Texts without what does not matter in them, so that two ways of writing one thing compare equal.

/// A name without letter case, its words apart by one blank: `paper  Owl` is `paper owl`. Hyphens and points stay: `A-1` is not `A1`.
#[must_use]
pub fn name(text: &str) -> String {
    text.split_whitespace().map(str::to_lowercase).collect::<Vec<_>>().join(" ")
}

/// A heading, or a word of a short list, without letter case, blanks, hyphens, underscores and points: `Clean-up` is `clean up`.
#[must_use]
pub fn word(text: &str) -> String {
    let matters = |c: &char| !c.is_whitespace() && !matches!(c, '_' | '.' | '-' | '‑');
    text.chars().filter(matters).flat_map(char::to_lowercase).collect()
}
