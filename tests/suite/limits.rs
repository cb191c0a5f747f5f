//! Numbers at the edges of what may be written: free pieces, dozens, blank prices, and figures so large that they
//! are either exact or refused, never wrong.

use crate::harness::{Trial, figure, row};

/// A shop of these order rows: order, date, kind, design, quantity, price.
fn orders(rows: &str) -> Trial {
    Trial::new(&[("orders.csv", &format!("order,date,kind,design,quantity,price\n{rows}"))])
}

#[test]
fn free_pieces_cost_but_bring_nothing() {
    let trial = Trial::new(&[
        ("orders.csv", "order,date,design,quantity,price\nA1,2026-03-07,moon,12,0\nA1,,lantern,12,6.50\n"),
        ("purchases.csv", "date,item,size,unit,paid\n2026-03-01,flour,1,kg,2.00\n"),
        ("recipes.csv", "for,item,amount,unit\nmoon,flour,25,g\nlantern,flour,25,g\n"),
        ("hours.csv", "date,minutes,order\n2026-03-06,120,A1\n"),
    ]);
    let table = trial.wage("design", &[]);
    let moon = row(&table, "moon");
    assert_eq!(
        (figure(moon, "revenue"), figure(moon, "price_per_piece"), figure(moon, "owner_pay")),
        ("0.000000", "0.000000", "-0.600000")
    );
    assert_eq!((figure(moon, "wage_per_hour"), moon["verdict"].as_str()), ("-0.600000", Some("loses money")));
    assert_eq!(figure(&table["total"], "revenue"), "78.000000");
}

#[test]
fn an_order_of_free_pieces_alone_is_costed() {
    let trial = orders("A1,2026-03-07,cookie,moon,12,0\nA1,,cookie,lantern,36,0\nA1,,rush,,,10.00\nA1,,discount,,,2.00\n");
    let table = trial.wage("design", &[]);
    // Nil list values: rush less discount, 8.00, goes by pieces, a quarter and three.
    assert_eq!((figure(row(&table, "moon"), "revenue"), figure(row(&table, "lantern"), "revenue")), ("2.000000", "6.000000"));
}

#[test]
fn dozens_are_twelve() {
    let table = orders(
        "A1,2026-03-07,cookie,moon,2 dozen,54/dozen\nA2,2026-03-07,cookie,star,1.5 Dozen,4.50\nA3,2026-03-07,cookie,sun,7,50 / dozen\nA4,2026-03-07,cookie,sea,0.25 dozen,1/DOZEN\n",
    )
    .wage("design", &[]);
    for (design, pieces, revenue, price) in [
        ("moon", 24, "108.000000", "4.500000"),
        ("star", 18, "81.000000", "4.500000"),
        // 7 × 50 ÷ 12 = 29.1666…, rounded once.
        ("sun", 7, "29.166667", "4.166667"),
        ("sea", 3, "0.250000", "0.083333"),
    ] {
        let row = row(&table, design);
        assert_eq!((&row["pieces"], figure(row, "revenue"), figure(row, "price_per_piece")), (&pieces.into(), revenue, price), "{design}");
    }
}

#[test]
fn a_blank_price_is_the_list_price_of_the_day() {
    let trial = Trial::new(&[
        (
            "orders.csv",
            "order,date,design,quantity,price\nA1,2026-01-31,moon,10,\nA2,2026-02-01,moon,10,\nA3,2026-06-01,moon,10,\nA4,2026-02-01,moon,10,3.00\nA5,1999-01-01,moon,10,\n",
        ),
        ("designs.csv", "design,tier\nmoon,simple\n"),
        ("tiers.csv", "tier,price,from\nsimple,54/dozen,2026-02-01\nsimple,4.00,\nsimple,5.25,2026-06-01\n"),
    ]);
    let table = trial.wage("order", &[]);
    for (order, revenue) in [("A1", "40.000000"), ("A2", "45.000000"), ("A3", "52.500000"), ("A4", "30.000000"), ("A5", "40.000000")] {
        assert_eq!(figure(row(&table, order), "revenue"), revenue, "{order}");
    }
}

#[test]
fn an_order_of_a_million_pieces_is_exact() {
    // The most a row may hold.
    let table = orders("A1,2026-03-07,cookie,moon,1000000,4.123456\n").wage("design", &[]);
    assert_eq!(figure(&table["total"], "revenue"), "4123456.000000");
    assert_eq!(figure(&table["total"], "price_per_piece"), "4.123456");
}

#[test]
fn amounts_near_the_limits_are_exact_or_refused() {
    // A line holds up to 9 223 372 036 854.775807; sums of lines hold more.
    let largest = orders("A1,2026-03-07,cookie,moon,1000000,9223372.036854\n").wage("design", &[]);
    assert_eq!(figure(&largest["total"], "revenue"), "9223372036854.000000");
    let two =
        orders("A1,2026-03-07,cookie,moon,1000000,9223372.036854\nA2,2026-03-07,cookie,moon,1000000,9223372.036854\n").wage("design", &[]);
    assert_eq!(figure(&two["total"], "revenue"), "18446744073708.000000");
    assert_eq!(figure(&two["total"], "price_per_piece"), "9223372.036854");
    let refused = orders("A1,2026-03-07,cookie,moon,1000000,9223372.036855\n").run("wage", &["--json"]);
    assert_eq!((refused.code, refused.out.as_str()), (1, ""));
    assert!(
        refused.err.contains("orders.csv, row 2, column price: price × quantity is more money than can be worked with"),
        "{}",
        refused.err
    );
}

/// Shops with one figure as large, as small or as long-lived as a cell may say.
fn extreme_shops() -> Vec<(&'static str, Vec<(&'static str, &'static str)>)> {
    const ORDERS: (&str, &str) = ("orders.csv", "order,date,design,quantity,price\nA1,2026-03-07,moon,1000000,1000000\n");
    const TAKES: (&str, &str) = ("recipes.csv", "for,item,amount,unit\nmoon,flour,1000000000,kg\n");
    vec![
        ("dear flour", vec![ORDERS, TAKES, ("purchases.csv", "date,item,size,unit,paid\n2026-03-01,flour,0.000000000001,mg,1000000000\n")]),
        (
            "much flour",
            vec![ORDERS, TAKES, ("purchases.csv", "date,item,packs,size,unit,paid\n2026-03-01,flour,1000000000,1000000000,kg,1\n")],
        ),
        (
            "flour in gallons",
            vec![
                ORDERS,
                ("items.csv", "item,grams_per_cup\nflour,1000000000\n"),
                ("recipes.csv", "for,item,amount,unit\nmoon,flour,1000000000,imperial gallon\n"),
                ("purchases.csv", "date,item,size,unit,paid\n2026-03-01,flour,1,g,1\n"),
            ],
        ),
        (
            "long hours",
            vec![
                ORDERS,
                ("hours.csv", "date,minutes,order,who\n2026-03-06,1000000000,A1,robin\n2026-03-06,1000000000,A1,\n"),
                ("shop.toml", "currency = \"USD\"\n[helpers]\nrobin = 1000000\n[wage]\ntarget = 1000000\n"),
            ],
        ),
        (
            "three centuries of rent",
            vec![ORDERS, ("overheads.csv", "from,to,what,paid,shared_by\n1900-01-01,2199-12-31,rent,1000000000,pieces\n")],
        ),
        (
            "all of it fees",
            vec![
                ORDERS,
                ("shop.toml", "currency = \"USD\"\nspares = \"100 %\"\n[fees]\npercent = \"100 %\"\nfixed = 1000000\npayments = 366\n"),
            ],
        ),
        (
            "extra upon extra",
            vec![
                ORDERS,
                ("purchases.csv", "date,item,size,unit,paid\n2026-03-01,flour,1,g,1000000000\n"),
                (
                    "recipes.csv",
                    "for,item,amount,unit,yields,yield_unit,extra\na,flour,1000000000,kg,0.000000000001,mg,1000 %\nb,a,1000000000,kg,0.000000000001,mg,1000 %\nc,b,1000000000,kg,0.000000000001,mg,1000 %\nmoon,c,1000000000,kg,,,\n",
                ),
            ],
        ),
        (
            "a receipt of a thousand million",
            vec![
                ORDERS,
                TAKES,
                (
                    "purchases.csv",
                    "date,item,size,unit,paid,shipping,tax,receipt\n2026-03-01,flour,1,g,0,1000000000,1000000000,R1\n2026-03-01,flour,1,g,0,,,R1\n",
                ),
            ],
        ),
        (
            "a count of a thousand million",
            vec![
                ORDERS,
                TAKES,
                ("purchases.csv", "date,item,size,unit,paid\n2026-03-01,flour,1,g,1000000000\n"),
                ("counts.csv", "date,item,amount,unit\n2026-03-31,flour,1000000000,kg\n"),
            ],
        ),
        (
            "a set of a thousand million",
            vec![(
                "orders.csv",
                "order,date,kind,design,quantity,price\nA1,2026-03-07,cookie,moon,1000000,0.000001\nA1,,set,,,1000000000\nA1,,refund,,,1000000000\nA1,,discount,,,1000000000\n",
            )],
        ),
        (
            "a millionth of a cent",
            vec![
                (
                    "orders.csv",
                    "order,date,kind,design,quantity,price\nA1,2026-03-07,cookie,moon,1,0.000001\nA1,,cookie,star,1,0.000001\nA1,,rush,,,0.000001\n",
                ),
                ("hours.csv", "date,minutes,order\n2026-03-06,0.000001,A1\n"),
            ],
        ),
        ("no minutes", vec![ORDERS, ("hours.csv", "date,minutes,start,end,order\n2026-03-06,0,,,A1\n2026-03-06,,18:30,18:30,A1\n")]),
    ]
}

#[test]
fn extreme_figures_are_worked_out_or_refused_and_never_a_crash() {
    let mut worked_out = Vec::new();
    for (name, files) in extreme_shops() {
        let trial = Trial::new(&files);
        for flow in ["latest", "average", "fifo"] {
            for by in ["design", "order", "order-size"] {
                for form in ["--json", "--csv", "--both"] {
                    let outcome = trial.run("wage", &["--by", by, "--cost-flow", flow, form]);
                    match outcome.code {
                        0 => worked_out.push(name),
                        _ => {
                            assert!(
                                outcome.code == 1 && outcome.err.contains("too large") && outcome.out.is_empty(),
                                "{name}: {outcome:?}"
                            );
                        }
                    }
                }
            }
        }
    }
    worked_out.dedup();
    for name in ["much flour", "three centuries of rent", "a set of a thousand million", "a millionth of a cent", "no minutes"] {
        assert!(worked_out.contains(&name), "{name} was refused; only {worked_out:?} were worked out");
    }
}

#[test]
fn tiny_amounts_are_shared_to_the_last_digit() {
    // One millionth over two lines of one millionth: the first takes it.
    let (_, files) = extreme_shops().into_iter().find(|(name, _)| *name == "a millionth of a cent").unwrap();
    let table = Trial::new(&files).wage("design", &[]);
    assert_eq!((figure(row(&table, "moon"), "revenue"), figure(row(&table, "star"), "revenue")), ("0.000002", "0.000001"));
    assert_eq!(figure(&table["total"], "owner_minutes"), "0.000001");
    // Three millionths in a millionth of a minute: 180 an hour.
    assert_eq!(figure(&table["total"], "wage_per_hour"), "180.000000");
}

#[test]
fn three_centuries_of_rent_are_shared_by_the_day() {
    // 1900-01-01 to 2199-12-31 are 300 × 365 days and 73 leap days: every fourth year but 1900 and 2100. March has 31.
    let (_, files) = extreme_shops().into_iter().find(|(name, _)| *name == "three centuries of rent").unwrap();
    let table = Trial::new(&files).wage("design", &[]);
    let exact = 31 * 1_000_000_000_000_000_i128 / (300 * 365 + 73);
    let parts =
        [&table["total"], &table["unassigned"], &table["prepaid"], &table["earlier"]].map(|part| millionths(figure(part, "overhead")));
    assert!((parts[0] - exact).abs() <= 1, "{parts:?} for {exact}");
    assert_eq!(parts.iter().sum::<i128>(), 1_000_000_000_000_000);
}

/// A stored figure as a whole number of millionths.
fn millionths(text: &str) -> i128 {
    text.replace('.', "").parse().unwrap()
}
