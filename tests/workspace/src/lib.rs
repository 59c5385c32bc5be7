//! Rules for the whole workspace, checked by the tests of this package.
