/* SPDX-License-Identifier: MIT
   soilclock for programs in other languages: texts in, texts out, nothing read, fetched or stored. The same functions
   make up the WebAssembly module and the native library.

   Files are put into a desk under the names that a site file calls them by; questions are then asked of the desk. Every
   function that asks returns the exit code the command line would (0 answered, 1 in part, 2 a wrong request, 3 wrong
   data, 70 a mistake of the program) and leaves two texts: the result, and the problems as lines for people. Texts
   are UTF-8, end with a zero byte and stay until the next question of the same desk. A desk is used by one thread at a time. */
#ifndef SOILCLOCK_H
#define SOILCLOCK_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct soilclock_desk soilclock_desk;

/* A new desk without files; null when there is no memory for it. */
soilclock_desk* soilclock_open(void);
void soilclock_close(soilclock_desk* desk);

/* Puts a file's bytes under a name, in place of what had that name. The bytes are copied. Returns 0, or 2 for a file
   larger than 50 MB, which is not kept. */
int soilclock_put_file(soilclock_desk* desk, const char* name, const char* bytes, size_t size);
void soilclock_drop_files(soilclock_desk* desk);

/* `sites` is a site file as the command line reads it; weather comes from the files put before, not from services.
   `options` is a JSON object:
     "on"            the day the answer is for, "YYYY-MM-DD"; always needed
     "sites_file"    the name of the site file, for messages; files are found relative to its folder
     "only"          ids of the sites wanted; left out: all
     "targets", "plan", "units"   as --target, --plan and --units
     "past_seasons"  true: with the seasons of the record that are over
     "what_if"       of soilclock_what_if only: {"soil_c": degrees warmer, "irrigated": true or false, "plan": words,
                      "dry_ahead", "frost_ahead", "missing_week": true, "record_years": years of the record that are
                      known, "weeks_later": 0 to 3, "target": code}
     "cases"         of soilclock_cases only: one to three of these */

/* The "soilclock-advice" document, byte for byte that of `soilclock advise --format json`. */
int soilclock_advice(soilclock_desk* desk, const char* sites, const char* options);
/* The body of a course page: the first site that is wanted. */
int soilclock_course(soilclock_desk* desk, const char* sites, const char* options);
/* The body of the page of all courses; a course's link is "#" and its id as a URL part. */
int soilclock_courses(soilclock_desk* desk, const char* sites, const char* options);
/* What a change of the first site that is wanted changes in the answer, as part of a page. */
int soilclock_what_if(soilclock_desk* desk, const char* sites, const char* options);
/* Cases of the first site that is wanted, side by side with the answer as it is, as part of a page. */
int soilclock_cases(soilclock_desk* desk, const char* sites, const char* options);
/* Past seasons, rules of thumb and what-ifs of the first site that is wanted side by side: the body of a handout for
   each grass. */
int soilclock_comparison(soilclock_desk* desk, const char* sites, const char* options);

/* How one of the files was read: the "soilclock-inspection" document, or text for people. Options: "file", and where
   needed "columns", "dates", "units_in", "station", "time_zone", "swap_reversed", "shift_morning", "units" as those of
   `soilclock inspect`; "format": "json" or "text". */
int soilclock_inspect(soilclock_desk* desk, const char* options);

const char* soilclock_result(const soilclock_desk* desk);
size_t soilclock_result_size(const soilclock_desk* desk);
const char* soilclock_problems(const soilclock_desk* desk);

/* The version of the program, and of the time-zone table in it. */
const char* soilclock_version(void);

#ifdef __cplusplus
}
#endif

#endif
