//! What a quantity was measured on, so that the plan can light it up.

use serde::Serialize;

/// The geometry behind a quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum MeasuredOn {
    /// Nothing that has a place on the plan: a count, a weight of all of it.
    #[default]
    Nothing,
    /// The opening of the hole at the ground.
    Opening,
    /// The bottom of the hole: floor, wall and over-dig.
    Bottom,
    /// The deepest point of the hole.
    Deepest,
    /// The floor of the shell.
    Floor,
    /// The surface of the water.
    Water,
    /// The line round the water.
    WatersEdge,
    /// The body of the shell, from the rim inward.
    Body,
    /// The outer edge of the coping.
    Rim,
    /// The collar.
    Collar,
    /// The slab of the deck.
    Deck,
    /// The deck where a bed lies under it.
    DeckBed,
    /// Between the sides of the hole and the shell.
    Backfill,
    /// The rods between coping and deck.
    Ties,
    /// The joints of the deck.
    Joints,
    /// The edges of concrete that want a form.
    Forms,
    /// The reinforcing rods of collar and deck.
    Rods,
    /// The runs of pipe.
    Pipes,
    /// The trenches of the pipe.
    Trenches,
    /// The equipment pad.
    Pad,
    /// Where fill stands above the ground.
    Fill,
    /// Where the ground is cut for deck and bed.
    Cut,
    /// The foot of the fill and the walls that hold it.
    Retained,
    /// The pile of spoil.
    Stockpile,
    /// The pipe that lowers groundwater, and its sump.
    Dewatering,
}
