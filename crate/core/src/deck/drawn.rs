//! What of the deck was drawn on the plan, carried into the shell's frame.

use crate::geom::boolean::difference;
use crate::geom::distance::Figure;
use crate::geom::{Pose, Region};
use crate::shell::Shell;
use crate::site::{CheckedSite, ConstructionSettings, FeatureKind};

/// What was drawn, shell frame.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drawn {
    /// Paving that is poured with the ring round the rim.
    pub decks: Vec<Region>,
    /// Places left open.
    pub openings: Vec<Region>,
    /// Steps.
    pub steps: Vec<Flight>,
    /// The equipment pad, where a deck may meet it.
    pub pad: Option<Region>,
}

/// Steps that are poured with the deck.
#[derive(Debug, Clone, PartialEq)]
pub struct Flight {
    /// Where they are, shell frame.
    pub region: Region,
    /// Their rise in all, meters; 0 where nobody told it.
    pub rise: f64,
    /// Index of the feature in the site's list.
    pub feature: usize,
}

impl Flight {
    /// What the treads hold above a slab of even thickness, m3: of steps of even treads half the
    /// rise over the whole area (the first tread is low, the last one high).
    pub fn treads(&self) -> f64 {
        self.region.area() * self.rise / 2.0
    }
}

impl Drawn {
    /// What a site has drawn of the deck of a shell in this pose.
    pub fn of(
        site: &CheckedSite,
        pose: &Pose,
        shell: &Shell,
        works: &ConstructionSettings,
    ) -> Self {
        let mut drawn = Self::default();
        for feature in site.features().iter() {
            let Figure::Area(region) = feature.shape.figure() else {
                continue;
            };
            let here = || region.shell_from_site(pose);
            match feature.kind {
                FeatureKind::Deck => drawn.decks.push(here()),
                FeatureKind::DeckOpening => drawn.openings.push(here()),
                FeatureKind::DeckSteps => {
                    let record = site.site().features.get(feature.index);
                    drawn.steps.push(Flight {
                        region: here(),
                        rise: record.and_then(|f| f.facts.height).unwrap_or(0.0),
                        feature: feature.index,
                    });
                }
                _ => {}
            }
        }
        // Far from the ring and from every drawn deck it takes nothing away.
        let out = shell.record.coping_width + works.deck.width;
        let near = |pad: &Region| {
            let ring = shell.footprint.bounds();
            let meets = ring.zip(pad.bounds()).is_some_and(|((l, h), (pl, ph))| {
                pl.x < h.x + out && ph.x > l.x - out && pl.y < h.y + out && ph.y > l.y - out
            });
            meets || !drawn.decks.is_empty() || !drawn.steps.is_empty()
        };
        let pad = site.equipment().map(|pad| pad.shell_from_site(pose));
        drawn.pad = pad.filter(near);
        drawn
    }

    /// Whether nothing was drawn that changes the ring.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// The steps without what would stand in the shell, and without those of them that others
    /// before them hold already.
    pub(super) fn steps_clear_of(&self, rim: &Region) -> Vec<Flight> {
        let mut kept: Vec<Flight> = Vec::with_capacity(self.steps.len());
        for flight in &self.steps {
            let clear = difference(&flight.region, rim);
            let region = kept
                .iter()
                .fold(clear, |left, before| difference(&left, &before.region));
            let pad = self.pad.iter();
            let region = pad.fold(region, |left, pad| difference(&left, pad));
            kept.push(Flight {
                region,
                ..flight.clone()
            });
        }
        kept
    }
}
