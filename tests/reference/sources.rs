//! The register of sources: what it says was checked is checked here.

use std::path::{Path, PathBuf};

use batterboard_core::sources::{Check, Source, all};

fn tests() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests")
}

/// Every test and every comparison that the register names is there.
#[test]
fn every_check_that_is_named_is_there() {
    let mut counted = 0;
    for it in all() {
        match it.check {
            Check::Reference(name) => {
                let (module, test) = name.split_once("::").unwrap();
                let file = tests().join("reference").join(format!("{module}.rs"));
                let text = std::fs::read_to_string(&file).unwrap();
                let there = crate::listed::tests(&text).iter().any(|it| it.name == test);
                assert!(there, "{}: no test {name}", it.name);
                counted += 1;
            }
            Check::Peer(name) => {
                assert!(
                    tests().join("peers").join(name).is_file(),
                    "{}: {name}",
                    it.name
                );
                counted += 1;
            }
            Check::Nothing => {}
        }
    }
    assert!(counted > 60, "{counted}");
}

/// What was read in a standard has been checked by its own test.
#[test]
fn what_a_standard_says_is_checked() {
    for it in all() {
        let law = matches!(&it.source, Source::Read(of) if of.starts_with("29 CFR"));
        assert!(!law || it.check != Check::Nothing, "{}", it.name);
    }
}
