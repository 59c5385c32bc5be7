#!/usr/bin/env bash
# Two builds of the same sources in two folders give the same bytes. Takes two cold release builds; of the named packages
# alone where some are named: tests/full/reproducible.sh baybrief-plugin-coil
set -euo pipefail
cd "$(dirname "$0")/../.."
folders=$(mktemp -d)
trap 'rm -rf "$folders"; git worktree prune' EXIT
for copy in first second; do
    git worktree add --detach -q "$folders/$copy"
    (
        cd "$folders/$copy"
        export CARGO_INCREMENTAL=0
        export RUSTFLAGS="--remap-path-prefix=$PWD=/baybrief --remap-path-prefix=${CARGO_HOME:-$HOME/.cargo}=/cargo"
        cargo build --release "${@/#/--package=}"
        cd target/release
        find . -maxdepth 2 -type f \( -path ./baybrief -o -path './deps/libbaybrief_plugin_*.so' \) -print0 |
            sort -z | xargs -0 --no-run-if-empty sha256sum > "$folders/$copy.sums"
    )
    git worktree remove --force "$folders/$copy"
done
[ -s "$folders/first.sums" ] || { echo "reproducible: nothing was built that could be compared" >&2; exit 1; }
diff "$folders/first.sums" "$folders/second.sums" || { echo "reproducible: the builds differ" >&2; exit 1; }
cat "$folders/first.sums"
