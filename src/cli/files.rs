//! The one place that writes files: each whole or not at all.

use super::outcome::Outcome;
use crate::shop::specification::TABLES;
use std::io::Write;
use std::path::{Path, PathBuf};
use tempfile::NamedTempFile;

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

/// Puts bytes in the place of files that may be linked elsewhere, under the permissions they have: all, or none of them.
pub fn replace_all(files: &[(PathBuf, Vec<u8>)]) -> Result<(), Outcome> {
    let ready = |(named, bytes): &(PathBuf, Vec<u8>)| Ready::new(named, bytes).map_err(|error| unchanged(named, &error));
    place(files.iter().map(ready).collect::<Result<_, _>>()?)
}

/// A finished file, and what stands where it is to be.
struct Ready {
    file: NamedTempFile,
    path: PathBuf,
    old: Option<Vec<u8>>,
}

impl Ready {
    fn new(named: &Path, bytes: &[u8]) -> std::io::Result<Self> {
        let path = named.canonicalize().unwrap_or_else(|_| named.to_owned());
        let file = prepared(path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new(".")), bytes)?;
        let old = match std::fs::metadata(&path) {
            Ok(standing) => {
                // A file that may not be written to is not to be taken the place of either.
                std::fs::OpenOptions::new().append(true).open(&path)?;
                file.as_file().set_permissions(standing.permissions())?;
                Some(std::fs::read(&path)?)
            }
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => None,
            Err(error) => return Err(error),
        };
        Ok(Self { file, path, old })
    }
}

/// Puts one after another in its place; where one cannot take it, those before it are taken back.
fn place(ready: Vec<Ready>) -> Result<(), Outcome> {
    let mut placed: Vec<(Option<Vec<u8>>, PathBuf)> = Vec::new();
    for Ready { file, path, old } in ready {
        if let Err(error) = file.persist(&path) {
            let back = placed.into_iter().rev().try_for_each(|(old, path)| match old {
                Some(bytes) => std::fs::write(path, bytes),
                None => std::fs::remove_file(path),
            });
            return Err(match back {
                Ok(()) => unchanged(&path, &error.error),
                Err(also) => Outcome::wrong(format!(
                    "{} cannot be written: {}; nor could what was written before it be taken back: {also}",
                    path.display(),
                    error.error
                )),
            });
        }
        placed.push((old, path));
    }
    Ok(())
}

fn unchanged(path: &Path, why: &dyn std::fmt::Display) -> Outcome {
    Outcome::wrong(format!("{} cannot be written: {why}; nothing was changed", path.display()))
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
fn prepared(folder: &Path, bytes: &[u8]) -> std::io::Result<NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".fairdozen-");
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    let mut file = builder.tempfile_in(folder)?;
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    Ok(file)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn where_one_file_cannot_take_its_place_those_before_it_are_taken_back() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        std::fs::write(at("old.csv"), "old").unwrap();
        std::fs::create_dir(at("folder")).unwrap();
        let mut ready: Vec<Ready> = ["old.csv", "new.csv"].iter().map(|name| Ready::new(&at(name), b"new").unwrap()).collect();
        ready.push(Ready { file: prepared(folder.path(), b"new").unwrap(), path: at("folder"), old: None });
        let told = place(ready).unwrap_err();
        assert!(told.err.contains("nothing was changed"), "{}", told.err);
        assert_eq!(std::fs::read_to_string(at("old.csv")).unwrap(), "old");
        let mut left: Vec<_> = std::fs::read_dir(folder.path()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
        left.sort();
        assert_eq!(left, ["folder", "old.csv"]);
    }

    #[cfg(unix)]
    #[test]
    fn links_and_permissions_stay() {
        use std::os::unix::fs::PermissionsExt;
        let (folder, elsewhere) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
        let (link, file) = (folder.path().join("tiers.csv"), elsewhere.path().join("list.csv"));
        std::fs::write(&file, "old").unwrap();
        std::fs::set_permissions(&file, std::fs::Permissions::from_mode(0o640)).unwrap();
        std::os::unix::fs::symlink(&file, &link).unwrap();
        replace_all(&[(link.clone(), b"new".to_vec())]).unwrap();
        assert!(std::fs::symlink_metadata(&link).unwrap().is_symlink());
        assert_eq!(std::fs::read_to_string(&file).unwrap(), "new");
        assert_eq!(std::fs::metadata(&file).unwrap().permissions().mode() & 0o777, 0o640);
    }
}
