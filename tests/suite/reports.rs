//! The demo's review and next list in `reports/` are what the program writes, byte for byte.

use crate::harness::{repository, run_on};
use std::collections::BTreeMap;
use std::path::Path;

fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let entries = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap()).filter(|entry| entry.path().is_file());
    entries.map(|entry| (entry.file_name().into_string().unwrap(), std::fs::read(entry.path()).unwrap())).collect()
}

#[test]
fn the_demo_review_is_in_step() {
    let out = tempfile::tempdir().unwrap();
    let outcome = run_on(
        &repository("fixtures/ninebell-quay"),
        "review",
        &["--month", "2026-10", "--details", "--out", out.path().to_str().unwrap()],
    );
    assert_eq!(outcome.code, 0, "{}", outcome.err);
    let written = files(out.path());
    in_step(&written, "reports");
    let text = String::from_utf8(written["review.txt"].clone()).unwrap();
    let text = text.strip_suffix("\nWritten by fairdozen. The next review in this folder replaces this file.\n").unwrap();
    assert!(outcome.out.starts_with(text), "what is printed is what is written");
    let png = &written["wage-by-tier.png"];
    assert_eq!(&png[..8], b"\x89PNG\r\n\x1a\n");
}

fn in_step(written: &BTreeMap<String, Vec<u8>>, folder: &str) {
    let kept = files(&repository(folder));
    assert_eq!(written.keys().collect::<Vec<_>>(), kept.keys().collect::<Vec<_>>());
    for (name, bytes) in written {
        assert!(bytes == &kept[name], "{folder}/{name} is out of step: DEVELOPERS.md says how to write it again");
    }
}

#[test]
fn the_demos_next_list_is_in_step() {
    let out = tempfile::tempdir().unwrap();
    let outcome = run_on(&repository("fixtures/ninebell-quay"), "tiers", &["--out", out.path().to_str().unwrap()]);
    assert_eq!(outcome.code, 0, "{}", outcome.err);
    in_step(&files(out.path()), "reports/next-list");
}

#[test]
fn a_second_review_replaces_the_first_and_leaves_no_scraps() {
    let out = tempfile::tempdir().unwrap();
    let place = out.path().join("deep/october");
    let review = || run_on(&repository("fixtures/ninebell-quay"), "review", &["--month", "2026-10", "--out", place.to_str().unwrap()]);
    assert_eq!((review().code, review().code), (0, 0));
    let written = files(&place);
    assert_eq!(written.keys().collect::<Vec<_>>(), files(&repository("reports")).keys().collect::<Vec<_>>());
}

#[test]
fn a_place_that_cannot_be_written_is_told_before_any_work() {
    let out = tempfile::tempdir().unwrap();
    let file = out.path().join("file");
    std::fs::write(&file, "").unwrap();
    let outcome = run_on(&repository("fixtures/ninebell-quay"), "review", &["--out", file.join("inside").to_str().unwrap()]);
    assert_eq!((outcome.code, outcome.out.as_str()), (2, ""));
    assert!(outcome.err.contains("cannot be written") && outcome.err.contains("--out"), "{}", outcome.err);
}
