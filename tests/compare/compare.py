"""Holds the pure numbers against scipy and statsmodels on random inputs, 10,000 a function.

    python compare.py cargo run --quiet --package numbers --example compare

Closed forms may differ by 1e-9, what is averaged by quadrature by 1e-6, relative, with a floor of 1e-12. Prints the largest error of each;
ends with 1 where one is too large. Last, the numbers of a season are worked out by both, in one run, and the ratio of the times is told.
"""

import subprocess
import sys
import time

import mpmath
import numpy as np
from scipy import special, stats
from statsmodels.genmod.families import Binomial
from statsmodels.genmod.generalized_linear_model import GLM
from statsmodels.stats.inter_rater import cohens_kappa
from statsmodels.stats.multitest import multipletests
from statsmodels.stats.proportion import confint_proportions_2indep, proportion_confint

CASES = 10_000
CLOSED, QUADRATURE, FLOOR = 1e-9, 1e-6, 1e-12
rng = np.random.default_rng(5)


def beta_numbers(n):
    """From half a try to 100,000, most of them small."""
    return np.exp(rng.uniform(np.log(0.5), np.log(1e5), n))


def counts(n):
    tries = np.floor(np.exp(rng.uniform(0, np.log(1e5), n))).astype(int)
    share = rng.beta(0.7, 0.7, n)
    return np.minimum(np.round(share * tries).astype(int), tries), tries


def near_middle(a, b, n):
    """Shares within eight standard deviations of a beta's mean."""
    mean = a / (a + b)
    sd = np.sqrt(mean * (1 - mean) / (a + b + 1))
    return np.clip(mean + sd * rng.uniform(-8, 8, n), 1e-12, 1 - 1e-12)


def normal_below(n):
    z = rng.uniform(-37, 8, n)
    return [(x,) for x in z], stats.norm.cdf(z), CLOSED


def normal_quantile(n):
    p = np.where(rng.random(n) < 0.5, rng.random(n), 10 ** rng.uniform(-300, 0, n))
    return [(x,) for x in p], special.ndtri(p), CLOSED


def ln_gamma(n):
    x = np.exp(rng.uniform(np.log(1e-3), np.log(1e6), n))
    return [(v,) for v in x], special.gammaln(x), CLOSED


def beta_below(n):
    a, b = beta_numbers(n), beta_numbers(n)
    x = near_middle(a, b, n)
    return list(zip(a, b, x)), special.betainc(a, b, x), CLOSED


def beta_quantile(n):
    a, b, p = beta_numbers(n), beta_numbers(n), rng.uniform(1e-6, 1 - 1e-6, n)
    return list(zip(a, b, p)), special.betaincinv(a, b, p), CLOSED


def wilson(n):
    good, tries = counts(n)
    return list(zip(good, tries)), np.array(proportion_confint(good, tries, method="wilson")).T, CLOSED


def jeffreys(n):
    good, tries = counts(n)
    low, high = proportion_confint(good, tries, method="jeffreys")
    # The ends are kept, as Brown, Cai and DasGupta have it.
    return list(zip(good, tries)), np.array([np.where(good == 0, 0, low), np.where(good == tries, 1, high)]).T, CLOSED


def difference(n):
    (g, m), (h, k) = counts(n), counts(n)
    ends = [confint_proportions_2indep(*c, method="newcomb", compare="diff", alpha=0.05) for c in zip(g, m, h, k)]
    return list(zip(g, m, h, k)), np.array(ends), CLOSED


def second_higher(n):
    """Against the finite sum for whole numbers (Cook 2005, 'Exact calculation of beta inequalities')."""
    a, b, c, d = (np.floor(np.exp(rng.uniform(0, np.log(2000), n))) for _ in range(4))
    exact = np.empty(n)
    for at in range(n):
        i = np.arange(c[at])
        terms = special.betaln(a[at] + i, b[at] + d[at]) - np.log(d[at] + i) - special.betaln(1 + i, d[at])
        exact[at] = np.exp(terms - special.betaln(a[at], b[at])).sum()
    return list(zip(a, b, c, d)), exact, QUADRATURE


def adjusted(n):
    lists = [rng.random(rng.integers(1, 25)) ** 3 for _ in range(n)]
    return [tuple(p) for p in lists], [multipletests(p, method="fdr_bh")[1] for p in lists], CLOSED


def at_least(n):
    good, tries = counts(n)
    p = rng.random(n)
    return list(zip(good, tries, p)), stats.binom.sf(good - 1, tries, p), CLOSED


def row_within(n):
    """By the powers of the chain's matrix."""
    long, step, tries, p = rng.integers(1, 9, n), rng.integers(0, 5, n), rng.integers(0, 200, n), rng.random(n)
    exact = np.empty(n)
    for at in range(n):
        k, chain = long[at], np.zeros((long[at] + 1, long[at] + 1))
        for now in range(k):
            chain[now, now + 1] += p[at]
            chain[now, now - now % step[at] if step[at] else 0] += 1 - p[at]
        chain[k, k] = 1
        exact[at] = np.linalg.matrix_power(chain, tries[at])[0, k]
    return list(zip(long, step, tries, p)), exact, CLOSED


def row_tries(n):
    """Feller's formula in 50 digits."""
    long, p = rng.integers(1, 13, n), rng.uniform(0.05, 0.999, n)
    exact = []
    for k, chance in zip(long, p):
        with mpmath.workdps(50):
            chance = mpmath.mpf(float(chance))
            once = (1 - chance) * chance ** int(k)
            variance = 1 / once**2 - (2 * int(k) + 1) / once - chance / (1 - chance) ** 2
            exact.append((float((1 - chance ** int(k)) / once), float(mpmath.sqrt(variance))))
    return list(zip(long, p)), exact, CLOSED


def race(n):
    """Two, with no lead or a lead of two: sums over the negative binomial."""
    to, lead, p = rng.integers(1, 31, n), rng.integers(0, 2, n) * 2, rng.uniform(0.02, 0.98, n)
    tied = stats.binom.pmf(to - 1, 2 * to - 2, p)
    before = stats.nbinom.cdf(to - 2, to, p)
    wins = np.where(lead == 0, before + tied * p, before + tied * p**2 / (p**2 + (1 - p) ** 2))
    return list(zip(to, lead, p, 1 - p)), np.array([wins, 1 - wins]).T, CLOSED


def kappa(n):
    tables, exact = [], []
    for _ in range(n):
        kind, grades = rng.integers(0, 3), rng.integers(2, 5)
        table = rng.integers(0, 30, (grades, grades)) + np.eye(grades, dtype=int)
        result = cohens_kappa(table, wt=[None, "linear", "quadratic"][kind])
        tables.append((kind, *table.ravel()))
        exact.append((result.kappa, result.std_kappa))
    return tables, exact, CLOSED


def by_chance(n):
    good, tries = counts(n)
    p = rng.random(n)
    tails = np.minimum(stats.binom.sf(good - 1, tries, p), stats.binom.cdf(good, tries, p))
    return list(zip(good, tries, p)), np.minimum(1, 2 * tails), CLOSED


def by_chance_mixed(n):
    tries = rng.integers(1, 60, n)
    a, b = np.exp(rng.uniform(np.log(0.5), np.log(300), (2, n)))
    good = rng.binomial(tries, rng.random(n))
    exact = []
    for g, m, x, y in zip(good, tries, a, b):
        chances = np.exp(
            special.gammaln(m + 1) - special.gammaln(np.arange(m + 1) + 1) - special.gammaln(m - np.arange(m + 1) + 1)
            + special.betaln(np.arange(m + 1) + x, m - np.arange(m + 1) + y) - special.betaln(x, y)
        )
        exact.append(min(1, 2 * min(chances[g:].sum(), chances[: g + 1].sum())))
    return list(zip(good, tries, a, b)), exact, QUADRATURE


def pairs(n):
    """By a generalised linear model; a tenth of the cases, for the time it takes."""
    tables, exact = [], []
    upper = [(i, j) for i in range(5) for j in range(i)]
    design = np.zeros((10, 5))
    for row, (i, j) in enumerate(upper):
        design[row, i], design[row, j] = 1, -1
    for _ in range(n // 10):
        wins = rng.integers(1, 20, (5, 5))
        seen = np.array([(wins[i, j], wins[j, i]) for i, j in upper])
        fitted = GLM(seen, design[:, :4], family=Binomial()).fit(tol=1e-13)
        tables.append(tuple(wins.ravel()))
        exact.append((*fitted.params, *fitted.bse))
    return tables, exact, QUADRATURE


FUNCTIONS = [normal_below, normal_quantile, ln_gamma, beta_below, beta_quantile, wilson, jeffreys, difference, second_higher, adjusted]
FUNCTIONS += [at_least, row_within, row_tries, race, kappa, by_chance, by_chance_mixed, pairs]


def season(n_children=20, n_practices=60, n_tries=167):
    """What a season's pages are made of, each as lines and as a call: 20 children, 60 practices, 200,400 balls."""
    tries = rng.integers(n_tries // 2, 3 * n_tries // 2, n_children * n_practices)
    good = rng.binomial(tries, rng.beta(6, 4, n_children * n_practices))
    early, late = (good[::2], tries[::2]), (good[1::2], tries[1::2])
    beta = good + 0.5, tries - good + 0.5
    p = rng.random(120) ** 3
    tables = [rng.integers(0, 30, (4, 4)) + np.eye(4, dtype=int) for _ in range(n_practices)]
    wins = [rng.integers(1, 20, (5, 5)) for _ in range(n_practices)]
    upper = [(i, j) for i in range(5) for j in range(i)]
    design = np.zeros((10, 5))
    for row, (i, j) in enumerate(upper):
        design[row, i], design[row, j] = 1, -1
    seen = [np.array([(w[i, j], w[j, i]) for i, j in upper]) for w in wins]
    differ = lambda: [confint_proportions_2indep(*c, method="newcomb", compare="diff") for c in zip(*early, *late)]
    return [
        ("ranges, all at once", [("wilson", *c) for c in zip(good, tries)], lambda: proportion_confint(good, tries, method="wilson")),
        ("Jeffreys ranges, all at once", [("jeffreys", *c) for c in zip(good, tries)], lambda: proportion_confint(good, tries, method="jeffreys")),
        ("ranges of differences", [("difference", *c) for c in zip(*early, *late)], differ),
        ("inverse beta, all at once", [("beta_quantile", a, b, 0.025) for a, b in zip(*beta)], lambda: special.betaincinv(*beta, 0.025)),
        ("Benjamini-Hochberg", [("adjusted", *p)], lambda: multipletests(p, method="fdr_bh")),
        ("kappa by steps", [("kappa", 1, *t.ravel()) for t in tables], lambda: [cohens_kappa(t, wt="linear") for t in tables]),
        ("ratings of pairs", [("pairs", *w.ravel()) for w in wins], lambda: [GLM(s, design[:, :4], family=Binomial()).fit(tol=1e-13) for s in seen]),
    ]


def timed_season(program):
    """The best of three of each, in turn: a machine has other things to do as well."""
    ours, theirs = 0.0, 0.0
    print("a season's numbers, 20 children, 60 practices, in one run:")
    for name, cases, reference in season():
        lines = "\n".join(" ".join([case[0], *(f"{float(v)!r}" for v in case[1:])]) for case in cases)
        took, best = [], []
        for _ in range(3):
            start = time.perf_counter()
            reference()
            took.append(time.perf_counter() - start)
            ran = subprocess.run([*program, "--", "--timed"], input=lines, capture_output=True, text=True, check=True)
            best.append(float(ran.stderr.split()[-1]))
        ours, theirs = ours + min(best), theirs + min(took)
        print(f"  {name:30} {len(cases):5}  ours {1000 * min(best):8.3f} ms, theirs {1000 * min(took):9.3f} ms, ratio {min(best) / min(took):.4f}")
    print(f"  all of them: ours {1000 * ours:.1f} ms, theirs {1000 * theirs:.1f} ms, ratio {ours / theirs:.4f}")


def main():
    program = sys.argv[1:]
    if program[:1] == ["--season"]:
        return timed_season(program[1:])
    too_large = False
    for function in FUNCTIONS:
        inputs, exact, allowed = function(CASES)
        lines = "\n".join(function.__name__ + "".join(f" {float(v)!r}" for v in values) for values in inputs)
        ran = subprocess.run(program, input=lines, capture_output=True, text=True, check=True)
        results = [[float(v) for v in line.split()] for line in ran.stdout.splitlines()]
        assert len(results) == len(inputs) > 0, f"{function.__name__}: {len(results)} results of {len(inputs)}"
        worst, where, most = 0.0, None, 0.0
        for values, got, want in zip(inputs, results, exact):
            want = np.atleast_1d(want)
            assert len(got) == len(want), (function.__name__, values, got, want)
            off = np.abs(np.array(got) - want)
            error = float(np.max(np.where(off <= FLOOR, 0, off / np.maximum(np.abs(want), 1e-300))))
            most = max(most, float(np.max(off)))
            if not error <= worst:
                worst, where = error, values
        fault = "" if worst <= allowed else f"  TOO LARGE at {where}"
        too_large = too_large or bool(fault)
        print(f"{function.__name__:16} {len(inputs):6} inputs, largest error {most:.1e}, over the floor relative {worst:.1e} (allowed {allowed:.0e}){fault}")
    timed_season(program)
    sys.exit(too_large)


if __name__ == "__main__":
    main()
