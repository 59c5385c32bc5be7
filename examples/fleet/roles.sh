#!/bin/sh
# Run by the database's container at its first start.
set -e
sql() { psql -v ON_ERROR_STOP=1 -U "$POSTGRES_USER" -d "$POSTGRES_DB" "$@"; }
sql -v database="$POSTGRES_DB" -f /roles.sql
sql -c 'CREATE ROLE hill_road LOGIN IN ROLE baybrief_technician'
for role in baybrief_owner baybrief_worker hill_road; do
    sql -c "ALTER ROLE $role PASSWORD '$POSTGRES_PASSWORD'"
done
