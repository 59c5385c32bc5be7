"""Start of a permanent-magnet motor with a fan: V = R i + L di/dt + k w, J dw/dt = k i - T - c w^2 (any textbook on electric
drives). Writes start.txt: the current in A, 5,000 a second, switched on at 0.1 s. Made with SciPy 1.17.1: python3 start.py"""
import numpy as np
from scipy.integrate import solve_ivp

V, R, L, K, J, T, C = 13.2, 0.62, 0.35e-3, 0.021, 3.2e-5, 0.042, 1.68e-7
RATE, ON, LENGTH = 5_000.0, 0.1, 1.0


def rates(_, state):
    i, w = state
    return [(V - R * i - K * w) / L, (K * i - min(T, K * i) - C * w * w) / J]


t = np.arange(round(LENGTH * RATE)) / RATE
run = solve_ivp(rates, (ON, LENGTH), [0.0, 0.0], "Radau", t[t >= ON], rtol=1e-9, atol=1e-9)
amps = np.concatenate([np.zeros(int((t < ON).sum())), run.y[0]])
np.savetxt("start.txt", amps, "%.4f")
print(f"at the end {run.y[0][-1]:.4f} A, {run.y[1][-1] * 30 / np.pi:.1f} rpm")
