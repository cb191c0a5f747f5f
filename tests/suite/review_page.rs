//! The review's page as text: whole without anything fetched, what a maker typed as text, figures as everywhere else. What it
//! looks like is tried in a browser (tests/browser).

use crate::harness::{Trial, repository, run_on};
use std::path::Path;

const SCRIPT: &str = "<script>alert(1)</script>";

fn page_of(shop: &Path, options: &[&str]) -> (String, String) {
    let out = tempfile::tempdir().unwrap();
    let options: Vec<&str> = options.iter().copied().chain(["--details", "--out", out.path().to_str().unwrap()]).collect();
    let outcome = run_on(shop, "review", &options);
    assert_eq!(outcome.code, 0, "{}", outcome.err);
    let page = std::fs::read_to_string(out.path().join("index.html")).unwrap();
    for entry in std::fs::read_dir(out.path()).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        if let Some(chart) = name.strip_suffix(".png") {
            assert!(page.contains(&format!("<figure id=\"{chart}\"")), "{chart} is not on the page");
        }
    }
    (page, outcome.out)
}

/// The words between tags, with the characters that HTML names.
fn words(page: &str) -> String {
    let mut text = String::new();
    for part in page.split('<').skip(1) {
        let (_, words) = part.split_once('>').unwrap();
        text.push_str(words);
        text.push(' ');
    }
    let named = [
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&quot;", "\""),
        ("&#x27;", "'"),
        ("&apos;", "'"),
        ("&#x2f;", "/"),
        ("&amp;", "&"),
        ("\u{2060}", ""),
    ];
    named.iter().fold(text, |text, (name, character)| text.replace(name, character))
}

#[test]
fn the_page_is_whole_and_fetches_nothing() {
    let (page, _) = page_of(&repository("fixtures/ninebell-quay"), &["--month", "2026-10"]);
    assert!(page.starts_with("<!DOCTYPE html>\n<html lang=\"en\">"));
    for fetched in ["<script", "<link", "<img", "<iframe", " src=\"http", "href=\"http", "@import", "url(http"] {
        assert!(!page.contains(fetched), "{fetched}");
    }
    assert_eq!(page.matches("<h1>").count(), 1);
    let headings: Vec<u32> = page.match_indices("<h").filter_map(|(at, _)| page[at + 2..].chars().next()?.to_digit(10)).collect();
    assert!(headings.windows(2).all(|pair| pair[1] <= pair[0] + 1), "no level is skipped: {headings:?}");
    assert_eq!(page.matches("<th>").count(), 0, "every heading of a table says what it heads");
}

#[test]
fn the_page_says_what_the_text_says() {
    let (page, text) = page_of(&repository("fixtures/ninebell-quay"), &["--month", "2026-10"]);
    let page = words(&page).split_whitespace().collect::<Vec<_>>().join(" ");
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for said in [
        "October 2026 did not cover your time.",
        "$1,395.50",
        "Log hours for L111 and L115",
        "A set-up charge would fix that; a higher piece price would not.",
        "October 2026 was $100 worse than September 2026 with your time paid at $20",
        "o hours for L111 and L115: hourly pay unknown",
        "home-kitchen rules and allergens are for your local authorities",
        "Money counts in the month an order is handed over",
    ] {
        assert!(page.contains(said), "the page does not say: {said}");
        assert!(text.contains(said), "the text does not say: {said}");
    }
    let decisions = page.split("Designs that most need a decision").nth(1).unwrap().split("Worth doing").next().unwrap();
    // Of the three most short two are raised under what is worth doing, which says their prices.
    let must_be = "To pay $20 an hour over the year to October 2026 its list price must be";
    assert_eq!(decisions.matches(must_be).count(), 1, "{decisions}");
    for (sentence, times) in
        [("October 2026 was $100 worse than September 2026 with your time paid at $20", 1), ("you worked faster +$116", 1)]
    {
        assert_eq!(page.matches(sentence).count(), times, "{sentence}");
    }
}

#[test]
fn six_charts_carry_the_answer_and_the_others_follow_each_for_a_desk_and_for_a_phone() {
    let (page, _) = page_of(&repository("fixtures/ninebell-quay"), &["--month", "2026-10"]);
    let ids = |part: &str| -> Vec<String> {
        part.split("<figure id=\"").skip(1).map(|after| after.split('"').next().unwrap().to_owned()).collect()
    };
    let (answer, more) = page.split_once("<h3 id=\"more-charts\">More charts</h3>").unwrap();
    let carrying = ["wage-by-tier", "month-by-month", "what-moved-it", "price-and-cost", "where-it-went", "wage-by-order-size"];
    assert_eq!(ids(answer), carrying);
    assert_eq!(ids(more).len(), 6);
    for figure in page.split("<figure id=\"").skip(1) {
        let (name, figure) = figure.split_once('"').unwrap();
        let (wide, narrow) = figure.split("</figure>").next().unwrap().split_once("<div class=\"chart-narrow\">").unwrap();
        assert!(wide.contains("<div class=\"chart-wide\">") && wide.contains(&format!("id=\"{name}-title\"")), "{name}");
        assert!(narrow.contains(&format!("id=\"{name}-narrow-title\"")), "{name}");
        assert_eq!((wide.matches("<svg").count(), narrow.matches("<svg").count()), (1, 1), "{name}");
    }
}

/// A phone shows a row's name, verdict, pay and what it is above or below; every other figure of it opens below.
#[test]
fn a_folded_row_holds_what_its_hidden_cells_hold() {
    let (page, _) = page_of(&repository("fixtures/ninebell-quay"), &["--month", "2026-10"]);
    let folded = |table: &str| table.split_once("class=\"folds\"").is_some();
    let tables: Vec<&str> = page.split("<table").skip(1).map(|table| table.split("</table>").next().unwrap()).collect();
    assert_eq!(tables.iter().map(|table| folded(table)).collect::<Vec<_>>(), [true, false, true, true]);
    for table in tables.into_iter().filter(|table| folded(table)) {
        let (head, body) = table.split_once("<tbody>").unwrap();
        let shown = head.matches("<th scope=\"col\" class=\"t\">").count() + head.matches("<th scope=\"col\" class=\"n\">").count();
        assert!((2..=3).contains(&shown), "{head}");
        for row in body.split("<tr").skip(1) {
            let (name, cells) = row.split_once("</th>").unwrap();
            let inside = |text: &str, opening: &str| -> Vec<String> {
                text.split(opening)
                    .skip(1)
                    .map(|after| after.split_once('<').unwrap().0.to_owned())
                    .filter(|text| !text.is_empty())
                    .collect()
            };
            let hidden: Vec<String> = cells
                .split("<td class=\"")
                .filter(|cell| cell.starts_with("n rest") || cell.starts_with("t rest"))
                .map(|cell| cell.split_once('>').unwrap().1.split_once('<').unwrap().0.to_owned())
                .filter(|text| !text.is_empty())
                .collect();
            assert!(!hidden.is_empty(), "{row}");
            let verdict = inside(name, "<small>");
            let rest: Vec<String> = hidden.into_iter().filter(|text| !verdict.contains(text)).collect();
            assert_eq!(inside(name, "<dd>"), rest, "{row}");
        }
    }
}

#[test]
fn names_that_look_like_markup_arrive_as_text() {
    let (page, _) = page_of(&repository("fixtures/awkward-names"), &["--month", "2026-09"]);
    assert!(!page.contains("<script") && !page.contains("<img") && !page.contains("<b>"));
    // The style and every picture are still closed where they should be.
    assert_eq!(page.matches("</style>").count(), 1);
    assert_eq!(page.matches("<svg").count(), page.matches("</svg>").count());
    let words = words(&page);
    for name in [
        &format!("{SCRIPT} star"),
        &format!("{SCRIPT} small"),
        &format!("{SCRIPT} sorting"),
        &format!("{SCRIPT} party"),
        "\"><img src=x onerror=alert(2)> & 'moon'",
        "</style></svg><b>fox</b> {{ 7 * 7 }} {% raw %}",
        "Ünïcode Æbleskive 蜂蜜 🍪",
    ] {
        assert!(words.contains(name), "{name}");
    }
}

#[test]
fn the_order_of_rows_changes_no_byte_of_the_page() {
    let demo = repository("fixtures/ninebell-quay");
    let of = |shop: &Path| page_of(shop, &["--month", "2026-10"]).0;
    assert!(of(&demo) == of(Trial::turned(&demo).path()));
}

#[test]
fn an_earlier_review_of_another_time_leaves_no_chart_behind() {
    let out = tempfile::tempdir().unwrap();
    let place = out.path().to_str().unwrap();
    let review = |month: &str| run_on(&repository("fixtures/ninebell-quay"), "review", &["--month", month, "--out", place]);
    assert_eq!((review("2026-10").code, out.path().join("what-moved-it.png").exists()), (0, true));
    // January had no orders: February has nothing to be held against.
    assert_eq!((review("2026-02").code, out.path().join("what-moved-it.png").exists()), (0, false));
}

#[test]
fn a_timer_left_on_is_told_before_anything_that_rests_on_it() {
    let (page, text) = page_of(&repository("fixtures/ninebell-quay"), &["--month", "2025-11"]);
    for said in [words(&page), text] {
        let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
        let doubt = "12 h 40 min of decorating are logged for L028, where 3 h 06 min are usual";
        assert!(said.contains(&format!("Check first: {doubt}.")), "{said}");
        assert!(said.contains(&format!("Check row 271 of your hours first: {doubt}.")), "{said}");
        // That order's heron would have to cost 38.93 by its hours: no such advice.
        assert!(!said.contains("for lamplighter heron instead of"), "{said}");
    }
}

const ONE_ORDER: &str = "order,date,design,quantity,price\nA,2026-03-07,bell,12,4\n";

/// What is not known is left out or said; nothing panics and no picture is blank.
#[test]
fn shops_that_log_little_have_a_page_too() {
    let hours = "date,minutes,order\n2026-03-06,90,A\n";
    let shops: [(&str, &[(&str, &str)]); 6] = [
        ("orders alone", &[("orders.csv", ONE_ORDER)]),
        ("no target", &[("orders.csv", ONE_ORDER), ("hours.csv", hours)]),
        ("a target and no hours", &[("orders.csv", ONE_ORDER), ("shop.toml", "currency = \"JPY\"\n[wage]\ntarget = 2000\n")]),
        ("all of it", &[("orders.csv", ONE_ORDER), ("hours.csv", hours), ("shop.toml", "currency = \"EUR\"\n[wage]\ntarget = 20\n")]),
        ("given away", &[("orders.csv", "order,date,design,quantity,price\nA,2026-03-07,bell,12,0\n"), ("hours.csv", hours)]),
        ("a delivery alone", &[("orders.csv", "order,date,kind,design,quantity,price\nA,2026-03-07,delivery,,,9\n"), ("hours.csv", hours)]),
    ];
    for (name, files) in shops {
        let trial = Trial::new(files);
        let (page, _) = page_of(trial.path(), &[]);
        assert!(words(&page).contains("March 2026"), "{name}");
        for wrong in ["NaN", "inf ", "None", "null", "undefined", "$ "] {
            assert!(!words(&page).contains(wrong), "{name}: {wrong}");
        }
    }
}

#[test]
fn nothing_handed_over_is_a_sentence_and_no_page() {
    let trial = Trial::new(&[("orders.csv", ONE_ORDER)]);
    let out = trial.path().join("out");
    let outcome = trial.run("review", &["--month", "2026-05", "--out", out.to_str().unwrap()]);
    assert_eq!((outcome.code, outcome.out.as_str()), (0, "Nothing was handed over in May 2026. Choose other days, or add orders.\n"));
    assert!(!out.exists());
}
