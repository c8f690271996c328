//! The site file: a [`Site`] as JSON.

use serde_json::Value;

use super::images;
use super::migrate;
use super::read::{Format, read};
use super::unknown::Unknown;
use crate::finding::Finding;
use crate::json;
use crate::site::{CheckedSite, FORMAT, Site, VERSION};

/// How a site file names itself. Every version before [`VERSION`] has a step here.
const SITE: Format = Format {
    name: FORMAT,
    words: "batterboard site file",
    version: VERSION,
    steps: &[migrate::facts_of_features, migrate::nothing_moved],
};

/// A site file that was read and checked.
#[derive(Debug, Clone)]
pub struct Opened {
    /// The site; what its parts had to say is in [`CheckedSite::findings`].
    pub site: CheckedSite,
    /// What the reading had to say: an older version, members that nobody knows.
    pub findings: Vec<Finding>,
    /// Members that this build does not know, to be handed to [`save`].
    pub unknown: Unknown,
}

/// Reads and checks a site file.
///
/// # Errors
/// Either the one fault that kept the text from being read, or every fault of the figures
/// in it, each with its place in the file.
pub fn open(text: &str) -> Result<Opened, Vec<Finding>> {
    open_with_images(text, "")
}

/// Reads and checks a site file whose images came without their data, which is `data` (see [`images`]).
///
/// # Errors
/// As [`open`].
pub fn open_with_images(text: &str, data: &str) -> Result<Opened, Vec<Finding>> {
    let mut document = read::<Site>(text, &SITE).map_err(|fault| vec![fault])?;
    images::put_back(&mut document.value, data);
    Ok(Opened {
        site: CheckedSite::check(document.value, None)?,
        findings: document.findings,
        unknown: document.unknown,
    })
}

/// A site as the text of a file, with the unknown members it was opened with.
///
/// The same site and members give the same bytes, and the text opens to the same site.
pub fn save(site: &Site, unknown: &Unknown) -> String {
    let mut document = serde_json::to_value(site).unwrap_or(Value::Null);
    unknown.put_back(&mut document);
    json::to_string(&document)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exchange::SIZE_LIMIT;
    use serde_json::json;

    /// A square lot of 30 m with a house, a tank and a rule.
    fn sample() -> Value {
        let course =
            |bearing: f64| json!({ "shape": { "line": { "bearing": bearing, "distance": 30.0 } } });
        let quarter = std::f64::consts::FRAC_PI_2;
        json!({
            "format": "batterboard-site",
            "version": 3,
            "name": "Test lot",
            "lot": { "courses": [course(0.0), course(quarter), course(2.0 * quarter), course(3.0 * quarter)] },
            "features": [
                { "id": "house", "kind": "house", "shape": { "area": [[2, 2], [12, 2], [12, 9], [2, 9]] } },
                { "id": "tank", "kind": "septic-tank", "shape": { "disc": { "at": [25, 25], "radius": 1 } } },
            ],
            "rules": [
                { "name": "Side", "from": "waters-edge", "to": { "lot-line": { "kind": "side" } }, "distance": 2.5 },
            ],
        })
    }

    fn edited(edit: impl FnOnce(&mut Value)) -> String {
        let mut document = sample();
        edit(&mut document);
        document.to_string()
    }

    /// The faults of a text: each must say what, and how to mend it.
    fn faults(text: &str) -> Vec<(String, String)> {
        let faults = open(text).unwrap_err();
        assert!(!faults.is_empty());
        for fault in &faults {
            assert!(fault.is_fault() && !fault.message.is_empty() && !fault.remedy.is_empty());
        }
        let told = |f: &Finding| (f.code.to_owned(), f.pointer.clone());
        faults.iter().map(told).collect()
    }

    fn only(text: &str) -> (String, String) {
        let mut all = faults(text);
        assert_eq!(all.len(), 1, "{all:?}");
        all.remove(0)
    }

    fn told(check: &str, place: &str) -> (String, String) {
        (check.to_owned(), place.to_owned())
    }

    #[test]
    fn a_site_opens_and_saves_to_the_same_site() {
        let opened = open(&sample().to_string()).unwrap();
        assert!(opened.unknown.is_empty() && opened.findings.is_empty());
        let text = save(opened.site.site(), &Unknown::default());
        let again = open(&text).unwrap();
        assert_eq!(again.site.site(), opened.site.site());
        assert_eq!(save(again.site.site(), &again.unknown), text);
    }

    #[test]
    fn text_that_is_no_site_file_is_told_apart() {
        assert_eq!(only(""), told("cut-off", ""));
        assert_eq!(only("not json"), told("syntax", ""));
        assert_eq!(only("[]"), told("format", "/format"));
        assert_eq!(only("{}"), told("format", "/format"));
        assert_eq!(only("\"batterboard-site\""), told("format", "/format"));
        assert_eq!(
            only(&edited(|d| d["format"] = json!("other"))),
            told("format", "/format")
        );
        assert_eq!(
            only(&edited(|d| d["version"] = json!(4))),
            told("version", "/version")
        );
        assert_eq!(
            only(&edited(|d| d["version"] = json!("1"))),
            told("version", "/version")
        );
        assert_eq!(only(&" ".repeat(SIZE_LIMIT + 1)), told("file-size", ""));
        let with_mark = format!("\u{feff}{}", sample());
        assert!(open(&with_mark).is_ok(), "a byte order mark is no fault");
    }

    #[test]
    fn broken_text_is_placed_by_line_and_column() {
        let text = crate::json::to_string(&sample());
        let cut = open(text.get(..text.len() / 2).unwrap())
            .unwrap_err()
            .remove(0);
        assert_eq!(cut.code, "cut-off");
        assert!(cut.message.contains("line"), "{}", cut.message);
        let not_a_number = text.replace("\"distance\": 2.5", "\"distance\": NaN");
        let fault = open(&not_a_number).unwrap_err().remove(0);
        assert_eq!(fault.code, "syntax");
        assert!(fault.message.contains("line") && fault.remedy.contains("NaN"));
        let huge = text.replace("\"distance\": 2.5", "\"distance\": 1e999");
        let fault = open(&huge).unwrap_err().remove(0);
        assert_eq!(fault.code, "syntax");
        assert_eq!(fault.pointer, "/rules/0/distance");
        assert!(fault.message.contains("out of range at line"));
    }

    #[test]
    fn a_member_that_cannot_be_read_is_placed_in_the_document() {
        let text = edited(|d| d["features"][0]["shape"]["area"][2] = json!([1, 2, 3, 4]));
        assert_eq!(only(&text), told("member", "/features/0/shape/area/2"));
        let text = edited(|d| d["rules"][0]["distance"] = json!("ten feet"));
        let fault = open(&text).unwrap_err().remove(0);
        assert_eq!(fault.pointer, "/rules/0/distance");
        assert!(
            fault.message.contains("expected a number"),
            "{}",
            fault.message
        );
        let text = edited(|d| d["features"][1]["kind"] = json!("spaceship"));
        assert_eq!(only(&text), told("member", "/features/1/kind"));
        let twice = sample()
            .to_string()
            .replacen("\"name\"", "\"name\":\"a\",\"name\"", 1);
        assert_eq!(only(&twice).0, "member-twice");
        let fault = open(&edited(|d| {
            d.as_object_mut().unwrap().remove("lot");
        }));
        assert!(
            fault.unwrap_err()[0]
                .message
                .contains("missing field `lot`")
        );
    }

    #[test]
    fn a_list_in_the_place_of_an_object_is_refused() {
        let refused = |edit: fn(&mut Value), place: &str| {
            let fault = open(&edited(edit)).unwrap_err().remove(0);
            assert_eq!((fault.code, fault.pointer.as_str()), ("member", place));
            assert!(fault.message.contains("list"), "{}", fault.message);
        };
        let disc = |d: &mut Value| d["features"][1]["shape"]["disc"] = json!([[25, 25], 1]);
        refused(disc, "/features/1/shape/disc");
        refused(|d| d["works"] = json!([]), "/works");
        refused(|d| d["works"] = json!({ "deck": [1.2] }), "/works/deck");
        let bench = |d: &mut Value| d["works"] = json!({ "dig": { "bench": [1.0, 0.4] } });
        refused(bench, "/works/dig/bench");
        let facts = |d: &mut Value| d["features"][0]["facts"] = json!([null, 0.5]);
        refused(facts, "/features/0/facts");
        refused(
            |d| d["features"][0]["facts"] = json!([]),
            "/features/0/facts",
        );
        // One that is too short is told as what it is not, and so is anything else.
        let fault = open(&edited(|d| {
            d["works"] = json!({ "dig": { "bench": [1.0] } })
        }));
        assert!(
            fault.unwrap_err()[0]
                .message
                .contains("expected an object at line")
        );
        let fault = open(&edited(|d| d["works"] = json!(7)));
        assert!(
            fault.unwrap_err()[0]
                .message
                .contains("expected an object at line")
        );
        let line = json!({ "line": [0.0, 30.0] });
        let mut document = sample();
        document["lot"]["courses"][0]["shape"] = line;
        let expected = told("member", "/lot/courses/0/shape/line");
        assert_eq!(only(&document.to_string()), expected);
    }

    #[test]
    fn every_broken_figure_is_told_at_once() {
        let text = edited(|d| {
            d["features"][0]["shape"]["area"] = json!([[0, 0], [5, 5], [5, 0], [0, 5]]);
            d["features"][1]["shape"]["disc"]["radius"] = json!(-1);
            d["rules"][0]["distance"] = json!(-3);
            d["lot"]["courses"].as_array_mut().unwrap().truncate(2);
        });
        let all = faults(&text);
        for place in [
            "/features/0/shape/area",
            "/features/1/shape/disc/radius",
            "/rules/0/distance",
            "/lot/courses",
        ] {
            assert!(
                all.iter().any(|(_, p)| p.starts_with(place)),
                "{place}: {all:?}"
            );
        }
    }

    #[test]
    fn hostile_files_are_refused_quickly() {
        let many = edited(|d| {
            let vertex = json!([1, 2]);
            d["features"][0]["shape"]["area"] = Value::from(vec![vertex; 1_000_000]);
        });
        assert_eq!(only(&many), told("too-many", "/features"));
        let deep = |n: usize| "[".repeat(n) + &"]".repeat(n);
        let text = sample()
            .to_string()
            .replacen('{', &format!("{{\"x\":{},", deep(100_000)), 1);
        assert_eq!(only(&text).0, "syntax");
        let text = sample()
            .to_string()
            .replacen("\"Test lot\"", &deep(100_000), 1);
        assert_eq!(only(&text).0, "member");
        assert_eq!(only(&deep(100_000)).0, "format");
        let text = edited(|d| d["features"] = Value::from(vec![d["features"][0].clone(); 2_001]));
        assert_eq!(only(&text), told("too-many", "/features"));
    }

    #[test]
    fn unknown_members_are_told_and_survive() {
        let text = edited(|d| {
            d["future"] = json!({ "a": [1, null, "x"] });
            d["features"][1]["colour"] = json!("green");
            d["features"][1]["shape"]["disc"]["lid"] = json!(0.6);
            d["lot"]["courses"][2]["fence"] = json!("split rail");
            d["works"] = json!({ "dig": { "machine": "small" } });
        });
        let opened = open(&text).unwrap();
        let mut places: Vec<String> = opened.unknown.places().collect();
        places.sort();
        let expected = [
            "/features/1/colour",
            "/features/1/shape/disc/lid",
            "/future",
            "/lot/courses/2/fence",
            "/works/dig/machine",
        ];
        assert_eq!(places, expected);
        assert_eq!(opened.findings.len(), 5);
        let saved: Value =
            serde_json::from_str(&save(opened.site.site(), &opened.unknown)).unwrap();
        let before: Value = serde_json::from_str(&text).unwrap();
        for place in expected {
            assert_eq!(saved.pointer(place), before.pointer(place), "{place}");
        }
    }
}
