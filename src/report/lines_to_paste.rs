//! Lines of `shop.toml` that would settle problems, once she has made sure of each.

use super::document::{Block, Content};
use super::problems::Listing;
use crate::reading::Problem;
use crate::reading::problem::printable;
use std::collections::BTreeMap;

/// Most lines that are shown beside groups of problems.
const MOST: usize = 12;

/// The lines as a block to correct and paste, each once and under its section; nothing where no problem has one.
pub(super) fn lines_to_paste(problems: &[Problem], listing: Listing) -> Vec<Block> {
    // By section, then by the line without regard to quotes and to capitals, which weigh nothing in a word.
    let mut lines: BTreeMap<(&str, String), String> = BTreeMap::new();
    for (section, line) in problems.iter().filter_map(|problem| problem.line.as_ref()) {
        lines.entry((section, line.to_lowercase().replace('"', ""))).or_insert_with(|| printable(line));
    }
    if lines.is_empty() {
        return Vec::new();
    }
    let most = if listing == Listing::Each { lines.len() } else { MOST };
    let mut shown = vec![Block::paragraph("Lines for shop.toml, each under its section. Make sure of what each says before you add it:")];
    let line = |text: String| Content::Line(format!("  {text}")).into();
    let mut last = "";
    for ((section, _), text) in lines.iter().take(most) {
        if *section != last {
            // No card charge is as likely as one.
            let remark = if *section == "payments" { "  # card charges: 1, or 0 for none" } else { "" };
            shown.push(line(format!("[{section}]{remark}")));
            last = section;
        }
        shown.push(line(text.clone()));
    }
    if lines.len() > most {
        shown.push(line(format!("# check --all shows {} more", lines.len() - most)));
    }
    shown.push(Content::Line(" ".to_owned()).into());
    shown
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::problem_kind::UNKNOWN_PAYMENT;

    #[test]
    fn each_line_is_shown_once_under_its_section() {
        let problem = |section, line: &str| Problem::of_file(&UNKNOWN_PAYMENT, "orders.csv", "").to_paste(section, line.to_owned());
        let problems = [problem("words", "Deco = \"decorate\""), problem("payments", "Barter = 1"), problem("payments", "barter = 1")];
        let shown = |problems: &[Problem], listing| -> Vec<String> {
            let lines = lines_to_paste(problems, listing).into_iter();
            lines.filter_map(|block| if let Content::Line(line) = block.content { Some(line) } else { None }).collect()
        };
        let expected = ["  [payments]  # card charges: 1, or 0 for none", "  Barter = 1", "  [words]", "  Deco = \"decorate\""];
        assert_eq!(shown(&problems, Listing::Grouped)[..4], expected);
        let many: Vec<Problem> = (0..20).map(|at| problem("words", &format!("w{at} = \"tip\""))).collect();
        assert!(shown(&many, Listing::Grouped).contains(&"  # check --all shows 8 more".to_owned()));
        assert_eq!(shown(&many, Listing::Each).len(), 22);
        assert!(lines_to_paste(&[], Listing::Each).is_empty());
    }
}
