//! What every form draws with: a picture of marks, the axes and texts on it, and its way into SVG, a page and a PNG.

pub mod amounts;
pub(crate) mod axis;
pub(crate) mod canvas;
pub(crate) mod fence;
pub mod fill;
pub mod font;
pub mod heading;
pub(crate) mod labels;
pub mod page;
pub mod picture;
pub(crate) mod raster;
pub mod row;
pub mod sign;
pub mod table;
pub mod text;
pub mod theme;
pub(crate) mod ticks;
pub mod times;
