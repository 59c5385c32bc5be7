//! Random histories on folders of results, held to the model that a fleet's servers are held to as well.
//! `HISTORIES` sets their number.

use baybrief_fleet_tests::histories::{Folder, number_of_histories, run_histories};

#[test]
fn folders_keep_to_the_model_whatever_ends_when() {
    run_histories::<Folder>(number_of_histories(48), |_| Ok(())).unwrap_or_else(|e| panic!("{e}"));
}
