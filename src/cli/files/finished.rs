//! A file that is written in full and not yet renamed into its place.

use super::place::folder_of;
use std::fs::{File, Metadata, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use tempfile::{Builder, NamedTempFile};

/// A file under a temporary name next to its place. It is removed unless it takes the place.
pub(crate) struct Finished {
    file: NamedTempFile,
    path: PathBuf,
    /// The file whose owner and permissions it takes over.
    like: Option<PathBuf>,
    is_new: bool,
}

/// Prefix of temporary names.
const PREFIX: &str = ".fairdozen-";

impl Finished {
    /// Replaces an ordinary file, or the one that a link leads to. Until it has that file's permissions, nobody else may read it.
    pub(crate) fn replacing(path: &Path, bytes: &[u8]) -> io::Result<Self> {
        let path = path.canonicalize()?;
        let standing = std::fs::metadata(&path)?;
        // A file that may not be written to is not replaced either; the superuser may write to any.
        if !standing.is_file() || standing.permissions().readonly() {
            return Err(io::Error::other(if standing.is_file() { "it is read-only" } else { "it is not a file any more" }));
        }
        OpenOptions::new().append(true).open(&path)?;
        let file = filled(Builder::new().prefix(PREFIX), &path, bytes)?;
        Ok(Self { file, like: Some(path.clone()), path, is_new: false })
    }

    /// Creates a file that does not exist yet.
    pub(crate) fn fresh(path: &Path, bytes: &[u8]) -> io::Result<Self> {
        let mut builder = Builder::new();
        builder.prefix(PREFIX);
        // What is usual for a new file, less what the process's mask forbids.
        #[cfg(unix)]
        builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
        let file = filled(&mut builder, path, bytes)?;
        Ok(Self { file, path: path.to_owned(), like: None, is_new: true })
    }

    /// Creates a file that does not exist yet, with the permissions of another.
    pub(crate) fn fresh_like(path: &Path, bytes: &[u8], like: &Path) -> io::Result<Self> {
        let file = filled(Builder::new().prefix(PREFIX), path, bytes)?;
        Ok(Self { file, path: path.to_owned(), like: Some(like.to_owned()), is_new: true })
    }

    /// Returns its place.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Renames it into its place.
    pub(crate) fn take_place(self) -> io::Result<()> {
        if let Some(like) = &self.like {
            let like = std::fs::metadata(like)?;
            keep_owner(self.file.as_file(), &like)?;
            self.file.as_file().set_permissions(like.permissions())?;
        }
        let placed = if self.is_new { self.file.persist_noclobber(&self.path) } else { self.file.persist(&self.path) };
        placed.map(drop).map_err(|error| error.error)
    }
}

fn filled(builder: &mut Builder<'_, '_>, path: &Path, bytes: &[u8]) -> io::Result<NamedTempFile> {
    sweep(folder_of(path));
    let mut file = locked(builder, folder_of(path))?;
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    Ok(file)
}

/// A new file under a temporary name, locked until it is closed, so that no other run sweeps it away.
fn locked(builder: &Builder<'_, '_>, folder: &Path) -> io::Result<NamedTempFile> {
    loop {
        let file = builder.tempfile_in(folder)?;
        // Where there are no locks, nothing is swept either.
        let is_locked = file.as_file().lock().is_ok();
        // Between the making and the locking a sweep may have taken it.
        if !is_locked || file.path().exists() {
            return Ok(file);
        }
    }
}

/// Removes the files that a run which was stopped left in a folder: those that nobody has locked.
fn sweep(folder: &Path) {
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let is_file = || entry.file_type().is_ok_and(|found| found.is_file());
        if is_left_over(&entry, PREFIX) && is_file() && !is_locked(&entry.path()) {
            // Where it cannot be removed, it harms nothing.
            let _ = std::fs::remove_file(entry.path());
        }
    }
}

/// Whether an entry of a folder has a temporary name, as the tempfile crate makes them: six letters and digits after the prefix.
pub(crate) fn is_left_over(entry: &std::fs::DirEntry, prefix: &str) -> bool {
    let name = entry.file_name();
    let made = name.to_str().and_then(|name| name.strip_prefix(prefix));
    made.is_some_and(|made| made.len() == 6 && made.bytes().all(|byte| byte.is_ascii_alphanumeric()))
}

/// Whether a run that is going on has locked a file, or may have.
pub(crate) fn is_locked(path: &Path) -> bool {
    File::open(path).map_or_else(|error| error.kind() != io::ErrorKind::NotFound, |file| file.try_lock().is_err())
}

/// Gives a file the owner and group of another: the superuser's new files belong to the superuser.
#[cfg(unix)]
fn keep_owner(file: &File, like: &Metadata) -> io::Result<()> {
    use std::os::unix::fs::{MetadataExt, fchown};
    let own = file.metadata()?;
    if (own.uid(), own.gid()) == (like.uid(), like.gid()) {
        return Ok(());
    }
    fchown(file, Some(like.uid()), Some(like.gid())).map_err(|_| io::Error::other("it belongs to another user"))
}

#[cfg(not(unix))]
fn keep_owner(_: &File, _: &Metadata) -> io::Result<()> {
    Ok(())
}

#[cfg(all(test, unix))]
mod tests {
    use super::*;
    use std::os::unix::fs::{MetadataExt, PermissionsExt, fchown, symlink};

    fn mode(path: &Path) -> u32 {
        std::fs::metadata(path).unwrap().permissions().mode() & 0o777
    }

    #[test]
    fn a_file_is_private_until_it_takes_its_place_and_then_as_the_old_one_was() {
        let (folder, elsewhere) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
        let (link, target) = (folder.path().join("tiers.csv"), elsewhere.path().join("list.csv"));
        std::fs::write(&target, "old").unwrap();
        symlink(&target, &link).unwrap();
        for permissions in [0o600, 0o640, 0o646] {
            std::fs::set_permissions(&target, std::fs::Permissions::from_mode(permissions)).unwrap();
            let finished = Finished::replacing(&link, b"new").unwrap();
            assert_eq!((mode(finished.file.path()), finished.file.path().parent()), (0o600, Some(elsewhere.path())));
            finished.take_place().unwrap();
            assert_eq!((mode(&target), std::fs::read_to_string(&target).unwrap().as_str()), (permissions, "new"));
            assert!(std::fs::symlink_metadata(&link).unwrap().is_symlink());
        }
        let fresh = Finished::fresh_like(&folder.path().join("designs.csv"), b"new", &target).unwrap();
        assert_eq!(mode(fresh.file.path()), 0o600);
        fresh.take_place().unwrap();
        assert_eq!(mode(&folder.path().join("designs.csv")), 0o646);
    }

    #[test]
    fn a_read_only_file_is_refused_and_what_does_not_take_its_place_is_removed() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("tiers.csv");
        drop(Finished::fresh(&path, b"new").unwrap());
        let fresh = Finished::fresh(&path, b"new").unwrap();
        std::fs::write(&path, "hers").unwrap();
        assert!(fresh.take_place().is_err(), "something stands there now");
        drop(Finished::replacing(&path, b"new").unwrap());
        std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o444)).unwrap();
        assert!(Finished::replacing(&path, b"new").is_err());
        assert_eq!((std::fs::read_dir(folder.path()).unwrap().count(), std::fs::read_to_string(&path).unwrap().as_str()), (1, "hers"));
    }

    #[test]
    fn what_a_stopped_run_left_is_swept_and_what_another_writes_is_not() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        std::fs::write(at(".fairdozen-x1Y2z3"), "half").unwrap();
        std::fs::write(at(".fairdozen-notes"), "hers").unwrap();
        std::fs::create_dir(at(".fairdozen-folder")).unwrap();
        let going_on = Finished::fresh(&at("a.csv"), b"a").unwrap();
        Finished::fresh(&at("b.csv"), b"b").unwrap().take_place().unwrap();
        assert!(!at(".fairdozen-x1Y2z3").exists() && at(".fairdozen-notes").exists() && at(".fairdozen-folder").exists());
        going_on.take_place().unwrap();
        assert_eq!(std::fs::read_to_string(at("a.csv")).unwrap(), "a");
    }

    #[test]
    fn the_owner_stays() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("tiers.csv");
        std::fs::write(&path, "old").unwrap();
        // Only the superuser can give a file away.
        if fchown(std::fs::File::open(&path).unwrap(), Some(4321), Some(4321)).is_ok() {
            Finished::replacing(&path, b"new").unwrap().take_place().unwrap();
            let found = std::fs::metadata(&path).unwrap();
            assert_eq!((found.uid(), found.gid()), (4321, 4321));
        }
    }
}
