//! What a part of the work does to a thing that it reaches: whether the work cannot be built so,
//! or somebody has to settle something first.

use crate::finding::Severity;
use crate::site::FeatureKind;

/// A part of the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Part {
    /// The shell, out to the outer edge of its coping.
    Shell,
    /// The hole, at its top edge.
    Dig,
    /// The concrete collar round the rim.
    Collar,
    /// The ring of deck of even width.
    Deck,
    /// Decks and steps that were drawn.
    DrawnDeck,
    /// The equipment pad.
    Equipment,
}

impl Part {
    /// The part in plain words.
    pub(crate) fn words(self) -> &'static str {
        match self {
            Self::Shell => "shell's rim",
            Self::Dig => "dig",
            Self::Collar => "collar",
            Self::Deck => "deck",
            Self::DrawnDeck => "drawn deck",
            Self::Equipment => "equipment pad",
        }
    }

    /// Where the site file says where it lies.
    pub(crate) fn pointer(self) -> &'static str {
        match self {
            Self::Shell | Self::Dig => "/placement",
            Self::Collar => "/works/collar/width",
            Self::Deck => "/works/deck/width",
            Self::DrawnDeck => "/features",
            Self::Equipment => "/equipment",
        }
    }

    /// The code of its reaching over a lot line or into an easement.
    pub(crate) fn beyond(self) -> &'static str {
        match self {
            Self::Shell => "shell-beyond",
            Self::Dig => "dig-beyond",
            Self::Collar => "collar-beyond",
            Self::Deck | Self::DrawnDeck => "deck-beyond",
            Self::Equipment => "equipment-beyond",
        }
    }
}

/// What follows where a part of the work meets a thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Conflict {
    /// The code of the finding.
    pub(crate) code: &'static str,
    /// A fault cannot be built so; a caution has to be settled first.
    pub(crate) severity: Severity,
    /// What the part does to the thing: `runs into`.
    pub(crate) verb: &'static str,
    /// What to do.
    pub(crate) remedy: &'static str,
}

fn fault(code: &'static str, verb: &'static str, remedy: &'static str) -> Conflict {
    Conflict {
        code,
        severity: Severity::Fault,
        verb,
        remedy,
    }
}

fn caution(code: &'static str, verb: &'static str, remedy: &'static str) -> Conflict {
    Conflict {
        code,
        severity: Severity::Caution,
        verb,
        remedy,
    }
}

/// What follows where a part of the work meets a thing of this kind; `None` where that is as
/// it should be: a deck meets the house.
///
/// A tree counts by its trunk alone, an overhead line only over the shell itself.
pub(crate) fn conflict(part: Part, kind: FeatureKind) -> Option<Conflict> {
    if kind == FeatureKind::Easement {
        return Some(fault(
            part.beyond(),
            "reaches into",
            "Move it out, or get the written consent of whoever holds the easement.",
        ));
    }
    match part {
        Part::Dig => dug(kind, false),
        Part::Shell => dug(kind, true),
        Part::Collar | Part::Deck | Part::DrawnDeck => paved(kind),
        Part::Equipment => stood_on(kind),
    }
}

/// The hole, or a shell that stands where nothing is dug.
fn dug(kind: FeatureKind, shell: bool) -> Option<Conflict> {
    use FeatureKind as K;
    let code = |dig, stands| if shell { stands } else { dig };
    Some(match kind {
        K::House | K::Outbuilding | K::Wall => fault(
            code("dig-under-structure", "shell-in-structure"),
            "runs into",
            "Move the shell: digging beside or under a footing takes a licensed engineer \
             (29 CFR 1926.651(i)).",
        ),
        K::SepticTank | K::SepticField | K::Well => fault(
            code("dig-through-system", "shell-in-system"),
            "runs into",
            "Move the shell, or have a licensed contractor relocate the system first.",
        ),
        K::BuriedLine => fault(
            code("dig-through-line", "shell-over-line"),
            "runs into",
            "Move the shell, or have the line's owner locate it and relocate or disconnect it \
             before anyone digs.",
        ),
        K::Watercourse => fault(
            code("dig-through-water", "shell-in-water"),
            "runs into",
            "Move the shell, and ask the authority that has charge of the water.",
        ),
        K::Equipment => fault(
            code("dig-through-equipment", "shell-in-equipment"),
            "runs into",
            "Move the shell, or have the equipment disconnected and moved first.",
        ),
        K::StreetEdge => fault(
            code("dig-through-street", "shell-in-street"),
            "runs into",
            "Move the shell: the street is not the owner's to dig.",
        ),
        K::Tree => fault(
            code("dig-through-tree", "shell-in-tree"),
            "runs into the trunk of",
            "Move the shell; or, where the tree is to come down, remove it from the plan.",
        ),
        K::Fence => caution(
            code("dig-through-fence", "shell-over-fence"),
            "runs through",
            "Move the shell, or plan where the fence goes: whoever takes it down keeps people \
             out of the hole.",
        ),
        K::Driveway | K::Walk => caution(
            code("dig-through-paving", "shell-over-paving"),
            "runs through",
            "Move the shell, or plan for that paving to be removed.",
        ),
        K::Other => caution(
            code("dig-through-other", "shell-over-other"),
            "runs into",
            "Move the shell, or say what becomes of it.",
        ),
        K::OverheadLine if shell => caution(
            "shell-under-line",
            "lies under",
            "Move the shell, or get the line's owner to move it: a pool is kept out from under \
             wires (common practice, no source; the electrical code in force decides).",
        ),
        K::OverheadLine
        | K::Easement
        | K::Deck
        | K::DeckOpening
        | K::DeckSteps
        | K::PipeTrench
        | K::SpoilSpace => return None,
    })
}

/// Concrete on a bed that is dug some inches deep.
fn paved(kind: FeatureKind) -> Option<Conflict> {
    use FeatureKind as K;
    Some(match kind {
        K::SepticTank | K::SepticField | K::Well => fault(
            "deck-over-system",
            "covers part of",
            "Keep the deck off it, or have a licensed contractor relocate the system first.",
        ),
        K::Watercourse => fault(
            "deck-over-water",
            "reaches into",
            "Keep the deck out of it, and ask the authority that has charge of the water.",
        ),
        K::Tree => caution(
            "deck-over-tree",
            "runs over the trunk of",
            "Leave the deck open round it; or, where the tree is to come down, remove it from \
             the plan.",
        ),
        K::BuriedLine => caution(
            "deck-over-line",
            "covers part of",
            "Ask the line's owner before it is paved over, and have it marked before the bed is \
             dug.",
        ),
        _ => return None,
    })
}

/// A slab with machines on it.
fn stood_on(kind: FeatureKind) -> Option<Conflict> {
    use FeatureKind as K;
    Some(match kind {
        K::House | K::Outbuilding | K::Wall => fault(
            "equipment-in-structure",
            "runs into",
            "Move the pad clear of it.",
        ),
        K::SepticTank | K::SepticField | K::Well | K::Watercourse => {
            fault("equipment-over-system", "lies on", "Move the pad off it.")
        }
        K::Equipment | K::Tree => caution(
            "equipment-in-the-way",
            "runs into",
            "Move the pad, or plan what becomes of it.",
        ),
        K::BuriedLine => caution(
            "equipment-over-line",
            "lies over",
            "Move the pad off it, or ask the line's owner; have it marked before the bed is dug.",
        ),
        _ => return None,
    })
}
