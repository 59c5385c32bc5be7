/* Hands on a track that its descriptor does not list. */
#include "fixture.h"

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  static const analysis_str name = TEXT(ANALYSIS_EXTENSION_TRACKS);
  static const double values[] = {1, 2};
  const analysis_track track = {sizeof(analysis_track), 0, TEXT("secret-rpm"), TEXT("rpm"), 0, 0.02, values, 2};
  const analysis_tracks *tracks = host->get_extension(host->ctx, name);
  (void)input;
  if (tracks == NULL || tracks->put(host->ctx, &track) != ANALYSIS_EMIT_BAD_CHOICE) {
    return ANALYSIS_STATUS_BAD_INPUT;
  }
  return ANALYSIS_STATUS_OK;
}

LIBRARY("fixture-unlisted-track", analyze)
