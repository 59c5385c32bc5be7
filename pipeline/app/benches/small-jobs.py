#!/usr/bin/env python3
"""Times many small jobs that are all there when `watch` starts, and notes the most memory of all processes together.

  cargo build --release && python3 pipeline/app/benches/small-jobs.py [--jobs 2000] [--rows 20000] [--parallel N]

Each job is a drag case of a CSV of so many rows at 10 kS/s (feed current and two shafts) and a job.toml, each with noise of
its own. The time runs from the start of `watch` to the last report, without the settle time. Memory is the sum of the
proportional set sizes (/proc/PID/smaps_rollup) of the process and its workers, looked at twice a second. Needs Linux and
Python alone.
"""
import argparse
import os
import pathlib
import signal
import subprocess
import sys
import tempfile
import time

from drag_case import write_job

HERE = pathlib.Path(__file__).resolve().parents[3]
SETTLE_S = 1.0
RATE = 10_000.0


def processes(group):
    """Processes of a session, workers too."""
    found = []
    for entry in os.listdir("/proc"):
        if entry.isdigit():
            try:
                if os.getsid(int(entry)) == group:
                    found.append(int(entry))
            except OSError:
                pass
    return found


def memory(group):
    """Sum of the proportional set sizes, MiB."""
    total = 0
    for pid in processes(group):
        try:
            text = pathlib.Path(f"/proc/{pid}/smaps_rollup").read_text()
            total += int(text.split("Pss:")[1].split()[0])
        except (OSError, IndexError):
            pass
    return total / 1024


def main():
    arguments = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    arguments.add_argument("--jobs", type=int, default=2000)
    arguments.add_argument("--rows", type=int, default=20_000)
    arguments.add_argument("--parallel")
    arguments.add_argument("--bin", default=str(HERE / "target/release/baybrief"))
    a = arguments.parse_args()
    with tempfile.TemporaryDirectory() as top:
        inbox, out = pathlib.Path(top) / "inbox", pathlib.Path(top) / "out"
        for n in range(a.jobs):
            folder = inbox / f"job-{n:05}"
            folder.mkdir(parents=True)
            write_job(folder, a.rows, RATE, seed=n, number=f"S-{n}")
        command = [a.bin, "watch", str(inbox), "--out", str(out), "--settle", str(SETTLE_S)]
        command += ["--parallel", a.parallel] if a.parallel else []
        before, start = os.times(), time.monotonic()
        watch = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)
        most = first = 0.0
        done = -1
        while done < a.jobs:
            time.sleep(0.5)
            if watch.poll() is not None:
                sys.exit(f"watch ended with {watch.returncode}")
            most = max(most, memory(watch.pid))
            done = sum(1 for _ in out.glob("job-*/report.pdf"))
            first = first or (time.monotonic() - start if done > 0 else 0.0)
        took = time.monotonic() - start - SETTLE_S
        watch.send_signal(signal.SIGTERM)
        watch.wait()
        after = os.times()
        used = (after[2] + after[3]) - (before[2] + before[3])
        print(f"{a.jobs} jobs in {took:.1f} s: {a.jobs / took:.1f} a second, {1000 * used / a.jobs:.0f} ms of processor time each,")
        print(f"first report after {first:.1f} s (settle time {SETTLE_S:.0f} s in it), {most:.0f} MiB at most, load {os.getloadavg()[0]:.1f}")


if __name__ == "__main__":
    main()
