"""Coil of a speed sensor on its load: e = N dPhi/dt = L di/dt + (R + Rl) i, u = Rl i, 48 teeth (Faraday; any textbook on
circuits). Writes coil.txt: the voltage in V, 4,000 a second, at 120 rpm for 0.8 s and at 360 rpm from 1.6 s to 2.4 s. Made with
SciPy 1.17.1: python3 coil.py"""
import numpy as np
from scipy.integrate import solve_ivp

L, R, RL, TEETH, AT_100 = 0.9, 1_100.0, 4_700.0, 48, 0.40
RATE, LENGTH = 4_000.0, 2.4


def rates(t, state):
    i, turns = state
    rpm = 120.0 + 240.0 * np.clip((t - 0.8) / 0.8, 0.0, 1.0)
    rpm *= 1.0 + 0.004 * np.sin(9.0 * t)
    e = AT_100 * rpm / 100.0 * np.sin(2 * np.pi * TEETH * turns)
    return [(e - (R + RL) * i) / L, rpm / 60.0]


t = np.arange(round(LENGTH * RATE)) / RATE
run = solve_ivp(rates, (0.0, LENGTH), [0.0, 0.1], "Radau", t, rtol=1e-8, atol=1e-10)
np.savetxt("coil.txt", RL * run.y[0], "%.4f")
print(f"at 100 rpm without the inductance {AT_100 * RL / (R + RL):.4f} V")
