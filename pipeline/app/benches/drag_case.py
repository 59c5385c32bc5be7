"""The recording that the benches of whole jobs share: a drag case, one shaft turns and the other is at rest."""
import math
import random


def write_job(folder, rows, rate, seed=1, number=None, whine=False):
    """A job of `rows` samples at `rate` per second: feed current and two shafts, four columns. The line of the shaft at
    rest shows noise; with `whine` it picks up 15.4 kHz of a recording at 100 kS/s instead."""
    noise = random.Random(seed).gauss
    with open(folder / "recording.csv", "w") as out:
        out.write("Time (s),Feed current (A),Input shaft 1 (V),Input shaft 2 (V)\n")
        for n in range(rows):
            t = n / rate
            current = 1.0 + max(0.0, 6.0 * (1.0 - abs((t % 2.0) - 1.0) / 0.05)) + noise(0.0, 0.02)
            # 24 teeth at 400 rpm, which wander by 2 % every three seconds.
            tooth = (160.0 * t + 1.6 * math.sin(2.0 * t)) % 1.0 < 0.5
            turning = (4.8 if tooth else 0.3) + noise(0.0, 0.02)
            rest = 0.3 + (0.02 * ((n * 2 % 13) / 6.0 - 1.0) if whine else noise(0.0, 0.02))
            out.write(f"{t:.6f},{current:.4f},{turning:.4f},{rest:.4f}\n")
    job = f'[job]\nnumber = "{number}"\n' if number else ""
    (folder / "job.toml").write_text(
        job + '[[capture]]\nfile = "recording.csv"\nselector = "P"\nengine = "running"\n'
        '[capture.channels."Input shaft 1"]\nrole = "input-shaft-1"\nsensor = "hall"\nteeth = 24\n'
        '[capture.channels."Input shaft 2"]\nrole = "input-shaft-2"\nsensor = "hall"\nteeth = 24\n'
    )
