#!/usr/bin/env bash
# Every fuzz target for FUZZ_SECONDS (60 where it is not set), from its seeds: readers, scan texts, bus logs, settings, the
# wire to the plugins' workers, the page. A crash, a hang of 20 s or 2 GB is a failure; its input stays in tests/fuzz/artifacts.
set -euo pipefail
cd "$(dirname "$0")/../.."

rustup toolchain list | grep -q '^nightly' || rustup toolchain install nightly --profile minimal
cargo fuzz --version >/dev/null 2>&1 || cargo install --locked cargo-fuzz

failed=()
for source in tests/fuzz/fuzz_targets/*.rs; do
    target=$(basename "$source" .rs)
    mkdir -p "tests/fuzz/corpus/$target" "tests/fuzz/seeds/$target"
    printf '\n-- %s\n' "$target"
    cargo +nightly fuzz run --fuzz-dir tests/fuzz "$target" "tests/fuzz/corpus/$target" "tests/fuzz/seeds/$target" -- \
        -max_total_time="${FUZZ_SECONDS:-60}" -timeout=20 -rss_limit_mb=2048 -print_final_stats=1 || failed+=("$target")
done
if [ ${#failed[@]} -gt 0 ]; then
    echo "failed: ${failed[*]}" >&2
    exit 1
fi
