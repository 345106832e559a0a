"""Random states of every refrigerant and blend, by teqp: what the property engine is held against from outside.

Needs the PyPI packages CoolProp (8.0.0 used, for coefficients only) and teqp (0.23.2 used), numpy.
python tests/reference/make_random_states.py

Writes random_states.csv: pressure and ln of the fugacity coefficient of the first component at random T, ρ and
composition near the nominal one, single-phase by temperature (above 1.02 Tr) or by density (a liquid above 2.4 ρr, a
vapor below 0.02 ρr). Nothing here is solved: so a disagreement points at the equations, not at a solver.
Also random_saturation.csv: bubble and dew points at random temperatures from the Newton solver of make_saturation.py,
which runs on teqp.
"""
import os

import numpy as np
import teqp

from make_saturation import BLENDS, COMPONENTS_ONLY, PURES, T_LOW, Fluid

HERE = os.path.dirname(os.path.abspath(__file__))
VERSIONS = f"teqp {teqp.__version__} on the coefficients of CoolProp 8.0.0"
random = np.random.default_rng(20261101)


def states(fluid):
    n = len(fluid.z)
    for kind in ("gas", "gas", "liquid", "liquid", "dense", "dense"):
        z = fluid.z * np.exp(random.normal(0, 0.4, n)) if n > 1 else fluid.z.copy()
        z = z / z.sum()
        r = fluid.teqp.get_Ar00(300.0, 1.0, z)                      # touches the model; raises early where it can't be
        assert np.isfinite(r)
        # reducing values by mole fraction: near enough to choose a state
        tr = float(z @ [s.T_reducing() for s in fluid.pure_states])
        rr = float(1 / (z @ [1 / s.rhomolar_reducing() for s in fluid.pure_states]))
        low = max(fluid.T_triple, T_LOW)
        if kind == "gas":
            t, rho = random.uniform(max(low, 0.65 * tr), 1.15 * tr), random.uniform(1e-4, 0.02) * rr
        elif kind == "liquid":
            t, rho = random.uniform(low, 0.85 * tr), random.uniform(2.6, 2.9) * rr
        else:
            t, rho = random.uniform(1.05, 1.2) * tr, random.uniform(0.2, 2.2) * rr
        t, rho = round(t, 3), round(rho, 4 if rho < 1000 else 2)
        p = rho * fluid.R * t * (1 + fluid.teqp.get_Ar01(t, rho, z))
        lnphi = fluid.teqp.get_fugacity_coefficients(t, rho * z) if p > 0 else None
        if lnphi is None:
            continue
        x = "/".join(repr(float(v)) for v in z)
        yield [fluid.designation, f"{t}", f"{rho}", x, f"{p:.14g}", f"{np.log(lnphi[0]):.14g}"]


def main():
    every = [Fluid(name) for name in (PURES | COMPONENTS_ONLY | BLENDS)]
    with open(os.path.join(HERE, "random_states.csv"), "w") as f:
        f.write(f"# source: {VERSIONS}; written by make_random_states.py beside this file\n")
        f.write("refrigerant,T_K,rho_mol_m3,mole_fractions,p_Pa,ln_fugacity_coefficient\n")
        for fluid in every:
            f.writelines(",".join(row) + "\n" for row in states(fluid))
    with open(os.path.join(HERE, "random_saturation.csv"), "w") as f:
        f.write(f"# source: {VERSIONS}, Newton solver of make_saturation.py; written by make_random_states.py beside this file\n")
        f.write("refrigerant,side,T_K,p_Pa,rho_liquid_mol_m3,rho_vapor_mol_m3,other_first_mole_fraction\n")
        for fluid in every:
            tc, low = fluid.critical()[0], max(fluid.T_triple, T_LOW)
            ts = sorted(round(random.uniform(low, 0.99 * tc), 3) for _ in range(8))
            for q, side in ((0, "bubble"), (1, "dew")):
                for t, (liquid, vapor, p, _) in sorted(fluid.saturation_curve(ts, q).items()):
                    other = vapor if q == 0 else liquid
                    f.write(f"{fluid.designation},{side},{t},{p:.13g},{liquid.sum():.13g},{vapor.sum():.13g},{other[0] / other.sum():.13g}\n")


if __name__ == "__main__":
    main()
