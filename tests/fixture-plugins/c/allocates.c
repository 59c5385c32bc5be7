/* Takes memory without end, as one does who never looks at what malloc returns. */
#include "fixture.h"

#include <stdlib.h>
#include <string.h>

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  volatile int forever = 1;
  UNUSED(input, host);
  while (forever) {
    char *more = malloc(16u << 20);
    memset(more, 1, 4096);
  }
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-allocates", analyze)
