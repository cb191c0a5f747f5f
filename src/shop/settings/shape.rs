//! The shape of `shop.toml`: which keys are sections, which hold one value and which a list.
//!
//! Looked at before the values are, so that a key of the wrong shape is named in the maker's words and the
//! rest of the file is still read.

use super::FILE;
use crate::reading::Problem;
use crate::reading::nearest::nearest;
use crate::shop::kinds::SETTING_SHAPE;
use toml_edit::{Item, TableLike};

/// What may stand at a key.
enum Shape {
    Value,
    List,
    /// Keys by name, and what the others are.
    Section(&'static [(&'static str, Shape)], Others),
}

/// What a key that is none of the known ones is.
#[derive(Clone, Copy)]
enum Others {
    /// A mistake, found when the values are read.
    Unknown,
    /// A mistake that the reading of the values cannot see.
    UnknownHere,
    /// A name of her own, each of this shape.
    Each(&'static Shape),
}

use Others::{Each, Unknown, UnknownHere};
use Shape::{List, Section, Value};

const VALUES: Shape = Section(&[], Each(&Value));
const CHANNEL: Shape = Section(&[("percent", Value), ("fixed", Value), ("payments", Value)], UnknownHere);

const WHOLE: Shape = Section(
    &[
        ("currency", Value),
        ("spares", Value),
        ("cost_flow", Value),
        ("tips_count", Value),
        ("reclaim_purchase_tax", Value),
        ("wage", VALUES),
        ("fees", Section(&[("percent", Value), ("fixed", Value), ("payments", Value)], Each(&CHANNEL))),
        ("materials", VALUES),
        ("helpers", VALUES),
        ("hours", VALUES),
        ("stages", VALUES),
        ("prices", Section(&[("endings", List)], Unknown)),
        ("seasons", Section(&[], Each(&VALUES))),
        ("columns", Section(&[], Each(&VALUES))),
    ],
    Unknown,
);

/// Takes out every key of the wrong shape, each with a problem.
pub(super) fn mend(document: &mut dyn TableLike, problems: &mut Vec<Problem>) {
    section(document, &WHOLE, "", problems);
}

fn section(table: &mut dyn TableLike, shape: &Shape, path: &str, problems: &mut Vec<Problem>) {
    let Section(known, others) = shape else { return };
    let mut misshapen = Vec::new();
    for (key, item) in table.iter_mut() {
        let name = key.get();
        let path = if path.is_empty() { name.to_owned() } else { format!("{path}.{name}") };
        let own = known.iter().find(|(known, _)| *known == name).map(|(_, shape)| shape);
        let shape = match (own, *others) {
            (Some(shape), _) | (None, Each(shape)) => shape,
            (None, Unknown) => continue,
            (None, UnknownHere) => {
                problems.push(super::file::unknown_key(&path));
                misshapen.push(name.to_owned());
                continue;
            }
        };
        if fits(item, shape) {
            if let Some(inner) = item.as_table_like_mut() {
                section(inner, shape, &path, problems);
            }
            continue;
        }
        let is_a_slip = own.is_none() && nearest(name, known.iter().map(|(known, _)| *known)).is_some();
        misshapen.push(name.to_owned());
        if is_a_slip {
            problems.push(super::file::unknown_key(&path));
            continue;
        }
        let (what, instead) = match shape {
            Value => ("this takes one value", format!("write {name} = and the value after it")),
            List => ("this takes a list", format!("write {name} = [0.00, 0.50]")),
            Section(..) => ("this is a section, not a value", format!("write [{path}] on a line of its own, and its settings below")),
        };
        problems.push(Problem::of_file(&SETTING_SHAPE, FILE, what).column(&path).instead(instead));
    }
    for name in misshapen {
        table.remove(&name);
    }
}

fn fits(item: &Item, shape: &Shape) -> bool {
    let plain = |value: &toml_edit::Value| !value.is_array() && !value.is_inline_table();
    match shape {
        Value => item.as_value().is_some_and(plain),
        List => item.as_array().is_some_and(|list| list.iter().all(plain)),
        Section(..) => item.is_table_like(),
    }
}
