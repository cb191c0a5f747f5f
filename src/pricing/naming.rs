//! Names for new tiers: each keeps the name that most of its designs bear now.

/// A name for each new tier, lowest first. `members` gives the tiers now of each one's designs with their pieces; `names` are
/// those tiers' names. A name goes where most designs bear it, of equals where more pieces do; a tier left without takes its
/// largest part's name with a number, or a number alone.
#[must_use]
pub fn names(members: &[Vec<(Option<usize>, i64)>], names: &[String]) -> Vec<String> {
    let mut claims = Vec::new();
    for (step, designs) in members.iter().enumerate() {
        for tier in 0..names.len() {
            let of = || designs.iter().filter(move |(now, _)| *now == Some(tier));
            let (count, pieces) = (of().count(), of().map(|(_, pieces)| pieces).sum::<i64>());
            if count > 0 {
                claims.push((count, pieces, step, tier));
            }
        }
    }
    claims.sort_by_key(|(count, pieces, step, tier)| (std::cmp::Reverse((*count, *pieces)), *step, *tier));
    let mut given: Vec<Option<usize>> = vec![None; members.len()];
    for (_, _, step, tier) in &claims {
        if given[*step].is_none() && !given.contains(&Some(*tier)) {
            given[*step] = Some(*tier);
        }
    }
    let mut used: Vec<String> = names.to_vec();
    let mut new_name = |step: usize| {
        let largest = claims.iter().find(|(_, _, of, _)| *of == step).map(|(_, _, _, tier)| names[*tier].as_str());
        let (base, first) = largest.map_or(("tier", step + 1), |name| (name, 2));
        let name =
            (first..=first + used.len()).map(|number| format!("{base} {number}")).find(|name| !used.contains(name)).unwrap_or_default();
        used.push(name.clone());
        name
    };
    given.into_iter().enumerate().map(|(step, tier)| tier.map_or_else(|| new_name(step), |tier| names[tier].clone())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn known() -> Vec<String> {
        ["mini", "shape"].map(String::from).to_vec()
    }

    #[test]
    fn a_tier_keeps_the_name_most_of_its_designs_bear() {
        let members = [vec![(Some(0), 5), (Some(0), 5), (Some(1), 90)], vec![(Some(1), 3)]];
        assert_eq!(names(&members, &known()), ["mini", "shape"]);
    }

    #[test]
    fn a_tier_split_in_two_is_numbered() {
        let members = [vec![(Some(0), 5)], vec![(Some(1), 9), (Some(1), 9)], vec![(Some(1), 9)]];
        assert_eq!(names(&members, &known()), ["mini", "shape", "shape 2"]);
    }

    #[test]
    fn without_tiers_there_are_numbers() {
        assert_eq!(names(&[vec![(None, 5)], vec![(None, 9)]], &[]), ["tier 1", "tier 2"]);
        assert_eq!(names(&[vec![(None, 5)]], &["tier 1".into()]), ["tier 2"]);
    }
}
