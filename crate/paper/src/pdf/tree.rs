//! The structure of a document as a PDF tells it (ISO 32000-2, 14.7): which element each piece of text belongs to, so that
//! a sheet can be read out, its tables row by row.

use std::collections::BTreeMap;

use pdf_writer::types::StructRole;
use pdf_writer::writers::StructTreeRoot;
use pdf_writer::{Finish, Name, Pdf, Ref, TextStr};

use super::Ids;
use crate::mark::Role;

/// The elements of a document, each with what it holds, in the order of its pages.
pub(super) struct Tree {
    nodes: Vec<Node>,
    /// Elements by what they are in, their role and their number.
    known: BTreeMap<(usize, u8, u32), usize>,
    /// The element of each piece of content, page by page.
    pages: Vec<Vec<usize>>,
}

/// An element.
struct Node {
    role: StructRole,
    /// What a figure shows.
    shows: Option<String>,
    parent: usize,
    kids: Vec<Kid>,
}

enum Kid {
    Element(usize),
    /// A piece of content by its page and its number there.
    Content(usize, i32),
}

/// The document itself.
pub(super) const DOCUMENT: usize = 0;

impl Tree {
    /// Nothing yet, for so many pages.
    pub fn new(pages: usize) -> Self {
        let document = Node {
            role: StructRole::Document,
            shows: None,
            parent: DOCUMENT,
            kids: Vec::new(),
        };
        Self {
            nodes: vec![document],
            known: BTreeMap::new(),
            pages: vec![Vec::new(); pages],
        }
    }

    /// The element of a role and a number in another one, begun where it is not there yet.
    pub fn element(&mut self, parent: usize, role: &Role, number: u32) -> usize {
        let key = (parent, order(role), number);
        if let Some(known) = self.known.get(&key) {
            return *known;
        }
        let node = self.add(parent, kind(role));
        if let (Role::Figure(shows), Some(it)) = (role, self.nodes.get_mut(node)) {
            it.shows = Some(shows.clone());
        }
        self.known.insert(key, node);
        node
    }

    /// A paragraph of its own.
    pub fn paragraph(&mut self) -> usize {
        self.add(DOCUMENT, StructRole::P)
    }

    fn add(&mut self, parent: usize, role: StructRole) -> usize {
        let node = self.nodes.len();
        self.nodes.push(Node {
            role,
            shows: None,
            parent,
            kids: Vec::new(),
        });
        if let Some(it) = self.nodes.get_mut(parent) {
            it.kids.push(Kid::Element(node));
        }
        node
    }

    /// The number of a new piece of content of an element on a page.
    pub fn content(&mut self, node: usize, page: usize) -> i32 {
        let Some(pieces) = self.pages.get_mut(page) else {
            return 0;
        };
        let number = i32::try_from(pieces.len()).unwrap_or(i32::MAX);
        pieces.push(node);
        if let Some(it) = self.nodes.get_mut(node) {
            it.kids.push(Kid::Content(page, number));
        }
        number
    }

    /// Writes the tree, and gives what names it.
    pub fn write(&self, pdf: &mut Pdf, ids: &mut Ids, pages: &[Ref]) -> Ref {
        let root = ids.next();
        let names: Vec<Ref> = self.nodes.iter().map(|_| ids.next()).collect();
        let name = |node: usize| names.get(node).copied().unwrap_or(root);
        for (node, it) in self.nodes.iter().enumerate() {
            let parent = if node == DOCUMENT {
                root
            } else {
                name(it.parent)
            };
            let mut element = pdf.struct_element(name(node));
            element.kind(it.role).parent(parent);
            if let Some(shows) = &it.shows {
                element.alt(TextStr(shows));
            }
            // The page of most of its pieces is told once.
            let page = it.kids.iter().find_map(|kid| match kid {
                Kid::Content(page, _) => Some(*page),
                Kid::Element(_) => None,
            });
            if let Some(id) = page.and_then(|page| pages.get(page)) {
                element.page(*id);
            }
            let mut kids = element.children();
            for kid in &it.kids {
                match kid {
                    Kid::Element(node) => {
                        kids.struct_element(name(*node));
                    }
                    Kid::Content(on, number) if Some(*on) == page => {
                        kids.marked_content_id(*number);
                    }
                    Kid::Content(page, number) => {
                        let mut content = kids.marked_content_ref();
                        content.marked_content_id(*number);
                        if let Some(page) = pages.get(*page) {
                            content.page(*page);
                        }
                    }
                }
            }
        }
        let lists: Vec<Ref> = (self.pages.iter())
            .map(|pieces| {
                let list = ids.next();
                let owners = pieces.iter().map(|node| name(*node));
                pdf.indirect(list).array().items(owners);
                list
            })
            .collect();
        let mut told = pdf.indirect(root).start::<StructTreeRoot<'_>>();
        told.child(name(DOCUMENT));
        let mut tree = told.parent_tree();
        let mut entries = tree.nums();
        for (page, list) in (0..).zip(&lists) {
            entries.insert(page, *list);
        }
        entries.finish();
        tree.finish();
        told.parent_tree_next_key(i32::try_from(lists.len()).unwrap_or(i32::MAX));
        root
    }
}

/// What PDF calls a role.
const fn kind(role: &Role) -> StructRole {
    match role {
        Role::Title => StructRole::H1,
        Role::Heading => StructRole::H2,
        Role::Paragraph | Role::Ornament => StructRole::P,
        Role::Table => StructRole::Table,
        Role::Row => StructRole::TR,
        Role::ColumnTitle => StructRole::TH,
        Role::Cell => StructRole::TD,
        Role::Figure(_) => StructRole::Figure,
    }
}

/// The tag of its content.
pub(super) const fn tag(role: &Role) -> Name<'static> {
    match role {
        Role::Title => Name(b"H1"),
        Role::Heading => Name(b"H2"),
        Role::Paragraph | Role::Ornament => Name(b"P"),
        Role::Table => Name(b"Table"),
        Role::Row => Name(b"TR"),
        Role::ColumnTitle => Name(b"TH"),
        Role::Cell => Name(b"TD"),
        Role::Figure(_) => Name(b"Figure"),
    }
}

const fn order(role: &Role) -> u8 {
    match role {
        Role::Title => 0,
        Role::Heading => 1,
        Role::Paragraph => 2,
        Role::Table => 3,
        Role::Row => 4,
        Role::ColumnTitle => 5,
        Role::Cell => 6,
        Role::Figure(_) => 7,
        Role::Ornament => 8,
    }
}
