-- Times are milliseconds since 1970-01-01 UTC, negative before it.

-- One vehicle's visit, by the name of its folder or the shared part of its files' names.
CREATE TABLE job (
    name        TEXT    NOT NULL PRIMARY KEY,
    source      TEXT    NOT NULL, -- place of its files, JSON
    arrived     INTEGER NOT NULL, -- time of its newest file
    state       TEXT    NOT NULL, -- waiting | working | done | failed | held
    note        TEXT,             -- reason of failed and held
    fingerprint TEXT,             -- of the files that it is or was last worked on with
    job_group   TEXT    NOT NULL, -- asks | drafts | work | signed, for lists
    number      TEXT              -- the shop's number, trimmed, in lower case
) STRICT;

CREATE INDEX job_by_group ON job (job_group, arrived DESC, name);
CREATE INDEX job_by_number ON job (number) WHERE number IS NOT NULL;
CREATE INDEX job_by_state ON job (state) WHERE state <> 'done';

-- Times in a row that the service ended by a fault of its own while it worked on a job with these files.
CREATE TABLE crash (
    job         TEXT    NOT NULL PRIMARY KEY,
    fingerprint TEXT    NOT NULL,
    count       INTEGER NOT NULL
) STRICT;

-- One report. The files of its results lie in OUT/JOB/rev-NUMBER.
CREATE TABLE revision (
    job         TEXT    NOT NULL REFERENCES job (name),
    number      INTEGER NOT NULL CHECK (number >= 1),
    token       TEXT    NOT NULL, -- of the publication that wrote this row
    job_number  TEXT    NOT NULL, -- the shop's number
    fingerprint TEXT    NOT NULL, -- of the files that it was made from
    outcome     TEXT    NOT NULL, -- digest of what was found, with which settings
    verdict     TEXT    NOT NULL,
    sentence    TEXT    NOT NULL,
    asks        TEXT    NOT NULL, -- what is asked for next, JSON
    set_aside   INTEGER NOT NULL, -- number of rejected files
    shop        TEXT,             -- the settings' file
    texts       TEXT,             -- complaint, cause and correction, JSON
    made        INTEGER NOT NULL,
    published   INTEGER NOT NULL, -- 1 once its results are in place
    PRIMARY KEY (job, number)
) STRICT;

CREATE INDEX revision_pending ON revision (published) WHERE published = 0;

-- The files that a revision was made from.
CREATE TABLE file (
    job      TEXT    NOT NULL,
    revision INTEGER NOT NULL,
    path     TEXT    NOT NULL,
    size     INTEGER NOT NULL,
    modified INTEGER, -- nanoseconds
    changed  INTEGER, -- of the file's entry, nanoseconds
    sha256   TEXT,    -- of the whole content; NULL where it could not be read
    problem  TEXT,    -- reason why it could not be read
    PRIMARY KEY (job, revision, path),
    FOREIGN KEY (job, revision) REFERENCES revision (job, number)
) STRICT;

-- Steps of publication, in their order. Only ever added to.
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

-- Life of the lines of work: offered, authorised, declined, done, in their order. Only ever added to.
CREATE TABLE work_event (
    id      INTEGER NOT NULL PRIMARY KEY,
    job     TEXT    NOT NULL REFERENCES job (name),
    action  TEXT    NOT NULL,
    content TEXT    NOT NULL -- JSON
) STRICT;

CREATE INDEX work_event_by_job ON work_event (job, id);

-- Labour rows handed to the billing system, in their order. Never changed, only marked as written.
CREATE TABLE labour (
    id       INTEGER NOT NULL PRIMARY KEY,
    job      TEXT    NOT NULL,
    revision INTEGER NOT NULL,
    row_id   TEXT    NOT NULL,
    content  TEXT    NOT NULL, -- JSON
    written  INTEGER NOT NULL,
    UNIQUE (job, row_id),
    FOREIGN KEY (job, revision) REFERENCES revision (job, number)
) STRICT;

CREATE INDEX labour_pending ON labour (written) WHERE written = 0;

CREATE TRIGGER work_event_is_kept BEFORE UPDATE ON work_event
BEGIN SELECT RAISE(ABORT, 'an event of a line is never changed'); END;
CREATE TRIGGER work_event_stays BEFORE DELETE ON work_event
BEGIN SELECT RAISE(ABORT, 'an event of a line is never removed'); END;

-- Every job with its newest revision and that one's signature.
CREATE VIEW newest AS
SELECT j.name AS job_name, j.source, j.arrived, j.state, j.note, j.job_group, r.number, r.token, r.job_number,
       r.fingerprint, r.outcome, r.verdict, r.sentence, r.asks, r.set_aside, r.shop, r.made,
       s.name AS signed_by, s.at AS signed_at, s.note AS signed_note
FROM job j
LEFT JOIN revision r ON r.job = j.name AND r.number = (SELECT MAX(number) FROM revision WHERE job = j.name)
LEFT JOIN signature s ON s.job = r.job AND s.revision = r.number;
