//! Totals of one child, or of everyone: tries and good ones, rows and the last ten, on easy and on challenge balls apart; told
//! counts, efforts. Advances by one contact; refuses to go back (undo folds the run again).

use super::super::entry::Contact;
use super::super::skill::{FeedKind, Outcome, ServeOutcome};
use crate::stats::proportion::Count;
use crate::stats::rows::{LastTen, Rows};

/// What was counted for one child or for everyone in one run.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tally {
    judged: Judged,
    easy: Judged,
    challenge: Judged,
    told: Count,
    /// Of the balls of one who was watched alone, all of them: the honest sample.
    watched: Count,
    pub n_no_chance: u32,
    /// Good ones counted where the others aren't: no rate comes of them.
    pub n_counted: u32,
    pub n_efforts: u32,
    pub serve: ServeTally,
}

/// Tries judged one by one, in order.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Judged {
    pub count: Count,
    pub rows: Rows,
    pub last: LastTen,
}

/// Where serves went, and how many swings were fast.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct ServeTally {
    pub n_in: u32,
    pub n_long: u32,
    pub n_wide: u32,
    pub n_net: u32,
    pub n_fast: u32,
}

impl Tally {
    /// Notes a contact. A contact that is nobody's try counts as no chance only.
    pub fn note(&mut self, contact: &Contact) {
        if let Outcome::Serve { outcome, fast } = contact.outcome {
            self.serve.note(outcome, fast);
        }
        self.n_no_chance += u32::from(contact.outcome == Outcome::NoChance);
        self.n_counted += u32::from(contact.outcome == Outcome::Counted);
        let Some(good) = contact.good_from.judge(contact.outcome) else { return };
        self.judged.note(good);
        if contact.watched {
            self.watched.note(good);
        }
        match contact.feed.kind {
            FeedKind::Easy => self.easy.note(good),
            FeedKind::Challenge => self.challenge.note(good),
        }
    }

    /// Told counts feed rates, never rows. Replaces what was told before.
    pub fn set_told(&mut self, told: Count) {
        self.told = told;
    }

    /// On the balls of this kind; `None`: on all, where a run has but one kind.
    pub fn of(&self, kind: Option<FeedKind>) -> &Judged {
        match kind {
            None => &self.judged,
            Some(FeedKind::Easy) => &self.easy,
            Some(FeedKind::Challenge) => &self.challenge,
        }
    }

    pub fn told(&self) -> Count {
        self.told
    }

    /// Judged while the coach watched this child alone.
    pub fn watched(&self) -> Count {
        self.watched
    }

    /// Judged and told together.
    pub fn all(&self) -> Count {
        self.judged.count + self.told
    }
}

impl Judged {
    fn note(&mut self, good: bool) {
        self.count.note(good);
        self.rows.note(good);
        self.last.note(good);
    }
}

impl ServeTally {
    pub fn note(&mut self, outcome: ServeOutcome, fast: bool) {
        match outcome {
            ServeOutcome::Ace | ServeOutcome::In => self.n_in += 1,
            ServeOutcome::Long => self.n_long += 1,
            ServeOutcome::Wide => self.n_wide += 1,
            ServeOutcome::Net => self.n_net += 1,
        }
        self.n_fast += u32::from(fast);
    }
}
