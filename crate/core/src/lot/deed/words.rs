//! The words of deeds: those that carry a figure's meaning, and those that only join.

/// What a figure that follows is said to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Label {
    /// A radius.
    Radius,
    /// A central angle.
    Delta,
    /// A length along the arc.
    Arc,
    /// A chord, by its bearing, its length or both.
    Chord,
    /// A tangent length.
    Tangent,
    /// An azimuth or a bearing: a number without marks is degrees.
    Bearing,
    /// The bearing of a radius where a curve begins.
    Radial,
    /// The bearing of the tangent where a curve begins.
    Heading,
}

impl Label {
    /// What a word says of the figure after it. Single letters count only before `=`.
    pub fn of(word: &str, before_equals: bool) -> Option<Self> {
        Some(match word {
            "radius" | "rad" => Self::Radius,
            "delta" | "δ" | "∆" | "central" => Self::Delta,
            "arc" => Self::Arc,
            "chord" | "cb" | "lc" => Self::Chord,
            "tangent" | "tan" => Self::Tangent,
            "azimuth" | "az" | "brg" | "bears" => Self::Bearing,
            "r" => Self::Radius,
            "l" | "a" if before_equals => Self::Arc,
            "d" if before_equals => Self::Delta,
            "c" | "ch" | "chd" if before_equals => Self::Chord,
            "t" if before_equals => Self::Tangent,
            _ => return None,
        })
    }

    /// The figure in words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Radius => "radius",
            Self::Delta => "central angle",
            Self::Arc => "arc",
            Self::Chord => "chord",
            Self::Tangent => "tangent length",
            Self::Bearing => "bearing",
            Self::Radial => "bearing of the radius",
            Self::Heading => "bearing of the tangent",
        }
    }
}

/// Words that only join figures, or say where a side runs without changing it.
const JOINING: &str = " a an the of to at in on by with from and or for is being be as it its which whose \
 that this said same having has have thence then running run runs go goes going continuing continue along \
 following distance length long bearing bearings bears bear angle central point points place corner line \
 lot side boundary property parcel tract land more less approximately course courses curve curved curving \
 arc radius chord delta tangent left right through measured measuring subtended degrees feet foot ft \
 direction northerly southerly easterly westerly northeasterly northwesterly southeasterly southwesterly \
 beginning commencing true containing contains contain area acres curvature tangency pc pt pi deed \
 described following follows also including thereof hereby true northeast northwest southeast southwest \
 radial concave l r c cb ch d t lc nontangent non tangential tangentially reverse reversed compound prc pcc \
 centre center last leaving total azimuth azimuths clockwise counterclockwise to from where start begins ";

/// Whether a word only joins.
pub fn joins(word: &str) -> bool {
    JOINING.split_ascii_whitespace().any(|known| known == word)
}

/// Whether a direction in words may stand behind this word as a bearing: `thence North 100
/// feet` holds one, `along the north line` does not.
pub fn leads_a_direction(word: &str) -> bool {
    matches!(
        word,
        "thence" | "then" | "running" | "run" | "runs" | "go" | "goes" | "bearing" | "bears"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_are_labels_only_before_an_equals_sign() {
        assert_eq!(Label::of("l", true), Some(Label::Arc));
        assert_eq!(Label::of("l", false), None);
        assert!(joins("of") && joins("lc") && !joins("creek") && !joins(""));
    }
}
