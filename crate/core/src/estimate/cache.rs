//! What depends on the shell and the settings of the work alone, kept while the shell moves.

use std::sync::Arc;

use crate::deck::{DeckPlan, Drawn};
use crate::dig::small::{self, SmallDig};
use crate::dig::{DigShape, edge_at, foot};
use crate::geom::Region;
use crate::grading;
use crate::ground::Ground;
use crate::groundwater::{Level, Uplift};
use crate::pipe::{Around, Dewatering};
use crate::shell::Shell;
use crate::site::{CheckedFeature, CheckedLot, CheckedSite, DigSettings, EquipmentPad, Works};
use crate::stockpile::Obstacles;
use crate::takeoff::{Fill, Measured};

/// How many depths of footings are kept, each with each of two lines.
const DEPTHS: usize = 64;

/// How many other holes are kept: one as planned, one narrower, one wider, and as many again
/// for another headroom.
const HOLES: usize = 6;

/// Kept parts of earlier estimates. It changes how soon one comes, never what it is.
#[derive(Debug, Default)]
pub struct Cache {
    kept: Option<Kept>,
    ground: Option<Surroundings>,
}

/// What was made of one lot and its features.
#[derive(Debug)]
pub(super) struct Surroundings {
    /// Held, so that no others can come to lie at the same addresses.
    lot: Arc<CheckedLot>,
    features: Arc<Vec<CheckedFeature>>,
    /// Decks that were drawn.
    pub drawn: grading::Drawn,
    /// What keeps spoil away.
    pub obstacles: Obstacles,
}

/// What was made for one shell and one set of settings.
#[derive(Debug)]
pub(super) struct Kept {
    /// Held, so that no other shell can come to lie at the same address.
    shell: Arc<Shell>,
    works: Arc<Works>,
    /// What the takeoff measures on the shell.
    pub measured: Measured,
    /// The stone in the hole.
    pub fill: Arc<Fill>,
    /// The way of pipe round the shell.
    pub around: Around,
    /// The pipe that lowers groundwater.
    pub dewatering: Arc<Dewatering>,
    /// The sump at its foot.
    pub sump: Option<SmallDig>,
    /// The deck with what was drawn of it when it was last asked for.
    deck: Option<(Drawn, Arc<DeckPlan>)>,
    /// How far footings are in the hole's reach.
    undermined: Vec<Undermined>,
    /// The foot of the sides in plan, shell frame.
    toe: Option<Region>,
    /// The hole dug otherwise.
    holes: Vec<Hole>,
    /// The finished ground round it.
    pub grading: grading::Kept,
    /// What groundwater does to the shell where it last stood.
    uplift: Option<(f64, Level, Uplift)>,
    /// The pad as it was last dug, and into which ground.
    pad: Option<(EquipmentPad, Arc<Ground>, SmallDig)>,
}

/// The hole under settings of its own, wherever the shell stands.
#[derive(Debug)]
pub(super) struct Hole {
    dig: DigSettings,
    /// What the takeoff measures under these settings.
    pub measured: Measured,
    /// The hole.
    pub shape: DigShape,
    /// The stone in it, once it was asked for.
    fill: Option<Arc<Fill>>,
    /// The finished ground round it.
    grading: grading::Kept,
}

/// Where footings of one depth below the rim stand above a plane of one slope.
#[derive(Debug)]
struct Undermined {
    depth: f64,
    slope: f64,
    region: Region,
}

impl Cache {
    /// The parts kept for this shell and these settings, and those kept for the lot and features
    /// of the site; made anew for others.
    pub(super) fn of(
        &mut self,
        site: &CheckedSite,
        shell: &Arc<Shell>,
        works: &Arc<Works>,
    ) -> (&mut Kept, &Surroundings) {
        let (lot, features) = (site.lot(), site.features());
        let same =
            |it: &Surroundings| Arc::ptr_eq(&it.lot, lot) && Arc::ptr_eq(&it.features, features);
        let ground = self.ground.take().filter(same);
        let ground = ground.unwrap_or_else(|| Surroundings {
            lot: Arc::clone(lot),
            features: Arc::clone(features),
            drawn: grading::Drawn::of(features),
            obstacles: Obstacles::of(lot, features, &site.site().features),
        });
        let same = |kept: &Kept| Arc::ptr_eq(&kept.shell, shell) && kept.works == *works;
        let kept = self.kept.take().filter(same);
        let kept = kept.unwrap_or_else(|| Kept::new(shell, works));
        (self.kept.insert(kept), self.ground.insert(ground))
    }
}

impl Kept {
    /// The hole under the kept settings, but for those of the dig, which may be others.
    pub(super) fn hole(&mut self, shell: &Shell, works: &Works, headroom: f64) -> &Hole {
        let same = |hole: &Hole| hole.shape.headroom() == headroom && hole.dig == works.dig;
        let known = self.holes.iter().position(same);
        let hole = match known {
            // The hole last used goes to the end; the front one is forgotten first.
            Some(i) => self.holes.remove(i),
            None => Hole {
                dig: works.dig.clone(),
                measured: Measured::new(shell, works),
                shape: DigShape::new(shell, &works.dig, headroom),
                fill: None,
                grading: grading::Kept::default(),
            },
        };
        if self.holes.len() >= HOLES {
            self.holes.remove(0);
        }
        self.holes.push_mut(hole)
    }

    fn new(shell: &Arc<Shell>, works: &Arc<Works>) -> Self {
        // What it is asked for lies below the rim, whatever the ground does.
        let shape = DigShape::new(shell, &works.dig, 0.0);
        let dewatering = Dewatering::new(shell, works, &shape);
        Self {
            sump: super::small::sump(shell, works, &dewatering),
            shell: Arc::clone(shell),
            works: Arc::clone(works),
            measured: Measured::new(shell, works),
            fill: Arc::new(Fill::new(shell, works, &shape)),
            around: Around::new(shell, works),
            dewatering: Arc::new(dewatering),
            deck: None,
            undermined: Vec::new(),
            toe: None,
            holes: Vec::new(),
            grading: grading::Kept::default(),
            uplift: None,
            pad: None,
        }
    }

    /// What groundwater at a level does to the shell with its rim at an elevation.
    pub(super) fn uplift(&mut self, rim: f64, level: Level) -> Uplift {
        let same = |kept: &(f64, Level, Uplift)| (kept.0, kept.1) == (rim, level);
        let kept = self.uplift.take().filter(same);
        let kept = kept.unwrap_or_else(|| (rim, level, Uplift::of(&self.shell, rim, level)));
        self.uplift.insert(kept).2.clone()
    }

    /// The equipment pad of a site, dug into its ground.
    pub(super) fn pad(&mut self, site: &CheckedSite) -> Option<SmallDig> {
        let (placed, ground) = (site.site().equipment?, site.ground());
        let same = |kept: &(EquipmentPad, Arc<Ground>, _)| {
            kept.0 == placed && Arc::ptr_eq(&kept.1, ground)
        };
        let kept = self.pad.take().filter(same).or_else(|| {
            let settings = &self.works.pad;
            let (thickness, bed) = (settings.thickness, settings.bed);
            let dug = small::pad(&site.equipment()?, ground, None, thickness, bed);
            Some((placed, Arc::clone(ground), dug))
        });
        Some(self.pad.insert(kept?).2.clone())
    }

    /// The stone in the hole that was last asked for under these settings.
    pub(super) fn fill_of(&mut self, shell: &Shell, works: &Works) -> Arc<Fill> {
        let hole = self.holes.iter_mut().rev().find(|h| h.dig == works.dig);
        let Some(hole) = hole else {
            return Arc::clone(&self.fill);
        };
        let made = || Arc::new(Fill::new(shell, works, &hole.shape));
        Arc::clone(hole.fill.get_or_insert_with(made))
    }

    /// What is kept of the finished ground round the hole last asked for under these settings.
    pub(super) fn grading_of(&mut self, works: &Works) -> &mut grading::Kept {
        let hole = self.holes.iter_mut().rev().find(|h| h.dig == works.dig);
        hole.map_or(&mut self.grading, |hole| &mut hole.grading)
    }

    /// The deck with what was drawn of it, shell frame.
    pub(super) fn deck(&mut self, drawn: Drawn) -> Arc<DeckPlan> {
        let kept = self.deck.take().filter(|(before, _)| *before == drawn);
        let (_, plan) = self.deck.insert(kept.unwrap_or_else(|| {
            let plan = DeckPlan::new(&self.shell, &self.works, &drawn);
            (drawn, Arc::new(plan))
        }));
        Arc::clone(plan)
    }

    /// The foot of the sides in plan, shell frame.
    pub(super) fn toe(&mut self, shell: &Shell, dig: &DigSettings) -> &Region {
        self.toe.get_or_insert_with(|| foot(shell, dig))
    }

    /// Where the base of a footing `depth` below the rim lies above a plane that rises from
    /// the bottom of the hole at a slope, shell frame.
    pub(super) fn undermined(
        &mut self,
        shell: &Shell,
        dig: &DigSettings,
        depth: f64,
        slope: f64,
    ) -> &Region {
        let same = |it: &Undermined| it.depth == depth && it.slope == slope;
        let known = self.undermined.iter().position(same);
        let entry = match known {
            Some(i) => self.undermined.remove(i),
            None => {
                // The plane rises from the bottom as it is dug, whatever the sides do.
                let mut settings = DigSettings {
                    side_slope: Some(slope),
                    layers: Vec::new(),
                    upright_below: None,
                    bench: None,
                    ..dig.clone()
                };
                for side in &mut settings.sides {
                    side.slope = None;
                }
                let region = edge_at(shell, &settings, depth);
                Undermined {
                    depth,
                    slope,
                    region,
                }
            }
        };
        if self.undermined.len() >= DEPTHS {
            self.undermined.remove(0);
        }
        &self.undermined.push_mut(entry).region
    }
}
