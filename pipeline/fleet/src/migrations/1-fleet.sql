-- Queue and ledger of many shops. Times are the database's own: no worker's clock decides anything.


CREATE TABLE shop (
    id        TEXT   NOT NULL PRIMARY KEY CHECK (id ~ '^[a-z0-9][a-z0-9-]{0,62}$'),
    last_turn BIGINT NOT NULL DEFAULT 0 -- of its newest job in the queue
);

-- One vehicle's visit, and its place in the queue.
CREATE TABLE job (
    shop        TEXT        NOT NULL REFERENCES shop (id),
    name        TEXT        NOT NULL CHECK (name <> ''),
    state       TEXT        NOT NULL CHECK (state IN ('waiting', 'running', 'done', 'failed')),
    inputs      TEXT        NOT NULL, -- digest of the files that it is to be done with
    turn        BIGINT      NOT NULL, -- the smallest is next; shops take turns by it
    queued      TIMESTAMPTZ NOT NULL,
    due         TIMESTAMPTZ NOT NULL, -- not before this
    attempts    INTEGER     NOT NULL DEFAULT 0,
    -- Grows with each claim. Only the holder of the newest one may finish.
    token       BIGINT      NOT NULL DEFAULT 0,
    worker      TEXT,
    lease_until TIMESTAMPTZ,
    reason      TEXT,                 -- why it failed, or is tried again
    number      TEXT,                 -- the shop's number of its newest report, trimmed, in lower case
    PRIMARY KEY (shop, name),
    CHECK ((state = 'running') = (lease_until IS NOT NULL))
);

CREATE INDEX job_by_number ON job (shop, number) WHERE number IS NOT NULL;
CREATE INDEX job_in_turn ON job (turn) WHERE state IN ('waiting', 'running');

-- One report. Never changed.
CREATE TABLE revision (
    shop     TEXT        NOT NULL,
    job      TEXT        NOT NULL,
    number   INTEGER     NOT NULL CHECK (number >= 1),
    token    BIGINT      NOT NULL, -- of the claim that made it
    inputs   TEXT        NOT NULL,
    facts    JSONB       NOT NULL, -- verdict, sentence, what is asked for
    made     TIMESTAMPTZ NOT NULL DEFAULT now(),
    PRIMARY KEY (shop, job, number),
    UNIQUE (shop, job, token),
    FOREIGN KEY (shop, job) REFERENCES job (shop, name)
);

-- The files of a report: this row makes an object real, whatever lies in the store.
CREATE TABLE object (
    shop     TEXT    NOT NULL,
    job      TEXT    NOT NULL,
    revision INTEGER NOT NULL,
    name     TEXT    NOT NULL,
    sha256   TEXT    NOT NULL CHECK (sha256 ~ '^[0-9a-f]{64}$'),
    size     BIGINT  NOT NULL,
    PRIMARY KEY (shop, job, revision, name),
    FOREIGN KEY (shop, job, revision) REFERENCES revision (shop, job, number)
);

-- Life of the lines of work, reviews and outcomes, in their order. Only ever added to.
CREATE TABLE event (
    id      BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    shop    TEXT        NOT NULL,
    job     TEXT        NOT NULL,
    kind    TEXT        NOT NULL CHECK (kind IN ('work', 'signature', 'outcome')),
    content JSONB       NOT NULL,
    at      TIMESTAMPTZ NOT NULL DEFAULT now(),
    FOREIGN KEY (shop, job) REFERENCES job (shop, name)
);

CREATE INDEX event_by_job ON event (shop, job, id);

-- Labour rows handed over. `batch`: the object that has the row; NULL until it is there.
CREATE TABLE labour (
    id      BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    shop    TEXT    NOT NULL,
    job     TEXT    NOT NULL,
    row_id  TEXT    NOT NULL, -- of this row alone
    content JSONB   NOT NULL,
    batch   BIGINT,
    UNIQUE (shop, job, row_id),
    FOREIGN KEY (shop, job) REFERENCES job (shop, name)
);

CREATE INDEX labour_to_hand_over ON labour (shop, id) WHERE batch IS NULL;

-- A batch file of a shop: closed before it is put, so that a second attempt puts the same bytes.
CREATE TABLE batch (
    shop   TEXT    NOT NULL REFERENCES shop (id),
    number BIGINT  NOT NULL,
    put    BOOLEAN NOT NULL DEFAULT false,
    made   TIMESTAMPTZ NOT NULL DEFAULT now(),
    PRIMARY KEY (shop, number)
);

CREATE FUNCTION is_kept() RETURNS trigger LANGUAGE plpgsql AS
$$ BEGIN RAISE EXCEPTION 'rows of % are never changed or removed', TG_TABLE_NAME; END $$;
CREATE TRIGGER event_is_kept BEFORE UPDATE OR DELETE ON event FOR EACH ROW EXECUTE FUNCTION is_kept();
CREATE TRIGGER revision_is_kept BEFORE UPDATE OR DELETE ON revision FOR EACH ROW EXECUTE FUNCTION is_kept();
CREATE TRIGGER object_is_kept BEFORE UPDATE OR DELETE ON object FOR EACH ROW EXECUTE FUNCTION is_kept();

-- A transaction names its shop; without one it sees nothing. After SET LOCAL the setting is '', not NULL.
CREATE FUNCTION present_shop() RETURNS text STABLE LANGUAGE sql AS
$$ SELECT NULLIF(current_setting('baybrief.shop', true), '') $$;

ALTER TABLE shop ENABLE ROW LEVEL SECURITY;
ALTER TABLE shop FORCE ROW LEVEL SECURITY;
CREATE POLICY own_shop ON shop USING (id = baybrief.present_shop());
CREATE POLICY dispatch ON shop TO baybrief_dispatcher USING (true) WITH CHECK (true);

DO $$
DECLARE t text;
BEGIN
    FOREACH t IN ARRAY ARRAY['job', 'revision', 'object', 'event', 'labour', 'batch'] LOOP
        EXECUTE format('ALTER TABLE baybrief.%I ENABLE ROW LEVEL SECURITY', t);
        EXECUTE format('ALTER TABLE baybrief.%I FORCE ROW LEVEL SECURITY', t);
        EXECUTE format('CREATE POLICY own_shop ON baybrief.%I USING (shop = baybrief.present_shop())', t);
    END LOOP;
END $$;
CREATE POLICY dispatch ON job TO baybrief_dispatcher USING (true) WITH CHECK (true);
CREATE POLICY dispatch ON labour FOR SELECT TO baybrief_dispatcher USING (true);
CREATE POLICY dispatch ON batch FOR SELECT TO baybrief_dispatcher USING (true);

-- Puts a job into the queue, or a known one once more where its files have changed. A shop's newest job comes after its
-- own others and at once after the job that is next in the queue: a thousand jobs of one shop hold up another's one by
-- one job at most. True where something is to be done.
CREATE FUNCTION enqueue(of_shop text, of_job text, with_inputs text) RETURNS boolean
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
        inputs = excluded.inputs, attempts = 0, reason = NULL,
        -- One that is being done is done once more by whoever finishes it.
        state = CASE j.state WHEN 'running' THEN 'running' ELSE 'waiting' END,
        turn = excluded.turn, queued = excluded.queued, due = excluded.due;
    NOTIFY baybrief_queue;
    RETURN true;
END $$;

-- Hands out jobs whose turn it is, each to one worker: those that wait, and those whose worker let its lease run out.
CREATE FUNCTION claim(by_worker text, lease interval, most integer, attempts_allowed integer)
RETURNS TABLE (shop text, name text, inputs text, token bigint, attempts integer)
LANGUAGE sql SECURITY DEFINER SET search_path = baybrief, pg_temp AS $$
    WITH next AS MATERIALIZED (
        SELECT j.shop, j.name FROM job j
        WHERE j.state IN ('waiting', 'running') AND j.attempts < attempts_allowed
          AND CASE j.state WHEN 'waiting' THEN j.due ELSE j.lease_until END <= clock_timestamp()
        ORDER BY j.turn LIMIT most
        FOR UPDATE SKIP LOCKED
    )
    UPDATE job j SET state = 'running', token = j.token + 1, attempts = j.attempts + 1, worker = by_worker,
        lease_until = clock_timestamp() + lease
    FROM next WHERE j.shop = next.shop AND j.name = next.name
    RETURNING j.shop, j.name, j.inputs, j.token, j.attempts
$$;

-- Gives up jobs whose workers ended again and again without a word. Returns their number.
CREATE FUNCTION give_up(attempts_allowed integer) RETURNS bigint
LANGUAGE sql SECURITY DEFINER SET search_path = baybrief, pg_temp AS $$
    WITH lost AS (
        UPDATE job SET state = 'failed', lease_until = NULL, worker = NULL,
            reason = 'its worker ended ' || attempts || ' times without finishing it'
        WHERE (shop, name) IN (
            SELECT shop, name FROM job
            WHERE state = 'running' AND attempts >= attempts_allowed AND lease_until <= clock_timestamp()
            FOR UPDATE SKIP LOCKED
        ) RETURNING 1
    ) SELECT count(*) FROM lost
$$;

-- What the fleet as a whole has to do: numbers alone.
CREATE FUNCTION queue_figures() RETURNS TABLE (state text, jobs bigint, oldest_s double precision)
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = baybrief, pg_temp AS $$
    SELECT state, count(*), EXTRACT(EPOCH FROM clock_timestamp() - MIN(queued)) FROM job GROUP BY state
$$;

-- Shops with labour rows that are not in the store yet.
CREATE FUNCTION shops_to_hand_over() RETURNS SETOF text
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = baybrief, pg_temp AS $$
    SELECT shop FROM labour WHERE batch IS NULL UNION SELECT shop FROM batch WHERE NOT put
$$;

GRANT USAGE ON SCHEMA baybrief TO baybrief_worker, baybrief_dispatcher;
GRANT SELECT, INSERT, UPDATE ON shop, job TO baybrief_dispatcher;
GRANT SELECT ON labour, batch TO baybrief_dispatcher;
GRANT SELECT, UPDATE ON job TO baybrief_worker;
GRANT SELECT ON shop TO baybrief_worker;
GRANT SELECT, INSERT ON revision, object, event TO baybrief_worker;
GRANT SELECT, INSERT, UPDATE ON labour, batch TO baybrief_worker;

GRANT CREATE ON SCHEMA baybrief TO baybrief_dispatcher;
DO $$
DECLARE f regprocedure;
BEGIN
    FOR f IN SELECT oid::regprocedure FROM pg_proc
             WHERE pronamespace = 'baybrief'::regnamespace AND prosecdef LOOP
        EXECUTE format('REVOKE ALL ON FUNCTION %s FROM PUBLIC', f);
        EXECUTE format('GRANT EXECUTE ON FUNCTION %s TO baybrief_worker', f);
        EXECUTE format('ALTER FUNCTION %s OWNER TO baybrief_dispatcher', f);
    END LOOP;
END $$;
REVOKE CREATE ON SCHEMA baybrief FROM baybrief_dispatcher;
