/* Works until it is told to stop, then stops. */
#include "fixture.h"

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  (void)input;
  while (!host->is_cancelled(host->ctx)) {
  }
  return ANALYSIS_STATUS_CANCELLED;
}

LIBRARY("fixture-cancels", analyze)
