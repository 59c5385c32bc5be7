/* Gives its findings and comes back, and ends the process a little later. */
#include "fixture.h"

#include <pthread.h>
#include <unistd.h>

static void *later(void *argument) {
  usleep(100000);
  _exit(3);
  return argument;
}

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  pthread_t thread;
  UNUSED(input, host);
  return pthread_create(&thread, NULL, later, NULL) == 0 ? ANALYSIS_STATUS_OK : ANALYSIS_STATUS_REFUSED;
}

LIBRARY("fixture-dies-idle", analyze)
