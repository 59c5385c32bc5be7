"""Writes the NumPy files in tests/fixtures/npy, with NumPy as the reference.

Run from pipeline/formats:  python3 tests/make_npy_fixtures.py
"""

from pathlib import Path

import numpy as np

HERE = Path(__file__).parent / "fixtures" / "npy"
HERE.mkdir(exist_ok=True, parents=True)

k = np.arange(20)
t = -0.005 + k * 0.001
ramp = 0.25 * k
table = np.column_stack([t, ramp])

np.save(HERE / "rows.npy", table)
np.save(HERE / "columns.npy", np.ascontiguousarray(table.T))
np.save(HERE / "fortran.npy", np.asfortranarray(table))
np.save(HERE / "big-endian.npy", table.astype(">f8"))
np.save(HERE / "floats32.npy", table.astype("<f4"))
np.save(HERE / "records.npy", np.array(
    [(a, b, -c) for a, b, c in zip(t, ramp, k)],
    dtype=[("time_s", "<f8"), ("Feed current [A]", "<f4"), ("ISS A (mV)", ">i2")],
))
# Halves hold 1/1024 of a second exactly, not a thousandth: so a table of plain thousandths in doubles beside them.
halves = np.zeros(20, dtype=[("time", "<f8"), ("", "<f2")])
halves["time"], halves["f1"] = t, ramp
halves.dtype.names = ("time", "Column 2")
np.save(HERE / "halves.npy", halves)
np.savez(HERE / "stored.npz", time=t, feed=ramp.astype("f4"))
np.savez_compressed(HERE / "packed.npz", feed=ramp, time=t)
np.savez(HERE / "interval.npz", dt=0.001, feed=ramp)
np.savez(HERE / "rate.npz", sample_rate_hz=np.array([1000]), feed=ramp)
np.savez(HERE / "uneven.npz", t=t + np.where(k > 10, 0.5, 0), feed=ramp, short=ramp[:7])
np.save(HERE / "no-time.npy", ramp)
np.save(HERE / "words.npy", np.array(["a", "b", "c"]))
