//! Figures do not change unnoticed: over the demo, the fixtures and random shops, what programs read is the same as it was recorded, but
//! for what [`changed::CHANGED`] names.
//!
//! `same_house/before.txt` holds a digest of each answer as the program gave it at the commit that changed the file last: the shop, the
//! command, the digest. Where an answer is another, build the program at that commit, and see both sides:
//!
//! ```text
//! FAIRDOZEN_BEFORE=path/to/fairdozen cargo test --locked --test suite same_house
//! ```
//!
//! New questions, or a figure that changes on purpose and is named in the table, need the digests again:
//!
//! ```text
//! FAIRDOZEN_BEFORE=path/to/fairdozen cargo test --locked --test suite same_house -- --ignored
//! ```

mod asked;
mod changed;
mod reduced;

use crate::harness::{Trial, repository, run_on};
use asked::{Asked, Question, Shop, prices, shops};
use reduced::{FILE, digest, reduced};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::atomic::{AtomicUsize, Ordering};

const BEFORE: &str = "tests/suite/same_house/before.txt";

/// The program of before, where it is at hand.
fn program_of_before() -> Option<PathBuf> {
    std::env::var_os("FAIRDOZEN_BEFORE").map(PathBuf::from)
}

/// Who answers: the program as it is, or another build of it.
#[derive(Clone, Copy)]
enum Program<'a> {
    Ours,
    Other(&'a Path),
}

impl Program<'_> {
    fn run(self, shop: &Path, command: &str, options: &[&str]) -> (i32, String) {
        match self {
            Self::Ours => {
                let outcome = run_on(shop, command, options);
                (i32::from(outcome.code), outcome.out)
            }
            Self::Other(program) => {
                let output = Command::new(program).arg(command).arg(shop).args(options).output().unwrap();
                (output.status.code().unwrap(), String::from_utf8(output.stdout).unwrap())
            }
        }
    }

    /// The exit code, and what programs read without what changed on purpose. Of a review, that is its CSV files.
    fn answer(self, asked: &Asked, question: &Question) -> String {
        let beside = Trial::new(&[("prices.csv", &prices(&asked.questions).unwrap_or_default())]);
        let at = |name: &str| beside.path().join(name).to_str().unwrap().to_owned();
        let mut options: Vec<String> = question.options.clone();
        options.iter_mut().filter(|option| *option == "prices.csv").for_each(|option| *option = at("prices.csv"));
        let reviews = question.command == "review";
        if reviews {
            options.extend(["--out".to_owned(), at("review")]);
        }
        let words: Vec<&str> = options.iter().map(String::as_str).collect();
        let (code, mut printed) = self.run(asked.folder.path(), question.command, &words);
        if reviews && code == 0 {
            printed = tables(&beside.path().join("review"));
        }
        format!("exit code {code}\n{}", reduced(question.command, question.minutes, &printed))
    }
}

/// The CSV files of a folder, each after its name.
fn tables(folder: &Path) -> String {
    let mut paths: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "csv"));
    paths.sort();
    paths.iter().map(|path| std::fs::read_to_string(path).unwrap() + FILE).collect()
}

/// The digest of a shop's own files: were they others, so would the answers be.
fn of_files(folder: &Path) -> String {
    let mut paths: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "csv" || ending == "toml"));
    paths.sort();
    digest(&paths.iter().flat_map(|path| std::fs::read(path).unwrap()).collect::<Vec<u8>>())
}

/// A property of every shop, tried on all processors; in the order of the shops.
fn of_all_shops<T: Send>(property: impl Fn(&Shop) -> T + Sync) -> Vec<T> {
    let (shops, next) = (shops(), AtomicUsize::new(0));
    let worker = || {
        let taken = std::iter::from_fn(|| Some(next.fetch_add(1, Ordering::Relaxed)).filter(|at| *at < shops.len()));
        taken.map(|at| (at, property(&shops[at]))).collect::<Vec<_>>()
    };
    let workers = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let mut all: Vec<(usize, T)> = std::thread::scope(|scope| {
        let workers: Vec<_> = (0..workers).map(|_| scope.spawn(worker)).collect();
        workers.into_iter().flat_map(|worker| worker.join().unwrap()).collect()
    });
    all.sort_by_key(|(at, _)| *at);
    all.into_iter().map(|(_, property)| property).collect()
}

const FILES: &str = "its files";

/// Where an answer differs first from that of before.
fn difference(before: &str, now: &str) -> String {
    let lines = |text: &str| text.lines().map(str::to_owned).chain(["(the end)".to_owned()]).collect::<Vec<_>>();
    let (before, now) = (lines(before), lines(now));
    let Some(at) = before.iter().zip(&now).position(|(one, other)| one != other) else { return String::new() };
    let after = now[..at].iter().rfind(|line| line.contains("\"key\"")).map_or("the beginning", |line| line.trim());
    format!("    line {}, after {after}\n      before: {}\n      now:    {}\n", at + 1, before[at].trim(), now[at].trim())
}

/// How many differences of a shop are shown.
const SHOWN: usize = 5;

/// How many answers of a shop `before.txt` must hold, and what is another than there.
fn differences(shop: &Shop, before: &BTreeMap<(&str, &str), &str>, program: Option<&Path>) -> (usize, String) {
    let asked = shop.asked();
    let is = |line: &str, digest: &str| before.get(&(shop.name.as_str(), line)) == Some(&digest);
    if !is(FILES, &of_files(asked.folder.path())) {
        return (0, format!("  {}: the shop itself is another than before\n", shop.name));
    }
    let answers = asked.questions.iter().map(|question| (question, Program::Ours.answer(&asked, question)));
    let others: Vec<_> = answers.filter(|(question, answer)| !is(&question.line(), &digest(answer.as_bytes()))).collect();
    let mut text = String::new();
    for (question, answer) in others.iter().take(SHOWN) {
        let _ = writeln!(text, "  {}: fairdozen {}", shop.name, question.line());
        text += &program.map(|program| difference(&Program::Other(program).answer(&asked, question), answer)).unwrap_or_default();
    }
    if others.len() > SHOWN {
        let _ = writeln!(text, "  {}: {} more", shop.name, others.len() - SHOWN);
    }
    (asked.questions.len() + 1, text)
}

#[test]
fn programs_read_the_same_as_before_but_for_what_is_named() {
    let text = std::fs::read_to_string(repository(BEFORE)).unwrap();
    let parsed = text.lines().map(|line| line.split('\t').collect::<Vec<_>>());
    let before: BTreeMap<(&str, &str), &str> = parsed.map(|line| ((line[0], line[1]), line[2])).collect();
    let program = program_of_before();
    let (asked, differ): (Vec<usize>, Vec<String>) =
        of_all_shops(|shop| differences(shop, &before, program.as_deref())).into_iter().unzip();
    let differ = differ.concat();
    assert!(
        differ.is_empty(),
        "answers are others than before, and {BEFORE} says which they were:\n{differ}See the top of tests/suite/same_house.rs."
    );
    assert_eq!(asked.iter().sum::<usize>(), before.len(), "questions of {BEFORE} are no longer asked");
}

#[test]
#[ignore = "writes the digests of before, with the program of before"]
fn record() {
    let program = program_of_before().expect("FAIRDOZEN_BEFORE is the program of before");
    let recorded = of_all_shops(|shop| {
        let asked = shop.asked();
        let mut text = format!("{}\t{FILES}\t{}\n", shop.name, of_files(asked.folder.path()));
        for question in &asked.questions {
            let answer = Program::Other(&program).answer(&asked, question);
            let _ = writeln!(text, "{}\t{}\t{}", shop.name, question.line(), digest(answer.as_bytes()));
        }
        text
    });
    std::fs::write(repository(BEFORE), recorded.concat()).unwrap();
}
