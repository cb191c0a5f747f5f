//! A shop folder for one trial, and the program run on it, with its streams and exit code.

use fairdozen::cli::Outcome;
use serde_json::Value;
use std::path::{Path, PathBuf};

/// A shop written for one trial; the folder goes with it.
pub struct Trial {
    folder: tempfile::TempDir,
}

/// The least a shop needs.
pub const SETTINGS: &str = "currency = \"USD\"\n";

impl Trial {
    /// Files by name; `shop.toml` is written where it is not among them.
    pub fn new(files: &[(&str, &str)]) -> Self {
        let trial = Self { folder: tempfile::tempdir().unwrap() };
        if files.iter().all(|(name, _)| *name != "shop.toml") {
            trial.write("shop.toml", SETTINGS.as_bytes());
        }
        for (name, text) in files {
            trial.write(name, text.as_bytes());
        }
        trial
    }

    /// A copy of a shop with the rows of every table in the opposite order.
    pub fn turned(shop: &Path) -> Self {
        let turned = Self::new(&[]);
        for entry in std::fs::read_dir(shop).unwrap() {
            let (name, path) = entry.map(|entry| (entry.file_name().into_string().unwrap(), entry.path())).unwrap();
            let Ok(text) = std::fs::read_to_string(&path) else { continue };
            let (heading, rows) = text.split_once('\n').unwrap();
            let rows: Vec<&str> = rows.lines().rev().collect();
            let is_table = path.extension().is_some_and(|ending| ending == "csv");
            turned.write(&name, if is_table { format!("{heading}\n{}\n", rows.join("\n")) } else { text.clone() }.as_bytes());
        }
        turned
    }

    /// Writes or replaces one file.
    pub fn write(&self, name: &str, bytes: &[u8]) {
        std::fs::write(self.path().join(name), bytes).unwrap();
    }

    /// Where it lies.
    pub fn path(&self) -> &Path {
        self.folder.path()
    }

    /// Runs a command on it: the words before the shop's folder, and those after.
    pub fn run(&self, command: &str, options: &[&str]) -> Outcome {
        run_on(self.path(), command, options)
    }

    /// `wage --json`, which must succeed.
    pub fn wage(&self, by: &str, options: &[&str]) -> Value {
        let options: Vec<&str> = ["--by", by, "--json"].iter().chain(options).copied().collect();
        let outcome = self.run("wage", &options);
        assert_eq!(outcome.code, 0, "{}", outcome.err);
        serde_json::from_str(&outcome.out).unwrap()
    }
}

/// Runs a command on a shop's folder.
pub fn run_on(shop: &Path, command: &str, options: &[&str]) -> Outcome {
    let shop = shop.to_str().unwrap();
    let words: Vec<&str> =
        ["fairdozen"].into_iter().chain((!command.is_empty()).then_some(command)).chain([shop]).chain(options.iter().copied()).collect();
    fairdozen::cli::run(words)
}

/// A row of a wage table by its key.
pub fn row<'a>(table: &'a Value, key: &str) -> &'a Value {
    table["rows"].as_array().unwrap().iter().find(|row| row["key"] == key).unwrap_or_else(|| panic!("no row {key} in {table:#}"))
}

/// A money or minutes figure, as its stored text.
pub fn figure<'a>(row: &'a Value, field: &str) -> &'a str {
    row[field].as_str().unwrap_or_else(|| panic!("{field} is {} in {row:#}", row[field]))
}

/// A folder of the repository.
pub fn repository(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(path)
}
