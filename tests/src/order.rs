//! The order of the code: which module knows which, as the sources say it, held against the order that
//! DEVELOPERS.md draws.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::path::Path;
use syn::visit::{self, Visit};

/// A module as the path from its crate's root; the root itself is empty.
pub type Module = Vec<String>;

/// One module names another.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Arrow {
    /// The file's module.
    pub from: Module,
    /// What it names, as far as it is a path of modules and items.
    pub to: Vec<String>,
}

/// What breaks the order.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Broken {
    /// A module knows one that stands after it.
    Back {
        /// Who knows.
        from: String,
        /// Whom.
        to: String,
    },
    /// A module stands nowhere in the order.
    Unlisted(String),
    /// Files that know each other in a circle.
    Circle(Vec<String>),
}

impl fmt::Display for Broken {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Back { from, to } => write!(f, "{from} knows {to}, which stands after it"),
            Self::Unlisted(module) => write!(f, "{module} stands nowhere in the order"),
            Self::Circle(files) => write!(f, "a circle: {}", files.join(" → ")),
        }
    }
}

/// The order of one crate's modules, as a line of DEVELOPERS.md draws it: names set apart by `·` or commas, a folder's
/// module with a slash.
pub fn drawn(line: &str) -> Vec<String> {
    line.split(['·', ','])
        .map(|name| name.trim().to_string())
        .filter(|name| !name.is_empty())
        .collect()
}

/// The line of a text that begins with `name` and a colon, without those; a line that begins with white space goes on.
pub fn line_of(text: &str, name: &str) -> Option<String> {
    let mut lines = text.lines();
    let first = lines.find_map(|l| l.strip_prefix(name)?.strip_prefix(':'))?;
    let more = lines.take_while(|l| l.starts_with(' '));
    Some(std::iter::once(first).chain(more).collect::<String>())
}

/// Every Rust source below a folder, with its module's path.
///
/// # Errors
/// A folder or file that can't be read.
pub fn sources(src: &Path) -> std::io::Result<Vec<(Module, String)>> {
    fn walk(folder: &Path, at: &Module, out: &mut Vec<(Module, String)>) -> std::io::Result<()> {
        for entry in std::fs::read_dir(folder)? {
            let path = entry?.path();
            let stem = path.file_stem().unwrap_or_default().to_string_lossy();
            let mut module = at.clone();
            if path.is_dir() {
                module.push(stem.into_owned());
                walk(&path, &module, out)?;
            } else if path.extension().is_some_and(|e| e == "rs") {
                if !matches!(&*stem, "lib" | "main" | "mod") {
                    module.push(stem.into_owned());
                }
                out.push((module, std::fs::read_to_string(&path)?));
            }
        }
        Ok(())
    }
    let mut out = Vec::new();
    walk(src, &Vec::new(), &mut out)?;
    out.sort();
    Ok(out)
}

/// Whom one source names within its crate. What only its tests name does not count.
///
/// # Errors
/// A source that is no Rust.
pub fn arrows(module: &Module, source: &str) -> syn::Result<BTreeSet<Arrow>> {
    let file = syn::parse_file(source)?;
    let mut names = Names {
        module,
        out: BTreeSet::new(),
    };
    names.visit_file(&file);
    Ok(names.out)
}

struct Names<'a> {
    module: &'a Module,
    out: BTreeSet<Arrow>,
}

impl Names<'_> {
    /// Takes a path down if it begins within the crate.
    fn take(&mut self, path: &[String]) {
        let mut at: Module = match path.first().map(String::as_str) {
            Some("crate") => Vec::new(),
            Some("self" | "super") => self.module.clone(),
            _ => return,
        };
        for name in path.iter() {
            match name.as_str() {
                "crate" | "self" => {}
                "super" => {
                    at.pop();
                }
                name => at.push(name.to_string()),
            }
        }
        self.out.insert(Arrow {
            from: self.module.clone(),
            to: at,
        });
    }

    fn tree(&mut self, before: &mut Vec<String>, tree: &syn::UseTree) {
        match tree {
            syn::UseTree::Path(path) => {
                before.push(path.ident.to_string());
                self.tree(before, &path.tree);
                before.pop();
            }
            syn::UseTree::Group(group) => {
                for tree in &group.items {
                    self.tree(before, tree);
                }
            }
            syn::UseTree::Name(syn::UseName { ident })
            | syn::UseTree::Rename(syn::UseRename { ident, .. }) => {
                before.push(ident.to_string());
                self.take(before);
                before.pop();
            }
            syn::UseTree::Glob(_) => self.take(before),
        }
    }

    /// Paths in what a macro is given: names joined by double colons.
    fn tokens(&mut self, tokens: proc_macro2::TokenStream) {
        let mut path: Vec<String> = Vec::new();
        let mut colons = 0;
        for token in tokens {
            match token {
                proc_macro2::TokenTree::Ident(name) => {
                    if colons != 2 {
                        self.take(&path);
                        path.clear();
                    }
                    path.push(name.to_string());
                    colons = 0;
                }
                proc_macro2::TokenTree::Punct(p) if p.as_char() == ':' => colons += 1,
                other => {
                    self.take(&std::mem::take(&mut path));
                    colons = 0;
                    if let proc_macro2::TokenTree::Group(group) = other {
                        self.tokens(group.stream());
                    }
                }
            }
        }
        self.take(&path);
    }
}

fn is_test(attributes: &[syn::Attribute]) -> bool {
    attributes.iter().any(|a| {
        a.path().is_ident("cfg")
            && a.parse_args::<syn::Ident>()
                .is_ok_and(|what| what == "test")
    })
}

impl<'ast> Visit<'ast> for Names<'_> {
    fn visit_item_mod(&mut self, item: &'ast syn::ItemMod) {
        if !is_test(&item.attrs) {
            visit::visit_item_mod(self, item);
        }
    }

    fn visit_item_use(&mut self, item: &'ast syn::ItemUse) {
        self.tree(&mut Vec::new(), &item.tree);
    }

    fn visit_path(&mut self, path: &'ast syn::Path) {
        let names: Vec<String> = path.segments.iter().map(|s| s.ident.to_string()).collect();
        self.take(&names);
        visit::visit_path(self, path);
    }

    fn visit_macro(&mut self, mac: &'ast syn::Macro) {
        self.tokens(mac.tokens.clone());
        visit::visit_macro(self, mac);
    }
}

/// What breaks an order: arrows that run back, modules that stand nowhere in it, files in a circle.
pub fn broken(order: &[String], modules: &[Module], arrows: &BTreeSet<Arrow>) -> Vec<Broken> {
    let place = |path: &[String]| {
        (1..=path.len()).rev().find_map(|n| {
            let name = path[..n].join("/");
            order.iter().position(|o| *o == name)
        })
    };
    let mut out = BTreeSet::new();
    for module in modules.iter().filter(|m| !m.is_empty()) {
        let holds_listed = order
            .iter()
            .any(|o| o.starts_with(&format!("{}/", module.join("/"))));
        if place(module).is_none() && !holds_listed {
            out.insert(Broken::Unlisted(module.join("/")));
        }
    }
    for arrow in arrows {
        // The root, and a folder that only holds listed modules, gathers them all: it may name any.
        if let (Some(from), Some(to)) = (place(&arrow.from), place(&arrow.to))
            && from < to
        {
            out.insert(Broken::Back {
                from: arrow.from.join("/"),
                to: arrow.to.join("/"),
            });
        }
    }
    let mut out: Vec<Broken> = out.into_iter().collect();
    out.extend(circle(modules, arrows).map(Broken::Circle));
    out
}

/// A circle of files that know each other, if there is one. A folder's own file gathers the folder: what runs between it
/// and its files does not count.
fn circle(modules: &[Module], arrows: &BTreeSet<Arrow>) -> Option<Vec<String>> {
    let known: BTreeSet<&[String]> = modules.iter().map(Vec::as_slice).collect();
    let mut next: BTreeMap<&[String], BTreeSet<&[String]>> = BTreeMap::new();
    for arrow in arrows {
        let to = (0..=arrow.to.len())
            .rev()
            .map(|n| &arrow.to[..n])
            .find(|m| known.contains(m));
        let from = arrow.from.as_slice();
        if let Some(to) = to
            && !to.starts_with(from)
            && !from.starts_with(to)
        {
            next.entry(from).or_default().insert(to);
        }
    }
    // Modules from which every way ends are taken off until only circles are left.
    while let Some(end) = next
        .iter()
        .find(|(_, to)| to.iter().all(|t| !next.contains_key(t)))
        .map(|(from, _)| *from)
    {
        next.remove(end);
    }
    let first = *next.keys().next()?;
    let mut way = vec![first];
    loop {
        let here = way[way.len() - 1];
        let to = *next[here].iter().find(|t| next.contains_key(*t))?;
        if let Some(i) = way.iter().position(|w| *w == to) {
            way.push(to);
            return Some(way[i..].iter().map(|m| m.join("/")).collect());
        }
        way.push(to);
    }
}
