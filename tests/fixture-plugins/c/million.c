/* Hands over a million findings. */
#include "fixture.h"

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  const analysis_finding finding = FINDING("one-of-many", 1);
  uint32_t i;
  (void)input;
  for (i = 0; i < 1000000u; i++) {
    host->emit(host->ctx, &finding);
  }
  return ANALYSIS_STATUS_OK;
}

LIBRARY_OF("fixture-million", analyze, "one-of-many")
