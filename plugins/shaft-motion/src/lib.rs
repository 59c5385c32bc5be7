//! baybrief-plugin-shaft-motion
