//! A copy shown to another phone as a moving code, and read there: the same bytes arrive, nothing is taken in unseen, and neither the
//! camera nor the code goes on once its screen is left.

use peppertally::app::action::{Action, CopyHow};
use peppertally::app::codes::doing::{Done, Reader, drawn};
use peppertally::app::codes::{CameraEnd, CodesReport, CodesTap, CodesTask, Seen, Told};
use peppertally::app::effect::{Effect, Report};
use peppertally::app::screen::Screen;
use peppertally::app::view::codes::{ReadAt, ShowAt, read, show};
use peppertally::app::view::{report, share};
use peppertally::app::words::codes as words;
use peppertally::app::work::{Answer, Goes, Span};

use super::phone::Phone;
use super::steps::practised;

fn tapped(phone: &mut Phone, tap: CodesTap) {
    phone.act(Action::Codes(tap));
}

fn told(phone: &mut Phone, report: CodesReport) {
    phone.report(Report::Codes(report));
}

/// What was asked of the shell since the last time.
fn asked(phone: &mut Phone) -> Vec<CodesTask> {
    let effects = std::mem::take(&mut phone.effects);
    let task = |effect| match effect {
        Effect::Codes(task) => Some(task),
        _ => None,
    };
    effects.into_iter().filter_map(task).collect()
}

/// The copy that stands chosen at first is written and drawn; what the worker gives with it.
fn shown(phone: &mut Phone) -> Done {
    phone.act(Action::Go(Screen::Show));
    let view = show(&phone.model);
    let span = view.spans[view.first].1.clone();
    phone.act(Action::CopyWanted(CopyHow::Code, Goes { span, ..Goes::default() }));
    assert_eq!(show(&phone.model).at, ShowAt::Making);
    assert_eq!(asked(phone), [CodesTask::Show]);
    let done = drawn(phone.copied.as_ref().expect("a copy").as_bytes());
    told(phone, CodesReport::Made { told: crossed(&done.told), calm: false });
    done
}

/// As it crosses between page and worker.
fn crossed(told: &Told) -> Told {
    Told::from_text(&told.to_text()).expect("a word that crosses")
}

/// A camera's picture of the `number`th code: four points a square, nothing else in it.
fn seen(done: &Done, number: u16) -> (u32, Vec<u8>) {
    let Told::Drawn { side, .. } = done.told else { panic!("{:?}", done.told) };
    let side = side as usize;
    let squares = &done.bytes[0][usize::from(number) * side * side..][..side * side];
    let across = side * 4;
    let point = |i: usize| if squares[i / across / 4 * side + i % across / 4] == 0 { [255; 4] } else { [0, 0, 0, 255] };
    (across as u32, (0..across * across).flat_map(point).collect())
}

/// From the first tap to the same file on the other phone, which looks at it as at any file.
#[test]
fn a_practice_goes_from_phone_to_phone() {
    let mut coach = Phone::with_squad("Mira\nTove\nOdile\nBram");
    let (practice, _) = practised(&mut coach, &[3, 2, 0, 3, 1]);
    let done = shown(&mut coach);
    let Told::Drawn { n, .. } = done.told else { panic!("{:?}", done.told) };
    assert_eq!(show(&coach.model).at, ShowAt::Standing);
    assert!(show(&coach.model).round.starts_with(&format!("{n} pictures")), "{}", show(&coach.model).round);
    assert_eq!(asked(&mut coach), [CodesTask::Pace(10)]);

    let mut other = Phone::other("Iva");
    other.act(Action::Go(Screen::Read));
    assert!(asked(&mut other).is_empty(), "the camera waits for a tap");
    tapped(&mut other, CodesTap::Camera(true));
    assert_eq!((read(&other.model).at, asked(&mut other)), (ReadAt::Asking, vec![CodesTask::Camera(true)]));
    told(&mut other, CodesReport::CameraOn);
    assert_eq!(read(&other.model).line, words::NOTHING_SEEN);

    let mut reader = Reader::default();
    let order: Vec<u16> = done.bytes[1].chunks(2).map(|pair| u16::from_le_bytes([pair[0], pair[1]])).collect();
    assert_eq!(order.len() % usize::from(n), 0);
    let mut copy = None;
    for (i, number) in order.into_iter().enumerate().filter(|(i, _)| i % 5 != 2) {
        let (side, rgba) = seen(&done, number);
        let looked = reader.look(side, side, &rgba);
        if looked.told == Told::Whole {
            copy = Some(looked.bytes[0].clone());
            break;
        }
        told(&mut other, CodesReport::Read(crossed(&looked.told)));
        let view = read(&other.model);
        assert_eq!(view.here.len(), usize::from(n), "picture {i}");
        assert_eq!(view.line, words::here(view.here.iter().filter(|here| **here).count(), view.here.len()));
    }
    let copy = copy.expect("all of it");
    assert_eq!(copy, coach.copied.clone().expect("a copy").into_bytes());

    asked(&mut other);
    told(&mut other, CodesReport::Read(Told::Whole));
    assert_eq!((asked(&mut other), other.model.screen), (vec![CodesTask::Camera(false)], Screen::Share));
    other.choose(words::FROM_PHONE, "k", &copy);
    let parcel = share::share(&other.model).parcel.expect("looked at");
    assert!(parcel.preview.lead.contains("5 contacts of 1 practice"), "{:?}", parcel.preview);
    assert_eq!(other.model.base.players().len(), 1, "nothing is taken in unseen");
    other.act(Action::ParcelAccepted);
    assert_eq!(other.model.base.players().len(), 5);
    assert!(report::practice_report(&other.model, practice).is_some());
}

/// It counts as no copy: this phone can't know whether it was read.
#[test]
fn showing_is_not_sending() {
    let mut coach = Phone::with_squad("Mira\nTove");
    practised(&mut coach, &[3, 2, 0]);
    let since = share::share(&coach.model).since;
    shown(&mut coach);
    assert!(!coach.model.copy.writing && coach.model.copy.ready.is_none());
    coach.act(Action::Go(Screen::Share));
    assert_eq!(share::share(&coach.model).since, since);
}

/// Stopped, slowed down, ended; and another screen ends it.
#[test]
fn the_code_is_stopped_and_slowed() {
    let mut coach = Phone::with_squad("Mira\nTove");
    practised(&mut coach, &[3, 2, 0]);
    shown(&mut coach);
    asked(&mut coach);
    for (tap, pace) in [
        (CodesTap::Paused(true), 0),
        (CodesTap::Calm(true), 0),
        (CodesTap::Paused(false), 2),
        (CodesTap::Calm(false), 10),
    ] {
        tapped(&mut coach, tap);
        assert_eq!(asked(&mut coach), [CodesTask::Pace(pace)], "{tap:?}");
    }
    tapped(&mut coach, CodesTap::Ended);
    assert_eq!((show(&coach.model).at, asked(&mut coach)), (ShowAt::Choosing(None), vec![CodesTask::EndShowing]));

    shown(&mut coach);
    asked(&mut coach);
    coach.act(Action::Go(Screen::Today));
    assert!(coach.effects.contains(&Effect::RunOn(false)), "the screen may sleep");
    assert_eq!(asked(&mut coach), [CodesTask::EndShowing]);
    coach.act(Action::Go(Screen::Squad));
    assert!(asked(&mut coach).is_empty());
    // Where the phone asks for less motion it begins slowly.
    coach.act(Action::Go(Screen::Show));
    coach.act(Action::CopyWanted(CopyHow::Code, Goes::default()));
    asked(&mut coach);
    told(&mut coach, CodesReport::Made { told: Told::Drawn { n: 9, side: 61 }, calm: true });
    assert_eq!((show(&coach.model).calm, asked(&mut coach)), (true, vec![CodesTask::Pace(2)]));
}

/// A copy that is ready after its screen was left is shown nowhere.
#[test]
fn too_late_is_not_shown() {
    let mut coach = Phone::with_squad("Mira\nTove");
    coach.act(Action::Go(Screen::Show));
    coach.act(Action::CopyWanted(CopyHow::Code, Goes::default()));
    coach.act(Action::Go(Screen::Today));
    asked(&mut coach);
    told(&mut coach, CodesReport::Made { told: Told::Drawn { n: 9, side: 61 }, calm: false });
    assert_eq!((show(&coach.model).at, asked(&mut coach)), (ShowAt::Choosing(None), vec![CodesTask::EndShowing]));
}

/// What can't be shown is said, with what to do instead.
#[test]
fn what_is_not_shown_is_said() {
    let mut coach = Phone::with_squad("Mira\nTove");
    coach.act(Action::Go(Screen::Show));
    coach.act(Action::CopyWanted(CopyHow::Code, Goes { span: Span::All, ..Goes::default() }));
    let mut rng = fastrand::Rng::with_seed(3);
    let large: Vec<u8> = std::iter::repeat_with(|| rng.u8(..)).take(200_000).collect();
    let done = drawn(&large);
    told(&mut coach, CodesReport::Made { told: crossed(&done.told), calm: false });
    let ShowAt::Choosing(Some(why)) = show(&coach.model).at else { panic!("{:?}", show(&coach.model).at) };
    assert!(why.contains("too much for a moving code (201 kB") && why.contains("as a file"), "{why}");

    coach.fails = Some(Answer::Refused("The worker died.".to_owned()));
    coach.act(Action::CopyWanted(CopyHow::Code, Goes::default()));
    assert_eq!(show(&coach.model).at, ShowAt::Choosing(Some("The worker died.".to_owned())));
    coach.fails = None;
    coach.act(Action::CopyWanted(CopyHow::Code, Goes::default()));
    assert_eq!(show(&coach.model).at, ShowAt::Making, "it can be tried again");
}

/// The camera ends with the screen, with the page's sight and with a tap; each time it says what to do.
#[test]
fn the_camera_ends_at_once() {
    let mut phone = Phone::with_squad("Mira\nTove");
    let on = |phone: &mut Phone| {
        phone.act(Action::Go(Screen::Read));
        tapped(phone, CodesTap::Camera(true));
        told(phone, CodesReport::CameraOn);
        assert_eq!(read(&phone.model).at, ReadAt::Looking);
        asked(phone);
    };
    on(&mut phone);
    phone.act(Action::Go(Screen::Share));
    assert_eq!(asked(&mut phone), [CodesTask::Camera(false)]);
    assert_eq!(read(&phone.model).at, ReadAt::Off(None));

    on(&mut phone);
    phone.report(Report::Address("today".to_owned())); // the browser's own way back
    assert_eq!(asked(&mut phone), [CodesTask::Camera(false)]);

    on(&mut phone);
    tapped(&mut phone, CodesTap::Camera(false));
    assert_eq!(asked(&mut phone), [CodesTask::Camera(false)]);
    assert_eq!(read(&phone.model).at, ReadAt::Off(None));

    for end in [CameraEnd::Hidden, CameraEnd::Busy, CameraEnd::Refused, CameraEnd::Absent] {
        on(&mut phone);
        told(&mut phone, CodesReport::CameraEnded(end.clone()));
        assert_eq!(asked(&mut phone), [CodesTask::Camera(false)]);
        assert_eq!(read(&phone.model).at, ReadAt::Off(Some(words::camera(&end))));
    }
    // Refused while it was asked for; and come too late.
    tapped(&mut phone, CodesTap::Camera(true));
    told(&mut phone, CodesReport::CameraEnded(CameraEnd::Refused));
    assert_eq!(read(&phone.model).at, ReadAt::Off(Some(words::camera(&CameraEnd::Refused))));
    asked(&mut phone);
    told(&mut phone, CodesReport::CameraOn);
    assert_eq!(asked(&mut phone), [CodesTask::Camera(false)]);
    told(&mut phone, CodesReport::CameraEnded(CameraEnd::Hidden));
    assert!(asked(&mut phone).is_empty(), "there is none to end");
}

/// Other codes are called so; what was seen before stays.
#[test]
fn other_codes_are_called_so() {
    let mut phone = Phone::with_squad("Mira\nTove");
    phone.act(Action::Go(Screen::Read));
    tapped(&mut phone, CodesTap::Camera(true));
    told(&mut phone, CodesReport::CameraOn);
    for (here, seen, line) in [
        (vec![], Seen::Foreign, words::FOREIGN.to_owned()),
        (vec![], Seen::Nothing, words::NOTHING_SEEN.to_owned()),
        (vec![true, false, false], Seen::Piece, words::here(1, 3)),
        (vec![true, false, false], Seen::Newer, words::NEWER.to_owned()),
        (vec![true, false, false], Seen::Nothing, words::NEWER.to_owned()),
        (vec![true, true, false], Seen::Piece, words::here(2, 3)),
    ] {
        told(&mut phone, CodesReport::Read(crossed(&Told::Seen { here: here.clone(), seen })));
        assert_eq!((read(&phone.model).line, read(&phone.model).here), (line, here), "{seen:?}");
    }
}
