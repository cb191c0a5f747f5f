//! Writing into the shop's own tables: every byte that is not changed stays, and so does whatever she saves meanwhile.

use crate::harness::Trial;
use std::collections::BTreeMap;
use std::path::Path;

const SETTINGS: &str = "currency = \"USD\"\n[wage]\ntarget = 20\nfloor = 15\n";
const ORDERS: &str = "order,date,design,quantity,price\nA1,2026-03-10,acorn,12,3\nA1,2026-03-10,gaet,4,3\nA1,2026-03-10,tower,4,9\n";
const HOURS: &str = "date,minutes,stage,order\n2026-03-09,272,decorate,A1\n";

/// A shop whose orders misspell a design; written right, its next list moves the gate from small to large.
fn shop(designs: &str, card: &str, tiers: &str, list: &str) -> Trial {
    Trial::new(&[("shop.toml", SETTINGS), ("orders.csv", ORDERS), ("hours.csv", HOURS), (designs, card), (tiers, list)])
}

const CARD: &str =
    "\u{FEFF}\"design\",tier , minutes_each,mine\r\n\r\nacorn, small,2,\"x\"\ngate,\"small\",30,\"y,z\r\nw\"\r\rtower,large,\"32\",";
const LIST: &str = "tier,price\r\nsmall,\"3.00\"\r\nlarge,9.00";

fn files(folder: &Path) -> BTreeMap<String, String> {
    let entries = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap());
    entries.map(|entry| (entry.file_name().into_string().unwrap(), std::fs::read_to_string(entry.path()).unwrap())).collect()
}

fn names(shop: &Trial) -> String {
    let outcome = shop.run("check", &["--names", "--write"]);
    assert_eq!(outcome.code, 0, "{}", outcome.err);
    outcome.out
}

fn tiers(shop: &Trial) -> String {
    let outcome = shop.run("tiers", &["--write", "--minutes", "card"]);
    assert_eq!(outcome.code, 0, "{}{}", outcome.out, outcome.err);
    outcome.out
}

#[test]
fn every_byte_beside_the_edits_stays_and_so_do_names_in_capitals() {
    let shop = shop("Designs.csv", CARD, "TIERS.CSV", LIST);
    let mut expected = files(shop.path());
    assert!(names(&shop).ends_with("Added under also_called in Designs.csv.\n"));
    let card = expected.get_mut("Designs.csv").unwrap();
    *card = card.replacen(",mine\r", ",mine,also_called\r", 1).replacen("\"x\"\n", "\"x\",\n", 1).replacen("w\"\r", "w\",gaet\r", 1) + ",";
    assert_eq!(files(shop.path()), expected);
    let said = tiers(&shop);
    assert!(said.contains("The new list is in TIERS.CSV") && said.contains("New tiers in Designs.csv: gate to large."), "{said}");
    let card = expected.get_mut("Designs.csv").unwrap();
    *card = card
        .replacen(",also_called\r", ",also_called,earlier_tiers\r", 1)
        .replacen("\"x\",\n", "\"x\",,\n", 1)
        .replacen("gate,\"small\"", "gate,large", 1)
        .replacen(",gaet\r", ",gaet,small until 2026-03-31\r", 1)
        + ",";
    let now = files(shop.path());
    assert_eq!(now["Designs.csv"], expected["Designs.csv"]);
    assert!(now["TIERS.CSV"].starts_with("tier,price,from\r\nsmall,\"3.00\",\r\nlarge,9.00,\r\n"), "{}", now["TIERS.CSV"]);
    assert!(now["TIERS.CSV"].ends_with(",2026-04-01\r\n"), "{}", now["TIERS.CSV"]);
    assert_eq!(now.keys().collect::<Vec<_>>(), expected.keys().collect::<Vec<_>>());
}

#[cfg(unix)]
#[test]
fn links_permissions_and_read_only_files_are_kept() {
    use std::os::unix::fs::{PermissionsExt, symlink};
    let permit = |path: &Path, mode: u32| std::fs::set_permissions(path, std::fs::Permissions::from_mode(mode)).unwrap();
    let mode = |path: &Path| std::fs::metadata(path).unwrap().permissions().mode() & 0o777;
    let (shop, elsewhere) = (shop("designs.csv", CARD, "tiers.csv", LIST), tempfile::tempdir().unwrap());
    let card = elsewhere.path().join("card.csv");
    std::fs::rename(shop.path().join("designs.csv"), &card).unwrap();
    symlink(&card, shop.path().join("designs.csv")).unwrap();
    permit(&card, 0o444);
    let refused = shop.run("check", &["--names", "--write"]);
    assert_eq!((refused.code, refused.err.as_str()), (2, "designs.csv cannot be written: it is read-only; nothing was changed\n"));
    permit(&card, 0o600);
    names(&shop);
    assert_eq!(mode(&card), 0o600);
    permit(&shop.path().join("tiers.csv"), 0o640);
    tiers(&shop);
    assert_eq!((mode(&card), mode(&shop.path().join("tiers.csv"))), (0o600, 0o640));
    assert!(std::fs::symlink_metadata(shop.path().join("designs.csv")).unwrap().is_symlink());
    assert!(std::fs::read_to_string(&card).unwrap().contains("gaet,small until"));
    // A new card is as private as the orders it is made of.
    std::fs::remove_file(shop.path().join("designs.csv")).unwrap();
    shop.write("orders.csv", ORDERS.replace("gaet", "gate").as_bytes());
    permit(&shop.path().join("orders.csv"), 0o600);
    let outcome = shop.run("tiers", &["--write", "--target", "90", "--starts", "2026-07-01"]);
    assert_eq!(outcome.code, 0, "{}", outcome.err);
    assert!(outcome.out.contains("in a new file, designs.csv"), "{}", outcome.out);
    assert_eq!(mode(&shop.path().join("designs.csv")), 0o600);
}

/// The changed shop is read again in memory: with no place for scratch files, all goes well.
#[cfg(unix)]
#[test]
fn no_copy_of_her_tables_is_made() {
    let shop = shop("designs.csv", CARD, "tiers.csv", LIST);
    names(&shop);
    let run = std::process::Command::new(env!("CARGO_BIN_EXE_fairdozen"))
        .args(["tiers", shop.path().to_str().unwrap(), "--write", "--minutes", "card"])
        .env("TMPDIR", shop.path().join("no-such-folder"))
        .output()
        .unwrap();
    assert_eq!((run.status.code(), String::from_utf8_lossy(&run.stderr).as_ref()), (Some(0), ""));
    assert_eq!(files(shop.path()).len(), 5);
}

/// Two programs at once: one writes, the other finds that out before or after; never the tables of both, never a scrap.
#[test]
fn of_two_programs_at_once_one_writes() {
    let clean = ORDERS.replace("gaet", "gate");
    for _ in 0..10 {
        let shop = shop("designs.csv", CARD, "tiers.csv", LIST);
        shop.write("orders.csv", clean.as_bytes());
        let start = |target: &str| {
            let mut program = std::process::Command::new(env!("CARGO_BIN_EXE_fairdozen"));
            let program = program.args(["tiers", shop.path().to_str().unwrap(), "--write", "--minutes", "card", "--target", target]);
            program.stdout(std::process::Stdio::piped()).stderr(std::process::Stdio::piped()).spawn().unwrap()
        };
        let running = [start("20"), start("30")];
        let ended = running.map(|program| program.wait_with_output().unwrap());
        let told = ended.each_ref().map(|ended| String::from_utf8_lossy(&ended.stderr).into_owned());
        let codes = ended.each_ref().map(|ended| ended.status.code().unwrap());
        // One that starts when the other has ended may find its own list there already, and write nothing.
        let has_nothing_to_write =
            |at: usize| String::from_utf8_lossy(&ended[at].stdout).contains("Nothing was written: this is your list already.");
        let wrote = (0..2).filter(|at| codes[*at] == 0 && !has_nothing_to_write(*at)).count();
        assert_eq!(wrote, 1, "{codes:?} {told:?}");
        let known = ["another fairdozen is writing into this shop", "while this ran, so nothing was changed", "already has a price for"];
        let is_refused = told.iter().any(|text| known.iter().any(|known| text.contains(known)));
        assert!(is_refused || (0..2).any(has_nothing_to_write), "{told:?}");
        let now = files(shop.path());
        assert_eq!(now.len(), 5, "{:?}", now.keys());
        assert_eq!(now["tiers.csv"].matches(",2026-04-01").count(), 2, "{}", now["tiers.csv"]);
        assert_eq!(shop.run("check", &[]).code, 0);
    }
}
