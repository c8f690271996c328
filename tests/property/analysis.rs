//! Low and high against holes dug anew, cost against the list for a spreadsheet, and a comparison
//! of a site with itself.

use std::sync::Arc;

use batterboard_core::analysis::{Analysis, Cache, Detail, Scenario, compare, run};
use batterboard_core::math::TURN;
use batterboard_core::report::csv;
use batterboard_core::shell::catalogue;
use batterboard_core::site::{Alternative, CheckedSite, ConstructionSettings, Rate, Site};
use batterboard_core::takeoff::Line;
use batterboard_core::units::{Measure, System, round_to};
use proptest::prelude::*;
use serde_json::json;

/// A shell somewhere on a wide lot whose ground falls evenly.
fn sites() -> impl Strategy<Value = Site> {
    let all = catalogue::all();
    let slopes = prop_oneof![Just(0.0), Just(1.0), 0.3..2.0_f64];
    let fall = [-0.05..0.05_f64, -0.05..0.05_f64];
    let doubt = [0.0..0.4_f64, 0.0..0.1_f64, 0.0..0.1_f64];
    (0..all.len(), 0.0..TURN, slopes, fall, doubt, -0.3..0.3_f64).prop_map(
        move |(shell, heading, slope, [fx, fy], [swell, over_dig, ground], coping)| {
            let course = |kind: &str, quarters: f64| {
                json!({ "kind": kind,
                        "shape": { "line": { "bearing": quarters * TURN / 4.0, "distance": 60 } } })
            };
            let spots = [[0.0, 0.0], [60.0, 0.0], [60.0, 60.0], [0.0, 60.0]]
                .map(|[x, y]| [x, y, fx * (x - 30.0) + fy * (y - 30.0)]);
            let document = json!({
                "format": "batterboard-site", "version": 3, "name": "=1, \"quoted\"",
                "lot": { "courses": [course("front", 1.0), course("side", 0.0),
                                     course("rear", 3.0), course("side", 2.0)] },
                "ground": { "spots": { "spots": spots } },
                "placement": { "shell": { "catalogue": all[shell].name }, "at": [30, 30],
                               "heading": heading, "coping_elevation": coping },
                "works": { "dig": { "side_slope": slope },
                           "doubt": { "swell": swell, "over_dig": over_dig, "ground": ground } },
            });
            serde_json::from_value(document).unwrap()
        },
    )
}

fn checked(site: Site) -> CheckedSite {
    CheckedSite::check(site, None).unwrap()
}

fn analyzed(site: &CheckedSite) -> Analysis {
    run(&Scenario::of(site), Detail::Ranges, &mut Cache::default())
}

/// The site under other settings, or with its rim so much higher.
fn otherwise(site: &Site, works: impl FnOnce(&mut ConstructionSettings), raised: f64) -> Analysis {
    let mut site = site.clone();
    works(Arc::make_mut(&mut site.works));
    site.placement.as_mut().unwrap().coping_elevation += raised;
    without_ranges(&checked(site))
}

/// Without low and high, which take most of the time.
fn without_ranges(site: &CheckedSite) -> Analysis {
    run(&Scenario::of(site), Detail::Complete, &mut Cache::default())
}

/// Rates for every line that may have one, dear enough that cents matter.
fn rates(analysis: &Analysis) -> Vec<Rate> {
    let paid = analysis.takeoff.iter().filter(|l| l.pays_for.is_some());
    let rate = |(i, line): (usize, &Line)| Rate {
        key: line.key.to_owned(),
        rate: 0.137 + 3.31 * i as f64,
        per: None,
    };
    paid.enumerate().map(rate).collect()
}

/// The cells of a text of RFC 4180.
fn cells(text: &str) -> Vec<Vec<String>> {
    let mut rows = vec![vec![String::new()]];
    let mut quoted = false;
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        let row = rows.last_mut().unwrap();
        let cell = row.last_mut().unwrap();
        match c {
            '"' if quoted && chars.peek() == Some(&'"') => {
                cell.push('"');
                chars.next();
            }
            '"' => quoted = !quoted,
            ',' if !quoted => row.push(String::new()),
            '\r' if !quoted => {}
            '\n' if !quoted => rows.push(vec![String::new()]),
            c => cell.push(c),
        }
    }
    assert!(!quoted);
    rows.pop();
    rows
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4))]

    /// Every line's range holds what a whole new analysis says of it at either end of each doubt.
    /// Ground that lies higher is a rim that lies lower.
    #[test]
    fn ranges_hold_what_is_dug_anew(site in sites()) {
        let expected = analyzed(&checked(site.clone()));
        let doubt = site.works.doubt;
        let swell = site.works.dig.loose_per_bank() - 1.0;
        let over_dig = site.works.dig.over_dig;
        for sign in [-1.0, 1.0] {
            let ends = [
                ("swell", otherwise(&site, |w| w.dig.swell = Some(1.0 + swell * (1.0 + sign * doubt.swell)), 0.0)),
                ("over-dig", otherwise(&site, |w| w.dig.over_dig = (over_dig + sign * doubt.over_dig).max(0.0), 0.0)),
                ("ground", otherwise(&site, |_| {}, -sign * doubt.ground)),
            ];
            for (what, end) in &ends {
                for (line, other) in expected.takeoff.iter().zip(&end.takeoff) {
                    prop_assert_eq!(line.key, other.key);
                    // Elevations follow the rim, which was moved in place of the ground.
                    if *what == "ground" && line.measure == Measure::Elevation {
                        continue;
                    }
                    let (low, high) = line.range.as_ref().map_or((line.value, line.value), |r| (r.low, r.high));
                    let slack = 1e-6 * line.value.abs().max(1.0);
                    prop_assert!(
                        other.value >= low - slack && other.value <= high + slack,
                        "{} by {}: {} is not in {} to {}", line.key, what, other.value, low, high
                    );
                }
            }
        }
    }

    /// The total of the cost is the sum of the list's own column, to the cent.
    #[test]
    fn the_total_is_the_sum_of_the_list(site in sites(), feet in any::<bool>()) {
        let mut site = site;
        site.rates = rates(&without_ranges(&checked(site.clone())));
        let checked = checked(site);
        let analysis = analyzed(&checked);
        let system = if feet { System::Feet } else { System::Metres };
        let text = csv::takeoff(&checked, &analysis, system);
        let rows = cells(&text);
        let column = |name: &str| csv::COLUMNS.iter().position(|c| *c == name).unwrap();
        prop_assert_eq!(&rows[0], &csv::COLUMNS.map(str::to_owned).to_vec());
        prop_assert_eq!(rows.len(), analysis.takeoff.len() + 2);
        let (mut sum, mut total, mut by_hand) = (0.0, None, 0.0);
        for row in &rows[1..] {
            prop_assert_eq!(row.len(), csv::COLUMNS.len());
            prop_assert_eq!(row[0].as_str(), "'=1, \"quoted\"");
            let figure = |name: &str| row[column(name)].parse::<f64>().ok();
            let Some(cost) = figure("Cost") else { continue };
            if row[column("Group")] == csv::TOTAL {
                total = Some(cost);
                continue;
            }
            sum += cost;
            let line = analysis.takeoff.iter().find(|l| l.key == row[column("Key")]).unwrap();
            // Rate and amount as the list shows them; only their printing is rounded.
            let shown = figure("Rate").unwrap() * figure("Expected").unwrap();
            let exact = line.measure.shown_unit(system).from_si(line.value) * figure("Rate").unwrap();
            prop_assert!((exact - cost).abs() <= 0.006 + 1e-4 * cost, "{}: {exact} {cost}", line.key);
            by_hand += shown;
        }
        let cost = analysis.cost.as_ref().unwrap();
        prop_assert_eq!(round_to(sum, 2), total.unwrap());
        prop_assert_eq!(total.unwrap(), cost.total);
        prop_assert!((by_hand - sum).abs() <= 0.02 * sum);
        prop_assert!(cost.range[0] <= cost.total && cost.total <= cost.range[1]);
        let groups: f64 = cost.groups.iter().map(|(_, sum)| sum).sum();
        prop_assert_eq!(round_to(groups, 2), cost.total);
    }

    /// A site beside itself differs in nothing.
    #[test]
    fn a_site_beside_itself_differs_in_nothing(site in sites()) {
        let mut site = site;
        site.rates = rates(&without_ranges(&checked(site.clone())));
        site.alternatives = vec![Alternative {
            name: "The same".to_owned(),
            placement: site.placement.clone().unwrap(),
        }];
        let compared = compare::compare(&checked(site));
        prop_assert_eq!(compared.columns.len(), 2);
        for key in ["bank-cut", "loads", "stone", "concrete", "water-volume", "cost"] {
            prop_assert!(compared.rows.iter().any(|row| row.key == key), "{}", key);
        }
        for row in &compared.rows {
            prop_assert_eq!(row.difference(1), Some(0.0), "{}", row.key);
        }
    }
}
