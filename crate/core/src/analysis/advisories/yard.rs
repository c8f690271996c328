//! What the facts of the yard say of this placement: where water runs, which wires hang over
//! it and which lines lie under it, what fits through a gate.

use crate::clearance::WorkFigures;
use crate::finding::said;
use crate::finding::{Finding, Message, Scope, Topic};
use crate::geom::distance::{Figure, Nearest, nearest};
use crate::site::book::BookContent;
use crate::site::{
    CheckedFeature, CheckedSite, Feature, FeatureKind, KnownFrom, LineClass, Opening,
};
use crate::units::constants::FOOT;
use crate::units::{Measure, show};

/// A crane's work zone is assessed where any part of crane, load line or load could come this
/// near to a power line, meters (20 ft: 29 CFR 1926.1408(a), lines up to 350 kV).
pub const CRANE_NEAR_LINE: f64 = 20.0 * FOOT;

/// Everything the facts of the yard give reason to say.
pub(super) fn findings(site: &CheckedSite, work: &WorkFigures) -> Vec<Finding> {
    let records = &site.site().features;
    let mut found = Vec::new();
    let mut add = |feature: &CheckedFeature, finding: Finding| {
        found.push(finding.under(&format!("/features/{}", feature.index)));
    };
    for feature in site.features().iter() {
        let Some(record) = records.get(feature.index) else {
            continue;
        };
        match feature.kind {
            FeatureKind::House | FeatureKind::Outbuilding => {
                if let Some(told) = below_coping(site, record) {
                    add(feature, told);
                }
            }
            FeatureKind::OverheadLine => {
                let pair = nearest(Figure::Area(&work.waters_edge), feature.shape.figure());
                add(feature, overhead(site, record, pair));
                if let Some(told) = pair.and_then(|p| crane(site, record, p, work.rim)) {
                    add(feature, told);
                }
            }
            FeatureKind::BuriedLine => {
                if let Some(from) = record.facts.known_from.filter(|f| *f != KnownFrom::Marked) {
                    add(feature, unmarked(site, record, from));
                }
            }
            FeatureKind::SepticTank | FeatureKind::SepticField | FeatureKind::Well => {
                if let Some(from) = record.facts.known_from.filter(|f| *f != KnownFrom::Marked) {
                    add(feature, remembered(record, from));
                }
            }
            _ => {}
        }
    }
    found.extend(unknown(records));
    found.extend(private(records));
    found.extend(shell_at_gate(site));
    found.extend(machines_at_gate(site));
    found.extend(hidden(records));
    found
}

fn length(site: &CheckedSite, metres: f64) -> String {
    show(Measure::Length, metres, site.site().display).text
}

/// The coping above a finished floor.
fn below_coping(site: &CheckedSite, record: &Feature) -> Option<Finding> {
    let coping = site.site().placement.as_ref()?.coping_elevation;
    let above = coping - record.facts.finished_floor?;
    (above > 1e-6).then(|| {
        let message = said!(
            "The coping is {height} above the finished floor of {thing}: water runs toward it.",
            height = length(site, above),
            thing = record.named(),
        );
        let remedy = "Set the coping below the floor, or have the deck drained away from the \
                      building (common practice, no source).";
        let finding = Finding::note("coping-above-floor", message, remedy);
        finding.about(Topic::Grading).scoped(Scope::Placement)
    })
}

/// A wire overhead: what is measured in plan is not its clearance.
fn overhead(site: &CheckedSite, record: &Feature, pair: Option<Nearest>) -> Finding {
    let facts = &record.facts;
    let carries = facts.line_class.map_or_else(Message::default, |class| {
        said!(" ({carries})", carries = class.words())
    });
    let placement = site.site().placement.as_ref();
    let stands = match (facts.height, pair, placement) {
        (Some(height), Some(pair), Some(placement)) => {
            let ground = site.ground().height(pair.to).elevation;
            let above = ground + height - placement.coping_elevation;
            said!(
                ", {height} above the ground, {above} above the rim.",
                height = length(site, height),
                above = length(site, above),
            )
        }
        (Some(height), ..) => said!(
            ", {height} above the ground.",
            height = length(site, height)
        ),
        _ => said!("; its height is not entered."),
    };
    let example = match facts.line_class {
        Some(LineClass::Service) => said!(
            " For such a line one table has {distance} in any direction from the water (NFPA 70, \
             article 680, as a public discussion quotes it; an example, not the edition in force).",
            distance = length(site, 22.5 * FOOT),
        ),
        _ => Message::default(),
    };
    let message = said!(
        "{line} runs overhead{carries}{stands} A clearance overhead is three-dimensional, and the rules here \
         measure it in plan only.{example}",
        line = record.named().capital(),
        carries = carries,
        stands = stands,
        example = example,
    );
    let remedy = "Ask the utility that owns it, and keep what it and the electrical code in force \
                  require.";
    Finding::caution("overhead-line", message, remedy)
}

/// A power line within reach of the crane that lifts the shell.
fn crane(site: &CheckedSite, record: &Feature, pair: Nearest, rim: f64) -> Option<Finding> {
    let near = (pair.distance - rim).max(0.0);
    let power = record.facts.line_class != Some(LineClass::Communication);
    (power && near <= CRANE_NEAR_LINE).then(|| {
        let message = said!(
            "The shell lies {distance} from {thing}, in plan: a crane, its line or its load could come \
             within {reach} of it.",
            distance = length(site, near),
            thing = record.named(),
            reach = length(site, CRANE_NEAR_LINE),
        );
        let remedy = "Have the crane's work zone assessed before it arrives: the distance to keep \
                      rises with the voltage (29 CFR 1926.1408(a)).";
        Finding::caution("crane-near-line", message, remedy)
            .scoped(Scope::Placement)
            .at(pair.to.x, pair.to.y)
    })
}

/// What is to be done about every buried line that is not known from marks on the site.
const CALL: &str = "Call the utility-locating service, wait for its marks and dig by hand near \
                    them; then enter it as marked.";

/// A buried line known from a drawing or from memory.
fn unmarked(site: &CheckedSite, record: &Feature, from: KnownFrom) -> Finding {
    let depth = record.facts.depth.map_or_else(Message::default, |depth| {
        said!(
            ", its top {depth} below the ground",
            depth = length(site, depth)
        )
    });
    let message = said!(
        "{line} is known only from {source}{depth}. Positions on paper are not marks.",
        line = match record.facts.utility {
            Some(utility) => said!(
                "{line} ({carries})",
                line = record.named().capital(),
                carries = utility.words(),
            ),
            None => record.named().capital(),
        },
        source = from.words(),
        depth = depth,
    );
    Finding::caution("line-not-marked", message, CALL)
}

/// Buried lines of which nothing says how their place is known; one caution for all.
fn unknown(records: &[Feature]) -> Option<Finding> {
    let silent = |f: &&Feature| f.kind == FeatureKind::BuriedLine && f.facts.known_from.is_none();
    let lines = names(records.iter().filter(silent))?;
    let message = said!(
        "How these lines were located is not entered: {lines}. Positions on paper are not marks.",
        lines = lines,
    );
    Some(Finding::caution("line-not-marked", message, CALL).under("/features"))
}

/// A tank, field or well that nobody has found on the site.
fn remembered(record: &Feature, from: KnownFrom) -> Finding {
    let message = said!(
        "{thing} is known only from {source}.",
        thing = record.named().capital(),
        source = from.words(),
    );
    let remedy = "Have it located and marked on the site before anyone digs near it.";
    Finding::caution("place-not-marked", message, remedy)
}

/// Lines that a locating service is not likely to mark; one note for all.
fn private(records: &[Feature]) -> Option<Finding> {
    let own = |f: &&Feature| match f.kind {
        FeatureKind::SepticTank | FeatureKind::SepticField => true,
        FeatureKind::BuriedLine => f.facts.utility.is_some_and(|u| u.often_private()),
        _ => false,
    };
    let lines = names(records.iter().filter(own))?;
    let message = said!(
        "The utility-locating service usually does not mark private lines (septic, pool, \
         irrigation, whatever lies past the meter; common practice, no source): think of {lines}.",
        lines = lines,
    );
    let remedy = "Ask the owner, and hire a private locator.";
    Some(Finding::note("private-lines", message, remedy).under("/features"))
}

/// The narrowest gate, where the shell is wider.
fn shell_at_gate(site: &CheckedSite) -> Option<Finding> {
    let (shell, _) = site.placed_shell()?;
    let (low, high) = shell.rim.bounds()?;
    let across = (high.x - low.x).min(high.y - low.y);
    let gate = Gate::narrowest(site).filter(|it| it.opening.width < across)?;
    let message = said!(
        "The narrowest gate ({gate}) is {width} wide; the shell is {across} wide over its coping.",
        gate = gate.name(),
        width = length(site, gate.opening.width),
        across = length(site, across),
    );
    let remedy = "Plan how the shell comes in: past the fence, over it, or with a section of it \
                  taken down.";
    Some(gate.place(Finding::note("gate-narrower-than-shell", message, remedy)))
}

/// Every machine from the company's book that the narrowest gate does not let through.
fn machines_at_gate(site: &CheckedSite) -> Vec<Finding> {
    let Some(gate) = Gate::narrowest(site) else {
        return Vec::new();
    };
    let taken = site.site().taken.iter();
    let machines = taken.filter_map(|it| match it.entry.content {
        BookContent::Machine(machine) => Some((&it.entry.name, machine)),
        _ => None,
    });
    machines
        .filter(|(_, machine)| gate.opening.width < machine.width)
        .map(|(name, machine)| {
            let message = said!(
                "The narrowest gate ({gate}) is {width} wide; {machine} is {across} wide.",
                gate = gate.name(),
                width = length(site, gate.opening.width),
                machine = name.clone(),
                across = length(site, machine.width),
            );
            let remedy = "Find another way in for it, take a section of the fence down, or dig with \
                          a smaller machine.";
            gate.place(Finding::note("gate-narrower-than-machine", message, remedy))
        })
        .collect()
}

/// A gate in a fence or a wall.
struct Gate<'a> {
    /// The fence's index in the site file.
    index: usize,
    fence: &'a Feature,
    opening: &'a Opening,
}

impl<'a> Gate<'a> {
    /// The narrowest of the lot.
    fn narrowest(site: &'a CheckedSite) -> Option<Self> {
        let fences = site.site().features.iter().enumerate();
        let fences =
            fences.filter(|(_, f)| matches!(f.kind, FeatureKind::Fence | FeatureKind::Wall));
        let gates = fences.flat_map(|(index, fence)| {
            let openings = fence.facts.openings.iter();
            openings.map(move |opening| Self {
                index,
                fence,
                opening,
            })
        });
        gates.min_by(|a, b| a.opening.width.total_cmp(&b.opening.width))
    }

    fn name(&self) -> Message {
        match self.opening.name.as_str() {
            "" => said!("a gate of {thing}", thing = self.fence.named()),
            name => Message::kept(name),
        }
    }

    /// A finding at the gate.
    fn place(&self, finding: Finding) -> Finding {
        let place = format!("/features/{}/facts/openings", self.index);
        finding
            .under(&place)
            .at(self.opening.at.x, self.opening.at.y)
    }
}

/// What is hidden on the plan; one note for all.
fn hidden(records: &[Feature]) -> Option<Finding> {
    let hidden = names(records.iter().filter(|f| f.hidden))?;
    let message = said!(
        "Hidden on the plan, but measured and counted all the same: {things}.",
        things = hidden,
    );
    let remedy = "Show it again before the plan is handed out.";
    Some(Finding::note("hidden-on-plan", message, remedy).under("/features"))
}

/// The labels of some features in a row; `None` of none.
fn names<'a>(features: impl Iterator<Item = &'a Feature>) -> Option<Message> {
    let labels: Vec<Message> = features.map(Feature::named).collect();
    (!labels.is_empty()).then(|| Message::joined(labels, ", "))
}

#[cfg(test)]
mod tests;
