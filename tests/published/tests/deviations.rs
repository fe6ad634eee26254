//! Keeps the page of deviations true: it must say what the figures are.
//!
//! `UPDATE_DEVIATIONS=1 cargo test -p published-checks --test deviations`
//! writes it anew; read the difference before it is committed.

use published_checks::deviations::page;
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

#[cfg(target_arch = "wasm32")]
wasm_bindgen_test::wasm_bindgen_test_configure!(run_in_browser);

#[test]
fn the_page_says_what_the_figures_are() {
    let page = page();
    #[cfg(not(target_arch = "wasm32"))]
    if std::env::var_os("UPDATE_DEVIATIONS").is_some() {
        let file = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
        std::fs::write(file, page).expect("a folder to write to");
        return;
    }
    let written = include_str!("../README.md");
    for (number, (now, written)) in page.lines().zip(written.lines()).enumerate() {
        assert_eq!(now, written, "README.md line {}", number + 1);
    }
    assert_eq!(page.lines().count(), written.lines().count(), "README.md");
}
