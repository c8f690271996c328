//! The file door: whatever comes in, it answers; what it took in, it gives back.

use batterboard_core::analysis::{self, Cache, Detail, Scenario};
use batterboard_core::exchange::{Opened, Unknown, open, open_shell, save, save_shell};
use batterboard_core::finding::Finding;
use batterboard_core::report::Report;
use batterboard_core::shell::catalogue;
use batterboard_core::units::System;
use proptest::prelude::*;
use serde_json::{Value, json};

const DEMOS: [&str; 4] = [
    include_str!("../../demo-sites/creek-side-deed.json"),
    include_str!("../../demo-sites/level-suburban.json"),
    include_str!("../../demo-sites/sloping-hillside.json"),
    include_str!("../../demo-sites/wedge-cul-de-sac.json"),
];

fn demo(index: usize) -> Value {
    serde_json::from_str(DEMOS[index % DEMOS.len()]).unwrap()
}

/// A refusal says what is wrong and how to mend it; an opened site comes back as it was.
fn answers(text: &str) -> Result<(), TestCaseError> {
    match open(text) {
        Err(faults) => told(&faults),
        Ok(opened) => comes_back(&opened),
    }
}

fn told(faults: &[Finding]) -> Result<(), TestCaseError> {
    prop_assert!(!faults.is_empty());
    for fault in faults {
        prop_assert!(fault.is_fault() && !fault.message.is_empty());
        prop_assert!(!fault.remedy.is_empty(), "no remedy: {fault:?}");
        prop_assert!(fault.pointer.is_empty() || fault.pointer.starts_with('/'));
    }
    Ok(())
}

fn comes_back(opened: &Opened) -> Result<(), TestCaseError> {
    let text = save(opened.site.site(), &opened.unknown);
    let again = open(&text).map_err(|f| TestCaseError::fail(format!("{f:?}")))?;
    prop_assert_eq!(again.site.site(), opened.site.site());
    prop_assert_eq!(save(again.site.site(), &again.unknown), text);
    Ok(())
}

/// Every place in a document, as JSON pointers.
fn places(value: &Value, here: &str, out: &mut Vec<String>) {
    out.push(here.to_owned());
    match value {
        Value::Object(members) => {
            for (key, member) in members {
                places(member, &format!("{here}/{key}"), out);
            }
        }
        Value::Array(items) => {
            for (i, item) in items.iter().enumerate() {
                places(item, &format!("{here}/{i}"), out);
            }
        }
        _ => {}
    }
}

/// What a place may be replaced by: odd, hostile, or almost right.
fn odd() -> impl Strategy<Value = Value> {
    prop_oneof![
        Just(Value::Null),
        Just(json!(true)),
        Just(json!([])),
        Just(json!({})),
        Just(json!("")),
        Just(json!("side")),
        Just(json!(0)),
        Just(json!(-1)),
        Just(json!(1e300)),
        Just(json!(-1e-300)),
        Just(json!(u64::MAX)),
        Just(json!([[0, 0], [0, 0], [1, 1]])),
        Just(json!([[0, 0], [4, 4], [4, 0], [0, 4]])),
        Just(json!([[0, 0, 1], [4, 0, 1]])),
        Just(json!({ "disc": { "at": [1, 1], "radius": 2 } })),
        Just(json!({ "level": { "elevation": 3 } })),
        Just(json!({ "catalogue": "Pignut" })),
        (-1e5..1e5).prop_map(|x: f64| json!(x)),
        proptest::collection::vec(-1e3..1e3, 0..5).prop_map(|v: Vec<f64>| json!(v)),
    ]
}

/// Takes the node at a pointer out of a document, or puts another in its place.
fn mutate(document: &mut Value, pointer: &str, with: Option<Value>) {
    let Some((parent, key)) = pointer.rsplit_once('/') else {
        *document = with.unwrap_or(Value::Null);
        return;
    };
    let Some(parent) = document.pointer_mut(parent) else {
        return;
    };
    match (parent, with) {
        (Value::Object(members), Some(value)) => {
            members.insert(key.to_owned(), value);
        }
        (Value::Object(members), None) => {
            members.remove(key);
        }
        (Value::Array(items), with) => {
            let index: usize = key.parse().unwrap();
            match with {
                Some(value) => items[index] = value,
                None => {
                    items.remove(index);
                }
            }
        }
        _ => {}
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn any_text_is_answered(text in any::<String>()) {
        answers(&text)?;
        told(&open_shell(&text).unwrap_err())?;
    }

    #[test]
    fn any_text_that_looks_like_a_site_is_answered(tail in r#"[ \[\]{}",:0-9eE.+\-a-z\\]{0,60}"#) {
        answers(&format!("{{\"format\":\"batterboard-site\",\"version\":1{tail}"))?;
    }

    #[test]
    fn a_site_with_odd_members_is_answered(
        which in 0..DEMOS.len(),
        edits in proptest::collection::vec((any::<prop::sample::Index>(), proptest::option::of(odd())), 1..4),
    ) {
        let mut document = demo(which);
        for (index, with) in edits {
            let mut all = Vec::new();
            places(&document, "", &mut all);
            let pointer = index.get(&all).clone();
            mutate(&mut document, &pointer, with);
        }
        answers(&document.to_string())?;
    }

    #[test]
    fn a_damaged_file_is_answered(
        which in 0..DEMOS.len(), at in any::<prop::sample::Index>(), byte in any::<u8>(), cut in any::<bool>(),
    ) {
        let mut bytes = DEMOS[which].as_bytes().to_vec();
        let at = at.index(bytes.len());
        if cut {
            bytes.truncate(at);
        } else {
            bytes[at] = byte;
        }
        answers(&String::from_utf8_lossy(&bytes))?;
    }

    #[test]
    fn a_cut_off_file_is_refused(which in 0..DEMOS.len(), at in any::<prop::sample::Index>()) {
        let text = DEMOS[which].trim_end();
        let cut: String = text.chars().take(at.index(text.chars().count())).collect();
        told(&open(&cut).unwrap_err())?;
    }

    #[test]
    fn generated_sites_come_back(site in site()) {
        let opened = open(&site.to_string()).map_err(|f| TestCaseError::fail(format!("{f:?}")))?;
        prop_assert!(opened.unknown.is_empty());
        comes_back(&opened)?;
    }

    #[test]
    fn unknown_members_survive(
        which in 0..DEMOS.len(), index in any::<prop::sample::Index>(), value in odd(), key in "zz[a-z/~ ]{1,8}",
    ) {
        let mut document = demo(which);
        let mut all = Vec::new();
        places(&document, "", &mut all);
        // Objects of one member may be variants; a second member there is no unknown one.
        all.retain(|p| document.pointer(p).and_then(Value::as_object).is_some_and(|o| o.len() > 1));
        let pointer = index.get(&all).clone();
        let parent = document.pointer_mut(&pointer).unwrap().as_object_mut().unwrap();
        parent.insert(key.clone(), value.clone());
        let opened = open(&document.to_string()).map_err(|f| TestCaseError::fail(format!("{f:?}")))?;
        let escaped = key.replace('~', "~0").replace('/', "~1");
        let place = format!("{pointer}/{escaped}");
        prop_assert_eq!(opened.unknown.places().collect::<Vec<_>>(), vec![place.clone()]);
        prop_assert!(opened.findings.iter().any(|f| f.pointer == place && !f.is_fault()));
        let saved: Value = serde_json::from_str(&save(opened.site.site(), &opened.unknown)).unwrap();
        prop_assert_eq!(saved.pointer(&place), Some(&value));
        // Without the bag the member is gone, and nothing else is.
        let plain = save(opened.site.site(), &Unknown::default());
        prop_assert!(open(&plain).unwrap().unknown.is_empty());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn every_site_that_opens_has_a_report(site in site()) {
        let opened = open(&site.to_string()).map_err(|f| TestCaseError::fail(format!("{f:?}")))?;
        let mut cache = Cache::default();
        let analysis = analysis::run(&Scenario::of(&opened.site), Detail::Ranges, &mut cache);
        for system in [System::Feet, System::Metres] {
            let report = Report::new(&opened.site, &analysis, system);
            prop_assert!(report.to_text().contains("utility-locating service"));
            let json: Value = serde_json::from_str(&report.to_json()).unwrap();
            for list in ["clearances", "quantities"] {
                for entry in json[list].as_array().unwrap() {
                    let figures = [&entry["value"], &entry["room"]["value"]];
                    prop_assert!(figures.iter().any(|f| f.is_number()), "{entry}");
                    prop_assert!(!entry.to_string().contains("NaN"), "{entry}");
                }
            }
        }
    }
}

/// A valid site: a four-cornered lot, features of every shape, rules, works, a placed shell.
fn site() -> impl Strategy<Value = Value> {
    let corner = || -5.0..5.0;
    let lot = (20.0..60.0, 20.0..60.0, corner(), corner()).prop_map(|(w, d, dx, dy): (f64, f64, f64, f64)| {
        let corners = [[0.0, 0.0], [w, dy], [w + dx, d], [dx / 2.0, d + dy]];
        let course = |i: usize| {
            let ([ax, ay], [bx, by]) = (corners[i], corners[(i + 1) % 4]);
            let (x, y): (f64, f64) = (bx - ax, by - ay);
            let bearing = batterboard_core::math::atan2(x, y);
            let kind = ["front", "side", "rear", "side"][i];
            json!({ "kind": kind,
                    "shape": { "line": { "bearing": bearing, "distance": (x * x + y * y).sqrt() } } })
        };
        json!({ "start": [0, 0], "courses": [course(0), course(1), course(2), course(3)] })
    });
    let shape = (0..3u8, -20.0..20.0, -20.0..20.0, 0.5..9.0, -0.3..0.3).prop_map(
        |(kind, x, y, size, bulge): (u8, f64, f64, f64, f64)| match kind {
            0 => json!({ "area": [[x, y, bulge], [x + size, y], [x + size, y + size]] }),
            1 => json!({ "track": [[x, y], [x + size, y, bulge], [x, y + size]] }),
            _ => json!({ "disc": { "at": [x, y], "radius": size } }),
        },
    );
    let kind = prop::sample::select(vec![
        "house",
        "tree",
        "septic-field",
        "buried-line",
        "easement",
    ]);
    let feature = (kind, shape, "[a-z ]{0,6}", proptest::option::of(0.0..2.0));
    let features = proptest::collection::vec(feature, 0..8).prop_map(|all| {
        let features: Vec<Value> = all
            .into_iter()
            .enumerate()
            .map(|(i, (kind, shape, name, depth))| {
                json!({ "id": format!("f{i}"), "kind": kind, "shape": shape, "name": name, "facts": { "footing_depth": depth } })
            })
            .collect();
        json!(features)
    });
    let from = prop::sample::select(vec!["waters-edge", "rim", "deck-edge", "equipment", "dig"]);
    let to = prop::sample::select(vec![
        json!({ "lot-line": {} }),
        json!({ "lot-line": { "kind": "rear" } }),
        json!({ "feature": { "kind": "tree" } }),
    ]);
    let rule = (from, to, 0.0..30.0, ".{0,12}").prop_map(|(from, to, distance, text): (_, _, f64, _)| {
        json!({ "name": text, "from": from, "to": to, "distance": distance, "source": text })
    });
    let rules = proptest::collection::vec(rule, 0..6);
    let names: Vec<&str> = catalogue::all().iter().map(|s| s.name.as_str()).collect();
    let placement = (
        prop::sample::select(names),
        0.0..20.0,
        0.0..20.0,
        0.0..6.3,
        any::<bool>(),
    )
        .prop_map(|(name, x, y, heading, mirrored): (_, f64, f64, f64, _)| {
            json!({ "shell": { "catalogue": name }, "at": [x, y], "heading": heading,
                    "mirrored": mirrored, "coping_elevation": 0.1 })
        });
    let works = (0.0..1.0, 0.0..0.5).prop_map(|(over, base): (f64, f64)| {
        json!({ "dig": { "over_dig": over, "base_thickness": base, "soil": "b" } })
    });
    (lot, features, rules, placement, works, ".{0,20}").prop_map(
        |(lot, features, rules, placement, works, name)| {
            json!({ "format": "batterboard-site", "version": 3, "name": name, "lot": lot,
                    "features": features, "rules": rules, "placement": placement, "works": works })
        },
    )
}

#[test]
fn every_catalogue_shell_comes_back_from_a_shell_file() {
    for record in catalogue::all() {
        let text = save_shell(record);
        let (again, findings) = open_shell(&text).unwrap();
        assert_eq!(&again, record);
        assert!(findings.iter().all(|f| !f.is_fault()));
        assert_eq!(save_shell(&again), text);
    }
}

#[test]
fn a_file_of_the_first_version_opens_as_the_same_site() {
    let old = open(include_str!("data/site-version-1.json")).unwrap();
    let told: Vec<&str> = old.findings.iter().map(|f| f.code).collect();
    assert_eq!(told, ["older-version"]);
    assert!(old.unknown.is_empty(), "{:?}", old.unknown);
    let house = &old.site.site().features[0];
    assert_eq!(house.facts.footing_depth, Some(0.9144));
    let text = save(old.site.site(), &old.unknown);
    assert!(text.contains("\"version\": 3"));
    let new = open(&text).unwrap();
    assert!(new.findings.is_empty());
    assert_eq!(new.site.site(), old.site.site());
}

#[test]
fn a_file_of_the_second_version_opens_as_the_same_site() {
    let text = include_str!("data/site-version-2.json");
    let old = open(text).unwrap();
    let told: Vec<&str> = old.findings.iter().map(|f| f.code).collect();
    assert_eq!(told, ["older-version"]);
    assert!(old.unknown.is_empty(), "{:?}", old.unknown);
    let saved: Value = serde_json::from_str(&save(old.site.site(), &old.unknown)).unwrap();
    assert_eq!(saved["version"], 3);
    let before: Value = serde_json::from_str(text).unwrap();
    for member in ["lot", "features", "ground", "placement", "rules"] {
        assert_eq!(saved[member], before[member], "{member}");
    }
}
