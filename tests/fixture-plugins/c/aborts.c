/* Ends the process with abort, as a failed assertion does. */
#include "fixture.h"

#include <stdlib.h>

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  UNUSED(input, host);
  abort();
}

LIBRARY("fixture-aborts", analyze)
