//! The edits a user can make, by name.
//!
//! A command is data: it can come from a button, a key, a typed value or a test. It turns
//! one site into the next and never judges it; the door does that.

use std::borrow::Cow;
use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::{PhotographEdit, StakeoutEdit, copy, follow, snap};
use crate::exchange;
use crate::finding::Finding;
use crate::geom::{PathRecord, Point, Vector};
use crate::ground::GroundRecord;
use crate::lot::LotRecord;
use crate::math::wrap_turn;
use crate::site::book::{self, BookContent, TakenEntry};
use crate::site::{
    Alternative, BarrierRule, Benchmark, CheckedSite, ConstructionSettings, EquipmentPad, Feature,
    Fit, GeoOrigin, Grid, Lift, Picture, Placement, Rate, Rule, SectionLine, ShareRule,
    ShellChoice, Site, Tape,
};
use crate::units::{Currency, System};

/// How far the rim of a newly placed shell stands above the ground at its middle, meters
/// (4 in; common practice, no source: water must run away from the rim).
const FIRST_RIM_HEIGHT: f64 = 0.1016;

/// One undoable edit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
#[serde(rename_all = "kebab-case")]
pub enum Command {
    /// Put this shell on the lot, or in place of the one that is there.
    ChooseShell(ShellChoice),
    /// Take the shell off the lot.
    RemoveShell,
    /// Put the shell's middle here.
    MoveShell {
        /// Site position, meters.
        at: Point,
    },
    /// Shift the shell a little.
    NudgeShell {
        /// Meters eastward.
        east: f64,
        /// Meters northward.
        north: f64,
    },
    /// Point the shell's length along a bearing.
    TurnShell {
        /// Radians clockwise from north.
        heading: f64,
    },
    /// Exchange the shell's left and right.
    FlipShell,
    /// Turn the shell parallel or square to the nearest wall or lot line.
    AlignShell,
    /// Set the rim's elevation.
    SetCoping {
        /// Meters above the site's datum.
        elevation: f64,
    },
    /// Set dig, stone, collar, deck and the rest.
    SetWorks(Arc<ConstructionSettings>),
    /// Set the clearance rules.
    SetRules(Vec<Rule>),
    /// Replace the rules about covered ground.
    SetShares(Vec<ShareRule>),
    /// Say what the barrier has to be, or that it is not looked at.
    SetBarrier(Option<BarrierRule>),
    /// Set the ground.
    SetGround(GroundRecord),
    /// Set the lot.
    SetLot(LotRecord),
    /// Set the lot by its corners, as they were drawn: one side from each to the next, their kinds
    /// not told. What the record told of a deed is dropped.
    DrawLot {
        /// The corners, closed.
        corners: PathRecord,
    },
    /// Set what stands on the lot.
    SetFeatures(Vec<Feature>),
    /// Put a copy of a feature beside it.
    CopyFeature {
        /// The feature's id.
        id: String,
    },
    /// Place, move or take away the equipment pad.
    SetEquipment(Option<EquipmentPad>),
    /// Set the units to read.
    SetDisplay(System),
    /// Name the job.
    Rename {
        /// What the job is called.
        name: String,
        /// Anything worth saying about it.
        note: String,
    },
    /// Set or forget the benchmark.
    SetBenchmark(Option<Benchmark>),
    /// Set or forget where the site's origin lies on the earth.
    SetOrigin(Option<GeoOrigin>),
    /// Set or forget the survey grid that the site's coordinates came from.
    SetGrid(Option<Grid>),
    /// Lay a picture under the plan, change how it lies, or take it away. A picture without data
    /// has the data of the one that is there: an edit need not carry it.
    SetPicture(Option<Picture>),
    /// Scale and turn the picture about the first of two points of it.
    FitPicture(Fit),
    /// Draw contours at an interval (meters), or none.
    SetContours(Option<f64>),
    /// Put this shell here, in place of the one that is there.
    SetPlacement(Placement),
    /// Set what quantities cost.
    SetRates(Vec<Rate>),
    /// Set what the rates are in, or leave it at `$`.
    SetCurrency(Option<Currency>),
    /// Set where the section is cut, or leave it to the shell.
    SetSection(Option<SectionLine>),
    /// Set where the shell is delivered and where the crane stands, or forget it.
    SetLift(Option<Lift>),
    /// Set the placements kept for comparison.
    SetAlternatives(Vec<Alternative>),
    /// Take an entry of the company's book over; of a shell, put it on the lot.
    Take(Box<TakenEntry>),
    /// Set the tapes that are kept.
    SetTapes(Vec<Tape>),
    /// Change how the work is staked, or what was read back.
    Stakeout(StakeoutEdit),
    /// Change the photographs of the yard.
    Photographs(PhotographEdit),
    /// Several edits as one step: all of them or none.
    Together {
        /// What the step is called when it is taken back.
        label: String,
        /// The edits, in order.
        commands: Vec<Command>,
    },
}

impl Command {
    /// Reads a command from JSON, as the page sends it.
    ///
    /// # Errors
    /// The member that cannot be read.
    pub fn read(text: &str) -> Result<Self, Vec<Finding>> {
        exchange::read_value(text).map_err(|fault| vec![fault])
    }

    /// What the step is called when it is taken back.
    pub fn label(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::ChooseShell(_) => "choose shell",
            Self::RemoveShell => "remove shell",
            Self::MoveShell { .. } => "move shell",
            Self::NudgeShell { .. } => "nudge shell",
            Self::TurnShell { .. } => "turn shell",
            Self::FlipShell => "flip shell",
            Self::AlignShell => "align shell",
            Self::SetCoping { .. } => "set coping elevation",
            Self::SetWorks(_) => "change the works",
            Self::SetRules(_) => "change the rules",
            Self::SetShares(_) => "change the rules about covered ground",
            Self::SetBarrier(_) => "change what the barrier has to be",
            Self::SetGround(_) => "change the ground",
            Self::SetLot(_) => "change the lot",
            Self::DrawLot { .. } => "draw the lot",
            Self::SetFeatures(_) => "change the features",
            Self::CopyFeature { .. } => "duplicate",
            Self::SetEquipment(_) => "place equipment",
            Self::SetDisplay(_) => "change units",
            Self::Rename { .. } => "rename",
            Self::SetBenchmark(_) => "change the benchmark",
            Self::SetOrigin(_) => "change the place on earth",
            Self::SetGrid(_) => "change the survey grid",
            Self::SetPicture(None) => "remove the picture",
            Self::SetPicture(Some(_)) => "change the picture",
            Self::FitPicture(_) => "scale the picture",
            Self::SetContours(_) => "change the contours",
            Self::SetPlacement(_) => "place the shell",
            Self::SetRates(_) => "change the rates",
            Self::SetCurrency(_) => "change the currency",
            Self::SetSection(_) => "move the section",
            Self::SetLift(_) => "place the lift",
            Self::SetAlternatives(_) => "change the comparison",
            Self::Take(taken) => {
                return Cow::Owned(format!("take {} from the book", taken.entry.name));
            }
            Self::SetTapes(_) => "change the tapes",
            Self::Stakeout(edit) => edit.label(),
            Self::Photographs(edit) => edit.label(),
            Self::Together { label, .. } => return Cow::Owned(label.clone()),
        })
    }

    /// The site after this edit.
    ///
    /// # Errors
    /// A fault when the edit needs a shell and none is placed.
    pub(crate) fn carried_out(self, before: &CheckedSite) -> Result<Site, Vec<Finding>> {
        let mut site = Site::clone(before.site());
        self.carry_out(&mut site, before)?;
        Ok(site)
    }

    /// Edits a site that began as `before`.
    fn carry_out(self, site: &mut Site, before: &CheckedSite) -> Result<(), Vec<Finding>> {
        match self {
            Self::ChooseShell(choice) => {
                choose(site, before, choice);
                book::forget_shell(site);
            }
            Self::RemoveShell => {
                site.placement = None;
                book::forget_shell(site);
            }
            Self::MoveShell { at } => placed(site)?.at = at,
            Self::NudgeShell { east, north } => {
                let placement = placed(site)?;
                placement.at = placement.at + Vector::new(east, north);
            }
            Self::TurnShell { heading } => placed(site)?.heading = wrap_turn(heading),
            Self::FlipShell => {
                let placement = placed(site)?;
                placement.mirrored = !placement.mirrored;
            }
            Self::AlignShell => align(site, before)?,
            Self::SetCoping { elevation } => placed(site)?.coping_elevation = elevation,
            Self::SetWorks(works) => site.works = works,
            Self::SetRules(rules) => site.rules = Arc::new(rules),
            Self::SetShares(rules) => site.shares = rules,
            Self::SetBarrier(rule) => site.barrier = rule,
            Self::SetGround(ground) => site.ground = Arc::new(ground),
            Self::SetLot(lot) => {
                site.lot = Arc::new(lot);
                follow::courses(site, before);
            }
            Self::DrawLot { corners } => {
                site.lot = Arc::new(LotRecord {
                    closing_ratio: site.lot.closing_ratio,
                    ..LotRecord::from_outline(&corners.vertices(), &[])
                });
                follow::courses(site, before);
            }
            Self::SetFeatures(features) => site.features = Arc::new(features),
            Self::CopyFeature { id } => copy::feature(site, &id)?,
            Self::SetEquipment(pad) => site.equipment = pad,
            Self::SetDisplay(system) => site.display = system,
            Self::Rename { name, note } => (site.name, site.note) = (name, note),
            Self::SetBenchmark(benchmark) => site.benchmark = benchmark,
            Self::SetOrigin(origin) => site.origin = origin,
            Self::SetGrid(grid) => site.grid = grid,
            Self::SetPicture(picture) => set_picture(site, picture),
            Self::FitPicture(fit) => {
                let laid = fit.lay(pictured(site)?).map_err(|fault| vec![fault])?;
                site.picture = Some(Arc::new(laid));
            }
            Self::SetContours(interval) => site.contours = interval,
            Self::SetPlacement(placement) => {
                let heading = wrap_turn(placement.heading);
                site.placement = Some(Placement {
                    heading,
                    ..placement
                });
            }
            Self::SetRates(rates) => site.rates = rates,
            Self::SetCurrency(currency) => site.currency = currency,
            Self::SetSection(line) => site.section = line,
            Self::SetLift(lift) => site.lift = lift,
            Self::SetAlternatives(kept) => site.alternatives = kept,
            Self::Take(taken) => {
                if let BookContent::Shell(it) = &taken.entry.content {
                    choose(site, before, ShellChoice::Own(it.shell.clone()));
                }
                taken.put_on(site)?;
            }
            Self::SetTapes(tapes) => site.tapes = tapes,
            Self::Stakeout(edit) => edit.carry_out(site)?,
            Self::Photographs(edit) => edit.carry_out(site)?,
            Self::Together { commands, .. } => {
                for command in commands {
                    command.carry_out(site, before)?;
                }
            }
        }
        Ok(())
    }
}

fn set_picture(site: &mut Site, picture: Option<Picture>) {
    let before = site.picture.take();
    site.picture = picture.map(|mut picture| {
        if let Some(before) = before.filter(|_| picture.data.is_empty()) {
            picture.data = Arc::clone(&before.data);
        }
        picture.heading = wrap_turn(picture.heading);
        Arc::new(picture)
    });
}

fn pictured(site: &Site) -> Result<&Picture, Vec<Finding>> {
    site.picture.as_deref().ok_or_else(|| {
        vec![Finding::fault(
            "no-picture",
            "There is no picture under the plan.",
            "Add one first.",
        )]
    })
}

fn placed(site: &mut Site) -> Result<&mut Placement, Vec<Finding>> {
    site.placement.as_mut().ok_or_else(|| {
        vec![Finding::fault(
            "no-shell",
            "No shell is placed yet.",
            "Choose a shell first.",
        )]
    })
}

/// A new shell goes where the old one was; the first goes to the middle of the lot, along
/// its nearest line, its rim a little above the ground.
fn choose(site: &mut Site, before: &CheckedSite, choice: ShellChoice) {
    let shell = Arc::new(choice);
    if let Some(placement) = &mut site.placement {
        placement.shell = shell;
        return;
    }
    let at = before.lot().region.centroid().unwrap_or(site.lot.start);
    let heading = snap::nearest_line(before, at).map_or(0.0, |line| line.heading(0.0));
    let coping_elevation = before.ground().height(at).elevation + FIRST_RIM_HEIGHT;
    site.placement = Some(Placement {
        shell,
        at,
        heading,
        mirrored: false,
        coping_elevation,
    });
}

fn align(site: &mut Site, before: &CheckedSite) -> Result<(), Vec<Finding>> {
    let placement = placed(site)?;
    let line = snap::nearest_line(before, placement.at).ok_or_else(|| {
        vec![Finding::fault(
            "nothing-straight",
            "There is no straight wall or lot line to align to.",
            "Turn the shell by its handle or by typing a bearing.",
        )]
    })?;
    placement.heading = line.heading(placement.heading);
    Ok(())
}
