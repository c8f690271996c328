//! What sheets say in English and in Spanish: one set of words that cannot lack a language.
//!
//! Spanish terms are those of building sites in the United States (from memory, to be read by a practitioner).

use batterboard_core::finding::Message;
use batterboard_core::lot::North;
use batterboard_core::section::Piece;
use batterboard_core::shell::FacetKind;
use batterboard_core::site::{FeatureKind, StakedLine};
use serde::{Deserialize, Serialize};

use crate::spanish;

/// A language of the sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Language {
    /// English as written in the United States.
    #[default]
    English,
    /// Spanish as spoken on building sites in the United States.
    Spanish,
}

impl Language {
    /// Its tag (BCP 47).
    pub const fn tag(self) -> &'static str {
        match self {
            Self::English => "en-US",
            Self::Spanish => "es-US",
        }
    }

    /// Of two wordings, the one in this language.
    pub const fn say<'a>(self, english: &'a str, spanish: &'a str) -> &'a str {
        match self {
            Self::English => english,
            Self::Spanish => spanish,
        }
    }

    /// A message in this language; the project's own words by `words/es.po`, what somebody typed as it is.
    pub fn message(self, message: &Message) -> String {
        match self {
            Self::English => message.to_string(),
            Self::Spanish => spanish::said(message),
        }
    }

    /// A message in this language as a sentence of its own: what a value begins in Spanish gets a capital.
    pub fn sentence(self, message: &Message) -> String {
        if self == Self::English {
            return message.to_string();
        }
        let text = self.message(message);
        let mut letters = text.chars();
        let first = letters.next().map(char::to_uppercase);
        first.into_iter().flatten().chain(letters).collect()
    }

    /// What a kind of feature is called.
    pub fn feature(self, kind: FeatureKind) -> &'static str {
        use FeatureKind as F;
        let spanish = match kind {
            F::House => "casa",
            F::Outbuilding => "construcción anexa",
            F::Wall => "muro",
            F::Fence => "cerca",
            F::Driveway => "entrada para autos",
            F::Walk => "camino peatonal",
            F::Tree => "árbol",
            F::Easement => "servidumbre",
            F::SepticTank => "fosa séptica",
            F::SepticField => "campo de infiltración",
            F::Well => "pozo",
            F::BuriedLine => "línea enterrada",
            F::OverheadLine => "línea aérea",
            F::Equipment => "equipo",
            F::Watercourse => "arroyo",
            F::StreetEdge => "orilla de la calle",
            F::Deck => "piso de la piscina",
            F::DeckOpening => "hueco en el piso",
            F::DeckSteps => "escalones",
            F::PipeTrench => "zanja para tubería",
            F::SpoilSpace => "lugar para la tierra",
            F::Other => "otro",
        };
        self.say(kind.words(), spanish)
    }

    /// What north the plan shows.
    pub fn north(self, north: North) -> &'static str {
        let spanish = match north {
            North::Unspecified => "norte del dibujo",
            North::True => "norte verdadero",
            North::Grid => "norte de cuadrícula",
            North::Magnetic => "norte magnético",
            North::Assumed => "norte supuesto",
            North::Record => "norte según escritura",
        };
        match (self, north) {
            (Self::English, North::Unspecified) => "north as drawn",
            _ => self.say(north.words(), spanish),
        }
    }

    /// What the stakes of a line mark.
    pub const fn staked(self, line: StakedLine) -> &'static str {
        let spanish = match line {
            StakedLine::Rim => "borde de la piscina",
            StakedLine::Collar => "orilla del collarín",
            StakedLine::Top => "orilla superior de la excavación",
            StakedLine::Bottom => "orilla del fondo",
            StakedLine::Hole => "esquina de la excavación",
        };
        self.say(line.words().0, spanish)
    }

    /// What a part of the floor is called.
    pub const fn floor(self, kind: FacetKind) -> &'static str {
        let spanish = match kind {
            FacetKind::Ledge => "repisa",
            FacetKind::Step => "escalón",
            FacetKind::Bench => "banca",
            FacetKind::Shallow => "fondo bajo",
            FacetKind::Slope => "pendiente",
            FacetKind::Deep => "fondo hondo",
        };
        self.say(kind.words(), spanish)
    }

    /// What a part of the section is made of.
    pub const fn piece(self, piece: Piece) -> &'static str {
        let spanish = match piece {
            Piece::Soil => "terreno",
            Piece::Dig => "excavación",
            Piece::Fill => "relleno de tierra",
            Piece::Base => "base de piedra",
            Piece::Backfill => "relleno de piedra",
            Piece::Shell => "casco",
            Piece::Water => "agua",
            Piece::Collar => "collarín",
            Piece::Deck => "piso de concreto",
            Piece::Steps => "escalones",
            Piece::DeckBed => "base del piso",
        };
        self.say(piece.words(), spanish)
    }
}
