"""Writes src/fluid/transport/*.yaml (published correlations of viscosity, thermal conductivity and surface tension) and
transport.csv beside this file (what CoolProp makes of them).

Needs the PyPI package CoolProp (8.0.0 used); no network.    python tests/reference/make_transport.py

Coefficients are read from the data that CoolProp carries. Three correlations it keeps in its program text and not in its
data; their coefficients are typed here from the papers named and checked against CoolProp to 2e-6 by the table:
R-23 (both), R-744 (dilute viscosity and conductivity, residual viscosity), and the critical terms of R-123 and R-717.
R-152a: CoolProp takes another model first; the correlation of its own paper is asked for by adding the fluid under
another name.
"""
import json
import os

import CoolProp
import CoolProp.CoolProp as CP
from CoolProp.CoolProp import AbstractState

from make_equations import IJT, JCED, JPCRD, PURES, ROOT, file_name, fluid_json, number

FOLDER = os.path.join(ROOT, "src", "fluid", "transport")
HERE = os.path.dirname(os.path.abspath(__file__))
IECR = "Industrial and Engineering Chemistry Research"
IJR = "International Journal of Refrigeration"

VISCOSITY = {
    "R-134a": f"Marcia L. Huber, Arno Laesecke and Richard A. Perkins, Model for the viscosity and thermal conductivity of refrigerants, including a new correlation for the viscosity of R134a, {IECR} 42 (2003) 3163-3178, doi 10.1021/ie0300880",
    "R-125": f"Marcia L. Huber and Arno Laesecke, Correlation for the viscosity of pentafluoroethane (R125) from the triple point to 500 K at pressures up to 60 MPa, {IECR} 45 (2006) 4447-4453, doi 10.1021/ie051367l",
    "R-290": f"Eckhard Vogel, Cornelia Küchenmeister, Eckard Bich and Arno Laesecke, Reference correlation of the viscosity of propane, {JPCRD} 27 (1998) 947-970, doi 10.1063/1.556025",
    "R-600a": f"Eckhard Vogel, Cornelia Küchenmeister and Eckard Bich, Viscosity correlation for isobutane over wide ranges of the fluid region, {IJT} 21 (2000) 343-356, doi 10.1023/A:1006623310780",
    "R-600": "Eckhard Vogel, Cornelia Küchenmeister and Eckard Bich, Viscosity for n-butane in the fluid region, High Temperatures - High Pressures 31 (1999) 173-186, doi 10.1068/htrt154",
    "R-717": f"Aliasghar Fenghour, William A. Wakeham, Velisa Vesovic, John T. R. Watson, Jürgen Millat and Eckhard Vogel, The viscosity of ammonia, {JPCRD} 24 (1995) 1649-1667, doi 10.1063/1.555961",
    "R-744": f"Arno Laesecke and Chris D. Muzny, Reference correlation for the viscosity of carbon dioxide, {JPCRD} 46 (2017) 013107, doi 10.1063/1.4977429",
    "R-123": f"Yoshiyuki Tanaka and T. Sotani, Thermal conductivity and viscosity of 2,2-dichloro-1,1,1-trifluoroethane (HCFC-123), {IJT} 17 (1996) 293-328, doi 10.1007/BF01443394",
    "R-152a": f"Rudolf Krauss, Valentina C. Weiss, Todd A. Edison, Jan V. Sengers and Karl Stephan, Transport properties of 1,1-difluoroethane (R152a), {IJT} 17 (1996) 731-757, doi 10.1007/BF01439187",
    "R-23": "Zhengjun Shan, Steven G. Penoncello and Richard T. Jacobsen, A generalized model for viscosity and thermal conductivity of trifluoromethane (R-23), ASHRAE Transactions 106 (2000) 757-767",
}
CONDUCTIVITY = {
    "R-134a": f"Mark O. McLinden, Sanford A. Klein and Richard A. Perkins, An extended corresponding states model for the thermal conductivity of refrigerants and refrigerant mixtures, {IJR} 23 (2000) 43-63, doi 10.1016/S0140-7007(99)00024-9",
    "R-125": f"Richard A. Perkins and Marcia L. Huber, Measurement and correlation of the thermal conductivity of pentafluoroethane (R125) from 190 K to 512 K at pressures to 70 MPa, {JCED} 51 (2006) 898-904, doi 10.1021/je050372t",
    "R-290": f"Kenneth N. Marsh, Richard A. Perkins and Maria L. V. Ramires, Measurement and correlation of the thermal conductivity of propane from 86 K to 600 K at pressures to 70 MPa, {JCED} 47 (2002) 932-940, doi 10.1021/je010001m",
    "R-600a": f"Richard A. Perkins, Measurement and correlation of the thermal conductivity of isobutane from 114 K to 600 K at pressures to 70 MPa, {JCED} 47 (2002) 1272-1279, doi 10.1021/je010121u",
    "R-600": f"Richard A. Perkins, Maria L. V. Ramires, Carlos A. Nieto de Castro and L. Cusco, Measurement and correlation of the thermal conductivity of butane from 135 K to 600 K at pressures to 70 MPa, {JCED} 47 (2002) 1263-1271, doi 10.1021/je0101202",
    "R-717": "Roland Tufeu, Dmitri Y. Ivanov, Yves Garrabos and Bernard Le Neindre, Thermal conductivity of ammonia in a large temperature and pressure range including the critical region, Berichte der Bunsengesellschaft für physikalische Chemie 88 (1984) 422-427, doi 10.1002/bbpc.19840880421",
    "R-744": f"Marcia L. Huber, Eleftheria A. Sykioti, Marc J. Assael and Richard A. Perkins, Reference correlation of the thermal conductivity of carbon dioxide from the triple point to 1100 K and up to 200 MPa, {JPCRD} 45 (2016) 013102, doi 10.1063/1.4940892",
    "R-123": f"Arno Laesecke, Richard A. Perkins and John B. Howley, An improved correlation for the thermal conductivity of HCFC123 (2,2-dichloro-1,1,1-trifluoroethane), {IJR} 19 (1996) 231-238, doi 10.1016/0140-7007(96)00019-9",
    "R-152a": VISCOSITY["R-152a"],
    "R-23": VISCOSITY["R-23"],
}
TENSION = {
    "Mulero-JPCRD-2012": f"Angel Mulero, Isidro Cachadiña and María I. Parra, Recommended correlations for the surface tension of common fluids, {JPCRD} 41 (2012) 043105, doi 10.1063/1.4768782",
    "Mulero-JPCRD-2014": f"Angel Mulero and Isidro Cachadiña, Recommended correlations for the surface tension of several fluids included in the REFPROP program, {JPCRD} 43 (2014) 023104, doi 10.1063/1.4878755",
}
# Shan and others (2000). J and mol/dm³; the viscosity in µPa s, the conductivity in mW/(m K).
FREE_VOLUME = {
    "viscosity": {"c1": 1.3163, "c2": 0.1832, "energy": 771.23, "limiting-density": 32.174, "critical-enhancement": 3.967},
    "conductivity": {"c1": 0.94215, "c2": 0.14914, "energy": 2508.58, "limiting-density": 68.345, "critical-enhancement": 25},
}


def rows(indent, columns, *lists):
    pad = " " * indent
    out = [f"{pad}columns: [{', '.join(columns)}]", f"{pad}rows:"]
    return out + [f"{pad}  - [{', '.join(number(v) for v in row)}]" for row in zip(*lists)]


def inline(mapping):
    return "{" + ", ".join(f"{k}: {v if isinstance(v, str) else number(v)}" for k, v in mapping.items()) + "}"


def viscosity(designation, j):
    out = ["viscosity:", "  source: >-", f"    {VISCOSITY[designation]}"]
    if designation == "R-23":
        out += ["  dilute:   # C √(M T)/(σ² exp Σ a (ln T/(ε/k))^t), M in g/mol, σ in nm: Pa s", "    collision-integral:",
                f"      factor: {number(1.25 * 0.021357e-6)}", "      molar-mass: 70.014"]
        out += rows(6, "at", (0.4425728, -0.5138403, 0.1547566, -0.02821844, 0.001578286), range(5))
        out += ["  size: 0.4278 nm", "  energy: 243.91 K"]
        out += ["  free-volume:   # see src/fluid/transport/free_volume.rs", f"    terms: {inline(FREE_VOLUME['viscosity'])}",
                "    critical-density: 7.5114", "    critical-temperature: 299.2793 K"]
        return out
    v = j["TRANSPORT"]["viscosity"]
    v = v[-1] if isinstance(v, list) else v
    size, energy = v["sigma_eta"] * 1e9, v["epsilon_over_k"]
    dilute, higher = v["dilute"], v["higher_order"]
    out += ["  dilute:"]
    if dilute.get("type") == "collision_integral":
        out += ["    collision-integral:   # C √(M T)/(σ² exp Σ a (ln T/(ε/k))^t), M in g/mol, σ in nm: Pa s",
                f"      factor: {number(dilute['C'])}", f"      molar-mass: {number(dilute['molar_mass'] * 1e3)}"]
        out += rows(6, "at", dilute["a"], dilute["t"])
    elif dilute.get("type") == "kinetic_theory":
        out += ["    lennard-jones:   # 26.692e-9 √(M T)/(σ² Ω), Ω of Neufeld, Janzen and Aziz (1972)",
                f"      molar-mass: {number(j['EOS'][0]['molar_mass'] * 1e3)}"]
    elif dilute.get("type") == "powers_of_T":
        out += ["    powers:   # Σ a T^t"] + rows(6, "at", dilute["a"], dilute["t"])
    else:
        assert designation == "R-744", designation
        a = (1749.354893188350, -369.069300007128, 5423856.34887691, -2.21283852168356, -269503.247933569, 73145.021531826, 5.34368649509278)
        out += ["    carbon-dioxide:   # 1.0055e-3 √T/(a0 + a1 T^(1/6) + a2 exp(a3 T^⅓) + (a4 + a5 T^⅓) exp(-T^⅓) + a6 √T)",
                f"      a: [{', '.join(number(x) for x in a)}]"]
    out += [f"  size: {number(size)} nm", f"  energy: {number(energy)} K"]
    if "initial_density" in v:
        b = v["initial_density"]
        out += ["  initial-density:   # NA σ³ Σ b (T/(ε/k))^t (Rainwater and Friend)"] + rows(4, "bt", b["b"], b["t"])
    if higher.get("hardcoded"):
        out += ["  carbon-dioxide-residual:   # see src/fluid/transport/viscosity.rs",
                "    {triple-temperature: 216.592 K, triple-density: 1178.53, molar-mass: 0.0440095, gas-constant: 8.3144598, c1: 0.360603235428487, c2: 0.121550806591497, gamma: 8.06282737481277}"]
        return out
    assert not any(higher["gamma"]), designation
    out += ["  residual:   # Σ a δ^d τ^t + Σ f δ^d τ^t (1/(δ0 - δ) - 1/δ0), δ0 = Σ g τ^h/Σ p τ^q",
            f"    temperature: {number(higher['T_reduce'])} K", f"    density: {number(higher['rhomolar_reduce'])} mol/m³", "    terms:"]
    out += rows(6, "adt", higher["a"], higher["d1"], higher["t1"])
    out += ["    factor:"] + rows(6, "fdt", higher["f"], higher["d2"], higher["t2"])
    out += ["    close-packed:"] + rows(6, "gh", higher["g"], higher["h"])
    out += ["    close-packed-divisor:"] + rows(6, "pq", higher["p"], higher["q"])
    return out


def conductivity(designation, j):
    c = j["TRANSPORT"]["conductivity"]
    out = ["conductivity:", "  source: >-", f"    {CONDUCTIVITY[designation]}"]
    if designation == "R-23":
        out += ["  dilute:   # Σ A T^n, mW/(m K)", "    temperature: 1 K", "    numerator:"] + rows(6, "An", (-2.5370, 0.05366), (0, 1))
        out += ["    denominator:"] + rows(6, "Bm", (1.0,), (0,))
        out += ["  free-volume:   # see src/fluid/transport/free_volume.rs", f"    terms: {inline(FREE_VOLUME['conductivity'])}",
                "    critical-density: 7.5114", "    critical-temperature: 299.2793 K"]
        return out
    dilute, r, critical = c["dilute"], c["residual"], c["critical"]
    if dilute.get("hardcoded"):
        assert designation == "R-744"
        out += ["  carbon-dioxide-dilute:   # 1e-3 √Tr/Σ l/Tr^j", "    temperature: 304.1282 K",
                "    l: [0.0151874307, 0.0280674040, 0.0228564190, -0.00741624210]"]
    else:
        out += ["  dilute:   # Σ A Tr^n/Σ B Tr^m", f"    temperature: {number(dilute['T_reducing'])} K", "    numerator:"]
        out += rows(6, "An", dilute["A"], dilute["n"]) + ["    denominator:"] + rows(6, "Bm", dilute["B"], dilute["m"])
    out += ["  residual:   # Σ B τ^t δ^d, δ by mass", f"    temperature: {number(r['T_reducing'])} K",
            f"    density: {number(r['rhomass_reducing'])} kg/m³"] + rows(4, "Btd", r["B"], r["t"], r["d"])
    out += ["  critical:"]
    if critical.get("hardcoded") == "R123":
        out += ["    bell:   # a exp(b (τ - 1)⁴ + c (δ - 1)²)", "      {a: 0.00486742, b: -100, c: -7.08535, temperature: 456.831 K, density: 550 kg/m³}"]
    elif critical.get("hardcoded") == "Ammonia":
        out += ["    ammonia:   # see src/fluid/transport/conductivity.rs", "      {temperature: 405.4 K, density: 235 kg/m³}"]
    else:
        reducing = j["EOS"][0]["STATES"]["reducing"]
        out += ["    olchowy-sengers:   # simplified crossover; see src/fluid/transport/conductivity.rs",
                f"      gamma: {number(critical['GAMMA'])}", f"      amplitude: {number(critical['R0'])}",
                f"      length: {number(critical['zeta0'])}", f"      wave-number: {number(critical['qD'])}",
                f"      reference-temperature: {number(critical.get('T_ref', 1.5 * reducing['T']))} K",
                f"      critical: {{temperature: {number(reducing['T'])} K, pressure: {number(reducing['p'])} Pa, density: {number(reducing['rhomolar'])} mol/m³}}"]
    return out


def main():
    os.makedirs(FOLDER, exist_ok=True)
    head = f"# Written by tests/reference/make_transport.py from the coefficients CoolProp {CoolProp.__version__} carries. Change the script, not this file.\n"
    for designation in VISCOSITY:
        j = fluid_json(PURES[designation][0])
        lines = [f"designation: {designation}"] + viscosity(designation, j) + conductivity(designation, j)
        with open(os.path.join(FOLDER, file_name(designation)), "w") as f:
            f.write(head + "\n".join(lines) + "\n")
    with open(os.path.join(FOLDER, "surface-tension.yaml"), "w") as f:
        f.write(head + "# σ = Σ a (1 - T/Tc)^n in N/m\n")
        for key, citation in TENSION.items():
            f.write(f"- source: >-\n    {citation}\n  fluids:\n")
            for designation, (name, *_) in PURES.items():
                s = fluid_json(name)["ANCILLARIES"].get("surface_tension")
                if s and s["BibTeX"] == key:
                    terms = ", ".join(f"[{number(a)}, {number(n)}]" for a, n in zip(s["a"], s["n"]))
                    f.write(f"    {designation}: {{critical-temperature: {number(s['Tc'])} K, terms: [{terms}]}}\n")
    with open(os.path.join(HERE, "transport.csv"), "w") as f:
        f.write(f"# source: CoolProp {CoolProp.__version__}; written by make_transport.py beside this file\n")
        f.write("refrigerant,T_K,p_Pa,rho_kg_m3,viscosity_Pa_s,conductivity_W_mK,surface_tension_N_m\n")
        for designation in PURES:
            name = PURES[designation][0]
            if designation == "R-152a":
                j = fluid_json(name)
                j["TRANSPORT"]["viscosity"] = j["TRANSPORT"]["viscosity"][1]
                j["INFO"].update(NAME="R152AKrauss", CAS="75-37-6-K", ALIASES=[], REFPROP_NAME="N/A")
                CP.add_fluids_as_JSON("HEOS", json.dumps([j]))
                state = AbstractState("HEOS", "R152AKrauss")
            else:
                state = AbstractState("HEOS", name)
            tc, pc = state.T_critical(), state.p_critical()
            has_tension = fluid_json(name)["ANCILLARIES"].get("surface_tension")
            for share in (0.72, 0.85, 0.95):
                t = share * tc
                state.update(CP.QT_INPUTS, 1, t)
                p = state.p()
                tension = AbstractState("HEOS", name)
                tension.update(CP.QT_INPUTS, 0, t)
                for factor in (0.6, 1.4):
                    sigma = f"{tension.surface_tension():.10g}" if has_tension and factor < 1 else ""
                    if designation in VISCOSITY:
                        state.update(CP.PT_INPUTS, factor * p, t)
                        f.write(f"{designation},{t:.9g},{factor * p:.10g},{state.rhomass():.10g},{state.viscosity():.10g},{state.conductivity():.10g},{sigma}\n")
                    elif sigma:
                        f.write(f"{designation},{t:.9g},,,,,{sigma}\n")
            if designation in VISCOSITY:
                t, p = 1.05 * tc, min(1.3 * pc, 0.9 * 1e8)
                state.update(CP.PT_INPUTS, p, t)
                f.write(f"{designation},{t:.9g},{p:.10g},{state.rhomass():.10g},{state.viscosity():.10g},{state.conductivity():.10g},\n")


if __name__ == "__main__":
    main()
