//! Settings are read, written, ranged and named as a site file has them.

use serde_json::{Value, json};

use super::ConstructionSettings;

/// Every setting that a file may hold, each another than where nothing is told.
fn every_setting() -> Value {
    json!({
        "dig": {
            "over_dig": 0.3, "base_thickness": 0.15, "soil": "b", "side_slope": 0.5,
            "material": "clay", "swell": 1.3, "density": 1900.0,
            "sides": [{ "side": "ahead", "over_dig": 0.4, "slope": 4.0, "note": "ramp" }],
            "bases": [{ "kind": "deep", "thickness": 0.2 }],
            "layers": [{ "down_to": 0.5, "soil": "c", "slope": 1.2 }],
            "upright_below": 1.2, "bench": { "depth": 1.0, "width": 0.4 }, "short_term": true,
        },
        "stone": { "density": 1500.0, "voids": 0.35, "lift": 0.25, "fabric": false },
        "collar": { "width": 0.4, "depth": 0.35, "top_below_rim": 0.12, "bars": 3.0 },
        "deck": {
            "width": 2.5, "thickness": 0.12, "bed": 0.15, "fall": 0.03,
            "joint_spacing": 3.0, "rod_spacing": 0.4,
        },
        "ties": { "spacing": 0.7, "length": 0.5 },
        "dewatering": {
            "diameter": 0.25, "above_rim": 0.1, "at": [5.0, 6.0],
            "sump_depth": 0.3, "sump_width": 0.5,
        },
        "haul": { "box_volume": 6.0, "payload": 9000.0, "cycle": 1800.0, "trucks": 2.0 },
        "waste": { "stone": 0.11, "concrete": 0.12, "pipe": 0.13, "fabric": 0.14, "rods": 0.16 },
        "pad": { "thickness": 0.13, "bed": 0.14 },
        "pipe": {
            "fittings": [{ "kind": "return", "at": [1.0, 2.0], "depth": 0.4 }],
            "size": "three", "flow": 0.004, "coefficient": 140.0, "bend": 1.0,
            "strap_spacing": 1.1, "off_wall": 0.2, "encasement": 0.15,
            "trench_width": 0.4, "trench_depth": 0.6,
        },
        "grading": { "bank_slope": 2.0, "retained_limit": 0.9 },
        "spoil": {
            "reuse": false, "piled": 0.5, "repose": 1.4, "most_height": 2.0, "back": 0.8,
            "at": [3.0, 4.0],
        },
        "groundwater": 29.5,
        "doubt": { "swell": 0.1, "over_dig": 0.02, "ground": 0.05 },
        "access": {
            "side_room": 0.2, "room_above": 0.4,
            "excavator": { "width": 1.8, "wheelbase": 2.5, "turning_radius": 0.0, "height": 2.4 },
            "truck": { "width": 2.4, "wheelbase": 5.0, "turning_radius": 11.0, "height": 3.1 },
            "skid_loader": { "width": 1.5, "wheelbase": 2.9, "turning_radius": 0.0, "height": 2.0 },
            "carried_at": 0.8, "handling": 0.5, "panel": 1.8,
        },
        "crane": {
            "outrigger_length": 6.1, "outrigger_width": 5.9, "pad": 1.1, "weight": 25_000.0,
            "rigging": 300.0, "shell_weight": 1200.0, "share": 0.8, "lift_height": 4.0,
            "tip_above": 6.0, "swing": 0.7, "room_below": 0.6,
        },
    })
}

#[test]
fn what_is_not_told_is_as_the_trade_has_it() {
    let works: ConstructionSettings = serde_json::from_value(json!({})).unwrap();
    assert_eq!(works, ConstructionSettings::default());
    let told = json!({ "deck": { "width": 2.5 }, "dig": { "short_term": true } });
    let works: ConstructionSettings = serde_json::from_value(told).unwrap();
    assert_eq!((works.deck.width, works.dig.short_term), (2.5, true));
    assert_eq!(works.deck.fall, ConstructionSettings::default().deck.fall);
}

#[test]
fn every_setting_is_read_and_written_in_order() {
    let told = every_setting();
    let works: ConstructionSettings = serde_json::from_value(told.clone()).unwrap();
    let written = serde_json::to_value(&works).unwrap();
    // As text, which tells the order as well.
    assert_eq!(written.to_string(), told.to_string());
}

/// Settings that may be missing are left out where they are; all others are always written,
/// so that another default of a later build changes no saved site.
#[test]
fn what_nobody_told_is_written_only_where_it_has_a_default() {
    let written = serde_json::to_value(ConstructionSettings::default()).unwrap();
    let mut left_out = Vec::new();
    for (group, members) in every_setting().as_object().unwrap() {
        match members {
            Value::Object(members) => {
                for name in members.keys() {
                    if written[group].get(name).is_none() {
                        left_out.push(format!("{group}.{name}"));
                    }
                }
            }
            _ if written.get(group).is_none() => left_out.push(group.clone()),
            _ => {}
        }
    }
    let expected = "dig.side_slope dig.swell dig.density dig.sides dig.bases dig.layers \
        dig.upright_below dig.bench dig.short_term dewatering.at pipe.fittings spoil.at groundwater \
        crane.shell_weight";
    assert_eq!(left_out.join(" "), expected);
}

#[test]
fn what_is_no_setting_is_refused_in_words() {
    let refused = |text: &str| {
        let fault = serde_json::from_str::<ConstructionSettings>(text).unwrap_err();
        fault.to_string()
    };
    assert!(refused(r#"{"deck": {"width": "wide"}}"#).contains("expected f64"));
    assert!(refused(r#"{"deck": {"width": null}}"#).contains("expected f64"));
    assert!(refused(r#"{"deck": 1.2}"#).contains("expected struct"));
    let twice = r#"{"deck": {"width": 1, "width": 2}}"#;
    assert!(refused(twice).contains("duplicate field `width`"));
    assert!(refused(r#"{"dig": {"soil": "d"}}"#).contains("unknown variant"));
}

/// The ways to all figures in a document, as JSON pointers.
fn figures(value: &Value, way: &str, out: &mut Vec<String>) {
    match value {
        Value::Number(_) => out.push(way.to_owned()),
        Value::Object(members) => {
            for (name, member) in members {
                figures(member, &format!("{way}/{name}"), out);
            }
        }
        Value::Array(items) => {
            for (i, item) in items.iter().enumerate() {
                figures(item, &format!("{way}/{i}"), out);
            }
        }
        _ => {}
    }
}

/// Every figure among the settings has a range, and its fault names it by its place.
#[test]
fn a_setting_out_of_range_is_told_with_its_place() {
    let mut ways = Vec::new();
    figures(&every_setting(), "", &mut ways);
    assert_eq!(ways.len(), 96);
    for way in ways {
        for far in [-1e12, 1e12] {
            let mut told = every_setting();
            *told.pointer_mut(&way).unwrap() = json!(far);
            let mut site = crate::site::starter::blank_lot();
            site.works = std::sync::Arc::new(serde_json::from_value(told).unwrap());
            let faults = crate::site::CheckedSite::check(site, None).unwrap_err();
            let place = format!("/works{way}");
            // Of a position the whole is named.
            let whole = place.strip_suffix("/at/0").or(place.strip_suffix("/at/1"));
            let place = whole.map_or(place.clone(), |thing| format!("{thing}/at"));
            let fault = faults.iter().find(|f| f.pointer == place);
            let fault = fault.unwrap_or_else(|| panic!("{place}: {faults:?}"));
            assert_eq!(fault.code, "out-of-range");
            assert!(
                fault.message.contains("it must lie between"),
                "{}",
                fault.message
            );
        }
    }
}

/// A bound speaks in the units in use, and in the figure as somebody would type it.
#[test]
fn a_setting_out_of_range_is_told_in_the_units_in_use() {
    use crate::units::System;
    let told = |system| {
        let mut site = crate::site::starter::blank_lot();
        site.display = system;
        let mut works = ConstructionSettings::default();
        works.dig.over_dig = 12.0 * 0.3048;
        works.deck.fall = 0.25;
        site.works = std::sync::Arc::new(works);
        let faults = crate::site::CheckedSite::check(site, None).unwrap_err();
        let texts = faults.iter().map(|f| format!("{} {}", f.message, f.remedy));
        texts.collect::<Vec<_>>()
    };
    assert_eq!(
        told(System::Feet),
        [
            "The over-dig is 12'-0\"; it must lie between 0'-0\" and 9'-10 1/16\". Give a value within that range.",
            "The deck's fall is 25.0%; it must lie between 0.0% and 20.0%. Give a value within that range.",
        ]
    );
    assert_eq!(
        *told(System::Metres).first().unwrap(),
        "The over-dig is 3.6576 m; it must lie between 0.000 m and 3.000 m. Give a value within that range."
    );
}
