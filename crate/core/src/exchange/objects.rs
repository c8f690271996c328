//! A reader that takes objects for objects.
//!
//! The reader of JSON takes a list for an object as well, member by member, and so every type
//! is compiled for both. Files are made of objects, and the module that the page loads has to
//! stay light: [`Objects`] asks the reader below it for an object and for nothing else.

use core::fmt;

use serde::de::{
    DeserializeSeed, Deserializer, EnumAccess, MapAccess, SeqAccess, VariantAccess, Visitor,
};

/// A reader, and whatever the two sides hand each other through it: visitors, seeds, members,
/// items and variants.
pub(super) struct Objects<T>(pub T);

/// Hands a call on as it is.
macro_rules! as_it_is {
    ($($method:ident)*) => { $(
        fn $method<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, D::Error> {
            self.0.$method(visitor)
        }
    )* };
}

/// Hands a call on, and what is inside comes by this reader again.
macro_rules! and_what_is_inside {
    ($($method:ident($($name:ident: $type:ty),*))*) => { $(
        fn $method<V: Visitor<'de>>(self, $($name: $type,)* visitor: V) -> Result<V::Value, D::Error> {
            self.0.$method($($name,)* Objects(visitor))
        }
    )* };
}

impl<'de, D: Deserializer<'de>> Deserializer<'de> for Objects<D> {
    type Error = D::Error;

    as_it_is! {
        deserialize_any deserialize_bool deserialize_char deserialize_str deserialize_string
        deserialize_i8 deserialize_i16 deserialize_i32 deserialize_i64
        deserialize_u8 deserialize_u16 deserialize_u32 deserialize_u64
        deserialize_f32 deserialize_f64 deserialize_bytes deserialize_byte_buf
        deserialize_unit deserialize_identifier deserialize_ignored_any
    }

    and_what_is_inside! {
        deserialize_option()
        deserialize_seq()
        deserialize_map()
        deserialize_tuple(length: usize)
        deserialize_unit_struct(name: &'static str)
        deserialize_newtype_struct(name: &'static str)
        deserialize_tuple_struct(name: &'static str, length: usize)
        deserialize_enum(name: &'static str, variants: &'static [&'static str])
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _name: &'static str,
        _members: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, D::Error> {
        self.deserialize_map(visitor)
    }
}

impl<'de, V: Visitor<'de>> Visitor<'de> for Objects<V> {
    type Value = V::Value;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.expecting(out)
    }

    fn visit_none<E: serde::de::Error>(self) -> Result<V::Value, E> {
        self.0.visit_none()
    }

    fn visit_some<D: Deserializer<'de>>(self, inside: D) -> Result<V::Value, D::Error> {
        self.0.visit_some(Objects(inside))
    }

    fn visit_unit<E: serde::de::Error>(self) -> Result<V::Value, E> {
        self.0.visit_unit()
    }

    fn visit_newtype_struct<D: Deserializer<'de>>(self, inside: D) -> Result<V::Value, D::Error> {
        self.0.visit_newtype_struct(Objects(inside))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, items: A) -> Result<V::Value, A::Error> {
        self.0.visit_seq(Objects(items))
    }

    fn visit_map<A: MapAccess<'de>>(self, members: A) -> Result<V::Value, A::Error> {
        self.0.visit_map(Objects(members))
    }

    fn visit_enum<A: EnumAccess<'de>>(self, choice: A) -> Result<V::Value, A::Error> {
        self.0.visit_enum(Objects(choice))
    }
}

impl<'de, S: DeserializeSeed<'de>> DeserializeSeed<'de> for Objects<S> {
    type Value = S::Value;

    fn deserialize<D: Deserializer<'de>>(self, reader: D) -> Result<S::Value, D::Error> {
        self.0.deserialize(Objects(reader))
    }
}

impl<'de, A: SeqAccess<'de>> SeqAccess<'de> for Objects<A> {
    type Error = A::Error;

    fn next_element_seed<S: DeserializeSeed<'de>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, A::Error> {
        self.0.next_element_seed(Objects(seed))
    }
}

impl<'de, A: MapAccess<'de>> MapAccess<'de> for Objects<A> {
    type Error = A::Error;

    fn next_key_seed<S: DeserializeSeed<'de>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, A::Error> {
        self.0.next_key_seed(seed)
    }

    fn next_value_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<S::Value, A::Error> {
        self.0.next_value_seed(Objects(seed))
    }
}

impl<'de, A: EnumAccess<'de>> EnumAccess<'de> for Objects<A> {
    type Error = A::Error;
    type Variant = Objects<A::Variant>;

    fn variant_seed<S: DeserializeSeed<'de>>(
        self,
        seed: S,
    ) -> Result<(S::Value, Self::Variant), A::Error> {
        let (variant, content) = self.0.variant_seed(seed)?;
        Ok((variant, Objects(content)))
    }
}

impl<'de, A: VariantAccess<'de>> VariantAccess<'de> for Objects<A> {
    type Error = A::Error;

    fn unit_variant(self) -> Result<(), A::Error> {
        self.0.unit_variant()
    }

    fn newtype_variant_seed<S: DeserializeSeed<'de>>(self, seed: S) -> Result<S::Value, A::Error> {
        self.0.newtype_variant_seed(Objects(seed))
    }

    fn tuple_variant<V: Visitor<'de>>(
        self,
        length: usize,
        visitor: V,
    ) -> Result<V::Value, A::Error> {
        self.0.tuple_variant(length, Objects(visitor))
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        _members: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, A::Error> {
        self.0.newtype_variant_seed(Members(visitor))
    }
}

/// The members of a variant, as an object of their own.
struct Members<V>(V);

impl<'de, V: Visitor<'de>> DeserializeSeed<'de> for Members<V> {
    type Value = V::Value;

    fn deserialize<D: Deserializer<'de>>(self, reader: D) -> Result<V::Value, D::Error> {
        reader.deserialize_map(Objects(self.0))
    }
}

#[cfg(test)]
mod tests {
    use serde::Deserialize;

    use super::super::read_value;

    #[derive(Debug, PartialEq, Deserialize)]
    struct Thing {
        size: f64,
        #[serde(default)]
        inside: Vec<Choice>,
        #[serde(default)]
        next: Option<Box<Thing>>,
    }

    #[derive(Debug, PartialEq, Deserialize)]
    enum Choice {
        Bare,
        Pair([u32; 2]),
        Whole(Box<Thing>),
        Told { name: String },
    }

    fn thing(size: f64) -> Thing {
        Thing {
            size,
            inside: Vec::new(),
            next: None,
        }
    }

    #[test]
    fn every_form_is_read_through_every_other() {
        let text = r#"{"size": 1, "next": {"size": 2},
            "inside": ["Bare", {"Pair": [3, 4]}, {"Whole": {"size": 5}}, {"Told": {"name": "six"}}]}"#;
        let expected = Thing {
            inside: vec![
                Choice::Bare,
                Choice::Pair([3, 4]),
                Choice::Whole(Box::new(thing(5.0))),
                Choice::Told { name: "six".into() },
            ],
            next: Some(Box::new(thing(2.0))),
            ..thing(1.0)
        };
        assert_eq!(read_value::<Thing>(text).unwrap(), expected);
    }

    #[test]
    fn a_list_is_no_object_at_any_depth() {
        for (text, place) in [
            (r#"[1, [], null]"#, ""),
            (r#"{"size": 1, "next": [2, [], null]}"#, "/next"),
            (
                r#"{"size": 1, "inside": [{"Told": ["six"]}]}"#,
                "/inside/0/Told",
            ),
            (
                r#"{"size": 1, "inside": [{"Whole": [5]}]}"#,
                "/inside/0/Whole",
            ),
        ] {
            let fault = read_value::<Thing>(text).unwrap_err();
            assert_eq!(
                (fault.code, fault.pointer.as_str()),
                ("member", place),
                "{text}"
            );
            assert!(fault.message.contains("list"), "{}", fault.message);
        }
    }

    #[test]
    fn what_follows_the_value_is_a_fault() {
        assert_eq!(read_value::<f64>("1 2").unwrap_err().code, "syntax");
    }
}
