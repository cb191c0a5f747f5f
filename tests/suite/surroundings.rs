//! Where the program runs: pipes, narrow terminals, `NO_COLOR`, browsers, shells and manuals.

use crate::harness::{Trial, repository};
use std::process::{Command, Output, Stdio};

const SHOP: &str = "fixtures/ninebell-quay";

fn program(words: &[&str]) -> Command {
    let mut program = Command::new(env!("CARGO_BIN_EXE_fairdozen"));
    program.args(words);
    program
}

fn demo() -> String {
    repository(SHOP).to_str().unwrap().to_owned()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

/// In pipes there are no colours, no progress and no other width, whatever the environment says.
#[test]
fn pipes_get_plain_text() {
    let plain = program(&["minutes", &demo()]).output().unwrap();
    assert_eq!((plain.status.code(), text(&plain.stderr).as_str()), (Some(0), ""));
    assert!(!plain.stdout.contains(&0x1b) && text(&plain.stdout).lines().any(|line| line.chars().count() > 80));
    for (name, value) in [("NO_COLOR", "1"), ("CLICOLOR_FORCE", "1"), ("TERM", "dumb"), ("COLUMNS", "40")] {
        let outcome = program(&["minutes", &demo()]).env(name, value).output().unwrap();
        assert!(outcome == plain, "{name}");
    }
    for words in [&["--help"][..], &["wage", "--by", "nonsense"], &["nonsense", "x", "y"]] {
        let outcome = program(words).env("CLICOLOR_FORCE", "1").output().unwrap();
        assert!(!outcome.stdout.contains(&0x1b) && !outcome.stderr.contains(&0x1b), "{words:?}");
    }
}

/// Who reads only the first lines ends the program without a complaint.
#[test]
fn a_closed_pipe_is_no_error() {
    let mut running = program(&["export", &demo()]).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    drop(running.stdout.take());
    let outcome = running.wait_with_output().unwrap();
    assert_eq!((outcome.status.code(), text(&outcome.stderr).as_str()), (Some(0), ""));
}

/// Runs a command on a terminal of so many columns.
#[cfg(target_os = "linux")]
fn on_terminal(columns: u32, words: &str) -> Output {
    let line = format!("stty rows 50 cols {columns} && exec '{}' {words} 2>/dev/null", env!("CARGO_BIN_EXE_fairdozen"));
    Command::new("script").args(["-qec", &line, "/dev/null"]).stdin(Stdio::null()).env_remove("NO_COLOR").output().unwrap()
}

#[cfg(target_os = "linux")]
#[test]
fn a_narrow_terminal_gets_lines_that_fit() {
    let demo = demo();
    let out = tempfile::tempdir().unwrap();
    let out = out.path().to_str().unwrap();
    for command in [
        format!("wage '{demo}' --details"),
        format!("minutes '{demo}'"),
        format!("tiers '{demo}' --details"),
        format!("quote '{demo}' '12 shape'"),
        format!("whatif '{demo}' --minimum 24"),
        format!("check '{demo}'"),
        format!("review '{demo}' --month october --details --out '{out}'"),
    ] {
        let outcome = on_terminal(60, &command);
        let said = text(&outcome.stdout);
        assert_eq!(outcome.status.code(), Some(0), "{said}");
        assert!(said.lines().count() > 10, "{said}");
        // A path or a command is not broken.
        let is_prose = |line: &&str| !line.contains("fairdozen ") && !line.contains('/');
        let wide: Vec<&str> = said.lines().map(str::trim_end).filter(is_prose).filter(|line| line.chars().count() > 60).collect();
        assert_eq!(wide, Vec::<&str>::new(), "{command}");
        assert!(!said.contains('\u{1b}'), "{command}");
    }
    let wide = text(&on_terminal(200, &format!("wage '{demo}'")).stdout).replace('\r', "");
    assert_eq!(wide, text(&program(&["wage", &demo]).output().unwrap().stdout), "no line is wider than 100");
    // What is written to files is as wide as ever.
    let report = std::fs::read(format!("{out}/review.txt")).unwrap();
    assert_eq!(text(&report), text(&std::fs::read(repository("reports/review.txt")).unwrap()));
}

/// Nothing is left of a name but that it is folded: every figure of the wide table stands in the narrow one.
#[cfg(target_os = "linux")]
#[test]
fn a_folded_table_tells_all_that_the_wide_one_does() {
    let words = format!("wage '{}' --by tier", demo());
    let said = |columns| text(&on_terminal(columns, &words).stdout);
    let (wide, narrow) = (said(100), said(60));
    let row = wide.lines().find(|line| line.starts_with("character")).unwrap_or_else(|| panic!("{wide}"));
    let block: Vec<&str> =
        narrow.lines().skip_while(|line| line.trim_end() != "character").skip(1).take_while(|line| line.starts_with(' ')).collect();
    let block = block.join(" ");
    for figure in row.split_whitespace().skip(1) {
        assert!(block.contains(figure), "{figure} of {row} is not in {block}");
    }
}

/// A terminal shows each problem in its row, a mark under the cell and colours; a pipe gets sentences. A customer's name is in neither.
#[cfg(target_os = "linux")]
#[test]
fn a_terminal_shows_a_problem_with_a_mark_under_its_cell() {
    let orders = "order,Customer,date,design,quantity,price\nA1,Mia Quill,2026-03-01,moon,12,4.00\nA2,Bo Finch,7 Marhc 2026,moon,12,4.00\n";
    let shop = Trial::new(&[("orders.csv", orders)]);
    let words = format!("check --all '{}'", shop.path().to_str().unwrap());
    let outcome = on_terminal(100, &words);
    let shown = text(&outcome.stdout);
    assert!(outcome.status.code() == Some(1) && shown.contains('\u{1b}') && !shown.contains("Finch"), "{shown}");
    let plain: String =
        shown.split('\u{1b}').enumerate().map(|(at, part)| if at == 0 { part } else { &part[part.find('m').unwrap() + 1..] }).collect();
    let lines: Vec<&str> = plain.lines().map(str::trim_end).collect();
    let at = lines.iter().position(|line| *line == "error: '7 Marhc 2026' is not a date").unwrap_or_else(|| panic!("{plain}"));
    let (place, row, marks) = (lines[at + 1], lines[at + 3], lines[at + 4]);
    assert!(place.contains("orders.csv:3:5") && row.ends_with("A2, 7 Marhc 2026, moon, 12, 4.00"), "{plain}");
    assert!(marks.contains("^^^^^^^^^^^^ write") && marks.find('^') == row.find("7 Marhc"), "{plain}");
    let piped = program(&["check", "--all", shop.path().to_str().unwrap()]).output().unwrap();
    assert!(
        text(&piped.stdout).contains("orders.csv, row 3, column date: '7 Marhc 2026' is not a date; ")
            && !text(&piped.stdout).contains('^')
    );
}

#[cfg(unix)]
#[test]
fn the_page_is_opened_in_the_browser_or_that_is_said() {
    use std::os::unix::fs::PermissionsExt;
    let place = tempfile::tempdir().unwrap();
    let at = |name: &str| place.path().canonicalize().unwrap().join(name).to_str().unwrap().to_owned();
    let (browser, told, out) = (at("browser"), at("told"), at("out"));
    std::fs::write(&browser, format!("#!/bin/sh\necho \"$1\" > '{told}.half' && mv '{told}.half' '{told}'\n")).unwrap();
    std::fs::set_permissions(&browser, std::fs::Permissions::from_mode(0o755)).unwrap();
    let words = ["review", &demo(), "--month", "october", "--out", &out];
    let shown = program(&words).env("BROWSER", at("gone")).output().unwrap();
    let opened = program(&[&words[..], &["--open"]].concat()).env("BROWSER", &browser).output().unwrap();
    assert_eq!((opened.status.code(), text(&opened.stderr)), (Some(0), String::new()));
    assert_eq!(opened.stdout, shown.stdout);
    let page = format!("{out}/index.html");
    for _ in 0..200 {
        if std::fs::read_to_string(&told).is_ok() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(50));
    }
    assert_eq!(std::fs::read_to_string(&told).unwrap().trim_end(), page);
    let failed = program(&[&words[..], &["--open"]].concat()).env("BROWSER", at("gone")).output().unwrap();
    assert_eq!((failed.status.code(), &failed.stdout), (Some(0), &shown.stdout));
    let said = text(&failed.stderr);
    assert!(said.starts_with("The page could not be opened (") && said.contains(&format!("open {page} in any browser.")), "{said}");
}

#[test]
fn completions_and_manuals_are_made_of_the_commands() {
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let outcome = fairdozen::cli::run(["fairdozen", "completions", shell]);
        assert_eq!((outcome.code, outcome.err.as_str()), (0, ""));
        for word in ["whatif", "max-rise", "sample"] {
            assert!(outcome.out.contains(word), "{shell} does not complete {word}");
        }
    }
    let wrong = fairdozen::cli::run(["fairdozen", "completions", "bsh"]);
    assert!(wrong.code == 2 && wrong.err.contains("bash"), "{}", wrong.err);
    let first = fairdozen::cli::run(["fairdozen", "man"]).out;
    assert!(first.contains(".TH fairdozen 1") && first.contains("fairdozen start my"), "{first}");
    let place = tempfile::tempdir().unwrap();
    let out = place.path().join("man1");
    for _ in 0..2 {
        let outcome = fairdozen::cli::run(["fairdozen", "man", "--out", out.to_str().unwrap()]);
        assert_eq!((outcome.code, outcome.out), (0, format!("12 manual pages are in {}\n", out.display())));
    }
    assert_eq!(std::fs::read_to_string(out.join("fairdozen.1")).unwrap(), first);
    assert!(std::fs::read_to_string(out.join("fairdozen-tiers.1")).unwrap().contains("max\\-rise"));
    std::fs::write(out.join("fairdozen-wage.1"), "hers\n").unwrap();
    let refused = fairdozen::cli::run(["fairdozen", "man", "--out", out.to_str().unwrap()]);
    assert!(refused.code == 2 && refused.err.contains("fairdozen-wage.1 was not written by fairdozen"), "{}", refused.err);
}

/// They are for installing: the last of the list.
#[test]
fn commands_for_installing_come_last() {
    let help = fairdozen::cli::run(["fairdozen", "-h"]).out;
    let at = |word: &str| help.find(&format!("\n  {word} ")).unwrap_or_else(|| panic!("{word}: {help}"));
    let commands = ["start", "check", "review", "wage", "minutes", "tiers", "whatif", "quote", "export", "completions", "man"];
    assert!(commands.map(at).is_sorted(), "{help}");
}
