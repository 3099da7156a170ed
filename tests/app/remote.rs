//! Keys of a remote: what each stands for, and that none stands for two things on one board.

use peppertally::app::action::Action;
use peppertally::app::effect::Effect;
use peppertally::app::remote::{Boards, Stands};
use peppertally::app::settings::Settings;
use peppertally::app::view::share;

use super::phone::Phone;

/// Gives keys in this order, and what is left of them: `sense key`, in the order of the screen.
fn check(given: &[(Stands, &str)], left: &str) {
    let mut phone = Phone::with_squad("Mira\nTove");
    for (stands, name) in given {
        phone.act(Action::RemoteKeyGiven(*stands, (*name).to_owned()));
    }
    let view = share::phone(&phone.model);
    let keys = Boards::ALL.iter().flat_map(|boards| boards.keys());
    let told: Vec<String> =
        keys.filter_map(|stands| view.remote.key_of(*stands).map(|key| format!("{} {key}", stands.id()))).collect();
    assert_eq!(told.join(", "), left, "{given:?}");
    // As it is kept, so it is read.
    let kept = Settings::from_json(&phone.model.settings.to_json()).expect("settings that were just written");
    assert_eq!(kept.remote, phone.model.settings.remote);
}

#[test]
fn a_key_means_one_thing_on_a_board() {
    use Stands::{Good, NotGood, Pass0, Pass3, ServeIn, Undo};
    check(&[], "");
    check(&[(Good, "PageUp"), (NotGood, "PageDown")], "good PageUp, not-good PageDown");
    // The same key on boards that are never there together.
    check(&[(Pass3, "PageUp"), (ServeIn, "PageUp"), (Good, "PageUp")], "pass-3 PageUp, serve-in PageUp, good PageUp");
    // On one board the last one has it.
    check(&[(Good, "PageUp"), (NotGood, "PageUp")], "not-good PageUp");
    check(&[(Pass3, "a"), (ServeIn, "a"), (Undo, "a")], "undo a");
    check(&[(Undo, "a"), (Pass3, "a")], "pass-3 a");
    // Another key for the same, and a letter with and without capitals.
    check(&[(Pass0, "x"), (Pass0, "y")], "pass-0 y");
    check(&[(Pass0, "X"), (Pass3, "x")], "pass-3 x");
    // Nonsense.
    for key in ["Tab", "Escape", "Shift", "Unidentified", "", &"n".repeat(41)] {
        check(&[(Good, "PageUp"), (Good, key)], "good PageUp");
    }
}

#[test]
fn a_key_is_freed_and_what_is_chosen_is_kept() {
    let mut phone = Phone::with_squad("Mira\nTove");
    phone.act(Action::RemoteKeyGiven(Stands::Good, "PageUp".to_owned()));
    let kept = |effect: &Effect| matches!(effect, Effect::KeepSettings(text) if text.contains("PageUp"));
    assert!(phone.effects.iter().any(kept), "{:?}", phone.effects);
    phone.act(Action::RemoteKeyGiven(Stands::Good, "Tab".to_owned()));
    assert!(share::phone(&phone.model).remote_refused, "it is said");
    phone.act(Action::RemoteKeyFreed(Stands::Good));
    let view = share::phone(&phone.model);
    assert_eq!((view.remote.key_of(Stands::Good), view.remote_refused), (None, false));
    assert_eq!(view.remote.senses("PageUp").count(), 0);
    // Settings of before there were remotes.
    let old = Settings::from_json(r#"{"sound":true}"#).expect("older settings are read");
    assert_eq!(old.remote.key_of(Stands::Good), None);
}

/// Another version of the app may know more senses: they are kept for it, and cost nothing else.
#[test]
fn a_sense_of_another_version_is_kept() {
    let text = r#"{"sound":true,"copied_clock":7,"remote":[["block","b"],["pass3","PageUp"],["serve-in","s"]]}"#;
    let mut settings = Settings::from_json(text).expect("settings of another version are read");
    assert_eq!((settings.sound, settings.copied_clock), (true, 7));
    assert_eq!(settings.remote.key_of(Stands::Pass3), Some("PageUp"), "as it was kept at first");
    assert_eq!(settings.remote.senses("b").count(), 0);
    assert!(settings.remote.give(Stands::Good, "g"));
    assert!(settings.to_json().contains(r#"["block","b"]"#), "{}", settings.to_json());
    // Its key is wanted for something else: whether both are on one board isn't known.
    assert!(settings.remote.give(Stands::Good, "b"));
    assert!(!settings.to_json().contains("block"), "{}", settings.to_json());
}
