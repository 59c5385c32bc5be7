/* Reads a file of the system. */
#include "fixture.h"

#include <fcntl.h>
#include <unistd.h>

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  int file = open("/etc/passwd", O_RDONLY);
  UNUSED(input, host);
  if (file >= 0) {
    close(file);
  }
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-opens", analyze)
