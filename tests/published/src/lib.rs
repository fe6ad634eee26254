//! What the published checks share: printed figures and their tolerance, the
//! tables and how far our plans lie from them, and a line of print that is seen
//! natively and in a browser.
//!
//! The checks themselves stand in `tests/`, one file per topic. Each names its
//! source and how well it is known: read in the source (R), derived from it by
//! arithmetic (D) or from memory (M). A published value is never adjusted;
//! where a source contradicts itself, the check says so and what it uses.
//!
//! The same files run natively and, through wasm-bindgen-test, in a browser.

pub mod cut_outs;
pub mod deviations;
pub mod frozen;
pub mod other_cut_outs;
pub mod printed;
pub mod sides;
pub mod table;

/// Prints a line: to the test's output natively, to the console in wasm.
pub fn print(line: &str) {
    #[cfg(target_arch = "wasm32")]
    wasm_bindgen_test::console_log!("{line}");
    #[cfg(not(target_arch = "wasm32"))]
    println!("{line}");
}
