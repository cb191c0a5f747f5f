//! Charts: finished figures in, a picture out.
//!
//! Each chart is plain data with an `svg` method; [`png`] turns that SVG into an image. What is drawn is
//! decided here: places, colours, hatching, the ticks of an axis. What is said is decided by the caller: every
//! figure arrives with its label already written, and rows are drawn in the order given. Nothing here reads a
//! file, a clock or a font of the machine's, so the same data always gives the same bytes.
//!
//! Colour never carries a meaning alone: a short bar is hatched and has the word beside its figure, the parts
//! of a cost stand in the order of the key, a guess is a hollow diamond and an order far off a filled one. Money
//! becomes a binary float only to find a place on the page.

mod axis;
mod canvas;
pub mod font;
mod frame;
mod labels;
mod logged;
mod marks;
mod minutes_each;
mod price_and_cost;
mod price_ladder;
mod raise;
mod raster;
mod row;
mod text;
mod theme;
mod time_axis;
mod wage_by_tier;

#[cfg(test)]
mod logged_tests;
#[cfg(test)]
mod minutes_each_tests;
#[cfg(test)]
mod overlap_tests;
#[cfg(test)]
mod price_ladder_tests;
#[cfg(test)]
mod samples;

pub use axis::AmountStyle;
pub use logged::{LoggedChart, LoggedPoint};
pub use minutes_each::{MinutesChart, MinutesGroup, MinutesRow};
pub use price_and_cost::{CostChart, CostRow};
pub use price_ladder::{LadderChart, LadderGroup, LadderRow};
pub use raise::RaiseChart;
pub use raster::{ChartError, png};
pub use wage_by_tier::{Standing, WageBar, WageChart};
