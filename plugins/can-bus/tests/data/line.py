"""Bus line of 10 m, 120 ohm, 5 ns/m, as a ladder of 20 sections, 100 pF at either end; a driver of 3.6 V behind 40 ohm at the near
end sends a frame, the node at the far end acknowledges it (transmission line from any textbook on circuits). Writes line.txt: the
differential in mV, 5 million a second, 250 kbit/s, with both terminators of 120 ohm and without the far one. The edges lie 70 ns
after a sample. The circuit is linear and its sources constant between edges, so that each step is the matrix exponential. Made
with SciPy 1.17.1: python3 line.py"""
import numpy as np
from scipy.linalg import expm

# Identifier 0x0C1, 40 01 08 75 00 00 00 00, acknowledged (0 is dominant), as in bit_strings.rs.
FRAME = (
    "0000110000011000100001000001000001000100001000011101010000010000010000010000010000010000010010110110100000101011111111"
)
ACK = len(FRAME) - 9
SECTIONS, HENRY, FARAD, END = 20, 0.3e-6, 21e-12, 100e-12
SOURCE, DRIVER, TERMINATOR = 3.6, 40.0, 120.0
STEP, BIT, EVERY = 10e-9, 400, 20


def system(driven, far_ohm):
    """Capacitor voltages, then inductor currents; the last state is constant 1 for the source."""
    n = SECTIONS + 1
    a = np.zeros((2 * n, 2 * n))
    for k in range(n):
        farad = FARAD + (END if k in (0, SECTIONS) else 0.0)
        siemens = 1 / TERMINATOR if k == 0 else 1 / far_ohm if k == SECTIONS else 0.0
        if k == driven:
            siemens += 1 / DRIVER
            a[k, -1] = SOURCE / DRIVER / farad
        a[k, k] = -siemens / farad
        if k > 0:
            a[k, n + k - 1] = 1 / farad
        if k < SECTIONS:
            a[k, n + k] = -1 / farad
            a[n + k, k], a[n + k, k + 1] = 1 / HENRY, -1 / HENRY
    return expm(a * STEP)


def wave(far_ohm):
    steps = {d: system(d, far_ohm) for d in (None, 0, SECTIONS)}
    bits = [None] * 15 + [
        None if b == "1" else SECTIONS if k == ACK else 0 for k, b in enumerate(FRAME)
    ] + [None] * 12
    x = np.zeros(2 * (SECTIONS + 1))
    x[-1] = 1.0
    out = []
    for n in range(len(bits) * BIT):
        if n % EVERY == EVERY - 7:
            out.append(1e3 * x[0])
        x = steps[bits[n // BIT]] @ x
    return out


np.savetxt("line.txt", np.column_stack([wave(TERMINATOR), wave(1e9)]), "%.0f")
