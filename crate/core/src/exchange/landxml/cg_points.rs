//! Points with names: corners, marks, shots of the ground.

use roxmltree::Node;

use super::context::Context;
use super::element::{all, attribute};
use crate::exchange::import::{Item, Role, Shape};
use crate::exchange::points::sort_of;

/// Takes every point.
pub(super) fn read(context: &mut Context, root: Node<'_, '_>) {
    for node in all(root, "CgPoint") {
        if context.is_full() {
            return;
        }
        let Some(at) = context.position(node) else {
            continue;
        };
        let mut told: Vec<String> = Vec::new();
        for name in ["code", "desc"] {
            let word = attribute(node, name);
            if !word.is_empty() && !told.contains(&word) {
                told.push(word);
            }
        }
        let words = told.join(", ");
        let (group, sort) = sort_of(&words, at.height.is_some());
        let to_stake_out = attribute(node, "role") == "to stake out";
        let outside = attribute(node, "DTMAttribute") == "donotinclude";
        let proposed = match (sort, attribute(node, "pntSurv").as_str()) {
            _ if to_stake_out => Role::LeaveOut,
            (Role::Spot | Role::LeaveOut, "boundary") => Role::Corner,
            (Role::Spot | Role::LeaveOut, "monument") => Role::Monument,
            (Role::Spot, _) if outside => Role::LeaveOut,
            (sort, _) => sort,
        };
        context.items.push(Item {
            place: context.place(node),
            id: String::new(),
            name: attribute(node, "name"),
            group,
            words,
            shape: Shape::Points(vec![at]),
            proposed,
        });
    }
}

/// What points are to be beside a parcel and a surface: the parcel has its corners, of which only what
/// marks them is wanted, and the surface has its ground.
pub(super) fn beside(items: &mut [Item], parcel: bool, surface: bool) {
    for item in items {
        if !matches!(&item.shape, Shape::Points(points) if points.len() == 1) {
            continue;
        }
        match item.proposed {
            Role::Corner if parcel => {
                // "lot corner" alone says nothing of what is in the ground.
                let plain = item.words.eq_ignore_ascii_case(&item.group);
                item.proposed = if plain && item.group.contains("corner") {
                    Role::LeaveOut
                } else {
                    Role::Monument
                };
            }
            Role::Spot if surface => item.proposed = Role::LeaveOut,
            _ => {}
        }
    }
}
