//! `shop.toml` as typed: every value still its text.

use serde::Deserialize;
use std::collections::BTreeMap;

/// The whole file.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Typed {
    pub currency: Option<String>,
    pub spares: Option<String>,
    pub cost_flow: Option<String>,
    pub tips_count: Option<String>,
    pub reclaim_purchase_tax: Option<String>,
    pub wage: TypedWage,
    pub fees: TypedFees,
    pub materials: TypedMaterials,
    pub helpers: BTreeMap<String, String>,
    pub hours: TypedHours,
    pub stages: BTreeMap<String, String>,
    pub prices: TypedPrices,
    pub seasons: BTreeMap<String, TypedSeason>,
    pub columns: BTreeMap<String, BTreeMap<String, String>>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct TypedWage {
    pub target: Option<String>,
    pub floor: Option<String>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct TypedFees {
    pub percent: Option<String>,
    pub fixed: Option<String>,
    pub payments: Option<String>,
    #[serde(flatten)]
    pub channels: BTreeMap<String, TypedChannel>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct TypedChannel {
    pub percent: Option<String>,
    pub fixed: Option<String>,
    pub payments: Option<String>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct TypedMaterials {
    pub mini: Option<String>,
    pub regular: Option<String>,
    pub large: Option<String>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct TypedHours {
    pub reach: Option<String>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct TypedPrices {
    pub endings: Option<Vec<String>>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct TypedSeason {
    pub from: Option<String>,
    pub to: Option<String>,
}
