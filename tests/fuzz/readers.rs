//! Every reader of a text: it reads or refuses, with words, and what it read is written so that it is read again.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::{Duration, Instant};

use batterboard_core::analysis::{Cache, Detail, Scenario, run};
use batterboard_core::exchange::import::{self, Changes, Draft, Placed, Role};
use batterboard_core::exchange::{
    landxml, open, open_book, open_shell, save, save_book, save_shell,
};
use batterboard_core::finding::Finding;
use batterboard_core::geom::Point;
use batterboard_core::ground::table::{Heights, read_breaklines, read_spots};
use batterboard_core::lot::deed;
use batterboard_core::session::{Command, Session};
use batterboard_core::shell::catalogue;
use batterboard_core::site::Site;
use batterboard_core::site::starter::blank_lot;
use batterboard_core::sketch::walk;
use batterboard_core::units::{Measure, System, parse_measure, show};
use rand::RngExt;
use rand::seq::IndexedRandom;
use serde_json::{Value, json};

use crate::{DEMOS, change, demo, dice, tests, told};

/// Texts that each reader takes where nobody asked for more.
const TEXTS: u64 = 250;

/// Whether one that is JSON is changed as such: then it gets past the first reading.
#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Text,
    Json,
}

/// Gives a reader many texts; the first that makes it panic is kept and told.
fn holds(test: &str, kind: Kind, seeds: &[String], reads: impl Fn(&str)) {
    let found = tests().join("fuzz/found");
    let mut dice = dice(test);
    let kept = std::fs::read_dir(&found).unwrap().filter_map(|entry| {
        let path = entry.unwrap().path();
        let name = path.file_name()?.to_str()?;
        name.starts_with(&format!("{test}-"))
            .then(|| std::fs::read_to_string(&path).unwrap())
    });
    let kept: Vec<String> = kept.collect();
    let values: Vec<Option<Value>> = seeds
        .iter()
        .map(|it| serde_json::from_str(it).ok())
        .collect();
    let mut slowest = (Duration::ZERO, String::new());
    let count = told("BATTERBOARD_FUZZ_INPUTS", TEXTS);
    for number in 0..count + kept.len() as u64 {
        let text = match kept.get(number as usize) {
            Some(text) => text.clone(),
            None => {
                let of = dice.random_range(0..seeds.len());
                match &values[of] {
                    Some(value) if kind == Kind::Json && dice.random_bool(0.8) => {
                        change::value(&mut dice, value).to_string()
                    }
                    _ => change::text(&mut dice, &seeds[of], seeds),
                }
            }
        };
        let start = Instant::now();
        if catch_unwind(AssertUnwindSafe(|| reads(&text))).is_err() {
            let path = found.join(format!("{test}-{number}.txt"));
            std::fs::write(&path, &text).unwrap();
            panic!("{test}: number {number} broke it; its text is kept in tests/fuzz/found");
        }
        if start.elapsed() > slowest.0 {
            slowest = (start.elapsed(), text.chars().take(200).collect());
        }
    }
    println!(
        "{test}: {count} texts, the slowest {:?}: {}",
        slowest.0, slowest.1
    );
}

/// Brings a draft onto a new site as it is proposed; `complete` adds what its form has besides.
fn bring_in(draft: &Draft, complete: impl FnOnce(&mut Changes, &[Role], &Site)) {
    let site = blank_lot();
    let placed = Placed::of(draft, &draft.proposed, &[], &site);
    let roles: Vec<Role> = placed.items.iter().map(|it| it.proposed).collect();
    let mut changes = match Changes::of(draft, &draft.proposed, &roles, &site) {
        Err(faults) => return speak(&faults),
        Ok(changes) => changes,
    };
    complete(&mut changes, &roles, &site);
    let mut session = Session::new().unwrap();
    if let Err(faults) = session.apply(Command::from(changes)) {
        speak(&faults);
    }
}

/// Faults say what, and how to mend it.
pub fn speak(faults: &[Finding]) {
    assert!(!faults.is_empty());
    for it in faults {
        assert!(!it.message.to_string().is_empty() && !it.remedy.to_string().is_empty());
    }
}

/// The demo sites, and one of them with photographs of the yard.
fn sites() -> Vec<String> {
    let mut all: Vec<String> = DEMOS.map(demo).into();
    all.push(photographed());
    all
}

/// A demo site with two photographs: 7 by 3 pixels, written by Pillow 13.0.0 without notes.
fn photographed() -> String {
    const JPEG: &str = "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAKBueIx4ZKCMgoy0qqC+8P//8Nzc8P//////////////////////////////////////////////////////////2wBDAaq0tPDS8P//////////////////////////////////////////////////////////////////////////////wAARCAADAAcDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAL/xAAUEAEAAAAAAAAAAAAAAAAAAAAA/8QAFQEBAQAAAAAAAAAAAAAAAAAAAQP/xAAUEQEAAAAAAAAAAAAAAAAAAAAA/9oADAMBAAIRAxEAPwCQAo//2Q==";
    let one = |id: &str| json!({ "id": id, "at": [3.0, 4.0], "bearing": 1.0, "when": "Monday", "stage": "dug", "note": "The bank", "width": 7, "height": 3, "data": JPEG });
    let mut site: Value = serde_json::from_str(&demo(DEMOS[0])).unwrap();
    site["photographs"] = json!([one("a"), one("b")]);
    site.to_string()
}

fn reference(name: &str) -> String {
    std::fs::read_to_string(tests().join("reference/data").join(name)).unwrap()
}

#[test]
fn site_files() {
    holds("site", Kind::Json, &sites(), |text| match open(text) {
        Err(faults) => speak(&faults),
        Ok(opened) => {
            let written = save(opened.site.site(), &opened.unknown);
            let again = open(&written).expect("what was saved opens");
            assert_eq!(save(again.site.site(), &again.unknown), written);
        }
    });
}

#[test]
fn sites_are_analyzed() {
    holds("analysis", Kind::Json, &sites(), |text| {
        if text.len() % 8 == 0
            && let Ok(opened) = open(text)
        {
            run(
                &Scenario::of(&opened.site),
                Detail::Complete,
                &mut Cache::default(),
            );
        }
    });
}

#[test]
fn shell_files() {
    let seeds: Vec<String> = catalogue::all().iter().map(save_shell).collect();
    holds("shell", Kind::Json, &seeds, |text| match open_shell(text) {
        Err(faults) => speak(&faults),
        Ok((shell, _)) => {
            let written = save_shell(&shell);
            assert_eq!(open_shell(&written).expect("what was saved opens").0, shell);
        }
    });
}

#[test]
fn company_books() {
    let book = batterboard_core::site::book::examples();
    holds(
        "book",
        Kind::Json,
        &[save_book(&book)],
        |text| match open_book(text) {
            Err(faults) => speak(&faults),
            Ok((book, _)) => {
                let written = save_book(&book);
                assert_eq!(open_book(&written).expect("what was saved opens").0, book);
            }
        },
    );
}

#[test]
fn commands() {
    let seeds: Vec<String> = crate::edits::examples()
        .iter()
        .map(ToString::to_string)
        .collect();
    holds("command", Kind::Json, &seeds, |text| {
        if let Err(faults) = Command::read(text) {
            speak(&faults);
        }
    });
}

#[test]
fn maps_and_lists_of_points() {
    let seeds = [
        reference("invented_parcels.geojson"),
        reference("invented_points.csv"),
        reference("davis_1973_spots.csv"),
    ];
    holds("import", Kind::Json, &seeds, |text| {
        let draft = match import::read(text, None) {
            Err(faults) => return speak(&faults),
            Ok(draft) => draft,
        };
        bring_in(&draft, |_, _, _| {});
    });
}

#[test]
fn surveyors_files() {
    holds(
        "landxml",
        Kind::Text,
        &[reference("cone_surface.xml")],
        |text| {
            let survey = match landxml::read(text) {
                Err(faults) => return speak(&faults),
                Ok(survey) => survey,
            };
            bring_in(&survey.draft, |changes, roles, site| {
                survey.complete(changes, &survey.draft.proposed, roles, site);
            });
        },
    );
}

/// Invented descriptions with every figure of speech that the reader knows of.
const DEEDS: [&str; 3] = [
    "Beginning at an iron pin on the north side of Willow Lane; thence N 12\u{b0}30'15\" E 150.25 feet to a stone; thence S 77\u{b0} 29' 45\" \
     E, 100 feet; thence South 12 degrees 30 minutes West 150.25 feet; thence N 77-29-45 W 100.00' to the point of beginning, containing 0.345 acres.",
    "Commencing at the corner of Lot 7, thence along a curve to the right having a radius of 50.00 feet, an arc length of 39.27 feet, a delta of 45\u{b0}00'00\", \
     chord bearing N 22\u{b0}30' E, chord 38.27 feet; thence tangent to said curve N 45\u{b0} E 6 rods; thence due south twenty-five (25) feet, more or less; thence to the place of beginning.",
    "thence North 10 chains 5 links; thence East 300 varas; thence by a reverse curve concave southerly, radius 100 feet, through a central angle of 30 degrees; thence West 2 1/2 chains",
];

#[test]
fn deeds() {
    let seeds = DEEDS.map(str::to_owned);
    holds("deed", Kind::Text, &seeds, |text| {
        for system in [System::Feet, System::Metres] {
            let reading = deed::read(text, system);
            let record = reading.record(&blank_lot().lot);
            let mut session = Session::new().unwrap();
            if let Err(faults) = session.apply(Command::SetLot(record)) {
                speak(&faults);
            }
        }
    });
}

#[test]
fn houses_walked_wall_by_wall() {
    let seeds = ["20 left 12' right 3 ft 6 left 90 30' back to start".to_owned()];
    holds("walk", Kind::Text, &seeds, |text| {
        walk::read(text, Point::new(1.0, 2.0), 0.3, System::Feet);
    });
}

#[test]
fn tables_of_spots_and_breaklines() {
    let seeds = [
        reference("davis_1973_spots.csv"),
        "10' 20' 100.5\n12 22.5 99.75\n\n5 5 98".to_owned(),
        "1\t2\t3\n4;5;6\n".to_owned(),
    ];
    let heights = Heights::Elevations;
    holds("table", Kind::Text, &seeds, |text| {
        read_spots(text, System::Feet, heights, &[]);
        read_breaklines(text, System::Metres, heights, &[]);
    });
}

#[test]
fn figures() {
    const MEASURES: [Measure; 12] = [
        Measure::Length,
        Measure::LongLength,
        Measure::Elevation,
        Measure::Area,
        Measure::EarthVolume,
        Measure::Bearing,
        Measure::Heading,
        Measure::Slope,
        Measure::Fraction,
        Measure::Density,
        Measure::Minutes,
        Measure::Money,
    ];
    let seeds = [
        "5'-11 15/16\"",
        "12 ft 6 in",
        "3.25 m",
        "N 12\u{b0}30'15\" E",
        "S 5 W",
        "1 1/2:1",
        "12.5 %",
        "10 cu yd",
        "1,250.75",
        "-3'-0\"",
        "45\u{b0}",
        "0.25 acre",
    ]
    .map(str::to_owned);
    holds("figure", Kind::Text, &seeds, |text| {
        for measure in MEASURES {
            for system in [System::Feet, System::Metres] {
                match parse_measure(text, measure, system) {
                    Err(fault) => assert!(!fault.to_string().is_empty()),
                    Ok(parsed) => {
                        assert!(parsed.value.is_finite(), "{text:?}");
                        show(measure, parsed.value, system);
                    }
                }
            }
        }
    });
}

#[test]
fn a_reader_that_panics_is_caught_and_its_text_kept() {
    let found = tests().join("fuzz/found/trial-0.txt");
    let caught = catch_unwind(|| {
        holds("trial", Kind::Text, &["a text".to_owned()], |_| {
            panic!("as it is meant to")
        });
    });
    assert!(caught.is_err() && found.is_file());
    std::fs::remove_file(found).unwrap();
}

#[test]
fn changed_values_are_often_read_and_often_refused() {
    let (mut read, mut refused) = (0, 0);
    let mut dice = dice("shares");
    let seeds: Vec<Value> = sites()
        .iter()
        .map(|it| serde_json::from_str(it).unwrap())
        .collect();
    for _ in 0..60 {
        let seed = seeds.choose(&mut dice).unwrap();
        let text = change::value(&mut dice, seed).to_string();
        match open(&text) {
            Ok(_) => read += 1,
            Err(_) => refused += 1,
        }
    }
    assert!(read > 5 && refused > 5, "{read} read, {refused} refused");
}
