//! The page without the browser: its state, its messages, its address and its words. Pure.

pub mod address;
pub mod answers;
pub mod caption;
pub mod choice;
pub mod coast;
pub mod counted;
pub mod describe;
pub mod dial_time;
pub mod dirty;
pub mod edit;
pub mod editor_panel;
pub mod glide;
pub mod history;
pub mod keys;
pub mod labels;
pub mod ladder_rows;
pub mod light_words;
pub mod marks;
pub mod message;
pub mod noon_panel;
pub mod prepare;
pub mod reason;
pub mod rod;
pub mod rod_panel;
pub mod share;
pub mod sizes_table;
pub mod speed;
pub mod state;
pub mod tick;
pub mod tour;
pub mod travel;
pub mod turns;
pub mod typed;
pub mod typed_quantity;
pub mod update;
pub mod view;
pub mod workings;
pub mod zones;

#[cfg(test)]
mod edit_tests;
#[cfg(test)]
mod test_page;
#[cfg(test)]
mod travel_tests;
#[cfg(test)]
mod update_tests;
