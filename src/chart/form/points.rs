//! What a scatter chart is made of: points, lines, levels and corners on two axes.

use rust_decimal::Decimal;

use crate::chart::draw::amounts::AmountStyle;
use crate::chart::draw::heading::Heading;
use crate::chart::draw::row::Tone;
use crate::chart::form::series::Series;

/// How an axis runs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Measure {
    /// Even steps, zero among them.
    Amounts(AmountStyle),
    /// Minutes, equal factors at equal lengths. Where both axes are times they are alike, and the plot is a square.
    Times,
}

impl Default for Measure {
    fn default() -> Self {
        Self::Amounts(AmountStyle::default())
    }
}

/// One of the two axes.
#[derive(Debug, Clone, Default)]
pub struct Dimension {
    /// What it measures.
    pub title: String,
    /// How it runs.
    pub measure: Measure,
    /// It reaches at least as far as this.
    pub reach: Option<Decimal>,
}

/// One point. It is left out where it is left of zero, or a time that no order takes.
#[derive(Debug, Clone, Default)]
pub struct Point {
    /// What it stands for; those without a name are not said in words.
    pub name: String,
    /// Its amounts as they are to be read.
    pub label: String,
    /// Its place across.
    pub across: Decimal,
    /// Its place up.
    pub up: Decimal,
    /// A range of 90 % across, in either order.
    pub range: Option<(Decimal, Decimal)>,
    /// The number of its series, which decides its sign.
    pub series: usize,
    /// Whether its name is written beside it; where there is no room, a number that a list below the plot explains.
    pub is_named: bool,
}

/// How a line looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineLook {
    /// The one to measure by: dark, its words bold.
    Target,
    /// Another: thin and grey.
    Faint,
    /// What the chart is about: blue and broad.
    Main,
    /// Where both axes agree: dark and thin.
    Even,
}

/// A straight line: up = `base` + `slope` × across. Between times its base must be zero.
#[derive(Debug, Clone)]
pub struct Line {
    /// Where it stands at zero.
    pub base: Decimal,
    /// What each unit across adds.
    pub slope: Decimal,
    /// The words at its end. A line whose words find no room is not drawn.
    pub words: String,
    /// How it looks.
    pub look: LineLook,
}

/// What the points of a stretch come to together: a bold level line, and an entry below the plot.
#[derive(Debug, Clone, Default)]
pub struct Level {
    /// What the stretch is called.
    pub name: String,
    /// The amount as it is to be read, or why there is none.
    pub label: String,
    /// A few words beneath; may be empty.
    pub note: String,
    /// Where it begins.
    pub from: Decimal,
    /// Where it ends; `None` for no end.
    pub to: Option<Decimal>,
    /// What its points come to; `None` draws no line.
    pub amount: Option<Decimal>,
}

/// A corner of the plot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Corner {
    /// Upper left.
    TopLeft,
    /// Upper right.
    TopRight,
    /// Lower left.
    BottomLeft,
    /// Lower right.
    BottomRight,
}

/// Points and lines.
#[derive(Debug, Clone, Default)]
pub struct Scatter {
    /// What stands over the chart.
    pub heading: Heading,
    /// The axis across.
    pub across: Dimension,
    /// The axis up.
    pub up: Dimension,
    /// What the signs of the points mean, in the order of the key; the first lies on top.
    pub series: Vec<Series>,
    /// The points; where there is too little room for all names, those that come first have theirs.
    pub points: Vec<Point>,
    /// What a range is called in the key.
    pub range: String,
    /// Lines through the plot.
    pub lines: Vec<Line>,
    /// Upright lines, each with the words above it.
    pub uprights: Vec<(Decimal, String)>,
    /// Levels of stretches, listed below the plot.
    pub levels: Vec<Level>,
    /// What a level is called in the key.
    pub level: String,
    /// Between times: from the even line ÷ this factor to the even line × it lies the usual, called so in the key.
    pub band: Option<(Decimal, String)>,
    /// Words in corners, where nothing is in their way.
    pub corners: Vec<(Corner, String, Tone)>,
    /// Points far out of the rest are arrow heads at the edge, if they have words for the key: for one, and for many
    /// after their number.
    pub beyond: Option<[String; 2]>,
    /// The sentence where there is nothing to draw.
    pub sentence: String,
    /// The description's words before the points.
    pub said: Vec<String>,
}

/// The least and the greatest amount across, and up.
pub(crate) type Ranges = ((Decimal, Decimal), (Decimal, Decimal));

impl Line {
    /// Whether it is the one to measure by and runs level, so that on a narrow page the key has its words.
    pub(super) fn is_level(&self) -> bool {
        self.look == LineLook::Target && self.slope.is_zero()
    }
}
