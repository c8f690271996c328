//! What there is at each stage of the work.

pub use crate::site::Stage;

/// From one stage to another, both included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// The first stage.
    pub from: Stage,
    /// The last stage.
    pub to: Stage,
}

impl Span {
    /// At every stage.
    pub const ALWAYS: Self = Self::between(Stage::Lot, Stage::Done);

    /// Between two stages.
    pub const fn between(from: Stage, to: Stage) -> Self {
        Self { from, to }
    }

    /// From a stage on.
    pub const fn from(from: Stage) -> Self {
        Self::between(from, Stage::Done)
    }

    /// Whether a stage is among them.
    pub fn holds(self, stage: Stage) -> bool {
        self.from <= stage && stage <= self.to
    }
}

/// What a body is made of, or is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Matter {
    /// Ground that stays.
    Ground,
    /// Ground that stays under the hole.
    Soil,
    /// Ground that the hole takes away.
    Dig,
    /// Ground that deck and banks take away.
    GradingCut,
    /// The stone under the floor.
    Base,
    /// The stone beside the shell.
    Backfill,
    /// Earth filled in: above the stone, under the deck, in banks.
    Fill,
    /// The moulded wall, floor and coping.
    Shell,
    /// The water.
    Water,
    /// The concrete collar.
    Collar,
    /// The deck's slab.
    Deck,
    /// The stone under deck and steps.
    DeckBed,
    /// The slab under the treads of steps.
    Steps,
    /// The pile of spoil.
    Pile,
    /// The dwelling.
    House,
    /// A shed, garage or other building.
    Outbuilding,
    /// A wall that stands already.
    Wall,
    /// A fence.
    Fence,
    /// Driveways, walks, patios.
    Paving,
    /// A tree's crown.
    Crown,
    /// A tree's trunk.
    Trunk,
    /// A wire overhead, with its posts.
    Wire,
    /// A line in the ground.
    Buried,
    /// Tank, well or septic field.
    Septic,
    /// Equipment and its pad.
    Equipment,
    /// Open water that is there already.
    Watercourse,
    /// Anything else.
    Other,
}

impl Matter {
    /// Every kind.
    pub const ALL: [Self; 27] = [
        Self::Ground,
        Self::Soil,
        Self::Dig,
        Self::GradingCut,
        Self::Base,
        Self::Backfill,
        Self::Fill,
        Self::Shell,
        Self::Water,
        Self::Collar,
        Self::Deck,
        Self::DeckBed,
        Self::Steps,
        Self::Pile,
        Self::House,
        Self::Outbuilding,
        Self::Wall,
        Self::Fence,
        Self::Paving,
        Self::Crown,
        Self::Trunk,
        Self::Wire,
        Self::Buried,
        Self::Septic,
        Self::Equipment,
        Self::Watercourse,
        Self::Other,
    ];

    /// What it is called.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Ground => "ground",
            Self::Soil => "soil under the hole",
            Self::Dig => "dig",
            Self::GradingCut => "cut for deck and banks",
            Self::Base => "base",
            Self::Backfill => "backfill",
            Self::Fill => "fill",
            Self::Shell => "shell",
            Self::Water => "water",
            Self::Collar => "collar",
            Self::Deck => "deck",
            Self::DeckBed => "deck bed",
            Self::Steps => "steps",
            Self::Pile => "spoil pile",
            Self::House => "house",
            Self::Outbuilding => "outbuilding",
            Self::Wall => "wall",
            Self::Fence => "fence",
            Self::Paving => "paving",
            Self::Crown => "tree crown",
            Self::Trunk => "tree trunk",
            Self::Wire => "overhead line",
            Self::Buried => "buried line",
            Self::Septic => "tank, field or well",
            Self::Equipment => "equipment",
            Self::Watercourse => "open water",
            Self::Other => "other feature",
        }
    }
}
