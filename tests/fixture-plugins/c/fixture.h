/* What the C fixtures share: a library of one analyzer. */
#ifndef FIXTURE_H
#define FIXTURE_H

#include "analysis_plugin.h"

#include <stddef.h>

#define TEXT(literal) {literal, sizeof(literal) - 1}
#define NOTHING {NULL, 0}

/* An analyzer of that id with one kind and one message, which may have the argument "word". */
#define ANALYZER(identifier, function, kind_name, unit, message_name, needs, needs_count, uses, uses_count)   \
  static const analysis_kind the_kind = {sizeof(analysis_kind), 0, TEXT(kind_name), TEXT(unit)};              \
  static const analysis_kind *const the_kinds[] = {&the_kind};                                                \
  static const analysis_str the_args[] = {TEXT("word")};                                                      \
  static const analysis_message the_message = {sizeof(analysis_message), 1, TEXT(message_name), the_args};    \
  static const analysis_message *const the_messages[] = {&the_message};                                       \
  static const analysis_analyzer the_analyzer = {                                                             \
      sizeof(analysis_analyzer), ANALYSIS_SCOPE_CAPTURE, TEXT(identifier), TEXT("Fixture"), needs, uses,      \
      NULL, the_kinds, the_messages, NULL, needs_count, uses_count, 0, 1, 1, 0, function};                    \
  static const analysis_analyzer *const the_analyzers[] = {&the_analyzer};

/* A library of the_analyzers, whose system is called by that id. */
#define THE_LIBRARY(identifier)                                                                               \
  {sizeof(analysis_library), 0, TEXT(identifier), TEXT("Fixture"), TEXT("1.0.0"), TEXT("baybrief tests"),     \
   the_analyzers, NULL, sizeof(the_analyzers) / sizeof(the_analyzers[0]), 0}

#define EXPORT(identifier)                                                                                    \
  static const analysis_library the_library = THE_LIBRARY(identifier);                                        \
  const analysis_library *get_analysis_plugin_v2(uint32_t host_minor) {                                       \
    (void)host_minor;                                                                                         \
    return &the_library;                                                                                      \
  }

/* A library with one analyzer of that id that gives findings of one kind, said by a message of the same name. */
#define LIBRARY_OF(identifier, function, kind)                                                                \
  ANALYZER(identifier, function, kind, "", kind, NULL, 0, NULL, 0)                                            \
  EXPORT(identifier)

/* A library with one analyzer of that id. */
#define LIBRARY(identifier, function)                                                                         \
  ANALYZER(identifier, function, "kind", "", "message", NULL, 0, NULL, 0)                                     \
  EXPORT(identifier)

/* A finding of that kind and value, everything else empty. */
#define FINDING(name, number)                                                                                 \
  {sizeof(analysis_finding), ANALYSIS_HAS_VALUE, 0, 0, TEXT(name), NOTHING, NOTHING,                          \
   TEXT(name), NOTHING, 0, 0, number, 0, 0, 0, NOTHING, NOTHING}

#define UNUSED(input, host) ((void)(input), (void)(host))

#endif
