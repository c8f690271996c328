//! Sheets as they are read out: the structure of each PDF, walked by an independent PDF library (lopdf).

use std::collections::{BTreeMap, BTreeSet};

use batterboard_paper::{Language, SheetKind, SheetWish, pdf};
use lopdf::content::Content;
use lopdf::{Document, Object, ObjectId};

use crate::{DEMOS, demo, sheet};

/// What a file says of its structure.
#[derive(Default)]
struct Told {
    /// How many elements of each kind.
    kinds: BTreeMap<String, usize>,
    /// Every piece of content that an element names: its page and its number.
    pieces: Vec<(ObjectId, i64)>,
}

impl Told {
    fn walk(&mut self, file: &Document, element: ObjectId, parent: &str) {
        let element = file.get_dictionary(element).unwrap();
        let kind = name(element.get(b"S").unwrap());
        match kind.as_str() {
            "TR" => assert_eq!(parent, "Table"),
            "TH" | "TD" => assert_eq!(parent, "TR"),
            "Figure" => assert!(element.has(b"Alt")),
            _ => assert_eq!(parent, if kind == "Document" { "" } else { "Document" }),
        }
        for kid in element.get(b"K").unwrap().as_array().unwrap() {
            match kid {
                Object::Reference(id) => self.walk(file, *id, &kind),
                Object::Integer(number) => {
                    let page = element.get(b"Pg").unwrap().as_reference().unwrap();
                    self.pieces.push((page, *number));
                }
                other => {
                    let piece = other.as_dict().unwrap();
                    let page = piece.get(b"Pg").unwrap().as_reference().unwrap();
                    let number = piece.get(b"MCID").unwrap().as_i64().unwrap();
                    self.pieces.push((page, number));
                }
            }
        }
        *self.kinds.entry(kind).or_default() += 1;
    }
}

fn name(object: &Object) -> String {
    String::from_utf8(object.as_name().unwrap().to_vec()).unwrap()
}

/// The numbers of the pieces of a page; every text lies in one, or in what is told to be ornament.
fn pieces(file: &Document, page: ObjectId) -> BTreeSet<i64> {
    let content = Content::decode(&file.get_page_content(page)).unwrap();
    let mut within: Vec<Option<i64>> = Vec::new();
    let mut found = BTreeSet::new();
    for operation in content.operations {
        match operation.operator.as_str() {
            "BMC" => {
                assert!(within.is_empty() && name(&operation.operands[0]) == "Artifact");
                within.push(None);
            }
            "BDC" => {
                let number = operation.operands[1].as_dict().unwrap().get(b"MCID");
                let number = number.ok().map(|it| it.as_i64().unwrap());
                if let Some(number) = number {
                    assert!(within.is_empty(), "a piece in a piece");
                    assert!(found.insert(number), "{number} twice");
                }
                within.push(number);
            }
            "EMC" => drop(within.pop().unwrap()),
            "Tj" | "S" | "f*" | "B*" => assert!(!within.is_empty(), "told nowhere"),
            _ => {}
        }
    }
    assert!(within.is_empty());
    found
}

#[test]
fn every_piece_of_every_sheet_belongs_to_one_element() {
    for demo_name in DEMOS {
        let job = demo(demo_name);
        for kind in SheetKind::ALL {
            let Some(document) = sheet(&job, &SheetWish::new(kind)) else {
                continue;
            };
            let file = Document::load_mem(&pdf::of(&document)).unwrap();
            let catalog = file.catalog().unwrap();
            let marked = catalog.get(b"MarkInfo").unwrap().as_dict().unwrap();
            assert!(marked.get(b"Marked").unwrap().as_bool().unwrap());
            let root = catalog
                .get(b"StructTreeRoot")
                .unwrap()
                .as_reference()
                .unwrap();
            let root = file.get_dictionary(root).unwrap();
            let mut told = Told::default();
            told.walk(&file, root.get(b"K").unwrap().as_reference().unwrap(), "");
            let mut all = Vec::new();
            for page in file.get_pages().values() {
                all.extend(
                    pieces(&file, *page)
                        .into_iter()
                        .map(|number| (*page, number)),
                );
            }
            let mut known = told.pieces.clone();
            known.sort_unstable();
            all.sort_unstable();
            assert_eq!(known, all, "{demo_name} {kind:?}");
            let count = |kind: &str| told.kinds.get(kind).copied().unwrap_or(0);
            assert_eq!(count("H1"), 1, "{demo_name} {kind:?}");
            if kind != SheetKind::Takeoff {
                assert!(count("Figure") >= 1, "{demo_name} {kind:?}");
            }
            if kind != SheetKind::Home {
                assert!(count("Table") >= 1 && count("TH") >= 2 && count("H2") >= 2);
            }
        }
    }
}

/// A table that goes on says its titles again for the eye, and once for the ear.
#[test]
fn the_stakes_are_one_table() {
    let wanted = SheetWish {
        language: Language::Spanish,
        ..SheetWish::new(SheetKind::Dig)
    };
    let job = demo("creek-side-deed");
    let document = sheet(&job, &wanted).unwrap();
    let file = Document::load_mem(&pdf::of(&document)).unwrap();
    let root = file.catalog().unwrap().get(b"StructTreeRoot").unwrap();
    let root = file.get_dictionary(root.as_reference().unwrap()).unwrap();
    let mut told = Told::default();
    told.walk(&file, root.get(b"K").unwrap().as_reference().unwrap(), "");
    // Levels, stakes, offset stakes and diagonals, whichever pages they run over.
    assert_eq!(told.kinds["Table"], 4);
    let stakeout = job.stakeout.as_ref().unwrap();
    let rows = stakeout.stations.len() + stakeout.stakes.len() + stakeout.offsets.len();
    let lines = 5;
    assert_eq!(
        told.kinds["TR"],
        rows + stakeout.diagonals.len() + lines + 4
    );
}
