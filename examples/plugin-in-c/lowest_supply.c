/*
 * An analysis plugin in C: the lowest voltage that a recording shows at the unit's supply, held against a limit
 * that is written into it. Build it, and validate it against the interface:
 *
 *   make            (see the Makefile)
 *   make check
 */
#include "analysis_plugin.h"

#include <math.h>
#include <stddef.h>

#define TEXT(literal) {literal, sizeof(literal) - 1}

/* An illustration, not a figure from anywhere: a real plugin takes its limits from "limits" in
 * settings_json, and names that as their source. */
#define LOWEST_GOOD_V 9.0

/* How many samples to look at between two questions whether the result is still wanted. */
#define SAMPLES_BETWEEN_QUESTIONS 1000000u

/* A sample as it was recorded. */
static double recorded(const analysis_channel *channel, uint64_t i) {
  switch (channel->sample_format) {
    case ANALYSIS_FORMAT_F32:
      return (double)((const float *)channel->samples)[i];
    case ANALYSIS_FORMAT_F64:
      return ((const double *)channel->samples)[i];
    default:
      return (double)((const int16_t *)channel->samples)[i];
  }
}

static double instant(const analysis_channel *channel, uint64_t i) {
  if (channel->times_s != NULL) {
    return channel->times_s[i];
  }
  return channel->start_s + (double)i * channel->step_s;
}

static int is_role(const analysis_channel *channel, const char *role, size_t len) {
  size_t i;
  if (channel->role.len != len) {
    return 0;
  }
  for (i = 0; i < len; i++) {
    if (channel->role.ptr[i] != role[i]) {
      return 0;
    }
  }
  return 1;
}

static int32_t refuse(const analysis_host *host, const char *reason, size_t len) {
  analysis_str text;
  text.ptr = reason;
  text.len = len;
  host->refuse(host->ctx, text);
  return ANALYSIS_STATUS_REFUSED;
}

/* Looks at one channel and hands over its finding. */
static int32_t measure(const analysis_channel *channel, const analysis_host *host) {
  static const char nothing[] = "the supply voltage has no sample that is a number";
  analysis_finding finding = {
      sizeof(analysis_finding), 0, ANALYSIS_GRADE_NORMAL, 0, TEXT("lowest-supply"), TEXT("supply-voltage"),
      TEXT("V"), TEXT("lowest-supply"), {NULL, 0}, 0, 0, 0, 0, LOWEST_GOOD_V, 0, TEXT("V"),
      TEXT("example plugin, an illustration")};
  double lowest = INFINITY;
  double when = 0;
  uint64_t i;
  if (channel->sample_format > ANALYSIS_FORMAT_I16) {
    return ANALYSIS_STATUS_BAD_INPUT;
  }
  for (i = 0; i < channel->length; i++) {
    double volts = recorded(channel, i) * channel->scale + channel->offset;
    /* False for NaN, a missing value; infinities are over-range marks, not measured values. */
    if (isfinite(volts) && volts < lowest) {
      lowest = volts;
      when = instant(channel, i);
    }
    if (i % SAMPLES_BETWEEN_QUESTIONS == 0 && host->is_cancelled(host->ctx)) {
      return ANALYSIS_STATUS_CANCELLED;
    }
  }
  if (!isfinite(lowest)) {
    return refuse(host, nothing, sizeof(nothing) - 1);
  }
  finding.present =
      ANALYSIS_HAS_START | ANALYSIS_HAS_END | ANALYSIS_HAS_VALUE | ANALYSIS_HAS_LIMIT | ANALYSIS_HAS_LIMIT_LOW;
  finding.start_s = when;
  finding.end_s = when;
  finding.value = lowest;
  if (lowest < LOWEST_GOOD_V) {
    finding.grade = ANALYSIS_GRADE_ABNORMAL;
  }
  return host->emit(host->ctx, &finding) == ANALYSIS_EMIT_OK ? ANALYSIS_STATUS_OK : ANALYSIS_STATUS_FAILED;
}

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  static const char role[] = "supply-voltage";
  static const char missing[] = "no channel has the role supply-voltage";
  uint32_t i;
  for (i = 0; i < input->channel_count; i++) {
    if (is_role(input->channels[i], role, sizeof(role) - 1)) {
      return measure(input->channels[i], host);
    }
  }
  return refuse(host, missing, sizeof(missing) - 1);
}

static const analysis_str needs[] = {TEXT("supply-voltage")};

/* What it may hand over: the host refuses everything else. */
static const analysis_kind kind = {sizeof(analysis_kind), 0, TEXT("lowest-supply"), TEXT("V")};
static const analysis_kind *const kinds[] = {&kind};
static const analysis_message message = {sizeof(analysis_message), 0, TEXT("lowest-supply"), NULL};
static const analysis_message *const messages[] = {&message};

static const analysis_analyzer analyzer = {
    .struct_size = sizeof(analysis_analyzer),
    .scope = ANALYSIS_SCOPE_CAPTURE,
    .id = TEXT("lowest-supply"),
    .name = TEXT("Lowest supply voltage"),
    .needs = needs,
    .needs_count = 1,
    .kinds = kinds,
    .kinds_count = 1,
    .messages = messages,
    .messages_count = 1,
    .analyze = analyze};
static const analysis_analyzer *const analyzers[] = {&analyzer};

/* The sentence for the message; the host has no words of its own for it. */
static const analysis_asset english = {
    sizeof(analysis_asset), 0, TEXT("lang/en.ftl"),
    TEXT("lowest-supply = The supply voltage fell to { $value } V.\n")};
static const analysis_asset *const assets[] = {&english};

static const analysis_library library = {
    .struct_size = sizeof(analysis_library),
    .system = TEXT("lowest-supply"),
    .name = TEXT("Lowest supply voltage (example in C)"),
    .version = TEXT("0.1.0"),
    .vendor = TEXT("baybrief examples"),
    .analyzers = analyzers,
    .analyzers_count = 1,
    .assets = assets,
    .assets_count = 1};

const analysis_library *get_analysis_plugin_v2(uint32_t host_minor) {
  (void)host_minor; /* this library calls nothing that came after version 2.0 */
  return &library;
}
