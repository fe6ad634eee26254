//! The app in a browser, from the first tap to the last figure.

mod accessible;
mod bad_input;
mod behind;
mod board;
mod board_file;
mod counter;
mod grind;
mod keeping;
mod keyboard;
mod languages;
mod layout;
mod links;
mod looks;
mod network;
mod offline;
mod origin;
mod print;
mod saved;
mod shell;
mod storage;
mod strip;
mod suggestion;
mod units;
mod update;
mod what_if;
mod whole_side;
