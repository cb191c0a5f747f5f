//! Commands as they are shown to be typed.

/// A word as a shell takes it.
pub fn quoted(word: &str) -> String {
    let is_plain = |letter: char| letter.is_alphanumeric() || "-_./=:,+%".contains(letter);
    if !word.is_empty() && word.chars().all(is_plain) { word.to_owned() } else { format!("'{}'", word.replace('\'', "'\\''")) }
}
