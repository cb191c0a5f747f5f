//! What users rely on. One binary, because each would link the whole stack again.

mod commands;
mod harness;
mod readme;
mod reports;
