-- job.toml of a job as it was last right, TOML: what counts where a later one has a wrong line.
ALTER TABLE job ADD COLUMN answers TEXT;

-- Digest of the sizes and times of the files that its newest revision was made from, in place of a row for each file:
-- a start compares thousands of jobs by it.
ALTER TABLE job ADD COLUMN stamps TEXT;
DROP TABLE file;

-- Entries of the inbox that belong to no job, each with what to do about it.
CREATE TABLE refusal (
    text TEXT NOT NULL PRIMARY KEY
) STRICT;
