"""Solenoid with a moving gap: u = R i + d(L i)/dt, L = Lc / (1 + (q - 1)(1 - x)) with x from 0 (open) to 1 (closed), force half of
i^2 dL/ds against a preloaded spring and friction (H. H. Woodson and J. R. Melcher, "Electromechanical Dynamics", part I, chapters
3 and 5). Writes solenoid.txt: the current in A, 50,000 a second, switched on at 3 ms and off after 9 ms against 55 V. Made with
SciPy 1.17.1: python3 solenoid.py"""
import numpy as np
from scipy.integrate import solve_ivp

U, R, LO, Q, CLAMP = 13.4, 13.2, 11.5e-3, 1.45, 55.0
STROKE, MASS, PULL = 1e-4, 2.2e-3, 0.42
ON, DWELL, RATE, LENGTH = 3e-3, 9e-3, 50_000.0, 18e-3


def henry(x):
    return LO * Q / (1 + (Q - 1) * (1 - x))


def slope(x):
    return henry(x) ** 2 * (Q - 1) / (LO * Q)


PRELOAD = 0.5 * PULL**2 * slope(0.0) / STROKE
SPRING, FRICTION = 0.1 * PRELOAD, 0.4


def moving(volts):
    def rates(_, state):
        i, x, v = state
        force = 0.5 * i * i * slope(x) / STROKE - PRELOAD - SPRING * x - FRICTION * v * STROKE
        back = i * slope(x) * v
        return [(volts - R * i - back) / henry(x), v, force / MASS / STROKE]

    return rates


def held(volts, x):
    return lambda _, state: [(volts - R * state[0]) / henry(x), 0.0, 0.0]


def event(function):
    function.terminal = True
    return function


def run(rates, span, state, stop=None):
    return solve_ivp(rates, span, state, "Radau", dense_output=True, events=stop, rtol=1e-9, atol=1e-11)


off = ON + DWELL
rise = run(held(U, 0.0), (ON, off), [0.0, 0.0, 0.0], event(lambda _, s: s[0] - PULL))
leaves = rise.t[-1]
move = run(moving(U), (leaves, off), rise.y[:, -1], event(lambda _, s: s[1] - 1.0))
arrives = move.t[-1]
hold = run(held(U, 1.0), (arrives, off), [move.y[0, -1], 1.0, 0.0])
fall = run(held(U - CLAMP, 1.0), (off, LENGTH), [hold.y[0, -1], 1.0, 0.0], event(lambda _, s: s[0] - 1e-6))
amps = []
for t in np.arange(round(LENGTH * RATE)) / RATE:
    part = [p for p in (rise, move, hold, fall) if p.t[0] <= t < p.t[-1]]
    amps.append(part[0].sol(t)[0] if part else 0.0)
np.savetxt("solenoid.txt", amps, "%.6f")
print(f"leaves after {1e3 * (leaves - ON):.4f} ms, arrives after {1e3 * (arrives - ON):.4f} ms")
