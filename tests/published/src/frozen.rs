//! Text that is frozen in a file of `goldens/`.

/// Holds `now` against the frozen text of a file, or freezes it when asked to
/// with `UPDATE_GOLDENS=1`.
///
/// # Panics
/// When they differ, or the file cannot be written.
#[track_caller]
pub fn is_frozen(file: &str, now: &str, frozen: &str) {
    #[cfg(not(target_arch = "wasm32"))]
    if std::env::var_os("UPDATE_GOLDENS").is_some() {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("goldens");
        if let Err(error) = std::fs::write(folder.join(file), now) {
            panic!("{file} cannot be written: {error}");
        }
        return;
    }
    same(file, now, frozen);
}

/// Names the first line that differs.
///
/// # Panics
/// When one does.
#[track_caller]
pub fn same(file: &str, now: &str, frozen: &str) {
    for (number, (now, frozen)) in now.lines().zip(frozen.lines()).enumerate() {
        assert_eq!(now, frozen, "{file} line {}", number + 1);
    }
    assert_eq!(now.lines().count(), frozen.lines().count(), "{file}");
}
