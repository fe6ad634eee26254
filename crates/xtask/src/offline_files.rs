//! Writes into the service worker which files make up a build, each with its hash, and marks the
//! page and the worker with the build they belong to.
//!
//! The hashes are in the form of the W3C's Subresource Integrity, which a browser checks while it
//! fetches. The mark of a build is a hash over all of its files: one byte changed is another build.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

use crate::files_below;

/// The service worker's file.
pub const SERVICE_WORKER: &str = "service-worker.js";

/// The service worker without a build.
const WORKER: &str = include_str!("../../../web/service-worker.js");

/// Where the build and its files go in the service worker.
const WORKER_BUILD: &str = "const BUILD = \"\";";
const WORKER_FILES: &str = "const FILES = {};";

/// The page, and its address: some hosts answer the file's own name with a redirection, and a
/// redirected answer opens no page.
const PAGE: &str = "index.html";
const PAGE_ADDRESS: &str = "./";

/// What stands in the page before its mark.
const PAGE_MARK: &str = "<meta name=\"build\" content=\"";

/// How many hexadecimal digits of the hash mark a build.
const MARK_LENGTH: usize = 16;

/// Marks the page of a built app and writes its service worker; gives the mark. The same files give
/// the same mark, however often this is done.
///
/// # Errors
/// When the folder holds no built app or cannot be written to.
pub fn write(dist: &Path) -> Result<String> {
    let mut files = BTreeMap::new();
    for name in files_below(dist)? {
        if name != SERVICE_WORKER {
            let bytes = fs::read(dist.join(&name)).with_context(|| name.clone())?;
            files.insert(name, bytes);
        }
    }
    let page = files.remove(PAGE).context("there is no page")?;
    let page = String::from_utf8(page).context("the page is no text")?;
    let bare = marked(&page, "")?;
    files.insert(PAGE.to_owned(), bare.into_bytes());
    let mark = mark(&files);

    let page = marked(&page, &mark)?;
    fs::write(dist.join(PAGE), &page)?;
    files.insert(PAGE.to_owned(), page.into_bytes());
    fs::write(dist.join(SERVICE_WORKER), worker(&mark, &files)?)?;
    Ok(mark)
}

/// The page with another mark.
fn marked(page: &str, mark: &str) -> Result<String> {
    let (before, rest) = page
        .split_once(PAGE_MARK)
        .context("the page has no place for the mark of the build")?;
    let (_, after) = rest.split_once('"').context("the page's mark has no end")?;
    Ok(format!("{before}{PAGE_MARK}{mark}\"{after}"))
}

/// The mark of a build. Names and lengths go in too, so that no two lists of files run together.
fn mark(files: &BTreeMap<String, Vec<u8>>) -> String {
    let mut hash = Sha256::new();
    let worker = (SERVICE_WORKER, WORKER.as_bytes());
    let files = files
        .iter()
        .map(|(name, bytes)| (name.as_str(), bytes.as_slice()));
    for (name, bytes) in files.chain([worker]) {
        hash.update(format!("{name}\n{}\n", bytes.len()));
        hash.update(bytes);
    }
    let mut mark = format!("{:x}", hash.finalize());
    mark.truncate(MARK_LENGTH);
    mark
}

/// The service worker of a build.
fn worker(mark: &str, files: &BTreeMap<String, Vec<u8>>) -> Result<String> {
    let hashes: BTreeMap<&str, String> = files
        .iter()
        .map(|(name, bytes)| {
            let address = if name == PAGE { PAGE_ADDRESS } else { name };
            let hash = STANDARD.encode(Sha256::digest(bytes));
            (address, format!("sha256-{hash}"))
        })
        .collect();
    for place in [WORKER_BUILD, WORKER_FILES] {
        ensure!(
            WORKER.matches(place).count() == 1,
            "web/{SERVICE_WORKER} should have one line “{place}”."
        );
    }
    let hashes = serde_json::to_string_pretty(&hashes)?;
    Ok(WORKER
        .replacen(WORKER_BUILD, &format!("const BUILD = \"{mark}\";"), 1)
        .replacen(WORKER_FILES, &format!("const FILES = {hashes};"), 1))
}

#[cfg(test)]
mod tests {
    use std::path::PathBuf;

    use super::*;

    struct Folder(PathBuf);

    impl Folder {
        fn with(name: &str, files: &[(&str, &str)]) -> Self {
            let folder = std::env::temp_dir()
                .join(format!("sideworth-offline-{name}-{}", std::process::id()));
            fs::create_dir_all(folder.join("icons")).expect("temporary folder");
            for (file, text) in files {
                fs::write(folder.join(file), text).expect("write");
            }
            Self(folder)
        }

        fn text(&self, file: &str) -> String {
            fs::read_to_string(self.0.join(file)).expect("read")
        }
    }

    impl Drop for Folder {
        fn drop(&mut self) {
            // What is left in the folder for temporary files does no harm.
            let _ = fs::remove_dir_all(&self.0);
        }
    }

    const APP: [(&str, &str); 3] = [
        (
            "index.html",
            "<head><meta name=\"build\" content=\"\"></head>",
        ),
        ("boot.js", "abc"),
        ("icons/icon.svg", "<svg/>"),
    ];

    #[test]
    fn every_file_is_listed_with_its_hash_under_its_address() {
        let dist = Folder::with("hash", &APP);
        let mark = write(&dist.0).expect("a list");
        let worker = dist.text(SERVICE_WORKER);
        assert!(worker.contains(&format!("const BUILD = \"{mark}\";")));
        assert!(
            dist.text("index.html")
                .contains(&format!("content=\"{mark}\""))
        );
        // FIPS 180-4, the example of one block: SHA-256 of “abc”, here in base64.
        assert!(
            worker.contains("\"boot.js\": \"sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=\"")
        );
        assert!(worker.contains("\"./\": \"sha256-"));
        assert!(worker.contains("\"icons/icon.svg\""));
        assert!(!worker.contains("\"index.html\": \"sha256-"));
        assert!(!worker.contains("\"service-worker.js\": \"sha256-"));
    }

    #[test]
    fn the_same_files_are_the_same_build_and_one_byte_makes_another() {
        let dist = Folder::with("same", &APP);
        let first = write(&dist.0).expect("a list");
        let worker = dist.text(SERVICE_WORKER);
        assert_eq!(write(&dist.0).expect("a list"), first);
        assert_eq!(dist.text(SERVICE_WORKER), worker);
        fs::write(dist.0.join("boot.js"), "abd").expect("write");
        let second = write(&dist.0).expect("a list");
        assert_ne!(second, first);
        assert!(!dist.text("index.html").contains(&first));
        fs::rename(dist.0.join("boot.js"), dist.0.join("boots.js")).expect("rename");
        assert_ne!(write(&dist.0).expect("a list"), second);
    }

    #[test]
    fn a_page_without_a_place_for_the_mark_is_told() {
        let dist = Folder::with("bare", &[("index.html", "<head></head>")]);
        let error = write(&dist.0).expect_err("no place");
        assert!(error.to_string().contains("mark"), "{error}");
    }
}
