#!/usr/bin/env python3
"""Measures the cycles of a trace with NumPy: the general-purpose reference for the speed of `zeroline assess`.

Loads the file with numpy.loadtxt, finds phases by 50 % crossings, then plateaus (50-90 % of the phase) and onsets (10/30
line), vectorised over all transitions. No spikes, gaps, uncertainty, judgement or findings: the plain measuring only.
Prints the number of cycles and the means, so that the work cannot be skipped.
"""
import sys

import numpy as np


def crossings(time, pressure, at, level):
    """Interpolated instants at which the pressure passes `level` between samples at-1 and at."""
    before, after = pressure[at - 1], pressure[at]
    part = (level - before) / (after - before)
    return time[at - 1] + part * (time[at] - time[at - 1])


def dwell_states(pressure, threshold):
    """+1 insufflation, -1 exsufflation, 0 pause, one a sample."""
    return (pressure > threshold).astype(np.int8) - (pressure < -threshold).astype(np.int8)


def window_means(cumulative, first, last):
    return (cumulative[last] - cumulative[first]) / np.maximum(last - first, 1)


def last_below(pressure, time, bounds, levels_from, levels_to, part):
    """Last crossing of a part of the step before each 50 % bound, searched sample by sample in lockstep."""
    level = levels_from + part * (levels_to - levels_from)
    rising = levels_to > levels_from
    at = bounds.copy()
    active = np.ones(at.size, bool)
    while active.any():
        value = pressure[at]
        beyond = np.where(rising, value >= level, value <= level)
        active = beyond & (at > 1)
        at = np.where(active, at - 1, at)
    return crossings(time, pressure, at + 1, level)


def main(path):
    time, pressure = np.loadtxt(path, delimiter=",", skiprows=1, unpack=True)
    larger = np.percentile(np.abs(pressure[:: max(1, pressure.size // 100000)]), 95)
    states = dwell_states(pressure, 0.5 * larger)
    bounds = np.flatnonzero(np.diff(states)) + 1
    bounds = bounds[np.r_[True, np.diff(time[bounds]) > 0.2]] if bounds.size else bounds
    if bounds.size < 3:
        print("no cycles")
        return
    cumulative = np.concatenate(([0.0], np.cumsum(pressure)))
    length = np.diff(bounds)
    plateau = window_means(cumulative, bounds[:-1] + length // 2, bounds[:-1] + (length * 9) // 10)
    kind = states[(bounds[:-1] + bounds[1:]) // 2]
    left = np.concatenate(([0.0], plateau[:-1]))
    t10 = last_below(pressure, time, bounds[:-1], left, plateau, 0.1)
    t30 = last_below(pressure, time, bounds[:-1], left, plateau, 0.3)
    onset = t10 - 0.5 * (t30 - t10)
    duration = np.diff(onset)
    for name, which in (("insufflation", 1), ("exsufflation", -1), ("pause", 0)):
        chosen = kind[:-1] == which
        if chosen.any():
            print(f"{name}: n {int(chosen.sum())}, level {plateau[:-1][chosen].mean():.3f} cmH2O, "
                  f"duration {duration[chosen].mean():.4f} s")


if __name__ == "__main__":
    main(sys.argv[1])
