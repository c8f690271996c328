//! Pictures laid by two points: the known distance and bearing come out, the first point stays, and
//! nothing is bent, worked out the second time with complex numbers.

use batterboard_core::geom::Point;
use batterboard_core::math::{TURN, cos, hypot, sin};
use batterboard_core::site::{Fit, Picture, PictureMedia};
use proptest::prelude::*;

fn picture() -> impl Strategy<Value = Picture> {
    (
        (1..4000u32, 1..4000u32),
        (-500.0..500.0f64, -500.0..500.0f64),
        0.001..2.0f64,
        -10.0..10.0f64,
    )
        .prop_map(|((width, height), (x, y), scale, heading)| Picture {
            name: String::new(),
            media: PictureMedia::Png,
            data: "".into(),
            width,
            height,
            at: Point::new(x, y),
            scale,
            heading,
            opacity: 1.0,
            hidden: false,
            locked: false,
        })
}

proptest! {
    #[test]
    fn two_points_lay_a_picture(
        picture in picture(),
        (x1, y1, x2, y2) in (0.0..4000.0f64, 0.0..4000.0f64, 0.0..4000.0f64, 0.0..4000.0f64),
        distance in prop::option::of(0.5..900.0f64),
        bearing in prop::option::of(0.0..TURN),
    ) {
        prop_assume!(hypot(x1 - x2, y1 - y2) > 25.0);
        let (first, second) = (picture.site_from_pixel(x1, y1), picture.site_from_pixel(x2, y2));
        let laid = Fit { first, second, distance, bearing }.lay(&picture).unwrap();
        let (a, b) = (laid.site_from_pixel(x1, y1), laid.site_from_pixel(x2, y2));
        let size = 1.0 + first.distance(second) + picture.at.distance(first);
        let close = |a: f64, b: f64| (a - b).abs() < 1e-9 * size * (1.0 + distance.unwrap_or(0.0));
        prop_assert!(close(a.distance(first), 0.0), "the first point moved");
        prop_assert!(close(a.distance(b), distance.unwrap_or(first.distance(second))));
        if let Some(bearing) = bearing {
            let (sine, cosine) = ((b.x - a.x) / a.distance(b), (b.y - a.y) / a.distance(b));
            prop_assert!((sine - sin(bearing)).abs() < 1e-8 && (cosine - cos(bearing)).abs() < 1e-8);
        }
        // A similarity is multiplication by one complex number: what it does to the middle follows
        // from what it does to the two points.
        let (ur, ui) = (second.x - first.x, second.y - first.y);
        let (vr, vi) = (b.x - a.x, b.y - a.y);
        let norm = ur * ur + ui * ui;
        let (kr, ki) = ((vr * ur + vi * ui) / norm, (vi * ur - vr * ui) / norm);
        let (mr, mi) = (picture.at.x - first.x, picture.at.y - first.y);
        prop_assert!(close(laid.at.x, first.x + kr * mr - ki * mi));
        prop_assert!(close(laid.at.y, first.y + kr * mi + ki * mr));
    }
}
