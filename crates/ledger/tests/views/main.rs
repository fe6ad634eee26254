//! The views of what was learnt and recorded, asked for as a page does.

#[path = "../page/mod.rs"]
mod page;
mod sides;

mod anything;
mod archive;
mod bought;
mod grinding;
mod links;
mod own_yields;
mod record;
mod standing;
mod waiting;
