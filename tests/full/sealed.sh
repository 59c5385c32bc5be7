#!/usr/bin/env bash
# Sealed evidence read by programs that know nothing of this one: the signature by jwcrypto (a JOSE library, PyPI), the
# digests by Python's hashlib, the archive by Info-ZIP, the key by OpenSSL. And the other way round: a key that OpenSSL
# made is used.
set -euo pipefail
cd "$(dirname "$0")/../.."

for program in python3 openssl unzip zip; do
    command -v "$program" > /dev/null || { apt-get update -qq && apt-get install -y -qq "$program" > /dev/null; }
done
work=target/full/sealed
rm -rf "$work"
mkdir -p "$work"
python3 -m venv "$work/venv"
"$work/venv/bin/pip" install --quiet jwcrypto==1.6.1

cargo build -q --workspace
baybrief=target/debug/baybrief
"$baybrief" demo --out "$work/demo" > /dev/null
shop=$work/demo/shop.toml
openssl genpkey -algorithm ed25519 -out "$work/demo/shop-key.pem"
job=$(basename "$work"/demo/inbox/demo-*)
"$baybrief" seal "$job" --out "$work/demo/out" --to "$work/demo.zip"
key=$("$work/venv/bin/python" tests/full/sealed_read_back.py "$work/demo.zip" "$work/demo/shop-key.pem")
unzip -tq "$work/demo.zip"
"$baybrief" verify "$work/demo.zip" --key "$key" --again
"$baybrief" verify "$work/demo.zip" --shop "$shop"

# One byte of a recording turned over: said, and by its name.
unzip -q "$work/demo.zip" -d "$work/unpacked"
recording=$(cd "$work/unpacked" && find job -type f | sort | head -1)
printf 'x' >> "$work/unpacked/$recording"
(cd "$work/unpacked" && zip -qr ../changed.zip .)
if said=$("$baybrief" verify "$work/changed.zip" --key "$key"); then
    echo "a changed archive passed" >&2
    exit 1
fi
grep -q "changed: $recording" <<< "$said"
echo "1 passed, 0 failed"
