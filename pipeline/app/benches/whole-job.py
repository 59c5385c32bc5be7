#!/usr/bin/env python3
"""Times a whole job, process start to PDF, against a straightforward script as the peer, in one run.

  cargo build --release && python3 pipeline/app/benches/whole-job.py [--rows 1000000 8000000] [--repeat 5] [--whine] [--linear]

The peer reads the same CSV with pandas, finds the current events with SciPy's find_peaks and the shafts' speed from
threshold crossings with NumPy, draws three plots with matplotlib and sets one page with them in Typst. It judges
nothing and checks nothing: it is less work. It is there twice: "plain" hands the samples to matplotlib's plot, as one
writes such a script, and "thrifty" thins them to an envelope before, which for a long recording saves it half of the
time and a third of the memory. Needs pandas, numpy, scipy, matplotlib, typst. All take turns, on the same two
processors, so that a busy machine slows them alike; times are the fastest of the turns, and the processor time of the
same turn stands beside them. Memory is the most of any one process, workers too.

The recording is a drag case: one shaft turns, the other is at rest, and its line shows noise. With --whine that line
picks up 15.4 kHz instead, a pulse for every 6.5 rows: as many edges as a job can well have. With --linear the job alone is
also timed at 1, 10 and 100 times 80,000 rows; a straight line through a job of no rows has the same slope everywhere.
"""
import argparse
import importlib.metadata
import pathlib
import subprocess
import sys
import tempfile
import time

from drag_case import write_job

PEER = """
import sys, numpy as np, pandas as pd
from scipy.signal import find_peaks
import matplotlib
matplotlib.use("Agg")
import matplotlib.pyplot as plt
d = pd.read_csv(sys.argv[1])
t = d.iloc[:, 0].to_numpy()
peaks, _ = find_peaks(d.iloc[:, 1].to_numpy(), height=5.0, distance=2000)
figure, axes = plt.subplots(3, 1, sharex=True)
for axis, k in zip(axes, (1, 2, 3)):
    x = d.iloc[:, k].to_numpy()
    high = x > (x.min() + x.max()) / 2
    rises = t[1:][high[1:] & ~high[:-1]]
    rpm = 60.0 / np.median(np.diff(rises)) / 24 if k > 1 and len(rises) > 3 else 0.0
    if sys.argv[3] == "plain":
        axis.plot(t, x)
    else:
        step = max(1, len(x) // 4000)
        n = len(x) // step * step
        axis.fill_between(t[:n:step], x[:n].reshape(-1, step).min(1), x[:n].reshape(-1, step).max(1))
    axis.set_ylabel(f"{d.columns[k]} {rpm:.0f}")
import io, typst
picture = io.BytesIO()
figure.savefig(picture, format="svg")
page = b"= Gearbox recording\\n" + f"{len(peaks)} current events in {len(t)} samples.\\n".encode() + b'#image("plot.svg")'
import pathlib, tempfile
with tempfile.TemporaryDirectory() as folder:
    (pathlib.Path(folder) / "plot.svg").write_bytes(picture.getvalue())
    (pathlib.Path(folder) / "page.typ").write_bytes(page)
    typst.compile(str(pathlib.Path(folder) / "page.typ"), output=sys.argv[2])
"""

PEERS = ("plain", "thrifty")
# Samples a second.
RATE = 100_000.0


def once(command):
    """Seconds, seconds of processor time and MiB of the command and its children."""
    code = (
        "import os,resource,subprocess,sys,time;os.sched_setaffinity(0,sorted(os.sched_getaffinity(0))[:2]);"
        "t=time.monotonic();subprocess.run(sys.argv[1:],check=True,stdout=-3,stderr=-3);t=time.monotonic()-t;"
        "u=resource.getrusage(resource.RUSAGE_CHILDREN);print(t,u.ru_utime+u.ru_stime,u.ru_maxrss/1024)"
    )
    return tuple(map(float, subprocess.check_output([sys.executable, "-c", code, *command]).split()))


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--rows", type=int, nargs="+", default=[1_000_000, 8_000_000])
    parser.add_argument("--repeat", type=int, default=5)
    parser.add_argument("--whine", action="store_true")
    parser.add_argument("--linear", action="store_true")
    parser.add_argument("--bin", default=str(pathlib.Path(__file__).parents[3] / "target/release/baybrief"))
    a = parser.parse_args()
    packages = ("pandas", "numpy", "scipy", "matplotlib", "typst")
    print("peers:", ", ".join(f"{p} {importlib.metadata.version(p)}" for p in packages))
    for rows in a.rows:
        compare(a.bin, rows, a.repeat, a.whine)
    if a.linear:
        linear(a.bin, a.repeat)


def compare(binary, rows, repeat, whine):
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        job = folder / "job"
        job.mkdir()
        write_job(job, rows, RATE, whine=whine)
        size = (job / "recording.csv").stat().st_size / 1e6
        ours = [binary, "run", str(job), "--out", str(folder / "out")]
        peer = [sys.executable, "-c", PEER, str(job / "recording.csv"), str(folder / "peer.pdf")]
        commands = {"baybrief": ours} | {name: [*peer, name] for name in PEERS}
        turns = [{name: once(command) for name, command in commands.items()} for _ in range(repeat)]
        best = {name: min(turn[name] for turn in turns) for name in commands}
        print(f"{rows} rows, {size:.0f} MB")
        x, xc, m = best["baybrief"]
        for name, (y, yc, n) in best.items():
            print(f"  {name:8} {y:.2f} s ({yc:.2f} s of processor), {n:.0f} MiB", end="")
            print(f"; of it: time {x / y:.2f}, processor {xc / yc:.2f}, memory {m / n:.2f}" if name in PEERS else "")


def linear(binary, repeat):
    """What a row costs beyond what a job costs anyhow, at three sizes."""
    sizes = (1_000, 80_000, 800_000, 8_000_000)
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        jobs = [folder / f"job-{rows}" for rows in sizes]
        for job, rows in zip(jobs, sizes):
            job.mkdir()
            write_job(job, rows, RATE)
        runs = [[once([binary, "run", str(job), "--out", str(folder / "out")]) for job in jobs] for _ in range(repeat)]
    wall, processor = ([min(run[k][i] for run in runs) for k in range(len(sizes))] for i in (0, 1))
    for k in range(1, len(sizes)):
        a_row = (processor[k] - processor[0]) / (sizes[k] - sizes[0]) * 1e9
        print(f"{sizes[k]:9} rows: {wall[k]:.2f} s ({processor[k]:.2f} s of processor), {a_row:.0f} ns of it for a row")


if __name__ == "__main__":
    main()
