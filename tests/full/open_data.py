"""Holds what the program measures in public recordings against what is counted here. Call: open_data.py PROGRAM FOLDER"""

import json
import math
import pathlib
import statistics
import subprocess
import sys

program, work = sys.argv[1], pathlib.Path(sys.argv[2])
failed = []


def examine(name, system, file, text, capture):
    """Findings of a job of one file."""
    job = work / "jobs" / name
    job.mkdir()
    (job / file).write_text(text)
    (job / "job.toml").write_text(f'[job]\nnumber = "{name}"\n[vehicle]\nsystems = ["{system}"]\n{capture}')
    subprocess.run([program, "run", job, "--out", work / "out"], check=True, capture_output=True)
    return json.loads((work / "out" / name / "case.json").read_text())["findings"]


def check(what, found, expected, share):
    ok = found is not None and abs(found / expected - 1) <= share
    print(f"{'ok    ' if ok else 'FAILED'} {what}: {found}, counted {expected}")
    if not ok:
        failed.append(what)


def value(findings, kind, subject=None):
    fits = [f["value"] for f in findings if f["kind"] == kind and subject in (None, f.get("subject"))]
    return fits[0] if fits else None


# A coil before a ring of 60 less 2: the time from gap to gap is a turn. The signal is positive before a tooth; a gap is the
# longest time between two falling crossings of its middle.
text = (work / "crank.csv").read_text()
rows = [tuple(map(float, line.split(",")[:2])) for line in text.splitlines()[1:] if line]
middle = statistics.median(v for _, v in rows)
tenths = statistics.quantiles((v for _, v in rows), n=10)
swing = tenths[-1] - tenths[0]
falls, armed = [], False
for t, v in rows:
    armed = armed or v > middle + 0.2 * swing
    if armed and v < middle - 0.2 * swing:
        falls.append(t)
        armed = False
pitches = [b - a for a, b in zip(falls, falls[1:])]
usual = statistics.median(pitches)
gaps = [t for t, p in zip(falls, pitches) if p > 2 * usual]
turn = statistics.median(b - a for a, b in zip(gaps, gaps[1:]))
findings = examine(
    "crank",
    "speed-sensor",
    "crank.csv",
    text,
    '[[capture]]\nfile = "crank.csv"\nengine = "cranking"\n[capture.channels.crank]\nrole = "crank-sensor"\nunit = "V"\nsensor = "vr"\n',
)
check("speed-sensor: rpm of a crankshaft", value(findings, "sensor-speed"), 60 / turn, 0.01)
check("speed-sensor: positions of its ring", value(findings, "tooth-pattern"), 60, 0)

# A vehicle's bus: one frame a line, "(time) interface identifier#data".
text = (work / "bus.log").read_text()
times = {}
for line in text.splitlines():
    if line:
        time, _, frame = line.split()
        times.setdefault(frame.split("#")[0], []).append(float(time.strip("()")))
findings = examine("bus", "can-bus", "bus.log", text, "")
check("can-bus: frames", value(findings, "frames"), sum(map(len, times.values())), 0)
check("can-bus: identifiers", value(findings, "identifiers"), len(times), 0)
for name, at in sorted(times.items(), key=lambda n: -len(n[1]))[:5]:
    period = 1e3 * statistics.median(b - a for a, b in zip(at, at[1:]))
    check(f"can-bus: period of {name}", value(findings, "node-period", name), period, 0.03)

# The current of a motor behind an amplifier: seconds, A.
text = (work / "motor.csv").read_text()
amps = [float(line.split(",")[1]) for line in text.splitlines() if line.strip()]
findings = examine(
    "motor",
    "dc-motor",
    "motor.csv",
    text,
    '[[capture]]\nfile = "motor.csv"\n[capture.channels."Column 2"]\nrole = "motor-current"\namps_per_volt = 1.0\n',
)
check("dc-motor: highest current of a start", value(findings, "inrush-current"), max(amps), 0.03)

# A coil in series with a resistor at a square wave of 4 V: the voltage of the resistor, which is the current's course but for its
# scale. The supply stands beside as a constant; it and the scale leave L / R as it is. At a share s of its rise an exponential is
# after -ln(1 - s) time constants.
text = (work / "coil.csv").read_text()
rows = [tuple(map(float, line.split(","))) for line in text.splitlines()[1:] if line]
step = rows[-1][0] / (len(rows) - 1)
mean = [statistics.fmean(v for _, v in rows[k - 12 : k + 13]) for k in range(12, len(rows) - 12)]
rest, end = statistics.median(mean[:500]), statistics.median(mean[-150:])


def crossing(share):
    return next(k for k, v in enumerate(mean) if v > rest + share * (end - rest))


# Between two shares the time of switch-on does not matter.
constants = [
    1e3 * step * (crossing(b) - crossing(a)) / math.log((1 - a) / (1 - b)) for a, b in [(0.2, 0.6), (0.3, 0.7), (0.4, 0.8)]
]
findings = examine(
    "coil",
    "coil",
    "coil.csv",
    "\n".join(line.strip() + (",4" if k else ",Supply (V)") for k, line in enumerate(text.splitlines()) if line),
    '[[capture]]\nfile = "coil.csv"\n[capture.channels.Vout]\nrole = "coil-current"\namps_per_volt = 1.0\n'
    '[capture.channels.Supply]\nrole = "supply-voltage"\n',
)
millihenry, ohm = value(findings, "coil-inductance"), value(findings, "coil-resistance")
check("coil: L / R in ms", millihenry / ohm if millihenry and ohm else None, statistics.median(constants), 0.1)
check("coil: movements of an armature that it has not", 1 + sum(f["kind"] == "armature-move-time" for f in findings), 1, 0)

print(f"{len(failed)} failed")
sys.exit(1 if failed else 0)
