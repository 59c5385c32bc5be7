"""Reading CSV: this reader beside pandas and polars, on the same files in the same run.

    pip install pandas polars
    cargo build --release -p baybrief-formats --example read_once
    python pipeline/formats/benches/peers.py target/release/examples/read_once [ROWS ...]

Each reader is a process of its own, started fresh and on two processors; a round is every reader once, so that a busy
machine slows all of them alike. Printed: the median and the least of the seconds that the reading itself took (imports
left out), the least of its processor time (of this reader, of the whole process), the most memory of the process, and
the ratios of the medians and of the processor times.
"""

import os
import re
import statistics
import subprocess
import sys
import tempfile

ROUNDS = 7
PEER = """import {} as r, time
t, c = time.perf_counter(), time.process_time()
d = r.read_csv({!r})
print(time.perf_counter() - t, time.process_time() - c, r.__version__)"""
PEERS = ("pandas", "polars")


def run(command):
    """Standard output, the child's processor time in s, and its peak memory in MiB."""
    def two_processors():
        os.sched_setaffinity(0, sorted(os.sched_getaffinity(0))[:2])

    child = subprocess.Popen(command, stdout=subprocess.PIPE, text=True, preexec_fn=two_processors)
    output = child.stdout.read()
    _, status, usage = os.wait4(child.pid, 0)
    if status:
        sys.exit(f"{command} failed")
    return output, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024


def main():
    reader, rows = sys.argv[1], [int(r) for r in sys.argv[2:]] or [80_000, 800_000, 8_000_000]
    with tempfile.TemporaryDirectory() as folder:
        for count in rows:
            file = os.path.join(folder, "a.csv")
            subprocess.run([reader, "--make", str(count), file], check=True)
            seconds, processor, memory, version = {}, {}, {}, {}

            def note(name, wall, own, mib):
                seconds.setdefault(name, []).append(float(wall))
                processor.setdefault(name, []).append(float(own))
                memory[name] = mib

            for _ in range(ROUNDS):
                out, own, mib = run([reader, file])
                note("this reader", re.match(r"[\d.]+", out).group(), own, mib)
                for name in PEERS:
                    out, _, mib = run([sys.executable, "-c", PEER.format(name, file)])
                    wall, own, version[name] = out.split()
                    note(name, wall, own, mib)
            print(f"{count} rows, {os.path.getsize(file) / 1e6:.0f} MB")
            middle = {name: statistics.median(took) for name, took in seconds.items()}
            least = {name: min(took) for name, took in processor.items()}
            for name, took in seconds.items():
                print(
                    f"  {name + ' ' + version.get(name, ''):16} {middle[name]:7.4f} s (least {min(took):7.4f}),"
                    f" {least[name]:7.4f} s of processor, {memory[name]:6.0f} MiB; this reader takes"
                    f" {middle['this reader'] / middle[name]:.3f} of it, {least['this reader'] / least[name]:.3f} of its"
                    " processor time",
                    flush=True,
                )


main()
