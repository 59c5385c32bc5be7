/*
 * analysis_plugin.h: the interface between baybrief and its analysis plugins, version 1.1.
 *
 * This header is the specification. It is written by hand, is valid C11 and C++17, and needs nothing
 * but <stdint.h>. A plugin is a shared library that exports one function, get_analysis_plugin_v1.
 *
 * Words used below
 *   host           the program that loads the library
 *   [call thread]  may be called only by the thread that called analyze, and only until it returns
 *   [any thread]   may be called by any thread, but only between the start of analyze and its return
 *   [one thread]   is called by one thread at a time, not always the same one
 *   [always]       may be called by any thread at any time, also by several at once
 *   Owner          who allocates and frees a thing. Neither side ever frees what the other made.
 *   Valid until    when a pointer must no longer be followed. What a struct points at has the owner and the
 *                  life of the struct, unless its member says otherwise.
 *
 * Versions
 *   1.0  the first
 *   1.1  analysis_descriptor grew: gives, takes, texts. The extension "tracks/1".
 *
 * Rules that hold everywhere
 *   - Every struct but analysis_str begins with struct_size. Its maker sets it to sizeof of the struct as
 *     it knew it. Later minor versions add members at the end only; a reader must not look beyond
 *     struct_size, and takes a member that is missing, or zero, as the behaviour before it existed.
 *     A struct_size smaller than version 1.0's is refused.
 *   - Structs that may grow travel as arrays of pointers, never as arrays of structs.
 *   - Strings are a pointer and a length in bytes, UTF-8, not ended by NUL. A length of 0 is the empty
 *     string, whatever the pointer. Each side checks what it receives.
 *   - No function of this interface may be left by an exception, a panic or longjmp.
 *   - A plugin reads no file, clock, locale, environment variable or random number and writes nothing to
 *     standard output: the same input and settings give the same findings.
 *   - The host never unloads a library. It may run it in a process of its own and end that process at any
 *     time.
 */
#ifndef ANALYSIS_PLUGIN_H
#define ANALYSIS_PLUGIN_H

#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Major version: part of the exported function's name. Another major version is another interface. */
#define ANALYSIS_PLUGIN_MAJOR 1
/* Minor version that this header describes. */
#define ANALYSIS_PLUGIN_MINOR 1

/* Put before the definition of get_analysis_plugin_v1 so that the library exports it. */
#if defined(_WIN32)
#define ANALYSIS_PLUGIN_EXPORT __declspec(dllexport)
#else
#define ANALYSIS_PLUGIN_EXPORT __attribute__((visibility("default")))
#endif

/* Limits that the host holds a plugin to. */
#define ANALYSIS_MAX_PLUGINS 64u         /* plugins in one library */
#define ANALYSIS_MAX_LIST 64u            /* entries in needs, uses, gives, takes, texts */
#define ANALYSIS_MAX_NAME_BYTES 256u     /* each string of a descriptor; kind, subject, units, message */
#define ANALYSIS_MAX_TEXT_BYTES 65536u   /* args_json, limit_source, a log line, a refusal's reason */
#define ANALYSIS_MAX_FINDINGS 100000u    /* findings of one call */

#define ANALYSIS_MAX_TRACKS 16u          /* tracks that one call hands on */
#define ANALYSIS_MAX_TRACK_VALUES 4000000u /* values of one track */
#define ANALYSIS_MAX_BODY_BYTES 1048576u /* body of an analysis_text */

/* A string: UTF-8, len bytes, no NUL at the end. Owner: that of the struct it is in, or the caller where it is
 * an argument. Valid until: as the struct, or until the call returns. */
typedef struct analysis_str {
  const char *ptr;
  uint64_t len;
} analysis_str;

/* What analyze returns. Anything else counts as ANALYSIS_STATUS_FAILED. */
#define ANALYSIS_STATUS_OK 0        /* the findings count */
#define ANALYSIS_STATUS_REFUSED 1   /* this input cannot be judged; say why with analysis_host.refuse */
#define ANALYSIS_STATUS_PANICKED 2  /* a defect of the plugin, caught by the plugin */
#define ANALYSIS_STATUS_BAD_INPUT 3 /* the host broke a rule of this header; say which with refuse */
#define ANALYSIS_STATUS_CANCELLED 4 /* is_cancelled said so */
#define ANALYSIS_STATUS_FAILED 5    /* any other defect of the plugin */

/* analysis_descriptor.scope */
#define ANALYSIS_SCOPE_CAPTURE 0u /* called once for every recording that meets its needs */
#define ANALYSIS_SCOPE_JOB 1u     /* called once, after all recordings, without channels */

/* analysis_channel.sample_format */
#define ANALYSIS_FORMAT_F32 0u /* float, IEEE 754 binary32, native byte order */
#define ANALYSIS_FORMAT_F64 1u /* double, IEEE 754 binary64, native byte order */
#define ANALYSIS_FORMAT_I16 2u /* int16_t */

/* analysis_finding.present: which of the optional numbers have been set. */
#define ANALYSIS_HAS_START 0x01u
#define ANALYSIS_HAS_END 0x02u
#define ANALYSIS_HAS_VALUE 0x04u
#define ANALYSIS_HAS_UNCERTAINTY 0x08u
#define ANALYSIS_HAS_LIMIT 0x10u      /* limit_unit and limit_source are set */
#define ANALYSIS_HAS_LIMIT_LOW 0x20u  /* only together with ANALYSIS_HAS_LIMIT */
#define ANALYSIS_HAS_LIMIT_HIGH 0x40u /* only together with ANALYSIS_HAS_LIMIT */

/* analysis_finding.grade */
#define ANALYSIS_GRADE_NORMAL 0u   /* as it should be */
#define ANALYSIS_GRADE_ABNORMAL 1u /* beyond its limit by more than its uncertainty */
#define ANALYSIS_GRADE_UNUSABLE 2u /* seen, but no conclusion may rest on it */
#define ANALYSIS_GRADE_UNREADABLE 3u /* a signal is there that could not be read */
#define ANALYSIS_GRADE_NOT_TESTED 4u /* the recording could not have shown it */

/* What emit returns: 0, or the first rule that the finding breaks. */
#define ANALYSIS_EMIT_OK 0
#define ANALYSIS_EMIT_BAD_STRUCT 1   /* NULL, struct_size too small, reserved not 0 */
#define ANALYSIS_EMIT_BAD_TEXT 2     /* not UTF-8, too long, kind or message not a machine name */
#define ANALYSIS_EMIT_BAD_NUMBER 3   /* NaN or infinite, end before start, uncertainty below 0 */
#define ANALYSIS_EMIT_BAD_CHOICE 4   /* unknown grade, unknown or contradictory bit in present */
#define ANALYSIS_EMIT_BAD_ARGS 5     /* args_json is no JSON object of numbers, words, true and false */
#define ANALYSIS_EMIT_TOO_MANY 6     /* more than ANALYSIS_MAX_FINDINGS */
#define ANALYSIS_EMIT_BAD_THREAD 7   /* not the thread that called analyze */

/* severity of a log line */
#define ANALYSIS_LOG_DEBUG 0
#define ANALYSIS_LOG_INFO 1
#define ANALYSIS_LOG_WARNING 2
#define ANALYSIS_LOG_ERROR 3

/*
 * One channel of a recording. Owner: host. Valid until analyze returns. Nothing in it may be written to;
 * the samples may lie in memory that cannot be written.
 */
typedef struct analysis_channel {
  uint32_t struct_size;
  /* ANALYSIS_FORMAT_*: what samples points at. */
  uint32_t sample_format;
  /* What the channel measures: supply-current, supply-voltage, ground-voltage, input-shaft-1,
   * input-shaft-2, output-shaft, engine-speed, actuator-current-1, actuator-current-2,
   * gear-motor-current-1, gear-motor-current-2, selector, other. More may come. */
  analysis_str role;
  /* The channel's name in the file; text from outside. */
  analysis_str name;
  /* Unit of the calibrated values: A, V; empty when not known. */
  analysis_str unit;
  /* length samples as they were recorded, aligned for their type; may be NULL when length is 0.
   * In floats NaN is a missing value and an infinity is an over-range mark. */
  const void *samples;
  uint64_t length;
  /* calibrated value = recorded sample * scale + offset */
  double scale;
  double offset;
  /* When times_s is NULL, sample i was taken at start_s + i * step_s, with step_s greater than 0. */
  double start_s;
  double step_s;
  /* Otherwise length instants, s, never decreasing. */
  const double *times_s;
} analysis_channel;

/* What one call looks at. Owner: host. Valid until analyze returns. */
typedef struct analysis_input {
  uint32_t struct_size;
  /* Entries of channels; 0 for ANALYSIS_SCOPE_JOB. */
  uint32_t channel_count;
  /* The recording's file name, without folders; empty for ANALYSIS_SCOPE_JOB. */
  analysis_str file;
  /* What is known besides the samples, as one JSON object. Unknown keys must be ignored, missing ones
   * mean "not known". Its "channels" array is in the order of channels below. */
  analysis_str settings_json;
  /* channel_count pointers, none NULL. */
  const analysis_channel *const *channels;
} analysis_input;

/*
 * One observation. Owner: plugin. Valid until emit returns: the host copies it, so it may lie on the
 * stack and be used again. Set all of it to zero before filling it in.
 */
typedef struct analysis_finding {
  uint32_t struct_size;
  /* ANALYSIS_HAS_* bits. A number whose bit is not set is not read. */
  uint32_t present;
  /* ANALYSIS_GRADE_* */
  uint32_t grade;
  /* Must be 0. */
  uint32_t reserved;
  /* What kind of observation it is, a machine name (a-z, 0-9, hyphen): actuation, shaft-turning. */
  analysis_str kind;
  /* What was observed, a role's name for the most part; empty for the whole recording. */
  analysis_str subject;
  /* Unit of value and uncertainty; empty for none. */
  analysis_str unit;
  /* Which sentence says it: a key of the host's language files, a machine name. Never prose. */
  analysis_str message;
  /* The sentence's arguments: one JSON object whose values are numbers, short words, true or false;
   * empty for none. The numbers duration_s and charge_as become fields of the finding. */
  analysis_str args_json;
  /* Time span in seconds of the recording's own time. */
  double start_s;
  double end_s;
  /* Measured value and its standard uncertainty (k = 1). */
  double value;
  double uncertainty;
  /* What the value is held against: lowest and highest good value. */
  double limit_low;
  double limit_high;
  analysis_str limit_unit;
  /* Where the limit comes from, for the record. */
  analysis_str limit_source;
} analysis_finding;

/*
 * Extension "tracks/1", since 1.1: series over time that one plugin derives and later ones use, so that a
 * shaft's speed is computed once. A host that knows it returns an analysis_tracks from get_extension.
 */
#define ANALYSIS_EXTENSION_TRACKS "tracks/1"

/* One track on an even grid of time. Owner: plugin where it is put, host where it is found. Valid until put
 * returns, or until analyze returns. */
typedef struct analysis_track {
  uint32_t struct_size;
  /* Must be 0. */
  uint32_t reserved;
  /* Machine name, one that the plugin's descriptor lists in gives: input-shaft-1-rpm. */
  analysis_str name;
  /* Unit of the values: rpm. */
  analysis_str unit;
  /* Value i belongs to start_s + i * step_s, s of the recording's own time; step_s is greater than 0. */
  double start_s;
  double step_s;
  /* length values; NaN where there is none. May be NULL when length is 0. */
  const double *values;
  uint64_t length;
} analysis_track;

/* The functions of "tracks/1"; ctx is that of analysis_host. Owner: host. Valid until analyze returns. */
typedef struct analysis_tracks {
  uint32_t struct_size;
  uint32_t reserved;

  /* [call thread] Hands a track on to the plugins that run later on this recording and list its name in
   * takes. track is copied before the call returns. Returns ANALYSIS_EMIT_*: BAD_CHOICE for a name that gives
   * does not list, TOO_MANY beyond the limits. As with emit, a track that is refused spoils the call, and
   * tracks are handed on only once analyze returned ANALYSIS_STATUS_OK. */
  int32_t (*put)(void *ctx, const analysis_track *track);

  /* [call thread] The track of that name that an earlier plugin handed on, or NULL: it is not in takes, its
   * giver is not installed, did not run or failed. A plugin must then do without, or derive it itself. The
   * result's owner: host. Valid until analyze returns. */
  const analysis_track *(*find)(void *ctx, analysis_str name);
} analysis_tracks;

/*
 * What the host offers during one call. Owner: host. Valid until analyze returns. ctx is passed back
 * as the first argument of every function. No function pointer of version 1.0 is NULL.
 */
typedef struct analysis_host {
  uint32_t struct_size;
  /* The host's minor version: members that came with a later one are not there. */
  uint32_t minor;
  void *ctx;

  /* [call thread] Hands over one finding. Returns ANALYSIS_EMIT_OK once it is copied, or which rule it
   * breaks. A finding that is refused spoils the call: none of its findings will count, even if analyze
   * returns ANALYSIS_STATUS_OK, because a lost observation must not look like a clean bill. */
  int32_t (*emit)(void *ctx, const analysis_finding *finding);

  /* [call thread] Says in one English sentence why analyze is about to return something other than OK.
   * The last one said counts. reason is copied before the call returns. */
  void (*refuse)(void *ctx, analysis_str reason);

  /* [any thread] A line for the log, copied before the call returns. severity is ANALYSIS_LOG_*. */
  void (*log)(void *ctx, int32_t severity, analysis_str text);

  /* [call thread] How much of the call is done, 0 to 1. Calls that come too often are dropped. */
  void (*progress)(void *ctx, double fraction);

  /* [any thread] Not 0 once the call's result is no longer wanted. Ask at least every 50 ms, then return
   * ANALYSIS_STATUS_CANCELLED. A call that runs on is ended together with its process. */
  int32_t (*is_cancelled)(void *ctx);

  /* [call thread] A table of further functions by name and revision ("name/1"), or NULL when the host has
   * none of that name and revision. Another revision is another table; one that works with several asks for
   * the newest first. The result's owner: host. Valid until analyze returns. Known: ANALYSIS_EXTENSION_TRACKS
   * since 1.1. */
  const void *(*get_extension)(void *ctx, analysis_str name);
} analysis_host;

/*
 * A text that a plugin brings along, since 1.1, so that a new fault needs no change in the host. Owner: plugin.
 * Valid until the process ends.
 */
typedef struct analysis_text {
  uint32_t struct_size;
  /* Must be 0. */
  uint32_t reserved;
  /* What it is: "spec.toml" (numbers that a unit should keep), "causes.toml" (what explains what), or
   * "lang/TAG.ftl" (sentences of a language, TAG as in BCP 47: lang/en.ftl). Others are ignored. */
  analysis_str name;
  /* Its content, at most ANALYSIS_MAX_BODY_BYTES. The host checks it, and never lets it replace what the host
   * or another plugin has under the same name. */
  analysis_str body;
} analysis_text;

/*
 * What a plugin says of itself. Owner: plugin. Constant, the same at every call. Valid until the process ends.
 */
typedef struct analysis_descriptor {
  uint32_t struct_size;
  /* ANALYSIS_SCOPE_* */
  uint32_t scope;
  /* Machine name (a-z, 0-9, hyphen, beginning with a letter), unique and never changed. */
  analysis_str id;
  /* Name for people. May change. */
  analysis_str name;
  /* Version of the plugin: major.minor.patch. */
  analysis_str version;
  /* Who made it. */
  analysis_str vendor;
  /* Requirements, all of which must be met before analyze is called. Each is a role, or several with |
   * between them of which one will do. needs may be NULL when needs_count is 0. */
  const analysis_str *needs;
  /* Further roles that it can use. uses may be NULL when uses_count is 0. */
  const analysis_str *uses;
  uint32_t needs_count;
  uint32_t uses_count;

  /* [one thread] Looks at one input and hands over its findings through host->emit. Returns ANALYSIS_STATUS_*.
   * Must keep no state between calls and no pointer after it returned, and must have ended every thread it
   * started. The owner of both arguments is the host. Valid until analyze returns. */
  int32_t (*analyze)(const analysis_input *input, const analysis_host *host);

  /* Since 1.1. Names of the tracks that it hands on with "tracks/1", and of those that it can use: a plugin
   * runs after those that give what it takes. NULL when the count is 0. */
  const analysis_str *gives;
  const analysis_str *takes;
  uint32_t gives_count;
  uint32_t takes_count;
  /* Since 1.1. texts_count pointers, none NULL, to texts that it brings along. NULL when texts_count is 0. */
  const analysis_text *const *texts;
  uint32_t texts_count;
  /* Must be 0. */
  uint32_t reserved;
} analysis_descriptor;

/*
 * [always] The one function that a library exports: the plugin of that index, from 0, or NULL when there is
 * none. host_minor is the host's minor version. Called any number of times, and must do no work beyond returning
 * the pointer: hosts call it for every library they come across. The result's owner: plugin. Valid until the
 * process ends.
 */
ANALYSIS_PLUGIN_EXPORT const analysis_descriptor *get_analysis_plugin_v1(uint32_t host_minor,
                                                                         uint32_t index);

#ifdef __cplusplus
}
#endif

#endif /* ANALYSIS_PLUGIN_H */
