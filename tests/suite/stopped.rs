//! Ctrl-C while something is written: each file is the old one or the new one, and the next run leaves no scrap of the stopped one.

use crate::harness::{Trial, repository};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// Times each command is stopped.
const STOPS: u32 = 20;

fn program(words: &[&str]) -> Command {
    let mut program = Command::new(env!("CARGO_BIN_EXE_fairdozen"));
    program.args(words).stdout(Stdio::null()).stderr(Stdio::null());
    program
}

/// Runs to the end, and gives how long that took.
fn finished(words: &[&str]) -> Duration {
    let began = Instant::now();
    assert!(program(words).status().unwrap().success(), "{words:?}");
    began.elapsed()
}

/// Runs, and is interrupted after a while. Whether it was still running then.
fn stopped(words: &[&str], after: Duration) -> bool {
    let mut running = program(words).spawn().unwrap();
    std::thread::sleep(after);
    // Who runs the tests in the background may have made all of it deaf to the first.
    for signal in ["-INT", "-TERM"] {
        let _ = Command::new("kill").args([signal, &running.id().to_string()]).stderr(Stdio::null()).status().unwrap();
    }
    running.wait().unwrap().code().is_none()
}

fn files(folder: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut found = BTreeMap::new();
    for entry in std::fs::read_dir(folder).into_iter().flatten() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(files(&path));
        } else {
            found.insert(path.clone(), std::fs::read(path).unwrap());
        }
    }
    found
}

fn is_temporary(path: &Path) -> bool {
    path.components().any(|part| part.as_os_str().to_str().unwrap().starts_with(".fairdozen-"))
}

/// Puts back what stood before, and leaves what a stopped run left.
fn put_back(folder: &Path, before: &BTreeMap<PathBuf, Vec<u8>>) {
    for path in files(folder).keys().filter(|path| !is_temporary(path) && !before.contains_key(*path)) {
        std::fs::remove_file(path).unwrap();
        // Goes with its last file.
        let _ = std::fs::remove_dir(path.parent().unwrap());
    }
    for (path, bytes) in before {
        std::fs::write(path, bytes).unwrap();
    }
}

/// Stops a command at times spread over its run, most often in the last fifth: there it writes.
fn survives(folder: &Path, words: &[&str]) {
    let before = files(folder);
    let lasted = finished(words);
    let new = files(folder);
    let mut interrupted = 0;
    for stop in 0..STOPS {
        put_back(folder, &before);
        let share = if stop % 4 == 0 { stop * 4 } else { 78 + stop + stop / 4 };
        interrupted += u32::from(stopped(words, lasted * share / 100));
        for (path, bytes) in files(folder).iter().filter(|(path, _)| !is_temporary(path)) {
            let is_whole = before.get(path) == Some(bytes) || new.get(path) == Some(bytes);
            assert!(is_whole, "{} is neither old nor new, {share} % into {words:?}", path.display());
        }
    }
    assert!(interrupted > 0, "no {words:?} was stopped");
    put_back(folder, &before);
    finished(words);
    assert_eq!(files(folder), new, "{words:?}");
}

/// All files of a new folder are there, or none.
fn comes_whole(folder: &Path, words: &[&str]) {
    let lasted = finished(words);
    let new = files(folder);
    for stop in 0..STOPS {
        put_back(folder, &BTreeMap::new());
        stopped(words, lasted * (stop * 5 + 3) / 100);
        let mut now = files(folder);
        now.retain(|path, _| !is_temporary(path));
        assert!(now.is_empty() || now == new, "{words:?} came by halves: {:?}", now.keys());
    }
    put_back(folder, &BTreeMap::new());
    finished(words);
    assert_eq!(files(folder), new, "{words:?}");
}

fn tiny_shop() -> Trial {
    let shop = Trial::new(&[]);
    for entry in std::fs::read_dir(repository("fixtures/tiny-shop")).unwrap() {
        let path = entry.unwrap().path();
        shop.write(path.file_name().unwrap().to_str().unwrap(), &std::fs::read(&path).unwrap());
    }
    shop
}

#[test]
fn a_new_shop_is_there_whole_or_not_at_all() {
    let place = tempfile::tempdir().unwrap();
    let shop = place.path().join("my-shop");
    for options in [&["--csv"][..], &["--sample"], &[]] {
        comes_whole(place.path(), &[&["start", shop.to_str().unwrap()], options].concat());
        std::fs::remove_dir_all(&shop).unwrap();
    }
}

#[test]
fn each_file_written_is_the_old_one_or_the_new_one() {
    let (place, shop) = (tempfile::tempdir().unwrap(), tiny_shop());
    let at = |name: &str| place.path().join(name).to_str().unwrap().to_owned();
    let (own, out, facts) = (shop.path().to_str().unwrap(), at("out"), at("facts.csv"));
    std::fs::write(&facts, "old\n").unwrap();
    survives(place.path(), &["export", own, "--out", &facts]);
    // An earlier answer stands there, with other figures in every file.
    finished(&["tiers", own, "--out", &out]);
    survives(place.path(), &["tiers", own, "--target", "30", "--out", &out]);
    std::fs::remove_dir_all(&out).unwrap();
    finished(&["review", own, "--to", "2026-03-31", "--out", &out]);
    survives(place.path(), &["review", own, "--month", "2026-03", "--out", &out]);
    std::fs::remove_dir_all(&out).unwrap();
    survives(place.path(), &["man", "--out", &out]);
}
