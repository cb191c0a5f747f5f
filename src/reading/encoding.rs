//! The bytes of a text file as text: UTF-8, UTF-16 or Windows-1252, told apart by the bytes alone.

use encoding_rs::{UTF_8, UTF_16BE, UTF_16LE, WINDOWS_1252};
use std::borrow::Cow;
use std::fmt;

/// How letters are written as bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Encoding {
    /// UTF-8, with or without a byte order mark; ASCII is UTF-8 too.
    Utf8,
    /// UTF-16, the lower byte first.
    Utf16Le,
    /// UTF-16, the higher byte first.
    Utf16Be,
    /// Windows-1252, one byte a letter, as spreadsheets of Western Europe and America save CSV.
    Windows1252,
}

impl fmt::Display for Encoding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Utf8 => "UTF-8",
            Self::Utf16Le | Self::Utf16Be => "UTF-16",
            Self::Windows1252 => "Windows-1252",
        })
    }
}

/// The text of a file.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Decoded<'a> {
    /// The text, without its byte order mark.
    pub text: Cow<'a, str>,
    /// How it was written.
    pub encoding: Encoding,
    /// Whether some bytes are no letters of the encoding; U+FFFD stands for each run of them.
    pub is_broken: bool,
}

/// Decodes the bytes of a file; `None` where they hold zeros that no UTF-16 explains, so that they are no text.
///
/// A byte order mark rules. Without one, zeros on one side of every pair of bytes mean UTF-16, valid UTF-8 is UTF-8, and the rest is
/// Windows-1252, unless some of its letters are whole UTF-8 sequences of several bytes: such a file mixes the two, and is taken for
/// broken UTF-8 rather than guessed at.
#[must_use]
pub(crate) fn decode(bytes: &[u8]) -> Option<Decoded<'_>> {
    let (encoding, bytes) = match bytes {
        [0xEF, 0xBB, 0xBF, rest @ ..] => (Encoding::Utf8, rest),
        [0xFF, 0xFE, rest @ ..] => (Encoding::Utf16Le, rest),
        [0xFE, 0xFF, rest @ ..] => (Encoding::Utf16Be, rest),
        _ => (without_mark(bytes), bytes),
    };
    let decoder = match encoding {
        Encoding::Utf8 => UTF_8,
        Encoding::Utf16Le => UTF_16LE,
        Encoding::Utf16Be => UTF_16BE,
        Encoding::Windows1252 => WINDOWS_1252,
    };
    let (text, is_broken) = decoder.decode_without_bom_handling(bytes);
    (!text.contains('\0')).then_some(Decoded { text, encoding, is_broken })
}

fn without_mark(bytes: &[u8]) -> Encoding {
    if let Some(encoding) = utf16_by_zeros(bytes) {
        return encoding;
    }
    if std::str::from_utf8(bytes).is_ok() || holds_utf8_letters(bytes) { Encoding::Utf8 } else { Encoding::Windows1252 }
}

/// UTF-16 that is mostly ASCII has a zero in most pairs of bytes, nearly always on the same side; the first of them tell.
fn utf16_by_zeros(bytes: &[u8]) -> Option<Encoding> {
    let bytes = bytes.len().is_multiple_of(2).then(|| &bytes[..bytes.len().min(1 << 16)])?;
    let (mut first, mut second) = (0, 0);
    for pair in bytes.chunks_exact(2) {
        first += usize::from(pair[0] == 0);
        second += usize::from(pair[1] == 0);
    }
    let enough = bytes.len() / 6;
    if second > enough && second > 4 * first {
        Some(Encoding::Utf16Le)
    } else if first > enough && first > 4 * second {
        Some(Encoding::Utf16Be)
    } else {
        None
    }
}

/// Whether a letter beyond ASCII is written in UTF-8 somewhere in bytes that are not UTF-8 as a whole.
fn holds_utf8_letters(bytes: &[u8]) -> bool {
    bytes.utf8_chunks().any(|chunk| !chunk.valid().is_ascii())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn utf16(text: &str, bytes: impl Fn(u16) -> [u8; 2]) -> Vec<u8> {
        text.encode_utf16().flat_map(bytes).collect()
    }

    fn read(bytes: &[u8]) -> (String, Encoding) {
        let decoded = decode(bytes).unwrap();
        assert!(!decoded.is_broken);
        (decoded.text.into_owned(), decoded.encoding)
    }

    #[test]
    fn the_bytes_say_how_they_are_written() {
        let text = "order,design\nA1,crème 星\n";
        for (bytes, encoding) in [
            (text.as_bytes().to_vec(), Encoding::Utf8),
            ([b"\xEF\xBB\xBF", text.as_bytes()].concat(), Encoding::Utf8),
            (utf16(text, u16::to_le_bytes), Encoding::Utf16Le),
            (utf16(text, u16::to_be_bytes), Encoding::Utf16Be),
            (utf16(&format!("\u{FEFF}{text}"), u16::to_le_bytes), Encoding::Utf16Le),
            (utf16(&format!("\u{FEFF}{text}"), u16::to_be_bytes), Encoding::Utf16Be),
        ] {
            assert_eq!(read(&bytes), (text.to_owned(), encoding));
        }
        assert_eq!(read(b"cr\xE8me \x80 \x93x\x94"), ("crème € “x”".to_owned(), Encoding::Windows1252));
        assert_eq!(read(b""), (String::new(), Encoding::Utf8));
    }

    #[test]
    fn two_encodings_in_one_file_are_broken_and_zeros_are_no_text() {
        let mixed = decode("crème\n".as_bytes().iter().chain(b"cr\xE8me").copied().collect::<Vec<u8>>().leak()).unwrap();
        assert_eq!((mixed.text.as_ref(), mixed.encoding, mixed.is_broken), ("crème\ncr\u{FFFD}me", Encoding::Utf8, true));
        let lone = utf16("order,date,Ā", u16::to_le_bytes).into_iter().chain([0x00, 0xD8]).collect::<Vec<u8>>();
        assert!(decode(&lone).unwrap().is_broken);
        for bytes in [&b"a\0b"[..], b"PK\x03\x04\0\0\0\0abc", b"\0\0\0\0", b"a,b\n1,\0\0\n", b"\xEF\xBB\xBFa\0"] {
            assert_eq!(decode(bytes), None, "{bytes:?}");
        }
    }

    proptest! {
        #[test]
        fn text_is_read_back_from_each_encoding(ascii in "[a-z0-9,;\n]{8,40}", letters in "[éàüñßœ€]{0,4}") {
            let text = format!("{ascii}{letters}");
            prop_assert_eq!(read(text.as_bytes()).0, text.clone());
            prop_assert_eq!(read(&utf16(&text, u16::to_le_bytes)).0, text.clone());
            prop_assert_eq!(read(&utf16(&text, u16::to_be_bytes)).0, text.clone());
            let (bytes, _, _) = WINDOWS_1252.encode(&text);
            let decoded = decode(&bytes).unwrap();
            // Two letters of Windows-1252 in a row may happen to be one of UTF-8: such a file is broken, never read as another text.
            prop_assert!(decoded.text == text || decoded.is_broken || std::str::from_utf8(&bytes).is_ok());
        }
    }
}
