#!/usr/bin/env bash
# A fleet on one machine, without containers: a PostgreSQL cluster and SeaweedFS of its own, two invented shops with the
# demo's job, two workers. Everything lies in target/fleet and is thrown away at the next start.
#   examples/fleet/start.sh [--until-idle]      ends once the jobs are done; else with Ctrl-C
# Needs root for Debian's pg_createcluster, and SEAWEEDFS=PATH of SeaweedFS's program (weed).
set -euo pipefail
cd "$(dirname "$0")/../.."
program=${BAYBRIEF:-target/release/baybrief}
weed=${SEAWEEDFS:?must name SeaweedFS\'s program, weed}
place=target/fleet
version=$(ls /usr/lib/postgresql | sort -V | tail -1)
cluster=baybrief-demo
sql_port=35432
s3_port=38333

fail() { echo "fleet: $*" >&2; exit 1; }
"$program" work --help >/dev/null 2>&1 || fail "$program was built without the feature fleet: cargo build --release --features fleet"

pids=()
end() {
    for pid in "${pids[@]}"; do kill "$pid" 2>/dev/null || true; done
    wait 2>/dev/null || true
    pg_dropcluster --stop "$version" "$cluster" 2>/dev/null || true
}
trap end EXIT
pg_dropcluster --stop "$version" "$cluster" 2>/dev/null || true
rm -rf "$place"
mkdir -p "$place/data"

# The database: only this machine reaches it, so it trusts. A real one asks for passwords or certificates.
pg_createcluster "$version" "$cluster" -p $sql_port -- --auth-host=trust --auth-local=trust >/dev/null
pg_ctlcluster "$version" "$cluster" start
sql() { psql -qAt -v ON_ERROR_STOP=1 "postgres://postgres@127.0.0.1:$sql_port/$1" "${@:2}"; }
sql postgres -c 'CREATE DATABASE baybrief'
sql baybrief -v database=baybrief -f pipeline/fleet/src/roles.sql
"$program" work --migrate --store "postgres://baybrief_owner@127.0.0.1:$sql_port/baybrief"

# The store.
export AWS_ENDPOINT_URL=http://127.0.0.1:$s3_port AWS_ACCESS_KEY_ID=demo AWS_SECRET_ACCESS_KEY=demo-secret AWS_REGION=us-east-1
export AWS_ALLOW_HTTP=true
cat > "$place/s3.json" <<JSON
{"identities": [{"name": "demo", "credentials": [{"accessKey": "demo", "secretKey": "demo-secret"}], "actions": ["Admin"]}]}
JSON
"$weed" server -ip=127.0.0.1 -ip.bind=127.0.0.1 -dir="$place/data" -filer -filer.port=38888 -master.port=39333 \
    -volume.port=38080 -s3 -s3.port=$s3_port -s3.config="$place/s3.json" -master.telemetry=false 2> "$place/weed.log" &
pids+=($!)
filer=http://127.0.0.1:38888/buckets/baybrief
for _ in $(seq 120); do curl -sf -X POST "$filer/up" -F file=@"$place/s3.json" >/dev/null && break; sleep 0.5; done
curl -sf "$filer/up" >/dev/null || fail "the store does not come up, see $place/weed.log"

# Two shops, each with settings of its own and the demo's job.
"$program" demo --out "$place/demo" >/dev/null
for shop in hill-road lake-street; do
    curl -sf -X POST "$filer/shops/$shop/shop.toml" -F file=@examples/fleet/shop.toml >/dev/null
    for file in "$place"/demo/inbox/*/*; do
        job=$(basename "$(dirname "$file")")
        curl -sf -X POST "$filer/inbox/$shop/$job/$(basename "$file")" -F "file=@$file" >/dev/null
    done
done

store=postgres://baybrief_worker@127.0.0.1:$sql_port/baybrief
for name in first second; do
    "$program" work --store "$store" --objects s3://baybrief --name "$name" --settle 2 --rescan 2 \
        --metrics "$place/$name.prom" "$@" &
    pids+=($!)
done
wait "${pids[@]:1}"

# What a checker sees who has nothing but database and store.
sql baybrief -c "SELECT shop, job, number, facts->>'sentence' FROM baybrief.revision ORDER BY 1, 2, 3"
reports=$(sql baybrief -c "SELECT count(*) FROM baybrief.revision")
[ "$reports" = 2 ] || fail "$reports reports, expected one of each shop"
key=$(sql baybrief -c "SELECT shop || '/' || job || '/' || revision || '/' || sha256 || '/' || name FROM baybrief.object WHERE name = 'report.pdf' LIMIT 1")
curl -sf "$filer/results/$key" | head -c 5 | grep -q '%PDF-' || fail "results/$key is no report"
echo "fleet: both shops have their report, the first is results/$key"
