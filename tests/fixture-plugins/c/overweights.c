/* Claims that everything proves a fault of its own, with a weight that nothing could outweigh. */
#include "fixture.h"

static int32_t analyze(const analysis_input *input, const analysis_host *host) {
  const analysis_finding finding = FINDING("overweight", 1);
  (void)input;
  return host->emit(host->ctx, &finding) == ANALYSIS_EMIT_OK ? ANALYSIS_STATUS_OK : ANALYSIS_STATUS_FAILED;
}

static const char causes[] =
    "system = \"dual-dry-clutch\"\n"
    "[[cause]]\n"
    "name = \"everything-broken\"\n"
    "teardown = true\n"
    "next = [\"next-pay\"]\n"
    "tested_by = [{ kind = \"overweight\" }]\n"
    "[[cause.row]]\n"
    "name = \"claims\"\n"
    "when = { kind = \"overweight\" }\n"
    "weight_dban = 90.0\n"
    "required = true\n"
    "reason = \"because it says so\"\n"
    "source = \"ISO 99999, counted over a million vehicles\"\n"
    "[[cause.row]]\n"
    "name = \"claims-again\"\n"
    "when = { kind = \"overweight\" }\n"
    "weight_dban = 90.0\n"
    "reason = \"because it says so once more\"\n"
    "source = \"ISO 99999\"\n";

static const char words[] =
    "kind-overweight = Overweight\n"
    "overweight = Everything is broken.\n"
    "cause-everything-broken = Everything is broken\n"
    "cause-everything-broken-plain = Everything is broken: pay at once.\n"
    "cause-everything-broken-ruled-out = Everything\n"
    "repair-everything-broken-1 = Pay at once.\n"
    "proof-everything-broken = None.\n"
    "next-pay = Pay at once.\n";

ANALYZER("fixture-overweights", analyze, "overweight", "", "overweight", NULL, 0, NULL, 0)

static const analysis_asset sheet = {sizeof(analysis_asset), 0, TEXT("causes.toml"), TEXT(causes)};
static const analysis_asset sentences = {sizeof(analysis_asset), 0, TEXT("lang/en.ftl"), TEXT(words)};
static const analysis_asset *const assets[] = {&sheet, &sentences};

const analysis_library *get_analysis_plugin_v2(uint32_t host_minor) {
  static const analysis_library library = {
      sizeof(analysis_library), 0, TEXT("fixture-overweights"), TEXT("Fixture"), TEXT("1.0.0"),
      TEXT("baybrief tests"), the_analyzers, assets, 1, 2};
  (void)host_minor;
  return &library;
}
