#!/usr/bin/env python3
"""Fits the hold of one trace with SciPy and prints how long the fits took.

What someone with SciPy would do: read the CSV (time [s], pressure [bar]), cut out the hold, fit

    p(t) = leak(t) + A1 exp(-t/tau1) + A2 exp(-t/tau2)

where leak(t) solves C dp/dt = -(a p + b sqrt(p)) in closed form (with s = sqrt(p), 2 C ds/dt = -(a s + b), so s falls
exponentially towards -b/a), once for each leak law (none, laminar, orifice, mixed), and compare the laws by AICc. Only
the fits are timed, not the reading. Rates come out as pressure rates; times a compliance they are leaks.

    fit_trace.py TRACE.csv [--from S] [--to S] [--method trf|lm]
"""
import argparse
import time

import numpy as np
from scipy.optimize import least_squares

LAWS = {"none": (), "laminar": ("a",), "orifice": ("b",), "mixed": ("a", "b")}


def curve(law, x, t):
    """Pressure in bar at times t (s) for parameters p0, A1, tau1, A2, tau2 and those of the law, per compliance."""
    p0, a1, tau1, a2, tau2 = x[:5]
    rest = dict(zip(LAWS[law], x[5:]))
    a = rest.get("a", 0.0)
    b = rest.get("b", 0.0)
    root = np.sqrt(max(p0, 0.0))
    if "a" in rest and abs(a) > 1e-12:
        e = np.exp(-0.5 * a * t)
        s = root * e - (b / a) * (1.0 - e)
    else:
        s = root - 0.5 * b * t
    s = np.maximum(s, 0.0)
    return s * s + a1 * np.exp(-t / tau1) + a2 * np.exp(-t / tau2)


def aicc(n, rss, parameters):
    k = parameters + 1
    return n * np.log(rss / n) + 2 * k + 2 * k * (k + 1) / (n - k - 1)


def read(path):
    with open(path, encoding="utf-8") as lines:
        rows = [line for line in lines if not line.startswith("#")]
    names = [name.strip() for name in rows[0].split(",")]
    columns = [names.index("time [s]"), names.index("pressure [bar]")]
    data = np.loadtxt(rows[1:], delimiter=",", usecols=columns)
    return data[:, 0], data[:, 1]


def main():
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("trace")
    options.add_argument("--from", dest="start", type=float, help="start of the hold, s; else the highest pressure")
    options.add_argument("--to", dest="end", type=float, help="end of the hold, s; else the end of the trace")
    options.add_argument("--method", default="trf", choices=("trf", "lm"))
    options = options.parse_args()

    t, p = read(options.trace)
    start = t[np.argmax(p)] if options.start is None else options.start
    end = t[-1] if options.end is None else options.end
    hold = (t >= start) & (t < end)
    t, p = t[hold] - start, p[hold]
    span = t[-1]
    print(f"samples in the hold: {len(t)}")

    total = 0.0
    criteria = {}
    for law, names in LAWS.items():
        slope = (p[0] - np.mean(p[-250:])) / span
        x = [p[-1] + slope * span, 1.0, 0.01 * span, 1.0, 0.1 * span]
        guess = {"a": slope / np.mean(p), "b": slope / np.sqrt(np.mean(p))}
        x += [max(guess[name], 1e-6) / len(names) for name in names]
        lower = [0.0, -50.0, 0.1, -50.0, 0.1] + [0.0] * len(names)
        upper = [np.inf, 50.0, span, 50.0, 3 * span] + [np.inf] * len(names)
        bounds = (-np.inf, np.inf) if options.method == "lm" else (lower, upper)
        begun = time.perf_counter()
        fit = least_squares(
            lambda v, law=law: curve(law, v, t) - p, x, bounds=bounds, method=options.method, x_scale="jac"
        )
        took = time.perf_counter() - begun
        total += took
        rss = 2.0 * fit.cost
        criteria[law] = aicc(len(t), rss, len(x))
        rate = sum(
            fit.x[5 + i] * (fit.x[0] if name == "a" else np.sqrt(fit.x[0])) for i, name in enumerate(names)
        )
        print(
            f"{law}: fit time [s]: {took:.3f}, evaluations {fit.nfev}, residual sd {np.sqrt(rss / len(t)):.4f} bar,"
            f" leak at the start {60 * rate:.4f} bar/min, tau {fit.x[2]:.2f} and {fit.x[4]:.1f} s"
        )
    best = min(criteria.values())
    weights = {law: np.exp(-0.5 * (c - best)) for law, c in criteria.items()}
    norm = sum(weights.values())
    print("AICc weights: " + ", ".join(f"{law} {w / norm:.3f}" for law, w in weights.items()))
    print(f"total fit time [s]: {total:.3f}")


if __name__ == "__main__":
    main()
