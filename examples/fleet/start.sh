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
# Below the ports that a system gives to connections, as are those that the store takes 10,000 above its own.
sql_port=15432
s3_port=18333

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
# The technicians of one shop, who see no other one's jobs.
sql baybrief -c 'CREATE ROLE hill_road LOGIN IN ROLE baybrief_technician'
sql baybrief -c "INSERT INTO baybrief.technician (login, shop) VALUES ('hill_road', 'hill-road')"

# The store.
export AWS_ENDPOINT_URL=http://127.0.0.1:$s3_port AWS_ACCESS_KEY_ID=demo AWS_SECRET_ACCESS_KEY=demo-secret AWS_REGION=us-east-1
export AWS_ALLOW_HTTP=true
cat > "$place/s3.json" <<JSON
{"identities": [{"name": "demo", "credentials": [{"accessKey": "demo", "secretKey": "demo-secret"}], "actions": ["Admin"]}]}
JSON
"$weed" server -ip=127.0.0.1 -ip.bind=127.0.0.1 -dir="$place/data" -filer -filer.port=18888 -master.port=19333 \
    -volume.port=18080 -s3 -s3.port=$s3_port -s3.port.iceberg=0 -s3.port.lance=0 -s3.config="$place/s3.json" -master.telemetry=false 2> "$place/weed.log" &
pids+=($!)
filer=http://127.0.0.1:18888/buckets/baybrief
for _ in $(seq 120); do curl -sf -X POST "$filer/up" -F file=@"$place/s3.json" >/dev/null && break; sleep 0.5; done
curl -sf "$filer/up" >/dev/null || fail "the store does not come up, see $place/weed.log"

put() { # FILE KEY: puts a file into the store
    local key='' i c
    for ((i = 0; i < ${#2}; i++)); do
        c=${2:i:1}
        case $c in [a-zA-Z0-9./_-]) key+=$c ;; *) key+=$(printf '%s' "$c" | od -An -tx1 | tr ' ' % | tr -d '\n') ;; esac
    done
    curl -sf -X POST "$filer/$key" -F "file=@$1" >/dev/null || fail "$1 cannot be put into the store"
}

# Two shops, each with the demo's settings and job.
"$program" demo --out "$place/demo" >/dev/null
for shop in hill-road lake-street; do
    put "$place/demo/shop.toml" "shops/$shop/shop.toml"
    for file in "$place"/demo/inbox/*/*; do
        job=$(basename "$(dirname "$file")")
        put "$file" "inbox/$shop/$job/$(basename "$file")"
    done
done

# A technician at the shop's own machine: `source target/fleet/technician.env`, then `baybrief status`, `sign`, ...
export BAYBRIEF_OBJECTS=s3://baybrief
technician=(BAYBRIEF_STORE="postgres://hill_road@127.0.0.1:$sql_port/baybrief" BAYBRIEF_TENANT=hill-road)
{ export -p | grep -E ' (AWS_|BAYBRIEF_OBJECTS)'; printf 'export %s\n' "${technician[@]}"; } > "$place/technician.env"

store=postgres://baybrief_worker@127.0.0.1:$sql_port/baybrief
for name in first second; do
    "$program" work --store "$store" --name "$name" --settle 2 --rescan 2 --metrics "$place/$name.prom" "$@" &
    pids+=($!)
done
wait "${pids[@]:1}"

# What a checker sees who has nothing but database and store.
sql baybrief -c "SELECT shop, job, number, facts->>'sentence' FROM baybrief.revision ORDER BY 1, 2, 3"
reports=$(sql baybrief -c "SELECT count(*) FROM baybrief.revision")
[ "$reports" = 2 ] || fail "$reports reports, expected one of each shop"
key=$(sql baybrief -c "SELECT shop || '/' || job || '/' || revision || '/' || sha256 || '/' || name FROM baybrief.object WHERE name = 'report.pdf' LIMIT 1")
curl -sf "$filer/results/$key" -o "$place/report.pdf" && [ "$(head -c 5 "$place/report.pdf")" = %PDF- ] || fail "results/$key is no report"

# A technician signs what the workers did, and records the customer's word and work that was done.
as_technician() { env "${technician[@]}" "$program" "$@"; }
as_technician sign "$job" --by "T. Invented"
as_technician authorise "$job" --by "C. Invented" --how telephone --lines teardown
as_technician complete "$job" --by "T. Invented" --lines teardown
as_technician status "$job" --fetch "$place/fetched"
# What the shop's jobs teach, with a copy of its settings.
as_technician learn limits --shop "$place/demo/shop.toml"
"$program" work --store "$store" --name third --settle 2 --rescan 2 --until-idle
curl -sf "$filer/labour/hill-road/00000001.csv" > "$place/labour.csv" || fail "no labour row was handed over"
as_technician status "$job" --tenant lake-street && fail "a technician of hill-road sees lake-street"
signed=$(sql baybrief -c "SELECT string_agg(shop, ',') FROM baybrief.event WHERE kind = 'signature'")
[ "$signed" = hill-road ] || fail "signed are the reports of: $signed"
echo "fleet: both shops have their report, that of hill-road is signed: $place/fetched/report.pdf"
