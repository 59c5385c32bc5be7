//! A fleet on real servers: PostgreSQL and an S3-compatible store, started here, killed at will. `FLEET_JOBS` sets the
//! number of jobs of the long tests; `BAYBRIEF` names the program for the one test that runs it whole. Run by hand, with `--ignored`: `bench`, and `beside_an_older_program`, whose
//! `OLDER_WORKER` names a fleet-worker that was built from the version before.

mod bench;
mod claims;
mod crowd;
mod histories;
mod learning;
mod outages;
mod tenants;

use libtest_mimic::{Arguments, Failed, Trial};
use std::process::ExitCode;

type Test = fn() -> anyhow::Result<()>;

fn main() -> ExitCode {
    let tests: [(&str, Test); 18] = [
        (
            "claims::one_worker_a_job_and_only_the_newest_claim_finishes",
            claims::fencing,
        ),
        ("claims::shops_take_turns", claims::turns),
        (
            "claims::attempts_end_and_a_person_tries_again",
            claims::attempts,
        ),
        (
            "claims::files_that_change_meanwhile_are_done_again",
            claims::changes,
        ),
        ("claims::what_no_row_names_is_swept_away", claims::sweep),
        ("tenants::no_query_sees_another_shop", tenants::isolation),
        ("tenants::a_technician_sees_one_shop", tenants::technicians),
        (
            "claims::answers_last_and_a_check_that_did_not_run_is_made_up_for",
            claims::memory,
        ),
        ("claims::who_waits_is_woken", claims::woken),
        (
            "claims::rows_handed_over_by_several_at_once",
            claims::handed_over_at_once,
        ),
        (
            "learning::as_from_the_same_jobs_in_a_folder",
            learning::adoption,
        ),
        (
            "tenants::roles_that_see_everything_are_refused",
            tenants::roles,
        ),
        (
            "histories::thousands_with_a_bucket_in_memory",
            histories::in_memory,
        ),
        ("histories::some_on_the_store", histories::on_the_store),
        ("crowd::workers_killed_at_random", crowd::killed),
        ("crowd::workers_stopped_past_their_lease", crowd::stopped),
        ("outages::database_and_store_killed", outages::killed),
        (
            "outages::connections_cut_stalled_and_commits_unanswered",
            outages::proxied,
        ),
    ];
    let mut arguments = Arguments::from_args();
    // Each has servers of its own, and most keep both cores busy.
    arguments.test_threads = Some(1);
    let failed = |e: anyhow::Error| Failed::from(format!("{e:#}"));
    let mut trials: Vec<Trial> = tests
        .into_iter()
        .map(|(name, test)| Trial::test(name, move || test().map_err(failed)))
        .collect();
    // A measurement, and one that needs a program of the version before.
    let by_hand: [(&str, Test); 2] = [
        ("bench::throughput", bench::throughput),
        (
            "crowd::beside_an_older_program",
            crowd::beside_an_older_program,
        ),
    ];
    trials.extend(by_hand.into_iter().map(|(name, test)| {
        Trial::test(name, move || test().map_err(failed)).with_ignored_flag(true)
    }));
    libtest_mimic::run(&arguments, trials).exit_code()
}

/// A runtime for the test's own side.
fn block_on<T>(work: impl Future<Output = anyhow::Result<T>>) -> anyhow::Result<T> {
    tokio::runtime::Runtime::new()?.block_on(work)
}
