//! Which file of a folder answers a web address, and how it is to be labelled.

use std::path::{Component, Path, PathBuf};

use percent_encoding::percent_decode_str;

/// The file below `folder` that an address asks for; nothing if the address leads out of the folder
/// or is no proper path. A folder is answered by its `index.html`.
pub fn resolve(folder: &Path, address: &str) -> Option<PathBuf> {
    let path = address.split(['?', '#']).next()?;
    let decoded = percent_decode_str(path).decode_utf8().ok()?;
    // Backslashes and colons separate parts on some systems and have no place in our names.
    if decoded.contains(['\\', ':', '\0']) {
        return None;
    }
    let relative = PathBuf::from(decoded.trim_start_matches('/'));
    let plain = relative
        .components()
        .all(|part| matches!(part, Component::Normal(_) | Component::CurDir));
    if !plain {
        return None;
    }
    let file = folder.join(relative);
    Some(if file.is_dir() || decoded.ends_with('/') {
        file.join("index.html")
    } else {
        file
    })
}

/// The media type for a file, by its name's ending.
pub fn media_type(file: &Path) -> &'static str {
    match file.extension().and_then(|ending| ending.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("wasm") => "application/wasm",
        Some("json" | "map") => "application/json",
        Some("webmanifest") => "application/manifest+json",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("ico") => "image/x-icon",
        Some("woff2") => "font/woff2",
        Some("txt") => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

/// Whether a file of this type gets smaller by compression.
pub fn compresses(media_type: &str) -> bool {
    media_type.starts_with("text/")
        || matches!(
            media_type,
            "application/wasm" | "application/json" | "application/manifest+json" | "image/svg+xml"
        )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(address: &str) -> Option<String> {
        resolve(Path::new("/no/such/dist"), address)
            .map(|path| path.to_string_lossy().replace('\\', "/"))
    }

    #[test]
    fn addresses_find_their_files() {
        let index = Some("/no/such/dist/index.html".to_owned());
        assert_eq!(at("/"), index);
        assert_eq!(at("/?a=b"), index);
        assert_eq!(at("/a%20b.js?x#y"), Some("/no/such/dist/a b.js".to_owned()));
        assert_eq!(
            at("/icons/"),
            Some("/no/such/dist/icons/index.html".to_owned())
        );
    }

    #[test]
    fn no_address_leads_out_of_the_folder() {
        for address in [
            "/../Cargo.toml",
            "/a/../../Cargo.toml",
            "/%2e%2e/Cargo.toml",
            "/..%2fCargo.toml",
            "/..%5cCargo.toml",
            "/C:/Windows",
            "/%00",
            "/%ff",
        ] {
            assert_eq!(at(address), None, "{address}");
        }
        // Whatever looks like a path from the top is one from the folder.
        assert_eq!(
            at("//etc/passwd"),
            Some("/no/such/dist/etc/passwd".to_owned())
        );
        assert_eq!(
            at("/%2fetc/passwd"),
            Some("/no/such/dist/etc/passwd".to_owned())
        );
    }

    #[test]
    fn a_browser_streams_wasm_only_under_its_own_type() {
        assert_eq!(media_type(Path::new("x_bg.wasm")), "application/wasm");
        assert!(compresses("application/wasm"));
        assert!(!compresses(media_type(Path::new("a.png"))));
    }
}
