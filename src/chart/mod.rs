//! Charts: finished figures in, a picture out.
//!
//! Each chart is plain data with an `svg` method; [`png()`] turns that SVG into an image, [`in_page`] fits it into an
//! HTML page, and [`Chart`] gives its figures in words too. What is drawn is
//! decided here: places, colours, hatching, the ticks of an axis. What is said is decided by the caller: every
//! figure arrives with its label already written, and rows are drawn in the order given. Nothing here reads a
//! file, a clock or a font of the machine's, so the same data always gives the same bytes.
//!
//! Colour never carries a meaning alone: a short bar is hatched and has the word beside its figure, the parts
//! of a cost stand in the order of the key, a guess is a hollow diamond and an order far off a filled one. Money
//! becomes a binary float only to find a place on the page.

mod alternative;
mod axis;
mod bridge;
mod canvas;
mod dollar;
mod fence;
pub mod font;
mod frame;
mod in_page;
mod item_prices;
mod labels;
mod line_labels;
mod logged;
mod marks;
mod minutes_each;
mod month_labels;
mod months;
mod numbered;
mod order_size;
mod price_and_cost;
mod price_and_minutes;
mod price_ladder;
mod raise;
mod raster;
mod row;
mod stages;
mod text;
mod theme;
mod time_axis;
mod upright;
mod wage_by_tier;
mod waterfall;

#[cfg(test)]
mod alternative_tests;
#[cfg(test)]
mod bridge_tests;
#[cfg(test)]
mod dollar_tests;
#[cfg(test)]
mod item_prices_tests;
#[cfg(test)]
mod logged_tests;
#[cfg(test)]
mod minutes_each_tests;
#[cfg(test)]
mod months_tests;
#[cfg(test)]
mod order_size_tests;
#[cfg(test)]
mod overlap_tests;
#[cfg(test)]
mod price_and_minutes_tests;
#[cfg(test)]
mod price_ladder_tests;
#[cfg(test)]
mod review_overlap_tests;
#[cfg(test)]
mod review_samples;
#[cfg(test)]
mod samples;
#[cfg(test)]
mod stages_tests;

pub use alternative::Chart;
pub use axis::AmountStyle;
pub use bridge::{BridgeChart, BridgeEnd, BridgeStep};
pub use dollar::{DollarChart, DollarKind, DollarStep};
pub use in_page::in_page;
pub use item_prices::{ItemPrices, ItemPricesChart, PricePaid};
pub use logged::{LoggedChart, LoggedPoint};
pub use minutes_each::{MinutesChart, MinutesGroup, MinutesRow};
pub use months::{MonthBar, MonthsChart};
pub use order_size::{OrderSizeChart, SizeClass, SizeDot};
pub use price_and_cost::{CostChart, CostRow};
pub use price_and_minutes::{PriceMinutesChart, PriceMinutesPoint, WageLine};
pub use price_ladder::{LadderChart, LadderGroup, LadderRow};
pub use raise::RaiseChart;
pub use raster::{ChartError, is_ours, png};
pub use stages::{StageBar, StagesChart, WaitingBar};
pub use wage_by_tier::{Standing, WageBar, WageChart};
