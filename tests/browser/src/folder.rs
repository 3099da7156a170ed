//! Owns a phone's own folder: the browser's profile, its downloads, and the files in which an engine is told how to behave. Refuses to
//! touch a profile that it did not make.

use crate::engine::Engine;
use crate::error::{Error, Result};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};

/// How long a dying browser may still write.
const LIMIT: Duration = Duration::from_secs(20);

/// Chromium: an empty page at the start, as the usual one asks search engine and account for news; and no dictionary to fetch.
const PREFERENCES: &str = r#"{
    "session": { "restore_on_startup": 4, "startup_urls": ["about:blank"] },
    "browser": { "enable_spellchecking": false },
    "spellcheck": { "dictionaries": [] }
}"#;

/// Firefox: nothing but the page in its window, which may be as narrow as a phone.
const BARE_FIREFOX: &str =
    ":root { min-width: 0 !important; min-height: 0 !important } #navigator-toolbox { display: none !important }";

/// WebKit's window: so small a tool bar that it may be as narrow as a phone.
const BARE_WEBKIT: &str = "* { min-width: 0; min-height: 0; padding: 0; margin: 0; font-size: 1px } image { opacity: 0; -gtk-icon-transform: scale(0) }";

/// Gone when it is dropped.
pub(crate) struct Folder {
    root: PathBuf,
}

impl Folder {
    pub(crate) fn fresh(engine: Engine) -> Result<Self> {
        static NEXT: AtomicU32 = AtomicU32::new(1);
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        let root = std::env::temp_dir().join(format!("peppertally-phone-{}-{number}", std::process::id()));
        let folder = Self { root };
        for path in [folder.profile(), folder.downloads()] {
            std::fs::create_dir_all(&path).map_err(Error::io(format!("making {}", path.display())))?;
        }
        match engine {
            Engine::Chromium => folder.write("profile/Default/Preferences", PREFERENCES)?,
            Engine::Firefox => folder.write("profile/chrome/userChrome.css", BARE_FIREFOX)?,
            Engine::WebKit => {
                folder.write("gtk-3.0/gtk.css", BARE_WEBKIT)?;
                let downloads = format!("XDG_DOWNLOAD_DIR=\"{}\"\n", folder.downloads().display());
                folder.write("user-dirs.dirs", &downloads)?;
            }
        }
        Ok(folder)
    }

    pub(crate) fn root(&self) -> &Path {
        &self.root
    }

    pub(crate) fn profile(&self) -> PathBuf {
        self.root.join("profile")
    }

    pub(crate) fn downloads(&self) -> PathBuf {
        self.root.join("downloads")
    }

    fn write(&self, name: &str, text: &str) -> Result<()> {
        let path = self.root.join(name);
        let folder = path.parent().unwrap_or(&self.root);
        std::fs::create_dir_all(folder).map_err(Error::io(format!("making {}", folder.display())))?;
        std::fs::write(&path, text).map_err(Error::io(format!("writing {}", path.display())))
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // A dying process may still write; it can't once it is gone, so this ends.
        let limit = Instant::now() + LIMIT;
        while std::fs::remove_dir_all(&self.root).is_err() && self.root.exists() && Instant::now() < limit {
            std::thread::sleep(Duration::from_millis(5));
        }
    }
}
