/* Made for a later minor version, with more in its descriptor and its finding: must work. */
#include "fixture.h"

typedef struct later_descriptor {
  analysis_descriptor known;
  uint64_t later[4];
} later_descriptor;

typedef struct later_finding {
  analysis_finding known;
  double later[4];
} later_finding;

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  static const analysis_str unknown[] = {TEXT("no-such-extension/1"), TEXT("tracks/2"), TEXT("tracks"), TEXT("")};
  static const analysis_str known = TEXT(ANALYSIS_EXTENSION_TRACKS);
  const analysis_tracks *tracks;
  size_t i;
  later_finding finding = {
      {sizeof(later_finding), ANALYSIS_HAS_VALUE, ANALYSIS_GRADE_NORMAL, 0, TEXT("later"), {NULL, 0},
       TEXT("count"), TEXT("later"), TEXT("{\"word\":\"yes\"}"), 0, 0, 0, 0, 0, 0, {NULL, 0}, {NULL, 0}},
      {1, 2, 3, 4}};
  if (host->struct_size < sizeof(analysis_host) || input->struct_size < sizeof(analysis_input)) {
    return ANALYSIS_STATUS_BAD_INPUT;
  }
  for (i = 0; i < sizeof(unknown) / sizeof(unknown[0]); i++) {
    if (host->get_extension(host->ctx, unknown[i]) != NULL) {
      return ANALYSIS_STATUS_BAD_INPUT;
    }
  }
  tracks = host->get_extension(host->ctx, known);
  if (tracks == NULL || tracks->struct_size < sizeof(analysis_tracks) ||
      tracks->find(host->ctx, unknown[0]) != NULL) {
    return ANALYSIS_STATUS_BAD_INPUT;
  }
  finding.known.value = (double)input->channel_count;
  return host->emit(host->ctx, &finding.known) == ANALYSIS_EMIT_OK ? ANALYSIS_STATUS_OK
                                                                   : ANALYSIS_STATUS_FAILED;
}

static const later_descriptor later = {
    {sizeof(later_descriptor), ANALYSIS_SCOPE_CAPTURE, TEXT("fixture-larger"), TEXT("Fixture"),
     TEXT("1.0.0"), TEXT("baybrief tests"), NULL, NULL, 0, 0, analyze, NO_MORE},
    {1, 2, 3, 4}};

const analysis_descriptor *get_analysis_plugin_v1(uint32_t host_minor, uint32_t index) {
  (void)host_minor;
  return index == 0 ? &later.known : NULL;
}
