//! Labels on the plan: none on another, none on what guards itself from it, the required ones always there, and the
//! same places whatever order they come in.

use batterboard_core::drawing::placement::{
    Guard, Label, Need, Obstacle, Placed, Shape, Size, Slots, TextBox, place,
};
use batterboard_core::drawing::{Anchor, LineSide};
use batterboard_core::geom::{Point, Vector};
use batterboard_core::math::TURN;
use proptest::prelude::*;

const SIZE: Size = Size {
    width: 500.0,
    height: 400.0,
};

fn point() -> impl Strategy<Value = Point> {
    (-60.0..560.0, -60.0..460.0).prop_map(|(x, y)| Point::new(x, y))
}

fn anchor() -> impl Strategy<Value = Anchor> {
    let bearing = 0.0..std::f64::consts::PI;
    prop_oneof![
        (point(), 0.0..TURN).prop_map(|(at, toward)| Anchor::Point { at, toward }),
        (prop::collection::vec(point(), 2..6), 0.0..1.0, 0..3_usize).prop_map(
            |(line, share, side)| {
                let side = [LineSide::Either, LineSide::Left, LineSide::Right][side];
                Anchor::Line { line, share, side }
            }
        ),
        (point(), 5.0..90.0_f64, 5.0..60.0_f64, bearing.clone()).prop_map(|(at, w, h, along)| {
            let ring = [(-w, -h), (w, -h), (w, h), (-w, h)];
            let ring = ring
                .map(|(x, y): (f64, f64)| at + Vector::new(x, y))
                .to_vec();
            Anchor::Area { ring, at, along }
        }),
        prop::collection::vec((point(), bearing), 1..4).prop_map(Anchor::Places),
        (point(), point()).prop_map(|(from, to)| Anchor::Span { from, to }),
    ]
}

/// Labels of distinct keys, few of them required.
fn labels() -> impl Strategy<Value = Vec<Label>> {
    let label = (anchor(), 0..9_u8, 12.0..110.0, 10.0..17.0, 0..12_u8);
    prop::collection::vec(label, 1..60).prop_map(|all| {
        let label = |(key, (anchor, rank, width, height, need))| Label {
            key,
            rank: u16::from(rank) + 1,
            width,
            height,
            gap: 3.0,
            anchor,
            need: match need {
                0 => Need::Required,
                1..=6 => Need::Leader,
                _ => Need::Near,
            },
        };
        (0_u64..).zip(all).map(label).take(60).collect()
    })
}

fn obstacles() -> impl Strategy<Value = Vec<Obstacle>> {
    let shape = prop_oneof![
        (point(), 5.0..40.0, 5.0..25.0).prop_map(|(at, w, h)| {
            let half = Vector::new(w, h);
            Shape::Box(TextBox::between(at - half, at + half))
        }),
        (point(), point()).prop_map(|(a, b)| Shape::Stroke(a, b)),
    ];
    let guard = prop_oneof![
        Just(Guard::Always),
        (0..9_u16).prop_map(Guard::From),
        (1.0..20.0).prop_map(Guard::Soft),
    ];
    let obstacle = (shape, guard).prop_map(|(shape, guard)| Obstacle {
        shape,
        guard,
        of: None,
    });
    prop::collection::vec(obstacle, 0..12)
}

/// Whether two boxes share inner points, by sampling one finely in the frame of the other: a second way to the
/// answer. Boxes that only graze each other may pass for apart.
fn share_points(a: &TextBox, b: &TextBox) -> bool {
    let across = Vector::new(-a.along.y, a.along.x);
    let steps = 24;
    let part = |i: i32| (f64::from(i) / f64::from(steps) * 2.0 - 1.0) * 0.98;
    (0..=steps).any(|i| {
        (0..=steps).any(|j| {
            let p =
                a.centre + a.along * (a.half_length * part(i)) + across * (a.half_height * part(j));
            let d = p - b.centre;
            d.dot(b.along).abs() < b.half_length * 0.98
                && d.dot(Vector::new(-b.along.y, b.along.x)).abs() < b.half_height * 0.98
        })
    })
}

fn refs(labels: &[Label]) -> Vec<&Label> {
    labels.iter().collect()
}

/// The places by the keys of their labels.
fn by_key(labels: &[&Label], placed: &[Placed]) -> Vec<(u64, TextBox, u16)> {
    let mut all: Vec<_> = placed
        .iter()
        .map(|it| (labels[it.label].key, it.text, it.slot))
        .collect();
    all.sort_by_key(|it| it.0);
    all
}

proptest! {
    #[test]
    fn no_label_lies_on_another_or_on_what_is_guarded_from_it(all in labels(), guarded in obstacles()) {
        let placed = place(SIZE, &refs(&all), &guarded, &Slots::new());
        for (i, a) in placed.iter().enumerate() {
            for p in a.text.corners() {
                prop_assert!(p.x >= 0.0 && p.y >= 0.0 && p.x <= SIZE.width && p.y <= SIZE.height);
            }
            if a.crowded {
                prop_assert_eq!(all[a.label].need, Need::Required);
                continue;
            }
            for b in placed.iter().skip(i + 1).filter(|b| !b.crowded) {
                prop_assert!(!share_points(&a.text, &b.text) && !share_points(&b.text, &a.text));
            }
            for it in &guarded {
                let keeps_off = match it.guard {
                    Guard::Always => true,
                    Guard::From(rank) => all[a.label].rank >= rank,
                    Guard::Soft(_) => false,
                };
                let under = match it.shape {
                    Shape::Box(other) => share_points(&a.text, &other),
                    Shape::Stroke(from, to) => {
                        (1..400).any(|i| {
                            let p = from + (to - from) * (f64::from(i) / 400.0);
                            let inner = TextBox { half_length: a.text.half_length * 0.98, half_height: a.text.half_height * 0.98, ..a.text };
                            inner.contains(p)
                        })
                    }
                };
                prop_assert!(!(keeps_off && under), "{:?} on {:?}", a, it);
            }
        }
    }

    #[test]
    fn what_is_required_is_there_and_has_room_where_there_is_any(all in labels(), guarded in obstacles()) {
        let placed = place(SIZE, &refs(&all), &guarded, &Slots::new());
        let required = all.iter().filter(|label| label.need == Need::Required).count();
        let there = placed.iter().filter(|it| all[it.label].need == Need::Required);
        prop_assert_eq!(there.count(), required);
        if required <= 5 && guarded.is_empty() {
            prop_assert!(placed.iter().all(|it| !it.crowded));
        }
    }

    #[test]
    fn the_order_of_the_labels_is_of_no_account(all in labels(), guarded in obstacles(), turn in 0_usize..60) {
        let before = refs(&all);
        let mut after = before.clone();
        after.rotate_left(turn % before.len());
        after.reverse();
        let (a, b) = (
            place(SIZE, &before, &guarded, &Slots::new()),
            place(SIZE, &after, &guarded, &Slots::new()),
        );
        prop_assert_eq!(by_key(&before, &a), by_key(&after, &b));
    }

    #[test]
    fn a_label_keeps_its_slot_when_nothing_has_changed(all in labels(), guarded in obstacles()) {
        let labels = refs(&all);
        let first = place(SIZE, &labels, &guarded, &Slots::new());
        let slots: Slots = by_key(&labels, &first).into_iter().map(|(key, _, slot)| (key, slot)).collect();
        let again = place(SIZE, &labels, &guarded, &slots);
        prop_assert_eq!(by_key(&labels, &first), by_key(&labels, &again));
    }

    #[test]
    fn what_matters_less_moves_nothing_that_matters_more(all in labels(), guarded in obstacles()) {
        let most = |all: &[&Label]| all.iter().map(|label| label.rank).max().unwrap();
        let labels = refs(&all);
        let last = most(&labels);
        let fewer: Vec<&Label> = labels.iter().copied().filter(|it| it.rank < last || it.need == Need::Required).collect();
        let (a, b) = (
            place(SIZE, &labels, &guarded, &Slots::new()),
            place(SIZE, &fewer, &guarded, &Slots::new()),
        );
        let kept: Vec<_> = by_key(&labels, &a)
            .into_iter()
            .filter(|(key, ..)| fewer.iter().any(|label| label.key == *key))
            .collect();
        prop_assert_eq!(kept, by_key(&fewer, &b));
    }
}

mod on_demo_sites {
    use std::collections::BTreeMap;

    use batterboard_core::drawing::layout::{Layout, Moving};
    use batterboard_core::drawing::lettering::{
        Frame, Lettering, TextLook, lettering, lids, obstacles,
    };
    use batterboard_core::drawing::placement::{Guard, Obstacle, Shape, Size, TextBox};
    use batterboard_core::drawing::{Focus, Item, Layer};
    use batterboard_core::geom::{Point, Vector};
    use batterboard_core::session::Session;

    const SITES: [&str; 4] = [
        include_str!("../../demo-sites/creek-side-deed.json"),
        include_str!("../../demo-sites/level-suburban.json"),
        include_str!("../../demo-sites/sloping-hillside.json"),
        include_str!("../../demo-sites/wedge-cul-de-sac.json"),
    ];

    /// The plan on a laptop with and without a step open, on a tablet and on a phone.
    const VIEWS: [(f64, f64); 5] = [
        (525.0, 717.0),
        (830.0, 717.0),
        (620.0, 684.0),
        (330.0, 684.0),
        (390.0, 528.0),
    ];

    fn frame(session: &mut Session, (width, height): (f64, f64)) -> Frame {
        let (low, high) = session.still_drawing().bounds().unwrap();
        let across = (width - 68.0) / (high.x - low.x);
        let up = (height - 68.0) / (high.y - low.y);
        Frame {
            size: Size { width, height },
            centre: low.midpoint(high),
            scale: across.min(up),
        }
    }

    fn look(_: Layer) -> TextLook {
        TextLook {
            size: 12.0,
            from_scale: 0.0,
        }
    }

    fn length(text: &str, size: f64) -> f64 {
        f64::from(u32::try_from(text.chars().count()).unwrap()) * size * 0.6
    }

    /// Two corners of the view where controls lie.
    fn furniture(size: Size) -> Vec<Obstacle> {
        let boxes = [
            ((10.0, 10.0), (140.0, 54.0)),
            (
                (size.width - 54.0, size.height - 142.0),
                (size.width - 10.0, size.height - 10.0),
            ),
        ];
        let guarded = |((a, b), (c, d))| Obstacle {
            shape: Shape::Box(TextBox::between(Point::new(a, b), Point::new(c, d))),
            guard: Guard::Always,
            of: None,
        };
        boxes.into_iter().map(guarded).collect()
    }

    fn set_still(layout: &mut Layout, session: &mut Session, frame: Frame) {
        let still = session.still_drawing().clone();
        let labels = lettering(still.items.iter(), &frame, look, length);
        layout.set_still(frame, labels, obstacles(&still.items, &frame));
    }

    fn lay(layout: &mut Layout, session: &Session, frame: Frame) {
        let work = session.work_drawing(Focus::None);
        let moving = Moving {
            lettering: lettering(work.items.iter(), &frame, look, length),
            obstacles: obstacles(&work.items, &frame),
            lids: lids(work.items.iter(), &frame),
            furniture: furniture(frame.size),
        };
        layout.lay(moving, session.is_under_hand());
    }

    /// No two labels on each other, none on a control or a red line, every shortfall named.
    fn check(layout: &Layout, session: &Session, frame: Frame) {
        let all: Vec<_> = layout.still().chain(layout.moving()).collect();
        for (i, (label, a)) in all.iter().enumerate() {
            assert!(!a.crowded, "{}", label.text);
            for (other, b) in all.iter().skip(i + 1) {
                assert!(
                    !a.text.overlaps(&b.text),
                    "{} on {}",
                    label.text,
                    other.text
                );
            }
            for it in furniture(frame.size) {
                assert!(
                    !it.shape.lies_under(&a.text),
                    "{} under a control",
                    label.text
                );
            }
        }
        for item in session.work_drawing(Focus::None).items {
            let Item::Measured {
                layer: Layer::Shortfall,
                from,
                to,
                text,
                ..
            } = item
            else {
                continue;
            };
            let (from, to) = (frame.place(from), frame.place(to));
            for (label, a) in &all {
                assert!(
                    !a.text.is_crossed_by(from, to),
                    "{} on a red line",
                    label.text
                );
            }
            let named = |(label, _): &(&Lettering, _)| {
                label.layer == Layer::Shortfall && label.text == text
            };
            assert!(all.iter().any(named), "{text} is not named");
        }
    }

    #[test]
    fn labels_at_rest_keep_apart() {
        for site in SITES {
            for view in VIEWS {
                for closer in [1.0, 2.5] {
                    let mut session = Session::new().unwrap();
                    session.open(site).unwrap();
                    let frame = frame(&mut session, view);
                    let frame = Frame {
                        scale: frame.scale * closer,
                        ..frame
                    };
                    let mut layout = Layout::default();
                    set_still(&mut layout, &mut session, frame);
                    lay(&mut layout, &session, frame);
                    check(&layout, &session, frame);
                    // Closer, the plan has little but the work itself.
                    let least = if closer > 1.0 { 1 } else { 10 };
                    assert!(layout.still().count() >= least);
                }
            }
        }
    }

    #[test]
    fn labels_keep_apart_and_stay_put_under_a_hand() {
        for site in SITES {
            let mut session = Session::new().unwrap();
            session.open(site).unwrap();
            let frame = frame(&mut session, VIEWS[0]);
            let mut layout = Layout::default();
            set_still(&mut layout, &mut session, frame);
            lay(&mut layout, &session, frame);
            let at = session.site().placed_shell().unwrap().1.at;
            session.grab(at, 0.1, frame.scale).unwrap();
            let before = layout.still().count();
            let (mut frames, mut jumps) = (0, 0);
            let mut slots: BTreeMap<u64, u16> = BTreeMap::new();
            for i in 0..90 {
                let out = Vector::new(0.06 * f64::from(i), -0.04 * f64::from(i));
                session.drag_to(at + out, false);
                lay(&mut layout, &session, frame);
                check(&layout, &session, frame);
                let now: BTreeMap<u64, u16> = layout
                    .moving()
                    .map(|(label, placed)| (label.label.key, placed.slot))
                    .collect();
                frames += now.len();
                jumps += now
                    .iter()
                    .filter(|(key, slot)| slots.get(key).is_some_and(|was| was != *slot))
                    .count();
                slots = now;
            }
            // A jump is due when a place is taken: not more often than once in fifty frames of a label.
            assert!(jumps * 50 < frames, "{jumps} jumps in {frames}");
            session.release();
            lay(&mut layout, &session, frame);
            check(&layout, &session, frame);
            assert!(layout.still().count() + 6 > before);
        }
    }
}
