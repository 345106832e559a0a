"""Saturation reference for the property engine's tests.

Needs the PyPI packages CoolProp (8.0.0 used), teqp (0.23.2 used), numpy.    python make_saturation.py
Writes saturation.csv beside this file and prints a summary of what CoolProp's own flash could not solve. Also
helmholtz_checks.csv: the Helmholtz energy and its derivatives at given (T, rho), for finding a slip in a term by term port.

Every blend row is computed twice: by CoolProp's own QT flash, and by the Newton solver below, which evaluates the SAME
equations and pair parameters through teqp (a second, independent implementation) and walks up the saturation curve from
low temperature. Where CoolProp's flash fails, the row still stands, from the Newton solver; the last columns say so.
Blends use the multi-fluid mixture model throughout, never a pseudo-pure equation.

Reference state: saturated liquid (blends: bubble-point liquid of the blend's composition) at 273.15 K has
h = 200 kJ/kg and s = 1 kJ/(kg K) (IIR). Liquid columns: bubble point. Vapour columns: dew point. Both at T.
"""
import csv, glob, json, os
import numpy as np
import CoolProp, teqp
import CoolProp.CoolProp as CP
from CoolProp.CoolProp import AbstractState

HERE = os.path.dirname(os.path.abspath(__file__))
T_LOW = (-60.0 + 459.67) / 1.8                                   # -60 degF in K

PURES = {"R-22": "R22", "R-32": "R32", "R-125": "R125", "R-134a": "R134a", "R-143a": "R143a", "R-152a": "R152A",
         "R-123": "R123", "R-1234yf": "R1234yf", "R-1234ze(E)": "R1234ze(E)", "R-1233zd(E)": "R1233zd(E)",
         "R-290": "n-Propane", "R-600a": "IsoButane", "R-600": "n-Butane", "R-1270": "Propylene", "R-717": "Ammonia",
         "R-744": "CarbonDioxide", "R-227ea": "R227EA", "R-23": "R23", "R-13I1": "R13I1"}
COMPONENTS_ONLY = {"R-1336mzz(E)": "R1336mzz(E)", "R-601a": "Isopentane"}
# mass per cent, ASHRAE 34 / ISO 817
BLENDS = {
    "R-404A": "125/143a/134a 44/52/4", "R-407A": "32/125/134a 20/40/40", "R-407C": "32/125/134a 23/25/52",
    "R-407F": "32/125/134a 30/30/40", "R-407H": "32/125/134a 32.5/15/52.5", "R-410A": "32/125 50/50",
    "R-417A": "125/134a/600 46.6/50/3.4", "R-421A": "125/134a 58/42", "R-422B": "125/134a/600a 55/42/3",
    "R-422D": "125/134a/600a 65.1/31.5/3.4", "R-427A": "32/125/143a/134a 15/25/10/50",
    "R-438A": "32/125/134a/600/601a 8.5/45/44.2/1.7/0.6", "R-448A": "32/125/1234yf/134a/1234ze(E) 26/26/20/21/7",
    "R-449A": "32/125/1234yf/134a 24.3/24.7/25.3/25.7", "R-450A": "134a/1234ze(E) 42/58",
    "R-452A": "32/125/1234yf 11/59/30", "R-452B": "32/125/1234yf 67/7/26", "R-454A": "32/1234yf 35/65",
    "R-454B": "32/1234yf 68.9/31.1", "R-454C": "32/1234yf 21.5/78.5", "R-455A": "744/32/1234yf 3/21.5/75.5",
    "R-456A": "32/134a/1234ze(E) 6/45/49", "R-466A": "32/125/13I1 49/11.5/39.5",
    "R-471A": "1234ze(E)/227ea/1336mzz(E) 78.7/4.3/17", "R-507A": "125/143a 50/50", "R-513A": "1234yf/134a 56/44",
    "R-515B": "1234ze(E)/227ea 91.1/8.9"}


def fluid_json(name):
    """CoolProp's coefficients of one pure fluid, as a dict."""
    j = json.loads(CP.get_fluid_param_string(name, "JSON"))
    return j[0] if isinstance(j, list) else j


def embedded_json(marker):
    """A JSON array that CoolProp keeps as plain text inside its compiled module, found by a string that only it contains."""
    path = glob.glob(os.path.join(os.path.dirname(CoolProp.__file__), "CoolProp.*.so"))[0]
    blob = open(path, "rb").read()
    at = blob.find(marker)
    text = blob[blob.rfind(b"\0", 0, at) + 1:blob.find(b"\0", at)].decode()
    return json.JSONDecoder().raw_decode(text[text.index("["):])[0]


PAIRS, DEPARTURES = embedded_json(b'"betaV"'), embedded_json(b'"KWR"]')


# pairs without published parameters: they borrow those of a like pair, component for component (the rule is told in src/fluid/mixing.rs)
BORROWED = {("R-601a", "R-32"): ("R-600", "R-32"), ("R-601a", "R-125"): ("R-600", "R-125"),
            ("R-601a", "R-134a"): ("R-600", "R-134a")}


def cas(designation):
    return fluid_json((PURES | COMPONENTS_ONLY)[designation])["INFO"]["CAS"]


def borrow_pairs():
    """Adds the borrowed pairs to PAIRS and to CoolProp's own table."""
    for (a, b), (c, d) in BORROWED.items():
        swap = {cas(c): cas(a), cas(d): cas(b)}
        p = next(p for p in PAIRS if {p["CAS1"], p["CAS2"]} == set(swap))
        new = dict(p, CAS1=swap[p["CAS1"]], CAS2=swap[p["CAS2"]], BibTeX="estimated")
        if any({q["CAS1"], q["CAS2"]} == {new["CAS1"], new["CAS2"]} for q in PAIRS):
            continue
        PAIRS.append(new)
        CP.apply_simple_mixing_rule(new["CAS1"], new["CAS2"], "linear")
        for key in ("betaT", "gammaT", "betaV", "gammaV"):
            try:
                CP.set_mixture_binary_pair_data(new["CAS1"], new["CAS2"], key, new[key])
            except ValueError:                                  # CoolProp keeps the pair the other way round: beta inverts
                CP.set_mixture_binary_pair_data(new["CAS2"], new["CAS1"], key, 1 / new[key] if "beta" in key else new[key])


def pairs_for(fluids):
    """Pair parameters in beta/gamma form for these fluids (dicts by CoolProp name).

    The Lemmon & Jacobsen (2004) pairs come as xi [K] (on T) and zeta [m3/mol] (on v); teqp 0.23.2 misreads that form, so
    it is turned into the equivalent gammaT, gammaV here.
    """
    by_cas, out = {j["INFO"]["CAS"]: j for j in fluids.values()}, []
    for p in PAIRS:
        if p["CAS1"] in by_cas and p["CAS2"] in by_cas:
            p = dict(p)
            if "xi" in p:
                r1, r2 = (by_cas[p[k]]["EOS"][0]["STATES"]["reducing"] for k in ("CAS1", "CAS2"))
                v1, v2 = 1 / r1["rhomolar"], 1 / r2["rhomolar"]
                p.update(betaT=1.0, betaV=1.0, gammaT=0.5 * (r1["T"] + r2["T"] + p.pop("xi")) / np.sqrt(r1["T"] * r2["T"]),
                         gammaV=4 * (v1 + v2 + p.pop("zeta")) / (np.cbrt(v1) + np.cbrt(v2)) ** 3)
            out.append(p)
    return out


class Fluid:
    """A refrigerant by designation: CoolProp states for properties at (T, rho), teqp + Newton for saturation."""

    def __init__(self, designation):
        self.designation = designation
        pure = PURES.get(designation) or COMPONENTS_ONLY.get(designation)
        if pure:
            self.names, w = [pure], np.ones(1)
        else:
            parts, amounts = BLENDS[designation].split()
            every = PURES | COMPONENTS_ONLY
            self.names, w = [every["R-" + p] for p in parts.split("/")], np.array([float(a) for a in amounts.split("/")])
        self.is_pure = len(self.names) == 1
        fluids = {n: fluid_json(n) for n in self.names}
        self.M = np.array([fluids[n]["EOS"][0]["molar_mass"] for n in self.names])
        self.z = w / self.M / (w / self.M).sum()
        self.w = w / w.sum()
        self.molar_mass = float(self.z @ self.M)
        # CoolProp: a mixture uses R = CODATA for all components, a pure fluid the R of its own paper. Same here.
        self.teqp = teqp.make_model({"kind": "multifluid", "model": {
            "components": list(fluids.values()), "BIP": pairs_for(fluids), "departure": DEPARTURES, "root": "",
            "flags": {} if self.is_pure else {"Rmodel": "CODATA"}}})
        self.R = self.teqp.get_R(self.z)
        self.pure_states = [AbstractState("HEOS", n) for n in self.names]
        self.T_triple = max(s.Ttriple() for s in self.pure_states)
        self.AS = AbstractState("HEOS", "&".join(self.names))
        if not self.is_pure:
            self.AS.set_mole_fractions(list(self.z))
        self.model = "pure" if self.is_pure else "mixture model"
        every = PURES | COMPONENTS_ONLY
        if any({every[a], every[b]} <= set(self.names) for a, b in BORROWED):
            self.model = "mixture model, some pairs estimated"

    # ---- critical point -------------------------------------------------------------------------------------------
    def critical(self):
        """(T [K], p [kPa], rho [kg/m3]); for a blend the hottest stable critical point CoolProp finds."""
        if self.is_pure:
            return self.AS.T_critical(), self.AS.p_critical() / 1e3, self.AS.rhomass_critical()
        c = max((c for c in self.AS.all_critical_points() if c.stable and c.T > 250), key=lambda c: c.T)
        return c.T, c.p / 1e3, c.rhomolar * self.molar_mass

    # ---- CoolProp's own flash ---------------------------------------------------------------------------------------
    def coolprop_saturation(self, T, Q):
        """(p [Pa], rho [mol/m3]) of the bubble (Q=0) or dew (Q=1) point; raises where CoolProp does not converge."""
        self.AS.unspecify_phase()
        self.AS.update(CP.QT_INPUTS, Q, T)
        return self.AS.p(), self.AS.rhomolar()

    # ---- independent saturation ---------------------------------------------------------------------------------------
    def _mu_p(self, T, rho):
        """mu_i/RT (less a function of T), p, and their derivatives with respect to the molar concentrations rho_i."""
        RT, total = self.R * T, rho.sum()
        g, H = self.teqp.build_Psir_gradient_autodiff(T, rho), self.teqp.build_Psir_Hessian_autodiff(T, rho)
        psi = self.teqp.get_Ar00(T, total, rho / total) * RT * total
        return np.log(rho) + g / RT, RT * total + rho @ g - psi, np.diag(1 / rho) + H / RT, RT + rho @ H

    def _newton(self, T, Q, liquid, vapour):
        """One saturation point from a start. Unknowns ln(rho) of the phase of composition z and ln(rho_i) of the other."""
        z, n = self.z, len(self.z)
        first, second = (liquid, vapour) if Q == 0 else (vapour, liquid)
        la, lb, best = np.log(first.sum()), np.log(second), None
        for _ in range(40):
            ra, rb = np.exp(la) * z, np.exp(lb)
            try:
                (ma, pa, da, qa), (mb, pb, db, qb) = self._mu_p(T, ra), self._mu_p(T, rb)
            except Exception:
                return None
            scale = max(abs(pa), abs(pb), 1e-3 * self.R * T * min(ra.sum(), rb.sum()))
            F = np.r_[ma - mb, (pa - pb) / scale]
            J = np.zeros((n + 1, n + 1))
            J[:n, 0], J[:n, 1:], J[n, 0], J[n, 1:] = da @ ra, -db * rb, qa @ ra / scale, -qb * rb / scale
            if not (np.isfinite(F).all() and np.isfinite(J).all()):
                return None
            error = abs(F).max()
            if best is None or error < best[0]:
                # The liquid's p is a difference of far larger terms: below 1e-11 rho R T a gap is rounding only.
                # So p is taken from the vapour, and a gap that small is no reason to refuse the point.
                gap = abs(pa - pb) - 1e-11 * self.R * T * max(ra.sum(), rb.sum())
                best = error, ra, rb, pa if Q == 1 else pb, max(abs(F[:n]).max(), gap / scale)
            if error < 3e-13:
                break
            try:
                d = np.linalg.solve(J, -F)
            except np.linalg.LinAlgError:
                return None
            biggest = abs(d).max()
            if biggest > 0.5:
                d *= 0.5 / biggest
            la, lb = la + d[0], lb + d[1:]
            if biggest < 1e-15:
                break
        _, ra, rb, p, error = best
        liquid, vapour = (ra, rb) if Q == 0 else (rb, ra)
        if error > 1e-9 or p <= 0 or liquid.sum() < 1.0002 * vapour.sum():
            return None
        return liquid, vapour, p, error

    def _start(self, T, Q):
        """Raoult's law with the components' vapour pressures; Wilson's estimate above a component's critical point."""
        p, rho = [], []
        for s in self.pure_states:
            if T < s.T_critical() - 0.01:
                s.update(CP.QT_INPUTS, 0, max(T, s.Ttriple())); p.append(s.p()); rho.append(s.rhomolar())
            else:
                p.append(s.p_critical() * np.exp(5.373 * (1 + s.acentric_factor()) * (1 - s.T_critical() / T)))
                rho.append(1.5 * s.rhomolar_critical())
        p, rho = np.array(p), np.array(rho)
        if Q == 0:
            x = self.z; total = x @ p; y = x * p / total
        else:
            y = self.z; total = 1 / (y / p).sum(); x = y * total / p
        return x / (x / rho).sum(), y * total / (self.R * T) / 0.95

    def saturation_curve(self, temperatures, Q, step=3.0):
        """Dict T -> (liquid rho_i, vapour rho_i [mol/m3], p [Pa], residual), walking upward with extrapolated starts."""
        wanted, out = sorted(temperatures), {}
        T = min(wanted[0], 250.0)
        now = None
        for _ in range(40):
            now = self._newton(T, Q, *self._start(T, Q))
            if now:
                break
            T += 1.0
        if not now:
            return out
        last = None
        for t in wanted:
            if t < T:
                r = self._newton(t, Q, *self._start(t, Q)) or self._newton(t, Q, now[0], now[1])
                if r:
                    out[t] = r
                continue
            h = step
            while T < t - 1e-12:
                dT = min(h, t - T)
                if last:
                    f = dT / (T - last[0])
                    start = now[0] * (now[0] / last[1][0]) ** f, now[1] * (now[1] / last[1][1]) ** f
                else:
                    start = now[0], now[1]
                r = self._newton(T + dT, Q, *start)
                if r is None or abs(np.log(r[2] / now[2])) > 0.5 or r[0].sum() > 1.0005 * now[0].sum():
                    h = dT / 2
                    if h < 1e-5:
                        return out
                    continue
                last, T, now, h = (T, now), T + dT, r, min(step, 1.5 * h)
            out[t] = now
        return out

    # ---- properties at (T, rho) of the whole composition ------------------------------------------------------------
    def at(self, T, rho, liquid):
        """p [kPa], rho [kg/m3], h [kJ/kg], s, cp [kJ/(kg K)], speed of sound [m/s] at rho [mol/m3], not shifted."""
        A = self.AS
        A.specify_phase(CP.iphase_liquid if liquid else CP.iphase_gas)
        A.update(CP.DmolarT_INPUTS, rho, T)
        v = A.p() / 1e3, A.rhomass(), A.hmass() / 1e3, A.smass() / 1e3, A.cpmass() / 1e3, A.speed_sound()
        A.unspecify_phase()
        return v

    def iir_shift(self):
        """What to add to h [kJ/kg] and s [kJ/(kg K)] so that bubble-point liquid at 273.15 K has 200 and 1."""
        r = self.saturation_curve([273.15], 0)[273.15]
        v = self.at(273.15, r[0].sum(), True)
        return 200.0 - v[2], 1.0 - v[3]


def saturation_rows(fluid, temperatures):
    """Rows for a CSV, and what the two ways made of them."""
    curves = [fluid.saturation_curve(temperatures, Q) for Q in (0, 1)]
    dh, ds = fluid.iir_shift()
    rows, worst, failed = [], 0.0, [[], []]
    for T in temperatures:
        side = []
        for Q in (0, 1):
            mine = curves[Q].get(T)
            try:
                p, rho = fluid.coolprop_saturation(T, Q)
                flag = "ok"
                if mine:
                    gap = max(abs(p / mine[2] - 1), abs(rho / mine[Q].sum() - 1))
                    worst = max(worst, gap)
                    if gap > 1e-6:
                        flag = "differs"
            except Exception:
                flag, p, rho = "failed", None, None
                failed[Q].append(T)
            if mine:
                p, rho = mine[2], mine[Q].sum()
            side.append((p, fluid.at(T, rho, Q == 0), flag) if p else None)
        if all(side):
            (pb, l, fb), (pd, v, fd) = side
            rows.append([fluid.designation, f"{T * 1.8 - 459.67:.3f}", f"{T:.6f}", f"{pb / 1e3:.9g}", f"{pd / 1e3:.9g}",
                         f"{l[1]:.9g}", f"{v[1]:.9g}", f"{l[2] + dh:.8g}", f"{v[2] + dh:.8g}", f"{l[3] + ds:.8g}",
                         f"{v[3] + ds:.8g}", fluid.model, fb, fd])
    return rows, worst, failed


def check_rows(fluid):
    """alphar, delta d/ddelta, tau d/dtau by teqp (CoolProp must agree), p, cv, cp, w by CoolProp, at a dense and a near-critical state."""
    r = fluid.AS.T_reducing(), fluid.AS.rhomolar_reducing()
    for T, rho in ((round(0.75 * r[0], 1), round(2.6 * r[1], -1)), (round(1.02 * r[0], 1), round(0.9 * r[1], -1))):
        a = fluid.teqp.get_Ar00(T, rho, fluid.z), fluid.teqp.get_Ar01(T, rho, fluid.z), fluid.teqp.get_Ar10(T, rho, fluid.z)
        fluid.AS.specify_phase(CP.iphase_liquid if T < r[0] else CP.iphase_supercritical_gas)
        fluid.AS.update(CP.DmolarT_INPUTS, rho, T)
        A = fluid.AS
        for x, y in zip(a, (A.alphar(), A.delta() * A.dalphar_dDelta(), A.tau() * A.dalphar_dTau())):
            assert abs(x - y) < 1e-11 * max(1, abs(x)), (fluid.designation, T, rho, x, y)
        yield [fluid.designation, f"{T:.1f}", f"{rho:.0f}", *(f"{x:.12g}" for x in a), f"{A.p() / 1e3:.10g}", f"{A.cvmass() / 1e3:.9g}",
               f"{A.cpmass() / 1e3:.9g}", f"{A.speed_sound():.9g}", f"{r[0]:.10g}", f"{r[1]:.10g}"]
        A.unspecify_phase()


borrow_pairs()
HEADER = ["refrigerant", "T_F", "T_K", "p_bubble_kPa", "p_dew_kPa", "rho_liquid", "rho_vapour", "h_liquid", "h_vapour",
          "s_liquid", "s_vapour", "model", "coolprop_bubble", "coolprop_dew"]
PUBLIC = ["R-22", "R-32", "R-134a", "R-1234yf", "R-290", "R-600a", "R-717", "R-744", "R-404A", "R-407C", "R-410A", "R-448A",
          "R-452A", "R-454B", "R-507A", "R-513A"]

if __name__ == "__main__":
    with open(os.path.join(HERE, "saturation.csv"), "w", newline="") as f:
        f.write("# source: CoolProp 8.0.0 and a Newton solver on teqp 0.23.2, IIR reference state; written by make_saturation.py "
                "beside this file (which says what the columns are)\n")
        out = csv.writer(f, lineterminator="\n")
        out.writerow(HEADER)
        for name in PUBLIC:
            fluid = Fluid(name)
            Tc = fluid.critical()[0]
            Ts = [(F + 459.67) / 1.8 for F in range(-60, 500, 20)]
            Ts = [T for T in Ts if fluid.T_triple < T < Tc]
            rows, worst, failed = saturation_rows(fluid, Ts)
            out.writerows(rows)
            print(f"{name:10s} Tc {Tc:8.3f} K  asked {len(Ts)} written {len(rows)}  CoolProp against Newton on teqp: worst {worst:.1e}"
                  f"  CoolProp failed: bubble {[round(T * 1.8 - 459.67) for T in failed[0]]} dew {[round(T * 1.8 - 459.67) for T in failed[1]]} degF", flush=True)
    with open(os.path.join(HERE, "helmholtz_checks.csv"), "w", newline="") as f:
        f.write("# source: CoolProp 8.0.0, which teqp 0.23.2 had to meet to 1e-11; written by make_saturation.py beside this file\n")
        out = csv.writer(f, lineterminator="\n")
        out.writerow(["refrigerant", "T_K", "rho_mol_m3", "alphar", "delta_dalphar_ddelta", "tau_dalphar_dtau", "p_kPa",
                      "cv_kJ_kgK", "cp_kJ_kgK", "speed_of_sound_m_s", "T_reducing_K", "rho_reducing_mol_m3"])
        for name in (PURES | COMPONENTS_ONLY | BLENDS):
            out.writerows(check_rows(Fluid(name)))
