//! Values that components keep.

use yew::prelude::*;

/// A value that a component keeps: what `first` makes until it is set. In one place
/// for all of a kind, since yew sets each way of making the first one up by code of
/// its own.
#[hook]
pub fn use_value<T: PartialEq + 'static>(first: fn() -> T) -> UseStateHandle<T> {
    use_state_eq(first)
}
