//! A shop: the folder's settings and its typed tables, checked against each other.
//!
//! [`specification`] says what each table holds; [`folder`] holds the files' bytes, [`sources`] says which table each is of and [`load`]
//! makes a shop of them, with a second look where headings are her own; each table's own file turns its typed columns into what the
//! sums need, and names what does not agree. [`repeats`] finds rows that stand twice. [`table_edit`] changes a table's bytes. No sums
//! are done here.

pub mod also_called;
mod assemble;
mod beliefs;
pub(crate) mod card_fees;
mod charge;
mod charges;
mod clock;
pub mod counts;
pub mod designs;
pub mod earlier_tiers;
pub(crate) mod everyday_forms;
mod everyday_headings;
mod everyday_tables;
pub(crate) mod excerpt;
pub mod folder;
mod folder_settings;
mod follow_on;
pub mod formats;
pub mod hours;
pub mod items;
pub mod kinds;
pub mod load;
pub mod naming;
pub(crate) mod new_card;
mod order_heads;
mod order_links;
mod order_row;
pub mod orders;
pub mod overheads;
pub(crate) mod price_file;
pub mod purchases;
mod read_table;
pub mod recipes;
pub mod repeats;
mod second_look;
pub mod settings;
pub mod sheets;
pub mod size;
pub(crate) mod sources;
pub mod specification;
mod spelling;
mod status;
pub(crate) mod table_edit;
mod table_read;
pub mod tiers;
pub(crate) mod understand;
mod unused_words;
pub(crate) mod writable;

pub use folder::Folder;
pub use load::{Loaded, Shop};
