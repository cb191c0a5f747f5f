//! Words, charges and ids as a maker writes them in her own files: they are read and said, or an advice asks that passes the next check.

use crate::harness::{Trial, figure, row};

/// `check`, with every message on one line.
fn checked(shop: &Trial, options: &[&str]) -> String {
    shop.run("check", options).out.replace("\n    ", " ")
}

/// The lines of `shop.toml` that `check` shows to be pasted.
fn to_paste(out: &str) -> String {
    let from = out.find("Lines for shop.toml").unwrap_or_else(|| panic!("nothing to paste: {out}"));
    out[from..].lines().skip(2).take_while(|line| line.starts_with("  ")).fold(String::new(), |text, line| text + line + "\n")
}

const HEADINGS: &str = "order,date,design,quantity,price,payments,status\n";

#[test]
fn charges_in_her_own_words_are_charges() {
    let orders = format!(
        "{HEADINGS}1,2026-09-05,ghost,12,3.50,2 cards,\n1,2026-09-05,Delivery (20 mi),1,15.00,,\n1,2026-09-05,Porch drop,1,12.00,,\n\
         1,2026-09-05,tip 💜,,5.00,,\n1,2026-09-05,Discount - friends & family,,-4.00,,\n1,2026-09-05,ghost,2,comp,,\n"
    );
    let settings = "currency = \"USD\"\n[words]\n\"Porch drop\" = \"delivery\"\nDeco = \"decorate\"\ntray = \"shelf\"\n";
    let shop = Trial::new(&[("shop.toml", settings), ("orders.csv", &orders)]);
    let total = shop.wage("order", &[]);
    // 42 for cookies, 27 for delivery, less 4; a tip is no revenue unless the shop says so.
    assert_eq!(figure(row(&total, "1"), "revenue"), "65.000000");
    let out = checked(&shop, &["--all"]);
    for said in [
        "1 'Delivery (20 mi)' as a delivery charge",
        "1 'Porch drop' as a delivery charge",
        "1 'comp' as 0",
        "1 '2 cards' as 2 card charges",
    ] {
        assert!(out.contains(said), "{said}: {out}");
    }
    for unused in ["'Deco' is said by no cell; spell it", "'tray' stands for 'shelf', which no column knows; write a kind"] {
        assert!(out.contains(unused), "{unused}: {out}");
    }
    assert!(!out.contains("'Porch drop' is said by no cell"), "{out}");
}

#[test]
fn the_lines_to_paste_pass_the_next_check() {
    let orders = format!(
        "{HEADINGS}1,2026-09-05,ghost,12,3.50,Barter,\n1,2026-09-05,Delivry,1,9.00,,\n2,2026-09-06,ghost,12,3.50,barter,\n\
         3,2026-09-07,ghost,12,3.50,cash + card,canceled - sick kid\n"
    );
    let hours = "date,minutes,stage,order\n2026-09-04,60,Royal icing,1\n2026-09-04,90,piping & flooding,2\n2026-09-05,90,Deco,1\n";
    let shop = Trial::new(&[("orders.csv", &orders), ("hours.csv", hours)]);
    let out = checked(&shop, &[]);
    assert!(out.starts_with("6 errors in 4 groups:"), "{out}");
    let lines = to_paste(&out);
    assert_eq!(
        lines,
        "  [payments]  # card charges: 1, or 0 for none\n  Barter = 1\n  [words]\n  \"canceled - sick kid\" = \"cancelled\"\n  \
         Delivry = \"delivery\"\n  \"piping & flooding\" = \"decorate\"\n  \"Royal icing\" = \"icing\"\n"
    );
    shop.write("shop.toml", format!("currency = \"USD\"\n{lines}").as_bytes());
    let out = checked(&shop, &[]);
    assert!(out.contains("No errors"), "{out}");
    assert!(out.contains("1 'canceled - sick kid' as cancelled") && !out.contains("is said by no cell"), "{out}");
}

#[test]
fn a_word_without_a_likely_meaning_shows_the_choices_alone() {
    let orders = format!("{HEADINGS}1,2026-09-05,ghost,12,3.50,,no show\n2,2026-09-05,ghost,12,3.50,,N/A\n3,2026-09-05,flag,,12.00,,\n");
    let hours = "date,minutes,stage,order\n2026-09-04,60,market,1\n";
    let shop = Trial::new(&[("orders.csv", &orders), ("hours.csv", hours)]);
    let out = checked(&shop, &["--all"]);
    for advice in [
        "write one of: done, quoted, cancelled; or say under [words] in shop.toml which of them it is: \"no show\" = \"…\"",
        "which of them it is: \"N/A\" = \"…\"",
        "write how many pieces; or, if it is a charge, flag = \"delivery\" or another kind under [words] in shop.toml",
        "which of them it is: market = \"…\"; or, if it is work of its own, say under [stages] how to share it, for example market = \"pieces\"",
    ] {
        assert!(out.contains(advice), "{advice}: {out}");
    }
    assert!(!out.contains("Lines for shop.toml"), "{out}");
}

#[test]
fn ids_are_joined_as_she_joins_them_and_units_count_alike() {
    let orders = format!("{HEADINGS}226,2026-09-05,ghost,12,3.50,,\n227,2026-09-06,ghost,12,3.50,,\n");
    let hours = "date,minutes,stage,order\n2026-09-04,60,bake,226 and 227\n2026-09-04,60,mix,226/227\n2026-09-05,90,decorate,Order #226\n";
    let purchases = "date,item,packs,size,unit,paid\n2026-09-01,bags,1,100,ct,7.99\n2026-09-01,eggs,1,2,dozen,6.00\n";
    let shop = Trial::new(&[("orders.csv", &orders), ("hours.csv", hours), ("purchases.csv", purchases)]);
    let out = checked(&shop, &[]);
    assert!(out.contains("No errors"), "{out}");
    for said in ["1 '226 and 227' as 226+227", "1 '226/227' as 226+227", "1 'Order #226' as 226"] {
        assert!(out.contains(said), "{said}: {out}");
    }
    assert_eq!(figure(row(&shop.wage("order", &[]), "227"), "owner_minutes"), "60.000000");
    let hidden = checked(&shop, &["--hide-orders"]);
    assert!(!hidden.contains("226"), "{hidden}");
    shop.write("hours.csv", b"date,minutes,stage,order\n2026-09-04,60,bake,223\n");
    let out = checked(&shop, &[]);
    assert!(out.contains("'223' is not an order of orders.csv; spell it as orders.csv does, add it there if it is missing"), "{out}");
}
