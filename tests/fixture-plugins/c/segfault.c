/* Follows a pointer to nowhere. */
#include "fixture.h"

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  volatile int *volatile nowhere = NULL;
  UNUSED(input, host);
  *nowhere = 1;
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-segfault", analyze)
