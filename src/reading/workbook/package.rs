//! The package that a workbook is: a zip archive, its sizes looked at before anything in it is read.

use crate::reading::problem::Problem;
use crate::reading::problem_kind::{UNREADABLE_WORKBOOK, WORKBOOK_TOO_LARGE};
use std::io::{Cursor, Read, copy, sink};
use zip::ZipArchive;

/// The most bytes that a workbook may unpack to.
const MOST_BYTES: u64 = 1 << 30;
/// Up to so many bytes any ratio is well.
const ANY_RATIO: u64 = 100 << 20;
/// The most times that a workbook may unpack to its own size.
const MOST_RATIO: u64 = 200;
/// The most rows of a sheet.
pub(super) const MOST_ROWS: u32 = 1_048_576;
/// The most columns of a sheet.
pub(super) const MOST_COLUMNS: u32 = 16_384;
/// The most cells of a sheet that are not blank.
pub(super) const MOST_CELLS: usize = 50_000_000;

/// What a workbook is written as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Format {
    Xlsx,
    Ods,
}

/// Why a workbook or a sheet cannot be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Fault {
    /// It is no package, or broken.
    Broken,
    /// It is of an older kind, or protected by a password.
    OtherKind,
    /// It unpacks to too many bytes.
    TooManyBytes,
    /// The sheet has too many rows, columns or cells.
    TooManyCells,
}

impl Fault {
    /// The problem, without a word of what the file holds.
    pub(super) fn problem(self, file: &str) -> Problem {
        let (kind, what, instead) = match self {
            Self::Broken => {
                (&UNREADABLE_WORKBOOK, "cannot be read as a workbook", "open it in your spreadsheet and save it again as .xlsx")
            }
            Self::OtherKind => {
                (&UNREADABLE_WORKBOOK, "is protected by a password or of an older kind", "save it as .xlsx without a password")
            }
            Self::TooManyBytes => (
                &WORKBOOK_TOO_LARGE,
                "unpacks to more than 1 GB, or to more than 200 times its size",
                "keep only the latest years and no pictures in it",
            ),
            Self::TooManyCells => (
                &WORKBOOK_TOO_LARGE,
                "has more than 1,048,576 rows, 16,384 columns or 50 million filled cells",
                "keep only the latest years in it",
            ),
        };
        Problem::of_file(kind, file, what).instead(instead)
    }
}

pub(super) type Archive<'a> = ZipArchive<Cursor<&'a [u8]>>;

/// The archive of a workbook.
pub(super) fn archive(bytes: &[u8]) -> Result<Archive<'_>, Fault> {
    ZipArchive::new(Cursor::new(bytes)).map_err(|_| Fault::Broken)
}

/// What the workbook is, once it is within the bounds: by the sizes it states, then by unpacking each part up to its stated size.
pub(super) fn check(bytes: &[u8]) -> Result<Format, Fault> {
    if bytes.starts_with(b"\xD0\xCF\x11\xE0") {
        return Err(Fault::OtherKind);
    }
    let mut archive = archive(bytes)?;
    let mut stated: u64 = 0;
    for at in 0..archive.len() {
        stated = stated.saturating_add(archive.by_index_raw(at).map_err(|_| Fault::Broken)?.size());
    }
    let own = u64::try_from(bytes.len()).unwrap_or(u64::MAX);
    if stated > MOST_BYTES || stated > ANY_RATIO.max(own.saturating_mul(MOST_RATIO)) {
        return Err(Fault::TooManyBytes);
    }
    for at in 0..archive.len() {
        let part = archive.by_index(at).map_err(|_| Fault::OtherKind)?;
        let size = part.size();
        if copy(&mut part.take(size + 1), &mut sink()).map_err(|_| Fault::Broken)? > size {
            return Err(Fault::TooManyBytes);
        }
    }
    let has = |name: &str| archive.index_for_name(name).is_some();
    match (has("[Content_Types].xml"), has("content.xml"), has("xl/workbook.bin")) {
        (_, _, true) => Err(Fault::OtherKind),
        (true, ..) => Ok(Format::Xlsx),
        (_, true, _) => Ok(Format::Ods),
        _ => Err(Fault::Broken),
    }
}
