//! Names as people write them: with spaces, in any script, very long, with control characters in them; and the names
//! of customers, which never leave the file.

use crate::harness::{Trial, figure, row};

#[test]
fn ids_may_have_spaces_signs_and_any_script() {
    let trial = Trial::new(&[
        (
            "orders.csv",
            "order,date,design,quantity,price,channel,theme\n№ 5 – März,2026-03-07,lune à paillettes 🌙,24,4.00,marché de nuit,Фестиваль\n№ 5 – März,,\"crumb, \"\"small\"\"\",12,2.00,,\n注文 7,2026-03-08,海の月,12,6.50,,\n3+4,2026-03-09,lune à paillettes 🌙,12,4.00,,\n2026-03-07,2026-03-10,海の月,6,6.50,,\n",
        ),
        (
            "hours.csv",
            "date,minutes,stage,order,design\n2026-03-06,60,,№ 5 – März + 注文 7,\n2026-03-06,45,,3+4,\n2026-03-06,30,,2026-03-07,\n2026-03-06,24,bake,注文 7,海の月\n",
        ),
        ("shop.toml", "currency = \"EUR\"\n\n[fees.\"marché de nuit\"]\npercent = \"10 %\"\n"),
    ]);
    let orders = trial.wage("order", &["--minutes", "equal"]);
    // 60 minutes over 36 and 12 pieces, each taken to last as long as any other: 45 and 15.
    for (key, minutes, fees) in [
        ("№ 5 – März", "45.000000", "12.000000"),
        ("注文 7", "39.000000", "0.000000"),
        // An id with a plus in it is itself before it is two orders, and one like a date before it is a day.
        ("3+4", "45.000000", "0.000000"),
        ("2026-03-07", "30.000000", "0.000000"),
    ] {
        let row = row(&orders, key);
        assert_eq!((figure(row, "owner_minutes"), figure(row, "fees")), (minutes, fees), "{key}");
    }
    let designs = trial.wage("design", &[]);
    assert_eq!(figure(row(&designs, "lune à paillettes 🌙"), "revenue"), "144.000000");
    assert_eq!(figure(row(&designs, "crumb, \"small\""), "revenue"), "24.000000");
    assert_eq!(figure(row(&designs, "海の月"), "revenue"), "117.000000");
    assert_eq!(row(&trial.wage("theme", &[]), "Фестиваль")["pieces"], 24);
    let csv = trial.run("wage", &["--csv"]).out;
    assert!(csv.contains("\nrow,\"crumb, \"\"small\"\"\","), "{csv}");
}

#[test]
fn names_that_differ_in_letter_case_are_one_and_those_in_a_hyphen_are_warned_of() {
    let orders = "order,date,design,quantity,price\nA1,2026-03-07,Moon,24,4.00\nA2,2026-03-07,moon,12,4.00\n\
        A2,2026-03-07,half moon,12,4.00\nA2,2026-03-07,half-moon,6,4.00\nA2,2026-03-07,moon,1,4.00\n";
    let trial = Trial::new(&[("orders.csv", orders)]);
    let table = trial.wage("design", &[]);
    let pieces = |design: &str| row(&table, design)["pieces"].as_u64();
    assert_eq!([pieces("moon"), pieces("half moon"), pieces("half-moon")], [Some(37), Some(12), Some(6)]);
    assert!(trial.run("check", &[]).out.contains("orders, design: 1 'Moon' as moon"), "{}", trial.run("check", &[]).out);
    let warned = table["problems"]
        .as_array()
        .unwrap()
        .iter()
        .any(|problem| problem["what"].as_str().unwrap().contains("look like two names of one design"));
    assert!(warned, "{:#}", table["problems"]);
}

/// Every command that prints, in every form.
const PRINTING: &[(&str, &[&str])] = &[
    ("wage", &[]),
    ("wage", &["--json"]),
    ("wage", &["--csv"]),
    ("wage", &["--both", "--by", "tier"]),
    ("wage", &["--by", "order", "--json"]),
    ("wage", &["--by", "order"]),
    ("wage", &["--by", "channel", "--json"]),
    ("wage", &["--by", "theme", "--csv"]),
    ("wage", &["--skip-bad-rows", "--json"]),
    ("check", &[]),
    ("check", &["--json"]),
    ("check", &["--names"]),
    ("export", &[]),
    ("export", &["--skip-bad-rows"]),
    ("review", &[]),
    ("review", &["--skip-bad-rows"]),
    ("", &[]),
];

const CUSTOMER: &str = "Zwerynia Quillfeather";
const ADDRESS: &str = "9 Invented Row, Nowhere";

#[test]
fn customers_are_never_printed_or_written() {
    let heading = "order,customer,date,design,quantity,price,address,note,status\n";
    let sound = format!(
        "{heading}A1,{CUSTOMER},2026-03-07,moon,24,4.00,\"{ADDRESS}\",call {CUSTOMER},\nA2,{CUSTOMER},2026-03-08,moon,12,4.00,,,\n"
    );
    // Problems in every way a row can have them: none may quote a cell beside the one that is wrong.
    let broken = format!(
        "{sound}A3,{CUSTOMER},7 March,moon,12,4.00,,,\nA4,{CUSTOMER},2026-03-09,mon,12,four,,,\nA5,{CUSTOMER},2026-03-09,moon\nA1,{CUSTOMER},2026-03-10,moon,1,4.00,,,quoted\nA6,{CUSTOMER},2026-03-09,moon,\"12,4.00,\"\"{ADDRESS}\"\",,\n"
    );
    let hours = format!("date,minutes,order,client\n2026-03-06,95,A1,{CUSTOMER}\n2026-03-06,five,A9,{CUSTOMER}\n");
    let sound_hours = format!("date,minutes,order,client\n2026-03-06,95,A1,{CUSTOMER}\n");
    for (orders, hours) in [(&sound, &sound_hours), (&broken, &hours)] {
        let trial = Trial::new(&[("orders.csv", orders), ("hours.csv", hours)]);
        for (command, options) in PRINTING {
            let outcome = trial.run(command, options);
            assert_ne!(outcome.code, 2, "{command} {options:?}: {}", outcome.err);
            for (what, text) in [("out", &outcome.out), ("err", &outcome.err)] {
                for secret in ["Zwerynia", "Quillfeather", "Invented Row"] {
                    assert!(!text.contains(secret), "{command} {options:?}, {what}:\n{text}");
                }
            }
        }
        for file in walk(trial.path()) {
            if file.parent() != Some(trial.path()) {
                let bytes = std::fs::read(&file).unwrap();
                assert!(!String::from_utf8_lossy(&bytes).contains("Quillfeather"), "{}", file.display());
            }
        }
    }
}

/// The files of a folder and the folders in it.
fn walk(folder: &std::path::Path) -> Vec<std::path::PathBuf> {
    let entries = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    entries.flat_map(|path| if path.is_dir() { walk(&path) } else { vec![path] }).collect()
}

#[test]
fn very_long_names_are_whole_for_programs_and_cut_for_people() {
    let long = "lantern ".repeat(1000).trim_end().to_owned();
    let orders = format!("order,date,design,quantity,price\n{long},2026-03-07,{long},24,4.00\nA2,2026-03-07,moon,12,4.00\n");
    let trial = Trial::new(&[("orders.csv", &orders), ("hours.csv", &format!("date,minutes,order\n2026-03-06,95,{long}\n"))]);
    let table = trial.wage("design", &[]);
    assert_eq!(figure(row(&table, &long), "revenue"), "96.000000");
    assert_eq!(figure(row(&trial.wage("order", &[]), &long), "owner_minutes"), "95.000000");
    let text = trial.run("wage", &[]).out;
    assert!(text.contains('…'), "{text}");
    assert!(text.lines().all(|line| line.chars().count() <= 100), "{text}");
}

#[test]
fn control_characters_never_reach_the_terminal() {
    let nasty = "moon\u{1b}[2J\u{7}\u{9b}31m";
    let orders = format!(
        "order,date,design,quantity,price,cust\u{1b}omer,channel,theme\nA\u{1b}1,2026-03-07,{nasty},24,4.00,x,\u{1b}[1m,\u{1b}[1m\nA2,2026-03-08,moon,12,4.00,,,\n"
    );
    let settings = "currency = \"USD\"\n\n[fees.\"\\u001b[1m\"]\npercent = \"1 %\"\n\n[seasons]\n\"\\u001b[1m\" = { from = 2026-03-01, to = 2026-03-31 }\n";
    let recipes = format!("for,item,amount,unit\n{nasty},fl\u{1b}our,30,g\n");
    let sound = Trial::new(&[("orders.csv", &orders), ("shop.toml", settings), ("recipes.csv", &recipes)]);
    let bad_settings = settings.replace("\"1 %\"", "\"one \\u001b[2J\"");
    let bad_orders = format!("{orders}A3,{nasty},{nasty},{nasty},{nasty},,,\n");
    let bad = [
        Trial::new(&[("orders.csv", &bad_orders), ("shop.toml", settings)]),
        Trial::new(&[("orders.csv", &bad_orders), ("shop.toml", &bad_settings)]),
        Trial::new(&[("orders.csv", &orders), ("shop.toml", settings), ("or\u{1b}ders 2.csv", "x\n")]),
    ];
    for trial in bad.iter().chain([&sound]) {
        // CSV is for programs: a name stands in it as it was written.
        for (command, options) in PRINTING.iter().filter(|(command, options)| *command != "export" && !options.contains(&"--csv")) {
            let outcome = trial.run(command, options);
            for text in [&outcome.out, &outcome.err] {
                // JSON escapes what lies below U+0020 and leaves the rest as it was written.
                let is_json = options.contains(&"--json");
                let found = text.chars().find(|c| c.is_control() && *c != '\n' && !(is_json && *c > '~'));
                assert_eq!(found, None, "{command} {options:?}:\n{}", text.escape_debug());
            }
        }
    }
    assert_eq!(sound.wage("design", &[])["rows"][1]["key"], nasty);
}
