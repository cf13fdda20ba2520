//! What stands around the wall.

pub mod assumptions;
pub mod at_part;
pub mod beside;
pub mod card;
pub mod correct;
pub mod draft;
pub mod findings;
pub mod hand_out;
pub mod header;
pub mod keys_list;
pub mod light;
pub mod limits;
pub mod list;
pub mod many;
pub mod notice;
pub mod numbered;
pub mod present;
pub mod print;
pub mod row_strip;
pub mod schemes;
pub mod tip;
pub mod views;
pub mod weights;
pub mod wires;
pub mod worklist;
pub mod years;
