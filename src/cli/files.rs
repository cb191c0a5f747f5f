//! The one place that writes files: each whole or not at all.

use super::outcome::Outcome;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Writes one file by way of another beside it.
pub fn write(path: &Path, bytes: &[u8]) -> Result<(), Outcome> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let wrong =
        |error: std::io::Error| Outcome::wrong(format!("{} cannot be written: {error}; name another place with --out", path.display()));
    let mut file = prepared(folder, bytes).map_err(wrong)?;
    file.as_file_mut().flush().map_err(wrong)?;
    file.persist(path).map_err(|error| wrong(error.error))?;
    Ok(())
}

/// Writes files of one folder: all are ready before the first takes its place.
pub fn write_all(folder: &Path, files: &[(&str, Vec<u8>)]) -> Result<(), Outcome> {
    let wrong =
        |error: std::io::Error| Outcome::wrong(format!("{} cannot be written: {error}; name another folder with --out", folder.display()));
    std::fs::create_dir_all(folder).map_err(wrong)?;
    let mut ready = Vec::with_capacity(files.len());
    for (name, bytes) in files {
        ready.push((prepared(folder, bytes).map_err(wrong)?, folder.join(name)));
    }
    for (file, path) in ready {
        file.persist(path).map_err(|error| wrong(error.error))?;
    }
    Ok(())
}

/// Whether a folder can be written to, before slow work begins.
pub fn can_write(folder: &Path) -> Result<(), Outcome> {
    let standing: PathBuf = folder.ancestors().find(|folder| folder.exists()).map_or_else(|| PathBuf::from("."), Path::to_owned);
    let standing = if standing.as_os_str().is_empty() { PathBuf::from(".") } else { standing };
    tempfile::tempfile_in(&standing)
        .map(drop)
        .map_err(|error| Outcome::wrong(format!("{} cannot be written: {error}; name another folder with --out", folder.display())))
}

fn prepared(folder: &Path, bytes: &[u8]) -> std::io::Result<tempfile::NamedTempFile> {
    let mut file = tempfile::Builder::new().prefix(".fairdozen-").permissions(readable()).tempfile_in(folder)?;
    file.write_all(bytes)?;
    Ok(file)
}

/// As a file written in the ordinary way would be.
#[cfg(unix)]
fn readable() -> std::fs::Permissions {
    std::os::unix::fs::PermissionsExt::from_mode(0o666)
}

#[cfg(not(unix))]
fn readable() -> std::fs::Permissions {
    std::fs::metadata(".")
        .map(|folder| folder.permissions())
        .unwrap_or_else(|_| std::fs::File::open(".").and_then(|file| Ok(file.metadata()?.permissions())).expect("a folder has permissions"))
}
