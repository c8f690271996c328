//! How the settings of the work are read and written: by a list of their members.
//!
//! There are seventy settings in a dozen groups. Code made for each group by itself would be a
//! twentieth of the module that the page waits for; going by lists, one reader and one writer
//! serve them all. A group lists its members once, in [`Slots::slots`].

use core::fmt;

use serde::de::{DeserializeSeed, Deserializer, Error, IgnoredAny, MapAccess, Visitor};
use serde::ser::{SerializeMap, Serializer};
use serde::{Deserialize, Serialize};

use super::{BaseZone, Bench, Fitting, PipeSize, SideSettings, SoilLayer};
use crate::geom::Point;
use crate::site::soil::{SoilClass, SpoilMaterial};

/// A group of settings that lists its members.
pub(super) trait Slots {
    /// Every member by its name in the file.
    fn slots(&mut self) -> Vec<(&'static str, Slot<'_>)>;
}

/// Where one setting is kept.
pub(super) enum Slot<'a> {
    /// A figure.
    Figure(&'a mut f64),
    /// A figure that may be missing.
    Maybe(&'a mut Option<f64>),
    /// Something that is so or not.
    Flag(&'a mut bool),
    /// The same, written only where it is so.
    Mark(&'a mut bool),
    /// A place that may be missing.
    Place(&'a mut Option<Point>),
    /// A class of soil.
    Soil(&'a mut SoilClass),
    /// What the spoil is.
    Material(&'a mut SpoilMaterial),
    /// A size of pipe.
    Size(&'a mut PipeSize),
    /// Sides of the hole.
    Sides(&'a mut Vec<SideSettings>),
    /// Parts of the base.
    Bases(&'a mut Vec<BaseZone>),
    /// Layers of soil.
    Layers(&'a mut Vec<SoilLayer>),
    /// A step in the sides.
    Bench(&'a mut Option<Bench>),
    /// Fittings of the shell.
    Fittings(&'a mut Vec<Fitting>),
    /// A group of settings.
    Group(Vec<(&'static str, Slot<'a>)>),
}

impl Slot<'_> {
    /// Whether a file leaves it out.
    fn is_left_out(&self) -> bool {
        match self {
            Self::Maybe(value) => value.is_none(),
            Self::Mark(value) => !**value,
            Self::Place(value) => value.is_none(),
            Self::Sides(list) => list.is_empty(),
            Self::Bases(list) => list.is_empty(),
            Self::Layers(list) => list.is_empty(),
            Self::Bench(value) => value.is_none(),
            Self::Fittings(list) => list.is_empty(),
            _ => false,
        }
    }
}

/// Members that are read and written as one object.
pub(super) struct Members<'a>(pub Vec<(&'static str, Slot<'a>)>);

impl Serialize for Members<'_> {
    fn serialize<S: Serializer>(&self, writer: S) -> Result<S::Ok, S::Error> {
        members(&self.0, writer)
    }
}

fn members<S: Serializer>(slots: &[(&str, Slot<'_>)], writer: S) -> Result<S::Ok, S::Error> {
    let mut map = writer.serialize_map(None)?;
    for (name, slot) in slots.iter().filter(|(_, slot)| !slot.is_left_out()) {
        map.serialize_entry(name, slot)?;
    }
    map.end()
}

impl Serialize for Slot<'_> {
    fn serialize<S: Serializer>(&self, writer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Figure(value) => value.serialize(writer),
            Self::Maybe(value) => value.serialize(writer),
            Self::Flag(value) | Self::Mark(value) => value.serialize(writer),
            Self::Place(value) => value.serialize(writer),
            Self::Soil(value) => value.serialize(writer),
            Self::Material(value) => value.serialize(writer),
            Self::Size(value) => value.serialize(writer),
            Self::Sides(list) => list.serialize(writer),
            Self::Bases(list) => list.serialize(writer),
            Self::Layers(list) => list.serialize(writer),
            Self::Bench(value) => value.serialize(writer),
            Self::Fittings(list) => list.serialize(writer),
            Self::Group(slots) => members(slots, writer),
        }
    }
}

impl<'de> DeserializeSeed<'de> for &mut Slot<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, reader: D) -> Result<(), D::Error> {
        match self {
            Slot::Figure(value) => **value = Deserialize::deserialize(reader)?,
            Slot::Maybe(value) => **value = Deserialize::deserialize(reader)?,
            Slot::Flag(value) | Slot::Mark(value) => **value = Deserialize::deserialize(reader)?,
            Slot::Place(value) => **value = Deserialize::deserialize(reader)?,
            Slot::Soil(value) => **value = Deserialize::deserialize(reader)?,
            Slot::Material(value) => **value = Deserialize::deserialize(reader)?,
            Slot::Size(value) => **value = Deserialize::deserialize(reader)?,
            Slot::Sides(list) => **list = Deserialize::deserialize(reader)?,
            Slot::Bases(list) => **list = Deserialize::deserialize(reader)?,
            Slot::Layers(list) => **list = Deserialize::deserialize(reader)?,
            Slot::Bench(value) => **value = Deserialize::deserialize(reader)?,
            Slot::Fittings(list) => **list = Deserialize::deserialize(reader)?,
            Slot::Group(slots) => reader.deserialize_map(Reading(slots))?,
        }
        Ok(())
    }
}

impl<'de> DeserializeSeed<'de> for &mut Members<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, reader: D) -> Result<(), D::Error> {
        reader.deserialize_map(Reading(&mut self.0))
    }
}

struct Reading<'s, 'a>(&'s mut [(&'static str, Slot<'a>)]);

impl<'de> Visitor<'de> for Reading<'_, '_> {
    type Value = ();

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("settings of the work")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        let mut seen = 0_u64;
        while let Some(found) = map.next_key_seed(Name(self.0))? {
            let slot = found.and_then(|index| Some((index, self.0.get_mut(index)?)));
            let Some((index, (name, slot))) = slot else {
                map.next_value::<IgnoredAny>()?;
                continue;
            };
            // No group has as many members as there are bits.
            if seen & (1 << index) != 0 {
                return Err(A::Error::duplicate_field(name));
            }
            seen |= 1 << index;
            map.next_value_seed(slot)?;
        }
        Ok(())
    }
}

/// Finds a member by its name.
struct Name<'s, 'a>(&'s [(&'static str, Slot<'a>)]);

impl<'de> DeserializeSeed<'de> for Name<'_, '_> {
    type Value = Option<usize>;

    fn deserialize<D: Deserializer<'de>>(self, reader: D) -> Result<Self::Value, D::Error> {
        reader.deserialize_identifier(self)
    }
}

impl Visitor<'_> for Name<'_, '_> {
    type Value = Option<usize>;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("the name of a setting")
    }

    fn visit_str<E: Error>(self, name: &str) -> Result<Self::Value, E> {
        Ok(self.0.iter().position(|(known, _)| *known == name))
    }
}

/// Reads and writes a group by its list.
macro_rules! by_slots {
    ($($group:ty)*) => { $(
        impl Serialize for $group {
            fn serialize<S: serde::Serializer>(&self, writer: S) -> Result<S::Ok, S::Error> {
                let mut copy = self.clone();
                crate::site::works::slot::Members(copy.slots()).serialize(writer)
            }
        }

        impl<'de> Deserialize<'de> for $group {
            fn deserialize<D: serde::Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
                use serde::de::DeserializeSeed;
                let mut group = Self::default();
                crate::site::works::slot::Members(group.slots()).deserialize(reader)?;
                Ok(group)
            }
        }
    )* };
}

pub(super) use by_slots;

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::super::Works;

    #[test]
    fn what_is_not_told_is_as_the_trade_has_it() {
        let works: Works = serde_json::from_value(json!({})).unwrap();
        assert_eq!(works, Works::default());
        let told = json!({ "deck": { "width": 2.5 }, "dig": { "short_term": true } });
        let works: Works = serde_json::from_value(told).unwrap();
        assert_eq!((works.deck.width, works.dig.short_term), (2.5, true));
        assert_eq!(works.deck.fall, Works::default().deck.fall);
    }

    #[test]
    fn every_setting_comes_back() {
        let told = json!({
            "dig": {
                "over_dig": 0.3, "side_slope": 0.5, "soil": "b", "material": "clay",
                "sides": [{ "side": "ahead", "slope": 4.0, "note": "ramp" }],
                "bases": [{ "kind": "deep", "thickness": 0.2 }],
                "layers": [{ "down_to": 0.5, "soil": "c" }],
                "upright_below": 1.2, "bench": { "depth": 1.0, "width": 0.4 }, "short_term": true,
            },
            "pipe": { "size": "three",
                      "fittings": [{ "kind": "return", "at": [1.0, 2.0], "depth": 0.4 }] },
            "spoil": { "reuse": false, "at": [3.0, 4.0] },
            "groundwater": 29.5,
        });
        let works: Works = serde_json::from_value(told.clone()).unwrap();
        let written = serde_json::to_value(&works).unwrap();
        let again: Works = serde_json::from_value(written.clone()).unwrap();
        assert_eq!(again, works);
        for (group, members) in told.as_object().unwrap() {
            match members {
                Value::Object(members) => {
                    for (name, value) in members {
                        assert_eq!(&written[group][name], value, "{group}/{name}");
                    }
                }
                value => assert_eq!(&written[group], value),
            }
        }
    }

    #[test]
    fn what_is_no_setting_is_refused_in_words() {
        let refused = |text: &str| {
            let fault = serde_json::from_str::<Works>(text).unwrap_err();
            fault.to_string()
        };
        assert!(refused(r#"{"deck": {"width": "wide"}}"#).contains("expected f64"));
        assert!(refused(r#"{"deck": [1.2]}"#).contains("expected settings"));
        let twice = r#"{"deck": {"width": 1, "width": 2}}"#;
        assert!(refused(twice).contains("duplicate field `width`"));
        assert!(refused(r#"{"dig": {"soil": "d"}}"#).contains("unknown variant"));
    }
}
