//! Sentences about children who may have been entered twice.

use super::counts::plural;
use crate::domain::roster::{Likeness, Names, Shirts};

pub const TITLE: &str = "Entered twice?";
pub const LEAD: &str =
    "Two phones, two lists: a child can be in both. Nothing is joined by itself. What you say can be taken back.";
pub const NONE: &str = "Nobody looks as if entered twice.";
pub const TWO: &str = "They are two children";
pub const SAME_NAME: &str = "They are one child";
pub const ONE_CHILD: &str = "One child? Then tap the name to keep.";
pub const JOINED: &str = "One child";
pub const JOINED_LINE: &str = "All that was counted for both stands under the name that was kept.";
pub const APART: &str = "Two children";
pub const APART_LINE: &str = "Said once, not asked again.";
pub const OTHERS: &str = "Two of them are one child";
pub const OTHERS_LINE: &str = "Whoever is known here under two names. The first name is kept.";
pub const KEPT: &str = "Name to keep";
pub const ALSO: &str = "Also entered as";
pub const BACK: &str = "Take back";
pub const ASK_AGAIN: &str = "Ask again";
pub const LOOK: &str = "Look";
pub const SAID_BEFORE: &str = "What you said of children entered twice";
pub const ANOTHER_PHONE: &str = "another phone";

/// `2 pairs of names may each be one child`
pub fn waiting(n: usize) -> String {
    match n {
        1 => "Two names may be one child".to_owned(),
        n => format!("{n} pairs of names may each be one child"),
    }
}

/// `Keep “Mira Holm”`
pub fn keep(name: &str) -> String {
    format!("Keep “{name}”")
}

/// `Entered on Ana’s phone, in 3 practices`; `None`: this phone.
pub fn entered(phone: Option<&str>, n_practices: usize, archived: bool) -> String {
    let on = phone.map_or_else(|| "Entered on this phone".to_owned(), |phone| format!("Entered on {phone}"));
    let practices = match n_practices {
        0 => "in no practice yet".to_owned(),
        n => format!("in {}", plural(n, "practice", "practices")),
    };
    let archived = if archived { ", archived" } else { "" };
    format!("{on}, {practices}{archived}")
}

/// `The same shirt number, and names one letter apart.`
pub fn why(like: Likeness) -> String {
    let names = match like.names {
        Names::Same => "the same name",
        Names::Turned => "the same name in another order",
        Names::OneLetter => "names one letter apart",
        Names::Sound => "names that are said alike",
        Names::TwoLetters => "names two letters apart",
        Names::Part => "one name is part of the other",
    };
    match like.shirts {
        Shirts::Same => format!("The same shirt number, and {names}."),
        Shirts::Unknown => format!("{}.", super::capital(names)),
        Shirts::Differ => format!("{}, but two shirt numbers.", super::capital(names)),
    }
}

/// `Mira Holm counts as Mira 7`
pub fn counts_as(stays: &str, also: &str) -> String {
    format!("{also} counts as {stays}")
}

/// `Mira and Mirja`
pub fn are_two(one: &str, other: &str) -> String {
    format!("{one} and {other}")
}
