"""How long CoolProp takes for the points that benches/saturation.rs asks for, beside what ours takes, in one run.

python tests/reference/time_library.py            CoolProp alone
python tests/reference/time_library.py --ours     runs `cargo bench --bench saturation` first and prints both

Needs the PyPI package CoolProp (8.0.0 used). A hundred temperatures between −40 °C and 0.97 of the critical one, the same
state object throughout, one core; the loop of Python itself (about 0.1 µs) is in CoolProp's figures. Points that its flash
doesn't solve are counted and left out of the mean. For pures CoolProp reads expansions that it ships, unless told to
iterate; both are timed.
"""
import json
import os
import subprocess
import sys
import time

import CoolProp.CoolProp as CP
from CoolProp import __version__
from CoolProp.CoolProp import QT_INPUTS, AbstractState

ROOT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..")
SUBJECTS = {
    "r134a": ("R134a", None), "r744": ("CarbonDioxide", None),
    "r410a": ("R32&R125", (50, 50)), "r454b": ("R32&R1234yf", (68.9, 31.1)), "r407c": ("R32&R125&R134a", (23, 25, 52)),
    "r448a": ("R32&R125&R1234yf&R134a&R1234ze(E)", (26, 26, 20, 21, 7)),
}
CRITICAL = {"r410a": 344.49, "r454b": 351.43, "r407c": 359.29, "r448a": 355.94}       # CoolProp's all_critical_points
OURS = ("bubble", "dew", "dew-temperature", "dew-expanded", "dew-temperature-expanded", "make-expansions", "first-answer")


def library(fluids, mass, high, quality, iterate=False):
    """Mean time of a solved point in µs, and how many of the hundred were not solved."""
    CP.set_config_bool(CP.ENABLE_SUPERANCILLARIES, not iterate)
    state = AbstractState("HEOS", fluids)
    if mass:
        state.set_mass_fractions([m / sum(mass) for m in mass])
    points = [233.15 + (high - 233.15) * (i + 0.5) / 100 for i in range(100)]
    spent, solved, failed, rounds = 0.0, 0, 0, 5 if mass else 100
    for _ in range(rounds):
        for t in points:
            begun = time.perf_counter()
            try:
                state.update(QT_INPUTS, quality, t)
                spent, solved = spent + time.perf_counter() - begun, solved + 1
            except ValueError:
                failed += 1
    return spent / solved * 1e6, failed // rounds


def ours(name, what):
    """Median of a benchmark's samples in µs, as criterion wrote it down."""
    path = os.path.join(ROOT, "target", "criterion", f"saturation_{name}", what, "new", "estimates.json")
    with open(path) as f:
        return json.load(f)["median"]["point_estimate"] / 1e3


if __name__ == "__main__":
    beside = "--ours" in sys.argv
    if beside:
        subprocess.run(["cargo", "bench", "--bench", "saturation", "--", "--warm-up-time", "1", "--measurement-time", "2"],
                       cwd=ROOT, check=True, stdout=subprocess.DEVNULL)
    heads = ["", f"CoolProp {__version__} bubble", "dew", "iterating"] + (list(OURS) if beside else [])
    print("| " + " | ".join(heads) + " |\n|" + "---|" * len(heads))
    for name, (fluids, mass) in SUBJECTS.items():
        high = 0.97 * (CRITICAL.get(name) or AbstractState("HEOS", fluids).T_critical())
        told = []
        for quality in (0, 1):
            mean, failed = library(fluids, mass, high, quality)
            told.append(f"{mean:.2f}" + (f" ({failed} of 100 not solved)" if failed else ""))
        told.append("·" if mass else f"{library(fluids, mass, high, 1, iterate=True)[0]:.1f}")
        if beside:
            told += [f"{ours(name, what):.3g}" for what in OURS]
        print(f"| {name} | " + " | ".join(told) + " |", flush=True)
