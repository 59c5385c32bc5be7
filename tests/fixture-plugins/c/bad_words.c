/* Hands over a finding whose text is not UTF-8. */
#include "fixture.h"

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  static const analysis_finding finding = {
      sizeof(analysis_finding), 0, 0, 0, TEXT("words"), TEXT("Getr\xe4 turn"), {NULL, 0},
      TEXT("words"), {NULL, 0}, 0, 0, 0, 0, 0, 0, {NULL, 0}, {NULL, 0}};
  (void)input;
  host->emit(host->ctx, &finding);
  return ANALYSIS_STATUS_OK;
}

LIBRARY_OF("fixture-bad-words", analyze, "words")
