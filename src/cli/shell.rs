//! Commands as a person types them into a shell.

/// Writes a command of this program, with quotes around words that a shell would part.
pub fn command(words: impl IntoIterator<Item = impl AsRef<str>>) -> String {
    words.into_iter().fold("fairdozen".to_owned(), |command, word| command + " " + &quoted(word.as_ref()))
}

/// Writes a word as a shell takes it.
pub fn quoted(word: &str) -> String {
    let is_plain = |letter: char| letter.is_alphanumeric() || "-_./=:,+%".contains(letter);
    if !word.is_empty() && word.chars().all(is_plain) { word.to_owned() } else { format!("'{}'", word.replace('\'', "'\\''")) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_that_a_shell_would_part_are_quoted() {
        assert_eq!(command(["check", "my-shop/2026", "--all"]), "fairdozen check my-shop/2026 --all");
        assert_eq!(command(["check", "my shop", "it's", ""]), "fairdozen check 'my shop' 'it'\\''s' ''");
    }
}
