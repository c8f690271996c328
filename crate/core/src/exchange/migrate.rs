//! Older versions of a file brought up to date, one version at a time.

use serde_json::Value;

use crate::finding::Finding;

/// Rewrites the members that changed from one version to the next.
pub(super) type Step = fn(&mut Value) -> Result<(), Finding>;

/// Takes a document of version `from` through every later step and writes its new version
/// into it. Step `i` of the table brings version `i + 1` to version `i + 2`.
///
/// # Errors
/// The fault of the first step that could not be taken.
pub(super) fn bring_up_to_date(
    mut document: Value,
    from: u32,
    steps: &[Step],
) -> Result<Value, Finding> {
    let mut version = from;
    for step in steps.iter().skip(from.saturating_sub(1) as usize) {
        step(&mut document)?;
        version += 1;
    }
    if let Some(member) = document.get_mut("version") {
        *member = Value::from(version);
    }
    Ok(document)
}

/// Site files, 1 to 2: what is known of a feature moved into its `facts`.
///
/// # Errors
/// None: a document of another form is told by the reader of the new version.
pub(super) fn facts_of_features(document: &mut Value) -> Result<(), Finding> {
    let features = document.get_mut("features").and_then(Value::as_array_mut);
    for feature in features
        .into_iter()
        .flatten()
        .filter_map(Value::as_object_mut)
    {
        let mut facts = serde_json::Map::new();
        for member in ["footing_depth", "utility"] {
            if let Some(value) = feature.remove(member) {
                facts.insert(member.to_owned(), value);
            }
        }
        if !facts.is_empty() {
            feature.insert("facts".to_owned(), Value::Object(facts));
        }
    }
    Ok(())
}

/// Site files, 2 to 3: version 3 only adds members, all of which may be missing.
///
/// # Errors
/// None.
// The table of steps asks for a result.
#[allow(clippy::unnecessary_wraps)]
pub(super) fn nothing_moved(_: &mut Value) -> Result<(), Finding> {
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn rename(from: &str, to: &str, document: &mut Value) {
        let members = document.as_object_mut().unwrap();
        let value = members.remove(from).unwrap();
        members.insert(to.to_owned(), value);
    }

    #[test]
    fn every_later_step_is_taken_in_order() {
        let steps: [Step; 2] = [
            |d| {
                rename("a", "b", d);
                Ok(())
            },
            |d| {
                rename("b", "c", d);
                Ok(())
            },
        ];
        let from_first = bring_up_to_date(json!({ "version": 1, "a": 7 }), 1, &steps).unwrap();
        assert_eq!(from_first, json!({ "version": 3, "c": 7 }));
        let from_second = bring_up_to_date(json!({ "version": 2, "b": 7 }), 2, &steps).unwrap();
        assert_eq!(from_second, json!({ "version": 3, "c": 7 }));
    }

    #[test]
    fn a_step_that_cannot_be_taken_says_so() {
        let steps: [Step; 1] = [|_| Err(Finding::fault("migration", "No.", "Ask."))];
        let fault = bring_up_to_date(json!({ "version": 1 }), 1, &steps).unwrap_err();
        assert_eq!(fault.code, "migration");
    }
}
