//! What covers the ground, before the work and after it, each piece of ground counted once.
//!
//! Areas in plan, square meters; what lies beyond the lot counts for nothing. Arcs are flattened
//! within `DRAWING_TOLERANCE`.

use crate::geom::{Point, Region, Ring, boolean};
use crate::lot::LineKind;
use crate::site::{CheckedSite, Cover, FeatureKind, GroundPart};

/// Less than this too much is rounding, square meters.
const HAIR: f64 = 1e-6;

/// Everything that covers ground, site frame.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Coverage {
    structures: Region,
    paving: Region,
    shell: Region,
    deck: Region,
    pad: Region,
}

/// The covered share of some ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Share {
    /// The ground, square meters.
    pub ground: f64,
    /// What of it is covered already, square meters.
    pub before: f64,
    /// What of it is covered after the work, square meters.
    pub after: f64,
}

impl Share {
    /// The share covered before, a number from 0 to 1.
    pub fn share_before(&self) -> f64 {
        self.before / self.ground
    }

    /// The share covered after the work, a number from 0 to 1.
    pub fn share_after(&self) -> f64 {
        self.after / self.ground
    }

    /// Whether more is covered than `most` of the ground; what differs by rounding alone is not.
    pub fn exceeds(&self, most: f64) -> bool {
        self.room(most) < -HAIR
    }

    /// How much more may be covered where `most` of the ground may be, square meters; negative
    /// where too much is.
    pub fn room(&self, most: f64) -> f64 {
        most * self.ground - self.after
    }
}

impl Coverage {
    /// What covers a site. `shell` and `deck`: the rim, and everything inside the outer edge of the deck, as they lie
    /// there, site frame; nothing before a shell is placed.
    pub fn of(site: &CheckedSite, shell: Region, deck: &Region) -> Self {
        use FeatureKind as F;
        Self {
            structures: features(site, &[F::House, F::Outbuilding]),
            paving: features(site, &[F::Driveway, F::Walk]),
            // The shell lies in its deck, and counts for itself.
            deck: boolean::difference(
                &boolean::union(deck, &features(site, &[F::Deck, F::DeckSteps])),
                &shell,
            ),
            shell,
            pad: site.equipment().unwrap_or_default(),
        }
    }

    /// What one cover takes.
    pub fn region(&self, cover: Cover) -> &Region {
        match cover {
            Cover::Structures => &self.structures,
            Cover::Paving => &self.paving,
            Cover::Shell => &self.shell,
            Cover::Deck => &self.deck,
            Cover::Pad => &self.pad,
        }
    }

    /// What several covers take of some ground together, square meters.
    pub fn area(&self, ground: &Region, covers: impl IntoIterator<Item = Cover>) -> f64 {
        let regions = covers.into_iter().map(|cover| self.region(cover));
        boolean::intersection(&boolean::union_of(regions), ground).area()
    }

    /// The share of some ground that these covers take.
    pub fn share(&self, ground: &Region, covers: &[Cover]) -> Share {
        let covers = || covers.iter().copied();
        Share {
            ground: ground.area(),
            before: self.area(ground, covers().filter(|it| !it.is_new())),
            after: self.area(ground, covers()),
        }
    }
}

/// The features of some kinds as one region.
fn features(site: &CheckedSite, kinds: &[FeatureKind]) -> Region {
    boolean::union_of(site.areas(|kind| kinds.contains(&kind)))
}

/// A part of the lot, site frame; none where nobody can say where it ends.
pub fn ground(site: &CheckedSite, part: GroundPart) -> Option<Region> {
    match part {
        GroundPart::Lot => Some(site.lot().region.clone()),
        GroundPart::RearYard => rear_yard(site),
    }
}

/// What lies between the rear line and the place of the house that is nearest to it, measured
/// square to the rear line, over the whole width of the lot. None without a house or a rear line,
/// and where the house stands on that line. A rear line that bends counts by the straight line from its one
/// end to the other.
fn rear_yard(site: &CheckedSite) -> Option<Region> {
    let lot = site.lot();
    let sides = lot.lot.sides.iter().zip(&lot.sides);
    let rear = sides.filter(|(side, _)| side.kind == LineKind::Rear);
    let ends = rear.filter_map(|(_, chain)| chain.first().zip(chain.last()));
    let ends: Vec<(Point, Point)> = ends.map(|(a, b)| (*a, *b)).collect();
    let along = ends
        .iter()
        .map(|(a, b)| *b - *a)
        .reduce(|a, b| a + b)?
        .unit()?;
    let house = features(site, &[FeatureKind::House]);
    let corners = || house.rings().flat_map(|ring| &ring.0);
    // The lot may run either way round: inward is toward the house.
    let middle = house.centroid()?;
    let (start, _) = *ends.first()?;
    let left = along.left();
    let inward = if (middle - start).dot(left) < 0.0 {
        -left
    } else {
        left
    };
    let off = |p: Point| (p - start).dot(inward);
    let depth = corners().map(|p| off(*p)).reduce(f64::min)?;
    let (low, high) = lot.region.bounds()?;
    let reach = (high - low).length();
    let behind = ends.iter().map(|(a, b)| off(*a).min(off(*b)));
    let behind = behind.reduce(f64::min)?;
    if depth <= behind {
        return None;
    }
    let corner = |side: f64, off: f64| start + along * (side * 2.0 * reach) + inward * off;
    let far = behind - reach;
    let ring = Ring(vec![
        corner(-1.0, far),
        corner(1.0, far),
        corner(1.0, depth),
        corner(-1.0, depth),
    ]);
    let strip = Region::from_ring(if ring.signed_area() < 0.0 {
        ring.reversed()
    } else {
        ring
    });
    Some(boolean::intersection(&strip, &lot.region)).filter(|yard| !yard.is_empty())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use std::sync::Arc;

    use super::*;
    use crate::site::starter;
    use crate::units::constants::FOOT;

    /// The starter's lot (100 by 140 ft, its rear line to the north) with a house of 40 by 30 ft.
    fn site(low: f64) -> CheckedSite {
        let mut site = starter::blank_lot();
        let corners = [
            (30.0, low),
            (70.0, low),
            (70.0, low + 30.0),
            (30.0, low + 30.0),
        ];
        let outline = corners.map(|(x, y)| serde_json::json!([x * FOOT, y * FOOT]));
        let house =
            serde_json::json!({ "id": "house", "kind": "house", "shape": { "area": outline } });
        site.features = Arc::new(vec![serde_json::from_value(house).unwrap()]);
        CheckedSite::check(site, None).unwrap()
    }

    #[test]
    fn the_rear_yard_ends_at_the_house() {
        let yard = ground(&site(40.0), GroundPart::RearYard).unwrap();
        // From y = 70 to y = 140, 100 wide.
        assert!((yard.area() - 7_000.0 * FOOT * FOOT).abs() < 1e-6);
        let (low, high) = yard.bounds().unwrap();
        assert!((low.y - 70.0 * FOOT).abs() < 1e-6 && (high.y - 140.0 * FOOT).abs() < 1e-6);
    }

    #[test]
    fn a_house_on_the_rear_line_leaves_no_rear_yard() {
        assert_eq!(ground(&site(110.0), GroundPart::RearYard), None);
    }

    #[test]
    fn ground_is_counted_once_and_only_on_the_lot() {
        let site = site(40.0);
        let block = |x: f64, y: f64, w: f64, h: f64| {
            let corners = [(x, y), (x + w, y), (x + w, y + h), (x, y + h)];
            let corners = corners.map(|(x, y)| Point::new(x * FOOT, y * FOOT));
            Region::from_ring(Ring(corners.to_vec()))
        };
        // Areas come off the grid of the overlay.
        const NEAR: f64 = 1e-5;
        // A shell of 10 by 20 in a deck of 20 by 30, of which 5 by 30 lie beyond the east line.
        let coverage = Coverage::of(
            &site,
            block(90.0, 85.0, 10.0, 20.0),
            &block(85.0, 80.0, 20.0, 30.0),
        );
        let lot = ground(&site, GroundPart::Lot).unwrap();
        let feet = |area: f64| area / (FOOT * FOOT);
        let share = coverage.share(&lot, &[Cover::Structures, Cover::Shell, Cover::Deck]);
        assert!((feet(share.before) - 1_200.0).abs() < NEAR);
        assert!(
            (feet(share.after) - 1_200.0 - 15.0 * 30.0).abs() < NEAR,
            "{}",
            feet(share.after)
        );
        assert!((feet(share.room(0.1)) - (1_400.0 - 1_650.0)).abs() < NEAR);
        let shell = coverage.share(&lot, &[Cover::Shell]);
        assert!((feet(shell.after) - 200.0).abs() < NEAR && shell.before == 0.0);
        let deck = coverage.share(&lot, &[Cover::Deck]);
        assert!((feet(deck.after) - (15.0 * 30.0 - 200.0)).abs() < NEAR);
    }
}
