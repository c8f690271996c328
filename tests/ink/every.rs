//! Every ink there is, with a name to tell it by.

use batterboard_core::drawing::Layer;
use batterboard_core::lot::MonumentState;
use batterboard_core::section::Piece;
use batterboard_core::site::{FeatureKind, Utility};

use crate::ink::{self, Ink};

/// What a buried line may carry; `None` where nobody said.
pub const UTILITIES: [Option<Utility>; 7] = [
    Some(Utility::Electric),
    Some(Utility::Gas),
    Some(Utility::Communication),
    Some(Utility::Water),
    Some(Utility::Reclaimed),
    Some(Utility::Sewer),
    None,
];

/// Every layer of the drawing. A new one has to be named below before this compiles.
pub fn layers() -> Vec<Layer> {
    let mut all = vec![
        Layer::Lot,
        Layer::LotLine,
        Layer::SideKind,
        Layer::Monument(MonumentState::Found),
        Layer::Setback,
        Layer::OverheadMark,
        Layer::Gap,
        Layer::Swing,
        Layer::Trunk,
        Layer::Protection,
        Layer::Spot,
        Layer::Contour { index: false },
        Layer::Contour { index: true },
        Layer::Breakline,
        Layer::UnknownGround,
        Layer::Benchmark,
        Layer::ClearGround,
        Layer::Dig,
        Layer::DigEdge,
        Layer::Hachure,
        Layer::OverDig,
        Layer::Deck,
        Layer::Collar,
        Layer::Coping,
        Layer::FloorBreak,
        Layer::Equipment,
        Layer::Bank,
        Layer::Pile,
        Layer::Joint,
        Layer::Tie,
        Layer::Pipe { suction: false },
        Layer::Pipe { suction: true },
        Layer::Strap,
        Layer::Standpipe,
        Layer::Axis,
        Layer::Focus,
        Layer::FocusLine,
        Layer::Stake,
        Layer::BaseLine,
        Layer::Tape,
        Layer::Clearance,
        Layer::Shortfall,
    ];
    all.extend((0..5).map(|shade| Layer::Water { shade }));
    all.extend(FeatureKind::ALL.map(Layer::Feature));
    all.extend(FeatureKind::ALL.map(Layer::Hatch));
    all.extend(UTILITIES.map(Layer::Buried));
    all.extend(UTILITIES.map(Layer::Mark));
    assert!(all.iter().all(|layer| is_named(*layer)));
    all
}

/// Stands here so that the compiler asks for every new layer.
fn is_named(layer: Layer) -> bool {
    use Layer as L;
    match layer {
        L::Lot | L::LotLine | L::SideKind | L::Monument(_) | L::Setback | L::Feature(_) => true,
        L::Hatch(_) | L::Buried(_) | L::Mark(_) | L::OverheadMark | L::Gap | L::Swing => true,
        L::Trunk | L::Protection | L::Spot | L::Contour { .. } | L::Breakline => true,
        L::UnknownGround | L::Benchmark | L::ClearGround | L::Dig | L::DigEdge => true,
        L::Hachure | L::OverDig | L::Deck | L::Collar | L::Coping | L::Water { .. } => true,
        L::FloorBreak | L::Equipment | L::Bank | L::Pile | L::Joint | L::Tie => true,
        L::Pipe { .. } | L::Strap | L::Standpipe | L::Axis | L::Focus | L::FocusLine => true,
        L::Stake | L::BaseLine | L::Tape | L::Clearance | L::Shortfall => true,
    }
}

/// Every ink: of the layers, of signs, of the hand, of the section and its pieces.
pub fn inks() -> Vec<(String, Ink)> {
    let pieces = [
        Piece::Soil,
        Piece::Dig,
        Piece::Fill,
        Piece::Base,
        Piece::Backfill,
        Piece::DeckBed,
        Piece::Deck,
        Piece::Steps,
        Piece::Collar,
        Piece::Water,
        Piece::Shell,
    ];
    let layers = layers()
        .into_iter()
        .map(|layer| (format!("{layer:?}"), ink::ink(layer)));
    let named = |name: &'static str, inks: &[Ink]| {
        let named = inks
            .iter()
            .enumerate()
            .map(|(i, ink)| (format!("{name} {i}"), *ink));
        named.collect::<Vec<_>>()
    };
    layers
        .chain(named("sign", &ink::sign::ALL))
        .chain(named("hand", &ink::hand::ALL))
        .chain(named("section", &ink::section::ALL))
        .chain(pieces.map(|piece| (format!("{piece:?}"), ink::section::look(piece).0)))
        .collect()
}
