//! The views of what was learnt and recorded, asked for as a page does.

#[expect(dead_code, reason = "other tests ask more of a page")]
#[path = "../page/mod.rs"]
mod page;
mod sides;

mod anything;
mod bought;
mod grinding;
mod own_yields;
mod record;
mod standing;
