#!/usr/bin/env bash
# Two builds of the same sources in two folders give the same bytes. Takes two cold release builds.
set -euo pipefail
cd "$(dirname "$0")/../.."
folders=$(mktemp -d)
trap 'rm -rf "$folders"' EXIT
for copy in first second; do
    git worktree add --detach -q "$folders/$copy"
    (
        cd "$folders/$copy"
        export CARGO_INCREMENTAL=0
        export RUSTFLAGS="--remap-path-prefix=$PWD=/baybrief --remap-path-prefix=${CARGO_HOME:-$HOME/.cargo}=/cargo"
        cargo build --release
        cd target/release && sha256sum baybrief deps/libbaybrief_plugin_*.so > "$folders/$copy.sums"
    )
    git worktree remove --force "$folders/$copy"
done
diff "$folders/first.sums" "$folders/second.sums" || { echo "reproducible: the builds differ" >&2; exit 1; }
cat "$folders/first.sums"
