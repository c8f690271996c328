//! Deck, loads and water against published and independently computed figures.

use batterboard_core::deck::{DeckPlan, Drawn};
use batterboard_core::dig::Dig;
use batterboard_core::geom::{Point, Region, Ring};
use batterboard_core::site::{ConstructionSettings, DigSettings};
use batterboard_core::takeoff::{Inputs, Measured, Takeoff, takeoff};
use batterboard_core::units::constants::{
    CUBIC_FOOT, CUBIC_YARD, FOOT, GALLON, INCH, POUND, SQUARE_FOOT,
};

use super::close;
use super::shell::{checked, level, rectangle};

/// Settings with these for the dig.
pub fn works(dig: &DigSettings) -> ConstructionSettings {
    ConstructionSettings {
        dig: dig.clone(),
        ..ConstructionSettings::default()
    }
}

/// Everything taken off for a pit of so many bank cubic meters.
pub fn dug(bank: f64, works: &ConstructionSettings) -> Takeoff {
    let shell = checked(&level(rectangle(30.0, 14.0), 5.0 * FOOT));
    let dig = Dig {
        bank_volume: bank,
        volume_below_cap: bank,
        ..Dig::default()
    };
    takeoff(&Inputs::new(works, &Measured::new(&shell, works), &dig))
}

/// The same with default settings but for the dig.
pub fn spoil(bank: f64, dig: &DigSettings) -> Takeoff {
    dug(bank, &works(dig))
}

/// The value of a line.
pub fn value(taken: &Takeoff, key: &str) -> f64 {
    taken.lines.iter().find(|l| l.key == key).unwrap().value
}

/// Computed independently: a deck 3 ft wide and 4 in thick round 30 x 14 ft, corners rounded:
/// 292.27 ft2, 97.4 ft3, 3.61 yd3. (Mitred corners would make it 300 ft2 and 3.70 yd3.)
#[test]
fn a_deck_round_thirty_by_fourteen() {
    let mut works = ConstructionSettings::default();
    works.deck.width = 3.0 * FOOT;
    works.deck.thickness = 4.0 * INCH;
    works.waste.concrete = 0.0;
    let taken = dug(0.0, &works);
    close(
        "area, ft2",
        value(&taken, "deck-area") / SQUARE_FOOT,
        292.27,
        0.01,
    );
    let concrete = value(&taken, "deck-concrete");
    close("ft3", concrete / CUBIC_FOOT, 97.4, 0.05);
    close("yd3", concrete / CUBIC_YARD, 3.61, 0.005);
}

/// The same deck drawn with square corners, 36 x 20 ft about the shell (computed independently):
/// 3 x 88 + 36 = 300 ft2, 3.70 yd3.
#[test]
fn a_deck_drawn_with_square_corners() {
    let mut works = ConstructionSettings::default();
    works.deck.width = 0.0;
    works.deck.thickness = 4.0 * INCH;
    works.waste.concrete = 0.0;
    let shell = checked(&level(rectangle(30.0, 14.0), 5.0 * FOOT));
    let (x, y) = (18.0 * FOOT, 10.0 * FOOT);
    let corners = [(-x, -y), (x, -y), (x, y), (-x, y)];
    let outer = Ring(corners.map(|(x, y)| Point::new(x, y)).to_vec());
    let drawn = Drawn {
        decks: vec![Region::from_ring(outer)],
        ..Drawn::default()
    };
    let plan = DeckPlan::new(&shell, &works, &drawn);
    let (measured, dig) = (Measured::new(&shell, &works), Dig::default());
    let taken = takeoff(&Inputs {
        deck: Some(&plan.figures),
        ..Inputs::new(&works, &measured, &dig)
    });
    let area = value(&taken, "deck-area") / SQUARE_FOOT;
    close("area, ft2", area, 300.0, 0.001);
    let concrete = value(&taken, "deck-concrete") / CUBIC_YARD;
    close("yd3", concrete, 3.70, 0.005);
}

/// A three-axle truck with 27,000 lb of payload carries 10.0 yd3 of wet earth at 2,700 lb per
/// loose cubic yard (rule of 23 CFR 658.17 read, tare from memory, arithmetic computed). With
/// a box of 14 yd3, weight and not volume sets the loads.
#[test]
fn weight_limits_loads_of_wet_soil() {
    let mut works = works(&DigSettings {
        swell: Some(1.25),
        density: Some(1.25 * 2_700.0 * POUND / CUBIC_YARD),
        ..DigSettings::default()
    });
    works.haul.payload = 27_000.0 * POUND;
    works.haul.box_volume = 14.0 * CUBIC_YARD;
    let taken = dug(188.444 * CUBIC_YARD, &works);
    let loose = value(&taken, "spoil-loose") / CUBIC_YARD;
    close("loose, yd3", loose, 235.555, 1e-9);
    assert_eq!(value(&taken, "loads-by-volume"), 17.0);
    assert_eq!(value(&taken, "loads-by-weight"), 24.0);
    assert_eq!(value(&taken, "loads"), 24.0);
    assert!(taken.findings.iter().any(|f| f.code == "payload-governs"));
    // A dry, light soil in the same truck fills the box first.
    works.dig.density = Some(1.25 * 1_800.0 * POUND / CUBIC_YARD);
    let light = dug(188.444 * CUBIC_YARD, &works);
    assert_eq!(value(&light, "loads"), 17.0);
    assert!(light.findings.is_empty());
}

/// One gallon is 231 cubic inches, so a cubic foot holds 7.48051948 gallons (exact), and
/// 10,000 gallons weigh 83,417 lb at 62.4 lb/ft3 (computed).
#[test]
fn water_in_gallons() {
    close("gal/ft3", CUBIC_FOOT / GALLON, 7.480_519_48, 5e-9);
    close("lb", 10_000.0 * GALLON / CUBIC_FOOT * 62.4, 83_417.0, 0.5);
    close("lb/gal", GALLON / CUBIC_FOOT * 62.4, 8.341_6, 1e-4);
    // 30 x 14 ft, the water 5 ft deep.
    let mut record = level(rectangle(30.0, 14.0), 5.5 * FOOT);
    record.waterline = 0.5 * FOOT;
    let works = ConstructionSettings::default();
    let measured = Measured::new(&checked(&record), &works);
    close(
        "gallons",
        measured.water_volume / GALLON,
        2_100.0 * 7.480_519_48,
        0.01,
    );
}
