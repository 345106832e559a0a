"""How long CoolProp takes for the points that benches/saturation.rs asks for.    python tests/reference/time_library.py

Needs the PyPI package CoolProp (8.0.0 used). A hundred temperatures between −40 °C and 0.97 of the critical one, the same
state object throughout, one core; the loop of Python itself (about 0.1 µs) is in the figures. Points that its flash
doesn't solve are counted and left out of the mean.
"""
import time

from CoolProp import __version__
from CoolProp.CoolProp import QT_INPUTS, AbstractState

SUBJECTS = {
    "r134a": ("R134a", None), "r744": ("CarbonDioxide", None),
    "r410a": ("R32&R125", (50, 50)), "r454b": ("R32&R1234yf", (68.9, 31.1)), "r407c": ("R32&R125&R134a", (23, 25, 52)),
    "r448a": ("R32&R125&R1234yf&R134a&R1234ze(E)", (26, 26, 20, 21, 7)),
}
CRITICAL = {"r410a": 344.49, "r454b": 351.43, "r407c": 359.29, "r448a": 355.94}       # CoolProp's all_critical_points

if __name__ == "__main__":
    print(f"CoolProp {__version__}, µs a point (points not solved)")
    for name, (fluids, mass) in SUBJECTS.items():
        state = AbstractState("HEOS", fluids)
        if mass:
            state.set_mass_fractions([m / sum(mass) for m in mass])
        high = 0.97 * (CRITICAL.get(name) or state.T_critical())
        points = [233.15 + (high - 233.15) * (i + 0.5) / 100 for i in range(100)]
        told = []
        for quality, side in ((0, "bubble"), (1, "dew")):
            spent, solved, failed = 0.0, 0, 0
            for _ in range(20 if mass else 200):
                for t in points:
                    begun = time.perf_counter()
                    try:
                        state.update(QT_INPUTS, quality, t)
                        spent, solved = spent + time.perf_counter() - begun, solved + 1
                    except ValueError:
                        failed += 1
            told.append(f"{side} {spent / solved * 1e6:.2f} ({failed // (20 if mass else 200)})")
        print(f"saturation/{name:6s} {'  '.join(told)}", flush=True)
