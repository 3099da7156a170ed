//! First to so many points, between two to four: who gets there, and after how many points. The old problem of points, with or without a lead.

/// A race as it is set and as it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Race<'a> {
    /// Points to reach, from 1.
    pub to: u32,
    /// Points ahead of every other that are asked for as well; 0 and 1 are the same.
    pub lead: u32,
    /// How likely the next point is each one's: any measure, only its shares count. Two to four.
    pub chances: &'a [f64],
    /// What each has already.
    pub scores: &'a [u32],
    /// Looked at for so many more points and no further.
    pub within: u32,
}

/// What becomes of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Ended {
    /// The chance of each to be the one.
    pub wins: Vec<f64>,
    /// The chance that nobody is, within the points looked at.
    pub open: f64,
    /// How many points are played until somebody is or the look ends, on average.
    pub points: f64,
}

/// Positions looked at, at most: with four to 25 and a lead of two there are three million.
const MOST_POSITIONS: usize = 10_000_000;
/// How far beyond the goal a race for the lead is followed; what is still open there (under 1e-9 at even chances) is shared as the next two
/// points would.
const BEYOND: u32 = 30;

impl Race<'_> {
    /// Every position there is, with the chance that the race comes by (Pascal and Fermat 1654). `None` for less than two or more than four,
    /// chances below 0 or all 0, a race that is over before it begins, and more than ten million positions.
    ///
    /// ```
    /// use peppertally::stats::goal::race::Race;
    /// // Pascal to Fermat, 29 July 1654: of three points each has two and one.
    /// let race = Race { to: 3, lead: 0, chances: &[1.0, 1.0], scores: &[2, 1], within: u32::MAX };
    /// assert_eq!(race.ended().unwrap().wins, [0.75, 0.25]);
    /// ```
    pub fn ended(&self) -> Option<Ended> {
        let n = self.chances.len();
        let sum: f64 = self.chances.iter().sum();
        let sound = self.chances.iter().all(|chance| *chance >= 0.0) && sum > 0.0 && sum.is_finite();
        if !(2..=4).contains(&n)
            || self.scores.len() != n
            || !sound
            || self.to == 0
            || self.winner(self.scores).is_some()
        {
            return None;
        }
        let chances: Vec<f64> = self.chances.iter().map(|chance| chance / sum).collect();
        // Nobody gets further than this without having won, but for what is cut off.
        let end = if self.lead > 1 { self.to.max(*self.scores.iter().max()?).checked_add(BEYOND)? } else { self.to };
        let sizes: Vec<usize> = self.scores.iter().map(|score| (end - score) as usize + 1).collect();
        let positions = sizes.iter().try_fold(1_usize, |product, size| product.checked_mul(*size))?;
        (positions <= MOST_POSITIONS).then(|| self.played(&chances, end, &sizes))
    }

    /// One layer of positions for each score of the first; within it those of the others, the last one's the quickest to change.
    fn played(&self, chances: &[f64], end: u32, sizes: &[usize]) -> Ended {
        let n = chances.len();
        let mut strides = vec![1; n];
        (1..n - 1).rev().for_each(|i| strides[i] = strides[i + 1] * sizes[i + 1]);
        let mut layer = vec![0.0; sizes[1..].iter().product()];
        let mut ended = Ended { wins: vec![0.0; n], open: 0.0, points: 0.0 };
        let mut scores = self.scores.to_vec();
        let mut first = true;
        for score in self.scores[0]..=end {
            scores[0] = score;
            scores[1..].copy_from_slice(&self.scores[1..]);
            for at in 0..layer.len() {
                // What stands here still is the layer before: a point of the first leads from there to here.
                let mut comes_by = if first { 1.0 } else { chances[0] * layer[at] };
                for i in 1..n {
                    if scores[i] > self.scores[i] {
                        comes_by += chances[i] * layer[at - strides[i]];
                    }
                }
                first = false;
                layer[at] =
                    if comes_by > 0.0 { self.goes_on(&mut ended, chances, &scores, end, comes_by) } else { 0.0 };
                // The next position of the layer.
                for i in (1..n).rev() {
                    if scores[i] < end {
                        scores[i] += 1;
                        break;
                    }
                    scores[i] = self.scores[i];
                }
            }
        }
        ended
    }

    /// Notes what ends here; the rest is played on.
    fn goes_on(&self, ended: &mut Ended, chances: &[f64], scores: &[u32], end: u32, comes_by: f64) -> f64 {
        let points: u32 = scores.iter().zip(self.scores).map(|(now, then)| now - then).sum();
        if let Some(winner) = self.winner(scores) {
            ended.wins[winner] += comes_by;
        } else if points >= self.within {
            ended.open += comes_by;
        } else if scores.contains(&end) {
            let twice: f64 = chances.iter().map(|chance| chance * chance).sum();
            ended.wins.iter_mut().zip(chances).for_each(|(wins, chance)| *wins += comes_by * chance * chance / twice);
        } else {
            ended.points += comes_by;
            return comes_by;
        }
        0.0
    }

    fn winner(&self, scores: &[u32]) -> Option<usize> {
        let (mut best, mut second) = (0, None);
        for at in 1..scores.len() {
            if scores[at] > scores[best] {
                (best, second) = (at, Some(scores[best]));
            } else {
                second = second.max(Some(scores[at]));
            }
        }
        let ahead = scores[best] - second.unwrap_or(0);
        (scores[best] >= self.to && ahead >= self.lead.max(1)).then_some(best)
    }
}
