//! Owns which of three engines the phone has, and what each can't do under its driver. Refuses to pass over in silence what isn't tested:
//! a test says what it [`needs!`](crate::needs), and is left out by name where the engine can't; whatever is asked of an engine that
//! can't do it without having been announced so is an error.

use crate::error::{Error, Result};
use std::fmt;
use std::io::Write;
use std::path::Path;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Engine {
    Chromium,
    Firefox,
    WebKit,
}

/// What not every engine can do under its driver.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Can {
    /// Its storage outlives a kill. WebKit's window under automation keeps nothing; see [`crate::Home`].
    Restart,
    /// Fingers, so two of them. WebKit's driver makes a mouse of them.
    Fingers,
    /// A held key comes again.
    HeldKeys,
    /// Tabs that hide each other.
    HiddenTabs,
    /// Another colour scheme while it runs.
    Scheme,
    /// A film in place of what its camera sees.
    Camera,
    /// A list of all that its pages asked for.
    RequestLog,
    /// Less room, a slower processor, another name for itself: Chromium's own protocol.
    Protocol,
}

impl Engine {
    /// What `PEPPERTALLY_ENGINE` names: `chromium`, which is the usual one, `firefox` or `webkit`.
    pub fn chosen() -> Result<Self> {
        let named = std::env::var("PEPPERTALLY_ENGINE").unwrap_or_default();
        match named.as_str() {
            "" | "chromium" => Ok(Self::Chromium),
            "firefox" => Ok(Self::Firefox),
            "webkit" => Ok(Self::WebKit),
            _ => Err(Error::Missing {
                what: format!("PEPPERTALLY_ENGINE is chromium, firefox or webkit, not \"{named}\"."),
            }),
        }
    }

    pub fn can(self, what: Can) -> bool {
        match self {
            Self::Chromium => true,
            Self::Firefox => !matches!(what, Can::Camera | Can::RequestLog | Can::Protocol),
            Self::WebKit => false,
        }
    }

    pub(crate) fn must(self, what: Can) -> Result<()> {
        if self.can(what) { Ok(()) } else { Err(Error::Cannot { engine: self, what }) }
    }
}

impl fmt::Display for Engine {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Debug::fmt(self, f)
    }
}

impl fmt::Display for Can {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Restart => "storage that outlives its driver's window",
            Self::Fingers => "more than one finger",
            Self::HeldKeys => "keys that come again while they are held",
            Self::HiddenTabs => "tabs that hide each other",
            Self::Scheme => "another colour scheme while it runs",
            Self::Camera => "a film in place of its camera",
            Self::RequestLog => "a list of what its pages asked for",
            Self::Protocol => "less room, a slower processor or another name for itself",
        })
    }
}

/// Ends a test here, by name and with the reason, where the engine can't do one of these: `needs!(Restart, Fingers);`.
#[macro_export]
macro_rules! needs {
    ($($can:ident),+ $(,)?) => {{
        fn here() {}
        if $crate::leaves_out(std::any::type_name_of_val(&here), &[$($crate::Can::$can),+])? {
            return Ok(());
        }
    }};
}

/// Whether the engine lacks one of these, which it tells at once.
pub fn leaves_out(here: &str, needed: &[Can]) -> Result<bool> {
    let engine = Engine::chosen()?;
    let lacks: Vec<String> = needed.iter().filter(|can| !engine.can(**can)).map(ToString::to_string).collect();
    if lacks.is_empty() {
        return Ok(false);
    }
    let test = here.trim_end_matches("::here").trim_end_matches("::{{closure}}");
    tell(&format!("left out on {engine}: {test} needs {}", lacks.join(" and ")))?;
    Ok(true)
}

/// Says so where test runners don't swallow it, and in the file that `PEPPERTALLY_LEFT_OUT` names, whose lines are counted at the end.
pub fn tell(line: &str) -> Result<()> {
    let line = format!("{line}\n");
    std::io::stderr().write_all(line.as_bytes()).map_err(Error::io("saying what is left out"))?;
    let Some(path) = std::env::var_os("PEPPERTALLY_LEFT_OUT") else { return Ok(()) };
    let path = Path::new(&path);
    let mut file = std::fs::OpenOptions::new()
        .create(true)
        .append(true)
        .open(path)
        .map_err(Error::io(format!("opening {}", path.display())))?;
    file.write_all(line.as_bytes()).map_err(Error::io(format!("writing {}", path.display())))
}
