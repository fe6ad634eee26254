//! Reads and checks the data files and packs them for the app, so that a fault
//! in one stops the build with file and line and the app needs no reader.

use std::path::PathBuf;
use std::{env, fs};

use carcass::Catalogue;

fn main() {
    // Cargo runs this anew when the crate that holds the data has changed.
    println!("cargo::rerun-if-changed=build.rs");
    if let Err(error) = pack() {
        println!("cargo::error={error}");
    }
}

fn pack() -> Result<(), Box<dyn std::error::Error>> {
    let folder = env::var_os("OUT_DIR").ok_or("cargo names no folder to write to")?;
    let folder = PathBuf::from(folder);
    let catalogue = Catalogue::published()?;
    // The worker has all of it, the page what a verdict takes.
    fs::write(folder.join("catalogue.packed"), catalogue.packed())?;
    fs::write(folder.join("brief.packed"), catalogue.brief().packed())?;
    Ok(())
}
