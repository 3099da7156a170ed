//! Notes and questions: what is tapped, where it belongs, and what all practices say of it. Reads summaries and loose entries, never a
//! packed practice.

use super::model::{Model, PackedPractice};
use super::plan::{standing, was_there};
use super::practices::Practices;
use super::screen::Screen;
use super::words::notes as words;
use crate::domain::drill::DrillSpec;
use crate::domain::ids::{DrillId, EntryId, NoteId, PlayerId, PracticeId};
use crate::domain::library::LibraryNo;
use crate::domain::notes::{Asked, Note, NoteAbout, Remark, Spot, Turn, in_turn, questions_in_turn};
use crate::stats::arrange::arranged;

/// What a note may be about, as it is tapped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Subject {
    Child(PlayerId),
    /// Of the groups as they stand here.
    Group(usize),
    Run,
    Part,
    Practice,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotesTap {
    /// A note is to be written: on the board, where the child of the last contact is meant already.
    Opened,
    /// On the screen of its own; of a practice that is over, about a child.
    Wanted(Option<PracticeId>, Option<PlayerId>),
    About(Subject),
    /// Writes the note, or puts the tag on the one that was just written; a second tap takes it off.
    Tagged(String),
    Typed(String),
    /// What is typed becomes the note's words.
    Kept,
    TakenBack(EntryId),
    PutBack(EntryId),
    Question(AskTap),
    Edit(EditTap),
    Tags(ListTap),
    /// The coach's own questions, of the drill at hand or of any.
    Own(ListTap),
    OwnOf(bool),
    Sought(Sought),
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum AskTap {
    /// A question is to be asked: on the board; on a screen of its own, of a drill or as it is worded there.
    Opened,
    Wanted(Source, Option<String>),
    OtherQuestion,
    OtherChild,
    Asked,
    /// After a practice: this question was asked of this child.
    AskedAfter(PracticeId, PlayerId, String),
}

/// Where a question comes from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Source {
    /// The drill that is on, or the part's.
    #[default]
    Here,
    Drill(DrillId),
    Library(LibraryNo),
    /// Of no drill.
    Nothing,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EditTap {
    About(NoteAbout),
    Child(PlayerId),
    Tagged(String),
    Typed(String),
    Kept,
}

/// A list of the coach's own words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ListTap {
    Typed(String),
    /// What is typed is added, or takes the place of the one that is being changed.
    Kept,
    Change(String),
    Removed(String),
}

/// Which notes are read. All of it holds at once.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sought {
    pub child: Option<PlayerId>,
    pub tag: Option<String>,
}

/// What is tapped and typed and not an entry.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct NotesDraft {
    pub pad: Pad,
    pub ask: Ask,
    pub edit: Option<(NoteId, Note)>,
    pub tag: Typing,
    pub own: Typing,
    /// The own question that is typed is of any drill.
    pub own_of_any: bool,
    pub sought: Sought,
}

#[derive(Clone, Debug, Default, PartialEq)]
pub struct Typing {
    pub text: String,
    /// Which one is being changed.
    pub instead_of: Option<String>,
}

/// The note that is being written.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Pad {
    /// A practice that is over; else of the one that is on.
    pub of: Option<PracticeId>,
    pub about: Option<Subject>,
    /// Where the words that wait were typed: there the note belongs, wherever it is gone on with.
    pub spot: Option<Spot>,
    /// What was written here last: more tags go onto it.
    pub said: Option<EntryId>,
    /// It was begun because the one before was full.
    pub anew: bool,
}

/// The question that is proposed. Worked out when it is opened, so that it stays while it is read out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ask {
    pub source: Source,
    /// In the order in which they are asked, each as it stood when this was opened.
    pub children: Vec<Turn>,
    pub child: usize,
    pub questions: Vec<String>,
    pub question: usize,
    /// The coach chose the wording: another child leaves it.
    pub chosen: bool,
    pub asked: Option<EntryId>,
}

impl Ask {
    pub fn player(&self) -> Option<PlayerId> {
        self.turn().map(|turn| turn.player)
    }

    pub fn turn(&self) -> Option<Turn> {
        self.children.get(self.child).copied()
    }

    pub fn question(&self) -> Option<&String> {
        self.questions.get(self.question)
    }
}

/// The coach's tags, or the ready ones.
pub fn tags(model: &Model) -> Vec<String> {
    match model.base.note_tags() {
        Some(tags) => tags.to_vec(),
        None => words::TAGS.iter().map(|tag| (*tag).to_owned()).collect(),
    }
}

/// Where a note or question of this moment belongs.
pub fn spot(model: &Model) -> Spot {
    let of = model.drafts.notes.pad.of.filter(|_| model.screen == Screen::Note);
    if of.is_some() {
        return Spot { practice: of, ..Spot::default() };
    }
    let run = match model.screen {
        Screen::Run(id) => model.runs.get(&id),
        _ => model.run_on(),
    };
    let today = model.practice_today().map(|p| p.id);
    let practice = run.map(|run| run.practice).or(today);
    let part = standing(model).filter(|_| practice == today).and_then(|(_, s)| s.on).map(|on| on.part);
    Spot { practice, run: run.map(|run| run.id), part }
}

/// The groups at hand: of the run, else of the practice.
pub fn groups(model: &Model) -> Vec<Vec<PlayerId>> {
    let spot = spot(model);
    let of_run = spot.run.and_then(|id| model.runs.get(&id)).map(|run| run.main.lineup.groups.clone());
    match of_run {
        Some(groups) if !groups.is_empty() => groups,
        _ if model.drafts.notes.pad.of.is_some() && model.screen == Screen::Note => Vec::new(),
        _ => super::groups::standing(model),
    }
}

/// What a tapped subject means here; nothing where it is gone.
pub fn about(model: &Model, subject: Subject) -> Option<NoteAbout> {
    let spot = spot(model);
    match subject {
        Subject::Child(player) => Some(NoteAbout::Children(vec![player])),
        Subject::Group(at) => groups(model).into_iter().nth(at).map(NoteAbout::Children),
        Subject::Run => spot.run.map(|_| NoteAbout::Run),
        Subject::Part => spot.part.map(|_| NoteAbout::Part),
        Subject::Practice => spot.practice.map(|_| NoteAbout::Practice),
    }
}

/// Practices of which a summary alone is in memory.
fn unread(model: &Model) -> impl Iterator<Item = &PackedPractice> {
    model.packed.values().filter(|p| !p.read)
}

/// A note or question as it stands, wherever it lies; not one that was taken back and lies packed.
pub fn remark(model: &Model, id: EntryId) -> Option<Remark> {
    let packed = || unread(model).flat_map(|p| &p.summary.remarks).find(|remark| remark.id == id).cloned();
    model.base.remark(id).or_else(packed)
}

/// The practice that a note lies packed in, unread.
pub fn packed_with(model: &Model, id: EntryId) -> Option<PracticeId> {
    unread(model).find(|p| p.summary.remark_ids.contains(&id)).map(|p| p.summary.practice)
}

/// All that stand, the latest first.
pub fn all(model: &Model) -> Vec<Remark> {
    let known = model.base.remarks(|_| true);
    let packed = unread(model).flat_map(|p| &p.summary.remarks);
    let packed = packed.filter(|remark| model.base.remark(remark.id).is_none() && !model.base.is_taken_back(remark.id));
    let all = packed.cloned().chain(known).collect();
    arranged(all, |a: &Remark, b| (b.at.wall_ms, b.id).cmp(&(a.at.wall_ms, a.id)))
}

/// Every question that was asked, and when.
pub fn asked(model: &Model) -> Vec<(i64, Asked)> {
    all(model).into_iter().filter_map(|r| Some((r.at.wall_ms, r.asked()?.clone()))).collect()
}

/// How it stands with asking each of these, in their order; `asked`: every question that counts, and when.
pub fn turns_of(model: &Model, players: Vec<PlayerId>, asked: &[(i64, Asked)]) -> Vec<Turn> {
    let practices = Practices::of(model);
    let practices = practices.latest_first();
    let turn = |player: PlayerId| {
        let here = practices.iter().filter(|p| was_there(model, p, player)).count();
        let of = || asked.iter().filter(|(_, asked)| asked.player == player);
        let n = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        Turn { player, n_here: n(here), n_asked: n(of().count()), last_ms: of().map(|(at, _)| *at).max() }
    };
    players.into_iter().map(turn).collect()
}

/// Those who are here, in the order in which they are asked.
pub fn to_ask(model: &Model) -> Vec<Turn> {
    let turns = turns_of(model, model.here(), &asked(model));
    let of = |player: PlayerId| turns.iter().find(|turn| turn.player == player).copied();
    in_turn(&turns).into_iter().filter_map(of).collect()
}

/// The drill that questions are about, if there is one.
pub fn drill_of(model: &Model, source: Source) -> Option<DrillId> {
    match source {
        Source::Nothing => None,
        Source::Drill(id) => Some(id),
        Source::Library(no) => {
            let spec = &model.shelf.library()?.drill(no)?.spec;
            model.base.drills().into_iter().find(|(_, known)| *known == spec).map(|(id, _)| id)
        }
        Source::Here => {
            let part = standing(model).and_then(|(plan, s)| model.base.plan(plan)?.part(s.on?.part)?.drill);
            spot(model).run.and_then(|run| model.runs.get(&run)?.drill).or(part)
        }
    }
}

/// Questions for a child: of the drill the coach's own, then the library's; her own of any drill; and some that always fit.
pub fn questions(model: &Model, source: Source, player: PlayerId) -> Vec<String> {
    let asked = asked(model);
    let asked: Vec<&Asked> = asked.iter().map(|(_, asked)| asked).collect();
    questions_by(model, source, player, &asked)
}

/// The same, with these questions counted as asked.
pub fn questions_by(model: &Model, source: Source, player: PlayerId, asked: &[&Asked]) -> Vec<String> {
    let drill = drill_of(model, source);
    let run = spot(model).run.and_then(|run| model.runs.get(&run)).filter(|_| source == Source::Here);
    let spec: Option<&DrillSpec> = run.map(|run| &run.spec).or_else(|| model.base.drill(drill?));
    let library = model.shelf.library();
    let page = match source {
        Source::Library(no) => library.and_then(|library| library.drill(no)),
        _ => library.zip(spec).and_then(|(library, spec)| library.source_of(spec)),
    };
    let mut all: Vec<String> = Vec::new();
    let own = drill.map_or(&[][..], |drill| model.base.questions(Some(drill)));
    let of_drill = own.iter().chain(page.into_iter().flat_map(|page| &page.ask));
    all.extend(of_drill.chain(model.base.questions(None)).cloned());
    // Where the drill has some of its own they are better than what fits any.
    if all.is_empty() {
        all.extend(words::QUESTIONS.iter().map(|question| (*question).to_owned()));
    }
    questions_in_turn(&all, asked, player).into_iter().cloned().collect()
}
