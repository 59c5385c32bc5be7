/* Ends the process, having found something. */
#include "fixture.h"

#include <stdlib.h>

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  analysis_finding finding = {sizeof(analysis_finding), 0, 0, 0, TEXT("seen"), {NULL, 0}, {NULL, 0},
                              TEXT("seen"), {NULL, 0}, 0, 0, 0, 0, 0, 0, {NULL, 0}, {NULL, 0}};
  (void)input;
  host->emit(host->ctx, &finding);
  exit(0);
}

LIBRARY_OF("fixture-exits", analyze, "seen")
