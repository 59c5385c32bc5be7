//! Random histories on folders of results, held to the model that a fleet's servers are held to as well.
//! `HISTORIES` sets their number.

use baybrief_fleet_tests::histories::{Folder, Model, number_of_histories};
use proptest::test_runner::{Config, TestRunner};
use proptest_state_machine::{ReferenceStateMachine, StateMachineTest};

#[test]
fn folders_keep_to_the_model_whatever_ends_when() {
    let config = Config {
        cases: number_of_histories(48),
        failure_persistence: None,
        max_shrink_iters: 400,
        ..Config::default()
    };
    let strategy = Model::<Folder>::sequential_strategy(1..40);
    let run = TestRunner::new(config.clone()).run(&strategy, |(model, steps, seen)| {
        Folder::test_sequential(config.clone(), model, steps, seen);
        Ok(())
    });
    run.unwrap_or_else(|e| panic!("{e}"));
}
