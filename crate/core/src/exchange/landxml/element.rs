//! Elements and attributes of a LandXML tree. Only those in the namespace of the root count: files
//! carry members of their makers' own.

use roxmltree::Node;

/// Whether a node is the element of this name.
pub(super) fn is(node: Node<'_, '_>, name: &str) -> bool {
    node.is_element() && node.tag_name().name() == name && is_ours(node)
}

/// Whether a node stands in the namespace of its root.
pub(super) fn is_ours(node: Node<'_, '_>) -> bool {
    let root = node.document().root_element().tag_name();
    node.tag_name().namespace() == root.namespace()
}

/// The children of this name.
pub(super) fn children<'a, 'i: 'a>(
    node: Node<'a, 'i>,
    name: &'static str,
) -> impl Iterator<Item = Node<'a, 'i>> {
    node.children().filter(move |it| is(*it, name))
}

/// The first child of this name.
pub(super) fn child<'a, 'i: 'a>(node: Node<'a, 'i>, name: &'static str) -> Option<Node<'a, 'i>> {
    children(node, name).next()
}

/// Every element of this name under a node, however deep.
pub(super) fn all<'a, 'i: 'a>(
    node: Node<'a, 'i>,
    name: &'static str,
) -> impl Iterator<Item = Node<'a, 'i>> {
    node.descendants().filter(move |it| is(*it, name))
}

/// The longest text that is taken of an attribute, characters.
const LONGEST: usize = 80;

/// An attribute without the space round it, cut at 80 characters; empty when it is not there.
pub(super) fn attribute(node: Node<'_, '_>, name: &str) -> String {
    let text = node.attribute(name).unwrap_or_default().trim();
    text.chars().take(LONGEST).collect()
}

/// The texts directly in an element; comments may stand between them.
pub(super) fn text(node: Node<'_, '_>) -> String {
    let texts = node.children().filter(|it| it.is_text());
    texts.filter_map(|it| it.text()).collect()
}
