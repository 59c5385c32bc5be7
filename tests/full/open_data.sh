#!/usr/bin/env bash
# Recordings that nobody of this project made, from public repositories at fixed commits, held against what Python counts in the
# same files: an engine firmware's test data, a vehicle's bus, a motor's current (all GPL-3.0), a coil switched on in a students'
# laboratory (MIT). They are fetched to be measured and never shipped. No open recording of a start with its currents is known.
# With OPEN_DATA=FOLDER the files are taken from there, named as below. A file that cannot be fetched is a failure.
set -euo pipefail
cd "$(dirname "$0")/../.."

work=target/full/open-data
rm -rf "$work"
mkdir -p "$work/jobs"
fetch() {
    if [ -n "${OPEN_DATA:-}" ]; then
        cp "$OPEN_DATA/$1" "$work/$1"
    else
        curl --fail --silent --show-error --location --output "$work/$1" "https://raw.githubusercontent.com/$2"
    fi
}
fetch crank.csv FOME-Tech/fome-fw/a2ea8b936c6005f36afbc8b312d9a90ae5e4539e/unit_tests/tests/trigger/resources/trigger_adc_real1.csv
fetch bus.log ElDominio/CANBUSlogs/d09aa4d0ff39c1f3028dc36b6439ff8a4d1d0a76/350z/aclog.log
fetch motor.csv raphaelcasimir/kord-stk/89c89520733769f43aee334f01bd0e947836295b/GearTrain/GearTrainTest/Amplifier/AmpOutputCurrent.CSV
fetch coil.csv colbertz2/ph411/6b584b11c42f8d6f58f4d6a701aa1ad140caa373/Lab4/Data/1_lr.csv

cargo build -q --workspace
python3 tests/full/open_data.py target/debug/baybrief "$work"
