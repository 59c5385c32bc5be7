#!/bin/sh
# Run by the database's container at its first start.
set -e
psql -v ON_ERROR_STOP=1 -U "$POSTGRES_USER" -d "$POSTGRES_DB" -v database="$POSTGRES_DB" -f /roles.sql
for role in baybrief_owner baybrief_worker; do
    psql -v ON_ERROR_STOP=1 -U "$POSTGRES_USER" -d "$POSTGRES_DB" -c "ALTER ROLE $role PASSWORD '$POSTGRES_PASSWORD'"
done
