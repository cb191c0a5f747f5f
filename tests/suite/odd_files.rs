//! Pipes, devices, folders and links where a file should stand: each is said at once, and nothing is opened, replaced or removed.

use crate::harness::{Trial, repository, run_on};
use std::os::unix::fs::{FileTypeExt, symlink};
use std::path::Path;
use std::process::Command;

const ORDERS: &str = "order,date,design,quantity,price\nA1,2026-03-10,acorn,12,3\nA2,2026-03-11,gate,4,9\n";
const HOURS: &str = "date,minutes,stage,order\n2026-03-09,96,decorate,A1\n2026-03-10,80,decorate,A2\n";

fn shop() -> Trial {
    let settings = "currency = \"USD\"\n[wage]\ntarget = 20\n";
    Trial::new(&[("shop.toml", settings), ("orders.csv", ORDERS), ("hours.csv", HOURS), ("tiers.csv", "tier,price\nsmall,3\n")])
}

fn pipe(path: &Path) {
    assert!(Command::new("mkfifo").arg(path).status().unwrap().success());
}

/// A thing that is no file, by name: a pipe, a folder, links to a device, to a folder and to nothing.
fn odd(kind: &str, path: &Path) {
    match kind {
        "a pipe" => pipe(path),
        "a folder" => std::fs::create_dir(path).unwrap(),
        "a link to a device" => symlink("/dev/zero", path).unwrap(),
        "a link to a folder" => symlink(std::env::temp_dir(), path).unwrap(),
        _ => symlink(path.with_extension("gone"), path).unwrap(),
    }
}

const ODD: [&str; 5] = ["a pipe", "a folder", "a link to a device", "a link to a folder", "a link that leads nowhere"];

#[test]
fn what_is_no_file_is_never_read_as_one() {
    for kind in ODD {
        for name in ["orders.csv", "tiers.csv", "shop.toml", "Recipes.csv"] {
            let shop = shop();
            let _ = std::fs::remove_file(shop.path().join(name));
            odd(kind, &shop.path().join(name));
            for (command, options) in [("wage", &[][..]), ("check", &[]), ("tiers", &["--write"])] {
                let outcome = shop.run(command, options);
                let said = format!("{}{}", outcome.out, outcome.err);
                assert_eq!(outcome.code, 1, "{kind} {name} {command}: {said}");
                let is = if kind.ends_with("nowhere") { kind.to_owned() } else { format!("{kind}, not a file") };
                assert!(said.contains(&format!("{name} is {is}; replace it with the file itself")), "{said}");
            }
        }
        let shop = shop();
        let list = shop.path().join("list");
        odd(kind, &list);
        let outcome = shop.run("whatif", &["--prices", list.to_str().unwrap()]);
        assert_eq!((outcome.code, outcome.out.as_str()), (2, ""));
        assert!(outcome.err.contains(&format!("list is {kind}")) && outcome.err.contains("name a CSV file"), "{}", outcome.err);
    }
    let folder = tempfile::tempdir().unwrap();
    pipe(&folder.path().join("shop"));
    let outcome = run_on(&folder.path().join("shop"), "wage", &[]);
    assert!(outcome.code == 1 && outcome.err.contains("is not a folder; name the folder that holds"), "{}", outcome.err);
}

#[test]
fn export_writes_through_links_and_replaces_nothing_but_files() {
    let shop = shop();
    let elsewhere = tempfile::tempdir().unwrap();
    let at = |name: &str| elsewhere.path().join(name);
    let export = |path: &Path| shop.run("export", &["--out", path.to_str().unwrap()]);
    for kind in ODD {
        let path = at(&kind.replace(' ', "-"));
        odd(kind, &path);
        let before = std::fs::symlink_metadata(&path).unwrap().file_type();
        let outcome = export(&path);
        assert_eq!((outcome.code, outcome.out.as_str()), (2, ""));
        assert!(outcome.err.ends_with(&format!("is {kind}, so nothing was written; name another place with --out\n")), "{}", outcome.err);
        assert_eq!(std::fs::symlink_metadata(&path).unwrap().file_type(), before);
    }
    assert!(at("a-pipe").symlink_metadata().unwrap().file_type().is_fifo());
    let device = export(Path::new("/dev/null"));
    assert!(device.code == 2 && device.err.contains("/dev/null is a device, so nothing was written"), "{}", device.err);
    std::fs::write(at("facts.csv"), "old").unwrap();
    symlink(at("facts.csv"), at("link.csv")).unwrap();
    assert_eq!(export(&at("link.csv")).code, 0);
    assert!(std::fs::symlink_metadata(at("link.csv")).unwrap().is_symlink());
    assert_eq!(std::fs::read_to_string(at("facts.csv")).unwrap(), shop.run("export", &[]).out);
    let missing = export(&at("no-folder/facts.csv"));
    assert!(missing.code == 2 && missing.err.starts_with("there is no folder "), "{}", missing.err);
}

#[test]
fn export_spares_the_shops_tables_however_they_are_named() {
    let shop = shop();
    let elsewhere = tempfile::tempdir().unwrap();
    let at = |name: &str| elsewhere.path().join(name);
    std::fs::rename(shop.path().join("hours.csv"), at("log.csv")).unwrap();
    symlink(at("log.csv"), shop.path().join("hours.csv")).unwrap();
    symlink(shop.path().join("orders.csv"), at("link.csv")).unwrap();
    symlink(shop.path(), at("shop")).unwrap();
    for path in [at("link.csv"), at("log.csv"), at("shop/orders.csv"), at("shop/Counts.CSV"), shop.path().join("shop.toml")] {
        let outcome = shop.run("export", &["--out", path.to_str().unwrap()]);
        assert_eq!(outcome.code, 2, "{}", path.display());
        assert!(outcome.err.contains("it is one of the shop's own tables"), "{}", outcome.err);
    }
    assert_eq!(std::fs::read_to_string(shop.path().join("orders.csv")).unwrap(), ORDERS);
    assert_eq!(std::fs::read_to_string(at("log.csv")).unwrap(), HOURS);
    assert!(!shop.path().join("Counts.CSV").exists());
}

#[test]
fn an_exported_file_keeps_its_permissions() {
    use std::os::unix::fs::PermissionsExt;
    let shop = shop();
    let path = shop.path().join("facts.csv");
    let export = || shop.run("export", &["--out", path.to_str().unwrap()]);
    assert_eq!(export().code, 0);
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o600)).unwrap();
    assert_eq!(export().code, 0);
    assert_eq!(std::fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o600);
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o444)).unwrap();
    let refused = export();
    assert!(refused.code == 2 && refused.err.contains("it is read-only"), "{}", refused.err);
}

/// What an answer may have, by command.
const ANSWERS: [(&str, &[&str], &[&str]); 3] = [
    (
        "review",
        &["--month", "2026-10"],
        &["index.html", "review.txt", "wage-by-tier.csv", "wage-by-design.csv", "bridge.csv", "wage-by-theme.png"],
    ),
    ("tiers", &["--minutes", "card"], &["price-ladder.png", "raise.png", "next-list.csv"]),
    ("minutes", &[], &["minutes-each.png", "logged-minutes.png"]),
];

#[test]
fn answers_take_the_place_of_our_own_files_only() {
    let demo = repository("fixtures/ninebell-quay");
    for (command, options, names) in ANSWERS {
        for name in names {
            for kind in ODD.iter().copied().chain(["was not written by fairdozen"]) {
                let folder = tempfile::tempdir().unwrap();
                let path = folder.path().join(name);
                if ODD.contains(&kind) {
                    odd(kind, &path);
                } else {
                    std::fs::write(&path, "hers, about fairdozen\n").unwrap();
                }
                let outcome = run_on(&demo, command, &[options, &["--out", folder.path().to_str().unwrap()]].concat());
                assert_eq!((outcome.code, outcome.out.as_str()), (2, ""), "{command} {name} {kind}");
                let is = if ODD.contains(&kind) { format!("is {kind}") } else { kind.to_owned() };
                let says = format!("{} {is}, so nothing was written; move it away, or name another folder with --out\n", path.display());
                assert_eq!(outcome.err, says);
                assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1, "{command} {name} {kind}");
            }
        }
    }
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("file"), "hers").unwrap();
    let out = folder.path().join("file");
    let outcome = run_on(&demo, "tiers", &["--out", out.to_str().unwrap()]);
    assert!(outcome.code == 2 && outcome.err.contains("file cannot be written: it is a file, not a folder"), "{}", outcome.err);
}

/// Charts of an earlier review go where the next one has none; a picture of hers stays, and nothing is written beside it.
#[test]
fn charts_of_an_earlier_review_are_removed_and_others_are_not() {
    let themed =
        format!("{}\n", ORDERS.replace("price\n", "price,theme\n").replace(",3\n", ",3,oak\n").replace(",9\n", ",9,\n").trim_end());
    let shop = shop();
    let out = shop.path().join("out");
    let review = || shop.run("review", &["--month", "2026-03", "--out", out.to_str().unwrap()]);
    shop.write("orders.csv", themed.as_bytes());
    assert_eq!(review().code, 0, "{}", review().err);
    let chart = out.join("wage-by-theme.png");
    let picture = std::fs::read(&chart).unwrap();
    shop.write("orders.csv", ORDERS.as_bytes());
    assert_eq!(review().code, 0);
    assert!(!chart.exists());
    // Links to files of ours are written through.
    std::fs::rename(out.join("index.html"), shop.path().join("page.html")).unwrap();
    symlink(shop.path().join("page.html"), out.join("index.html")).unwrap();
    assert_eq!(review().code, 0);
    assert!(std::fs::symlink_metadata(out.join("index.html")).unwrap().is_symlink());
    // The same picture without the words that say who made it.
    let mut hers = picture.clone();
    let at = hers.windows(9).position(|bytes| bytes == b"fairdozen").unwrap();
    hers.drain(at - 17..at + 13);
    std::fs::write(&chart, &hers).unwrap();
    let page = std::fs::read(out.join("index.html")).unwrap();
    let refused = review();
    assert!(refused.code == 2 && refused.err.contains("wage-by-theme.png was not written by fairdozen"), "{}", refused.err);
    assert_eq!((std::fs::read(&chart).unwrap(), std::fs::read(out.join("index.html")).unwrap()), (hers, page));
}

/// Without a command there is no option to name another folder, so the advice is one that works.
#[test]
fn the_usual_folder_may_hold_a_file_of_hers() {
    let shop = shop();
    std::fs::create_dir_all(shop.path().join("reviews/2026-03")).unwrap();
    shop.write("reviews/2026-03/review.txt", b"My own notes.\n");
    let refused = shop.run("review", &["--month", "2026-03"]);
    assert!(refused.err.ends_with(
        "2026-03/review.txt was not written by fairdozen, so nothing was written; move it away, or name another folder with --out\n"
    ));
    let refused = run_on(shop.path(), "", &[]);
    assert_eq!(refused.code, 2);
    let advice = format!("or write the review into another folder with fairdozen review {} --out FOLDER\n", shop.path().display());
    assert!(refused.err.ends_with(&advice), "{}", refused.err);
}

#[cfg(target_os = "linux")]
#[test]
fn an_answer_that_cannot_be_printed_is_said() {
    use std::process::Stdio;
    let shop = shop();
    let run = |stdout: Stdio| {
        let mut program = Command::new(env!("CARGO_BIN_EXE_fairdozen"));
        let child = program.args(["wage", shop.path().to_str().unwrap(), "--by", "order"]).stdout(stdout).stderr(Stdio::piped());
        let ended = child.spawn().unwrap().wait_with_output().unwrap();
        (ended.status.code(), String::from_utf8(ended.stderr).unwrap())
    };
    let full = std::fs::File::options().write(true).open("/dev/full").unwrap();
    assert_eq!(run(full.into()), (Some(2), "The answer could not be printed: the disk is full.\n".to_owned()));
    let (reader, writer) = std::io::pipe().unwrap();
    drop(reader);
    assert_eq!(run(writer.into()), (Some(0), String::new()), "a reader that went away is no error");
}
