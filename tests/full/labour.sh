#!/usr/bin/env bash
# Labour rows and drafts read back by other programs: Python's csv module, pandas, DuckDB, LibreOffice; the drafts'
# elements in the order of the UBL 2.1 schema.
set -euo pipefail
cd "$(dirname "$0")/../.."

work=target/full/labour
mkdir -p "$work"
if ! command -v soffice >/dev/null; then
    apt-get update -qq && apt-get install -y -qq libreoffice-calc
fi
# Versions of the last run that was looked at; eracun-hr holds a table made from the UBL 2.1 schema.
python3 -m venv "$work/venv"
"$work/venv/bin/pip" install -q pandas==3.1.1 duckdb==2.0.1 lxml==6.1.3
"$work/venv/bin/pip" install -q --no-deps eracun-hr==0.1.0

cargo build -q --workspace --example round_trip
rm -rf "$work/files"
target/debug/examples/round_trip "$work/files"
"$work/venv/bin/python" tests/full/labour_read_back.py "$work/files"
