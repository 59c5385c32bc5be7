-- Times are milliseconds since 1970-01-01 UTC.

-- One vehicle's visit, by the name of its folder or the shared part of its files' names.
CREATE TABLE job (
    name     TEXT    NOT NULL PRIMARY KEY,
    source   TEXT    NOT NULL, -- where its files lie, JSON
    arrived  INTEGER NOT NULL, -- when its newest file came
    state    TEXT    NOT NULL, -- waiting | working | done | failed
    note     TEXT,             -- why it failed
    changed  INTEGER NOT NULL  -- when the state last changed
) STRICT;

-- One report. The files of its results lie in OUT/JOB/rev-NUMBER.
CREATE TABLE revision (
    job         TEXT    NOT NULL REFERENCES job (name),
    number      INTEGER NOT NULL CHECK (number >= 1),
    fingerprint TEXT    NOT NULL, -- of the files that it was made from
    outcome     TEXT    NOT NULL, -- digest of what was found, with which settings
    verdict     TEXT    NOT NULL,
    sentence    TEXT    NOT NULL,
    asks        TEXT    NOT NULL, -- what is asked for next, JSON
    set_aside   INTEGER NOT NULL, -- number of files
    shop        TEXT,             -- the settings' file
    made        INTEGER NOT NULL,
    placed      INTEGER NOT NULL, -- whether its results lie where they belong
    PRIMARY KEY (job, number)
) STRICT;

CREATE INDEX revision_unplaced ON revision (placed) WHERE placed = 0;

-- The files that a revision was made from.
CREATE TABLE file (
    job      TEXT    NOT NULL,
    revision INTEGER NOT NULL,
    path     TEXT    NOT NULL,
    size     INTEGER NOT NULL,
    modified INTEGER, -- nanoseconds
    changed  INTEGER, -- of the file's entry, nanoseconds
    blake3   TEXT,    -- of the whole content; NULL where it could not be read
    problem  TEXT,    -- why it could not be read
    PRIMARY KEY (job, revision, path),
    FOREIGN KEY (job, revision) REFERENCES revision (job, number)
) STRICT;

-- What was done, in its order. Only ever added to.
CREATE TABLE step (
    id       INTEGER NOT NULL PRIMARY KEY,
    job      TEXT    NOT NULL,
    revision INTEGER,
    step     TEXT    NOT NULL,
    at       INTEGER NOT NULL
) STRICT;

-- Who reviewed a revision.
CREATE TABLE signature (
    job      TEXT    NOT NULL,
    revision INTEGER NOT NULL,
    name     TEXT    NOT NULL,
    note     TEXT,
    at       TEXT    NOT NULL, -- the shop's time, ISO 8601
    PRIMARY KEY (job, revision),
    FOREIGN KEY (job, revision) REFERENCES revision (job, number)
) STRICT;

-- Labour rows handed to the billing system, in their order. Never changed, only marked as written.
CREATE TABLE labour (
    id       INTEGER NOT NULL PRIMARY KEY,
    job      TEXT    NOT NULL,
    revision INTEGER NOT NULL,
    row_id   TEXT    NOT NULL,
    content  TEXT    NOT NULL, -- JSON
    day      TEXT    NOT NULL, -- of the batch file, ISO 8601
    written  INTEGER NOT NULL,
    UNIQUE (job, row_id),
    FOREIGN KEY (job, revision) REFERENCES revision (job, number)
) STRICT;

CREATE INDEX labour_unwritten ON labour (written) WHERE written = 0;

-- Every job with its newest revision and that one's signature.
CREATE VIEW newest AS
SELECT j.name AS job_name, j.source, j.arrived, j.state, j.note, r.number, r.fingerprint, r.outcome, r.verdict,
       r.sentence, r.asks, r.set_aside, r.shop, r.made, s.name AS signed_by, s.at AS signed_at, s.note AS signed_note
FROM job j
LEFT JOIN revision r ON r.job = j.name AND r.number = (SELECT MAX(number) FROM revision WHERE job = j.name)
LEFT JOIN signature s ON s.job = r.job AND s.revision = r.number;
