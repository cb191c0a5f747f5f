//! Misspelt designs and the names they were probably meant to be, and writing them into the card.

use super::designs::Designs;
use super::specification::DESIGNS;
use crate::reading::specification::fold;
use crate::reading::{Problem, Severity};
use std::collections::{BTreeMap, BTreeSet};

/// A name the logs use and the design it was probably meant to be.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Proposal {
    /// As the logs write it.
    pub written: String,
    /// The design.
    pub design: String,
}

/// Proposals for the unknown designs among the problems of orders and hours.
#[must_use]
pub fn propose(designs: &Designs, problems: &[Problem]) -> BTreeSet<Proposal> {
    let unknown = problems.iter().filter(|problem| {
        problem.severity == Severity::Error
            && problem.column.as_deref() == Some("design")
            && matches!(problem.file.as_str(), "orders.csv" | "hours.csv")
    });
    let proposals = unknown.filter_map(|problem| {
        let written = problem.found.clone()?;
        if designs.find(&written).is_some() || written.contains(';') {
            return None;
        }
        let near = designs.find(designs.nearest(&written)?)?;
        Some(Proposal { design: designs.names.text(near).to_owned(), written })
    });
    proposals.collect()
}

/// The designs card with the accepted names added; its cells stay as they were, quotes that are not needed go. `None` where it has no
/// heading for the design.
#[must_use]
pub fn written_into(card: &[u8], renamed: &BTreeMap<String, String>, accepted: &BTreeSet<Proposal>) -> Option<Vec<u8>> {
    let (mark, body) = match card.strip_prefix(b"\xEF\xBB\xBF") {
        Some(body) => (&card[..3], body),
        None => (&card[..0], card),
    };
    let ending = if body.windows(2).any(|pair| pair == b"\r\n") { csv::Terminator::CRLF } else { csv::Terminator::Any(b'\n') };
    let mut reader = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(body);
    let mut writer = csv::WriterBuilder::new().flexible(true).terminator(ending).from_writer(mark.to_vec());
    let mut columns: Option<(usize, usize)> = None;
    for record in reader.records() {
        let record = record.ok()?;
        let mut cells: Vec<String> = record.iter().map(str::to_owned).collect();
        match columns {
            None => columns = Some(find_columns(&mut cells, renamed)?),
            Some((design, others)) => {
                cells.resize(cells.len().max(others + 1), String::new());
                let name = cells.get(design).map(|name| name.trim().to_owned());
                let cell = &mut cells[others];
                for proposal in accepted.iter().filter(|proposal| name.as_deref() == Some(&proposal.design)) {
                    let separator = if cell.trim().is_empty() { "" } else { "; " };
                    *cell = format!("{}{separator}{}", cell.trim(), proposal.written);
                }
            }
        }
        writer.write_record(&cells).ok()?;
    }
    writer.into_inner().ok()
}

/// Where the design and its other names stand; a heading for the latter is added where there is none.
fn find_columns(headings: &mut Vec<String>, renamed: &BTreeMap<String, String>) -> Option<(usize, usize)> {
    let find = |headings: &[String], wanted: &str| {
        let wanted = DESIGNS.column(wanted);
        headings.iter().position(|heading| {
            let ours = renamed.iter().find(|(theirs, _)| fold(theirs) == fold(heading)).map_or(heading.as_str(), |(_, ours)| ours);
            DESIGNS.column(ours.trim()) == wanted
        })
    };
    let design = find(headings, "design")?;
    let others = find(headings, "also_called").unwrap_or_else(|| {
        headings.push("also_called".to_owned());
        headings.len() - 1
    });
    Some((design, others))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn accepted_names_join_the_card_and_nothing_else_changes() {
        let accepted = BTreeSet::from([Proposal { written: "moht".into(), design: "moth".into() }]);
        let written = |card: &str| String::from_utf8(written_into(card.as_bytes(), &BTreeMap::new(), &accepted).unwrap()).unwrap();
        assert_eq!(
            written("design,tier,also_called\r\nmoth,\"a, b\",night moth\r\nbell,a,\r\n"),
            "design,tier,also_called\r\nmoth,\"a, b\",night moth; moht\r\nbell,a,\r\n"
        );
        assert_eq!(written("tier,design\na,moth\na,bell\n"), "tier,design,also_called\na,moth,moht\na,bell,\n");
        assert_eq!(written_into(b"tier\na\n", &BTreeMap::new(), &accepted), None);
    }
}
