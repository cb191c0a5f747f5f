//! Files of one table that are written in different ways: each is read as it is written, and next month's export alike.

use crate::harness::Trial;

/// A sheet of her own, month first.
const HERS: &str = "order,date,design,quantity,price\nA1,11/23/2025,moon,12,4.00\nA2,1/5/2026,star,24,3.50\n";
/// A market's export, day first, and with a decimal comma.
const MARKET: &str = "order,Pick-up,design,quantity,price\nM1,23/3/2026,moon,12,\"4,50\"\nM2,5/4/2026,star,24,\"3,50\"\n";
/// The same orders plainly.
const PLAIN: &str = "order,date,design,quantity,price\nA1,2025-11-23,moon,12,4.00\nA2,2026-01-05,star,24,3.50\nM1,2026-03-23,moon,12,4.50\nM2,2026-04-05,star,24,3.50\n";
const HOURS: &str = "date,minutes,order\n2025-11-20,60,A1\n2026-01-04,90,A2\n2026-03-22,70,M1\n2026-04-04,80,M2\n";

/// What `check` prints, its lines joined.
fn check(shop: &Trial, options: &[&str]) -> (u8, String) {
    let outcome = shop.run("check", options);
    (outcome.code, outcome.out.replace("\n    ", " "))
}

fn settings(shop: &Trial) -> String {
    std::fs::read_to_string(shop.path().join("shop.toml")).unwrap()
}

#[test]
fn headings_written_in_different_ways_are_fixed_each_and_next_month_is_read_alike() {
    let shop = Trial::new(&[("orders.csv", HERS), ("orders-market.csv", MARKET), ("hours.csv", HOURS)]);
    let (code, out) = check(&shop, &["--write"]);
    assert_eq!(code, 0, "{out}");
    let text = settings(&shop);
    assert!(text.contains("[formats.orders]\ndate = \"month/day/year\"\nPick-up = \"day/month/year\"\n"), "{text}");
    assert!(text.contains("[formats.\"orders.csv\"]\nprice = \"decimal point\"\n"), "{text}");
    assert!(text.contains("[formats.\"orders-market.csv\"]\nprice = \"decimal comma\"\n"), "{text}");
    let plain = Trial::new(&[("orders.csv", PLAIN), ("hours.csv", HOURS)]);
    assert_eq!(shop.wage("order", &[])["rows"], plain.wage("order", &[])["rows"]);
    // All of these days could be either.
    shop.write("orders-market-2.csv", b"order,Pick-up,design,quantity,price\nM3,5/6/2026,moon,12,\"4,50\"\n");
    plain.write("orders.csv", format!("{PLAIN}M3,2026-06-05,moon,12,4.50\n").as_bytes());
    assert_eq!(shop.wage("order", &[])["rows"], plain.wage("order", &[])["rows"]);
}

#[test]
fn files_written_in_different_ways_under_one_heading_are_fixed_by_their_names() {
    let market = MARKET.replace("Pick-up", "date");
    let shop = Trial::new(&[("orders.csv", HERS), ("orders-market.csv", &market), ("hours.csv", HOURS)]);
    let (code, out) = check(&shop, &["--write"]);
    assert_eq!(code, 0, "{out}");
    assert!(settings(&shop).contains("[formats.\"orders-market.csv\"]\ndate = \"day/month/year\"\nprice = \"decimal comma\"\n"));
    let plain = Trial::new(&[("orders.csv", PLAIN), ("hours.csv", HOURS)]);
    assert_eq!(shop.wage("order", &[])["rows"], plain.wage("order", &[])["rows"]);
    // Neither tells how another file is written.
    let next = "order,date,design,quantity,price\nM3,5/6/2026,moon,12,\"4,50\"\n";
    shop.write("orders-market-2.csv", next.as_bytes());
    let (code, out) = check(&shop, &[]);
    let asked = "write date = \"month/day/year\" or date = \"day/month/year\" under [formats.orders] in shop.toml, or under [formats.\"orders-market-2.csv\"] for this file alone";
    assert!(code == 1 && out.contains(asked), "{out}");
    shop.write("shop.toml", format!("{}\n[formats.\"orders-market-2.csv\"]\ndate = \"day/month/year\"\n", settings(&shop)).as_bytes());
    assert_eq!(check(&shop, &[]).0, 0);
}

#[test]
fn a_file_that_asks_is_not_answered_by_what_another_shows() {
    let shop = Trial::new(&[("orders-1.csv", HERS), ("orders-2.csv", &HERS.replace("A1,11/23/2025", "A3,11/3/2025"))]);
    let (code, out) = check(&shop, &["--write"]);
    assert!(
        code == 1 && out.contains("orders-2.csv, column date: '11/3/2025' in row 2 is 2025-11-03 as month/day/year or 2025-03-11"),
        "{out}"
    );
    assert!(settings(&shop).contains("[formats.\"orders-1.csv\"]\ndate = \"month/day/year\"\n"), "{}", settings(&shop));
}

#[test]
fn a_file_written_otherwise_than_the_settings_say_is_one_error_with_the_line_that_mends_it() {
    let fixed = "currency = \"USD\"\n[formats.orders]\ndate = \"month/day/year\"\n";
    let market = MARKET.replace("Pick-up", "date");
    let shop = Trial::new(&[("shop.toml", fixed), ("orders.csv", HERS), ("orders-market.csv", &market), ("hours.csv", HOURS)]);
    let (code, out) = check(&shop, &[]);
    let said = "orders-market.csv, column date: '23/3/2026' in row 2 is day/month/year, as 1 of the column's 2 cells can only be, but [formats.orders] in shop.toml says month/day/year; write date = \"day/month/year\" under [formats.\"orders-market.csv\"] if all of the file is written so, else correct those cells";
    assert!(code == 1 && out.starts_with("1 error:\n") && out.contains(said), "{out}");
    shop.write("shop.toml", format!("{fixed}[formats.\"orders-market.csv\"]\ndate = \"day/month/year\"\n").as_bytes());
    assert_eq!(check(&shop, &[]).0, 0);
}

#[test]
fn a_section_of_formats_that_is_of_no_file_is_named() {
    let wrong = "currency = \"USD\"\n[formats.\"orders-markt.csv\"]\ndate = \"day/month/year\"\n[formats.orders]\nPrize = \"decimal point\"\n\"Pick up\" = \"day/month/year\"\n";
    let shop = Trial::new(&[("shop.toml", wrong), ("orders.csv", HERS), ("orders-market.csv", MARKET)]);
    let (code, out) = check(&shop, &[]);
    assert_eq!(code, 1);
    assert!(out.contains("'orders-markt.csv' is neither a table nor a file of the shop; did you mean orders-market.csv?"), "{out}");
    assert!(out.contains("key formats.orders: 'Prize' is not a column of orders; did you mean price?"), "{out}");
    assert!(!out.contains("'Pick up'"), "{out}");
}

#[test]
fn dates_in_place_of_orders_follow_the_orders_of_all_files() {
    let hours = "date,minutes,order\n2026-01-04,60,1/5/2026\n2026-01-02,60,A1\n";
    let iso = "order,date,design,quantity,price\nA3,2026-05-01,moon,12,4.00\n";
    let shop = Trial::new(&[("orders-1.csv", HERS), ("orders-2.csv", iso), ("hours.csv", hours)]);
    let (code, out) = check(&shop, &["--all"]);
    assert!(code == 0 && out.contains("'A3' has no hours") && !out.contains("'A2' has no hours"), "{out}");
}

#[test]
fn dates_in_place_of_orders_ask_where_nothing_tells_which_day() {
    let iso = "order,date,design,quantity,price\nA1,2026-05-01,moon,12,4.00\nA2,2026-01-05,moon,12,4.00\n";
    let shop = Trial::new(&[("orders.csv", iso), ("hours.csv", "date,minutes,order\n2026-01-04,60,1/5/2026\n2026-01-04,60,1/5/2026\n")]);
    let (code, out) = check(&shop, &[]);
    let asked = "hours.csv, column order: '1/5/2026' in row 2 is 2026-01-05 as month/day/year or 2026-05-01 as day/month/year, and neither the column nor your orders tell which; write order = \"month/day/year\" or order = \"day/month/year\" under [formats.hours] in shop.toml";
    assert!(code == 1 && out.starts_with("1 error:\n") && out.contains(asked), "{out}");
    shop.write("shop.toml", b"currency = \"USD\"\n[formats.hours]\norder = \"day/month/year\"\n");
    let (code, out) = check(&shop, &[]);
    assert!(code == 0 && out.contains("'A2' has no hours") && !out.contains("'A1' has no hours"), "{out}");
    // One of the two days is no hand-over day: the other is meant.
    shop.write("shop.toml", b"currency = \"USD\"\n");
    shop.write("orders.csv", iso.replace("2026-05-01", "2026-05-02").as_bytes());
    let (code, out) = check(&shop, &[]);
    assert!(code == 0 && out.contains("'A1' has no hours") && !out.contains("'A2' has no hours"), "{out}");
}

#[test]
fn a_year_of_two_digits_in_front_is_read_said_and_asked_about_where_it_could_be_a_day() {
    let orders =
        |dates: [&str; 2]| format!("order,date,design,quantity,price\nA1,{},moon,12,4.00\nA2,{},star,24,3.50\n", dates[0], dates[1]);
    for (dates, format) in [
        (["26/9/3", "26/10/04"], "year/month/day"),
        (["26/09/03", "26/09/28"], "year/month/day"),
        (["03.09.26", "28.09.26"], "day/month/year"),
        (["26.09.03", "3.10.26"], "day/month/year"),
    ] {
        let shop = Trial::new(&[("orders.csv", &orders(dates))]);
        let (code, out) = check(&shop, &["--write"]);
        assert!(code == 0 && out.contains(&format!("orders.csv, date: 2 dates as {format}")), "{dates:?}: {out}");
        assert!(settings(&shop).contains(&format!("date = \"{format}\"")), "{dates:?}");
    }
    let shop = Trial::new(&[("orders.csv", &orders(["26/09/03", "26/09/05"]))]);
    let (code, out) = check(&shop, &[]);
    assert!(code == 1 && out.contains("'26/09/03' in row 2 is 2026-09-03 as year/month/day or 2003-09-26 as day/month/year"), "{out}");
}
