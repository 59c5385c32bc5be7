/* Looks for somebody to talk to. */
#include "fixture.h"

#include <sys/socket.h>
#include <unistd.h>

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  int line = socket(AF_INET, SOCK_STREAM, 0);
  UNUSED(input, host);
  if (line >= 0) {
    close(line);
  }
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-connects", analyze)
