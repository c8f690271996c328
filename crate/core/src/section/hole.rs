//! The hole along a line, joined from its edges level by level.

use std::sync::Arc;

use super::line::Cut;
use crate::analysis::Analysis;
use crate::dig::wound_contours;
use crate::geom::boolean::positive_winding;
use crate::geom::{Point, Region, Ring, winding};
use crate::shell::Shell;
use crate::site::{CheckedSite, DigSettings};

/// How far apart the edges lie at most, meters.
const STEP: f64 = 0.1;

/// The edges of a shell's hole, shell frame: what a section needs of it wherever the shell
/// stands and wherever it is cut.
#[derive(Debug, Clone)]
pub struct Edges {
    /// Held, so that no other shell can come to lie at the same address.
    shell: Arc<Shell>,
    settings: DigSettings,
    headroom: f64,
    /// The edge at each depth below the rim, not yet united: sets of rings of which any may hold a place.
    levels: Vec<(f64, Vec<Vec<Ring>>)>,
}

impl Edges {
    /// The edges for a site's shell, as far up as the ground stands round its hole; those of
    /// before where they serve. `None` without a shell.
    pub fn of(site: &CheckedSite, analysis: &Analysis, before: Option<Self>) -> Option<Self> {
        let (shell, placement) = site.placed_shell()?;
        let dig = analysis.dig.as_ref()?;
        let edge = dig.top_edge.rings().flat_map(|ring| &ring.0);
        let above = edge.map(|p| site.ground().height(*p).elevation - placement.coping_elevation);
        let highest = above.fold(dig.ground_above_rim, f64::max);
        // In whole meters, so that they serve a whole stretch of a drag.
        let headroom = highest.max(0.0).ceil();
        let settings = &site.site().works.dig;
        let same = |kept: &Self| {
            Arc::ptr_eq(&kept.shell, shell)
                && kept.settings == *settings
                && kept.headroom >= headroom
        };
        before.filter(same).or_else(|| {
            Some(Self {
                shell: Arc::clone(shell),
                settings: settings.clone(),
                headroom,
                levels: wound_contours(shell, settings, headroom, STEP),
            })
        })
    }

    /// The hole along a line of the shell's frame, up to the headroom: stations across, depths
    /// below the rim downward (so that y is minus the depth).
    pub(super) fn along(&self, cut: &Cut) -> Region {
        let mut rings = Vec::new();
        let mut below: Option<(f64, Vec<(f64, f64)>)> = None;
        // From the bottom up, one trapezium between each stretch and the one above it.
        for (depth, sets) in self.levels.iter().rev() {
            let inside = |rings: &Vec<Ring>| winding::stretches(cut.from, cut.along, rings);
            let stretches = winding::joined(sets.iter().flat_map(inside).collect());
            if let Some((deeper, within)) = &below {
                for (a, b) in within {
                    let over = stretches
                        .iter()
                        .find(|(c, d)| *c <= (a + b) / 2.0 && (a + b) / 2.0 <= *d);
                    let (c, d) = over.copied().unwrap_or((*a, *b));
                    let corners = [
                        Point::new(*a, -deeper),
                        Point::new(*b, -deeper),
                        Point::new(d, -depth),
                        Point::new(c, -depth),
                    ];
                    rings.push(Ring(corners.to_vec()));
                }
            }
            below = Some((*depth, stretches));
        }
        positive_winding(&rings)
    }
}
