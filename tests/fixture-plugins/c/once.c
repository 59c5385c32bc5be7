/* Ends its process at the second call that the process is asked for, and does well at the first. */
#include "fixture.h"

#include <unistd.h>

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  static int calls = 0;
  const analysis_finding finding = FINDING("seen", 1);
  (void)input;
  calls += 1;
  if (calls == 2) {
    _exit(3);
  }
  return host->emit(host->ctx, &finding) == ANALYSIS_EMIT_OK ? ANALYSIS_STATUS_OK : ANALYSIS_STATUS_FAILED;
}

LIBRARY_OF("fixture-once", analyze, "seen")
