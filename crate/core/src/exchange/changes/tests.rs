//! Tests: every sort of change is told once, in words.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]
use super::*;
use crate::shell::catalogue;
use crate::site::{EquipmentPad, FeatureKind, Picture, PictureMedia, Rate, starter};
use crate::units::constants::FOOT;
use crate::units::{Currency, RateUnit};
use std::sync::Arc;

fn placed() -> Site {
    let mut site = starter::blank_lot();
    let area = |x: f64| {
        let corners = [(x, 2.0), (x + 6.0, 2.0), (x + 6.0, 8.0), (x, 8.0)];
        ShapeRecord::Area(PathRecord(
            corners.map(|(x, y)| VertexRecord::Line([x, y])).to_vec(),
        ))
    };
    let mut house = Feature::of("house", FeatureKind::House, area(2.0));
    house.name = "the house".into();
    let disc = ShapeRecord::Disc {
        at: Point::new(20.0, 20.0),
        radius: 1.0,
    };
    let tank = Feature::of("tank", FeatureKind::SepticTank, disc);
    site.features = Arc::new(vec![house, tank]);
    site.placement = Some(Placement {
        shell: Arc::new(ShellChoice::Catalogue(catalogue::all()[0].name.clone())),
        at: Point::new(15.0, 25.0),
        heading: 0.0,
        mirrored: false,
        coping_elevation: 30.48,
    });
    site
}

fn told(edit: impl FnOnce(&mut Site)) -> Vec<(ChangeKind, String)> {
    let before = placed();
    let mut after = before.clone();
    edit(&mut after);
    let changes = between(&before, &after);
    changes.into_iter().map(|it| (it.kind, it.words)).collect()
}

fn only(edit: impl FnOnce(&mut Site)) -> (ChangeKind, String) {
    let mut all = told(edit);
    assert_eq!(all.len(), 1, "{all:?}");
    all.remove(0)
}

#[test]
fn tapes_are_counted() {
    let tape = |x: f64| crate::site::Tape {
        from: crate::site::TapeEnd::Side(0),
        to: crate::site::TapeEnd::At(Point::new(x, 1.0)),
    };
    let added = only(|site| site.tapes = vec![tape(1.0)]);
    assert_eq!(added, (ChangeKind::Added, "1 tape added.".to_owned()));
    let added = only(|site| site.tapes = vec![tape(1.0), tape(2.0)]);
    assert_eq!(added, (ChangeKind::Added, "2 tapes added.".to_owned()));
}

#[test]
fn nothing_is_told_of_the_same_site() {
    assert_eq!(told(|_| {}), []);
}

#[test]
fn what_happened_to_the_shell_is_told_in_the_units_read() {
    let moved = only(|site| site.placement.as_mut().unwrap().at = Point::new(15.0, 28.048));
    assert_eq!(
        moved,
        (ChangeKind::Moved, "Shell moved by 10'-0\".".to_owned())
    );
    let metres = told(|site| {
        site.display = System::Metres;
        site.placement.as_mut().unwrap().at = Point::new(16.0, 25.0);
    });
    assert_eq!(metres[0].1, "Shown in meters.");
    assert_eq!(metres[1].1, "Shell moved by 1.000 m.");
    let gone = only(|site| site.placement = None);
    assert_eq!(gone.0, ChangeKind::Removed);
    let all = told(|site| {
        let placement = site.placement.as_mut().unwrap();
        placement.shell = Arc::new(ShellChoice::Catalogue(catalogue::all()[1].name.clone()));
        placement.heading = 1.0;
        placement.mirrored = true;
        placement.coping_elevation += 0.1;
    });
    let words: Vec<&str> = all.iter().map(|it| it.1.as_str()).collect();
    assert!(words[0].starts_with("Shell exchanged: ") && words[0].contains(" instead of "));
    assert_eq!(words[1], "Shell turned: 57.3° instead of 0.0°.");
    assert_eq!(words[2], "Shell flipped.");
    assert!(
        words[3].starts_with("Coping elevation: 100.33"),
        "{}",
        words[3]
    );
}

#[test]
fn things_in_the_yard_are_named_by_what_happened_to_them() {
    let moved = only(|site| {
        let features = Arc::make_mut(&mut site.features);
        features[1].shape = ShapeRecord::Disc {
            at: Point::new(22.0, 19.0),
            radius: 1.0,
        };
    });
    assert_eq!(
        moved,
        (
            ChangeKind::Moved,
            "In the yard moved: septic tank.".to_owned()
        )
    );
    let wider = only(|site| {
        let features = Arc::make_mut(&mut site.features);
        features[1].shape = ShapeRecord::Disc {
            at: Point::new(22.0, 19.0),
            radius: 1.5,
        };
    });
    assert_eq!(wider.0, ChangeKind::Changed);
    let renamed = only(|site| Arc::make_mut(&mut site.features)[0].name = "the old house".into());
    assert_eq!(renamed.1, "In the yard changed: the old house.");
    let many = told(|site| {
        let features = Arc::make_mut(&mut site.features);
        features.remove(0);
        for i in 0..8 {
            let disc = ShapeRecord::Disc {
                at: Point::new(f64::from(i), 30.0),
                radius: 0.3,
            };
            let mut tree = Feature::of(format!("tree-{i}"), FeatureKind::Tree, disc);
            tree.name = format!("oak {i}");
            features.push(tree);
        }
    });
    assert_eq!(
        many[0].1,
        "In the yard added: 8, oak 0, oak 1, oak 2, oak 3, oak 4, oak 5 and 2 more."
    );
    assert_eq!(
        many[1],
        (
            ChangeKind::Removed,
            "In the yard removed: the house.".to_owned()
        )
    );
}

#[test]
fn lot_ground_and_the_rest_are_counted() {
    let kinds = only(|site| {
        let lot = Arc::make_mut(&mut site.lot);
        lot.courses[1].kind = crate::lot::LineKind::Rear;
    });
    assert_eq!(kinds.1, "The lot: the kind of 1 side changed.");
    let sides = told(|site| {
        Arc::make_mut(&mut site.lot).courses.pop();
    });
    assert_eq!(sides[0].1, "The lot: 3 sides instead of 4.");
    let spots = only(|site| site.ground = Arc::new(GroundRecord::of_spots(vec![[0.0, 0.0, 1.0]])));
    assert_eq!(spots.1, "The ground: spot elevations instead of level.");
    let rules = told(|site| {
        let rules = Arc::make_mut(&mut site.rules);
        let name = rules[0].name.clone();
        rules.remove(1);
        rules[0].distance += 1.0;
        assert!(!name.is_empty());
    });
    assert_eq!(
        rules.iter().map(|it| it.0).collect::<Vec<_>>(),
        [ChangeKind::Removed, ChangeKind::Changed]
    );
    let order = only(|site| Arc::make_mut(&mut site.rules).reverse());
    assert_eq!(order.1, "Rules: put in another order.");
    let settings = only(|site| Arc::make_mut(&mut site.works).dig.over_dig += 0.1);
    assert_eq!(settings.1, "Settings of the work changed: dig (over dig).");
    let rate = only(|site| {
        site.rates.push(Rate {
            key: "stone".into(),
            rate: 1.0,
            per: None,
        })
    });
    assert_eq!(rate.1, "1 rate added.");
    let mut priced = starter::blank_lot();
    let stone = |rate| Rate {
        key: "base-stone".into(),
        rate,
        per: Some(RateUnit::ShortTon),
    };
    priced.rates.push(stone(42.0));
    let mut dearer = priced.clone();
    dearer.rates = vec![stone(45.5)];
    let words = between(&priced, &dearer).remove(0).words;
    assert_eq!(
        words,
        "Rate changed: base stone, $45.50 per short ton instead of $42.00 per short ton."
    );
    let mut farther = priced.clone();
    Arc::make_mut(&mut farther.rules)[0].distance = 12.0 * FOOT;
    let words = between(&priced, &farther).remove(0).words;
    assert_eq!(
        words,
        "Rule changed: Water to front line, 12'-0\" instead of 25'-0\"."
    );
    let currency = only(|site| site.currency = Some(Currency::new("CAD")));
    assert_eq!(currency.1, "The currency: added.");
}

#[test]
fn spots_are_told_apart_by_their_place() {
    let mut before = placed();
    before.ground = Arc::new(GroundRecord::of_spots(vec![
        [0.0, 0.0, 1.0],
        [5.0, 0.0, 1.0],
        [0.0, 5.0, 1.0],
    ]));
    let mut after = before.clone();
    after.ground = Arc::new(GroundRecord::of_spots(vec![
        [0.0, 0.0, 1.2],
        [0.0, 5.0, 1.0],
        [9.0, 9.0, 2.0],
        [8.0, 9.0, 2.0],
    ]));
    let words: Vec<String> = between(&before, &after)
        .into_iter()
        .map(|it| it.words)
        .collect();
    assert_eq!(
        words,
        [
            "The ground: 2 spot elevations added.",
            "The ground: 1 spot elevation removed.",
            "The ground: 1 spot elevation changed.",
        ]
    );
}

#[test]
fn what_there_is_one_of_comes_and_goes() {
    let pad = EquipmentPad {
        at: Point::new(1.0, 1.0),
        heading: 0.0,
        length: 2.0,
        width: 1.0,
    };
    assert_eq!(
        only(|site| site.equipment = Some(pad)).1,
        "The equipment pad: added."
    );
    let mut before = placed();
    before.equipment = Some(pad);
    let mut after = before.clone();
    after.equipment = Some(EquipmentPad {
        at: Point::new(3.0, 1.0),
        ..pad
    });
    assert_eq!(between(&before, &after)[0].kind, ChangeKind::Moved);
    let picture = Picture {
        name: String::new(),
        media: PictureMedia::Png,
        data: "AA==".into(),
        width: 1,
        height: 1,
        at: Point::new(0.0, 0.0),
        scale: 1.0,
        heading: 0.0,
        opacity: 1.0,
        hidden: false,
        locked: false,
    };
    let added = only(|site| site.picture = Some(Arc::new(picture)));
    assert_eq!(added.1, "The picture under the plan: added.");
    let renamed = only(|site| site.name = "Larch Road".into());
    assert_eq!(renamed.1, "Renamed from \"New job\" to \"Larch Road\".");
}

#[test]
fn the_stakeout_is_told_by_its_points_settings_and_readings() {
    use crate::site::{FixedPair, FixedPoint, ReadingOf, RodReading, StakeoutRecord, YardReading};
    let reading = |rod: f64| YardReading {
        of: ReadingOf::Rim(RodReading {
            place: String::new(),
            at: Point::new(0.0, 0.0),
            rod,
            backsight: 1.0,
        }),
        when: String::new(),
        by: String::new(),
    };
    let set = |record: StakeoutRecord| only(|site| site.stakeout = Some(Arc::new(record)));
    let fixed = Some(FixedPair {
        a: FixedPoint::Lot(0),
        b: FixedPoint::Lot(1),
    });
    let chosen = StakeoutRecord {
        fixed,
        ..StakeoutRecord::default()
    };
    let added = (ChangeKind::Added, "The fixed points: added.".to_owned());
    assert_eq!(set(chosen), added);
    let read = StakeoutRecord {
        readings: vec![reading(1.5), reading(1.6)],
        ..StakeoutRecord::default()
    };
    let added = (ChangeKind::Added, "2 readings added.".to_owned());
    assert_eq!(set(read), added);
    let chord = StakeoutRecord {
        chord: 0.03,
        ..StakeoutRecord::default()
    };
    let changed = "How the work is staked: changed.".to_owned();
    assert_eq!(set(chord), (ChangeKind::Changed, changed));
}
