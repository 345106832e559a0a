"""Writes moist-air.csv: states of moist air worked by another program, psychrolib (PyPI, 2.5.0 was used), in SI.

Run as `python make_moist_air.py > moist-air.csv`. The pressure of the air is that of ISO 2533 at the altitude, so that
both programs start from the same figure.
"""

import random

import psychrolib

psychrolib.SetUnitSystem(psychrolib.SI)
random.seed(20261125)

print("# source: psychrolib 2.5.0, ASHRAE Handbook Fundamentals (2017) chapter 1, 300 random states; see make_moist_air.py")
print("altitude_m,dry_bulb_c,relative_humidity,wet_bulb_c,dew_point_c,humidity_ratio,enthalpy_kj_kg,volume_m3_kg")
rows = 0
while rows < 300:
    altitude = round(random.uniform(-300, 3000), 1)
    pressure = 101325 * (1 - 0.0065 * altitude / 288.15) ** (9.80665 / (287.05287 * 0.0065))
    dry = round(random.uniform(-40, 60), 3)
    humidity = round(random.uniform(0.03, 1.0), 5)
    wet = psychrolib.GetTWetBulbFromRelHum(dry, humidity, pressure)
    dew = psychrolib.GetTDewPointFromRelHum(dry, humidity)
    ratio = psychrolib.GetHumRatioFromRelHum(dry, humidity, pressure)
    if ratio < 2e-6 or dew < -80:  # psychrolib's own floor on the humidity ratio is near
        continue
    enthalpy = psychrolib.GetMoistAirEnthalpy(dry, ratio) / 1000
    volume = psychrolib.GetMoistAirVolume(dry, ratio, pressure)
    print(f"{altitude:.1f},{dry:.3f},{humidity:.5f},{wet:.3f},{dew:.3f},{ratio:.7g},{enthalpy:.4f},{volume:.6f}")
    rows += 1
