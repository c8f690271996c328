//! `deed`: a description as text and as JSON, onto a site, and what is said of one that is not understood.

use serde_json::Value;

use crate::run::batterboard;

const DEMO: &str = concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/../../demo-sites/level-suburban.json"
);

const DEED: &str = "Beginning at an iron pin on Larkspur Street; thence N 0°00' E 120.00 feet; thence East 80.00 feet; \
    thence S 0°00' E 120.00 feet to said street; thence West 80.00 feet along said street to the point of beginning, \
    containing 9,600 square feet.";

/// How it ends, what it prints, and what it says beside it.
fn deed(text: &str, more: &[&str]) -> (Option<i32>, String, String) {
    let output = batterboard(&[&["deed", "-"], more].concat(), text);
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    (
        output.status.code(),
        text(output.stdout),
        text(output.stderr),
    )
}

#[test]
fn a_deed_is_told_with_its_closure_and_its_area() {
    let (code, text, _) = deed(DEED, &[]);
    assert_eq!(code, Some(0), "{text}");
    for part in ["Courses", "120.00", "exact", "9,600", "along"] {
        assert!(text.contains(part), "{part}: {text}");
    }
    let (_, json, _) = deed(DEED, &["--json"]);
    let told: Value = serde_json::from_str(&json).unwrap();
    let area = told["area"]["value"].as_f64().unwrap();
    // 80 ft by 120 ft, a foot being 0.3048 m.
    assert!((area - 9600.0 * 0.3048 * 0.3048).abs() < 1e-6, "{area}");
    assert_eq!(told["courses"].as_array().unwrap().len(), 4);
    assert!(told["courses"][3]["street"].is_string());
}

#[test]
fn a_deed_becomes_the_lot_of_a_site() {
    for more in [&["--new"][..], &["--onto", DEMO][..]] {
        let (code, site, said) = deed(DEED, more);
        assert_eq!(code, Some(0), "{said}");
        assert!(said.contains("Courses"), "{said}");
        let site: Value = serde_json::from_str(&site).unwrap();
        let courses = site["lot"]["courses"].as_array().unwrap();
        assert_eq!(courses.len(), 4);
        assert_eq!(courses[3]["kind"], "front");
        assert_eq!(site["lot"]["deed"], DEED);
        let checked = batterboard(&["report", "-"], &site.to_string());
        assert_eq!(checked.status.code(), Some(0));
    }
}

#[test]
fn what_is_not_understood_is_told_with_its_line_and_ends_with_one() {
    let text = "N 0 E 100 ft\nEast 40 cubits\nS 0 E 100 ft";
    let (code, told, _) = deed(text, &[]);
    assert_eq!(code, Some(1), "{told}");
    assert!(told.contains("cubits") && told.contains("line 2"), "{told}");
    let (code, site, said) = deed(text, &["--new"]);
    assert_eq!(code, Some(2));
    assert!(
        site.is_empty() && said.contains("was not taken as the lot"),
        "{said}"
    );
}
