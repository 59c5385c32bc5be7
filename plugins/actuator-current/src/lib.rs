//! baybrief-plugin-actuator-current
