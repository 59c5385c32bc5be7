#!/usr/bin/env python3
"""Times a whole job, process start to PDF, against a straightforward script as the peer, in one run.

  cargo build --release && python3 pipeline/app/benches/whole-job.py [--rows 1000000] [--repeat 3]

The peer reads the same CSV with pandas, finds the current events with SciPy's find_peaks and the shafts' speed from
threshold crossings with NumPy, draws three plots with matplotlib and saves them as one PDF. It judges nothing, checks
nothing and sets no text: it is less work. Needs pandas, numpy, scipy, matplotlib. Times are the fastest of the repeats.
"""
import argparse
import pathlib
import subprocess
import sys
import tempfile
import time

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
    step = max(1, len(x) // 4000)
    n = len(x) // step * step
    axis.fill_between(t[:n:step], x[:n].reshape(-1, step).min(1), x[:n].reshape(-1, step).max(1))
    axis.set_ylabel(f"{d.columns[k]} {rpm:.0f}")
figure.savefig(sys.argv[2])
"""


def write_job(folder, rows):
    """A drag case of `rows` samples at 100 kS/s: feed current and two shafts, four columns."""
    rate = 100_000.0
    with open(folder / "recording.csv", "w") as out:
        out.write("Time (s),Feed current (A),Input shaft 1 (V),Input shaft 2 (V)\n")
        for n in range(rows):
            t = n / rate
            hit = max(0.0, 6.0 * (1.0 - abs((t % 2.0) - 1.0) / 0.05))
            noise = 0.02 * ((n * 7919 % 13) / 6.0 - 1.0)
            # 24 teeth at 400 rpm with a little wander.
            tooth = (160.0 * (t + 0.002 * (t % 1.0))) % 1.0 < 0.5
            out.write(f"{t:.6f},{1.0 + hit + noise:.4f},{(4.8 if tooth else 0.3) + noise:.4f},{0.3 + noise:.4f}\n")
    (folder / "job.toml").write_text(
        '[[capture]]\nfile = "recording.csv"\nselector = "P"\nengine = "running"\n'
        '[capture.channels."Input shaft 1"]\nrole = "input-shaft-1"\nsensor = "hall"\nteeth = 24\n'
        '[capture.channels."Input shaft 2"]\nrole = "input-shaft-2"\nsensor = "hall"\nteeth = 24\n'
    )


def fastest(command, repeat):
    best = float("inf")
    for _ in range(repeat):
        start = time.monotonic()
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        best = min(best, time.monotonic() - start)
    return best


def peak_mib(command):
    code = (
        "import resource,subprocess,sys;subprocess.run(sys.argv[1:],check=True,stdout=-3,stderr=-3);"
        "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss/1024)"
    )
    return float(subprocess.check_output([sys.executable, "-c", code, *command]))


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--rows", type=int, default=1_000_000)
    parser.add_argument("--repeat", type=int, default=3)
    parser.add_argument("--bin", default=str(pathlib.Path(__file__).parents[3] / "target/release/baybrief"))
    a = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        job = folder / "job"
        job.mkdir()
        write_job(job, a.rows)
        size = (job / "recording.csv").stat().st_size / 1e6
        ours = [a.bin, "run", str(job), "--out", str(folder / "out")]
        peer = [sys.executable, "-c", PEER, str(job / "recording.csv"), str(folder / "peer.pdf")]
        x, y = fastest(ours, a.repeat), fastest(peer, a.repeat)
        m, n = peak_mib(ours), peak_mib(peer)
        print(f"{a.rows} rows, {size:.0f} MB")
        print(f"baybrief {x:.2f} s, {m:.0f} MiB; peer {y:.2f} s, {n:.0f} MiB; ratios {x / y:.2f} and {m / n:.2f}")


if __name__ == "__main__":
    main()
