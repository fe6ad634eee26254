//! Shorter names for what the compiled app takes in from its script, and for the
//! closures that it hands out to it. Those that come with the bindings carry hashes,
//! which no compression makes smaller.

use anyhow::{Result, ensure};
use wasm_encoder::reencode::{Error, Reencode, utils};
use wasm_encoder::{ExportSection, ImportSection, Module};
use wasmparser::{Export, Import, Parser};

/// In the names of closures that are handed out.
const CLOSURES: &str = "convert__closures";

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
    let mut names: Vec<_> = [names.taken_in, names.handed_out]
        .iter()
        .flat_map(|names| names.iter().enumerate())
        .map(|(index, long)| (long.clone(), short(index)))
        .collect();
    // A name may be the beginning of another.
    names.sort_by_key(|(long, _)| std::cmp::Reverse(long.len()));
    for (long, short) in names {
        let there = script.matches(long.as_str()).count();
        ensure!(there == 1, "“{long}” is {there} times in the script.");
        script = script.replace(&long, &short);
    }
    Ok((module.finish(), script))
}

/// The long names in the order in which they come.
#[derive(Default)]
struct Names {
    taken_in: Vec<String>,
    handed_out: Vec<String>,
}

impl Reencode for Names {
    type Error = core::convert::Infallible;

    fn parse_import(
        &mut self,
        imports: &mut ImportSection,
        import: Import<'_>,
    ) -> Result<(), Error<Self::Error>> {
        let name = short(self.taken_in.len());
        self.taken_in.push(import.name.to_owned());
        let renamed = Import {
            name: &name,
            ..import
        };
        utils::parse_import(self, imports, renamed)
    }

    fn parse_export(
        &mut self,
        exports: &mut ExportSection,
        export: Export<'_>,
    ) -> Result<(), Error<Self::Error>> {
        if !export.name.contains(CLOSURES) {
            return utils::parse_export(self, exports, export);
        }
        let name = short(self.handed_out.len());
        self.handed_out.push(export.name.to_owned());
        let renamed = Export {
            name: &name,
            ..export
        };
        utils::parse_export(self, exports, renamed)
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
    use wasm_encoder::{EntityType, ExportKind, TypeSection};

    use super::*;

    fn module(taken_in: &[&str], handed_out: &[&str]) -> Vec<u8> {
        let mut types = TypeSection::new();
        types.ty().function([], []);
        let mut imports = ImportSection::new();
        for name in taken_in {
            imports.import("./app_bg.js", name, EntityType::Function(0));
        }
        let mut exports = ExportSection::new();
        for name in handed_out {
            exports.export(name, ExportKind::Func, 0);
        }
        let mut module = Module::new();
        module.section(&types).section(&imports).section(&exports);
        module.finish()
    }

    #[test]
    fn both_files_get_the_same_names() {
        let wasm = module(
            &["__wbg_append_1f", "__wbg_set_2e"],
            &["memory", "b_convert__closures_1", "b_convert__closures_12"],
        );
        let script = "({\"./app_bg.js\":{__wbg_set_2e:f,__wbg_append_1f:g}});\
            w.memory;w.b_convert__closures_12();w.b_convert__closures_1()";
        let (wasm, script) = shortened(&wasm, script).unwrap();
        assert_eq!(wasm, module(&["a", "b"], &["memory", "a", "b"]));
        assert_eq!(script, "({\"./app_bg.js\":{b:f,a:g}});w.memory;w.b();w.a()");
    }

    #[test]
    fn files_that_do_not_go_together_are_refused() {
        let wasm = module(&["__wbg_append_1f"], &[]);
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
