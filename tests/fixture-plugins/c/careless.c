/* Breaks no rule that keeps it from being loaded, but prints, counts its calls and names a role of its own. */
#include "fixture.h"

#include <stdio.h>

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  static double calls = 0;
  analysis_finding f = {sizeof(analysis_finding), ANALYSIS_HAS_VALUE, 0, 0, TEXT("calls"), {NULL, 0},
                        {NULL, 0}, TEXT("calls"), {NULL, 0}, 0, 0, 0, 0, 0, 0, {NULL, 0}, {NULL, 0}};
  (void)input;
  printf("hello");
  calls += 1;
  f.value = calls;
  host->emit(host->ctx, &f);
  return ANALYSIS_STATUS_OK;
}

static const analysis_str uses[] = {TEXT("oil-temperature")};

ANALYZER("fixture-careless", analyze, "calls", "", "calls", NULL, 0, uses, 1)
EXPORT("fixture-careless")
