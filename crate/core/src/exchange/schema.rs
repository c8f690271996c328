//! The published JSON Schema of the site file, the shell file and the book, made from the types that
//! read them, so that the two cannot drift apart. The committed copies in `crate/core/schema`
//! are compared with these in the tests.

use schemars::{JsonSchema, SchemaGenerator};
use serde_json::{Value, json};

use super::shell_file::{self, ShellFile};
use crate::site::book::{self, Book};
use crate::site::{self, Site};

/// The schema of the site file (JSON Schema 2020-12).
pub fn site() -> Value {
    published::<Site>("Site file", site::FORMAT, site::VERSION)
}

/// The schema of the shell file (JSON Schema 2020-12).
pub fn shell() -> Value {
    published::<ShellFile>("Shell file", shell_file::FORMAT, shell_file::VERSION)
}

/// The schema of the company's book (JSON Schema 2020-12).
pub fn book() -> Value {
    published::<Book>("Company's book", book::FORMAT, book::VERSION)
}

fn published<T: JsonSchema>(title: &str, format: &str, version: u32) -> Value {
    let made = SchemaGenerator::default()
        .into_root_schema_for::<T>()
        .to_value();
    // What the schema is comes first, whatever order the generator has.
    let mut value = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": format!("urn:{format}:{version}"),
        "title": title,
    });
    if let (Some(all), Value::Object(made)) = (value.as_object_mut(), made) {
        for (key, member) in made {
            all.entry(key).or_insert(member);
        }
    }
    for (member, only) in [("format", json!(format)), ("version", json!(version))] {
        let property = value.pointer_mut(&format!("/properties/{member}"));
        if let Some(property) = property.and_then(Value::as_object_mut) {
            property.insert("const".to_owned(), only);
        }
    }
    value
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::json;

    /// Set this variable to write the schemas anew after the types have changed.
    const UPDATE: &str = "BATTERBOARD_UPDATE";

    fn compare(name: &str, schema: &Value) {
        let path = format!("{}/schema/{name}", env!("CARGO_MANIFEST_DIR"));
        let text = json::to_string(schema);
        if std::env::var_os(UPDATE).is_some() {
            std::fs::write(&path, &text).unwrap();
        }
        let published = std::fs::read_to_string(&path).unwrap_or_default();
        assert!(
            published == text,
            "crate/core/schema/{name} is behind the types: run the tests with {UPDATE}=1"
        );
    }

    #[test]
    fn published_schemas_are_those_of_the_types() {
        compare("site-3.schema.json", &site());
        compare("shell-2.schema.json", &shell());
        compare("book-1.schema.json", &book());
    }
}
