//! What depends on less than the whole site, kept from one run to the next.

use std::sync::Arc;

use super::headroom;
use super::materials::Materials;
use super::rings::ShellRings;
use crate::deck::{DeckPlan, Drawn};
use crate::dig::small::{self, SmallDig};
use crate::dig::{Dig, DigShape, edge_at, excavate, foot};
use crate::geom::{Pose, Region};
use crate::grading;
use crate::ground::Ground;
use crate::groundwater::{Level, Uplift};
use crate::shell::Shell;
use crate::site::{
    CheckedFeature, CheckedLot, CheckedSite, ConstructionSettings, DigSettings, EquipmentPad,
};
use crate::stockpile::Obstacles;
use crate::takeoff::{Fill, Measured};

/// How many depths of footings are kept, each with each of two lines.
const DEPTHS: usize = 64;

/// How many shapes of the hole are kept, one to each headroom and width: enough for a drag up and
/// down a steep lot, with a narrower and a wider hole beside it.
const SHAPES: usize = 12;

/// How many widths of the hole the finished ground is kept for: as planned, narrower, wider.
const WIDTHS: usize = 3;

/// Kept parts of earlier runs. It changes how soon an answer comes, never what it is.
#[derive(Debug, Default)]
pub struct Cache {
    shell: Option<ShellCache>,
    surroundings: Option<Surroundings>,
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
pub(super) struct ShellCache {
    /// Held, so that no other shell can come to lie at the same address.
    shell: Arc<Shell>,
    works: Arc<ConstructionSettings>,
    /// The work round the shell.
    pub rings: Arc<ShellRings>,
    /// The hole with so much headroom, and as wide as it may turn out.
    shapes: Vec<HoleShape>,
    /// The finished ground round holes so wide.
    graded: Vec<(DigSettings, grading::Cache)>,
    /// What is placed and laid, once quantities were asked for.
    materials: Option<Arc<Materials>>,
    /// The deck with what was drawn of it when it was last asked for.
    deck: Option<(Drawn, Arc<DeckPlan>)>,
    /// How far footings are in the hole's reach.
    undermined: Vec<Undermined>,
    /// The foot of the sides in plan, shell frame.
    toe: Option<Region>,
    /// What groundwater does to the shell where it last stood.
    uplift: Option<(f64, Level, Uplift)>,
    /// The pad as it was last dug, and into which ground.
    pad: Option<(EquipmentPad, Arc<Ground>, SmallDig)>,
    /// How often a hole was cut into the ground.
    #[cfg(test)]
    pub cuts: usize,
}

/// The hole under settings of its own, wherever the shell stands.
#[derive(Debug)]
struct HoleShape {
    dig: DigSettings,
    shape: DigShape,
    /// What the takeoff measures under these settings, and the stone in the hole, once asked for.
    stone: Option<(Measured, Arc<Fill>)>,
}

/// Where footings of one depth below the rim stand above a plane of one slope.
#[derive(Debug)]
struct Undermined {
    depth: f64,
    slope: f64,
    region: Region,
}

impl Cache {
    /// The parts kept for this shell under the settings of the site, and those kept for its lot
    /// and features; made anew for others.
    pub(super) fn of(
        &mut self,
        site: &CheckedSite,
        shell: &Arc<Shell>,
    ) -> (&mut ShellCache, &Surroundings) {
        let (lot, features) = (site.lot(), site.features());
        let same =
            |it: &Surroundings| Arc::ptr_eq(&it.lot, lot) && Arc::ptr_eq(&it.features, features);
        let surroundings = self.surroundings.take().filter(same);
        let surroundings = surroundings.unwrap_or_else(|| Surroundings {
            lot: Arc::clone(lot),
            features: Arc::clone(features),
            drawn: grading::Drawn::of(features),
            obstacles: Obstacles::of(lot, features, &site.site().features),
        });
        let works = &site.site().works;
        let same = |it: &ShellCache| Arc::ptr_eq(&it.shell, shell) && it.works == *works;
        let kept = self.shell.take().filter(same);
        let kept = kept.unwrap_or_else(|| ShellCache::new(shell, works));
        (
            self.shell.insert(kept),
            self.surroundings.insert(surroundings),
        )
    }
}

impl ShellCache {
    fn new(shell: &Arc<Shell>, works: &Arc<ConstructionSettings>) -> Self {
        Self {
            shell: Arc::clone(shell),
            works: Arc::clone(works),
            rings: Arc::new(ShellRings::new(shell, works)),
            shapes: Vec::new(),
            graded: Vec::new(),
            materials: None,
            deck: None,
            undermined: Vec::new(),
            toe: None,
            uplift: None,
            pad: None,
            #[cfg(test)]
            cuts: 0,
        }
    }

    /// Cuts the hole under these settings, which are the kept ones but for those of the dig, into
    /// the ground, the rim at an elevation.
    pub(super) fn cut(
        &mut self,
        works: &ConstructionSettings,
        ground: &Ground,
        pose: &Pose,
        rim: f64,
    ) -> Dig {
        #[cfg(test)]
        {
            self.cuts += 1;
        }
        let headroom = headroom::needed(&self.shell, &works.dig, ground, pose, rim);
        let hole = self.shape(&works.dig, headroom);
        excavate(&hole.shape, ground, pose, rim, works.collar.underside())
    }

    /// The hole with exactly this headroom.
    fn shape(&mut self, dig: &DigSettings, headroom: f64) -> &mut HoleShape {
        let same = |hole: &HoleShape| hole.shape.headroom() == headroom && hole.dig == *dig;
        let known = self.shapes.iter().position(same);
        let hole = match known {
            // The shape last used goes to the end; the front one is forgotten first.
            Some(i) => self.shapes.remove(i),
            None => HoleShape {
                dig: dig.clone(),
                shape: DigShape::new(&self.shell, dig, headroom),
                stone: None,
            },
        };
        if self.shapes.len() >= SHAPES {
            self.shapes.remove(0);
        }
        self.shapes.push_mut(hole)
    }

    /// What the takeoff measures, and the stone in the hole that was last cut, under settings
    /// that are the kept ones but for those of the dig.
    pub(super) fn stone(&mut self, works: &ConstructionSettings) -> (Measured, Arc<Fill>) {
        let last = self.shapes.iter_mut().rev().find(|h| h.dig == works.dig);
        match last {
            Some(hole) if works.dig != self.works.dig => {
                let (measured, fill) = hole.stone.get_or_insert_with(|| {
                    let fill = Fill::new(&self.shell, works, &hole.shape);
                    (Measured::new(&self.shell, works), Arc::new(fill))
                });
                (*measured, Arc::clone(fill))
            }
            _ => {
                let materials = self.materials();
                (materials.measured, Arc::clone(&materials.fill))
            }
        }
    }

    /// What is placed and laid under the kept settings.
    pub(super) fn materials(&mut self) -> Arc<Materials> {
        let made = || Arc::new(Materials::new(&self.shell, &self.works));
        Arc::clone(self.materials.get_or_insert_with(made))
    }

    /// What is kept of the finished ground round a hole so wide.
    pub(super) fn grading(&mut self, dig: &DigSettings) -> &mut grading::Cache {
        let known = self.graded.iter().position(|(other, _)| other == dig);
        let entry = match known {
            Some(i) => self.graded.remove(i),
            None => (dig.clone(), grading::Cache::default()),
        };
        if self.graded.len() >= WIDTHS {
            self.graded.remove(0);
        }
        &mut self.graded.push_mut(entry).1
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
    pub(super) fn toe(&mut self) -> &Region {
        let (shell, dig) = (&self.shell, &self.works.dig);
        self.toe.get_or_insert_with(|| foot(shell, dig))
    }

    /// Where the base of a footing `depth` below the rim lies above a plane that rises from
    /// the bottom of the hole at a slope, shell frame.
    pub(super) fn undermined(&mut self, depth: f64, slope: f64) -> &Region {
        let (shell, dig) = (&self.shell, &self.works.dig);
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
