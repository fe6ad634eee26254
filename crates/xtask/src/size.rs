//! How much a first visit has to load.

use std::collections::BTreeSet;
use std::fs;
use std::io::Write;
use std::path::Path;

use anyhow::{Context, Result};
use brotli::enc::BrotliEncoderParams;
use flate2::Compression;
use flate2::write::GzEncoder;
use wording::Language;
use xtask::files_below;
use xtask::offline_files::SERVICE_WORKER;

use crate::texts;

/// What a page names but a browser fetches only once the app can be used, and all that these name.
const AFTERWARDS: [&str; 2] = [SERVICE_WORKER, "manifest.webmanifest"];

/// Prints raw and compressed sizes of every file that a first visit loads, in each language, and of
/// what is fetched afterwards to work offline.
///
/// # Errors
/// When `dist` does not hold a built app.
pub fn print(dist: &Path) -> Result<()> {
    let all = files_below(dist)?;
    for language in Language::ALL {
        println!("A first visit in {}:", language.own_name());
        println!(
            "{}\n",
            table(&measure(dist, &first_visit(dist, &all, language)?)?)
        );
    }
    let loaded = first_visit(dist, &all, Language::English)?;
    let later: BTreeSet<_> = all.difference(&loaded).cloned().collect();
    if !later.is_empty() {
        println!("Fetched after the visit in English, to work offline:");
        println!("{}", table(&measure(dist, &later)?));
    }
    Ok(())
}

/// How many bytes a first visit loads, compressed with gzip, in the language that takes the most.
///
/// # Errors
/// When `dist` does not hold a built app.
pub fn first_visit_gzip(dist: &Path) -> Result<usize> {
    let all = files_below(dist)?;
    let mut most = 0;
    for language in Language::ALL {
        let rows = measure(dist, &first_visit(dist, &all, language)?)?;
        most = most.max(rows.iter().map(|row| row.gzip).sum());
    }
    Ok(most)
}

fn measure(dist: &Path, loaded: &BTreeSet<String>) -> Result<Vec<Row>> {
    loaded
        .iter()
        .map(|name| Row::measure(name, &fs::read(dist.join(name))?))
        .collect()
}

struct Row {
    name: String,
    raw: usize,
    gzip: usize,
    brotli: usize,
}

impl Row {
    fn measure(name: &str, bytes: &[u8]) -> Result<Self> {
        let mut gzip = GzEncoder::new(Vec::new(), Compression::best());
        gzip.write_all(bytes)?;
        let settings = BrotliEncoderParams {
            quality: 11,
            size_hint: bytes.len(),
            ..BrotliEncoderParams::default()
        };
        let mut brotli = Vec::new();
        brotli::BrotliCompress(&mut &*bytes, &mut brotli, &settings)?;
        Ok(Self {
            name: name.to_owned(),
            raw: bytes.len(),
            gzip: gzip.finish()?.len(),
            brotli: brotli.len(),
        })
    }
}

fn table(rows: &[Row]) -> String {
    let total = Row {
        name: "together".to_owned(),
        raw: rows.iter().map(|row| row.raw).sum(),
        gzip: rows.iter().map(|row| row.gzip).sum(),
        brotli: rows.iter().map(|row| row.brotli).sum(),
    };
    let wide = rows
        .iter()
        .chain([&total])
        .map(|row| row.name.len())
        .max()
        .unwrap_or(0);
    let mut lines = vec![format!(
        "{:wide$}  {:>9}  {:>9}  {:>9}",
        "bytes", "raw", "gzip -9", "brotli 11"
    )];
    lines.extend(rows.iter().chain([&total]).map(|row| {
        format!(
            "{:wide$}  {:>9}  {:>9}  {:>9}",
            row.name, row.raw, row.gzip, row.brotli
        )
    }));
    lines.join("\n")
}

/// The page, the texts of the language, and every file whose name stands in quotes in a text that
/// is loaded: a superset of what the browser fetches, never less, as long as names are written out
/// whole.
fn first_visit(
    dist: &Path,
    all: &BTreeSet<String>,
    language: Language,
) -> Result<BTreeSet<String>> {
    let mut loaded = BTreeSet::new();
    let mut waiting = vec!["index.html".to_owned()];
    waiting.push(texts::with_the_page(language));
    while let Some(name) = waiting.pop() {
        let path = dist.join(&name);
        if is_text(&path) {
            let text = fs::read_to_string(&path)
                .with_context(|| format!("{} cannot be read; build first.", path.display()))?;
            waiting.extend(mentioned(&text, all).into_iter().filter(|other| {
                !loaded.contains(other) && *other != name && !AFTERWARDS.contains(&other.as_str())
            }));
        }
        loaded.insert(name);
    }
    Ok(loaded)
}

fn mentioned(text: &str, names: &BTreeSet<String>) -> Vec<String> {
    let quoted: BTreeSet<_> = text
        .split(['"', '\'', '`', '(', ')'])
        .map(|word| word.strip_prefix("./").unwrap_or(word))
        .collect();
    names
        .iter()
        .filter(|name| quoted.contains(name.as_str()))
        .cloned()
        .collect()
}

fn is_text(path: &Path) -> bool {
    path.extension()
        .and_then(|ending| ending.to_str())
        .is_some_and(|ending| matches!(ending, "html" | "js" | "css" | "webmanifest" | "json"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(list: &[&str]) -> BTreeSet<String> {
        list.iter().map(|name| (*name).to_owned()).collect()
    }

    #[test]
    fn files_are_known_by_their_whole_names() {
        let all = names(&["app.js", "app_bg.wasm", "p.js", "style.css", "icons/a.png"]);
        let page = r#"<link href="./style.css"><script src="app.js"></script>"#;
        assert_eq!(mentioned(page, &all), ["app.js", "style.css"]);
        assert_eq!(
            mentioned("new URL('./app_bg.wasm', import.meta.url)", &all),
            ["app_bg.wasm"]
        );
        assert_eq!(
            mentioned("a { background: url(icons/a.png) }", &all),
            ["icons/a.png"]
        );
    }

    #[test]
    fn a_first_visit_follows_what_is_mentioned() {
        let dist = std::env::temp_dir().join(format!("sideworth-size-{}", std::process::id()));
        fs::create_dir_all(dist.join("texts")).expect("temporary folder");
        for (name, text) in [
            ("index.html", r#"<script src="./boot.js">"#),
            (
                "boot.js",
                r#"import "./app.js"; "./boot.js"; "index.html"; "service-worker.js""#,
            ),
            ("app.js", r#"fetch("app.wasm")"#),
            ("app.wasm", "\0"),
            ("service-worker.js", r#"{ "more.js": "" }"#),
            ("more.js", ""),
            ("app.js.map", ""),
            ("texts/fr-page.txt", "Bonjour"),
            ("texts/fr-rest.txt", "Et plus"),
            ("texts/es-page.txt", "Hola"),
        ] {
            fs::write(dist.join(name), text).expect("write");
        }
        let all = files_below(&dist).expect("list");
        let loaded = first_visit(&dist, &all, Language::French).expect("follow");
        fs::remove_dir_all(&dist).expect("clean up");
        assert_eq!(all.len(), 10);
        assert_eq!(
            loaded,
            names(&[
                "app.js",
                "app.wasm",
                "boot.js",
                "index.html",
                "texts/fr-page.txt",
            ])
        );
    }

    #[test]
    fn compression_is_measured() {
        let row = Row::measure("zeros", &[0; 10_000]).expect("in memory");
        assert_eq!(row.raw, 10_000);
        assert!(row.gzip < 100 && row.brotli < 100);
        assert!(row.gzip > 0 && row.brotli > 0);
    }
}
