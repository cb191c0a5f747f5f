//! README's blocks are run, so that they cannot rot.

use crate::harness::{Trial, repository};
use fairdozen::reading::TableSpecification;
use fairdozen::shop::settings::specification::SETTINGS;
use fairdozen::shop::specification::TABLES;
use std::fmt::Write;

fn readme() -> String {
    std::fs::read_to_string(repository("README.md")).unwrap()
}

/// The fenced block after a mark.
fn block<'a>(readme: &'a str, mark: &str) -> &'a str {
    let after = readme.split_once(&format!("<!-- {mark} -->\n")).unwrap_or_else(|| panic!("README has no mark {mark}")).1;
    let body = after.strip_prefix("```").and_then(|rest| rest.split_once('\n')).unwrap_or_else(|| panic!("no block after {mark}")).1;
    body.split_once("```").unwrap().0
}

#[test]
fn the_first_command_prints_what_readme_shows() {
    let readme = readme();
    let command = block(&readme, "the main job").trim();
    let words = command.strip_prefix("cargo run --locked -- ").expect("the main job runs the program");
    let outcome = fairdozen::cli::run(std::iter::once("fairdozen").chain(words.split(' ')));
    assert_eq!((outcome.code, outcome.err.as_str()), (0, ""));
    let (shown, _) = block(&readme, "output of the first command").split_once("[…]\n").expect("the output goes on");
    assert!(shown.lines().count() > 10);
    assert!(outcome.out.starts_with(shown), "README shows\n{shown}\nbut the program prints\n{}", outcome.out);
}

#[test]
fn the_test_command_is_this_suite() {
    assert_eq!(block(&readme(), "the tests"), "cargo test --locked\n");
}

#[test]
fn the_shop_of_five_minutes_gives_the_wages_shown() {
    let readme = readme();
    let files: Vec<(&str, &str)> =
        ["shop.toml", "orders.csv", "hours.csv"].map(|name| (name, block(&readme, &format!("file {name}")))).into();
    let shop = Trial::new(&files);
    assert_eq!(block(&readme, "run in that folder"), "fairdozen wage my-shop\n");
    let outcome = shop.run("wage", &[]);
    let printed = outcome.out.replace(shop.path().to_str().unwrap(), "my-shop");
    assert_eq!((outcome.code, printed.as_str()), (0, block(&readme, "output")));
    // Without hours there is still a shop.
    let outcome = Trial::new(&files[..2]).run("wage", &[]);
    assert_eq!(outcome.code, 0, "{}", outcome.err);
}

#[test]
fn every_table_and_column_is_described_as_the_specification_says() {
    let described: String = TABLES.iter().map(describe).collect();
    assert!(readme().contains(&described), "README's tables should read:\n{described}");
}

#[test]
fn every_stage_is_named() {
    let readme = readme();
    for (stage, _) in fairdozen::shop::settings::DEFAULT_STAGES {
        assert!(readme.contains(&format!("`{stage}` (")), "README does not name the stage {stage}");
    }
}

#[test]
fn every_setting_is_described_as_the_specification_says() {
    let mut described = "| setting | default | meaning | example |\n| --- | --- | --- | --- |\n".to_owned();
    for setting in SETTINGS {
        let required = if setting.required { ", required" } else { "" };
        let (section, key) = setting.section_and_key();
        let key = if section.is_empty() { format!("`{key}`") } else { format!("`[{section}] {key}`") };
        let _ = writeln!(described, "| {key}{required} | {} | {} | `{}` |", setting.default, setting.meaning, setting.example);
    }
    assert!(readme().contains(&described), "README's settings should read:\n{described}");
}

#[test]
fn the_makers_page_comes_first_and_the_page_for_programs_last() {
    let readme = readme();
    let page = readme.split("\n## Reference\n").next().unwrap();
    let lines = page.lines().count();
    assert!(lines < 250, "the maker's page has {lines} lines");
    let parts: Vec<usize> =
        ["## Reference", "### Commands", "### Tables", "## For programs", "`--json`"].map(|part| readme.find(part).unwrap()).into();
    assert!(parts.is_sorted(), "{parts:?}");
}

/// Rows of a table: `| command | schema | keys |`.
#[test]
fn programs_find_the_keys_that_readme_names() {
    let readme = readme();
    let rows: Vec<Vec<&str>> = readme
        .lines()
        .filter(|line| line.starts_with("| `") && line.contains("`fairdozen."))
        .map(|line| line.trim_matches('|').split(" | ").map(|cell| cell.trim().trim_matches('`')).collect())
        .collect();
    assert_eq!(rows.len(), 6);
    for row in rows {
        let words = row[0].replace("SHOP", repository("fixtures/ninebell-quay").to_str().unwrap()) + " --json";
        let outcome = fairdozen::cli::run(std::iter::once("fairdozen").chain(words.split(' ')));
        let object: serde_json::Value = serde_json::from_str(&outcome.out).unwrap();
        assert_eq!(object["schema"], row[1], "{words}");
        let keys: Vec<&str> = object.as_object().unwrap().keys().map(String::as_str).filter(|key| *key != "schema").collect();
        assert_eq!(keys, row[2].split("`, `").collect::<Vec<_>>(), "{words}");
    }
}

fn describe(table: &TableSpecification) -> String {
    let kind = if table.is_log { "log" } else { "card" };
    let mut text = format!("**{}** ({kind}): {}\n\n| column | meaning | example |\n| --- | --- | --- |\n", table.file(), table.meaning);
    for column in table.columns {
        let required = if column.filled { ", required" } else { "" };
        let _ = writeln!(text, "| {}{required} | {} | {} |", column.name, column.meaning, column.example);
    }
    text + "\n"
}
