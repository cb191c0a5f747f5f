//! Proposes a design for each misspelt name and adds accepted names to the designs card.

use super::designs::Designs;
use super::kinds::UNKNOWN_DESIGN;
use super::table_edit::TableEdit;
use crate::reading::Problem;
use std::collections::{BTreeMap, BTreeSet};

/// A name the logs use and the design it was probably meant to be.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Proposal {
    /// As the logs write it.
    pub written: String,
    /// The design.
    pub design: String,
}

/// Proposes the nearest design for each unknown name among the problems of orders and hours.
#[must_use]
pub(crate) fn propose(designs: &Designs, problems: &[Problem]) -> BTreeSet<Proposal> {
    let unknown = problems.iter().filter(|problem| *problem.kind == UNKNOWN_DESIGN);
    let proposals = unknown.filter_map(|problem| {
        let written = problem.found.as_deref()?.to_owned();
        if designs.find(&written).is_some() || written.contains(';') {
            return None;
        }
        let near = designs.find(designs.nearest(&written)?)?;
        Some(Proposal { design: designs.names.text(near).to_owned(), written })
    });
    proposals.collect()
}

/// Adds the accepted names to the designs card. `None` where a design's row cannot be found on it.
pub fn add(card: &mut TableEdit<'_>, designs: &Designs, accepted: &BTreeSet<Proposal>) -> Option<()> {
    let mut names: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for Proposal { written, design } in accepted {
        names.entry(design).or_default().push(written);
    }
    for (design, names) in names {
        let line = designs.place[designs.find(design)?]?.line;
        let known = card.text(line, "also_called")?;
        let all: Vec<&str> = Some(known.as_str()).filter(|known| !known.is_empty()).into_iter().chain(names).collect();
        card.set(line, "also_called", &all.join("; "))?;
    }
    Some(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::table::Reading;
    use crate::reading::{Cells, Known, Table};
    use crate::shop::specification::DESIGNS;
    use crate::shop::tiers::PriceList;

    #[test]
    fn accepted_names_join_the_card_and_nothing_else_changes() {
        let accepted = ["moht", "=moth"].map(|written| Proposal { written: written.into(), design: "moth".into() }).into();
        let written = |card: &str| {
            let mut problems = Vec::new();
            let cells = Cells::of_csv(&DESIGNS.file(), card.as_bytes(), Known { specification: &DESIGNS, columns: &BTreeMap::new() });
            let table = Table::read(&DESIGNS, &cells, &Reading::default(), &BTreeSet::new(), &mut problems);
            let designs = Designs::read(table, &PriceList::default(), &mut problems);
            let mut edit = TableEdit::of(card.as_bytes(), &DESIGNS, &BTreeMap::new()).unwrap();
            add(&mut edit, &designs, &accepted).map(|()| String::from_utf8(edit.finish()).unwrap())
        };
        assert_eq!(
            written("design,tier,also_called\r\nmoth,\"a, b\",\" night moth\"\nbell,\"a\",\r\n").unwrap(),
            "design,tier,also_called\r\nmoth,\"a, b\",night moth; =moth; moht\nbell,\"a\",\r\n"
        );
        assert_eq!(written("tier,design\na,moth\na,bell").unwrap(), "tier,design,also_called\na,moth,'=moth; moht\na,bell,");
        assert_eq!(written("design\nbell\n"), None);
    }
}
