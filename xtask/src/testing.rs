//! What several tests of this crate need.

use std::path::{Path, PathBuf};
use std::{env, fs, process};

/// A folder with some files, gone at the end of the test.
pub struct TestFolder(PathBuf);

impl TestFolder {
    /// `name` keeps the tests of one run apart; each file is (path, content).
    pub fn with(name: &str, files: &[(&str, &str)]) -> Self {
        let folder = env::temp_dir().join(format!("peppertally-{name}-{}", process::id()));
        for (path, content) in files {
            let file = folder.join(path);
            fs::create_dir_all(file.parent().unwrap()).unwrap();
            fs::write(file, content).unwrap();
        }
        Self(folder)
    }

    pub fn path(&self) -> &Path {
        &self.0
    }
}

impl Drop for TestFolder {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).unwrap();
    }
}
