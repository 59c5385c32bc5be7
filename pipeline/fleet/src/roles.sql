-- Roles of a fleet. Run once by whoever administers the server, in the fleet's own database:
--   psql -v database=baybrief -f roles.sql
-- Passwords and who may log in from where are the administrator's to set.

-- Owns the tables and brings them up to date.
CREATE ROLE baybrief_owner LOGIN NOSUPERUSER NOBYPASSRLS;
-- Sees the queue of all shops; nobody logs in as it. The functions that hand out work run as it.
CREATE ROLE baybrief_dispatcher NOLOGIN NOSUPERUSER NOBYPASSRLS;
-- Does the work, for one shop at a time.
CREATE ROLE baybrief_worker LOGIN NOSUPERUSER NOBYPASSRLS;
-- Sees and signs the jobs of one shop. A login for each shop is a member of it; after the first `work --migrate`:
--   CREATE ROLE hill_road LOGIN IN ROLE baybrief_technician;
--   INSERT INTO baybrief.technician (login, shop) VALUES ('hill_road', 'hill-road');
CREATE ROLE baybrief_technician NOLOGIN NOSUPERUSER NOBYPASSRLS;

-- The owner gives the functions to the dispatcher.
GRANT baybrief_dispatcher TO baybrief_owner;
GRANT CREATE, CONNECT ON DATABASE :"database" TO baybrief_owner;
GRANT CONNECT ON DATABASE :"database" TO baybrief_worker, baybrief_technician;
