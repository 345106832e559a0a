"""Writes src/fluid/equations/*.yaml and src/fluid/mixing/*.yaml: the published coefficients the property engine runs on.

Needs the PyPI package CoolProp (8.0.0 used); no network.    python tests/reference/make_equations.py

The coefficients are facts out of the papers named in each file. They are read here from the data that CoolProp carries,
because that copy has been checked against the papers by many hands; the layout of the files, the citations in full
words and the choice of what is kept are ours. What is marked "from memory" below (the stated uncertainties, and ranges
where the data are wider than the paper's title) was not read off the paper and is to be checked against it.

CoolProp keeps the parameters of pairs as JSON text inside its compiled module and has no call that lists them;
`embedded_json` finds that text.
"""
import glob
import json
import os

import CoolProp
import CoolProp.CoolProp as CP
from CoolProp.CoolProp import AbstractState

ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
EQUATIONS = os.path.join(ROOT, "src", "fluid", "equations")
MIXING = os.path.join(ROOT, "src", "fluid", "mixing")

JPCRD = "Journal of Physical and Chemical Reference Data"
JCED = "Journal of Chemical and Engineering Data"
IJT = "International Journal of Thermophysics"

# designation: name in CoolProp, chemical name, citation, uncertainty from memory (None: not remembered),
# and limits (K, MPa) where the paper's are narrower than the data's.
PURES = {
    "R-22": ("R22", "chlorodifluoromethane",
             f"A. Kamei, S. W. Beyerlein and R. T. Jacobsen, Application of nonlinear regression in the development of a wide range formulation for HCFC-22, {IJT} 16 (1995) 1155-1164, doi 10.1007/BF02081283",
             ("0.2 %", "0.2 %", "1 %"), None),
    "R-32": ("R32", "difluoromethane",
             f"Reiner Tillner-Roth and Akimichi Yokozeki, An international standard equation of state for difluoromethane (R-32) for temperatures from the triple point at 136.34 K to 435 K and pressures up to 70 MPa, {JPCRD} 26 (1997) 1273-1328, doi 10.1063/1.556002",
             ("0.02 %", "0.05 %", "0.5 to 1 %"), None),
    "R-125": ("R125", "pentafluoroethane",
              f"Eric W. Lemmon and Richard T. Jacobsen, A new functional form and new fitting techniques for equations of state with application to pentafluoroethane (HFC-125), {JPCRD} 34 (2005) 69-108, doi 10.1063/1.1797813",
              ("0.1 %", "0.1 %", "0.5 %"), None),
    "R-134a": ("R134a", "1,1,1,2-tetrafluoroethane",
               f"Reiner Tillner-Roth and Hans Dieter Baehr, An international standard formulation for the thermodynamic properties of 1,1,1,2-tetrafluoroethane (HFC-134a) for temperatures from 170 K to 455 K and pressures up to 70 MPa, {JPCRD} 23 (1994) 657-729, doi 10.1063/1.555958",
               ("0.02 %", "0.05 %", "0.5 to 1 %"), None),
    "R-143a": ("R143a", "1,1,1-trifluoroethane",
               f"Eric W. Lemmon and Richard T. Jacobsen, An international standard formulation for the thermodynamic properties of 1,1,1-trifluoroethane (HFC-143a) for temperatures from 161 to 450 K and pressures to 50 MPa, {JPCRD} 29 (2000) 521-552, doi 10.1063/1.1318909",
               ("0.1 %", "0.1 %", "0.5 %"), (450, 50)),
    "R-152a": ("R152A", "1,1-difluoroethane",
               f"Stephanie L. Outcalt and Mark O. McLinden, A modified Benedict-Webb-Rubin equation of state for the thermodynamic properties of R152a (1,1-difluoroethane), {JPCRD} 25 (1996) 605-636, doi 10.1063/1.555979; its 32 terms recast as Helmholtz terms",
               ("0.1 %", "0.1 %", "2 %"), None),
    "R-123": ("R123", "2,2-dichloro-1,1,1-trifluoroethane",
              f"Ben A. Younglove and Mark O. McLinden, An international standard equation of state for the thermodynamic properties of refrigerant 123 (2,2-dichloro-1,1,1-trifluoroethane), {JPCRD} 23 (1994) 731-779, doi 10.1063/1.555950; its 32 terms recast as Helmholtz terms",
              ("0.1 %", "0.1 %", "1.5 %"), None),
    "R-1234yf": ("R1234yf", "2,3,3,3-tetrafluoropropene",
                 f"Eric W. Lemmon and Ryo Akasaka, Equation of state for the thermodynamic properties of 2,3,3,3-tetrafluoroprop-1-ene (R1234yf), {IJT} 43 (2022) 119, doi 10.1007/s10765-022-03015-y",
                 ("0.1 %", "0.1 %", None), None),
    "R-1234ze(E)": ("R1234ze(E)", "trans-1,3,3,3-tetrafluoropropene",
                    f"Monika Thol and Eric W. Lemmon, Equation of state for the thermodynamic properties of trans-1,3,3,3-tetrafluoropropene [R-1234ze(E)], {IJT} 37 (2016), number 3, doi 10.1007/s10765-016-2040-6",
                    ("0.1 %", "0.1 %", None), None),
    "R-1233zd(E)": ("R1233zd(E)", "trans-1-chloro-3,3,3-trifluoropropene",
                    f"Ryo Akasaka and Eric W. Lemmon, An international standard formulation for trans-1-chloro-3,3,3-trifluoroprop-1-ene [R1233zd(E)] covering temperatures from the triple-point temperature to 450 K and pressures up to 100 MPa, {JPCRD} 51 (2022) 023101, doi 10.1063/5.0083026",
                    ("0.1 %", "0.1 %", None), None),
    "R-290": ("n-Propane", "propane",
              f"Eric W. Lemmon, Mark O. McLinden and Wolfgang Wagner, Thermodynamic properties of propane. III. A reference equation of state for temperatures from the melting line to 650 K and pressures up to 1000 MPa, {JCED} 54 (2009) 3141-3180, doi 10.1021/je900217v",
              ("0.02 %", "0.03 %", "0.5 %"), None),
    "R-600a": ("IsoButane", "isobutane",
               f"Dirk Bücker and Wolfgang Wagner, Reference equations of state for the thermodynamic properties of fluid phase n-butane and isobutane, {JPCRD} 35 (2006) 929-1019, doi 10.1063/1.1901687",
               ("0.02 to 0.05 %", "0.02 %", "1 %"), None),
    "R-600": ("n-Butane", "n-butane",
              f"Dirk Bücker and Wolfgang Wagner, Reference equations of state for the thermodynamic properties of fluid phase n-butane and isobutane, {JPCRD} 35 (2006) 929-1019, doi 10.1063/1.1901687",
              ("0.02 to 0.05 %", "0.02 %", "1 %"), None),
    "R-1270": ("Propylene", "propylene",
               "Eric W. Lemmon, Uwe Overhoff, Mark O. McLinden and Wolfgang Wagner, Equation of state for propylene (2010), personal communication; never printed as a paper, its coefficients are public",
               ("0.02 to 0.05 %", "0.02 %", "0.5 %"), None),
    "R-717": ("Ammonia", "ammonia",
              f"Kehui Gao, Jiangtao Wu, Ian H. Bell and Eric W. Lemmon, Thermodynamic properties of ammonia for temperatures from the melting line to 725 K and pressures to 1000 MPa, {JPCRD} 49 (2020) 013102",
              ("0.1 %", "0.1 %", None), None),
    "R-744": ("CarbonDioxide", "carbon dioxide",
              f"Roland Span and Wolfgang Wagner, A new equation of state for carbon dioxide covering the fluid region from the triple-point temperature to 1100 K at pressures up to 800 MPa, {JPCRD} 25 (1996) 1509-1596, doi 10.1063/1.555991",
              ("0.012 %", "0.03 to 0.05 %", "0.15 to 1.5 %"), (1100, 800)),
    "R-227ea": ("R227EA", "1,1,1,2,3,3,3-heptafluoropropane",
                f"Eric W. Lemmon and Roland Span, Thermodynamic properties of R-227ea, R-365mfc, R-115, and R-13I1, {JCED} 60 (2015) 3745-3758, doi 10.1021/acs.jced.5b00684",
                ("0.1 %", "0.05 %", None), None),
    "R-23": ("R23", "trifluoromethane",
             f"Steven G. Penoncello, Eric W. Lemmon, Richard T. Jacobsen and Zhengjun Shan, A fundamental equation for trifluoromethane (R-23), {JPCRD} 32 (2003) 1473-1499, doi 10.1063/1.1559671",
             ("0.2 %", "0.1 %", "0.5 %"), None),
    "R-13I1": ("R13I1", "trifluoroiodomethane",
               f"Eric W. Lemmon and Roland Span, Thermodynamic properties of R-227ea, R-365mfc, R-115, and R-13I1, {JCED} 60 (2015) 3745-3758, doi 10.1021/acs.jced.5b00684",
               ("0.1 to 0.2 %", "0.1 %", None), None),
    "R-1336mzz(E)": ("R1336mzz(E)", "trans-1,1,1,4,4,4-hexafluoro-2-butene",
                     f"Ryo Akasaka, Marcia L. Huber, Luke D. Simoni and Eric W. Lemmon, A Helmholtz energy equation of state for trans-1,1,1,4,4,4-hexafluoro-2-butene [R-1336mzz(E)], {IJT} 44 (2023), doi 10.1007/s10765-022-03143-5",
                     ("0.1 %", "0.1 %", None), None),
    "R-601a": ("Isopentane", "isopentane",
               f"Eric W. Lemmon and Roland Span, Short fundamental equations of state for 20 industrial fluids, {JCED} 51 (2006) 785-850, doi 10.1021/je050186n",
               ("0.2 %", "0.2 %", "1 %"), None),
}

# key of the data: file, citation, what the paper says of its uncertainty (from memory)
MIXTURES = {
    "Lemmon-JPCRD-2004": ("lemmon-jacobsen-2004",
                          f"Eric W. Lemmon and Richard T. Jacobsen, Equations of state for mixtures of R-32, R-125, R-134a, R-143a, and R-152a, {JPCRD} 33 (2004) 593-620, doi 10.1063/1.1649997",
                          "density 0.1 %, bubble pressure 0.5 %, heat capacity 0.5 % (from memory)"),
    "Bell-JCED-2016": ("bell-lemmon-2016",
                       f"Ian H. Bell and Eric W. Lemmon, Automatic fitting of binary interaction parameters for multi-fluid Helmholtz-energy-explicit mixture models, {JCED} 61 (2016) 3752-3760, doi 10.1021/acs.jced.6b00257",
                       "fitted by program, reducing parameters only: 1 % and more (from memory)"),
    "Bell-IJT-2020": ("bell-mclinden-2020",
                      f"Ian H. Bell and Mark O. McLinden, The status of thermodynamic data and models for CF3I and its mixtures, {IJT} 41 (2020) 125, doi 10.1007/s10765-020-02700-4",
                      "reducing parameters only: 1 % and more (from memory)"),
    "Bell-JPCRD-2022": ("bell-2022",
                        f"Ian H. Bell, Mixture models for refrigerants R-1234yf/134a, R-1234yf/1234ze(E), and R-134a/1234ze(E) and interim models for R-125/1234yf, R-1234ze(E)/227ea, and R-1234yf/152a, {JPCRD} 51 (2022) 013103, doi 10.1063/5.0086060",
                        "of the order of 0.1 % in density, 0.1 to 0.5 % in bubble pressure (from memory)"),
    "Bell-JPCRD-2023": ("bell-2023",
                        f"Ian H. Bell, Mixture model for refrigerant pairs R-32/1234yf, R-32/1234ze(E), R-1234ze(E)/227ea, R-1234yf/152a, and R-125/1234yf, {JPCRD} 52 (2023) 013101, doi 10.1063/5.0135368",
                        "of the order of 0.1 % in density, 0.1 to 0.5 % in bubble pressure (from memory)"),
    "Bell-JCED-2025": ("bell-2025",
                       f"Ian H. Bell, Modeling mixtures containing refrigerants: updated interaction parameters, {JCED} (2025), doi 10.1021/acs.jced.4c00699",
                       "reducing parameters only: 1 % and more (from memory)"),
    "Kunz-JCED-2012": ("kunz-wagner-2012",
                       f"Oliver Kunz and Wolfgang Wagner, The GERG-2008 wide-range equation of state for natural gases and other mixtures: an expansion of GERG-2004, {JCED} 57 (2012) 3032-3091, doi 10.1021/je300655b",
                       "bubble pressure 1 to 3 % for hydrocarbon pairs (from memory)"),
}


def embedded_json(marker):
    """A JSON array kept as plain text inside CoolProp's compiled module, found by a string that only it contains."""
    path = glob.glob(os.path.join(os.path.dirname(CoolProp.__file__), "CoolProp.*.so"))[0]
    blob = open(path, "rb").read()
    at = blob.find(marker)
    text = blob[blob.rfind(b"\0", 0, at) + 1:blob.find(b"\0", at)].decode()
    return json.JSONDecoder().raw_decode(text[text.index("["):])[0]


def fluid_json(name):
    j = json.loads(CP.get_fluid_param_string(name, "JSON"))
    return j[0] if isinstance(j, list) else j


def number(x):
    """The shortest text that reads back as x; the noise of a change of units (…000000001) is taken off."""
    if x == int(x) and abs(x) < 1e15:
        return str(int(x))
    short = float(f"{x:.12g}")
    return repr(short if abs(short / x - 1) < 5e-15 else x)


def table(columns, rows, indent):
    pad = " " * indent
    out = [f"{pad}columns: [{', '.join(columns)}]", f"{pad}rows:"]
    out += [f"{pad}  - [{', '.join(number(v) for v in row)}]" for row in rows]
    return out


def rows_of(term, keys):
    return list(zip(*(term[k] for k in keys)))


RESIDUAL = {                       # kind in the data: kind here, columns in the data, columns here, the form
    "ResidualHelmholtzPower": ("power", "ndtl", "ndtl", "n δ^d τ^t, times exp(-δ^l) where l > 0"),
    "ResidualHelmholtzLemmon2005": ("double-exponential", "ndtlm", "ndtlm",
                                    "n δ^d τ^t, times exp(-δ^l) where l > 0, times exp(-τ^m) where m > 0"),
    "ResidualHelmholtzGaussian": ("gaussian", ["n", "d", "t", "eta", "epsilon", "beta", "gamma"],
                                  ["n", "d", "t", "eta", "epsilon", "beta", "gamma"],
                                  "n δ^d τ^t exp(-η (δ - ε)² - β (τ - γ)²)"),
    "ResidualHelmholtzGaoB": ("gao-b", ["n", "d", "t", "eta", "epsilon", "beta", "gamma", "b"],
                              ["n", "d", "t", "eta", "epsilon", "beta", "gamma", "b"],
                              "n δ^d τ^t exp(η (δ - ε)² + 1/(β (τ - γ)² + b)); η is negative"),
    "ResidualHelmholtzNonAnalytic": ("non-analytic", ["n", "a", "b", "beta", "A", "B", "C", "D"],
                                     ["n", "a", "b", "beta", "A", "B", "C", "D"],
                                     "n Δ^b δ ψ, Δ = θ² + B ((δ - 1)²)^a, θ = (1 - τ) + A ((δ - 1)²)^(1/(2β)), ψ = exp(-C (δ - 1)² - D (τ - 1)²)"),
}


def residual(terms):
    out = ["residual:"]
    for term in terms:
        kind, keys, columns, form = RESIDUAL[term["type"]]
        out += [f"  {kind}:   # {form}"] + table(list(columns), rows_of(term, keys), 4)
    return out


def ideal(terms):
    out = ["ideal:   # beside ln δ"]
    for term in terms:
        kind = term["type"].removeprefix("IdealGasHelmholtz")
        if kind == "Lead":
            out.append(f"  lead: {{a1: {number(term['a1'])}, a2: {number(term['a2'])}}}   # a1 + a2 τ")
        elif kind == "EnthalpyEntropyOffset":
            out.append(f"  offset: {{a1: {number(term['a1'])}, a2: {number(term['a2'])}}}   # a1 + a2 τ; shifts the zero of h and s only")
        elif kind == "LogTau":
            out.append(f"  log-tau: {number(term['a'])}   # a ln τ")
        elif kind == "Power":
            out += ["  power:   # n τ^t"] + table("nt", rows_of(term, "nt"), 4)
        elif kind == "PlanckEinstein":
            out += ["  planck-einstein:   # n ln(1 - exp(-t τ))"] + table("nt", rows_of(term, "nt"), 4)
        elif kind in ("CP0Constant", "CP0PolyT"):
            c = [(term["cp_over_R"], 0)] if kind == "CP0Constant" else rows_of(term, "ct")
            name = "constant-heat-capacity" if kind == "CP0Constant" else "polynomial-heat-capacity"
            out += [f"  {name}:   # cp0/R = c T^t from T0, with T taken as scale/τ"]
            out += [f"    from: {number(term['T0'])} K", f"    scale: {number(term['Tc'])} K"] + table("ct", c, 4)
        else:
            raise ValueError(kind)
    return out


def write_pure(designation):
    name, chemical, citation, uncertainty, limits = PURES[designation]
    j = fluid_json(name)
    e = j["EOS"][0]
    state = AbstractState("HEOS", name)
    t_max, p_max = limits or (e["T_max"], e["p_max"] / 1e6)
    what = ("vapor pressure", "liquid density", "isobaric heat capacity")
    stated = ", ".join(f"{w} {u}" for w, u in zip(what, uncertainty) if u) + " (from memory)"
    reducing = e["STATES"]["reducing"]
    out = [
        f"# Written by tests/reference/make_equations.py from the coefficients CoolProp {CoolProp.__version__} carries. Change the script, not this file.",
        f"designation: {designation}",
        f"chemical-name: {chemical}",
        f"cas: {j['INFO']['CAS']}",
        "source: >-",
        f"  {citation}",
        f"valid: {{from: {number(e['Ttriple'])} K, to: {number(t_max)} K, up-to: {number(p_max)} MPa}}",
        f"uncertainty: {stated}",
        f"gas-constant: {number(e['gas_constant'])} J/(mol K)",
        f"molar-mass: {number(e['molar_mass'])} kg/mol",
        f"reducing: {{temperature: {number(reducing['T'])} K, density: {number(reducing['rhomolar'])} mol/m³}}",
        "# where this equation has its critical point: first and second derivative of p by density vanish",
        f"critical: {{temperature: {number(state.T_critical())} K, pressure: {number(state.p_critical())} Pa, density: {number(state.rhomolar_critical())} mol/m³}}",
        f"triple-point: {number(e['Ttriple'])} K",
        f"acentric-factor: {number(e['acentric'])}",
    ] + residual(e["alphar"]) + ideal(e["alpha0"])
    with open(os.path.join(EQUATIONS, file_name(designation)), "w") as f:
        f.write("\n".join(out) + "\n")


def file_name(designation):
    return designation.lower().replace("(", "-").replace(")", "") + ".yaml"


def write_mixing():
    by_cas = {fluid_json(p[0])["INFO"]["CAS"]: d for d, p in PURES.items()}
    pairs, departures = embedded_json(b'"betaV"'), {d["Name"]: d for d in embedded_json(b'"KWR"]')}
    ours = [p for p in pairs if p["CAS1"] in by_cas and p["CAS2"] in by_cas]
    order = list(PURES)
    for key, (file, citation, uncertainty) in MIXTURES.items():
        mine = sorted((p for p in ours if p["BibTeX"] == key),
                      key=lambda p: (order.index(by_cas[p["CAS1"]]), order.index(by_cas[p["CAS2"]])))
        out = [
            f"# Written by tests/reference/make_equations.py from the parameters CoolProp {CoolProp.__version__} carries. Change the script, not this file.",
            "source: >-",
            f"  {citation}",
            f"uncertainty: {json.dumps(uncertainty)}",
            "# The order of a pair matters: beta of (1, 2) is 1/beta of (2, 1). xi is on temperature, zeta on volume.",
            "pairs:",
        ]
        used = []
        for p in mine:
            f = p.get("F", 0)
            row = f"first: {by_cas[p['CAS1']]}, second: {by_cas[p['CAS2']]}, "
            if "xi" in p:
                row += f"xi: {number(p['xi'])} K, zeta: {number(p['zeta'])} m³/mol"
            else:
                row += f"beta-t: {number(p['betaT'])}, gamma-t: {number(p['gammaT'])}, beta-v: {number(p['betaV'])}, gamma-v: {number(p['gammaV'])}"
            if f:
                row += f", factor: {number(f)}, departure: {p['function']}"
                used.append(p["function"])
            out.append(f"  - {{{row}}}")
        out.append("departures:   # each term n δ^d τ^t, times exp(-δ^l) where l > 0" if used else "departures: {}")
        for name in dict.fromkeys(used):
            d = dict(departures[name])
            if d["type"] == "GERG-2008":
                # Npower leading terms are bare powers; the pairs kept here have no others
                assert d["Npower"] == len(d["n"]), name
                d["l"] = [0] * len(d["n"])
            else:
                assert d["type"] == "Exponential" and min(d["l"]) >= 1, name
            out += [f"  {name}:"] + table("ndtl", rows_of(d, "ndtl"), 4)
        with open(os.path.join(MIXING, file + ".yaml"), "w") as f:
            f.write("\n".join(out) + "\n")
    left = {p["BibTeX"] for p in ours} - set(MIXTURES)
    assert not left, left
    print(f"{len(PURES)} equations, {len(ours)} pairs")


if __name__ == "__main__":
    os.makedirs(EQUATIONS, exist_ok=True)
    os.makedirs(MIXING, exist_ok=True)
    for designation in PURES:
        write_pure(designation)
    write_mixing()
