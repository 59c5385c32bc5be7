/* Hands over findings that break a rule each, says so in its log, and claims that all is well. */
#include "fixture.h"

#include <math.h>
#include <stdio.h>

#define FINDING                                                                                  \
  {sizeof(analysis_finding), ANALYSIS_HAS_VALUE, 0, 0, TEXT("kind"), {NULL, 0}, {NULL, 0},       \
   TEXT("message"), {NULL, 0}, 0, 0, 0, 0, 0, 0, {NULL, 0}, {NULL, 0}}

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  static const analysis_finding good = FINDING;
  static const char not_utf8[] = "\xff\xfe";
  static const char no_object[] = "[1]";
  static const char with_null[] = "{\"a\":null}";
  static const char prose[] = "The shaft turns.";
  int32_t rule[11];
  char line[128];
  int written;
  analysis_finding f = good;
  (void)input;
  f.value = (double)NAN;
  rule[0] = host->emit(host->ctx, &f);
  f = good;
  f.struct_size -= 1;
  rule[1] = host->emit(host->ctx, &f);
  rule[2] = host->emit(host->ctx, NULL);
  f = good;
  f.kind.ptr = not_utf8;
  f.kind.len = sizeof(not_utf8) - 1;
  rule[3] = host->emit(host->ctx, &f);
  f = good;
  f.message.ptr = prose;
  f.message.len = sizeof(prose) - 1;
  rule[4] = host->emit(host->ctx, &f);
  f = good;
  f.args_json.ptr = no_object;
  f.args_json.len = sizeof(no_object) - 1;
  rule[5] = host->emit(host->ctx, &f);
  f.args_json.ptr = with_null;
  f.args_json.len = sizeof(with_null) - 1;
  rule[6] = host->emit(host->ctx, &f);
  f = good;
  f.grade = 3;
  rule[7] = host->emit(host->ctx, &f);
  f = good;
  f.present |= ANALYSIS_HAS_LIMIT_LOW;
  rule[8] = host->emit(host->ctx, &f);
  f = good;
  f.present = ANALYSIS_HAS_START | ANALYSIS_HAS_END;
  f.start_s = 2;
  f.end_s = 1;
  rule[9] = host->emit(host->ctx, &f);
  rule[10] = host->emit(host->ctx, &good);
  written = snprintf(line, sizeof(line), "rules %d %d %d %d %d %d %d %d %d %d %d\n", (int)rule[0],
                     (int)rule[1], (int)rule[2], (int)rule[3], (int)rule[4], (int)rule[5], (int)rule[6],
                     (int)rule[7], (int)rule[8], (int)rule[9], (int)rule[10]);
  {
    analysis_str text = {line, (uint64_t)written};
    host->refuse(host->ctx, text);
  }
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-bad-findings", analyze)
