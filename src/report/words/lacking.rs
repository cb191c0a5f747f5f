//! What the hours log lacks, in words.

use super::{NAMED, ORDERS_NAMED, and, first_of, in_letters};
use crate::costing::wording::doing;
use crate::reading::problem::printable;
use crate::review::lacking::Lacking;

/// Names several stages: `baking and decorating`.
#[must_use]
pub(crate) fn all_of(stages: &[String]) -> String {
    and(&stages.iter().map(|stage| doing(stage)).collect::<Vec<_>>())
}

/// Orders that lack the same, in the order they are first met.
fn alike(lacking: &[Lacking]) -> Vec<(&Lacking, Vec<&Lacking>)> {
    let mut alike: Vec<(&Lacking, Vec<&Lacking>)> = Vec::new();
    for of in lacking {
        match alike.iter_mut().find(|(first, _)| first.stages == of.stages) {
            Some((_, orders)) => orders.push(of),
            None => alike.push((of, vec![of])),
        }
    }
    alike
}

/// Says of how many orders what is lacking, after how many have hours: `two have none and one lacks its decorating`.
#[must_use]
pub fn lacking_in_numbers(lacking: &[Lacking]) -> String {
    let alike = alike(lacking);
    let (none, some): (Vec<_>, Vec<_>) = alike.into_iter().partition(|(first, _)| first.stages.is_empty());
    let one = |orders: usize, singular: &'static str, plural: &'static str| if orders == 1 { singular } else { plural };
    let mut said: Vec<String> =
        none.iter().map(|(_, orders)| format!("{} {} none", in_letters(orders.len()), one(orders.len(), "has", "have"))).collect();
    if some.len() > NAMED {
        let orders = some.iter().map(|(_, orders)| orders.len()).sum::<usize>();
        said.push(format!("{} lack work that most orders have", in_letters(orders)));
    } else {
        said.extend(some.iter().map(|(first, orders)| {
            let (lack, its) = (one(orders.len(), "lacks", "lack"), one(orders.len(), "its", "their"));
            format!("{} {lack} {its} {}", in_letters(orders.len()), all_of(&first.stages))
        }));
    }
    and(&said)
}

/// Names the orders by what they lack: `hours for L111 and L115`, `decorating for L120`.
#[must_use]
pub fn lacking_by_name(lacking: &[Lacking]) -> Vec<String> {
    let named = alike(lacking).into_iter().map(|(first, orders)| {
        let what = if first.stages.is_empty() { "hours".to_owned() } else { all_of(&first.stages) };
        let orders: Vec<String> = orders.iter().map(|of| printable(&of.name)).collect();
        format!("{what} for {}", first_of(&orders, ORDERS_NAMED))
    });
    named.collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::costing::usual_time::UsualTime;
    use crate::ids::Id;
    use crate::quantity::millionths::Money;

    fn of(name: &str, stages: &[&str]) -> Lacking {
        let stages = stages.iter().map(|stage| (*stage).to_owned()).collect();
        Lacking { order: Id::new(0), name: name.into(), stages, is_delivery: false, usual: UsualTime::default(), revenue: Money::ZERO }
    }

    #[test]
    fn what_orders_lack_is_said_in_the_singular_and_the_plural() {
        let lacking =
            [of("A1", &[]), of("A2", &[]), of("A3", &["decorate"]), of("A4", &["bake", "sugar art"]), of("A5", &["bake", "sugar art"])];
        let said = "two have none; one lacks its decorating; and two lack their baking and sugar art";
        assert_eq!(lacking_in_numbers(&lacking), said);
        assert_eq!(lacking_in_numbers(&lacking[..1]), "one has none");
        let named = ["hours for A1 and A2", "decorating for A3", "baking and sugar art for A4 and A5"];
        assert_eq!(lacking_by_name(&lacking), named);
        let many = [of("A1", &["bake"]), of("A2", &["mix"]), of("A3", &["pack"]), of("A4", &["roll"])];
        assert_eq!(lacking_in_numbers(&many), "four lack work that most orders have");
    }
}
