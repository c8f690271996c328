//! Constants with their sources: every figure that the core offers stands in its register, and none is without a word
//! on what it is.

use super::Fault;
use super::scan::{Token, tokens};
use super::tree::{File, Tree};

const CORE: &str = "crate/core/src/";
const REGISTER: &str = "crate/core/src/sources/";

/// Every public figure that the register does not name, and every figure that nothing is said of.
pub fn check(tree: &Tree) -> Vec<Fault> {
    let in_core = |file: &&File| {
        let tests = file.path.ends_with("tests.rs") || file.path.contains("/tests/");
        file.path.starts_with(CORE) && file.ending() == "rs" && !tests
    };
    let (register, code): (Vec<&File>, Vec<&File>) = tree
        .files
        .iter()
        .filter(in_core)
        .partition(|file| file.path.starts_with(REGISTER));
    let named: Vec<Token<'_>> = register.iter().flat_map(|it| tokens(&it.text)).collect();
    let mut faults = Vec::new();
    for file in code {
        for figure in figures(&file.text) {
            if figure.public && !named.iter().any(|token| token.text == figure.name) {
                let text = format!(
                    "`{}` has no source: name it in {REGISTER} with where it comes from and how it was checked",
                    figure.name
                );
                faults.push(Fault::new(&file.path, figure.line, text));
            }
            if !figure.told {
                let text = format!("nothing says what `{}` is: give it a comment", figure.name);
                faults.push(Fault::new(&file.path, figure.line, text));
            }
        }
    }
    faults
}

struct Figure<'a> {
    name: &'a str,
    /// Counted from 1.
    line: usize,
    public: bool,
    /// Whether a comment stands before it, or before the run of figures that it stands in.
    told: bool,
}

/// The constants of type `f64` that stand at the left edge of a file, and so outside functions and tests.
fn figures(text: &str) -> impl Iterator<Item = Figure<'_>> {
    let mut told = false;
    text.lines().enumerate().filter_map(move |(number, line)| {
        let public = line.starts_with("pub const ");
        let bare = line.strip_prefix("pub ").unwrap_or(line);
        let bare = bare.strip_prefix("pub(super) ").unwrap_or(bare);
        let bare = bare.strip_prefix("pub(crate) ").unwrap_or(bare);
        let name = bare.strip_prefix("const ").and_then(|rest| {
            let (name, kind) = rest.split_once(": ")?;
            kind.starts_with("f64").then_some(name)
        });
        match name {
            Some(name) => Some(Figure {
                name,
                line: number + 1,
                public,
                told,
            }),
            None => {
                told = line.starts_with("///");
                None
            }
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn faults(register: &str, code: &str) -> Vec<(usize, String)> {
        let file = |path: &str, text: &str| File {
            path: path.to_owned(),
            text: text.to_owned(),
        };
        let files = vec![
            file("crate/core/src/dig/safety.rs", code),
            file("crate/core/src/sources/law.rs", register),
        ];
        let faults = check(&Tree { files });
        faults.into_iter().map(|it| (it.line, it.text)).collect()
    }

    const CODE: &str =
        "/// Deep, meters.\npub const DEEP: f64 = 1.5;\n\n/// Near.\nconst NEAR: f64 = 0.1;\n";

    #[test]
    fn a_public_figure_stands_in_the_register() {
        let missing = faults("//! Law.\n// DEEP in a comment does not count.\n", CODE);
        assert_eq!(missing.len(), 1);
        assert!(missing[0].0 == 2 && missing[0].1.contains("`DEEP` has no source"));
        assert_eq!(faults("use crate::dig::safety::DEEP;\n", CODE), []);
    }

    #[test]
    fn a_figure_without_a_word_is_a_fault_and_a_run_shares_one() {
        let bare = faults("", "const NEAR: f64 = 0.1;\n");
        assert!(bare.len() == 1 && bare[0].1.contains("nothing says"));
        assert_eq!(
            faults("", "/// Ways.\nconst A: f64 = 1.0;\nconst B: f64 = 2.0;\n"),
            []
        );
        assert_eq!(
            faults("", "fn f() {\n    const WITHIN: f64 = 1.0;\n}\n"),
            []
        );
    }
}
