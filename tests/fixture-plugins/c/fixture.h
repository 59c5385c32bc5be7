/* What the C fixtures share: a descriptor, and a library of one plugin. */
#ifndef FIXTURE_H
#define FIXTURE_H

#include "analysis_plugin.h"

#include <stddef.h>

#define TEXT(literal) {literal, sizeof(literal) - 1}

/* The members of a descriptor that came with version 1.1. */
#define NO_MORE NULL, NULL, 0, 0, NULL, 0, 0

#define DESCRIPTOR(identifier, function)                                                     \
  {sizeof(analysis_descriptor), ANALYSIS_SCOPE_CAPTURE, TEXT(identifier), TEXT("Fixture"),   \
   TEXT("1.0.0"), TEXT("baybrief tests"), NULL, NULL, 0, 0, function, NO_MORE}

/* A library with one plugin of that id. */
#define LIBRARY(identifier, function)                                                        \
  static const analysis_descriptor only = DESCRIPTOR(identifier, function);                  \
  const analysis_descriptor *get_analysis_plugin_v1(uint32_t host_minor, uint32_t index) {   \
    (void)host_minor;                                                                        \
    return index == 0 ? &only : NULL;                                                        \
  }

/* A finding of that kind and value, everything else empty. */
#define FINDING(name, number)                                                                \
  {sizeof(analysis_finding), ANALYSIS_HAS_VALUE, 0, 0, TEXT(name), {NULL, 0}, {NULL, 0},     \
   TEXT(name), {NULL, 0}, 0, 0, number, 0, 0, 0, {NULL, 0}, {NULL, 0}}

#define UNUSED(input, host) ((void)(input), (void)(host))

#endif
