//! An export of a maker's own sheet, as ugly as they come, beside the same orders written plainly: it is read without a cell changed by
//! hand, and gives the same figures.

use super::answers;
use crate::harness::{Trial, repository};

/// A copy of a shop of `fixtures/`.
fn copy(shop: &str) -> Trial {
    let trial = Trial::new(&[]);
    for entry in std::fs::read_dir(repository(shop)).unwrap() {
        let entry = entry.unwrap();
        trial.write(entry.file_name().to_str().unwrap(), &std::fs::read(entry.path()).unwrap());
    }
    trial
}

#[test]
fn an_ugly_export_is_read_in_two_passes_and_no_cell_is_changed() {
    let export = copy("fixtures/plum-lane/export");
    let first = export.run("check", &[]);
    assert_eq!(first.code, 1, "headings are proposed before they are used:\n{}", first.out);
    let written = export.run("check", &["--write"]);
    let second = export.run("check", &[]);
    assert_eq!(second.code, 0, "{}\n{}", written.out, second.out);
    assert_eq!(answers(&export), answers(&copy("fixtures/plum-lane/plain")));
}

#[test]
fn next_month_is_read_alike_and_orders_in_both_exports_count_once() {
    let export = copy("fixtures/plum-lane/export");
    export.run("check", &["--write"]);
    let all = std::fs::read(export.path().join("orders 2026.csv")).unwrap();
    let at = |text: &str| String::from_utf8_lossy(&all).find(text).unwrap();
    let (headings, from, to) = (at("Order #")..at("221,"), at("226,"), at("230,"));
    // The first export ends with order 229, the second begins with order 226.
    export.write("orders 2026.csv", &all[..to]);
    export.write("orders 2026-09.csv", &[&all[headings], &all[from..]].concat());
    let check = export.run("check", &[]);
    assert_eq!(check.code, 0, "{}", check.out);
    assert_eq!(answers(&export), answers(&copy("fixtures/plum-lane/plain")));
}
