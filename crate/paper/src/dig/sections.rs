//! Both sections of the dig sheet, at one scale.

use batterboard_core::geom::{Region, Vector};
use batterboard_core::section::standard;
use batterboard_core::site::SectionLine;

use crate::binder::Binder;
use crate::flow::BODY;
use crate::job::{Job, SheetWish};
use crate::mark::Area;
use crate::pen::Pen;
use crate::section::{self, Extras};

/// Both sections: along the shell, and across it through its deepest point.
pub(super) fn sections(binder: &mut Binder<'_>, job: &Job, wanted: &SheetWish, first: usize) {
    let language = wanted.language;
    let Some(along) = job
        .site
        .site()
        .section
        .or_else(|| standard(&job.site, &job.analysis))
    else {
        return;
    };
    let lines = [
        (
            language.say("Section along the shell", "Corte a lo largo del casco"),
            Some(along),
            ["1", "1'"],
        ),
        (
            language.say(
                "Section across the deepest point",
                "Corte por el punto más hondo",
            ),
            crosswise(job),
            ["2", "2'"],
        ),
    ];
    let body = binder.body();
    let half = (body.height - 10.0) / 2.0;
    let made: Vec<_> = lines
        .into_iter()
        .filter_map(|(title, line, ends)| {
            let section = job.section(line?)?;
            Some((title, section, ends))
        })
        .collect();
    // One scale for both, so that they can be compared.
    let area = Area {
        height: half - 14.0,
        ..body
    };
    let scales = made
        .iter()
        .map(|(_, it, _)| section::scale(it, area, job.system));
    let Some(scale) = scales.reduce(|a, b| if a < b { b } else { a }) else {
        return;
    };
    let lifts = job.analysis.fill.iter().flat_map(|fill| &fill.lifts);
    let rim = job
        .site
        .placed_shell()
        .map_or(0.0, |(_, placement)| placement.coping_elevation);
    let lifts: Vec<f64> = lifts.map(|lift| rim - lift.to).collect();
    let mut y = body.y;
    for (title, section, ends) in made {
        let mut flow = binder.flow(body.width);
        flow.heading(title);
        let heading = Area { y, ..body };
        let (marks, end) = flow.pour(|_| (0, heading), 0);
        let heading = marks.into_iter().flat_map(|(_, marks)| marks);
        binder.page(first).marks.extend(heading);
        let extras = Extras {
            lifts: lifts.clone(),
            figures: true,
            ends: Some(ends),
        };
        let mut pen = Pen::default();
        let area = Area {
            y: end.y + 2.0,
            height: half - 14.0,
            ..body
        };
        section::draw(
            &mut pen,
            &section,
            area,
            scale,
            (job.system, language),
            &extras,
        );
        let figure = binder.figure(title.to_owned(), pen.marks);
        binder.page(first).marks.push(figure);
        y = end.y + 2.0 + section::height(&section, scale) + 4.0;
    }
    let mut flow = binder.flow(body.width);
    flow.paragraph(
        language.say(
            "Dashed lines across the stone: tops of the lifts. Keep the water inside about level with the stone outside as both rise.",
            "Líneas punteadas en la piedra: tope de cada capa. Mantenga el agua de adentro a la altura de la piedra de afuera mientras suben.",
        ),
        BODY,
    );
    let foot = Area { y, ..body };
    let (marks, _) = flow.pour(|_| (0, foot), 0);
    binder
        .page(first)
        .marks
        .extend(marks.into_iter().flat_map(|(_, marks)| marks));
    binder.set_scale(first, scale);
}

/// Across the shell through its deepest point, from beyond one side of the dig to beyond the other.
fn crosswise(job: &Job) -> Option<SectionLine> {
    const BEYOND: f64 = 1.5;
    let (shell, placement) = job.site.placed_shell()?;
    let pose = placement.pose();
    let deepest = shell.facets.iter().filter_map(|facet| {
        let at = facet.region.centroid()?;
        Some((facet.plane.depth(at), at))
    });
    let (_, at) = deepest.max_by(|a, b| a.0.total_cmp(&b.0))?;
    let at = pose.site_from_shell(at);
    let across = pose.site_from_shell_vector(Vector::new(0.0, 1.0));
    let empty = Region::default();
    let edge = job
        .analysis
        .dig
        .as_ref()
        .map_or(&empty, |dig| &dig.top_edge);
    let offs = edge
        .rings()
        .flat_map(|ring| &ring.0)
        .map(|p| (*p - at).dot(across));
    let (low, high) = offs.fold((0.0_f64, 0.0_f64), |(l, h), off| (l.min(off), h.max(off)));
    Some(SectionLine {
        from: at + across * (high + BEYOND),
        to: at + across * (low - BEYOND),
    })
}
