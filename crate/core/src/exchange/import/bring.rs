//! From what was found and the chosen roles to what changes on the site.

use super::diagnostics::Diagnostics;
use super::draft::{Draft, Shape};
use super::features::{self, Newcomers};
use super::lot;
use super::place::{Chosen, Placed, PlacedShape, Spot};
use super::role::{Role, Settings};
use crate::finding::{Finding, any_fault};
use crate::ground::GroundRecord;
use crate::lot::LotRecord;
use crate::site::{Benchmark, Feature, GeoOrigin, Grid, Site};

/// Spots nearer to each other than this are one, meters.
const SAME_SPOT: f64 = 0.001;

/// What changes on the site. What is `None` stays.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Changes {
    /// The lot.
    pub lot: Option<LotRecord>,
    /// All features, those that stay among them.
    pub features: Option<Vec<Feature>>,
    /// The ground.
    pub ground: Option<GroundRecord>,
    /// The benchmark.
    pub benchmark: Option<Benchmark>,
    /// Where the site's origin lies.
    pub origin: Option<GeoOrigin>,
    /// What is taken off survey coordinates.
    pub grid: Option<Option<Grid>>,
    /// What will have happened, a sentence for each thing.
    pub told: Vec<String>,
    /// Import messages; no fault among it.
    pub findings: Vec<Finding>,
}

impl Changes {
    /// Makes what has a role part of the site.
    ///
    /// # Errors
    /// Every fault: roles that do not suit, shapes that cannot be used.
    pub fn of(
        draft: &Draft,
        settings: &Settings,
        roles: &[Role],
        site: &Site,
    ) -> Result<Self, Vec<Finding>> {
        if roles.len() != draft.items.len() {
            let message = "The roles do not belong to what was found.";
            let remedy = "Read the text again.";
            return Err(vec![Finding::fault("roles", message, remedy)]);
        }
        let placed = Placed::of(draft, settings, roles, site);
        let mut bringing = Bringing {
            settings,
            site,
            chosen: Vec::new(),
            diagnostics: Diagnostics::default(),
            changes: Self {
                origin: placed.origin,
                grid: placed.grid,
                ..Self::default()
            },
        };
        for ((item, on_site), role) in draft.items.iter().zip(&placed.items).zip(roles) {
            if let (Some(shape), true) = (&on_site.shape, *role != Role::LeaveOut) {
                bringing.chosen.push(Chosen {
                    item,
                    shape,
                    role: *role,
                });
            }
        }
        let left_out: Vec<&str> = draft
            .items
            .iter()
            .zip(roles)
            .filter(|(_, r)| **r == Role::LeaveOut)
            .map(|(i, _)| i.place.as_str())
            .collect();
        // What was told of things that stay outside is of no concern here.
        let concerns = |f: &Finding| !left_out.contains(&f.pointer.as_str());
        let mut findings: Vec<Finding> = placed.findings.into_iter().filter(concerns).collect();
        bringing.lot();
        bringing.features();
        bringing.ground();
        bringing.benchmark();
        let Bringing {
            diagnostics,
            changes,
            ..
        } = bringing;
        findings.extend(diagnostics.into_findings());
        if changes.told.is_empty() && !any_fault(&findings) {
            let message = "Nothing is chosen to be brought in.";
            let remedy = "Choose what the things are to be.";
            findings.push(Finding::fault("nothing-chosen", message, remedy));
        }
        if any_fault(&findings) {
            return Err(findings);
        }
        Ok(Self {
            findings,
            ..changes
        })
    }
}

/// The changes as they come together.
struct Bringing<'a> {
    settings: &'a Settings,
    site: &'a Site,
    chosen: Vec<Chosen<'a>>,
    diagnostics: Diagnostics,
    changes: Changes,
}

impl<'a> Bringing<'a> {
    fn with(&self, role: Role) -> Vec<Chosen<'a>> {
        let all = self.chosen.iter().copied();
        all.filter(|c| c.role == role).collect()
    }

    /// The lot from one ring or from its corners in order, and what marks its corners.
    fn lot(&mut self) {
        let lots = self.with(Role::Lot);
        let corners = self.with(Role::Corner);
        let (ring, place) = match (lots.as_slice(), corners.as_slice()) {
            ([], []) => return self.marks_of_the_present_lot(),
            ([one], []) => match lot::ring(one.shape, self.settings.ring) {
                Ok(ring) => {
                    if let Some(left_out) = lot::left_out(one.shape) {
                        self.diagnostics.add(&one.item.place, left_out);
                    }
                    (ring, one.item.place.as_str())
                }
                Err(fault) => return self.diagnostics.add(&one.item.place, fault),
            },
            ([], several) => (
                several.iter().flat_map(|c| spots(c.shape)).collect(),
                several.first().map_or("", |c| &c.item.place),
            ),
            ([_, second, ..], _) | ([second], _) => {
                return self.diagnostics.add(
                    &second.item.place,
                    Finding::fault(
                        "two-lots",
                        "Several things are to be the lot.",
                        "Let one of them be the lot and leave the others out.",
                    ),
                );
            }
        };
        let kept = self.changes.origin.is_none() && self.site.origin.is_some();
        let degrees = self.settings.frame.unit().is_none();
        let grid = match self.changes.grid {
            Some(grid) => grid.is_some(),
            None => self.site.grid.is_some(),
        };
        let basis = if degrees && kept {
            self.site.lot.basis.clone()
        } else {
            lot::basis(degrees, grid)
        };
        let mut record = match lot::record(&ring, basis) {
            Ok(record) => record,
            Err(faults) => {
                for mut fault in faults {
                    fault.pointer = String::new();
                    self.diagnostics.add(place, fault);
                }
                return;
            }
        };
        for corner in &corners {
            if super::marks_a_corner(&corner.item.words)
                && let [spot] = spots(corner.shape).as_slice()
            {
                lot::mark(&mut record, spot.at, lot::monument(&corner.item.words));
            }
        }
        self.marks(&mut record);
        let caution = if degrees {
            Finding::caution(
                "map-is-no-survey",
                "Lot lines from an office's map are drawn for taxes and records, not surveyed: \
                 they are often some feet off.",
                "Before anything is dug or built by them, have the lines staked by a licensed \
                 surveyor, or take the courses of the deed or plat.",
            )
        } else {
            Finding::note(
                "straight-courses",
                "Every course runs straight from corner to corner.",
                "Where the plat has a curve, change that course.",
            )
        };
        self.diagnostics.add("", caution);
        self.changes.told.push(format!(
            "The lot is replaced by one of {} courses.",
            record.courses.len()
        ));
        self.changes.lot = Some(record);
    }

    /// Marks without a new lot belong to the present one.
    fn marks_of_the_present_lot(&mut self) {
        if self.with(Role::Monument).is_empty() {
            return;
        }
        let mut lot = LotRecord::clone(&self.site.lot);
        self.marks(&mut lot);
        if lot != *self.site.lot {
            self.changes.lot = Some(lot);
        }
    }

    fn marks(&mut self, lot: &mut LotRecord) {
        let mut count = 0;
        for mark in self.with(Role::Monument) {
            for spot in spots(mark.shape) {
                if lot::mark(lot, spot.at, lot::monument(&mark.item.words)) {
                    count += 1;
                    continue;
                }
                self.diagnostics.add(
                    &mark.item.place,
                    Finding::caution(
                        "mark-off-corner",
                        "No corner of the lot lies within 1 m of this mark.",
                        "See whether the lot or the mark is misplaced; the mark was left out.",
                    ),
                );
            }
        }
        if count > 0 {
            self.changes
                .told
                .push(format!("{count} corners of the lot get their marks."));
        }
    }

    fn features(&mut self) {
        let chosen: Vec<Chosen<'_>> = self
            .chosen
            .iter()
            .copied()
            .filter(|c| matches!(c.role, Role::Feature(_)))
            .collect();
        if chosen.is_empty() {
            return;
        }
        let newcomers = features::of(&chosen, &self.site.features, &mut self.diagnostics);
        let Newcomers {
            all,
            added,
            replaced,
        } = newcomers;
        if added > 0 {
            self.changes.told.push(match added {
                1 => "1 thing comes onto the lot.".to_owned(),
                n => format!("{n} things come onto the lot."),
            });
        }
        if replaced > 0 {
            self.changes.told.push(format!(
                "{replaced} of the things on the lot get the shape they have in the file."
            ));
        }
        self.changes.features = Some(all);
    }

    fn ground(&mut self) {
        let mut spots_in: Vec<[f64; 3]> = Vec::new();
        let mut without = 0;
        for c in &self.chosen {
            let own = c.role == Role::Spot;
            if !own && !self.settings.spots_of_all {
                continue;
            }
            for spot in spots(c.shape) {
                match spot.height {
                    Some(z) => spots_in.push([spot.at.x, spot.at.y, z]),
                    None => without += usize::from(own),
                }
            }
        }
        let lines = self.breaklines();
        if without > 0 {
            self.diagnostics.add(
                "",
                Finding::caution(
                    "no-elevation",
                    format!("{without} spots have no elevation and were left out."),
                    "Give their elevations, or choose which columns the list has.",
                ),
            );
        }
        if spots_in.is_empty() && lines.is_empty() {
            return;
        }
        let (mut spots_all, mut lines_all) = match self.site.ground.as_ref() {
            GroundRecord::Spots { spots, breaklines } if self.settings.keep_spots => {
                (spots.clone(), breaklines.clone())
            }
            _ => (Vec::new(), Vec::new()),
        };
        let kept = spots_all.len();
        let same =
            |a: &[f64; 3], b: &[f64; 3]| crate::math::hypot(a[0] - b[0], a[1] - b[1]) < SAME_SPOT;
        spots_all.retain(|old| !spots_in.iter().any(|new| same(old, new)));
        let how = match (kept, self.site.ground.as_ref()) {
            (0, GroundRecord::Spots { .. }) => "take the place of those that are there",
            (0, _) => "are the ground now",
            _ => "join those that are there",
        };
        if !spots_in.is_empty() {
            let count = spots_in.len();
            self.changes
                .told
                .push(format!("{count} spot elevations {how}."));
        }
        if !lines.is_empty() {
            let count = lines.len();
            self.changes.told.push(match count {
                1 => "1 breakline comes in.".to_owned(),
                n => format!("{n} breaklines come in."),
            });
        }
        spots_all.extend(spots_in);
        lines_all.extend(lines);
        self.changes.ground = Some(GroundRecord::Spots {
            spots: spots_all,
            breaklines: lines_all,
        });
    }

    /// Lines as they are; points joined by their description, in order.
    fn breaklines(&mut self) -> Vec<Vec<[f64; 3]>> {
        let mut lines: Vec<(String, Vec<[f64; 3]>)> = Vec::new();
        for c in self.with(Role::Breakline) {
            let chains: Vec<Vec<Spot>> = match c.shape {
                Shape::Points(points) => vec![points.clone()],
                Shape::Lines(lines) => lines.clone(),
                Shape::Areas(pieces) => pieces.iter().map(|p| p.outer.clone()).collect(),
            };
            for chain in chains {
                let high: Option<Vec<[f64; 3]>> = chain
                    .iter()
                    .map(|s| s.height.map(|z| [s.at.x, s.at.y, z]))
                    .collect();
                let Some(high) = high else {
                    self.diagnostics.add(
                        &c.item.place,
                        Finding::fault(
                            "no-elevation",
                            "A breakline needs an elevation at each of its points.",
                            "Give the elevations, or leave this out.",
                        ),
                    );
                    continue;
                };
                let joins = matches!(c.shape, Shape::Points(_));
                match lines.iter_mut().find(|(g, _)| joins && *g == c.item.group) {
                    Some((_, line)) => line.extend(high),
                    None => {
                        let group = if joins {
                            c.item.group.clone()
                        } else {
                            String::new()
                        };
                        lines.push((group, high));
                    }
                }
            }
        }
        let short = lines.iter().any(|(_, line)| line.len() < 2);
        if short {
            self.diagnostics.add(
                "",
                Finding::fault(
                    "breakline-too-short",
                    "A breakline needs at least two points of one description.",
                    "Give the points of one line the same description, or leave them out.",
                ),
            );
        }
        lines.into_iter().map(|(_, line)| line).collect()
    }

    fn benchmark(&mut self) {
        let marks = self.with(Role::Benchmark);
        let [mark] = marks.as_slice() else {
            if let Some(second) = marks.get(1) {
                self.diagnostics.add(
                    &second.item.place,
                    Finding::fault(
                        "two-benchmarks",
                        "Several points are to be the benchmark.",
                        "Let one of them be the benchmark; the others can be spots.",
                    ),
                );
            }
            return;
        };
        let spot = spots(mark.shape).first().copied();
        let Some((at, elevation)) = spot.and_then(|s| Some((s.at, s.height?))) else {
            self.diagnostics.add(
                &mark.item.place,
                Finding::fault(
                    "no-elevation",
                    "The benchmark has no elevation.",
                    "Give its elevation, or leave it out.",
                ),
            );
            return;
        };
        let name = [&mark.item.words, &mark.item.name]
            .into_iter()
            .find(|n| !n.is_empty())
            .cloned()
            .unwrap_or_default();
        self.changes.told.push("The benchmark is set.".to_owned());
        self.changes.benchmark = Some(Benchmark {
            name,
            at: Some(at),
            elevation,
            assumed: false,
        });
    }
}

/// All positions of a shape.
pub(super) fn spots(shape: &PlacedShape) -> Vec<Spot> {
    shape.positions().into_iter().copied().collect()
}
