#!/usr/bin/env bash
# Makes the Debian package, and beside it the list of everything that is in the program (CycloneDX), in target/package:
#   examples/packaging/build.sh [--built] [--glibc-2.28]
# --built takes what is built as it lies; --glibc-2.28 is for systems with that glibc and newer, and links by zig, which
# must be there.
# Needs Rust, a C compiler and dpkg-dev; tools that are missing are built by cargo.
set -euo pipefail
cd "$(dirname "$0")/../.."

out=target/package
tool() { command -v "$1" >/dev/null || cargo install --locked "$1"; }

# The same sources give the same bytes: no paths of this machine, and the time of the last commit in the archive.
SOURCE_DATE_EPOCH=$(git log -1 --format=%ct 2>/dev/null || echo 0)
export SOURCE_DATE_EPOCH CARGO_INCREMENTAL=0
export RUSTFLAGS="${RUSTFLAGS:-} --remap-path-prefix=$PWD=/baybrief --remap-path-prefix=${CARGO_HOME:-$HOME/.cargo}=/cargo"

build=(build)
package=()
release=target/release
built=
for option in "$@"; do
    case "$option" in
    --built) built=yes ;;
    --glibc-2.28)
        tool cargo-zigbuild
        host=$(rustc -vV | sed -n 's/^host: //p')
        build=(zigbuild --target "$host.2.28")
        package=(--target "$host" --variant glibc-2-28)
        release=target/$host/release
        ;;
    *) echo "build.sh: unknown option $option; there are --built and --glibc-2.28" >&2; exit 2 ;;
    esac
done

# What the executable was built from is kept inside it, and beside it as a list.
if [ -z "$built" ]; then
    tool cargo-auditable
    cargo auditable "${build[@]}" --release -p baybrief -p baybrief-packaging
fi
tool cargo-cyclonedx
cargo cyclonedx --manifest-path pipeline/app/Cargo.toml --format json --override-filename baybrief.cdx
mkdir -p "$out"
mv pipeline/app/baybrief.cdx.json "$out/"
# One is written for every package of the workspace.
find examples pipeline plugins tests -name baybrief.cdx.json -delete

rm -rf "$out/man" "$out/completions"
"$release/baybrief-packaging" "$out"

tool cargo-deb
cargo deb -p baybrief --no-build "${package[@]}" --output "$out/" ${DEB_VERSION:+--deb-version "$DEB_VERSION"}
ls -l "$out"
