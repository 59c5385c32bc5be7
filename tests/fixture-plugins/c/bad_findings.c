/* Hands over findings that break a rule each, and claims that all is well. Crashes when the host does not
 * answer with the rule's own number. */
#include "fixture.h"

#include <math.h>
#include <stdlib.h>

#define EMPTY                                                                                  \
  {sizeof(analysis_finding), ANALYSIS_HAS_VALUE, 0, 0, TEXT("kind"), {NULL, 0}, {NULL, 0},       \
   TEXT("message"), {NULL, 0}, 0, 0, 0, 0, 0, 0, {NULL, 0}, {NULL, 0}}

#define SET(member, literal) ((member).ptr = (literal), (member).len = sizeof(literal) - 1)

static void expect(const analysis_host *host, const analysis_finding *finding, int32_t rule) {
  if (host->emit(host->ctx, finding) != rule) {
    abort();
  }
}

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  static const analysis_finding good = EMPTY;
  analysis_finding f = good;
  (void)input;
  f.value = (double)NAN;
  expect(host, &f, ANALYSIS_EMIT_BAD_NUMBER);
  f = good;
  f.present = ANALYSIS_HAS_START | ANALYSIS_HAS_END;
  f.start_s = 2;
  f.end_s = 1;
  expect(host, &f, ANALYSIS_EMIT_BAD_NUMBER);
  f = good;
  f.struct_size -= 1;
  expect(host, &f, ANALYSIS_EMIT_BAD_STRUCT);
  expect(host, NULL, ANALYSIS_EMIT_BAD_STRUCT);
  f = good;
  SET(f.kind, "\xff\xfe");
  expect(host, &f, ANALYSIS_EMIT_BAD_TEXT);
  f = good;
  SET(f.message, "The shaft turns.");
  expect(host, &f, ANALYSIS_EMIT_BAD_TEXT);
  f = good;
  SET(f.args_json, "[1]");
  expect(host, &f, ANALYSIS_EMIT_BAD_ARGS);
  SET(f.args_json, "{\"a\":null}");
  expect(host, &f, ANALYSIS_EMIT_BAD_ARGS);
  f = good;
  f.grade = 5;
  expect(host, &f, ANALYSIS_EMIT_BAD_CHOICE);
  f = good;
  f.present |= ANALYSIS_HAS_LIMIT_LOW;
  expect(host, &f, ANALYSIS_EMIT_BAD_CHOICE);
  f = good;
  SET(f.kind, "other");
  expect(host, &f, ANALYSIS_EMIT_UNDECLARED);
  f = good;
  SET(f.message, "other");
  expect(host, &f, ANALYSIS_EMIT_UNDECLARED);
  f = good;
  SET(f.unit, "A");
  expect(host, &f, ANALYSIS_EMIT_UNDECLARED);
  f = good;
  SET(f.args_json, "{\"b\":1}");
  expect(host, &f, ANALYSIS_EMIT_UNDECLARED);
  expect(host, &good, ANALYSIS_EMIT_OK);
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-bad-findings", analyze)
