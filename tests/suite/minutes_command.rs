//! `minutes` and what learned minutes do to the wage tables: as a maker and as a program sees them.

use crate::demo::{SHOP, generator};
use crate::harness::{Trial, figure, repository, row, run_on};
use crate::random_shop::RandomShop;
use fairdozen::costing::column;
use fairdozen::costing::{Costed, MinutesBy, Options, cost, cost_by};
use fairdozen::ids::Id;
use fairdozen::minutes::diagnostics::{quantile, sorted_quantile};
use fairdozen::minutes::fit::{Diagnostics, Method, approximated, fit, sampled};
use fairdozen::minutes::learned::Learned;
use fairdozen::minutes::nuts::SamplerSettings;
use fairdozen::minutes::observations::{Covers, Design, Group, Observations};
use fairdozen::minutes::priors::prepare;
use fairdozen::minutes::random::Random;
use fairdozen::minutes::{Unlearned, learn};
use fairdozen::quantity::Period;
use fairdozen::report::minutes_document::minutes_document;
use fairdozen::report::screen::Screen;
use fairdozen::report::terminal::printed;
use fairdozen::review::minutes::MinutesTable;
use fairdozen::review::{By, Key, Question, WageTable};
use fairdozen::shop::Shop;
use fairdozen::shop::load::{Folder, Skipped};
use serde_json::Value;
use std::fmt::Write;

const LEARNED: Options = Options { cost_flow: None, minutes: MinutesBy::Learned { trend: false } };

fn demo() -> Shop {
    Folder::open(&repository(SHOP)).load(&Skipped::new()).shop.unwrap()
}

fn json(shop: &Trial, options: &[&str]) -> Value {
    let outcome = shop.run("minutes", &[&["--json"], options].concat());
    assert_eq!(outcome.code, 0, "{}", outcome.err);
    serde_json::from_str(&outcome.out).unwrap()
}

fn number(row: &Value, field: &str) -> f64 {
    figure(row, field).parse().unwrap()
}

/// Orders of a shop whose minutes are known: so many of each design, at 4 minutes a moth and 12 a barn, and 20 to set up.
fn orders(sets: &[(u32, u32)]) -> (String, String) {
    let (mut orders, mut hours) = ("order,date,design,quantity,price\n".to_owned(), "date,minutes,order\n".to_owned());
    for (number, (moths, barns)) in sets.iter().enumerate() {
        let day = format!("2026-{:02}-{:02}", number / 25 + 1, number % 25 + 1);
        for (design, quantity) in [("moth", moths), ("barn", barns)] {
            if *quantity > 0 {
                let _ = writeln!(orders, "A{number},{day},{design},{quantity},5.00");
            }
        }
        // A tenth more, as logged, or less: timers are never exact.
        let minutes = (20 + 4 * moths + 12 * barns) * [10, 9, 11, 10, 11, 9][number % 6] / 10;
        let _ = writeln!(hours, "{day},{minutes},A{number}");
    }
    (orders, hours)
}

#[test]
fn the_order_of_rows_changes_no_draw() {
    let turned = Trial::turned(&repository(SHOP));
    for options in [&["--json"][..], &["--json", "--trend"], &["--csv"]] {
        assert!(turned.run("minutes", options).out == run_on(&repository(SHOP), "minutes", options).out, "{options:?}");
    }
}

/// The schema that other programs read, field by field.
#[test]
fn the_json_has_the_fields_that_programs_read() {
    let outcome = run_on(&repository(SHOP), "minutes", &["--json"]);
    assert_eq!((outcome.code, outcome.err.as_str()), (0, ""));
    let table: Value = serde_json::from_str(&outcome.out).unwrap();
    let names = |value: &Value| value.as_object().unwrap().keys().cloned().collect::<Vec<String>>().join(" ");
    assert_eq!(names(&table), "schema rows set_up_minutes minutes_per_colour noise diagnostics time_next far_off");
    assert_eq!(table["schema"], "fairdozen.minutes/1");
    let row = &table["rows"][0];
    assert_eq!(names(row), "key tier orders pieces card_minutes minutes_per_piece minutes_low minutes_high told_apart");
    assert_eq!(names(&table["set_up_minutes"]), "median low high");
    assert_eq!(names(&table["diagnostics"]), "method chains draws r_hat ess_bulk ess_tail divergences passed");
    assert_eq!(names(&table["time_next"][0]), "key narrowing");
    assert_eq!(names(&table["far_off"][0]), "order logged expected");
    // Tinting is logged apart, so decorating has no minutes a colour.
    assert!(table["minutes_per_colour"].is_null() && table["noise"].is_string());
    assert_eq!((&table["diagnostics"]["chains"], &table["diagnostics"]["passed"]), (&4.into(), &true.into()));
    let narrowing: Vec<f64> = table["time_next"].as_array().unwrap().iter().map(|next| number(next, "narrowing")).collect();
    assert!(narrowing.len() > 10 && narrowing.windows(2).all(|pair| pair[0] >= pair[1]) && narrowing[0] > 0.0, "{narrowing:?}");
}

/// The generator knows the true minutes; nine intervals of ten must hold them, and the order planted with a timer left on
/// overnight must be the one that is far off.
#[test]
fn the_demo_gives_its_true_minutes_back() {
    let outcome = run_on(&repository(SHOP), "minutes", &["--json"]);
    let table: Value = serde_json::from_str(&outcome.out).unwrap();
    let (mut held, mut error) = (0, 0.0);
    for design in &generator::truth::DESIGNS {
        let row = row(&table, design.name);
        let truth = f64::from(i32::try_from(design.decorate).unwrap()) / 100.0;
        held += usize::from(number(row, "minutes_low") <= truth && truth <= number(row, "minutes_high"));
        error += (number(row, "minutes_per_piece") / truth - 1.0).abs() / 16.0;
        assert!((number(row, "minutes_per_piece") / truth - 1.0).abs() < 0.35, "{row:#}");
    }
    // Of sixteen at nine in ten, fewer than twelve would be one chance in sixty (binomial).
    assert!(held >= 12, "{held} of 16");
    assert!(error < 0.10, "{error}");
    // The card is a third off on characters alone.
    let far: Vec<&str> = table["far_off"].as_array().unwrap().iter().map(|order| order["order"].as_str().unwrap()).collect();
    assert_eq!(far, ["L028"]);
}

#[test]
fn the_shop_of_known_minutes_gives_them_back() {
    let sets: Vec<(u32, u32)> = (0..40).map(|at| (at * 7 % 13, 2 + at * 5 % 9)).collect();
    let (orders, hours) = orders(&sets);
    let shop = Trial::new(&[("orders.csv", &orders), ("hours.csv", &hours)]);
    let table = json(&shop, &[]);
    for (key, truth) in [("moth", 4.0), ("barn", 12.0)] {
        let found = row(&table, key);
        assert!((number(found, "minutes_per_piece") / truth - 1.0).abs() < 0.15, "{found:#}");
        assert!(number(found, "minutes_low") < truth && truth < number(found, "minutes_high"), "{found:#}");
        assert_eq!(found["told_apart"], true);
        assert!(found["card_minutes"].is_null() && found["tier"].is_null());
    }
    assert!((number(&table["set_up_minutes"], "median") - 20.0).abs() < 8.0, "{:#}", table["set_up_minutes"]);
    let said = shop.run("minutes", &[]).out;
    assert!(said.starts_with("Minutes of all work on a piece, from the hours of 40 orders"), "{said}");
    // Set-up is shared equally by order, the rest by pieces × minutes: nine tenths of 20 + 4 × 7 + 12 × 7 of order A1.
    let wage = shop.wage("design", &["--from", "2026-01-02", "--to", "2026-01-02"]);
    let minutes = |key: &str| number(row(&wage, key), "owner_minutes");
    assert!((minutes("moth") + minutes("barn") - 118.0).abs() < 1e-6);
    assert!((minutes("moth") - 118.0 * 38.0 / 132.0).abs() < 3.0, "{}", minutes("moth"));
    assert_eq!(wage["minutes_from"], "learned");
}

#[test]
fn too_few_orders_fall_back_on_the_card_and_say_so() {
    let (orders, hours) = orders(&[(12, 4), (6, 8)]);
    let shop =
        Trial::new(&[("orders.csv", &orders), ("hours.csv", &hours), ("designs.csv", "design,tier,minutes_each\nmoth,a,3\nbarn,b,9\n")]);
    let outcome = shop.run("minutes", &[]);
    assert_eq!(outcome.code, 0);
    let said = outcome.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.starts_with("Minutes per piece are not known yet: only 2 orders or batches have hours; learning them needs 3."), "{said}");
    let table = json(&shop, &[]);
    for name in ["set_up_minutes", "minutes_per_colour", "noise", "diagnostics"] {
        assert!(table[name].is_null(), "{name}");
    }
    let moth = row(&table, "moth");
    assert_eq!((&moth["card_minutes"], &moth["minutes_per_piece"], &moth["told_apart"]), (&"3.000000".into(), &Value::Null, &Value::Null));
    let wage = shop.wage("design", &[]);
    assert_eq!((&wage["minutes_from"], &row(&wage, "moth")["wage_low"]), (&"card".into(), &Value::Null));
    let assumed = wage["problems"].as_array().unwrap().iter().any(|problem| {
        problem["what"].as_str().unwrap().contains("only 2 orders or batches have hours; learning minutes per piece needs 3")
    });
    assert!(assumed, "{:#}", wage["problems"]);
}

#[test]
fn four_orders_lean_on_guesses_and_say_so() {
    let (orders, hours) = orders(&[(12, 4), (6, 8), (6, 8), (12, 4)]);
    let designs = "design,tier,minutes_each\nmoth,a,3\nbarn,b,9\nlamp,b,11\nkite,b,7\n";
    let more = format!("{orders}A0,2026-01-01,lamp,3,5.00\nA1,2026-01-02,kite,3,5.00\n");
    let shop = Trial::new(&[("orders.csv", &more), ("hours.csv", &hours), ("designs.csv", designs)]);
    let said = shop.run("minutes", &[]).out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("these figures lean on your tiers and guesses"), "{said}");
}

#[test]
fn designs_always_sold_together_are_named() {
    let sets: Vec<(u32, u32)> = (0..30).map(|at| (6 + at % 5, 6 + at % 5)).collect();
    let (mut orders, mut hours) = orders(&sets);
    for at in 0..12 {
        let _ = writeln!(orders, "B{at},2026-06-{:02},lamp,{},5.00", at + 1, 6 + at);
        let _ = writeln!(hours, "2026-06-01,{},B{at}", 20 + 7 * (6 + at));
    }
    let shop = Trial::new(&[("orders.csv", &orders), ("hours.csv", &hours)]);
    let table = json(&shop, &[]);
    let told = |key: &str| row(&table, key)["told_apart"].clone();
    assert_eq!([told("moth"), told("barn"), told("lamp")], [false.into(), false.into(), Value::from(true)]);
    // Their sum is known all the same: 16 minutes.
    let sum = number(row(&table, "moth"), "minutes_per_piece") + number(row(&table, "barn"), "minutes_per_piece");
    assert!((sum - 16.0).abs() < 2.5, "{sum}");
    let said = shop.run("minutes", &[]).out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("Not told apart, because they are sold together: barn and moth."), "{said}");
    // Timing one of them tells both.
    let next = table["time_next"].as_array().unwrap();
    let timed = hours.replace('\n', ",,\n").replace("order,,", "order,design,pieces") + "2026-07-01,60,,moth,15\n";
    let shop = Trial::new(&[("orders.csv", &orders), ("hours.csv", &timed)]);
    let after = json(&shop, &[]);
    assert_eq!(row(&after, "barn")["told_apart"], true, "{after:#}");
    assert_ne!(next[0]["key"], "lamp");
    assert!(next[0]["narrowing"].is_null(), "no wage is aimed at");
}

#[test]
fn a_design_without_hours_has_its_guess_or_nothing() {
    let sets: Vec<(u32, u32)> = (0..20).map(|at| (at % 7, 2 + at % 5)).collect();
    let (orders, hours) = orders(&sets);
    let orders = format!("{orders}Z1,2026-05-05,lamp,6,5.00\nZ2,2026-05-06,kite,6,5.00\n");
    let designs = "design,tier,minutes_each\nmoth,a,3\nbarn,b,9\nlamp,b,11\nkite,b,\n";
    let shop = Trial::new(&[("orders.csv", &orders), ("hours.csv", &hours), ("designs.csv", designs)]);
    let table = json(&shop, &[]);
    for (key, card) in [("lamp", Value::from("11.000000")), ("kite", Value::Null)] {
        let found = row(&table, key);
        assert_eq!((&found["card_minutes"], &found["minutes_per_piece"], &found["told_apart"]), (&card, &Value::Null, &Value::Null));
    }
    assert_eq!(row(&shop.wage("design", &[]), "lamp")["minutes_from"], "card");
    assert!(shop.run("minutes", &[]).out.contains("no hours yet"));
}

#[test]
fn a_trend_is_told_where_it_is_asked_for_or_the_logs_are_long() {
    let of = |first: i32, orders: i32| {
        let (mut lines, mut hours) = ("order,date,design,quantity,price\n".to_owned(), "date,minutes,order\n".to_owned());
        for at in 0..orders {
            let (year, month) = (2024 + (first + at) / 12, (first + at) % 12 + 1);
            let pieces = 6 + at * 5 % 11;
            // A quarter faster each year.
            let minutes = f64::from(20 + 6 * pieces) * power(0.75, f64::from(at) / 12.0);
            let _ = writeln!(lines, "A{at},{year}-{month:02}-15,moth,{pieces},5.00");
            let _ = writeln!(hours, "{year}-{month:02}-14,{minutes:.0},A{at}");
        }
        Trial::new(&[("orders.csv", &lines), ("hours.csv", &hours)])
    };
    let long = of(0, 36);
    let table = json(&long, &[]);
    let median = number(&table["change_per_year"], "median");
    assert!((median + 0.25).abs() < 0.05, "{median}");
    assert!(number(&table["change_per_year"], "high") < 0.0);
    let said = long.run("minutes", &[]).out;
    assert!(said.contains("You are about 2") && said.contains(" % faster than a year ago ("), "{said}");
    let short = of(0, 10);
    assert!(json(&short, &[])["change_per_year"].is_null());
    assert!(json(&short, &["--trend"])["change_per_year"].is_object());
}

fn power(base: f64, power: f64) -> f64 {
    base.powf(power)
}

#[test]
fn hours_by_stage_equal_the_log() {
    let outcome = run_on(&repository(SHOP), "minutes", &["--by", "stage", "--json"]);
    let table: Value = serde_json::from_str(&outcome.out).unwrap();
    let rows = table["rows"].as_array().unwrap();
    let sum = |waiting: bool| rows.iter().filter(|row| row["waiting"] == waiting).map(|row| number(row, "minutes")).sum::<f64>();
    let shop = demo();
    let (mut work, mut wait) = (0, 0);
    for entry in &shop.hours.entries {
        *(if shop.hours.is_unattended(entry) { &mut wait } else { &mut work }) += entry.minutes / 1_000_000;
    }
    assert!(wait > 0 && (sum(false) - f64::from(i32::try_from(work).unwrap())).abs() < 1e-6);
    assert!((sum(true) - f64::from(i32::try_from(wait).unwrap())).abs() < 1e-6);
    assert!(rows.iter().any(|row| row["who"] == "robin" && row["stage"] == "roll" && row["month"] == "2025-10"), "{table:#}");
    let month = run_on(&repository(SHOP), "minutes", &["--by", "stage", "--month", "2025-10"]).out;
    assert!(month.starts_with("Hours as you logged them, October 2025\n\nstage"), "{month}");
    assert!(month.contains("robin") && month.contains("drying and other waiting, never paid"));
    let csv = run_on(&repository(SHOP), "minutes", &["--by", "stage", "--csv"]).out;
    assert_eq!((csv.lines().next(), csv.lines().count()), (Some("stage,month,who,waiting,minutes"), rows.len() + 1));
}

#[test]
fn a_period_goes_with_stages_only_and_charts_with_a_folder() {
    let outcome = run_on(&repository(SHOP), "minutes", &["--month", "2026-10"]);
    assert_eq!((outcome.code, outcome.out.as_str()), (2, ""));
    assert!(outcome.err.contains("give a period only with --by stage"), "{}", outcome.err);
    let outcome = run_on(&repository(SHOP), "minutes", &["--by", "stage", "--trend"]);
    assert_eq!((outcome.code, outcome.out.as_str()), (2, ""));
    assert!(outcome.err.contains("--trend and --out do not go with it"), "{}", outcome.err);
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("charts");
    let outcome = run_on(&repository(SHOP), "minutes", &["--out", out.to_str().unwrap(), "--csv"]);
    assert!(outcome.out.starts_with("key,tier,") && outcome.err.starts_with("Charts: minutes-each.png and logged-minutes.png in "));
    for name in ["minutes-each.png", "logged-minutes.png"] {
        assert_eq!(&std::fs::read(out.join(name)).unwrap()[..8], b"\x89PNG\r\n\x1a\n");
        assert_eq!(std::fs::read(out.join(name)).unwrap(), std::fs::read(repository("reports").join(name)).unwrap(), "{name}");
    }
}

#[test]
fn what_did_not_settle_is_a_warning_and_the_card_never_a_number() {
    let shop = demo();
    let diagnostics = learn(&shop, false).unwrap().diagnostics;
    let failed = Unlearned::Failed(Some(Diagnostics { r_hat: 1.2, passed: false, ..diagnostics }));
    let costed = cost_by(&shop, LEARNED, Some(Err(failed))).unwrap();
    assert_eq!(costed.minutes_from.word(), "card");
    assert!(costed.posterior.is_none());
    assert!(costed.problems.iter().any(|problem| problem.what.contains("could not be learned")));
    let table = MinutesTable::of(&shop, &costed).unwrap();
    let json: Value = serde_json::from_str(&fairdozen::report::minutes_records::minutes_json(&table).unwrap()).unwrap();
    assert_eq!((&json["diagnostics"]["r_hat"], &json["diagnostics"]["passed"]), (&1.2.into(), &false.into()));
    assert!(table.rows.iter().all(|row| row.learned.is_none() && row.told_apart.is_none()));
    let text = printed(&minutes_document(&table, &fairdozen::report::words::Currency::of("USD")), Screen::First);
    assert!(text.starts_with("Minutes per piece could not be worked out"), "{text}");
    let plain = cost(&shop, Options::default()).unwrap();
    let designs = |costed: &Costed| WageTable::of(&shop, costed, Question { by: By::Design, period: Period::default() }).unwrap();
    assert_eq!(designs(&costed), designs(&plain));
}

/// The split by each draw is in floats, beside the exact one: each draw's sums are those of the exact split fed with that draw. Random
/// shops have helpers, entries without a stage, overhead by hours and orders without hours.
#[test]
fn sums_under_a_draw_equal_the_exact_split_by_it() {
    same_split(&demo());
    let mut with_helpers = 0;
    for seed in 0..20 {
        let trial = RandomShop::of(seed).trial();
        let shop = Folder::open(trial.path()).load(&Skipped::new()).shop.unwrap();
        with_helpers += i32::from(same_split(&shop) && shop.hours.entries.iter().any(|entry| entry.who.is_some()));
    }
    assert!(with_helpers > 3, "{with_helpers}");
}

/// Whether minutes are learned; then the sums must agree.
fn same_split(shop: &Shop) -> bool {
    let costed = cost(shop, LEARNED).unwrap();
    let Some(Ok(learned)) = costed.learned.as_ref() else { return false };
    let designs = costed.facts.values(&column::DESIGN).unwrap();
    let group: Vec<Option<usize>> = designs.into_iter().map(|design| design.map(Id::index)).collect();
    let by_draw = costed.posterior.as_ref().unwrap().by_group(&group, shop.designs.names.len());
    let step = learned.draws.len() / by_draw[0].pay.len();
    for at in [0, 57, by_draw[0].pay.len() - 1] {
        let draw = Learned { mean: learned.draws[at * step].clone(), ..learned.clone() };
        let exact = cost_by(shop, LEARNED, Some(Ok(draw))).unwrap();
        let designs = WageTable::of(shop, &exact, Question { by: By::Design, period: Period::default() }).unwrap();
        for row in &designs.rows {
            let Some(Key::Design(design)) = row.group else { continue };
            let sums = &by_draw[design.index()];
            for (exact, float) in [(row.known.owner_pay().stored(), sums.pay[at]), (row.known.owner_minutes.stored(), sums.minutes[at])] {
                let exact: f64 = exact.parse().unwrap();
                assert!((float - exact).abs() < 1e-4, "{} {exact} {float}", row.key);
            }
        }
    }
    true
}

/// A theme's deliveries are in its wage, so they are in its range too.
#[test]
fn ranges_of_themes_count_their_deliveries() {
    let (mut orders, hours) = orders(&(0..20).map(|at| (at % 7, 2 + at % 5)).collect::<Vec<_>>());
    orders = orders.replace('\n', ",cookie,spring\n").replace("price,cookie,spring", "price,kind,theme");
    let carts: String = (0..20).map(|at| format!("A{at},2026-01-{:02},,,90.00,delivery,spring\n", at + 1)).collect::<Vec<_>>().concat();
    let shop = Trial::new(&[("orders.csv", &(orders + &carts)), ("hours.csv", &hours)]);
    let table = shop.wage("theme", &[]);
    let spring = row(&table, "spring");
    // All minutes are the theme's: the range has no width.
    for end in ["wage_low", "wage_high"] {
        assert!((number(spring, end) - number(spring, "wage_per_hour")).abs() < 1e-4, "{spring:#}");
    }
}

/// Work without a stage, beside planning and tinting logged apart: no minutes a colour, and little set-up.
#[test]
fn set_up_and_colours_are_apart_for_orders_logged_whole_too() {
    let sets: Vec<(u32, u32)> = (0..24).map(|at| (at % 7, 2 + at % 5)).collect();
    let (orders, hours) = orders(&sets);
    let orders = orders.replace('\n', ",4\n").replace("price,4", "price,colours");
    let plain = Trial::new(&[("orders.csv", &orders), ("hours.csv", &hours)]);
    let mut staged = hours.replace('\n', ",\n").replace("order,", "order,stage");
    for at in 0..24 {
        let _ = write!(staged, "2026-01-01,10,A{at},plan\n2026-01-01,9,A{at},tint\n");
    }
    let staged = Trial::new(&[("orders.csv", &orders), ("hours.csv", &staged)]);
    assert!(json(&plain, &[])["minutes_per_colour"].is_object());
    let table = json(&staged, &[]);
    assert!(table["minutes_per_colour"].is_null(), "{table:#}");
    assert!(number(&table["set_up_minutes"], "high") < number(&json(&plain, &[])["set_up_minutes"], "high"));
}

#[test]
fn tables_give_ranges_where_figures_are_estimated_and_say_what_is_counted() {
    let wage = |by: &str, options: &[&str]| {
        let outcome = run_on(&repository(SHOP), "wage", &[&["--by", by, "--json"], options].concat());
        serde_json::from_str::<Value>(&outcome.out).unwrap()
    };
    for by in ["design", "tier"] {
        let table = wage(by, &[]);
        for row in table["rows"].as_array().unwrap().iter().filter(|row| row["pieces"] != 0) {
            let (low, wage, high) = (number(row, "wage_low"), number(row, "wage_per_hour"), number(row, "wage_high"));
            assert!(low < wage && wage < high, "{row:#}");
        }
        assert!(table["total"]["wage_low"].is_null() && table["all_in"]["wage_high"].is_null());
    }
    for by in ["order", "month", "channel", "order-size", "colours"] {
        let table = wage(by, &[]);
        assert!(table["rows"].as_array().unwrap().iter().all(|row| row["wage_low"].is_null()), "{by}");
        let said = run_on(&repository(SHOP), "wage", &["--by", by, "--details"]).out;
        assert!(said.contains("These hours are counted from your logs, not estimated."), "{said}");
    }
    assert!(wage("design", &["--minutes", "card"])["rows"].as_array().unwrap().iter().all(|row| row["wage_low"].is_null()));
    let said = run_on(&repository(SHOP), "wage", &[]).out;
    let words = said.split_whitespace().collect::<Vec<_>>().join(" ");
    for verdict in ["underpaid sure", "orders too small likely", "can't tell yet", "pays sure", "90 % probability", "sure from 95 %"] {
        assert!(words.contains(verdict), "{verdict}: {said}");
    }
    assert!(said.lines().all(|line| line.chars().count() <= 100), "{said}");
}

/// The bits of the draws, folded into one number: the same on any processor, whatever its count of cores. A change of the
/// model or its priors changes it, and must be meant.
#[test]
fn draws_are_the_same_bits_everywhere() {
    let shop = demo();
    let observed = fairdozen::minutes::observed::Observed::of(&shop);
    let prepared = prepare(&observed.observations, false).unwrap();
    let digest = || {
        let posterior = fit(&prepared.model).unwrap();
        let bits = posterior.draws.iter().flatten().map(|x| x.to_bits());
        // FNV-1a, 64 bits.
        bits.flat_map(u64::to_le_bytes).fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x100_0000_01b3))
    };
    assert_eq!(digest(), digest());
    assert_eq!(format!("{:016x}", digest()), DIGEST);
}

const DIGEST: &str = "9ffc5c5ed1d79588";

/// A large world: so many orders of so many designs in four tiers.
fn large(orders: usize, designs: usize) -> Observations {
    let mut random = Random::new(77, 7);
    let real = |whole: usize| f64::from(u32::try_from(whole).unwrap());
    let truth: Vec<f64> = (0..designs).map(|at| [2.0, 6.0, 12.0, 30.0][at % 4] * power(1.25, random.normal())).collect();
    let mut observations =
        Observations { designs: (0..designs).map(|at| Design { tier: Some(at % 4), card: None }).collect(), ..Observations::default() };
    for _ in 0..orders {
        let mut pieces: Vec<(usize, f64)> = Vec::new();
        for _ in 0..2 + random.below(3) {
            let design = random.below(designs);
            if pieces.iter().all(|(other, _)| *other != design) {
                pieces.push((design, real(3 + random.below(12))));
            }
        }
        let colours = real(2 + random.below(5));
        let expected = 25.0 + 6.0 * colours + pieces.iter().map(|(design, pieces)| truth[*design] * pieces).sum::<f64>();
        let minutes = (expected * power(1.2, random.normal())).round();
        observations.groups.push(Group {
            minutes,
            covers: Covers::Decorating,
            orders: 1.0,
            colours,
            pieces,
            years: 0.0,
            named: Vec::new(),
        });
    }
    observations
}

/// Where shops grow large, modes with their curvature take the place of sampling: the
/// medians differ by less than a quarter of their spread, and intervals are as wide within a fifth.
#[test]
fn the_fast_method_agrees_with_sampling() {
    let prepared = prepare(&large(2000, 40), false).unwrap();
    let draws = SamplerSettings { warm_up: 100, kept: 500, acceptance: 0.85, gradients: usize::MAX };
    let (slow, quick) = (sampled(&prepared.model, draws).unwrap(), approximated(&prepared.model).unwrap());
    assert_eq!([&slow, &quick].map(|of| of.diagnostics.method), [Method::Sampled, Method::Approximated]);
    assert!(slow.diagnostics.passed);
    for at in prepared.model.designs_at()..prepared.model.size() {
        let of = |draws: &[Vec<f64>]| {
            let mut draws: Vec<f64> = draws.iter().map(|x| x[at]).collect();
            (quantile(&mut draws, 0.5), sorted_quantile(&draws, 0.95) - sorted_quantile(&draws, 0.05))
        };
        let ((middle, width), (quick_middle, quick_width)) = (of(&slow.draws), of(&quick.draws));
        // An interval of 90 % is 3.29 standard deviations wide.
        assert!((middle - quick_middle).abs() < width / 3.29 / 4.0, "{at}: {middle} {quick_middle} of {width}");
        assert!((quick_width / width - 1.0).abs() < 0.2, "{at}: {width} {quick_width}");
    }
}

#[test]
fn many_orders_are_approximated_and_said_to_be() {
    let prepared = prepare(&large(6000, 30), false).unwrap();
    let posterior = fit(&prepared.model).unwrap();
    assert_eq!(posterior.diagnostics.method, Method::Approximated);
    assert!(posterior.diagnostics.passed);
}
