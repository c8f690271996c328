//! `sun`: text and JSON of one site, lines of a folder, a day and a clock of one's own.

use serde_json::Value;

use crate::run;

const DEMOS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo-sites");

fn said(arguments: &[&str]) -> (Option<i32>, String, String) {
    run::said("sun", arguments)
}

fn json(arguments: &[&str]) -> Value {
    let (code, text, why) = said(&[arguments, &["--json"]].concat());
    assert_eq!(code, Some(0), "{why}");
    serde_json::from_str(&text).unwrap()
}

#[test]
fn the_sun_of_a_site_comes_as_text_and_as_json() {
    let site = format!("{DEMOS}/creek-side-deed.json");
    let (code, text, _) = said(&[&site]);
    assert_eq!(code, Some(0));
    for part in [
        "Sun on the water",
        "2026-06-21, clock UTC-7:00",
        "Through the day",
        "Clear sky",
    ] {
        assert!(text.contains(part), "{part}: {text}");
    }
    let told = json(&[&site]);
    let hours = |name: &str| told[name]["value"].as_f64().unwrap() / 3600.0;
    // At 40.5 degrees north the longest day has 15 h.
    assert!(
        (hours("daylight") - 15.1).abs() < 0.1,
        "{}",
        hours("daylight")
    );
    assert!(hours("in_sun") <= hours("daylight") && hours("in_sun") > 5.0);
    let samples = told["samples"].as_array().unwrap();
    let share = |it: &Value| it["share"].as_f64().unwrap();
    assert!(samples.iter().all(|it| (0.0..=1.0).contains(&share(it))));
    // The trapezoids over what is printed are the hours printed.
    let sum: f64 = samples
        .windows(2)
        .map(|w| {
            let long = w[1]["minutes"].as_f64().unwrap() - w[0]["minutes"].as_f64().unwrap();
            long * (share(&w[0]) + share(&w[1])) / 2.0
        })
        .sum();
    assert!((sum / 60.0 - hours("in_sun")).abs() < 1e-9);
}

#[test]
fn a_day_and_a_clock_are_taken_as_typed() {
    let site = format!("{DEMOS}/creek-side-deed.json");
    let winter = json(&[&site, "--day", "2026-12-21", "--utc-offset", "-6"]);
    assert_eq!(
        (winter["date"].as_str(), winter["utc_offset"].as_str()),
        (Some("2026-12-21"), Some("-6:00"))
    );
    let usual = json(&[&site]);
    let value = |told: &Value, name: &str| told[name]["value"].as_f64().unwrap();
    assert!(value(&winter, "daylight") < 10.0 * 3600.0);
    // An hour more on the clock moves sunrise by an hour, and no share.
    let later = json(&[&site, "--utc-offset", "-6"]);
    let rise = |told: &Value| told["spells"][0]["from"].as_f64().unwrap();
    assert!((rise(&later) - rise(&usual) - 60.0).abs() < 0.02);
    assert!((value(&later, "in_sun") - value(&usual, "in_sun")).abs() < 0.01 * 3600.0);
    for wrong in [["--day", "2026-02-30"], ["--utc-offset", "soon"]] {
        let (code, out, why) = said(&[&[site.as_str()][..], &wrong[..]].concat());
        assert_eq!((code, out.as_str()), (Some(2), ""));
        assert!(why.contains(wrong[1]), "{why}");
    }
}

#[test]
fn a_folder_comes_as_one_line_of_json_each_and_says_what_is_missing() {
    let (code, lines, _) = said(&[DEMOS, "--json"]);
    assert_eq!(code, Some(0));
    let all: Vec<Value> = lines
        .lines()
        .map(|it| serde_json::from_str(it).unwrap())
        .collect();
    assert_eq!(all.len(), 4);
    for line in &all {
        let placed = line["file"].as_str().unwrap().contains("creek-side");
        assert_eq!(line["in_sun"].is_object(), placed);
        let codes: Vec<&str> = line["findings"]
            .as_array()
            .unwrap()
            .iter()
            .map(|it| it["code"].as_str().unwrap())
            .collect();
        assert_eq!(codes.contains(&"sun-no-place"), !placed, "{codes:?}");
    }
    // A place of one's own.
    let site = format!("{DEMOS}/level-suburban.json");
    let told = json(&[&site, "--origin", "-84.3,36.4"]);
    assert!(told["in_sun"].is_object());
    let (code, lines, _) = said(&[&site, &format!("{DEMOS}/missing.json"), "--json"]);
    assert_eq!(code, Some(2));
    assert!(lines.lines().nth(1).unwrap().contains("missing.json"));
}
