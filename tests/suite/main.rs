//! What users rely on. One binary, because each would link the whole stack again.

mod broken;
mod commands;
mod conservation;
mod demo;
mod demo_logs;
mod demo_orders;
mod edges;
mod frame_traps;
mod harness;
mod inventory;
mod limits;
mod measures;
mod minutes_command;
mod minutes_outside;
mod minutes_worlds;
mod names;
mod published;
mod random_shop;
mod random_shop_features;
mod readme;
mod reports;
mod sameness;
mod spectrum;
mod tiny;
mod what_logs_say;
