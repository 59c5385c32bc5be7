/* Hands over a measured value that is no number. */
#include "fixture.h"

#include <math.h>

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  const analysis_finding finding = FINDING("value", (double)NAN);
  (void)input;
  host->emit(host->ctx, &finding);
  return ANALYSIS_STATUS_OK;
}

LIBRARY_OF("fixture-nan", analyze, "value")
