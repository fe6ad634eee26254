//! What the project's commands share with the tests that watch a browser.

mod folder;
pub mod offline_files;

pub use folder::files_below;
