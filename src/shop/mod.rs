//! A shop: the folder's settings and its typed tables, checked against each other.
//!
//! [`specification`] says what each table holds; [`folder`] holds the files' bytes, [`sources`] says which table each is of and [`load`]
//! makes a shop of them, with a second look where it says too little; each
//! table's own file turns its typed columns into what the sums need, and names what does not agree. [`table_edit`] changes a
//! table's bytes. No sums are done here.

pub mod also_called;
mod beliefs;
mod charge;
pub mod counts;
pub mod designs;
pub mod earlier_tiers;
pub mod everyday_forms;
mod everyday_headings;
pub mod excerpt;
pub mod folder;
mod follow_on;
pub mod hours;
pub mod items;
pub mod kinds;
pub mod load;
pub mod new_card;
mod order_heads;
mod order_links;
mod order_row;
pub mod orders;
pub mod overheads;
pub mod price_file;
pub mod purchases;
pub mod recipes;
mod second_look;
pub mod settings;
pub mod size;
pub mod sources;
pub mod specification;
mod spelling;
mod status;
pub mod table_edit;
pub mod tiers;
pub mod understand;

pub use folder::Folder;
pub use load::{Loaded, Shop};
