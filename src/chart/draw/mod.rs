//! What every form draws with: a picture of marks, the axes and texts on it, and its way into SVG, a page and a PNG.

pub mod amounts;
pub mod axis;
pub mod canvas;
pub mod fence;
pub mod fill;
pub mod font;
pub mod heading;
pub mod labels;
pub mod page;
pub mod picture;
pub mod raster;
pub mod row;
pub mod sign;
pub mod table;
pub mod text;
pub mod theme;
pub mod ticks;
pub mod times;
