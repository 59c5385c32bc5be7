-- What was found when a unit was opened or had proven itself, in its order. Only ever added to.
CREATE TABLE outcome (
    id      INTEGER NOT NULL PRIMARY KEY,
    job     TEXT    NOT NULL REFERENCES job (name),
    system  TEXT    NOT NULL,
    content TEXT    NOT NULL -- JSON
) STRICT;

CREATE INDEX outcome_by_job ON outcome (job, id);

CREATE TRIGGER outcome_is_kept BEFORE UPDATE ON outcome
BEGIN SELECT RAISE(ABORT, 'an outcome is never changed'); END;
CREATE TRIGGER outcome_stays BEFORE DELETE ON outcome
BEGIN SELECT RAISE(ABORT, 'an outcome is never removed'); END;
