#!/usr/bin/env bash
# Makes the Debian package, and beside it the list of everything that is in the program (CycloneDX), in target/package:
#   examples/packaging/build.sh [--built]      --built: takes target/release as it lies
# Needs Rust, a C compiler and dpkg-dev; tools that are missing are built by cargo.
set -euo pipefail
cd "$(dirname "$0")/../.."

out=target/package
tool() { command -v "$1" >/dev/null || cargo install --locked "$1"; }

# The same sources give the same bytes: no paths of this machine, and the time of the last commit in the archive.
SOURCE_DATE_EPOCH=$(git log -1 --format=%ct 2>/dev/null || echo 0)
export SOURCE_DATE_EPOCH CARGO_INCREMENTAL=0
export RUSTFLAGS="${RUSTFLAGS:-} --remap-path-prefix=$PWD=/baybrief --remap-path-prefix=${CARGO_HOME:-$HOME/.cargo}=/cargo"

# What the executable was built from is kept inside it, and beside it as a list.
if [ "${1:-}" != --built ]; then
    tool cargo-auditable
    cargo auditable build --release -p baybrief -p baybrief-packaging
fi
tool cargo-cyclonedx
cargo cyclonedx --manifest-path pipeline/app/Cargo.toml --format json --override-filename baybrief.cdx
mkdir -p "$out"
mv pipeline/app/baybrief.cdx.json "$out/"
# One is written for every package of the workspace.
find examples pipeline plugins tests -name baybrief.cdx.json -delete

rm -rf "$out/man" "$out/completions"
target/release/baybrief-packaging "$out"

tool cargo-deb
cargo deb -p baybrief --no-build --output "$out/" ${DEB_VERSION:+--deb-version "$DEB_VERSION"}
ls -l "$out"
