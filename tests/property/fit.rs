//! The fit search against places tried at random, and against the whole analysis.

use batterboard_core::analysis::{self, Cache, Detail, Scenario};
use batterboard_core::clear_ground::{Bounds, Ruler};
use batterboard_core::exchange::open;
use batterboard_core::finding::Topic;
use batterboard_core::fit::{FitAim, FitWish, Search, ShellFit, largest};
use batterboard_core::geom::offset::offset_region;
use batterboard_core::geom::{DRAWING_TOLERANCE, Edges, Point, Pose, Region, Ring};
use batterboard_core::shell::catalogue;
use batterboard_core::site::{CheckedSite, MeasuredFrom};
use batterboard_core::sun::{SunDay, sun_on_water};

const LEVEL: &str = include_str!("../../demo-sites/level-suburban.json");
const WEDGE: &str = include_str!("../../demo-sites/wedge-cul-de-sac.json");
const HILLSIDE: &str = include_str!("../../demo-sites/sloping-hillside.json");

fn found(text: &str, wish: FitWish) -> (CheckedSite, Vec<ShellFit>) {
    let site = open(text).unwrap().site;
    let mut search = Search::new(site.clone(), wish).unwrap();
    let mut steps = 0;
    while !search.step().is_done() {
        steps += 1;
        assert!(steps < 10_000);
    }
    (site, search.found().to_vec())
}

/// A search among some shells: one of each kind of outline, and a small and a large one.
fn wish(wanted: FitAim, step: u16) -> FitWish {
    let all = catalogue::all().iter().step_by(4);
    FitWish {
        wanted,
        step,
        shells: all.map(|it| it.name.clone()).collect(),
        sun_date: None,
    }
}

/// What the site says of a place: nothing short, nothing built where it cannot be.
fn holds(site: &CheckedSite, fit: &ShellFit) {
    let scenario = Scenario::with(site, |next| next.placement = Some(fit.placement.clone()));
    let found = analysis::run(&scenario.unwrap(), Detail::Complete, &mut Cache::default());
    for clearance in &found.clearances {
        // The chords of a widened corner may be 3 mm inside the arc.
        let moves = clearance.from != MeasuredFrom::Equipment;
        assert!(
            !moves || clearance.room > -0.003,
            "{} {clearance:?}",
            fit.name
        );
    }
    let fault = found.findings.iter().find(|it| {
        it.is_fault() && it.topic == Topic::Verdict && !it.code.starts_with("equipment")
    });
    assert_eq!(fault, None, "{}", fit.name);
    let least = found
        .clearances
        .iter()
        .find(|it| it.from != MeasuredFrom::Equipment);
    assert!((least.unwrap().room.max(0.0) - fit.room).abs() < 1e-9);
    assert!((found.dig.unwrap().bank_volume - fit.bank_cut).abs() < 1e-9);
}

#[test]
fn every_place_found_holds_and_the_best_comes_first() {
    for (text, wanted) in [
        (WEDGE, FitAim::MostRoom),
        (HILLSIDE, FitAim::LeastFill),
        (LEVEL, FitAim::NearDoor),
        (LEVEL, FitAim::Parallel),
    ] {
        let (site, fits) = found(text, wish(wanted, 30));
        assert!(!fits.is_empty(), "{wanted:?}");
        for fit in &fits {
            holds(&site, fit);
        }
        let good = |fit: &ShellFit| match wanted {
            FitAim::MostRoom | FitAim::Parallel => fit.room,
            FitAim::NearDoor => -fit.to_door.unwrap(),
            FitAim::LeastSpoil => -fit.surplus,
            FitAim::LeastFill => -fit.fill,
            FitAim::MostSun => fit.sun.unwrap(),
        };
        assert!(
            fits.windows(2).all(|it| good(&it[0]) >= good(&it[1])),
            "{wanted:?}"
        );
    }
}

/// The level lot with a place on the earth, a tall house and tall trees.
fn sunny() -> String {
    let mut site: serde_json::Value = serde_json::from_str(LEVEL).unwrap();
    site["origin"] = serde_json::json!({ "longitude": -1.47, "latitude": 0.64 });
    for feature in site["features"].as_array_mut().unwrap() {
        let height = match feature["kind"].as_str().unwrap() {
            "house" => 8.0,
            "tree" => 11.0,
            "fence" => 1.8,
            _ => continue,
        };
        feature["facts"]["height"] = height.into();
    }
    site.to_string()
}

/// The sun told of each place is the sun there, the sunniest comes first, and no place that other aims find has
/// noticeably more: the promise is read off a grid.
#[test]
fn the_most_sun_is_found() {
    let text = sunny();
    let march = FitWish {
        sun_date: Some("2026-03-20".parse().unwrap()),
        ..wish(FitAim::MostSun, 30)
    };
    let (site, fits) = found(&text, march);
    assert!(!fits.is_empty());
    let day = SunDay {
        date: "2026-03-20".parse().unwrap(),
        ..SunDay::usual(&site.site().origin.unwrap())
    };
    let sun = |fit: &ShellFit| {
        let placed = Scenario::with(&site, |next| next.placement = Some(fit.placement.clone()));
        sun_on_water(placed.unwrap().site(), &day).0.unwrap().in_sun
    };
    for fit in &fits {
        holds(&site, fit);
        assert!((fit.sun.unwrap() - sun(fit)).abs() < 1e-6);
    }
    assert!(fits.array_windows().all(|[a, b]| a.sun >= b.sun));
    let (_, roomy) = found(&text, wish(FitAim::MostRoom, 30));
    assert!(roomy.iter().all(|it| it.sun.is_none()));
    let mut more = 0;
    for name in roomy.iter().map(|it| &it.name) {
        let of = |list: &[ShellFit]| list.iter().find(|it| it.name == *name).cloned();
        let (Some(sunniest), Some(roomiest)) = (of(&fits), of(&roomy)) else {
            continue;
        };
        let (best, other) = (sunniest.sun.unwrap(), sun(&roomiest));
        assert!(best > other - 900.0, "{name}: {best} {other}");
        more += usize::from(best > other + 60.0);
    }
    assert!(more > 0);
    // A site that may lie anywhere cannot be asked.
    let nowhere = open(LEVEL).unwrap().site;
    let refused = Search::new(nowhere, wish(FitAim::MostSun, 30)).unwrap_err();
    assert_eq!(refused[0].code, "sun-no-place");
}

/// No place tried at random, at the headings looked at, leaves more room.
#[test]
fn no_place_tried_at_random_leaves_more_room() {
    let (site, fits) = found(LEVEL, wish(FitAim::MostRoom, 15));
    let best = |name: &str| fits.iter().find(|fit| fit.name == name);
    let mut state = 5_u64;
    let mut number = move || {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1);
        (state >> 11) as f64 / (1_u64 << 53) as f64
    };
    let mut near = 0;
    for fit in fits
        .iter()
        .filter(|fit| best(&fit.name) == Some(fit))
        .take(4)
    {
        let scenario = Scenario::with(&site, |next| next.placement = Some(fit.placement.clone()));
        let scenario = scenario.unwrap();
        let bounds = Bounds::where_it_stands(scenario.site(), &mut Cache::default()).unwrap();
        let ruler = Ruler::of(&bounds);
        let (low, high) = site.lot().region.bounds().unwrap();
        let slack = ruler.tightest(&fit.placement.pose()).unwrap().room;
        for _ in 0..400 {
            let at = Point::new(
                low.x + (high.x - low.x) * number(),
                low.y + (high.y - low.y) * number(),
            );
            let heading = (number() * 24.0).floor() * std::f64::consts::TAU / 24.0;
            let pose = Pose::new(at, heading, number() < 0.5);
            let tried = ruler.tightest(&pose).unwrap().room;
            assert!(
                tried < slack + 0.01,
                "{}: {tried} at {at:?}, {slack}",
                fit.name
            );
            near += usize::from(tried > 0.0);
        }
    }
    assert!(near > 0);
}

#[test]
fn a_name_that_no_shell_has_is_told() {
    let site = open(LEVEL).unwrap().site;
    let wish = FitWish {
        shells: vec!["no such shell".into()],
        ..FitWish::default()
    };
    assert_eq!(
        Search::new(site, wish).unwrap_err()[0].code,
        "unknown-shell"
    );
}

/// The largest rectangle fits, and one 5 cm longer fits at none of its headings.
#[test]
fn the_largest_rectangle_is_the_largest() {
    let site = open(LEVEL).unwrap().site;
    let bounds = Bounds::where_it_stands(&site, &mut Cache::default()).unwrap();
    let found = largest(&bounds, 0.5).unwrap();
    assert!((found.width - found.length / 2.0).abs() < 1e-12);
    assert!(found.length > 5.0, "{found:?}");
    // The dig as far outside the water, at its farthest, as it is round this shell.
    let [water, dig] = bounds.figures();
    let edges = Edges::of_region(water);
    let points = dig.rings().flat_map(|ring| &ring.0);
    let out = points.map(|p| edges.distance(*p)).fold(0.0, f64::max);
    let fits = |length: f64, heading: f64| {
        let (x, y) = (length / 2.0, length / 4.0);
        let ring = [(-x, -y), (x, -y), (x, y), (-x, y)].map(|(x, y)| Point::new(x, y));
        let water = Region::from_ring(Ring(ring.to_vec()));
        let dig = offset_region(&water, out, DRAWING_TOLERANCE);
        let region = bounds.with_figures([water, dig]).region(heading, false);
        !region.is_empty()
    };
    assert!(fits(found.length, found.heading));
    for degree in (0..180).step_by(2) {
        let heading = std::f64::consts::TAU * f64::from(degree) / 360.0;
        assert!(!fits(found.length + 0.05, heading), "{degree}");
    }
}
