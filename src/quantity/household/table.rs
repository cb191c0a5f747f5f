//! The built-in weights: item names, the USDA food each stands for, and that food's measures.
//!
//! Every row of a food in the USDA table (SR28, `WEIGHT` file) is here, but for what is a weight
//! already: ounces, pounds, and the stick of butter, which is a quarter pound exactly and not the
//! table's rounded 113 g. `cup` to `each` mark the measure that a plain unit of that name means;
//! `other` marks a measure that answers only to its own words.

use super::food::{Household, Measure};
use crate::quantity::exact::exact;
use crate::quantity::unit::Unit;

pub(super) const FOODS: &[Household] = &[
    Household {
        ndb: "20081",
        description: "Wheat flour, white, all-purpose, enriched, bleached",
        names: &["flour", "all-purpose flour", "all purpose flour", "plain flour", "white flour", "bleached flour"],
        measures: &[cup("cup", "125")],
    },
    Household {
        ndb: "20581",
        description: "Wheat flour, white, all-purpose, enriched, unbleached",
        names: &["unbleached flour", "unbleached all-purpose flour", "unbleached all purpose flour"],
        measures: &[cup("cup", "125")],
    },
    // Cake flour: the table knows it dipped and unsifted only.
    Household {
        ndb: "20084",
        description: "Wheat flour, white, cake, enriched",
        names: &["cake flour"],
        measures: &[cup("cup unsifted, dipped", "137")],
    },
    Household {
        ndb: "20083",
        description: "Wheat flour, white, bread, enriched",
        names: &["bread flour", "strong flour", "strong white flour"],
        measures: &[cup("cup", "137")],
    },
    Household {
        ndb: "20082",
        description: "Wheat flour, white, all-purpose, self-rising, enriched",
        names: &["self-rising flour", "self rising flour", "self-raising flour", "self raising flour"],
        measures: &[cup("cup", "125")],
    },
    Household {
        ndb: "20027",
        description: "Cornstarch",
        names: &["cornstarch", "corn starch", "cornflour"],
        measures: &[cup("cup", "128")],
    },
    Household {
        ndb: "19335",
        description: "Sugars, granulated",
        names: &["sugar", "granulated sugar", "white sugar"],
        measures: &[cup("cup", "200"), tsp("tsp", "4.2"), other("serving packet", "2.8"), other("serving 1 cube", "2.3")],
    },
    // Icing sugar: a plain cup is unsifted, as it is scooped; the table's teaspoon names no state
    // but has exactly that density.
    Household {
        ndb: "19336",
        description: "Sugars, powdered",
        names: &["icing sugar", "powdered sugar", "confectioners' sugar", "confectioner's sugar", "confectioners sugar"],
        measures: &[cup("cup unsifted", "120"), tbsp("tbsp unsifted", "8"), tsp("tsp", "2.5"), other("cup sifted", "100")],
    },
    // Brown sugar: a plain cup is packed, as recipes measure it.
    Household {
        ndb: "19334",
        description: "Sugars, brown",
        names: &["brown sugar", "light brown sugar", "dark brown sugar"],
        measures: &[cup("cup packed", "220"), tsp("tsp packed", "4.6"), other("cup unpacked", "145"), other("tsp unpacked", "3")],
    },
    // Butter of no named kind is unsalted, the baker's; the two weigh the same.
    Household {
        ndb: "01145",
        description: "Butter, without salt",
        names: &["butter", "unsalted butter"],
        measures: &[cup("cup", "227"), tbsp("tbsp", "14.2"), other("pat (1\" sq, 1/3\" high)", "5")],
    },
    Household {
        ndb: "01001",
        description: "Butter, salted",
        names: &["salted butter"],
        measures: &[cup("cup", "227"), tbsp("tbsp", "14.2"), other("pat (1\" sq, 1/3\" high)", "5")],
    },
    // Eggs: one egg, white or yolk is of a large egg, the size that US recipes mean.
    Household {
        ndb: "01123",
        description: "Egg, whole, raw, fresh",
        names: &["egg", "eggs", "whole egg", "whole eggs", "large egg", "large eggs"],
        measures: &[
            each("large", "50"),
            cup("cup (4.86 large eggs)", "243"),
            other("extra large", "56"),
            other("jumbo", "63"),
            other("medium", "44"),
            other("small", "38"),
        ],
    },
    Household {
        ndb: "01124",
        description: "Egg, white, raw, fresh",
        names: &["egg white", "egg whites"],
        measures: &[each("large", "33"), cup("cup", "243")],
    },
    Household {
        ndb: "01125",
        description: "Egg, yolk, raw, fresh",
        names: &["egg yolk", "egg yolks"],
        measures: &[each("large", "17"), cup("cup", "243")],
    },
    // Dried egg white: a plain cup is sifted, the only one in the table. Meringue powder is not this.
    Household {
        ndb: "01136",
        description: "Egg, white, dried, powder, stabilized, glucose reduced",
        names: &["dried egg white", "dried egg whites", "egg white powder", "powdered egg white", "powdered egg whites"],
        measures: &[cup("cup, sifted", "107"), tbsp("tbsp", "7")],
    },
    Household {
        ndb: "01077",
        description: "Milk, whole, 3.25% milkfat, with added vitamin D",
        names: &["milk", "whole milk"],
        measures: &[cup("cup", "244"), tbsp("tbsp", "15"), fl_oz("fl oz", "30.5"), quart("quart", "976")],
    },
    Household {
        ndb: "01079",
        description: "Milk, reduced fat, fluid, 2% milkfat, with added vitamin A and vitamin D",
        names: &["2% milk", "reduced fat milk", "reduced-fat milk"],
        measures: &[cup("cup", "244"), fl_oz("fl oz", "30.5"), quart("quart", "976")],
    },
    Household {
        ndb: "01085",
        description: "Milk, nonfat, fluid, with added vitamin A and vitamin D (fat free or skim)",
        names: &["skim milk", "skimmed milk", "nonfat milk", "fat-free milk", "fat free milk"],
        measures: &[cup("cup", "245"), fl_oz("fl oz", "30.6"), quart("quart", "980")],
    },
    // Cream: a plain cup is fluid, as it is bought and poured.
    Household {
        ndb: "01053",
        description: "Cream, fluid, heavy whipping",
        names: &["cream", "heavy cream", "heavy whipping cream"],
        measures: &[
            cup("cup, fluid (yields 2 cups whipped)", "238"),
            tbsp("tbsp", "15"),
            fl_oz("fl oz", "29.8"),
            other("cup, whipped", "120"),
        ],
    },
    // Cream cheese: plain spoons and cups are of the block, not whipped.
    Household {
        ndb: "01017",
        description: "Cheese, cream",
        names: &["cream cheese"],
        measures: &[
            cup("cup", "232"),
            tbsp("tbsp", "14.5"),
            other("tbsp, whipped", "10"),
            other("cubic inch", "16"),
            other("package, small (3 oz)", "85"),
        ],
    },
    Household {
        ndb: "02050",
        description: "Vanilla extract",
        names: &["vanilla", "vanilla extract"],
        measures: &[cup("cup", "208"), tbsp("tbsp", "13"), tsp("tsp", "4.2")],
    },
    Household {
        ndb: "02052",
        description: "Vanilla extract, imitation, no alcohol",
        names: &["imitation vanilla", "imitation vanilla extract"],
        measures: &[tbsp("tbsp", "13"), tsp("tsp", "4.2")],
    },
    Household {
        ndb: "19350",
        description: "Syrups, corn, light",
        names: &["corn syrup", "light corn syrup"],
        measures: &[cup("cup", "341"), tbsp("tbsp", "22")],
    },
    Household {
        ndb: "19349",
        description: "Syrups, corn, dark",
        names: &["dark corn syrup"],
        measures: &[cup("cup", "328"), tbsp("tbsp", "20")],
    },
    Household {
        ndb: "19296",
        description: "Honey",
        names: &["honey"],
        measures: &[cup("cup", "339"), tbsp("tbsp", "21"), other("packet (0.5 oz)", "14")],
    },
    Household { ndb: "19304", description: "Molasses", names: &["molasses"], measures: &[cup("cup", "337"), tbsp("serving 1 tbsp", "20")] },
    Household {
        ndb: "19165",
        description: "Cocoa, dry powder, unsweetened",
        names: &["cocoa", "cocoa powder", "unsweetened cocoa", "unsweetened cocoa powder"],
        measures: &[cup("cup", "86"), tbsp("tbsp", "5.4")],
    },
    Household {
        ndb: "19166",
        description: "Cocoa, dry powder, unsweetened, processed with alkali",
        names: &["dutch process cocoa", "dutch-process cocoa", "dutch processed cocoa", "dutch-processed cocoa"],
        measures: &[cup("cup", "86"), tbsp("tbsp", "5.4")],
    },
    Household {
        ndb: "02047",
        description: "Salt, table",
        names: &["salt", "table salt"],
        measures: &[cup("cup", "292"), tbsp("tbsp", "18"), tsp("tsp", "6"), other("dash", "0.4")],
    },
    Household {
        ndb: "18369",
        description: "Leavening agents, baking powder, double-acting, sodium aluminum sulfate",
        names: &["baking powder"],
        measures: &[tsp("tsp", "4.6")],
    },
    Household {
        ndb: "18372",
        description: "Leavening agents, baking soda",
        names: &["baking soda", "bicarbonate of soda", "sodium bicarbonate"],
        measures: &[tsp("tsp", "4.6")],
    },
    Household { ndb: "18373", description: "Leavening agents, cream of tartar", names: &["cream of tartar"], measures: &[tsp("tsp", "3")] },
    // Vegetable oil: in the US mostly soybean oil (common practice, no source).
    Household {
        ndb: "04044",
        description: "Oil, soybean, salad or cooking",
        names: &["vegetable oil", "soybean oil"],
        measures: &[cup("cup", "218"), tbsp("tbsp", "13.6"), tsp("tsp", "4.5")],
    },
    Household {
        ndb: "04582",
        description: "Oil, canola",
        names: &["canola oil", "rapeseed oil"],
        measures: &[cup("cup", "218"), tbsp("tbsp", "14"), tsp("tsp", "4.5")],
    },
    Household {
        ndb: "04615",
        description: "Shortening, vegetable, household, composite",
        names: &["shortening", "vegetable shortening"],
        measures: &[cup("cup", "205"), tbsp("tbsp", "12.8")],
    },
    // Almond paste: a plain cup is firmly packed, the only one in the table. Marzipan is not this.
    Household { ndb: "12071", description: "Nuts, almond paste", names: &["almond paste"], measures: &[cup("cup, firmly packed", "227")] },
    // Ground almonds: a plain cup is ground, as the item's name says.
    Household {
        ndb: "12061",
        description: "Nuts, almonds",
        names: &["ground almonds", "almond meal"],
        measures: &[
            cup("cup, ground", "95"),
            other("cup, whole", "143"),
            other("cup, sliced", "92"),
            other("cup, slivered", "108"),
            other("almond", "1.2"),
        ],
    },
    Household {
        ndb: "02010",
        description: "Spices, cinnamon, ground",
        names: &["cinnamon", "ground cinnamon"],
        measures: &[tbsp("tbsp", "7.8"), tsp("tsp", "2.6")],
    },
    Household {
        ndb: "02021",
        description: "Spices, ginger, ground",
        names: &["ginger", "ground ginger"],
        measures: &[tbsp("tbsp", "5.2"), tsp("tsp", "1.8")],
    },
    // Lemon juice: a whole lemon's yield answers to its own words; "each" of a juice means nothing.
    Household {
        ndb: "09152",
        description: "Lemon juice, raw",
        names: &["lemon juice"],
        measures: &[cup("cup", "244"), fl_oz("fl oz", "30.5"), other("lemon yields", "48"), other("wedge yields", "5.9")],
    },
    Household {
        ndb: "14411",
        description: "Beverages, water, tap, drinking",
        names: &["water", "tap water"],
        measures: &[litre("liter", "1000"), fl_oz("fl oz", "29.6"), other("serving 8 fl oz", "237")],
    },
];

const fn cup(words: &'static str, grams: &str) -> Measure {
    measure(words, grams, Some(Unit::US_CUP))
}

const fn tbsp(words: &'static str, grams: &str) -> Measure {
    measure(words, grams, Some(Unit::US_TABLESPOON))
}

const fn tsp(words: &'static str, grams: &str) -> Measure {
    measure(words, grams, Some(Unit::US_TEASPOON))
}

const fn fl_oz(words: &'static str, grams: &str) -> Measure {
    measure(words, grams, Some(Unit::US_FLUID_OUNCE))
}

const fn quart(words: &'static str, grams: &str) -> Measure {
    measure(words, grams, Some(Unit::US_QUART))
}

const fn litre(words: &'static str, grams: &str) -> Measure {
    measure(words, grams, Some(Unit::LITRE))
}

const fn each(words: &'static str, grams: &str) -> Measure {
    measure(words, grams, Some(Unit::EACH))
}

const fn other(words: &'static str, grams: &str) -> Measure {
    measure(words, grams, None)
}

const fn measure(words: &'static str, grams: &str, unit: Option<Unit>) -> Measure {
    Measure { words, grams: exact(grams), unit }
}
