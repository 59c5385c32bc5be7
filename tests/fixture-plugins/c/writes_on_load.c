/* Makes a file while it is loaded. */
#include "fixture.h"

#include <fcntl.h>
#include <unistd.h>

__attribute__((constructor)) static void on_load(void) {
  static const char name[] = "/tmp/baybrief-fixture-wrote-on-load";
  int file = open(name, O_WRONLY | O_CREAT, 0600);
  if (file >= 0) {
    close(file);
    unlink(name);
  }
}

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  UNUSED(input, host);
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-writes-on-load", analyze)
