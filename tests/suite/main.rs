//! What users rely on. One binary, because each would link the whole stack again.

mod broken;
mod commands;
mod edges;
mod harness;
mod inventory;
mod limits;
mod measures;
mod names;
mod published;
mod readme;
mod reports;
mod spectrum;
