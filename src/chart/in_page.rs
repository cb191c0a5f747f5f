//! A chart's SVG made ready to stand in an HTML page beside others.

/// The id under which every chart's SVG has its hatching.
const HATCH_ID: &str = "fairdozen-hatch";

/// `svg`, as a chart gave it, for an HTML page: as wide as what it stands in, its height following from the
/// `viewBox`; its label in a `title` that the `svg` element names; of class `chart`; and every id within begins with
/// `id`, so that charts on one page keep apart. `id` is cut down to ASCII letters, digits and `-`, and must differ
/// from chart to chart. What is no chart's SVG comes back as it is.
///
/// The chart brings its own white ground, in a dark page too. Its letters ask for [`FAMILY`](super::font::FAMILY);
/// a page that carries the [`FACES`](super::font::FACES) shows them as the PNG does.
#[must_use]
pub fn in_page(svg: &str, id: &str) -> String {
    let Some((opening, inside)) = svg.split_once(">\n") else { return svg.to_owned() };
    let attribute = |name: &str| Some(opening.split_once(&format!(" {name}=\""))?.1.split_once('"')?.0);
    let (Some(view_box), Some(label)) = (attribute("viewBox"), attribute("aria-label")) else { return svg.to_owned() };
    let id: String = id.chars().filter(|letter| letter.is_ascii_alphanumeric() || *letter == '-').collect();
    // Quotes within texts are escaped, so these can match attributes only.
    let inside = inside
        .replace(&format!("id=\"{HATCH_ID}\""), &format!("id=\"{id}-hatch\""))
        .replace(&format!("fill=\"url(#{HATCH_ID})\""), &format!("fill=\"url(#{id}-hatch)\""));
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"chart\" width=\"100%\" viewBox=\"{view_box}\" role=\"img\" \
         aria-labelledby=\"{id}-title\">\n<title id=\"{id}-title\">{label}</title>\n{inside}"
    )
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::chart::raster::tree;
    use crate::chart::samples::{four_tiers, texts};

    fn ids(svg: &str) -> Vec<&str> {
        svg.split(" id=\"").skip(1).filter_map(|after| after.split('"').next()).collect()
    }

    #[test]
    fn two_charts_on_one_page_share_no_id_and_refer_to_their_own() {
        let chart = four_tiers().svg();
        let page = in_page(&chart, "wage-1") + &in_page(&chart, "wage-2");
        let ids = ids(&page);
        assert_eq!(ids, ["wage-1-title", "wage-1-hatch", "wage-2-title", "wage-2-hatch"]);
        assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), ids.len());
        for one in ["wage-1", "wage-2"] {
            assert!(page.contains(&format!("aria-labelledby=\"{one}-title\"")));
            assert_eq!(page.matches(&format!("\"url(#{one}-hatch)\"")).count(), 2);
        }
        assert!(!page.contains(HATCH_ID));
    }

    #[test]
    fn the_label_is_its_title_and_nothing_else_changes() {
        let chart = four_tiers().svg();
        let page = in_page(&chart, "w");
        assert!(page.contains("<title id=\"w-title\">Characters pay $9.10 an hour"));
        assert!(page.contains("role=\"img\"") && page.contains("width=\"100%\"") && !page.contains("aria-label="));
        assert_eq!(texts(&page), texts(&chart));
        let (drawn, expected) = (tree(&page).unwrap().size(), tree(&chart).unwrap().size());
        assert!((drawn.width() / drawn.height() - expected.width() / expected.height()).abs() < 0.01);
    }

    #[test]
    fn neither_an_id_nor_a_name_can_break_out() {
        let mut chart = four_tiers();
        chart.title = format!("id=\"{HATCH_ID}\" <script> fill=\"url(#{HATCH_ID})\"");
        chart.bars[0].name = format!("fill=\"url(#{HATCH_ID})\"");
        let page = in_page(&chart.svg(), "a\"><script>b c");
        assert!(page.contains("<title id=\"ascriptbc-title\">") && !page.contains("<script"));
        assert!(page.contains(&format!("fill=&quot;url(#{HATCH_ID})&quot;")), "a name stays as it was typed");
        assert!(tree(&page).is_ok());
    }

    #[test]
    fn what_is_no_chart_comes_back_as_it_is() {
        for text in ["", "<svg", "<p>\n</p>"] {
            assert_eq!(in_page(text, "a"), text);
        }
    }
}
