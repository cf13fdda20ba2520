//! Which of what was delivered goes to which place: pairs of least cost together.
//!
//! The Hungarian method with shortest paths and potentials, on whole numbers, so that there is nothing to round. As many pairs are
//! made as the smaller side has; what is left over on the other side costs nothing.

/// For each place which of the things it gets, and what that costs together. `cost` is asked by place and thing.
pub fn assign(
    places: usize,
    things: usize,
    cost: &dyn Fn(usize, usize) -> i64,
) -> (Vec<Option<usize>>, i64) {
    // The smaller side seeks its partners one after the other.
    let turned = places > things;
    let (rows, columns) = match turned {
        true => (things, places),
        false => (places, things),
    };
    let at = |row: usize, column: usize| match turned {
        true => cost(column, row),
        false => cost(row, column),
    };
    // Potentials by row and column; column 0 stands for the row that seeks, so both are counted from 1.
    let mut of_row = vec![0i64; rows + 1];
    let mut of_column = vec![0i64; columns + 1];
    let mut holder = vec![0usize; columns + 1];
    for row in 1..=rows {
        holder[0] = row;
        let mut here = 0;
        let mut least = vec![i64::MAX; columns + 1];
        let mut from = vec![0usize; columns + 1];
        let mut seen = vec![false; columns + 1];
        while holder[here] != 0 {
            seen[here] = true;
            let seeker = holder[here];
            let mut step = i64::MAX;
            let mut next = 0;
            for column in 1..=columns {
                if seen[column] {
                    continue;
                }
                let reduced = at(seeker - 1, column - 1) - of_row[seeker] - of_column[column];
                if reduced < least[column] {
                    least[column] = reduced;
                    from[column] = here;
                }
                if least[column] < step {
                    step = least[column];
                    next = column;
                }
            }
            for column in 0..=columns {
                if seen[column] {
                    of_row[holder[column]] += step;
                    of_column[column] -= step;
                } else if column > 0 {
                    least[column] -= step;
                }
            }
            here = next;
        }
        // Along the path each hands on what it held.
        while here != 0 {
            holder[here] = holder[from[here]];
            here = from[here];
        }
    }
    let mut out = vec![None; places];
    let mut total = 0;
    for (column, row) in holder.iter().enumerate().skip(1) {
        let Some(row) = row.checked_sub(1) else {
            continue;
        };
        let (place, thing) = match turned {
            true => (column - 1, row),
            false => (row, column - 1),
        };
        out[place] = Some(thing);
        total += cost(place, thing);
    }
    (out, total)
}
