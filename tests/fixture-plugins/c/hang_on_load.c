/* Never finishes loading: must be refused once its time is over. */
#include "fixture.h"

__attribute__((constructor)) static void on_load(void) {
  volatile int forever = 1;
  while (forever) {
  }
}

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  UNUSED(input, host);
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-hang-on-load", analyze)
