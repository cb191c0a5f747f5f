use super::*;
use crate::cli::outcome::Outcome;
use std::collections::BTreeMap;
use std::path::Path;

fn shop() -> tempfile::TempDir {
    let shop = tempfile::tempdir().unwrap();
    for (name, text) in [("shop.toml", "currency = \"USD\"\n"), ("Orders.csv", "orders\n"), ("tiers.csv", "tiers\n")] {
        std::fs::write(shop.path().join(name), text).unwrap();
    }
    shop
}

fn files(folder: &Path) -> BTreeMap<String, String> {
    let entries = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap());
    entries.map(|entry| (entry.file_name().into_string().unwrap(), std::fs::read_to_string(entry.path()).unwrap())).collect()
}

fn outcome(error: FileError) -> Outcome {
    crate::cli::error::Error::from(error).into()
}

fn new_tables() -> Vec<(String, Vec<u8>)> {
    ["tiers.csv", "orders.csv", "designs.csv"].map(|name| (name.to_owned(), b"new\n".to_vec())).into()
}

#[test]
fn all_take_their_places_under_the_names_they_have() {
    let shop = shop();
    let folder = Folder::open(shop.path());
    let before = files(shop.path());
    Change::new(&folder, new_tables()).commit().unwrap();
    let after = files(shop.path());
    assert_eq!(after.keys().collect::<Vec<_>>(), ["Orders.csv", "designs.csv", "shop.toml", "tiers.csv"]);
    assert_eq!(after["shop.toml"], before["shop.toml"]);
    assert!(["Orders.csv", "designs.csv", "tiers.csv"].iter().all(|name| after[*name] == "new\n"));
}

/// What she does between the reading and the writing stays, and nothing else is changed.
#[test]
fn what_is_saved_meanwhile_is_never_overwritten() {
    type Meanwhile = fn(&Path);
    let meanwhile: [(Meanwhile, &str); 6] = [
        (|shop| std::fs::write(shop.join("Orders.csv"), "orders\nmore\n").unwrap(), "Orders.csv was saved"),
        (|shop| std::fs::write(shop.join("tiers.csv"), "").unwrap(), "tiers.csv was saved"),
        (|shop| std::fs::write(shop.join("shop.toml"), "currency = \"EUR\"\n").unwrap(), "shop.toml was saved"),
        (|shop| std::fs::write(shop.join("HOURS.csv"), "hours\n").unwrap(), "HOURS.csv appeared"),
        (|shop| std::fs::remove_file(shop.join("tiers.csv")).unwrap(), "tiers.csv was taken away"),
        (|shop| std::fs::remove_file(shop.join("shop.toml")).unwrap(), "shop.toml was taken away"),
    ];
    for (act, says) in meanwhile {
        let shop = shop();
        let folder = Folder::open(shop.path());
        let change = Change::new(&folder, new_tables());
        act(shop.path());
        let before = files(shop.path());
        let refused = outcome(change.commit().unwrap_err());
        assert_eq!((refused.code, refused.err), (1, format!("{says} while this ran, so nothing was changed; run it again\n")));
        assert_eq!(files(shop.path()), before, "{says}");
    }
}

/// The same where it happens after the comparison, while the tables take their places one after another.
#[test]
fn what_is_saved_at_the_last_moment_stays_and_the_tables_before_it_are_taken_back() {
    for (name, says) in [("Orders.csv", "was saved"), ("designs.csv", "appeared")] {
        let shop = shop();
        let folder = Folder::open(shop.path());
        let change = Change::new(&folder, new_tables());
        let ready = change.ready().unwrap();
        std::fs::write(shop.path().join(name), "hers\n").unwrap();
        let mut expected: BTreeMap<String, String> =
            [("shop.toml", "currency = \"USD\"\n"), ("Orders.csv", "orders\n"), ("tiers.csv", "tiers\n")]
                .map(|(name, text)| (name.to_owned(), text.to_owned()))
                .into();
        expected.insert(name.to_owned(), "hers\n".to_owned());
        let refused = outcome(place(ready).unwrap_err());
        assert_eq!((refused.code, refused.err), (1, format!("{name} {says} while this ran, so nothing was changed; run it again\n")));
        assert_eq!(files(shop.path()), expected);
    }
}

#[test]
fn what_is_saved_over_a_new_table_is_not_taken_back() {
    let shop = shop();
    let (path, old) = (shop.path().join("tiers.csv"), Some(&b"tiers\n"[..]));
    let place = Place { path: path.clone(), name: "tiers.csv", old, new: b"new\n" };
    std::fs::write(&path, "new\nhers\n").unwrap();
    assert_eq!(place.take_back().unwrap_err().to_string(), "it was saved again");
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "new\nhers\n");
    std::fs::write(&path, "new\n").unwrap();
    place.take_back().unwrap();
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "tiers\n");
}

#[test]
fn of_two_writers_one_is_refused() {
    let shop = shop();
    let (one, other) = (Folder::open(shop.path()), Folder::open(shop.path()));
    let (one, other) = (Change::new(&one, new_tables()), Change::new(&other, vec![("tiers.csv".to_owned(), b"other\n".to_vec())]));
    let before = files(shop.path());
    let lock = one.lock().unwrap();
    let refused = outcome(other.commit().unwrap_err());
    assert_eq!((refused.code, refused.err.as_str()), (2, "another fairdozen is writing into this shop; nothing was changed, try again\n"));
    assert_eq!(files(shop.path()), before);
    drop(lock);
    one.commit().unwrap();
    let refused = outcome(other.commit().unwrap_err());
    assert_eq!(
        (refused.code, refused.err.contains("tiers.csv was saved while this ran") || refused.err.contains("Orders.csv was saved")),
        (1, true)
    );
    assert_eq!(files(shop.path())["tiers.csv"], "new\n");
}

#[cfg(unix)]
#[test]
fn a_read_only_table_is_refused_and_nothing_is_changed() {
    use std::os::unix::fs::PermissionsExt;
    let shop = shop();
    std::fs::set_permissions(shop.path().join("Orders.csv"), std::fs::Permissions::from_mode(0o444)).unwrap();
    let folder = Folder::open(shop.path());
    let before = files(shop.path());
    let refused = outcome(Change::new(&folder, new_tables()).commit().unwrap_err());
    assert_eq!((refused.code, refused.err.as_str()), (2, "Orders.csv cannot be written: it is read-only; nothing was changed\n"));
    assert_eq!(files(shop.path()), before);
}

#[test]
fn what_a_stopped_writer_left_is_removed_and_nothing_else() {
    let shop = shop();
    let folder = Folder::open(shop.path());
    for name in [".fairdozen-x1Y2z3", ".fairdozen-other", ".hers"] {
        std::fs::write(shop.path().join(name), "left").unwrap();
    }
    Change::new(&folder, new_tables()).commit().unwrap();
    let names: Vec<String> = files(shop.path()).into_keys().collect();
    assert_eq!(names, [".fairdozen-other", ".hers", "Orders.csv", "designs.csv", "shop.toml", "tiers.csv"]);
}
