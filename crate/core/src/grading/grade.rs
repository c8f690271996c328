//! Cut and fill between the ground and a layout at one placement.

use super::drape::{Drape, Way};
use super::drawn::{Drawn, Over};
use super::layout::{Beside, EdgeSpot, Layout, Paved};
use super::lines::{Field, lines};
use super::{Bank, Grading, Height};
use crate::geom::{Point, Pose};
use crate::ground::Ground;

/// What moving earth to one place of the finished ground takes, meters of height.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct Moved {
    cut: f64,
    fill: f64,
    in_hole: bool,
}

/// The mean of the positive part of a height over a square cell: `middle` at its middle, changing
/// by `across` and `along` from the middle to its sides. Exact where it changes evenly.
fn positive_mean(middle: f64, across: f64, along: f64) -> f64 {
    let (a, b) = (across.abs(), along.abs());
    let (long, short) = if a > b { (a, b) } else { (b, a) };
    if middle >= long + short {
        return middle;
    }
    if middle <= -(long + short) {
        return 0.0;
    }
    let positive = |height: f64| if height > 0.0 { height } else { 0.0 };
    if short < 1e-3 * long {
        let square = |height: f64| positive(height) * positive(height) / 2.0;
        return (square(middle + long) - square(middle - long)) / (2.0 * long);
    }
    let cube = |height: f64| positive(height) * positive(height) * positive(height) / 6.0;
    let sum = cube(middle + long + short) - cube(middle + long - short);
    let sum = sum - cube(middle - long + short) + cube(middle - long - short);
    sum / (4.0 * long * short)
}

/// `ground` and `finished` as rises; `hole`: the bottom of the hole; stone reaches up to `cap`
/// within it, as far as the ground does.
fn moved(ground: f64, finished: f64, hole: f64, cap: f64) -> Moved {
    let in_hole = hole < ground;
    let (dug, stone) = if in_hole {
        let level = if cap < ground { cap } else { ground };
        (hole, if hole < level { level } else { hole })
    } else {
        (ground, ground)
    };
    Moved {
        cut: if dug > finished { dug - finished } else { 0.0 },
        fill: if finished > stone {
            finished - stone
        } else {
            0.0
        },
        in_hole,
    }
}

impl Layout {
    /// Cut, fill and banks where the shell stands at `pose` with its rim at `coping`, meters.
    pub fn grade(&self, drawn: &Drawn, ground: &Ground, pose: &Pose, coping: f64) -> Grading {
        let drape = Drape::over(self.grid, ground, pose, coping, self.levels.bank);
        let over = (!drawn.is_empty()).then(|| drawn.over(self, pose));
        let mut pass = Pass {
            layout: self,
            drape: &drape,
            result: Grading {
                closed: true,
                ..Grading::default()
            },
            farthest: [(0.0, 0); 2],
        };
        match &over {
            Some(Over { paved, beside, .. }) => pass.run(paved, beside),
            None => pass.run(&self.paved, &self.beside),
        }
        let ([down, up], mut graded) = (pass.farthest, pass.result);
        let edge = over.as_ref().map_or(&self.edge, |over| &over.edge);
        let exact = |at: Point| ground.height(at).elevation - coping;
        (graded.stands, graded.lies) = heights(edge, &drape, pose, exact);
        let field = Field {
            layout: self,
            over: over.as_ref(),
            drape: &drape,
        };
        graded.toe = self.bank(down, Way::Down, &field, pose);
        graded.crest = self.bank(up, Way::Up, &field, pose);
        graded
    }

    fn bank(&self, (reach, cell): (f64, u32), way: Way, field: &Field<'_>, pose: &Pose) -> Bank {
        if reach <= 0.0 {
            return Bank::default();
        }
        let columns = self.grid.columns.max(1);
        let at = self
            .grid
            .centre(cell as usize % columns, cell as usize / columns);
        Bank {
            lines: lines(field, way, pose),
            reach,
            at: pose.site_from_shell(at),
        }
    }
}

/// The sums over a layout.
struct Pass<'a> {
    layout: &'a Layout,
    drape: &'a Drape,
    result: Grading,
    /// The farthest cells of the banks: run and cell, down and up.
    farthest: [(f64, u32); 2],
}

impl Pass<'_> {
    fn run(&mut self, paved: &[Paved], beside: &[Beside]) {
        let cap = -self.layout.levels.cap;
        let cell = self.layout.grid.cell;
        for piece in paved {
            let ground = self.drape.rise(piece.cell as usize);
            let mut moved = moved(ground, piece.level, piece.hole, cap);
            if !moved.in_hole && (ground - piece.level).abs() < cell {
                let share = piece.area / (cell * cell);
                let (x, y) = self.drape.tilt(piece.cell as usize);
                moved.cut = positive_mean(ground - piece.level, x * share, y * share);
                moved.fill = positive_mean(piece.level - ground, x * share, y * share);
            }
            self.result.deck_cut += moved.cut * piece.area;
            if moved.in_hole {
                self.result.hole_fill += moved.fill * piece.area;
            } else {
                self.result.deck_fill += moved.fill * piece.area;
            }
            self.unsurveyed(piece.cell, piece.area, moved);
        }
        let last = self.layout.reach - 2.0 * cell;
        // How far a bank's height above the ground can change over half a cell.
        let near = cell * (self.layout.levels.bank + 1.0);
        let near = if near.is_finite() { near } else { 0.0 };
        for piece in beside {
            let ground = self.drape.rise(piece.cell as usize);
            let rise = piece.run * self.layout.levels.bank;
            let (down, up) = (piece.edge - rise - ground, ground - piece.edge - rise);
            let mut finished = ground;
            let mut near_zero = None;
            if down > -near && down > up && self.reaches(piece, down, Way::Down) {
                finished = if down > 0.0 {
                    piece.edge - rise
                } else {
                    ground
                };
                near_zero = (down < near).then_some((Way::Down, down));
            } else if up > -near && self.reaches(piece, up, Way::Up) {
                finished = if up > 0.0 { piece.edge + rise } else { ground };
                near_zero = (up < near).then_some((Way::Up, up));
            }
            let mut moved = moved(ground, finished, piece.hole, cap);
            if let Some((way, height)) = near_zero.filter(|_| !moved.in_hole) {
                let mean = self.near_zero(piece, way, height);
                match way {
                    Way::Down => moved.fill = mean,
                    Way::Up => moved.cut = mean,
                }
            }
            self.result.bank_cut += moved.cut * piece.area;
            if moved.in_hole {
                self.result.hole_fill += moved.fill * piece.area;
            } else {
                self.result.bank_fill += moved.fill * piece.area;
            }
            if moved != Moved::default() {
                self.unsurveyed(piece.cell, piece.area, moved);
                if self.edge_of_layout(piece, last) {
                    self.result.closed = false;
                }
            }
        }
    }

    /// The mean height of a bank over a piece in which it meets the ground.
    fn near_zero(&self, piece: &Beside, way: Way, height: f64) -> f64 {
        let cell = self.layout.grid.cell;
        let share = piece.area / (cell * cell);
        let (x, y) = self.drape.tilt(piece.cell as usize);
        // Either bank comes nearer to the ground the farther out it is.
        let bank = self.layout.levels.bank * cell / 2.0;
        let sign = -way.sign();
        let (across, along) = (
            piece.toward.x * bank - sign * x,
            piece.toward.y * bank - sign * y,
        );
        positive_mean(height, across * share, along * share)
    }

    /// Whether a piece lies at the border of the layout.
    fn edge_of_layout(&self, piece: &Beside, last: f64) -> bool {
        if piece.run > last && piece.run.is_finite() {
            return true;
        }
        let grid = &self.layout.grid;
        let (column, row) = (
            piece.cell as usize % grid.columns.max(1),
            piece.cell as usize / grid.columns.max(1),
        );
        column < 4 || row < 4 || column + 8 > grid.columns || row + 4 > grid.rows
    }

    fn reaches(&mut self, piece: &Beside, height: f64, way: Way) -> bool {
        let grid = &self.layout.grid;
        let columns = grid.columns.max(1);
        let at = grid.centre(piece.cell as usize % columns, piece.cell as usize / columns);
        let reaches = self.layout.reaches(self.drape, (at, height), piece, way);
        let [down, up] = &mut self.farthest;
        let farthest = if way == Way::Down { down } else { up };
        if reaches && height > 0.0 && piece.run > farthest.0 {
            *farthest = (piece.run, piece.cell);
        }
        reaches
    }

    fn unsurveyed(&mut self, cell: u32, area: f64, moved: Moved) {
        if self.drape.any_assumed && self.drape.assumed.get(cell as usize) == Some(&true) {
            self.result.unsurveyed += (moved.cut + moved.fill) * area;
        }
    }
}

/// Where the edge stands highest above the ground, and lowest below it. The place is found on
/// the draped ground, the height there on the ground itself.
fn heights(
    edge: &[EdgeSpot],
    drape: &Drape,
    pose: &Pose,
    exact: impl Fn(Point) -> f64,
) -> (Option<Height>, Option<Height>) {
    let above = |spot: &EdgeSpot| spot.top - drape.rise_at(spot.at);
    let most = |way: f64| {
        let spots = edge.iter().map(|spot| (way * above(spot), spot));
        spots.fold(None, |best: Option<(f64, &EdgeSpot)>, next| match best {
            Some(best) if best.0 >= next.0 => Some(best),
            _ => Some(next),
        })
    };
    let told = |way: f64| {
        let (_, spot) = most(way)?;
        let at = pose.site_from_shell(spot.at);
        let height = way * (spot.top - exact(at));
        (height > 0.0).then_some(Height { height, at })
    };
    (told(1.0), told(-1.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    #[test]
    fn the_positive_part_of_a_plane_is_summed_exactly() {
        for (middle, across, along) in [
            (0.0, 0.3, 0.2),
            (0.1, 0.3, 0.2),
            (-0.25, 0.3, -0.2),
            (0.05, 0.0, 0.2),
            (0.4, 0.3, 0.2),
            (-1.0, 0.3, 0.2),
        ] {
            let at = |k: i32| (f64::from(k) + 0.5) / 200.0 - 1.0;
            let parts = (0..400).flat_map(|i| (0..400).map(move |k| (i, k)));
            let heights = parts.map(|(i, k)| (middle + across * at(i) + along * at(k)).max(0.0));
            let mean = heights.sum::<f64>() / 160_000.0;
            let exact = positive_mean(middle, across, along);
            assert!((mean - exact).abs() < 1e-5, "{middle}: {exact}, not {mean}");
        }
    }
}
