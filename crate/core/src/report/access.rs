//! The way in and the crane, in figures.

use serde::Serialize;

use super::Figure;
use crate::analysis::{self, Cache, Detail, Scenario};
use crate::crane::wire::{Approach, Part, Voltage};
use crate::crane::{self, CranePlan, Passed};
use crate::finding::{Finding, sort_by_severity};
use crate::geom::{Point, Region};
use crate::json;
use crate::math::lesser;
use crate::site::{CheckedSite, MachineSize};
use crate::units::{Measure, System};
use crate::way_in::{self, Bend, Passage, Passenger, Pinch, Removal, Way, swept_width};

/// The way in and the crane of one site.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct AccessFigures {
    /// The job's name.
    pub name: String,
    /// The widest way from the street to the dig at ground level; none before a shell is placed and
    /// the street is known.
    pub to_dig: Option<RouteFigures>,
    /// The same to where the shell is laid down, where such a place was chosen.
    pub to_set_down: Option<RouteFigures>,
    /// Machines and the shell, held against the way.
    pub passages: Vec<PassageFigures>,
    /// Fences and walls of which a stretch taken out widens the way.
    pub removals: Vec<RemovalFigures>,
    /// What is worth knowing about the way in.
    pub findings: Vec<Finding>,
    /// The crane.
    pub crane: CraneFigures,
}

/// A way in.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct RouteFigures {
    /// Its width at the pinch; none where nothing holds it.
    pub width: Option<Figure>,
    /// Nothing passes.
    pub closed: bool,
    /// Where the pinch is, in words; empty where there is none.
    pub place: String,
    /// What the pinch lies between.
    pub between: Vec<String>,
    /// The gate that it is, where it is one.
    pub gate: Option<String>,
    /// The ends of the pinch, site meters.
    pub pinch: Option<[Point; 2]>,
    /// The line along which the way runs, from the street, site meters.
    pub line: Vec<Point>,
    /// Its length.
    pub length: Figure,
}

/// Somebody who has to pass.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct PassageFigures {
    /// Who.
    pub who: Passenger,
    /// The same in words.
    pub label: &'static str,
    /// Its own width.
    pub width: Figure,
    /// Its height as it passes.
    pub height: Figure,
    /// The width it needs, with the room on either side.
    pub needed: Figure,
    /// The width of the widest way at its height; none where nothing holds it or there is none.
    pub way: Option<Figure>,
    /// That width less what is needed; none where nothing holds the way or there is none.
    pub room: Option<Figure>,
    /// Where that way is narrowest.
    pub place: String,
    /// Whether it gets through straight.
    pub fits: bool,
    /// Whether it gets round the bends of the line drawn.
    pub turns: bool,
    /// Whether branches, eaves or a wire make its way another than the one at ground level.
    pub low: bool,
    /// The width that it sweeps in a steady turn; none of the shell.
    pub swept: Option<Figure>,
    /// Bends of the line.
    pub bends: Vec<BendFigures>,
}

/// A bend of the way.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct BendFigures {
    /// Where it is, site meters.
    pub at: Point,
    /// By how much it turns.
    pub turn: Figure,
    /// Clear width less what is swept and the room on either side; none where the legs are too short
    /// for the arc.
    pub room: Option<Figure>,
    /// Whether the machine gets round it.
    pub clear: bool,
}

/// A stretch of a fence or a wall taken out.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct RemovalFigures {
    /// The feature, by its index in the site.
    pub feature: usize,
    /// What the plan calls it.
    pub name: String,
    /// Whether it is all of it.
    pub whole: bool,
    /// How long the stretch is.
    pub length: Figure,
    /// Its ends, site meters.
    pub ends: [Point; 2],
    /// Width of the way afterwards; none where nothing holds it then.
    pub width: Option<Figure>,
    /// By how much the way widens.
    pub wider: Option<Figure>,
    /// Where it is narrowest then.
    pub place: String,
}

/// The crane.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct CraneFigures {
    /// Where it stands.
    pub at: Option<Point>,
    /// Its outriggers, site meters, in order round it.
    pub outriggers: Vec<Point>,
    /// The pads under them.
    pub pads: Vec<Vec<Point>>,
    /// The band that the shell sweeps.
    pub band: Vec<Vec<Point>>,
    /// The way of the load, from the truck, site meters.
    pub load_line: Option<[Point; 2]>,
    /// From the crane to the shell in its place.
    pub radius_to_place: Option<Figure>,
    /// From the crane to the shell on the truck.
    pub radius_to_truck: Option<Figure>,
    /// The greater of both: the radius asked for.
    pub greatest_radius: Option<Figure>,
    /// The shell's weight.
    pub shell_weight: Option<Figure>,
    /// Shell and rigging: the weight asked for.
    pub load: Option<Figure>,
    /// Pressure under the pad of an outrigger.
    pub bearing: Option<Figure>,
    /// How that pressure comes about.
    pub working: String,
    /// From the nearest pad to the top of the dig.
    pub to_dig: Option<Figure>,
    /// Height of the boom's tip above the ground.
    pub tip: Option<Figure>,
    /// What to read off to the crane company.
    pub ask: String,
    /// What the shell passes over.
    pub passed: Vec<PassedFigures>,
    /// Overhead lines, the least room first.
    pub wires: Vec<WireFigures>,
    /// What is worth knowing.
    pub findings: Vec<Finding>,
}

/// Something that the shell passes over.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct PassedFigures {
    /// What the plan calls it.
    pub name: String,
    /// Its height, where it was entered.
    pub height: Option<Figure>,
    /// Room between it and the shell's underside.
    pub room: Option<Figure>,
}

/// An overhead line.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct WireFigures {
    /// What the plan calls it.
    pub name: String,
    /// What comes nearest.
    pub part: Part,
    /// How near.
    pub distance: Figure,
    /// Whether that was measured on the plan alone.
    pub on_plan: bool,
    /// The least distance (29 CFR 1926.1408 Table A), where there is one.
    pub required: Option<Figure>,
    /// How the voltage is known.
    pub voltage: Voltage,
    /// Distance less the least one.
    pub room: Option<Figure>,
}

impl AccessFigures {
    /// Those of a site.
    pub fn of(site: &CheckedSite, system: System) -> Self {
        let mut cache = Cache::default();
        let work = analysis::run(&Scenario::of(site), Detail::Clearances, &mut cache).work;
        let mut way = way_in::way_in(site, &work);
        let mut crane = crane::plan(site, &work);
        way.findings = sort_by_severity(&way.findings);
        crane.findings = sort_by_severity(&crane.findings);
        let show = Show { site, system };
        let now = way.to_dig.as_ref().map_or(0.0, Way::width);
        Self {
            name: site.site().name.clone(),
            to_dig: way.to_dig.as_ref().map(|it| show.route(it)),
            to_set_down: way.to_set_down.as_ref().map(|it| show.route(it)),
            passages: way.passages.iter().map(|it| show.passage(it)).collect(),
            removals: way
                .removals
                .iter()
                .map(|it| show.removal(it, now))
                .collect(),
            findings: way.findings,
            crane: show.crane(crane),
        }
    }

    /// As JSON text of the fixed layout.
    pub fn to_json(&self) -> String {
        json::to_string(self)
    }
}

/// What figures are shown by.
struct Show<'a> {
    site: &'a CheckedSite,
    system: System,
}

impl Show<'_> {
    fn length(&self, value: f64) -> Figure {
        Figure::new(Measure::Length, value, self.system)
    }

    /// A length, where it is one.
    fn finite(&self, value: f64) -> Option<Figure> {
        value.is_finite().then(|| self.length(value))
    }

    fn route(&self, way: &Way) -> RouteFigures {
        let pinch = way.pinch.as_ref();
        RouteFigures {
            width: self.finite(way.width()),
            closed: way.is_closed(),
            place: pinch.map(Pinch::place).unwrap_or_default(),
            between: pinch.map(|it| it.between.to_vec()).unwrap_or_default(),
            gate: pinch.and_then(|it| it.gate.clone()),
            pinch: pinch.map(|it| it.ends),
            line: way.line.clone(),
            length: Figure::new(Measure::LongLength, way.length, self.system),
        }
    }

    fn passage(&self, it: &Passage) -> PassageFigures {
        let pinch = it.way.as_ref().and_then(|way| way.pinch.as_ref());
        let swept = self.machine(it.who).map(|size| swept_width(&size));
        PassageFigures {
            who: it.who,
            label: it.who.words(),
            width: self.length(it.width),
            height: self.length(it.height),
            needed: self.length(it.needed),
            way: it.way.as_ref().and_then(|way| self.finite(way.width())),
            room: it.room().and_then(|room| self.finite(room)),
            place: pinch.map(Pinch::place).unwrap_or_default(),
            fits: it.fits(),
            turns: it.turns(),
            low: it.low,
            swept: swept.map(|it| self.length(it)),
            bends: it.bends.iter().map(|it| self.bend(it)).collect(),
        }
    }

    fn machine(&self, who: Passenger) -> Option<MachineSize> {
        let access = &self.site.site().works.access;
        match who {
            Passenger::Excavator => Some(access.excavator),
            Passenger::Truck => Some(access.truck),
            Passenger::SkidLoader => Some(access.skid_loader),
            Passenger::ShellFlat | Passenger::ShellOnEdge => None,
        }
    }

    fn bend(&self, it: &Bend) -> BendFigures {
        BendFigures {
            at: it.at,
            turn: Figure::new(Measure::Angle, it.turn, self.system),
            room: it.room.and_then(|room| self.finite(room)),
            clear: it.is_clear(),
        }
    }

    fn removal(&self, it: &Removal, now: f64) -> RemovalFigures {
        RemovalFigures {
            feature: it.feature,
            name: it.name.clone(),
            whole: it.whole,
            length: self.length(it.length),
            ends: it.ends,
            width: self.finite(it.width),
            wider: self.finite(it.width - now),
            place: it.pinch.as_ref().map(Pinch::place).unwrap_or_default(),
        }
    }

    fn crane(&self, plan: CranePlan) -> CraneFigures {
        let stand = plan.stand.as_ref();
        let swing = plan.swing.as_ref();
        let weight = |value| Figure::new(Measure::Weight, value, self.system);
        let load = plan.load.and_then(|it| it.total()).map(weight);
        let greatest = stand.map(|it| self.length(it.greatest_radius()));
        let known = stand.is_some_and(|it| it.radius_to_truck.is_some());
        let ask = match (&greatest, &load) {
            (Some(radius), Some(load)) if known => format!(
                "{} on the hook with the rigging, at {} from the middle of the crane",
                load.shown.text, radius.shown.text
            ),
            _ => String::new(),
        };
        CraneFigures {
            at: stand.map(|it| it.at),
            outriggers: stand.map(|it| it.outriggers.to_vec()).unwrap_or_default(),
            pads: stand
                .map(|it| it.pads.iter().flat_map(rings).collect())
                .unwrap_or_default(),
            band: swing.map(|it| rings(&it.band)).unwrap_or_default(),
            load_line: swing.map(|it| it.line),
            radius_to_place: stand.map(|it| self.length(it.radius_to_place)),
            radius_to_truck: stand
                .and_then(|it| it.radius_to_truck)
                .map(|it| self.length(it)),
            greatest_radius: greatest.filter(|_| known),
            shell_weight: plan.load.and_then(|it| it.shell).map(weight),
            bearing: plan
                .bearing
                .map(|it| Figure::new(Measure::Pressure, it.pressure, self.system)),
            working: self.working(&plan),
            to_dig: stand.and_then(|it| it.to_dig).map(|it| self.length(it)),
            tip: swing.map(|it| self.length(it.tip)),
            passed: plan.passed.iter().map(|it| self.passed(it)).collect(),
            wires: plan.wires.iter().map(|it| self.wire(it)).collect(),
            findings: plan.findings,
            load,
            ask,
        }
    }

    /// Weight by share over area.
    fn working(&self, plan: &CranePlan) -> String {
        let (Some(bearing), Some(load)) = (plan.bearing, plan.load.and_then(|it| it.total()))
        else {
            return String::new();
        };
        let text = |measure, value| Figure::new(measure, value, self.system).shown.text;
        let pad = text(Measure::Length, lesser(bearing.area, f64::MAX).sqrt());
        format!(
            "(crane {} + load {}) × {} on one outrigger ÷ ({pad} × {pad}) = {}",
            text(Measure::Weight, bearing.total - load),
            text(Measure::Weight, load),
            text(Measure::Fraction, bearing.share),
            text(Measure::Pressure, bearing.pressure),
        )
    }

    fn passed(&self, it: &Passed) -> PassedFigures {
        PassedFigures {
            name: it.name.clone(),
            height: it.height.map(|it| self.length(it)),
            room: it.room.map(|it| self.length(it)),
        }
    }

    fn wire(&self, it: &Approach) -> WireFigures {
        WireFigures {
            name: it.name.clone(),
            part: it.part,
            distance: self.length(it.distance),
            on_plan: it.on_plan,
            required: it.required.map(|it| self.length(it)),
            voltage: it.voltage,
            room: it.room().map(|it| self.length(it)),
        }
    }
}

/// The rings of a region.
fn rings(region: &Region) -> Vec<Vec<Point>> {
    region.rings().map(|it| it.0.clone()).collect()
}
