//! baybrief-plugin-abi
