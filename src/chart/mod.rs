//! Charts: finished figures in, a picture out.
//!
//! There are five forms: [`Bars`] and [`Steps`] beside a table of figures, [`Columns`] over months, a [`Scatter`] of points
//! on two axes and [`Strips`] of prices over time. Each is plain data that lays itself out as a [`Picture`], for a desk or
//! for a phone ([`Width`]); the picture becomes SVG, and [`png()`] turns that into an image. What is drawn is decided
//! here: places, colours, hatching, the ticks of an axis. What is said is decided by the caller: every figure arrives with
//! its label already written, and rows are drawn in the order given. Nothing here reads a file, a clock or a font of the
//! machine's, so the same data always gives the same bytes.
//!
//! Colour never carries a meaning alone: a short bar is hatched and has the word beside its figure, the parts
//! of a cost stand in the order of the key, a guess is a hollow diamond and an order far off a filled one. Money
//! becomes a binary float only to find a place on the page.

mod draw;
mod form;
mod words;

#[cfg(test)]
mod tests;

pub use draw::amounts::AmountStyle;
pub use draw::fill::Fill;
pub use draw::font;
pub use draw::heading::Heading;
pub use draw::page::Width;
pub use draw::picture::Picture;
pub use draw::raster::{ChartError, is_ours, png};
pub use draw::row::{Figure, Row, Tone};
pub use draw::sign::Sign;
pub use draw::times::is_drawn;
pub use form::bars::{BarRow, Bars};
pub use form::chart::Chart;
pub use form::columns::{Column, Columns, Month, Panel};
pub use form::points::{Corner, Dimension, Level, Line, LineLook, Measure, Point, Scatter};
pub use form::series::Series;
pub use form::steps::{Step, Steps};
pub use form::strips::{Strip, Strips};
