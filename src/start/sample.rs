//! The demo shop's files, as the program carries them.

macro_rules! demo {
    ($($name:literal),*) => {
        &[$(($name, include_bytes!(concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures/ninebell-quay/", $name)))),*]
    };
}

/// The demo shop, by file name.
pub const SAMPLE: &[(&str, &[u8])] = demo!(
    "counts.csv",
    "designs.csv",
    "hours.csv",
    "items.csv",
    "orders.csv",
    "overheads.csv",
    "purchases.csv",
    "recipes.csv",
    "shop.toml",
    "tiers.csv"
);
