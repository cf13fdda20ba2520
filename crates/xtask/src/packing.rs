//! Puts a built module into a form that packs well: the same program, fewer bytes to send.
//!
//! - Functions stand in the order of their bytes, so that like stands beside like. What a coding finds alike nearby costs
//!   less: 12 kB of 700.
//! - What module and glue call each other by is a short name. The long ones end in 64 bits of a hash, which no coding can
//!   make shorter: 6 kB.
//! - What a library gives out for streams, and nobody here takes, is gone with all that it alone needs: 3 kB.
//! - The glue has neither comments nor indentation: 1 kB.
//! - The names of functions are gone, which the module's parts have otherwise: 180 kB of what is kept.

use anyhow::{Context, Result, anyhow};
use std::collections::BTreeMap;
use std::convert::Infallible;
use wasm_encoder::reencode::{Error, Reencode};
use wasm_encoder::{CodeSection, FunctionSection, ImportSection, Module};
use wasmparser::{
    CodeSectionReader, CustomSectionReader, FunctionBody, FunctionSectionReader,
    ImportSectionReader, Parser, Payload, TypeRef,
};

/// A module and the JavaScript that loads it.
pub struct Pair {
    pub module: Vec<u8>,
    pub glue: String,
}

/// The same pair, easier to pack.
///
/// # Errors
/// The module is none, or it asks for what the glue does not have.
pub fn pack(pair: &Pair) -> Result<Pair> {
    arranged(&Pair {
        module: without_streams(&pair.module)?,
        glue: pair.glue.clone(),
    })
}

fn arranged(pair: &Pair) -> Result<Pair> {
    let names = short_names(&Parts::of(&pair.module)?.imports);
    for name in names.keys() {
        anyhow::ensure!(pair.glue.contains(name), "the glue has no {name}");
    }
    Ok(Pair {
        module: in_order(&pair.module, &names)?,
        glue: bare(&renamed(&pair.glue, &names))?,
    })
}

/// A module with its functions in the order of their bytes, and with other names for what it asks for.
///
/// # Errors
/// The module is none.
pub fn in_order(bytes: &[u8], names: &BTreeMap<&str, String>) -> Result<Vec<u8>> {
    let parts = Parts::of(bytes)?;
    let mut order: Vec<usize> = (0..parts.bodies.len()).collect();
    order.sort_by_key(|i| parts.bodies[*i].as_bytes());
    let mut place = vec![0; order.len()];
    for (at, i) in order.iter().enumerate() {
        place[*i] = u32::try_from(at)?;
    }
    let mut module = Module::new();
    Packer {
        parts: &parts,
        names,
        order: &order,
        place: &place,
    }
    .parse_core_module(&mut module, Parser::new(0), bytes)
    .map_err(|e| anyhow!("{e}"))
    .context("the module could not be put in order")?;
    Ok(module.finish())
}

/// The names that wasm-streams exports its classes under; leptos brings it along for answers of servers.
const STREAMS: [&str; 2] = ["intounderlying", "__wbg_intounderlying"];

/// The module without what only the streams' exports reach.
fn without_streams(module: &[u8]) -> Result<Vec<u8>> {
    let mut module = walrus::Module::from_buffer(module)?;
    let taken = |e: &&walrus::Export| STREAMS.iter().any(|s| e.name.starts_with(s));
    let gone: Vec<_> = module
        .exports
        .iter()
        .filter(taken)
        .map(|e| e.id())
        .collect();
    for export in gone {
        module.exports.delete(export);
    }
    walrus::passes::gc::run(&mut module);
    Ok(module.emit_wasm())
}

/// Whether a line of the glue begins one of the streams' classes, and how its last line begins or ends.
fn stream_class(line: &str) -> Option<fn(&str) -> bool> {
    let class: fn(&str) -> bool = |l| l.starts_with("if (Symbol.dispose)");
    let finalizer: fn(&str) -> bool = |l| l.ends_with(';');
    match line {
        _ if line.starts_with("export class IntoUnderlying") => Some(class),
        _ if line.starts_with("const IntoUnderlying") => Some(finalizer),
        _ => None,
    }
}

/// What the order of a module's functions hangs on.
struct Parts<'a> {
    /// Names of the functions that come from outside, which stand before the module's own.
    imports: Vec<&'a str>,
    /// The type of each of its own.
    types: Vec<u32>,
    bodies: Vec<FunctionBody<'a>>,
}

impl<'a> Parts<'a> {
    fn of(module: &'a [u8]) -> Result<Self> {
        let mut parts = Self {
            imports: Vec::new(),
            types: Vec::new(),
            bodies: Vec::new(),
        };
        for payload in Parser::new(0).parse_all(module) {
            match payload? {
                Payload::ImportSection(section) => {
                    for import in section.into_imports() {
                        let import = import?;
                        if matches!(import.ty, TypeRef::Func(_)) {
                            parts.imports.push(import.name);
                        }
                    }
                }
                Payload::FunctionSection(section) => {
                    for of in section {
                        parts.types.push(of?);
                    }
                }
                Payload::CodeSectionEntry(body) => parts.bodies.push(body),
                _ => {}
            }
        }
        Ok(parts)
    }
}

/// A short name for each long one.
fn short_names<'a>(imports: &[&'a str]) -> BTreeMap<&'a str, String> {
    let hash = |name: &str| {
        name.rsplit_once('_')
            .is_some_and(|(_, end)| end.len() == 16 && end.bytes().all(|b| b.is_ascii_hexdigit()))
    };
    let long = imports.iter().filter(|n| n.starts_with("__wb") && hash(n));
    long.enumerate()
        .map(|(i, name)| (*name, format!("__w{i}")))
        .collect()
}

/// A script with other names. A name is taken whole: none of them is a part of a longer one.
fn renamed(script: &str, names: &BTreeMap<&str, String>) -> String {
    let in_name = |c: char| c == '_' || c == '$' || c.is_alphanumeric();
    let mut out = String::with_capacity(script.len());
    let mut rest = script;
    while let Some(start) = rest.find(in_name) {
        let (before, from) = rest.split_at(start);
        let end = from.find(|c| !in_name(c)).unwrap_or(from.len());
        let (name, after) = from.split_at(end);
        out.push_str(before);
        out.push_str(names.get(name).map_or(name, String::as_str));
        rest = after;
    }
    out.push_str(rest);
    out
}

/// A script without the comments on its functions and without indentation.
///
/// # Errors
/// A text goes over several lines: what stands before its lines is a part of it.
fn bare(script: &str) -> Result<String> {
    let mut out = String::with_capacity(script.len());
    let mut in_comment = false;
    let mut until: Option<fn(&str) -> bool> = None;
    for line in script.lines().map(str::trim) {
        until = until.or_else(|| stream_class(line));
        if let Some(last) = until {
            if last(line) {
                until = None;
            }
            continue;
        }
        anyhow::ensure!(
            in_comment || line.matches('`').count() % 2 == 0,
            "a text over several lines in the glue: {line}"
        );
        let comment = in_comment || line.starts_with("/**");
        in_comment = comment && !line.ends_with("*/");
        if !comment && !line.is_empty() {
            out.push_str(line);
            out.push('\n');
        }
    }
    Ok(out)
}

struct Packer<'a> {
    parts: &'a Parts<'a>,
    names: &'a BTreeMap<&'a str, String>,
    /// The functions in their new order.
    order: &'a [usize],
    /// The place of each in it.
    place: &'a [u32],
}

impl Reencode for Packer<'_> {
    type Error = Infallible;

    fn function_index(&mut self, function: u32) -> Result<u32, Error<Infallible>> {
        let outside = self.parts.imports.len();
        Ok(match (function as usize).checked_sub(outside) {
            Some(own) => outside as u32 + self.place[own],
            None => function,
        })
    }

    fn parse_import_section(
        &mut self,
        out: &mut ImportSection,
        section: ImportSectionReader<'_>,
    ) -> Result<(), Error<Infallible>> {
        for import in section.into_imports() {
            let import = import?;
            let name = self.names.get(import.name).map_or(import.name, |n| n);
            out.import(import.module, name, self.entity_type(import.ty)?);
        }
        Ok(())
    }

    fn parse_function_section(
        &mut self,
        out: &mut FunctionSection,
        _section: FunctionSectionReader<'_>,
    ) -> Result<(), Error<Infallible>> {
        for i in self.order {
            out.function(self.parts.types[*i]);
        }
        Ok(())
    }

    /// Names of functions and the like are for people, weigh as much as half of the code, and the functions have other places now.
    fn parse_custom_section(
        &mut self,
        _out: &mut Module,
        _section: CustomSectionReader<'_>,
    ) -> Result<(), Error<Infallible>> {
        Ok(())
    }

    fn parse_code_section(
        &mut self,
        out: &mut CodeSection,
        _section: CodeSectionReader<'_>,
    ) -> Result<(), Error<Infallible>> {
        for i in self.order {
            self.parse_function_body(out, self.parts.bodies[*i].clone())?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_encoder::{
        EntityType, ExportKind, ExportSection, Function, FunctionSection, TypeSection,
    };

    const LONG: &str = "__wbg_beep_0123456789abcdef";

    /// A module of two functions: `last` calls `first`, and `first` a function from outside. `last` has the lower bytes.
    fn module() -> Vec<u8> {
        let mut types = TypeSection::new();
        types.ty().function([], []);
        let mut imports = ImportSection::new();
        imports.import("./glue.js", LONG, EntityType::Function(0));
        imports.import("./glue.js", "plain", EntityType::Function(0));
        let mut functions = FunctionSection::new();
        functions.function(0).function(0);
        let mut exports = ExportSection::new();
        exports.export("first", ExportKind::Func, 2);
        exports.export("last", ExportKind::Func, 3);
        let mut code = CodeSection::new();
        let mut first = Function::new([(1, wasm_encoder::ValType::I32)]);
        first.instructions().call(0).end();
        let mut last = Function::new([]);
        last.instructions().call(2).end();
        code.function(&first).function(&last);
        let mut module = Module::new();
        module.section(&types).section(&imports).section(&functions);
        module.section(&exports).section(&code);
        module.finish()
    }

    fn calls(module: &[u8]) -> Vec<u32> {
        let bodies = Parts::of(module).unwrap().bodies;
        let operators = bodies
            .iter()
            .flat_map(|b| b.get_operators_reader().unwrap());
        operators
            .filter_map(|o| match o.unwrap() {
                wasmparser::Operator::Call { function_index } => Some(function_index),
                _ => None,
            })
            .collect()
    }

    fn exports(module: &[u8]) -> Vec<(String, u32)> {
        let sections = Parser::new(0).parse_all(module);
        let of = sections.filter_map(|p| match p.unwrap() {
            Payload::ExportSection(s) => Some(s),
            _ => None,
        });
        of.flatten()
            .map(|e| e.map(|e| (e.name.to_owned(), e.index)).unwrap())
            .collect()
    }

    #[test]
    fn functions_change_places_and_calls_follow() {
        let glue = format!("/** Beeps. */\n  imports = {{ {LONG}: beep, {LONG}a: boop, plain }};");
        let module = module();
        assert_eq!(calls(&module), [0, 2]);
        let packed = arranged(&Pair { module, glue }).unwrap();
        assert_eq!(
            exports(&packed.module),
            [("first".into(), 3), ("last".into(), 2)]
        );
        assert_eq!(calls(&packed.module), [3, 0]);
        assert_eq!(
            Parts::of(&packed.module).unwrap().imports,
            ["__w0", "plain"]
        );
        assert_eq!(
            packed.glue,
            format!("imports = {{ __w0: beep, {LONG}a: boop, plain }};\n")
        );
    }

    #[test]
    fn what_is_for_people_is_gone() {
        let mut named = module();
        // A section of its own kind: its length, that of its name, its name.
        named.extend_from_slice(b"\x00\x06\x04nameX");
        let sections = |module: &[u8]| {
            let all = Parser::new(0).parse_all(module);
            all.filter(|p| matches!(p, Ok(Payload::CustomSection(_))))
                .count()
        };
        assert_eq!(sections(&named), 1);
        let packed = in_order(&named, &BTreeMap::new()).unwrap();
        assert_eq!(sections(&packed), 0);
        assert_eq!(
            calls(&packed),
            calls(&in_order(&module(), &BTreeMap::new()).unwrap())
        );
    }

    #[test]
    fn classes_of_streams_are_gone() {
        let glue = "export class IntoUnderlyingSink {\n  free() {\n  }\n}\nif (Symbol.dispose) IntoUnderlyingSink.x;\n\
             export class Kept {\n}\nconst IntoUnderlyingSinkFinalization = (a)\n? b\n: c;\nlast();\n";
        assert_eq!(bare(glue).unwrap(), "export class Kept {\n}\nlast();\n");
        let mut with = walrus::Module::from_buffer(&module()).unwrap();
        let first = with.exports.get_func("first").unwrap();
        with.exports.add("intounderlyingsink_close", first);
        let without = without_streams(&with.emit_wasm()).unwrap();
        assert_eq!(exports(&without).len(), 2);
    }

    #[test]
    fn a_text_over_several_lines_is_refused() {
        assert!(bare("let a = `b\n  c`;").is_err());
        assert_eq!(bare("a\n/**\n * b`\n */\n  c // d").unwrap(), "a\nc // d\n");
    }

    #[test]
    fn a_glue_that_lacks_a_name_is_refused() {
        let glue = "plain".to_owned();
        assert!(
            arranged(&Pair {
                module: module(),
                glue
            })
            .is_err()
        );
    }
}
