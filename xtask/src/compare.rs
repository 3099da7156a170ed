//! The pure numbers against scipy and statsmodels (`tests/compare`), where there is a Python. The published values in the tests stand without it.

use crate::python::Needs;
use crate::shell::{Result, command, run, timed};

const NEEDS: Needs = Needs {
    what: "pure numbers against scipy and statsmodels",
    imports: "import mpmath, numpy, scipy, statsmodels",
    requirements: "tests/compare/requirements.txt",
    folder: ("compare", "1"),
};

/// Compares, or prints why it doesn't.
pub fn where_python_is() -> Result {
    let Some(python) = NEEDS.python()? else { return Ok(()) };
    timed(NEEDS.what, || {
        let mut compare = command(python, &["-W", "ignore", "tests/compare/compare.py"]);
        compare.arg(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
        compare.args(["run", "--quiet", "--package", "numbers", "--example", "compare"]);
        run(compare)
    })
}
