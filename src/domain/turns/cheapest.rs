//! Giving each of n rows a column of its own so that the sum of the prices is least: the Hungarian method (Kuhn 1955, "The Hungarian
//! method for the assignment problem", Naval Research Logistics Quarterly 2) by shortest augmenting paths, in time n³.

/// The column of each row. `prices` is square, row by row. Among equally cheap answers always the same one.
pub fn cheapest(n: usize, prices: &[i64]) -> Vec<usize> {
    let mut owner: Vec<Option<usize>> = vec![None; n];
    // What a column costs beyond its prices, being wanted by others, and what a row has to pay at least.
    let mut toll = vec![0_i64; n];
    let mut pays = vec![0_i64; n];
    for newcomer in 0..n {
        let mut reach: Vec<Reach> = vec![Reach { far: i64::MAX, from: None, settled: false }; n];
        let (mut row, mut column, mut walked) = (newcomer, None, 0);
        let free = loop {
            for (c, r) in reach.iter_mut().enumerate().filter(|(_, r)| !r.settled) {
                let far = walked + prices[row * n + c] + toll[c] - pays[row];
                if far < r.far {
                    (r.far, r.from) = (far, column);
                }
            }
            let open = (0..n).filter(|c| !reach[*c].settled);
            let Some(nearest) = open.min_by_key(|c| reach[*c].far) else { return Vec::new() };
            walked = reach[nearest].far;
            match owner[nearest] {
                None => break nearest,
                Some(its) => row = its,
            }
            reach[nearest].settled = true;
            column = Some(nearest);
        };
        pays[newcomer] += walked;
        for (c, r) in reach.iter().enumerate().filter(|(_, r)| r.settled) {
            toll[c] += walked - r.far;
            if let Some(its) = owner[c] {
                pays[its] += walked - r.far;
            }
        }
        // Along the path back each column goes to the row that reached it.
        let mut taken = free;
        while let Some(before) = reach[taken].from {
            owner[taken] = owner[before];
            taken = before;
        }
        owner[taken] = Some(newcomer);
    }
    let mut columns = vec![0; n];
    for (c, row) in owner.iter().enumerate() {
        if let Some(row) = row {
            columns[*row] = c;
        }
    }
    columns
}

/// How dear it is to come to a column, and from which column.
#[derive(Clone)]
struct Reach {
    far: i64,
    from: Option<usize>,
    settled: bool,
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The least sum, by trying every order.
    fn least(n: usize, prices: &[i64], row: usize, taken: u32) -> i64 {
        let open = (0..n).filter(|c| taken & (1 << c) == 0);
        let sums = open.map(|c| prices[row * n + c] + least(n, prices, row + 1, taken | (1 << c)));
        if row == n { 0 } else { sums.min().expect("an open column") }
    }

    #[test]
    fn no_order_is_cheaper() {
        let mut state = 11_u32;
        for n in 0..7 {
            for span in [2, 10, 1_000] {
                let prices: Vec<i64> = (0..n * n)
                    .map(|_| {
                        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                        i64::from(state >> 16) % span - span / 2
                    })
                    .collect();
                let columns = cheapest(n, &prices);
                let mut all = columns.clone();
                all.sort_unstable();
                assert_eq!(all, (0..n).collect::<Vec<_>>(), "each column once");
                let sum: i64 = columns.iter().enumerate().map(|(row, c)| prices[row * n + c]).sum();
                assert_eq!(sum, least(n, &prices, 0, 0), "{n} rows: {prices:?}");
            }
        }
    }
}
