//! Small trees that break one layer rule each.

use super::*;
use crate::tidy::tree::File;

fn tree(files: &[(&str, &str)]) -> Tree {
    let file = |(path, text): &(&str, &str)| File {
        path: (*path).to_owned(),
        text: (*text).to_owned(),
    };
    Tree {
        files: files.iter().map(file).collect(),
    }
}

fn lines_at_fault(path: &str, text: &str) -> Vec<usize> {
    check(&tree(&[(path, text)]))
        .iter()
        .map(|fault| fault.line)
        .collect()
}

#[test]
fn a_module_may_use_those_below_it() {
    let text = "use crate::{geom::Path, units::{Length, Area}};\nfn f() { crate::lot::g(); super::math::sin(1.0); }";
    assert_eq!(lines_at_fault("crate/core/src/dig.rs", text), [0_usize; 0]);
    assert_eq!(
        lines_at_fault(
            "crate/core/src/lib.rs",
            "pub mod session; use crate::session::S;"
        ),
        [0_usize; 0]
    );
}

#[test]
fn a_use_of_what_is_built_on_top_is_named_with_its_line() {
    let faults = check(&tree(&[(
        "crate/core/src/lot.rs",
        "//! Lot.\n\nuse crate::takeoff::Line;\n",
    )]));
    let [fault] = faults.as_slice() else {
        panic!("{faults:?}")
    };
    assert_eq!(
        (fault.path.as_str(), fault.line),
        ("crate/core/src/lot.rs", 3)
    );
    assert!(fault.text.contains("`lot` uses `takeoff`"), "{fault}");
}

#[test]
fn every_way_to_name_a_module_is_seen() {
    for text in [
        "use crate::{\n    geom,\n    session::Session,\n};",
        "\n\nfn f() -> crate::session::S { todo() }",
        "#[cfg(test)]\nmod tests {\n    use crate::session::S;\n}",
        "use\n\ncrate::session;",
        "\n\nuse super::session::S;",
        "\nmod inner {\n    use super::super::session::S;\n}",
        "\n\nuse super::{math, session};",
        "\n\npub(crate) use crate::session as s;",
        "\n\nuse crate::session::{A, b::{C, D}};",
    ] {
        assert_eq!(lines_at_fault("crate/core/src/lot.rs", text), [3], "{text}");
    }
    assert_eq!(
        lines_at_fault(
            "crate/core/src/lot/deed.rs",
            "use super::super::session::S;"
        ),
        [1]
    );
    assert_eq!(
        lines_at_fault("crate/core/src/lot/mod.rs", "use super::session::S;"),
        [1]
    );
}

#[test]
fn what_only_looks_like_a_use_is_left_alone() {
    for text in [
        "//! See [`crate::session`].\n/* crate::session::S */ fn f() { \"crate::session\"; }",
        "pub(crate) fn f() {} pub(super) fn g() {}",
        "mod tests { use super::*; use super::session::local; }",
        "use crate::lot::session::S;",
        "crate::some_macro!(1);",
    ] {
        assert_eq!(
            lines_at_fault("crate/core/src/lot.rs", text),
            [0_usize; 0],
            "{text}"
        );
    }
    // In a folder of its own, one step up is still the module itself.
    assert_eq!(
        lines_at_fault("crate/core/src/lot/deed.rs", "use super::session::S;"),
        [0_usize; 0]
    );
}

#[test]
fn a_module_without_a_layer_is_refused() {
    let faults = check(&tree(&[("crate/core/src/helpers.rs", "")]));
    assert!(
        faults
            .iter()
            .any(|fault| fault.text.contains("`helpers` has no layer")),
        "{faults:?}"
    );
    assert_eq!(
        lines_at_fault(
            "crate/core/src/dig.rs",
            "use crate::helpers::x;\nuse crate::*;"
        ),
        [1, 2]
    );
}

#[test]
fn a_geometry_crate_is_named_in_its_wrapper_alone() {
    for text in [
        "use geo::Polygon;",
        "use geo as g;",
        "fn f(p: ::geo::Point) {}",
        "use {libm, geo::Area};",
    ] {
        assert_eq!(
            lines_at_fault("crate/core/src/geom/boolean.rs", text),
            [0_usize; 0],
            "{text}"
        );
        assert_eq!(
            lines_at_fault("crate/core/src/geom/boolean/ring.rs", text),
            [0_usize; 0],
            "{text}"
        );
        assert_eq!(
            lines_at_fault("crate/core/src/geom/offset.rs", text),
            [1],
            "{text}"
        );
        assert_eq!(lines_at_fault("crate/cli/src/main.rs", text), [1], "{text}");
    }
    assert_eq!(
        lines_at_fault("crate/core/src/geom/boolean_more.rs", "use geo::X;"),
        [1]
    );
    assert_eq!(
        lines_at_fault("crate/core/src/ground/tin.rs", "use spade::Tin;"),
        [0_usize; 0]
    );
    assert_eq!(
        lines_at_fault(
            "crate/core/src/geom.rs",
            "let geo = a.geo; // geo::x\nself::geo::f();"
        ),
        [0_usize; 0]
    );
    // Tests and benches outside `src` may compare against any library.
    assert_eq!(
        lines_at_fault("crate/core/benches/drag.rs", "use geo::Area;"),
        [0_usize; 0]
    );
}

#[test]
fn the_guide_shows_the_same_table() {
    let rows = |names: &[&str]| {
        names
            .iter()
            .map(|name| format!("| `{name}` | what |\n"))
            .collect::<String>()
    };
    let guide = |table: &str| {
        let text = format!(
            "# Guide\n\n## Layers\n\n| Module | Holds |\n|---|---|\n{table}\n## Next\n\n| `other` | x |\n"
        );
        check(&tree(&[("DEVELOPERS.md", &text)]))
    };
    assert_eq!(guide(&rows(&LAYERS)), []);
    let mut swapped = LAYERS;
    swapped.swap(0, 1);
    assert_eq!(
        guide(&rows(&swapped)).first().map(|fault| fault.line),
        Some(7)
    );
    assert_eq!(guide(&rows(LAYERS.split_last().unwrap().1)).len(), 1);
    assert_eq!(guide("").len(), 1);
}
