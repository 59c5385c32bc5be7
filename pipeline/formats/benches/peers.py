"""Reading CSV: this reader beside pandas and polars, on the same files in the same run.

    pip install pandas polars
    cargo build --release -p baybrief-formats --example read_once
    python pipeline/formats/benches/peers.py target/release/examples/read_once [ROWS ...]

Each reader is a process of its own, started fresh and on two processors; a round is every reader once, so that a busy
machine slows all of them alike. Printed: the median and the least of the seconds that the reading itself took (imports
left out), the most memory of the process, and the ratio of the medians.
"""

import os
import re
import statistics
import subprocess
import sys
import tempfile

ROUNDS = 7
PEERS = {
    "pandas": "import pandas as r, time; t = time.perf_counter(); d = r.read_csv(F); print(time.perf_counter() - t, r.__version__)",
    "polars": "import polars as r, time; t = time.perf_counter(); d = r.read_csv(F); print(time.perf_counter() - t, r.__version__)",
}


def run(command):
    """Standard output and the child's peak memory in MiB."""
    def two_processors():
        os.sched_setaffinity(0, sorted(os.sched_getaffinity(0))[:2])

    child = subprocess.Popen(command, stdout=subprocess.PIPE, text=True, preexec_fn=two_processors)
    output = child.stdout.read()
    _, status, usage = os.wait4(child.pid, 0)
    if status:
        sys.exit(f"{command} failed")
    return output, usage.ru_maxrss / 1024


def main():
    reader, rows = sys.argv[1], [int(r) for r in sys.argv[2:]] or [80_000, 800_000, 8_000_000]
    with tempfile.TemporaryDirectory() as folder:
        for count in rows:
            file = os.path.join(folder, "a.csv")
            subprocess.run([reader, "--make", str(count), file], check=True)
            seconds, memory, version = {}, {}, {}
            for _ in range(ROUNDS):
                out, mib = run([reader, file])
                seconds.setdefault("this reader", []).append(float(re.match(r"[\d.]+", out).group()))
                memory["this reader"] = mib
                for name, code in PEERS.items():
                    out, mib = run([sys.executable, "-c", f"F = {file!r}; {code}"])
                    took, version[name] = out.split()
                    seconds.setdefault(name, []).append(float(took))
                    memory[name] = mib
            print(f"{count} rows, {os.path.getsize(file) / 1e6:.0f} MB")
            own = statistics.median(seconds["this reader"])
            for name, took in seconds.items():
                middle = statistics.median(took)
                print(
                    f"  {name + ' ' + version.get(name, ''):16} {middle:7.4f} s (least {min(took):7.4f}),"
                    f" {memory[name]:6.0f} MiB, this reader takes {own / middle:.3f} of it"
                )


main()
