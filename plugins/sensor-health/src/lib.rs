//! baybrief-plugin-sensor-health
