//! Rules that hold for the whole house; the tests of this package check them.
