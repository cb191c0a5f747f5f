//! From marks to SVG and PNG, end to end.

use std::collections::BTreeSet;

use plotters::style::RGBColor;

use super::samples::{dec, four_tiers, heading, paid};
use super::words::all;
use crate::chart::draw::page::Page;
use crate::chart::draw::picture::{Layer, Picture, Words};
use crate::chart::draw::theme::INK;
use crate::chart::{Bars, Chart, Width, png};

/// Width and height as the PNG specification (W3C, second edition, 11.2.2) has them in the `IHDR` chunk.
fn size(image: &[u8]) -> (u32, u32) {
    assert_eq!((&image[..8], &image[12..16]), (&b"\x89PNG\r\n\x1a\n"[..], &b"IHDR"[..]));
    let side = |at: usize| u32::from_be_bytes(image[at..at + 4].try_into().unwrap());
    (side(16), side(20))
}

#[test]
fn every_chart_is_an_image_twice_the_size_of_its_page_and_always_the_same() {
    for chart in all() {
        for (width, wide) in [(Width::Wide, 640), (Width::Narrow, 358)] {
            let svg = chart.svg(width);
            let height: u32 = svg.split(" height=\"").nth(1).unwrap().split('"').next().unwrap().parse().unwrap();
            assert_eq!(size(&png(&svg).unwrap()), (2 * wide, 2 * height));
            assert_eq!(chart.svg(width), svg);
        }
    }
}

#[test]
fn a_chart_of_a_thousand_rows_is_still_an_image() {
    let rows = (0..1000).map(|_| paid("Mini", "20", None, 0)).collect();
    assert_eq!(size(&png(&Bars { rows, ..four_tiers() }.svg(Width::Wide)).unwrap()).1, 16_384);
}

#[test]
fn what_the_maker_typed_cannot_break_the_svg() {
    let mut chart = four_tiers();
    chart.heading = heading("</text><script>&\u{0}\u{1B}[0m \" id=\"fairdozen-hatch\" fill=\"url(#fairdozen-hatch)\"");
    (chart.axis, chart.range) = ("<script>".into(), "<i>".into());
    chart.rows[0].row.name = "<b>\"Éclair\" & 🍪'\u{FFFF}".into();
    chart.rows[1].row.note = "a opacity=\"1\"".into();
    chart.line = Some((dec("20"), "<&>".into()));
    for width in [Width::Wide, Width::Narrow] {
        for svg in [chart.svg(width), chart.svg_in_page("a\"><script>b c", width)] {
            assert!(svg.contains("&lt;b&gt;&quot;Éclair&quot; &amp; �&apos;�") && svg.contains("a opacity=&quot;1&quot;"), "{svg}");
            for broken in ["<script", "<b>", "<i>", "\u{1B}", "\u{0}"] {
                assert!(!svg.contains(broken), "{broken:?}");
            }
            assert!(png(&svg).is_ok());
        }
        assert!(chart.svg_in_page("a\"><script>b c", width).contains("<title id=\"ascriptbc-title\">"));
    }
}

#[test]
fn pictures_on_one_page_share_no_id_and_refer_to_their_own() {
    let of = |(chart, at): (&dyn Chart, u32)| {
        chart.svg_in_page(&format!("chart-{at}"), Width::Wide) + &chart.svg_in_page(&format!("chart-{at}-narrow"), Width::Narrow)
    };
    let charts = all();
    let page: String = charts.iter().map(AsRef::as_ref).zip(1..).map(of).collect();
    let ids: Vec<_> = page.split(" id=\"").skip(1).filter_map(|after| after.split('"').next()).collect();
    assert_eq!(ids.len(), 4 * charts.len(), "a title and a hatching in each of two pictures");
    assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), ids.len());
    let own: BTreeSet<_> = ids.iter().map(|id| format!("url(#{id})")).collect();
    let used = page.split("fill=\"url(").skip(1).filter_map(|after| after.split('"').next()).map(|rest| format!("url({rest}"));
    let used: Vec<_> = used.collect();
    assert!(!used.is_empty() && used.iter().all(|url| own.contains(url)), "{used:?}");
}

#[test]
fn a_picture_in_a_page_has_its_label_as_a_title_and_is_as_wide_as_its_place() {
    let page = four_tiers().svg_in_page("w", Width::Narrow);
    assert!(page.contains("<title id=\"w-title\">Characters pay $9.10 an hour") && page.contains("aria-labelledby=\"w-title\""));
    assert!(page.contains("role=\"img\"") && page.contains("width=\"100%\"") && page.contains("viewBox=\"0 0 1432 "));
    let alone = four_tiers().svg(Width::Narrow);
    assert!(alone.contains("aria-label=\"Characters pay $9.10 an hour"));
    let inside = |svg: &str| svg.split("<g ").skip(1).collect::<String>().replace("w-hatch", "fairdozen-hatch");
    assert_eq!(inside(&page), inside(&alone));
}

fn picture(marks: impl Fn(&mut Picture)) -> String {
    let mut picture = Picture::new(Page::new(Width::Wide));
    marks(&mut picture);
    picture.finished(32.0, &heading("")).svg()
}

#[test]
fn layers_come_out_from_the_ground_up_whatever_the_order_of_drawing() {
    let svg = picture(|picture| {
        picture.words((10.0, 20.0), Words::new("word", 14.0));
        picture.circle(Layer::Under, (5.0, 5.0), 4.0, RGBColor(4, 5, 6));
        picture.line(Layer::Over, [(0.0, 0.0), (9.0, 0.0)], 1.5, INK);
        picture.hatching([0.0, 0.0, 10.0, 10.0]);
        picture.rect(Layer::Fill, [0.0, 0.0, 10.0, 10.0], RGBColor(1, 2, 3));
    });
    let at = |what: &str| svg.find(what).unwrap_or_else(|| panic!("no {what} in {svg}"));
    let places = ["#040506", "#010203", "url(#fairdozen-hatch)", "<line", "word"].map(at);
    assert!(places.windows(2).all(|pair| pair[0] < pair[1]), "{places:?}");
    assert!(svg.contains("viewBox=\"0 0 2560 200\"") && svg.contains("height=\"50\""));
}

#[test]
fn empty_marks_are_not_drawn_and_sizes_come_out_whole_in_spite_of_plotters_division() {
    let bare = picture(|_| {});
    let empty = picture(|picture| {
        picture.rect(Layer::Fill, [5.0, 0.0, 5.0, 10.0], INK);
        picture.rect(Layer::Fill, [5.0, 0.0, 1.0, 10.0], INK);
        picture.hatching([5.0, 0.0, 6.0, 10.0]);
        picture.words((0.0, 0.0), Words::new("", 14.0));
    });
    assert_eq!(empty, bare);
    for width in [Width::Wide, Width::Narrow] {
        let page = Page::new(width);
        for letters in [page.title, page.subtitle, page.body, page.small] {
            let svg = picture(|picture| picture.words((0.0, 20.0), Words::new("x", letters.size)));
            assert!(svg.contains(&format!("font-size=\"{}\"", 4.0 * letters.size)), "{svg}");
        }
    }
}
