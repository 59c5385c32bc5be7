/* Logs from a thread of its own, which is allowed, then hands over a finding from there, which is not. */
#include "fixture.h"

#include <pthread.h>
#include <stdlib.h>

static void *elsewhere(void *argument) {
  const analysis_host *host = argument;
  static const char line[] = "from another thread";
  const analysis_str text = {line, sizeof(line) - 1};
  const analysis_finding finding = {sizeof(analysis_finding), 0, 0, 0, TEXT("kind"), {NULL, 0}, {NULL, 0},
                                    TEXT("message"), {NULL, 0}, 0, 0, 0, 0, 0, 0, {NULL, 0}, {NULL, 0}};
  host->log(host->ctx, ANALYSIS_LOG_INFO, text);
  if (host->emit(host->ctx, &finding) != ANALYSIS_EMIT_BAD_THREAD) {
    abort();
  }
  return NULL;
}

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  pthread_t thread;
  (void)input;
  if (pthread_create(&thread, NULL, elsewhere, (void *)(uintptr_t)host) != 0) {
    return ANALYSIS_STATUS_REFUSED;
  }
  pthread_join(thread, NULL);
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-wrong-thread", analyze)
