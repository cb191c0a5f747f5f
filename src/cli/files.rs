//! The one place that writes files: each whole or not at all.

use super::outcome::Outcome;
use crate::shop::specification::TABLES;
use std::io::Write;
use std::path::Path;

/// Writes one file by way of another beside it.
pub fn write(path: &Path, bytes: &[u8]) -> Result<(), Outcome> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let file = prepared(folder, bytes).map_err(|error| unwritable(path, &error))?;
    file.persist(path).map(drop).map_err(|error| unwritable(path, &error.error))
}

/// Writes files of one folder: all are ready, and every place is free, before the first takes its place.
pub fn write_all(folder: &Path, files: &[(impl AsRef<str>, Vec<u8>)]) -> Result<(), Outcome> {
    std::fs::create_dir_all(folder).map_err(|error| unwritable(folder, &error))?;
    let mut ready = Vec::with_capacity(files.len());
    for (name, bytes) in files {
        let path = folder.join(name.as_ref());
        if path.is_dir() {
            return Err(unwritable(&path, &"a folder stands there"));
        }
        ready.push((prepared(folder, bytes).map_err(|error| unwritable(folder, &error))?, path));
    }
    for (file, path) in ready {
        file.persist(&path).map_err(|error| unwritable(&path, &error.error))?;
    }
    Ok(())
}

/// Takes a file away, where there is one.
pub fn remove(path: &Path) -> Result<(), Outcome> {
    match std::fs::remove_file(path) {
        Err(error) if error.kind() != std::io::ErrorKind::NotFound => Err(unwritable(path, &error)),
        _ => Ok(()),
    }
}

/// Whether a folder can be written to, before slow work begins.
pub fn can_write(folder: &Path) -> Result<(), Outcome> {
    let standing = folder.ancestors().find(|folder| folder.exists()).filter(|folder| !folder.as_os_str().is_empty());
    tempfile::tempfile_in(standing.unwrap_or(Path::new("."))).map(drop).map_err(|error| unwritable(folder, &error))
}

/// Whether a file to write is none of the shop's own.
pub fn spares_the_shop(path: &Path, shop: &Path) -> Result<(), Outcome> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let same_folder = folder.canonicalize().ok().zip(shop.canonicalize().ok()).is_some_and(|(one, other)| one == other);
    let name = path.file_name().map(|name| name.to_string_lossy().to_lowercase()).unwrap_or_default();
    let is_own = name == crate::shop::settings::FILE || TABLES.iter().any(|table| table.file() == name);
    if same_folder && is_own {
        return Err(unwritable(path, &"it is one of the shop's own tables"));
    }
    Ok(())
}

fn unwritable(path: &Path, why: &dyn std::fmt::Display) -> Outcome {
    Outcome::wrong(format!("{} cannot be written: {why}; name another place with --out", path.display()))
}

/// A finished file under a name of its own, with the permissions a file written in the ordinary way would have.
fn prepared(folder: &Path, bytes: &[u8]) -> std::io::Result<tempfile::NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".fairdozen-");
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    let mut file = builder.tempfile_in(folder)?;
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    Ok(file)
}
