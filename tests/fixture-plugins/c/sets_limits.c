/* Sets one of its limits to what it is already. */
#include "fixture.h"

#include <sys/resource.h>

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  struct rlimit limit;
  UNUSED(input, host);
  if (getrlimit(RLIMIT_STACK, &limit) == 0) {
    (void)setrlimit(RLIMIT_STACK, &limit);
  }
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-sets-limits", analyze)
