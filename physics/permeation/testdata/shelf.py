"""The filled pack by a general stiff integrator, independent of the Go code.

Prints JSON: loss of carbonation [%], pressure [bar(g)], oxygen come in [mg/L]
and water lost [g] of the half-litre and the two-litre bottle of the checks at
12 and 26 weeks, and the seconds that a year took.
"""
import json
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

R, ATM, DAY, WEEK = 8.31446261815324, 101325.0, 86400.0, 7 * 86400.0
VSTP = R * 273.15 / ATM
CC = 1e-6 / VSTP
TRADE = CC * 1e-3 / (DAY * ATM)
VM, M_CO2 = 22.263e-3, 44.0095e-3
VINF = 32.3e-6
N = int(sys.argv[1]) if len(sys.argv) > 1 else 16
T = 295.15
RHO20 = 998.2020  # water at 20 °C
RH, PA = 0.5, ATM

BOTTLES = {
    "half": dict(fill=0.5e-3, brim=0.522e-3, slim=32e-3 / 0.30e-3,
                 zones=[(0.0285, 0.30e-3, 0), (0.0060, 0.38e-3, 0), (0.0055, 0.43e-3, 0), (0.0005, 1.6e-3, 1), (0.0015, 1.9e-3, 1)]),
    "two": dict(fill=2e-3, brim=2.06e-3, slim=54e-3 / 0.24e-3,
                zones=[(0.0800, 0.24e-3, 0), (0.0120, 0.32e-3, 0), (0.0140, 0.30e-3, 0), (0.0006, 1.4e-3, 1), (0.0015, 1.9e-3, 1)]),
}


def arr(v, e, t0=298.15):
    return v * np.exp(-e / R * (1 / T - 1 / t0))


def henry_co2():
    return 10 ** (108.3865 + 0.01985076 * T - 6919.53 / T - 40.45154 * np.log10(T) + 669365 / T**2) / ATM


def psat():
    x = 1 - T / 647.096
    return 22.064e6 * np.exp(647.096 / T * (-7.85951783 * x + 1.84408259 * x**1.5 - 11.7866497 * x**3 + 22.6807411 * x**3.5 - 15.9618719 * x**4 + 1.80122502 * x**7.5))


def henry_air(a, b, c):
    tr = T / 647.096
    tau = 1 - tr
    return 1 / (psat() * np.exp((a + b * tau**0.355) / tr + c * tr**-0.41 * np.exp(tau)) * 18.015268e-3)


def rho():
    c = T - 273.15
    return (999.83952 + 16.952577 * c - 7.9905127e-3 * c**2 - 46.241757e-6 * c**3 + 105.84601e-9 * c**4 - 281.03006e-12 * c**5) / (1 + 16.887236e-3 * c)


B = (-1636.75 + 12.0408 * T - 3.27957e-2 * T**2 + 3.16528e-5 * T**3) * 1e-6
PW, RHO = psat(), rho()
KH, HO, HN = henry_co2(), henry_air(-9.44833, 4.43822, 11.42005), henry_air(-9.67578, 4.72162, 11.70585)
KELVIN = [(0.09, 0.1 * DAY), (0.11, DAY), (0.12, 7 * DAY), (0.12, 40 * DAY), (0.12, 250 * DAY)]
# Dual mode of the stretched and of the unstretched wall, then oxygen and nitrogen.
LEFT = (78 - 22) / (78 - 25)
WALL = [
    dict(k=arr(0.25 / VSTP / ATM, -20e3), c=4.5 / VSTP * LEFT, b=arr(0.32568e-5, -22e3), f=0.08, d=arr(1.9e-13, 48e3)),
    dict(k=arr(0.36 / VSTP / ATM, -20e3), c=6.5 / VSTP * LEFT, b=arr(0.32568e-5, -22e3), f=0.08, d=arr(5.7e-13, 48e3)),
]
OXY = [(arr(1.90 * TRADE, 32.8e3), arr(3.0e-13, 46e3)), (arr(4.0 * TRADE, 32.8e3), arr(5.5e-13, 46e3))]
NIT = [(arr(0.40 * TRADE, 33e3), arr(1.2e-13, 48e3)), (arr(0.85 * TRADE, 33e3), arr(2.0e-13, 48e3))]
H2O = [arr(0.105e-3 * 1e-3 / (DAY * 1e3), 5e3), arr(0.14e-3 * 1e-3 / (DAY * 1e3), 5e3)]
CAP = [arr(k * CC / (DAY * ATM), 32e3, 296.15) for k in (0.11, 0.035, 0.012)]
CAPW = 2e-5 * 1e-3 / (DAY * 1e3)
AIR = [40.0, 0.2095 * PA, 0.7905 * PA]


class Pack:
    def __init__(self, bottle):
        self.__dict__.update(bottle)
        self.g0 = 0.70 * self.slim * (2.5 - 2 * 0.38) / 4.2e9
        self.m0 = self.fill * RHO
        self.mol = 4 / VM / RHO20  # mol per kg of water: volumes in a litre at 20 °C
        self.counted = self.mol * self.m0

    def pressure(self, n, mw, strain):
        def partial(P):
            s = KH * mw * np.exp(B * P / (R * T)) * np.exp(-VINF * (P - ATM) / (R * T))
            vb = self.brim * (1 + self.g0 * (P - PA) + strain)
            free = vb - mw / RHO + VINF * self.counted
            d = R * T + B * P
            # n = x s + x (free - v s x)/d, the smaller root
            a, b = VINF * s / d, s + free / d
            x = 2 * n[0] / (b + np.sqrt(b * b - 4 * a * n[0]))
            vg = free - VINF * s * x
            return x, n[1] / (HO * mw + vg / (R * T)), n[2] / (HN * mw + vg / (R * T)), s * x
        P = brentq(lambda P: sum(partial(P)[:3]) + PW - P, 1e3, 3e6, xtol=1e-3, rtol=1e-13)
        return P, partial(P)

    def start(self):
        air = 0.3 * (PA - PW) * (self.brim - self.fill) / (R * T)
        no, nn = 0.2095 * air, 0.7905 * air

        def sealed(P):
            p = self.mol / (KH * np.exp(B * P / (R * T)) * np.exp(-VINF * (P - ATM) / (R * T)))
            vg = self.brim * (1 + self.g0 * (P - PA)) - self.fill
            return p, vg, p + no / (HO * self.m0 + vg / (R * T)) + nn / (HN * self.m0 + vg / (R * T)) + PW
        P = brentq(lambda P: sealed(P)[2] - P, 1e5, 2e6, xtol=1e-4, rtol=1e-13)
        p, vg, _ = sealed(P)
        n = self.counted + p * vg / (R * T + B * P)
        y = [n, no, nn, self.m0] + [0] * 5 + [0.0]
        for a, L, k in self.zones:
            y += [dual(WALL[k], 40.0)] * N + [OXY[k][0] / OXY[k][1] * AIR[1]] * N + [NIT[k][0] / NIT[k][1] * AIR[2]] * N
        return np.array(y, float)

    def rates(self, t, y):
        dy = np.zeros_like(y)
        P, (pc, po, pn, _) = self.pressure(y[:3], y[3], y[4:9].sum())
        drive = [pc * np.exp(B * P / (R * T)), po, pn]
        for i, p in enumerate((pc, po, pn)):
            j = CAP[i] * (p - AIR[i])
            dy[i] -= j
            if i == 1:
                dy[9] -= j
        for i, (r, tau) in enumerate(KELVIN):
            dy[4 + i] = (r * self.g0 * (P - PA) - y[4 + i]) / tau
        water = CAPW
        at = 10
        for a, L, k in self.zones:
            water += H2O[k] * a / L
            dx = L / N
            for i in range(3):
                c = y[at:at + N]
                if i == 0:
                    w = WALL[k]
                    th, d, edge, out = theta(w, c), w["d"], flow(w, drive[0]), flow(w, AIR[0])
                else:
                    perm, d = (OXY, NIT)[i - 1][k]
                    th, edge, out = c, perm / d * drive[i], perm / d * AIR[i]
                j = np.empty(N + 1)
                j[0] = 2 * d / dx * (edge - th[0])
                j[1:N] = d / dx * (th[:-1] - th[1:])
                j[N] = 2 * d / dx * (th[-1] - out)
                dy[at:at + N] = (j[:-1] - j[1:]) / dx
                dy[i] -= a * j[0]
                if i == 1:
                    dy[9] -= a * j[0]
                at += N
        dy[3] = -water * PW * (1 - RH)
        return dy

    def sparsity(self):
        n = 10 + 3 * N * len(self.zones)
        s = np.zeros((n, n))
        s[:10, :10] = 1
        at = 10
        for _ in self.zones:
            for i in range(3):
                for j in range(N):
                    s[at + j, max(at, at + j - 1):min(at + N, at + j + 2)] = 1
                s[at, :9] = 1
                s[[i, 9], at] = 1
                at += N
        return s


def dual(w, p):
    return w["k"] * p + w["c"] * w["b"] * p / (1 + w["b"] * p)


def flow(w, p):
    return w["k"] * p + w["f"] * w["c"] * w["b"] * p / (1 + w["b"] * p)


def theta(w, c):
    q = w["k"] + w["c"] * w["b"] - w["b"] * c
    p = (-q + np.sqrt(q * q + 4 * w["k"] * w["b"] * c)) / (2 * w["k"] * w["b"])
    return flow(w, p)


out = {"cells": N}
for name, bottle in BOTTLES.items():
    pack = Pack(bottle)
    y = pack.start()
    began = time.perf_counter()
    s = solve_ivp(pack.rates, (0, 52 * WEEK), y, method="BDF", rtol=1e-7, atol=1e-11, t_eval=[0, 12 * WEEK, 26 * WEEK, 52 * WEEK], jac_sparsity=pack.sparsity())
    took = time.perf_counter() - began
    if not s.success:
        sys.exit(s.message)
    read = []
    for i in range(len(s.t)):
        P, (_, _, _, nl) = pack.pressure(s.y[:3, i], s.y[3, i], s.y[4:9, i].sum())
        read.append((nl / s.y[3, i], P, s.y[9, i], s.y[3, i]))
    out[name] = {
        "seconds": took,
        "loss": [100 * (1 - r[0] / read[0][0]) for r in read[1:]],
        "bar": [(r[1] - PA) / 1e5 for r in read],
        "oxygen": [r[2] * 31.9988e-3 * 1e3 / pack.fill for r in read[1:]],
        "water": [1e3 * (read[0][3] - r[3]) for r in read[1:]],
    }
print(json.dumps(out))
