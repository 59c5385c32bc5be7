"""Reference values of demo_models.rs: the same equations by SciPy's integrators (SciPy 1.17.1, NumPy 2.4.6).

python3 demo_models.py prints one line per value. Nothing of this file is run by the tests."""
import numpy as np
from scipy.integrate import solve_ivp

# Start: permanent-magnet starter and one to many cylinders, as systems/start_and_charge.rs states them.
emf, battery, feed, ground, starter, k, inertia, friction = 12.62, 0.0058, 0.0011, 0.0008, 0.0075, 0.42, 0.32, 44.0
shares = [1.0, 0.97, 1.0, 0.98]
disp, ratio, n, lam, back, air = 3.9e-4, 9.5, 1.28, 0.29, 0.7, 1.0e5
path = battery + feed + ground + starter


def gas(a):
    root = np.sqrt(1 - (lam * np.sin(a)) ** 2)
    stroke = (1 - np.cos(a) + (1 - root) / lam) / 2
    slope = (np.sin(a) + lam * np.sin(a) * np.cos(a) / root) / 2
    clear = disp / (ratio - 1)
    p = air * (((clear + disp) / (clear + disp * stroke)) ** n - 1)
    return (back if a > 0 else 1.0) * p * disp * slope


def torque(crank):
    total = 0.0
    for i, share in enumerate(shares):
        a = (crank + 4 * np.pi * i / len(shares)) % (4 * np.pi) - 2 * np.pi
        total += share * gas(a) if abs(a) < np.pi else 0.0
    return total


def drawn(w):
    return max(0.0, (emf - k * w) / path)


def slope(t, y):
    crank, w = y
    return [w, (k * drawn(w) + torque(crank) - friction * np.tanh(w / 0.5) - 0.35 * w) / inertia]


end = 4.0
s = solve_ivp(slope, (0, end), [1.1, 0.0], method="LSODA", rtol=1e-9, atol=1e-9, max_step=2e-4, dense_output=True)
t = np.linspace(2.0, 4.0, 20001)
w = s.sol(t)[1]
amps = np.array([drawn(x) for x in w]) + 18 + 6
print("start: inrush A %.2f" % (drawn(0.0) + 24))
print("start: mean speed of 2..4 s rpm %.3f" % (np.trapezoid(w, t) / 2 * 30 / np.pi))
print("start: mean current of 2..4 s A %.3f" % (np.trapezoid(amps, t) / 2))
print("start: span A %.1f to %.1f" % (amps.min(), amps.max()))
print("start: lowest voltage of 2..4 s V %.4f" % (emf - battery * amps.max()))

# Motor without a fault, as systems/dc_motor.rs states it; 12.7 V from 0 s on.
R, L, K, J, Tf, fan, bars, Rw, U = 0.46, 180e-6, 0.031, 1.9e-4, 0.02, 1.9e-6, 10, 0.045, 12.7


def motor(t, y):
    i, w, turn = y
    within = (turn * bars) % 1.0 - 0.5
    c = K * np.cos(2 * np.pi * within / bars)
    return [(U - (R + Rw) * i - c * w) / L, (c * i - Tf * np.tanh(w / 3) - fan * w * w) / J, w / (2 * np.pi)]


m = solve_ivp(motor, (0, 1.0), [0, 0, 0.1], method="LSODA", rtol=1e-9, atol=1e-9, max_step=1e-5, dense_output=True)
tt = np.linspace(0, 0.01, 40001)
print("motor: peak A %.3f at %.3f ms" % (m.sol(tt)[0].max(), 1e3 * tt[m.sol(tt)[0].argmax()]))
print("motor: current at 50 ms A %.3f, speed rad/s %.3f" % (m.sol(0.05)[0], m.sol(0.05)[1]))
tt = np.linspace(0.8, 1.0, 40001)
i, w, turn = m.sol(tt)
print("motor: mean current of 0.8..1 s A %.4f, turns %.4f" % (np.trapezoid(i, tt) / 0.2, turn[-1] - turn[0]))
