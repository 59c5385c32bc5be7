"""Writes the MDF 4 files in tests/fixtures and the values in them, with asammdf as the reference.

Run from pipeline/formats:  python3 tests/make_mdf_fixtures.py
Made with asammdf; the expected values are printed for tests/mdf.rs.
"""

from datetime import datetime, timezone
from pathlib import Path

import asammdf
import numpy as np
from asammdf import MDF, Signal
from asammdf.blocks.conversion_utils import from_dict

HERE = Path(__file__).parent / "fixtures"
HERE.mkdir(exist_ok=True)

N = 1000
t = np.arange(N) * 0.0005 - 0.01
k = np.arange(N)


def save(mdf, name, **kwargs):
    mdf.header.start_time = datetime(2026, 3, 2, 10, 30, 9, tzinfo=timezone.utc)
    mdf.save(HERE / name, overwrite=True, **kwargs)


def kinds():
    """Every integer and float type, and the conversions that are read."""
    out = [
        Signal((k % 100 - (50 if kind == "i" else 0)).astype(f"{order}{kind}{size}"), t,
               name=f"{kind}{size}{'be' if order == '>' else ''}", unit="V")
        for kind in "ui" for size in (1, 2, 4, 8) for order in ("<", ">") if size > 1 or order == "<"
    ]
    out += [Signal((k * 0.25).astype(f"{order}f{size}"), t, name=f"f{size}{'be' if order == '>' else ''}", unit="A")
            for size in (4, 8) for order in "<>"]
    raw = (k % 50).astype("<i2")
    out.append(Signal(raw, t, name="linear", unit="mV", conversion=from_dict({"a": 0.5, "b": -3.0})))
    out.append(Signal(raw, t, name="rational", unit="V", conversion=from_dict(
        {"P1": 0.0, "P2": 2.0, "P3": 1.0, "P4": 0.0, "P5": 0.0, "P6": 4.0})))
    table = {f"raw_{i}": float(10 * i) for i in range(6)} | {f"phys_{i}": float(i * i) for i in range(6)}
    out.append(Signal(raw, t, name="table", unit="V", conversion=from_dict(table | {"interpolation": True})))
    out.append(Signal(raw, t, name="steps", unit="V", conversion=from_dict(table | {"interpolation": False})))
    bad = np.zeros(N, dtype=bool)
    bad[10:20] = True
    out.append(Signal((k * 0.5).astype("<f4"), t, name="holes", unit="V", invalidation_bits=bad))
    return out


for name, compression in [("plain.mf4", 0), ("deflated.mf4", 1), ("transposed.mf4", 2)]:
    m = MDF(version="4.10")
    sig = [Signal(np.sin(k / 20).astype("<f4"), t, name="ISS A", unit="V"),
           Signal((k % 7).astype("<u2"), t, name="Feed current", unit="A", conversion=from_dict({"a": 0.1, "b": 0.0}))]
    m.append(sig, comment="recording")
    save(m, name, compression=compression)

m = MDF(version="4.10")
m.append(kinds(), comment="kinds")
save(m, "kinds.mf4", compression=2)

# Two groups with the same instants, one with others.
m = MDF(version="4.11")
m.append([Signal((k * 1.0).astype("<f4"), t, name="fast 1", unit="V")])
m.append([Signal((k * 2.0).astype("<f4"), t, name="fast 2", unit="V")])
m.append([Signal(np.arange(100).astype("<f4"), t[::10], name="slow", unit="A")])
save(m, "groups.mf4")

for path in sorted(HERE.glob("*.mf4")):
    m = MDF(path)
    print(path.name, path.stat().st_size, "bytes, asammdf", asammdf.__version__)
    for s in m.iter_channels():
        v = s.samples.astype(float)
        if s.invalidation_bits is not None:
            v = np.where(s.invalidation_bits, np.nan, v)
        picks = ", ".join(repr(float(x)) for x in (v[0], v[12], v[-1], np.nansum(v)))
        print(f'    ("{s.name}", "{s.unit}", {picks}),')
