-- Technicians at their shops' own machines sign reports and record steps of the work. A program of version 1 goes on
-- beside this one: what it writes takes the defaults.

-- A report that is made anew without new findings keeps its number and gets a further edition.
ALTER TABLE object DROP CONSTRAINT object_shop_job_revision_fkey, DROP CONSTRAINT object_pkey;
ALTER TABLE revision
    ADD COLUMN edition INTEGER NOT NULL DEFAULT 1 CHECK (edition >= 1),
    ADD COLUMN publication TEXT NOT NULL DEFAULT gen_random_uuid()::text, -- drawn by whoever published it
    ALTER COLUMN token DROP NOT NULL,                                     -- NULL where no worker made it
    DROP CONSTRAINT revision_pkey,
    ADD PRIMARY KEY (shop, job, number, edition),
    ADD UNIQUE (shop, job, publication);
ALTER TABLE object
    ADD COLUMN edition INTEGER NOT NULL DEFAULT 1,
    ADD PRIMARY KEY (shop, job, revision, edition, name),
    ADD FOREIGN KEY (shop, job, revision, edition) REFERENCES revision (shop, job, number, edition);

ALTER TABLE job
    ADD COLUMN answers TEXT,                        -- job.toml as it was last right, TOML
    ADD COLUMN review  TEXT,                        -- asks | drafts | signed: group of a job that is done, for lists
    ADD COLUMN repeats INTEGER NOT NULL DEFAULT 0;  -- times that it was due again with the same files

ALTER TABLE labour ADD COLUMN edition INTEGER; -- of the report that handed the row over

-- Group of a job in lists.
CREATE FUNCTION job_group(state text, review text) RETURNS text IMMUTABLE LANGUAGE sql AS $$
    SELECT CASE WHEN state IN ('waiting', 'running') THEN 'work' WHEN state = 'failed' THEN 'asks' ELSE COALESCE(review, 'drafts') END
$$;

-- Every job with its newest report.
CREATE VIEW newest WITH (security_invoker = true) AS
SELECT j.shop, j.name, j.state, j.reason, j.queued, baybrief.job_group(j.state, j.review) AS job_group, r.number, r.edition, r.publication, r.facts, r.made
FROM job j LEFT JOIN LATERAL (
    SELECT * FROM revision WHERE shop = j.shop AND job = j.name ORDER BY number DESC, edition DESC LIMIT 1
) r ON true;

-- The shop of each technician's login, added by the administrator.
CREATE TABLE technician (
    login TEXT NOT NULL PRIMARY KEY,
    shop  TEXT NOT NULL
);
ALTER TABLE technician ENABLE ROW LEVEL SECURITY;
CREATE POLICY own_login ON technician FOR SELECT TO baybrief_technician USING (login = session_user);

-- Whatever shop a technician's transaction names, it sees that of the login alone.
DO $$
DECLARE t text;
BEGIN
    FOREACH t IN ARRAY ARRAY['job', 'revision', 'object', 'event', 'labour', 'batch'] LOOP
        EXECUTE format('CREATE POLICY own_login ON baybrief.%I AS RESTRICTIVE TO baybrief_technician '
            'USING (shop = (SELECT shop FROM baybrief.technician WHERE login = session_user))', t);
    END LOOP;
END $$;
CREATE POLICY own_login ON shop AS RESTRICTIVE TO baybrief_technician
    USING (id = (SELECT shop FROM baybrief.technician WHERE login = session_user));

-- As before; other files may be done again as often as new ones.
CREATE OR REPLACE FUNCTION enqueue(of_shop text, of_job text, with_inputs text) RETURNS boolean
LANGUAGE plpgsql SECURITY DEFINER SET search_path = baybrief, pg_temp AS $$
DECLARE next_turn bigint;
BEGIN
    INSERT INTO shop (id) VALUES (of_shop) ON CONFLICT DO NOTHING;
    PERFORM 1 FROM job WHERE shop = of_shop AND name = of_job AND inputs = with_inputs;
    IF FOUND THEN RETURN false; END IF;
    SELECT COALESCE(MIN(turn), 0) INTO next_turn FROM job WHERE state = 'waiting';
    UPDATE shop SET last_turn = GREATEST(last_turn, next_turn) + 1 WHERE id = of_shop RETURNING last_turn INTO next_turn;
    INSERT INTO job AS j (shop, name, state, inputs, turn, queued, due)
    VALUES (of_shop, of_job, 'waiting', with_inputs, next_turn, clock_timestamp(), clock_timestamp())
    ON CONFLICT (shop, name) DO UPDATE SET
        inputs = excluded.inputs, attempts = 0, repeats = 0, reason = NULL,
        -- One that is being done is done once more by whoever finishes it.
        state = CASE j.state WHEN 'running' THEN 'running' ELSE 'waiting' END,
        turn = excluded.turn, queued = excluded.queued, due = excluded.due;
    NOTIFY baybrief_queue;
    RETURN true;
END $$;

-- As before, but what is under way is found by its lease, not by looking through all of it: its turn is before that of
-- all that waits.
DROP INDEX job_in_turn;
CREATE INDEX job_waiting ON job (turn, shop, name) WHERE state = 'waiting';
CREATE INDEX job_under_way ON job (lease_until) WHERE state = 'running';
CREATE OR REPLACE FUNCTION claim(by_worker text, lease interval, most integer, attempts_allowed integer)
RETURNS TABLE (shop text, name text, inputs text, token bigint, attempts integer)
LANGUAGE sql SECURITY DEFINER SET search_path = baybrief, pg_temp AS $$
    WITH lost AS MATERIALIZED (
        SELECT j.shop, j.name FROM job j
        WHERE j.state = 'running' AND j.lease_until <= clock_timestamp() AND j.attempts < attempts_allowed
        ORDER BY j.lease_until LIMIT most
        FOR UPDATE SKIP LOCKED
    ), next AS MATERIALIZED (
        SELECT j.shop, j.name FROM job j
        WHERE j.state = 'waiting' AND j.due <= clock_timestamp() AND j.attempts < attempts_allowed
        ORDER BY j.turn, j.shop, j.name LIMIT most - (SELECT count(*) FROM lost)
        FOR UPDATE SKIP LOCKED
    )
    UPDATE job j SET state = 'running', token = j.token + 1, attempts = j.attempts + 1, worker = by_worker,
        lease_until = clock_timestamp() + lease
    FROM (SELECT * FROM lost UNION ALL SELECT * FROM next) n WHERE j.shop = n.shop AND j.name = n.name
    RETURNING j.shop, j.name, j.inputs, j.token, j.attempts
$$;

-- As before, without the jobs that are done, which grow without end.
CREATE INDEX job_failed ON job (queued) WHERE state = 'failed';
CREATE INDEX batch_to_put ON batch (shop, number) WHERE NOT put;
CREATE OR REPLACE FUNCTION queue_figures() RETURNS TABLE (state text, jobs bigint, oldest_s double precision)
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = baybrief, pg_temp AS $$
    SELECT 'waiting', count(*), EXTRACT(EPOCH FROM clock_timestamp() - MIN(queued)) FROM job WHERE state = 'waiting'
    UNION ALL
    SELECT 'running', count(*), EXTRACT(EPOCH FROM clock_timestamp() - MIN(queued)) FROM job WHERE state = 'running'
    UNION ALL
    SELECT 'failed', count(*), EXTRACT(EPOCH FROM clock_timestamp() - MIN(queued)) FROM job WHERE state = 'failed'
$$;

GRANT SELECT ON newest TO baybrief_worker, baybrief_technician;
GRANT USAGE ON SCHEMA baybrief TO baybrief_technician;
GRANT SELECT ON technician, shop, batch TO baybrief_technician;
GRANT SELECT, UPDATE ON job TO baybrief_technician;
GRANT SELECT, INSERT ON revision, object, event, labour TO baybrief_technician;
