//! Reading lists of points: in every usual form, and everything that goes wrong with them.

use super::{Choice, read, write};
use crate::exchange::import::{Columns, Draft, Frame, Order, Position, Role, Shape};
use crate::finding::Finding;
use crate::site::{FeatureKind, GridUnit};

fn draft(text: &str) -> Draft {
    read(text, None).unwrap_or_else(|f| panic!("{text}: {f:?}"))
}

fn positions(draft: &Draft) -> Vec<(f64, f64, Option<f64>)> {
    let all = draft.items.iter().flat_map(|i| match &i.shape {
        Shape::Points(points) => points.clone(),
        _ => panic!("points"),
    });
    all.map(|p: Position| (p.first, p.second, p.height))
        .collect()
}

fn told(findings: &[Finding]) -> Vec<(&str, &str)> {
    findings
        .iter()
        .map(|f| (f.code, f.pointer.as_str()))
        .collect()
}

#[test]
fn the_same_list_is_read_behind_every_separator() {
    let rows = [
        "101,5000.25,2000.5,412.31,iron pin found",
        "102,5092.5,2000.0,,house corner",
    ];
    let list = rows.join("\n");
    let expected = [(5000.25, 2000.5, Some(412.31)), (5092.5, 2000.0, None)];
    for text in [
        list.clone(),
        list.replace(',', ";"),
        list.replace(',', "\t"),
        list.replace(',', " ; ").replace('.', ","),
        list.replace(',', "\t").replace('.', ","),
        list.replace('\n', "\r\n\r\n# a remark\r\n"),
    ] {
        let read = draft(&text);
        assert_eq!(positions(&read), expected, "{text}");
        assert_eq!(read.items[0].name, "101");
        assert_eq!(read.items[0].words, "iron pin found");
        assert_eq!(read.items[0].proposed, Role::Corner);
    }
    let spaces = "101 5000.25 2000.5 412.31 iron pin found\n102 5092.5 2000.0 411.0 house corner";
    assert_eq!(positions(&draft(spaces))[0], expected[0]);
    assert_eq!(draft(spaces).items[1].words, "house corner");
    let comma = "101 5000,25 2000,5 412,31\n102 5092,5 2000,0 411,0";
    assert_eq!(positions(&draft(comma))[0], expected[0]);
}

#[test]
fn a_heading_says_order_and_unit() {
    let read =
        draft("Pt,Easting (US survey ft),Northing (US survey ft),Elev (ft),Code\n1,2000,5000,10,x");
    assert_eq!(positions(&read), [(2000.0, 5000.0, Some(10.0))]);
    assert_eq!(read.proposed.order, Order::EastFirst);
    assert_eq!(read.proposed.frame, Frame::SurveyFeet);
    assert_eq!(read.proposed.heights, GridUnit::Feet);
    assert!(read.findings.is_empty(), "{:?}", read.findings);
    let read = draft("latitude;longitude;height (m)\n50,5;10,25;3,5");
    assert_eq!(read.proposed.frame, Frame::Degrees);
    assert_eq!(positions(&read), [(50.5, 10.25, Some(3.5))]);
}

#[test]
fn without_a_heading_the_order_is_a_guess_and_told() {
    let read = draft("5000.0,2000.0\n5010.0,2000.0");
    assert_eq!(read.proposed.order, Order::NorthFirst);
    assert_eq!(
        told(&read.findings),
        [("order-assumed", ""), ("unit-assumed", "")]
    );
    assert_eq!(
        read.proposed.columns,
        Some(Columns {
            point: false,
            elevation: false
        })
    );
    // Which columns there are can be chosen.
    let text = "1,5000,2000\n2,5010,2000";
    assert_eq!(positions(&draft(text))[0], (1.0, 5000.0, Some(2000.0)));
    let chosen = Columns {
        point: true,
        elevation: false,
    };
    let read = super::read(text, Some(chosen)).unwrap();
    assert_eq!(positions(&read)[0], (5000.0, 2000.0, None));
}

#[test]
fn places_on_the_globe_are_read_as_pasted() {
    let read = draft("36.451234, -84.307123\n36.451534, -84.307423");
    assert_eq!(read.proposed.frame, Frame::Degrees);
    assert_eq!(positions(&read)[0], (36.451_234, -84.307_123, None));
    let read = draft("36°27'00\"N 84°18'00\"W\n36°27'36\"N 84°18'36\"W");
    assert_eq!(read.proposed.frame, Frame::Degrees);
    assert_eq!(positions(&read)[1], (36.46, -84.31, None));
    // Local feet are no degrees, though they could be.
    assert_eq!(
        draft("10.25, 20.50\n40.75, 20.50").proposed.frame,
        Frame::Feet
    );
}

#[test]
fn a_line_that_is_no_point_is_told_with_its_number_and_spoils_no_other() {
    let read =
        draft("1,5000,2000,10,a\n2,abc,2000,10,b\n3,5000,2000,deep,c\n4,5000\n5,5001,2001,10,d");
    assert_eq!(read.items.len(), 2);
    assert_eq!(
        told(&read.findings)[..3],
        [
            ("point", "line 2"),
            ("point", "line 3"),
            ("point", "line 4")
        ]
    );
    assert!(read.findings[0].message.contains("abc"));
    let nothing = super::read("hello\nworld", None).unwrap_err();
    assert!(nothing.iter().any(|f| f.code == "nothing-found"));
    let empty = super::read("", None).unwrap_err();
    assert_eq!(told(&empty), [("nothing-found", "")]);
}

#[test]
fn elevations_of_nothing_and_numbers_twice_are_told() {
    let read =
        draft("1,5000.1,2000,412,a\n2,5001,2000,0.0,a\n2,5002,2000,411,a\n4,5003,2000,413,a");
    let checks: Vec<&str> = read.findings.iter().map(|f| f.code).collect();
    assert!(checks.contains(&"elevation-zero") && checks.contains(&"point-repeated"));
}

#[test]
fn descriptions_group_points_and_propose_roles() {
    let read = draft("1,5000,2000,9,TREE 1\n2,5001,2000,9,TREE 2\n3,5002,2000,9,\n4,5003,2000,,");
    let groups: Vec<&str> = read.items.iter().map(|i| i.group.as_str()).collect();
    assert_eq!(groups, ["tree", "tree", "no description", "no description"]);
    let roles: Vec<Role> = read.items.iter().map(|i| i.proposed).collect();
    let tree = Role::Feature(FeatureKind::Tree);
    assert_eq!(roles, [tree, tree, Role::Spot, Role::LeaveOut]);
}

#[test]
fn a_crowd_is_refused() {
    let text = "1,2,3\n".repeat(50_001);
    assert_eq!(
        told(&super::read(&text, None).unwrap_err()),
        [("too-many", "")]
    );
}

/// A list names things as the site does; the kind stands before the name, so that a wall called
/// after the house is read back as a wall.
#[test]
fn a_list_names_things_as_the_site_does() {
    use crate::exchange::Figures;
    use crate::geom::Vertex;
    use crate::site::{CheckedSite, Feature, ShapeRecord, starter};
    let track = |id: &str, name: &str, kind, x: f64| {
        let line = [Vertex::line(x, 1.0), Vertex::line(x, 9.0)];
        let mut feature = Feature::of(id, kind, ShapeRecord::Track(line[..].into()));
        feature.name = name.to_owned();
        feature
    };
    let mut site = starter::blank_lot();
    site.features = std::sync::Arc::new(vec![
        track("a", "gas service", FeatureKind::BuriedLine, 1.0),
        track("b", "", FeatureKind::Fence, 3.0),
        track("c", "garden house wall", FeatureKind::Wall, 5.0),
    ]);
    let checked = CheckedSite::check(site, None).unwrap();
    let choice = Choice {
        corners: false,
        ground: false,
        shell: false,
        ..Choice::usual(checked.site())
    };
    let text = write(checked.site(), &Figures::of(&checked, None), choice).unwrap();
    for words in [
        "\"buried line a, gas service\"",
        ",fence b\n",
        "\"wall c, garden house wall\"",
    ] {
        assert_eq!(text.matches(words).count(), 2, "{text}");
    }
    let read = draft(&text);
    let roles: Vec<Role> = read.items.iter().map(|i| i.proposed).step_by(2).collect();
    let kinds = [
        FeatureKind::BuriedLine,
        FeatureKind::Fence,
        FeatureKind::Wall,
    ];
    assert_eq!(roles, kinds.map(Role::Feature));
    assert_eq!(read.items[4].group, "wall c");
}
