#!/usr/bin/env bash
# The page in real Chromium (Debian's): from files to signed report and labour rows, by mouse and by keyboard; attacks;
# accessibility by axe-core; the scripts' types by their JSDoc; pictures of each page into pipeline/page/docs where SHOTS=1
# is given. BAYBRIEF names a program that is built already. With BENCH=1 it measures traces of 8 million samples instead.
set -euo pipefail
cd "$(dirname "$0")/../.."

if ! command -v chromium >/dev/null || ! command -v node >/dev/null || ! command -v npm >/dev/null; then
    apt-get update -qq && apt-get install -y -qq chromium nodejs npm
fi
work=$PWD/target/full/page
mkdir -p "$work"
cp tests/full/page/package.json "$work/"
(cd "$work" && npm install --silent --no-audit --no-fund)
if [ -z "${BAYBRIEF:-}" ]; then
    cargo build -q --workspace
    BAYBRIEF=$PWD/target/debug/baybrief
fi
"$work/node_modules/.bin/tsc" --noEmit --allowJs --checkJs --strict --target es2022 --lib dom,dom.iterable,es2022 \
    tests/full/page/globals.d.ts pipeline/page/assets/*.js
for test in tests/full/page/*.mjs; do cp "$test" "$work/"; done
export BAYBRIEF DOCS=$PWD/pipeline/page/docs SHOP=$PWD/examples/shop.toml
[ -z "${BENCH:-}" ] || exec node "$work/traces.bench.mjs"
node --test --test-concurrency=1 "$work"/*.test.mjs
