//! What cannot be read is told with its place, and nothing is too large to be answered.

use super::super::is_xml;
use super::*;
use crate::exchange::open;

#[test]
fn what_is_no_landxml_is_refused_with_its_place() {
    assert_eq!(faults(""), ["xml"]);
    assert_eq!(faults("<LandXML>"), ["xml"]);
    assert_eq!(faults("<gpx/>"), ["not-landxml"]);
    assert_eq!(faults(&file("")), ["nothing-found"]);
    let cut = &written(
        &open(DEMOS[0].1).unwrap().site,
        Choice::usual(&open(DEMOS[0].1).unwrap().site),
    );
    assert_eq!(faults(&cut[..cut.len() / 2]), ["xml"]);
    assert!(is_xml("\u{feff}  <?xml?>") && !is_xml("{}") && !is_xml("1,2,3"));
}

#[test]
fn no_entity_is_expanded_and_sizes_are_bounded() {
    let bomb = "<?xml version=\"1.0\"?><!DOCTYPE LandXML [<!ENTITY a \"aaaaaaaaaa\">\
                <!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;\">]><LandXML>&b;</LandXML>";
    assert_eq!(faults(bomb), ["document-type"]);
    let outside = "<!DOCTYPE LandXML SYSTEM \"file:///elsewhere\"><LandXML/>";
    assert_eq!(faults(outside), ["document-type"]);
    let wide = file(&"<a/>".repeat(2_100_000));
    assert_eq!(faults(&wide), ["too-many"]);
    let deep = format!("{}{}", "<a>".repeat(500_000), "</a>".repeat(500_000));
    assert_eq!(faults(&file(&deep)), ["not-read", "nothing-found"]);
    let long = file(&format!("<Project name=\"{}\"/>", "x".repeat(17 << 20)));
    assert_eq!(faults(&long), ["text-size"]);
    let list = "1 2 3 ".repeat(200_001);
    let many = format!(
        "<Surfaces><Surface name=\"s\"><SourceData><DataPoints><PntList3D>{list}</PntList3D></DataPoints></SourceData></Surface></Surfaces>"
    );
    assert_eq!(faults(&file(&many)), ["too-many"]);
}

#[test]
fn a_part_that_cannot_be_read_is_told_and_left_out() {
    let square = [
        line("0 0", "0 10"),
        line("0 10", "10 10"),
        line("10 10", "10 0"),
        line("10 0", "0 0"),
    ];
    let whole = parcel(&square.concat());
    let survey = read(&whole).unwrap();
    assert_eq!(
        places(&survey),
        [[0.0, 0.0], [0.0, 10.0], [10.0, 10.0], [10.0, 0.0]]
    );
    assert_eq!(survey.draft.items[0].proposed, Role::Lot);
    assert!(
        survey.draft.items[0]
            .place
            .starts_with("Parcel \"Lot 4\", line 4 column")
    );
    // Against the walk, and with a gap of 1 cm.
    let turned = [
        &square[0],
        &line("10 10.01", "0 10"),
        &square[2],
        &square[3],
    ];
    let survey = read(&parcel(&turned.map(String::as_str).concat())).unwrap();
    assert_eq!(places(&survey).len(), 4);
    assert_eq!(codes(&survey.draft.findings), ["gap"]);
    for (inside, code) in [
        (square[..3].concat(), "parcel-open"),
        (line("0 0", "0 x"), "number"),
        (line("0 0", "0 nan"), "number"),
        (line("0,5 1,5", "0 1"), "number"),
        (line("0", "0 1"), "point"),
        (line("0 0 0 0", "0 1"), "point"),
        ("<Line><Start>0 0</Start></Line>".to_owned(), "point-missing"),
        ("<Line><Start pntRef=\"7\"/><End>0 0</End></Line>".to_owned(), "point-missing"),
        ("<Chain>1 2</Chain>".to_owned(), "point-missing"),
        (line("0 0", "0 10") + &line("5 5", "9 9"), "not-joined"),
        ("<Spiral><Start>0 0</Start></Spiral>".to_owned(), "spiral"),
        ("<Bend/>".to_owned(), "geometry-unknown"),
        (String::new(), "geometry-missing"),
        ("<IrregularLine><Start>0 0</Start><End>0 9</End><PntList2D>0 0 1</PntList2D></IrregularLine>".to_owned(), "point-list"),
        ("<Curve><Start>0 0</Start><Center>0 5</Center><End>0 10</End></Curve>".to_owned(), "curve-turn"),
        ("<Curve rot=\"cw\"><Start>0 0</Start><End>0 10</End></Curve>".to_owned(), "point-missing"),
        ("<Curve rot=\"cw\"><Start>0 0</Start><Center>0 0</Center><End>0 10</End></Curve>".to_owned(), "curve"),
    ] {
        let told = faults(&parcel(&inside));
        assert_eq!(told, [code], "{inside}");
    }
}
