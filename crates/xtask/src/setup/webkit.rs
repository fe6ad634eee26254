//! The small browser that comes with `WebKitGTK`, its driver, and a screen for it to be on.

use std::env;
use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};

use super::debian;
use crate::workshop::{Workshop, on_path};

/// Debian's packages: the driver, with which the browser comes, and the screen. `xauth` is what
/// `xvfb-run` calls to keep strangers off that screen.
const PACKAGES: [&str; 3] = ["webkit2gtk-driver", "xvfb", "xauth"];

/// A browser that shows what Safari would, as far as any on this machine does.
pub struct WebKit {
    /// The browser's program.
    pub program: PathBuf,
    /// The driver's program.
    pub driver: PathBuf,
    /// What runs a command with a screen of its own that nobody sees.
    pub screen: PathBuf,
}

/// Finds them or brings Debian's; `None` on a machine that is not Debian's and has none.
///
/// # Errors
/// Says what cannot be brought.
pub fn ensure(workshop: &Workshop) -> Result<Option<WebKit>> {
    if let Some(found) = find() {
        return Ok(Some(found));
    }
    if !debian::is_debian() {
        return Ok(None);
    }
    debian::ensure(workshop, &PACKAGES, "a third browser to test in")?;
    find()
        .context("WebKit's packages were installed, but MiniBrowser is not where it should be.")
        .map(Some)
}

fn find() -> Option<WebKit> {
    let set = |name: &str| env::var_os(name).map(PathBuf::from);
    on_path("xauth")?;
    Some(WebKit {
        program: set("MINIBROWSER").or_else(|| browser_below(Path::new("/usr")))?,
        driver: set("WEBKITDRIVER").or_else(|| on_path("WebKitWebDriver"))?,
        screen: on_path("xvfb-run")?,
    })
}

/// The browser in the folder of the library that it comes with. It is on no `PATH`; of several the
/// newest library is taken.
fn browser_below(top: &Path) -> Option<PathBuf> {
    let folders_in = |folder: PathBuf| {
        let entries = fs::read_dir(folder).into_iter().flatten().flatten();
        entries
            .map(|entry| entry.path())
            .filter(|path| path.is_dir())
    };
    ["lib", "libexec"]
        .into_iter()
        .map(|name| top.join(name))
        .flat_map(|folder| folders_in(folder.clone()).chain([folder]))
        .flat_map(folders_in)
        .filter(|folder| {
            let name = folder.file_name().and_then(|name| name.to_str());
            name.is_some_and(|name| name.starts_with("webkit"))
        })
        .map(|folder| folder.join("MiniBrowser"))
        .filter(|program| program.is_file())
        .max()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_browser_is_found_beside_its_library() {
        let top = env::temp_dir().join(format!("sideworth-webkit-{}", std::process::id()));
        let put = |folder: &str| {
            let folder = top.join(folder);
            fs::create_dir_all(&folder).expect("a folder");
            fs::write(folder.join("MiniBrowser"), "").expect("a file");
            folder.join("MiniBrowser")
        };
        fs::create_dir_all(top.join("lib/some-cpu")).expect("a folder");
        assert_eq!(browser_below(&top), None);
        put("lib/some-cpu/other-4.1");
        assert_eq!(browser_below(&top), None);
        put("lib/some-cpu/webkit2gtk-4.0");
        let newer = put("lib/some-cpu/webkit2gtk-4.1");
        assert_eq!(browser_below(&top), Some(newer));
        fs::remove_dir_all(&top).expect("it can go");
    }
}
