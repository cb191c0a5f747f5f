//! What users rely on. One binary, because each would link the whole stack again.

mod bridge;
mod bridge_by_hand;
mod bridge_published;
mod broken;
mod check_screen;
mod commands;
mod conservation;
mod demo;
mod demo_logs;
mod demo_orders;
mod edges;
mod first_screens;
mod formulas;
mod frame_traps;
mod hard_to_learn;
mod harness;
mod inventory;
mod limits;
mod measures;
mod minutes_command;
mod minutes_outside;
mod minutes_worlds;
mod names;
#[cfg(unix)]
mod odd_files;
mod pricing;
mod pricing_outside;
mod published;
mod random_shop;
mod random_shop_features;
mod readme;
mod reports;
mod review_page;
mod review_parts;
mod same_house;
mod sameness;
mod spectrum;
mod start;
#[cfg(unix)]
mod stopped;
mod surroundings;
mod tiny;
mod typed;
mod what_logs_say;
mod writing;
