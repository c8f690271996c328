//! Files that end too early, that come from a later build, and that are far too large: refused in words, never half read.

use batterboard_core::exchange::import;
use batterboard_core::exchange::{landxml, open, open_book, open_shell, save_book, save_shell};
use batterboard_core::finding::Finding;
use batterboard_core::shell::catalogue;
use batterboard_core::site::book;

use crate::readers::speak;
use crate::{DEMOS, demo, told};

/// How many places of a file a test ends it at, where nobody asked for all of them: it is ended at every so many bytes.
const PLACES: u64 = 400;

/// Gives a reader a file ended at many places (all of them by `BATTERBOARD_FUZZ_INPUTS`); none of the parts may be read.
fn refuses(what: &str, text: &str, read: impl Fn(&str) -> Option<Vec<Finding>>) {
    let whole = text.trim_end();
    let step = (whole.len() as u64 / told("BATTERBOARD_FUZZ_INPUTS", PLACES)).max(1);
    for end in (0..whole.len()).step_by(step as usize) {
        let Some(part) = whole.get(..end) else {
            continue;
        };
        let faults = read(part).unwrap_or_else(|| panic!("{what}: {end} bytes of it were read"));
        speak(&faults);
    }
}

#[test]
fn site_files() {
    for name in DEMOS {
        refuses(name, &demo(name), |part| open(part).err());
    }
}

#[test]
fn shell_files_and_books() {
    for record in catalogue::all().iter().take(3) {
        refuses(&record.name, &save_shell(record), |part| {
            open_shell(part).err()
        });
    }
    refuses("book", &save_book(&book::examples()), |part| {
        open_book(part).err()
    });
}

#[test]
fn maps_and_surveys() {
    let data = crate::tests().join("reference/data");
    let text = |name: &str| std::fs::read_to_string(data.join(name)).unwrap();
    refuses("map", &text("invented_parcels.geojson"), |part| {
        import::read(part, None).err()
    });
    refuses(
        "survey",
        &text("cone_surface.xml"),
        |part| match landxml::is_xml(part) {
            true => landxml::read(part).err(),
            false => import::read(part, None).err(),
        },
    );
}

#[test]
fn a_file_of_a_later_build_is_told_as_such() {
    let later = demo(DEMOS[1]).replacen("\"version\": 3", "\"version\": 99", 1);
    let faults = open(&later).unwrap_err();
    let words = faults[0].message.to_string();
    assert!(words.contains("99"), "{words}");
    assert!(
        faults[0].remedy.to_string().contains("newer"),
        "{}",
        faults[0].remedy
    );
}

#[test]
fn a_map_of_a_million_corners_is_refused_at_the_door() {
    let corner = |i: u32| {
        format!(
            "[{:.6},{:.6}]",
            -100.0 + f64::from(i) * 1e-6,
            40.0 + f64::from(i % 1000) * 1e-6
        )
    };
    let corners: Vec<String> = (0..1_000_000).map(corner).collect();
    let text = format!(
        r#"{{"type":"LineString","coordinates":[{}]}}"#,
        corners.join(",")
    );
    let faults = import::read(&text, None).unwrap_err();
    assert_eq!(faults.len(), 1);
    assert!(!faults[0].message.to_string().is_empty() && !faults[0].remedy.to_string().is_empty());
}
