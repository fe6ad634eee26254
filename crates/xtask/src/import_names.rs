//! Shorter names for what the compiled app takes in from its script. Those that
//! come with the bindings carry a hash each, which no compression makes smaller.

use anyhow::{Result, ensure};
use wasm_encoder::reencode::{Error, Reencode, utils};
use wasm_encoder::{ImportSection, Module};
use wasmparser::{Import, Parser};

/// The compiled app and its script with short names in place of long ones.
///
/// # Errors
/// When the file cannot be read, or a name is not in the script just once:
/// then the two would not go together.
pub fn shortened(wasm: &[u8], script: &str) -> Result<(Vec<u8>, String)> {
    let mut names = Names::default();
    let mut module = Module::new();
    names
        .parse_core_module(&mut module, Parser::new(0), wasm)
        .map_err(|error| anyhow::anyhow!("The compiled app cannot be read: {error}."))?;
    let mut script = script.to_owned();
    for (index, long) in names.long.iter().enumerate() {
        let there = script.matches(long.as_str()).count();
        ensure!(there == 1, "“{long}” is {there} times in the script.");
        script = script.replace(long, &short(index));
    }
    Ok((module.finish(), script))
}

/// The long names in the order in which they come.
#[derive(Default)]
struct Names {
    long: Vec<String>,
}

impl Reencode for Names {
    type Error = core::convert::Infallible;

    fn parse_import(
        &mut self,
        imports: &mut ImportSection,
        import: Import<'_>,
    ) -> Result<(), Error<Self::Error>> {
        let name = short(self.long.len());
        self.long.push(import.name.to_owned());
        let renamed = Import {
            name: &name,
            ..import
        };
        utils::parse_import(self, imports, renamed)
    }
}

/// Letters counted up: a, b, …, z, aa, ab, …
fn short(index: usize) -> String {
    let last = char::from(b'a' + u8::try_from(index % 26).unwrap_or_default());
    match index / 26 {
        0 => last.to_string(),
        before => short(before - 1) + &last.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use wasm_encoder::{EntityType, TypeSection};

    use super::*;

    fn taking_in(names: &[&str]) -> Vec<u8> {
        let mut types = TypeSection::new();
        types.ty().function([], []);
        let mut imports = ImportSection::new();
        for name in names {
            imports.import("./app_bg.js", name, EntityType::Function(0));
        }
        let mut module = Module::new();
        module.section(&types).section(&imports);
        module.finish()
    }

    #[test]
    fn both_files_get_the_same_names() {
        let wasm = taking_in(&["__wbg_append_1f", "__wbg_set_2e"]);
        let script = "({\"./app_bg.js\":{__wbg_set_2e:f,__wbg_append_1f:g}})";
        let (wasm, script) = shortened(&wasm, script).unwrap();
        assert_eq!(wasm, taking_in(&["a", "b"]));
        assert_eq!(script, "({\"./app_bg.js\":{b:f,a:g}})");
    }

    #[test]
    fn files_that_do_not_go_together_are_refused() {
        let wasm = taking_in(&["__wbg_append_1f"]);
        assert!(shortened(&wasm, "({})").is_err());
        assert!(shortened(b"no module", "").is_err());
    }

    #[test]
    fn no_two_names_are_the_same() {
        let mut names: Vec<String> = (0..2000).map(short).collect();
        assert_eq!(names[25..28], ["z", "aa", "ab"]);
        names.sort();
        names.dedup();
        assert_eq!(names.len(), 2000);
    }
}
