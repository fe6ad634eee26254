//! The functions of the compiled app in an order that compresses well. A browser
//! gets the file with gzip, which looks for repeats in the 32 kilobytes before a
//! place (RFC 1951, 2.1): functions that are alike have to stand near each other.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use anyhow::Result;
use wasm_encoder::reencode::{Error, Reencode, utils};
use wasm_encoder::{CodeSection, FunctionSection, Module};
use wasmparser::{CodeSectionReader, FunctionSectionReader, Parser, Payload, TypeRef};

/// So many bytes in a row are what two functions may have in common. All figures
/// here were found by trying, on the app and its worker.
const RUN: usize = 5;

/// A run that more functions have tells nothing of which of them are alike.
const MOST_WITH_A_RUN: usize = 60;

/// How much of what counts for a function is left after so many bytes of others.
const FADES_TO: f64 = 0.95;
const FADES_OVER: f64 = 200.0;

/// What a function of no length would fade by, in bytes: there is always a head.
const HEAD: f64 = 60.0;

/// Runs in common are held against this power of the function's length, so that
/// neither long nor short ones always come first.
const BY_LENGTH: f64 = 0.6;

/// The same program with its functions in another order.
///
/// # Errors
/// When the file cannot be read.
pub fn reordered(wasm: &[u8]) -> Result<Vec<u8>> {
    let (imported, bodies) = functions(wasm)?;
    let order = alike_together(&bodies);
    let mut places = vec![0; order.len()];
    for (place, function) in order.iter().enumerate() {
        places[*function] = u32::try_from(place)?;
    }
    let mut module = Module::new();
    Reorder {
        imported,
        order,
        places,
    }
    .parse_core_module(&mut module, Parser::new(0), wasm)
    .map_err(|error| anyhow::anyhow!("The compiled app cannot be read: {error}."))?;
    Ok(module.finish())
}

/// How many functions the file takes in, and the bytes of those that it has.
fn functions(wasm: &[u8]) -> Result<(u32, Vec<&[u8]>)> {
    let mut imported = 0;
    let mut bodies = Vec::new();
    for payload in Parser::new(0).parse_all(wasm) {
        match payload? {
            Payload::ImportSection(imports) => {
                for import in imports {
                    imported += u32::from(matches!(import?.ty, TypeRef::Func(_)));
                }
            }
            Payload::CodeSectionEntry(body) => bodies.push(body.as_bytes()),
            _ => {}
        }
    }
    Ok((imported, bodies))
}

/// An order in which each function follows the one that is most like those just
/// before it; the longest comes first.
fn alike_together(bodies: &[&[u8]]) -> Vec<usize> {
    let mut with_run: BTreeMap<&[u8], Vec<usize>> = BTreeMap::new();
    for (function, body) in bodies.iter().enumerate() {
        for run in body.windows(RUN) {
            let with_it = with_run.entry(run).or_default();
            if with_it.last() != Some(&function) {
                with_it.push(function);
            }
        }
    }
    let mut left: Vec<bool> = vec![true; bodies.len()];
    let mut likeness: BTreeMap<usize, f64> = BTreeMap::new();
    let mut order = Vec::with_capacity(bodies.len());
    let longest = (0..bodies.len()).rev().max_by_key(|it| bodies[*it].len());
    let mut next = longest;
    while let Some(function) = next {
        order.push(function);
        left[function] = false;
        likeness.remove(&function);
        let body = bodies[function];
        let faded = FADES_TO.powf((length(body) + HEAD) / FADES_OVER);
        for likeness in likeness.values_mut() {
            *likeness *= faded;
        }
        let mut runs: Vec<&[u8]> = body.windows(RUN).collect();
        runs.sort_unstable();
        runs.dedup();
        for run in runs {
            let with_it = &with_run[run];
            if with_it.len() > MOST_WITH_A_RUN {
                continue;
            }
            // What few have tells more.
            let weight = 1.0 / length(with_it).sqrt();
            for other in with_it.iter().filter(|other| left[**other]) {
                match likeness.entry(*other) {
                    Entry::Occupied(mut known) => *known.get_mut() += weight,
                    Entry::Vacant(new) => {
                        new.insert(weight);
                    }
                }
            }
        }
        let score = |(function, likeness): (&usize, &f64)| {
            let score = likeness / (length(bodies[*function]) + HEAD).powf(BY_LENGTH);
            (score, *function)
        };
        next = likeness
            .iter()
            .map(score)
            // Of two that are as good the first one, so that a build comes out the same each time.
            .rev()
            .max_by(|one, other| one.0.total_cmp(&other.0))
            .map(|(_, function)| function)
            .or_else(|| left.iter().position(|is_left| *is_left));
    }
    order
}

#[expect(
    clippy::cast_precision_loss,
    reason = "no function is so long that it mattered"
)]
fn length<T>(of: &[T]) -> f64 {
    of.len() as f64
}

struct Reorder {
    /// Functions that are taken in come first and stay where they are.
    imported: u32,
    /// The functions by their new places.
    order: Vec<usize>,
    /// The new places by functions.
    places: Vec<u32>,
}

impl Reencode for Reorder {
    type Error = core::convert::Infallible;

    fn function_index(&mut self, function: u32) -> Result<u32, Error<Self::Error>> {
        let place = function
            .checked_sub(self.imported)
            .and_then(|own| self.places.get(usize::try_from(own).ok()?));
        Ok(place.map_or(function, |place| self.imported + place))
    }

    fn parse_function_section(
        &mut self,
        functions: &mut FunctionSection,
        section: FunctionSectionReader<'_>,
    ) -> Result<(), Error<Self::Error>> {
        let types: Vec<u32> = section.into_iter().collect::<Result<_, _>>()?;
        for function in self.order.clone() {
            functions.function(self.type_index(types[function])?);
        }
        Ok(())
    }

    fn parse_code_section(
        &mut self,
        code: &mut CodeSection,
        section: CodeSectionReader<'_>,
    ) -> Result<(), Error<Self::Error>> {
        let bodies: Vec<_> = section.into_iter().collect::<Result<_, _>>()?;
        for function in self.order.clone() {
            utils::parse_function_body(self, code, bodies[function].clone())?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use wasm_encoder::{
        EntityType, ExportKind, ExportSection, Function, ImportSection, Instruction, TypeSection,
    };

    use super::*;

    /// A program that takes one function in and has as many as are told: each gives its number,
    /// the last one calls the first.
    fn program(numbers: &[i32]) -> Vec<u8> {
        let mut types = TypeSection::new();
        types.ty().function([], []);
        types.ty().function([], [wasm_encoder::ValType::I32]);
        let mut imports = ImportSection::new();
        imports.import("script", "f", EntityType::Function(0));
        let mut functions = FunctionSection::new();
        let mut exports = ExportSection::new();
        let mut code = CodeSection::new();
        for (index, number) in (1..).zip(numbers) {
            functions.function(1);
            exports.export(&number.to_string(), ExportKind::Func, index);
            let mut body = Function::new([]);
            for _ in 0..index {
                body.instruction(&Instruction::I32Const(*number));
                body.instruction(&Instruction::Drop);
            }
            body.instruction(&Instruction::Call(0));
            body.instruction(&Instruction::Call(1));
            body.instruction(&Instruction::End);
            code.function(&body);
        }
        let mut module = Module::new();
        module
            .section(&types)
            .section(&imports)
            .section(&functions)
            .section(&exports)
            .section(&code);
        module.finish()
    }

    /// The functions by the names under which they are handed out: their bytes, and what of the
    /// program's own they call.
    fn by_name(wasm: &[u8]) -> BTreeMap<String, (usize, Vec<String>)> {
        let mut names = BTreeMap::new();
        let mut bodies = Vec::new();
        for payload in Parser::new(0).parse_all(wasm) {
            match payload.unwrap() {
                Payload::ExportSection(exports) => {
                    for export in exports {
                        let export = export.unwrap();
                        names.insert(export.index, export.name.to_owned());
                    }
                }
                Payload::CodeSectionEntry(body) => bodies.push(body),
                _ => {}
            }
        }
        names
            .iter()
            .map(|(index, name)| {
                let body = &bodies[usize::try_from(*index).unwrap() - 1];
                let calls = body.get_operators_reader().unwrap().into_iter();
                let calls = calls.filter_map(|operator| match operator.unwrap() {
                    wasmparser::Operator::Call { function_index } => {
                        Some(names.get(&function_index).cloned().unwrap_or_default())
                    }
                    _ => None,
                });
                (name.clone(), (body.as_bytes().len(), calls.collect()))
            })
            .collect()
    }

    #[test]
    fn the_program_stays_the_same_and_what_is_alike_stands_together() {
        let wasm = program(&[111_111, 7, 111_111 + 1, 8, 9]);
        let after = reordered(&wasm).unwrap();
        assert_ne!(after, wasm);
        assert_eq!(by_name(&after), by_name(&wasm));
        assert_eq!(reordered(&wasm).unwrap(), after);
    }

    #[test]
    fn alike_functions_follow_each_other() {
        let a: &[u8] = b"the quick brown fox jumps over the lazy dog";
        let b: &[u8] = b"0123456789abcdefghijklmnopqrstuv";
        let c: &[u8] = b"the quick brown cat jumps over the lazy dog!!";
        assert_eq!(alike_together(&[a, b, c]), [2, 0, 1]);
        assert_eq!(alike_together(&[b, a]), [1, 0]);
        assert_eq!(alike_together(&[]), [0_usize; 0]);
    }

    #[test]
    fn what_is_no_program_is_refused() {
        assert!(reordered(b"no module").is_err());
    }
}
