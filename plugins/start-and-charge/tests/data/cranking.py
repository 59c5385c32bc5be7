"""Battery, cables, starter and engine: E = (Rb + Rf + Rg + Ra) i + L di/dt + k w, J dw/dt = k i - T - Tc max(0, sin 2a), angles
of the crankshaft of four cylinders (any textbook on electric drives). Writes cranking.txt: battery voltage in V, current in A,
ground drop in V, 1,000 a second; the starter is on from 0.4 to 2.6 s. Made with SciPy 1.17.1: python3 cranking.py"""
import numpy as np
from scipy.integrate import solve_ivp

E, RB, RF, RG, RA, L = 12.6, 6.2e-3, 0.9e-3, 0.7e-3, 5.5e-3, 0.15e-3
K, J, T, TC, LOAD = 0.42, 0.18, 42.0, 45.0, 6.0
RATE, ON, OFF, LENGTH = 1_000.0, 0.4, 2.6, 3.0


def rates(_, state):
    i, w, a = state
    volts = E - RB * (i + LOAD) - (RF + RG + RA) * i - K * w
    torque = K * i - (T if w > 1e-3 else min(T, K * i)) - TC * max(0.0, np.sin(2 * a))
    return [volts / L, (torque if w > 0 or torque > 0 else 0.0) / J, w]


t = np.arange(round(LENGTH * RATE)) / RATE
on = (t >= ON) & (t < OFF)
run = solve_ivp(rates, (ON, OFF), [0.0, 0.0, 0.3], "DOP853", t[on], rtol=1e-9, atol=1e-9, max_step=1e-4)
amps = np.full(len(t), LOAD)
amps[on] += run.y[0]
np.savetxt("cranking.txt", np.column_stack([E - RB * amps, amps, RG * (amps - LOAD)]), "%.4f")
steady = run.t > ON + 0.6
print(f"{run.y[0][steady].mean() + LOAD:.2f} A, {run.y[1][steady].mean() * 30 / np.pi:.2f} rpm while turning")
