//! Small trees with and without circles.

use super::*;

fn tree(files: &[(&str, &str)]) -> Tree {
    let file = |(path, text): &(&str, &str)| File {
        path: if path.contains(".txt") {
            (*path).to_owned()
        } else {
            format!("{CORE}{path}")
        },
        text: (*text).to_owned(),
    };
    Tree {
        files: files.iter().map(file).collect(),
    }
}

/// The circles of a module `dig` with two parts.
fn of(front: &str, cut: &str, hole: &str) -> Vec<String> {
    let tree = tree(&[
        ("dig/mod.rs", front),
        ("dig/cut.rs", cut),
        ("dig/hole.rs", hole),
    ]);
    let found = graph(&tree).circles();
    found.iter().map(|circle| circle.files.join(" ")).collect()
}

const PAIR: [&str; 1] = ["dig/cut dig/hole"];
const NONE: [&str; 0] = [];

#[test]
fn two_files_that_name_each_other_fail_with_both_names_and_lines() {
    let tree = tree(&[
        ("dig/cut.rs", "//! Cut.\nuse super::hole::Hole;"),
        (
            "dig/hole.rs",
            "//! Hole.\n\nfn f() { crate::dig::cut::cut() }",
        ),
    ]);
    let faults = check(&tree);
    let [fault] = faults.as_slice() else {
        panic!("{faults:?}")
    };
    let shown = fault.to_string();
    for part in [
        "crate/core/src/dig/cut.rs:2",
        "`dig/cut` names `dig/hole` in line 2",
        "`dig/hole` names `dig/cut` in line 3",
    ] {
        assert!(shown.contains(part), "{part} in {shown}");
    }
}

#[test]
fn one_way_is_no_circle() {
    assert_eq!(
        of("", "use super::hole::Hole;", "use crate::lot::Lot;"),
        NONE
    );
    assert_eq!(
        of("mod cut; fn f() { cut::g() }", "use super::hole::Hole;", ""),
        NONE
    );
}

#[test]
fn a_name_handed_on_is_looked_up_where_it_comes_from() {
    let front = "mod cut; mod hole; pub use cut::Cut; pub(crate) use hole::{Hole as Pit};";
    assert_eq!(of(front, "use super::Pit;", ""), NONE);
    assert_eq!(
        of(
            front,
            "use crate::dig::Pit;",
            "fn f() { super::Cut::make() }"
        ),
        PAIR
    );
}

#[test]
fn a_file_and_the_parts_in_its_folder_are_read_from_the_top_down() {
    let front = "mod cut; fn f() { cut::g() } struct Own;";
    assert_eq!(of(front, "use super::Own;", ""), NONE);
    // Not so a part and what stands beside it, nor a name that only begins alike.
    let files = [
        ("dig/cut.rs", "fn f() { super::hole::deep::g() }"),
        ("dig/hole/deep.rs", "fn f() { crate::dig::cut::g() }"),
    ];
    assert_eq!(check(&tree(&files)).len(), 1);
    let files = [
        ("dig/cut.rs", "fn f() { super::cuts::g() }"),
        ("dig/cuts.rs", "fn f() { super::cut::g() }"),
    ];
    assert_eq!(check(&tree(&files)).len(), 1);
}

#[test]
fn a_front_page_between_two_files_is_part_of_a_circle_where_it_uses_what_it_hands_on() {
    let files = |front: &'static str| {
        tree(&[
            ("dig/a/mod.rs", front),
            ("dig/b.rs", "use super::a::Front;"),
            ("dig/c.rs", "use super::b::B;"),
        ])
    };
    assert_eq!(check(&files("pub use super::c::C; struct Front;")), []);
    let used = check(&files("pub use super::c::C; struct Front(C);"));
    assert_eq!(used.len(), 1, "{used:?}");
    assert!(
        used.iter()
            .all(|it| it.text.contains("`dig/a` names `dig/c`"))
    );
}

#[test]
fn a_module_imported_whole_counts_where_something_of_it_is_named() {
    let cut = "use super::hole; fn f() { hole::g() }";
    assert_eq!(of("", cut, "use super::cut; fn f() { cut::g() }"), PAIR);
    assert_eq!(of("", cut, "use super::cut;"), NONE);
}

#[test]
fn what_is_built_for_tests_alone_may_name_anything() {
    let tests = "fn f() {} #[cfg(test)] mod tests { use super::super::cut::Cut; }";
    assert_eq!(of("", "use super::hole::Hole;", tests), NONE);
    let after = format!("{tests} fn g() {{ super::cut::h() }}");
    assert_eq!(of("", "use super::hole::Hole;", &after), PAIR);
    let line = "#[cfg(test)] use super::cut::Cut; fn g() {}";
    assert_eq!(of("", "use super::hole::Hole;", line), NONE);
}
