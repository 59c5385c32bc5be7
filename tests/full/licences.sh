#!/usr/bin/env bash
# Licences and sources of everything that is linked.
set -euo pipefail
cd "$(dirname "$0")/../.."
command -v cargo-deny >/dev/null || cargo install --locked cargo-deny
cargo deny --all-features --config examples/packaging/deny.toml check licenses sources bans
