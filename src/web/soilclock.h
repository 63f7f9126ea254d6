/* SPDX-License-Identifier: MIT
   soilclock for programs in other languages: texts in, texts out, nothing read, fetched or stored. The same functions
   make up the WebAssembly module and the native library.

   Files are put into a session under the names that a site file calls them by; questions are then asked of the session.
   Every function that asks returns the exit code the command line would (0 answered, 1 in part, 2 a wrong request,
   3 wrong data, 4 no answer of a service, 70 a mistake of the program) and leaves two texts: the result, and the
   problems as lines for people. Texts are UTF-8, end with a zero byte and stay until the next question of the same
   session. A session is used by one thread at a time. */
#ifndef SOILCLOCK_H
#define SOILCLOCK_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

typedef struct soilclock_session soilclock_session;

/* A new session without files; null when there is no memory for it. */
soilclock_session* soilclock_open(void);
void soilclock_close(soilclock_session* session);

/* Puts a file's bytes under a name, in place of what had that name. The bytes are copied. Returns 0, or 2 for a file
   larger than soilclock_limits says, which is not kept. */
int soilclock_put_file(soilclock_session* session, const char* name, const char* bytes, size_t size);
/* Puts what a service answered to soilclock_weather_request under a name, to be read as any file. `status` is that of
   HTTP; 0 where no answer came. What is no answer is not kept: returns 4, with the reason and what to do as the problem. */
int soilclock_put_answer(soilclock_session* session, const char* name, int status, const char* bytes, size_t size);
void soilclock_drop_files(soilclock_session* session);

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
     "cases"         of soilclock_cases only: as many of these as soilclock_limits says, one at least */

/* The "soilclock-advice" document, byte for byte that of `soilclock advise --format json`. */
int soilclock_advice(soilclock_session* session, const char* sites, const char* options);
/* The body of a course page: the first site that is wanted. */
int soilclock_course(soilclock_session* session, const char* sites, const char* options);
/* The body of the page of all courses; a course's link is "#" and its id as a URL part. */
int soilclock_courses(soilclock_session* session, const char* sites, const char* options);
/* What a change of the first site that is wanted changes in the answer, as part of a page. */
int soilclock_what_if(soilclock_session* session, const char* sites, const char* options);
/* Cases of the first site that is wanted, side by side with the answer as it is, as part of a page. */
int soilclock_cases(soilclock_session* session, const char* sites, const char* options);
/* Past seasons, rules of thumb and what-ifs of the first site that is wanted side by side: the body of a handout for
   each grass. */
int soilclock_comparison(soilclock_session* session, const char* sites, const char* options);

/* How one of the files was read: the "soilclock-inspection" document, or text for people. Options: "file", and where
   needed "columns", "dates", "units_in", "station", "time_zone", "swap_reversed", "shift_morning", "units" as those of
   `soilclock inspect`; "format": "json" or "text". */
int soilclock_inspect(soilclock_session* session, const char* options);

/* What to ask of the one open weather service that a page may ask, for the past years of a place; nothing is sent.
   Options: "latitude", "longitude" in degrees, "on" today's date in UTC, all needed. A JSON object: "service" its name,
   "host" its address up to the path, "url" the whole address to GET, with no more decimals of the place than the service
   needs, "file" a name for the answer, "terms" to be known before use, "credit" the line to show wherever its weather
   is used. */
int soilclock_weather_request(soilclock_session* session, const char* options);

const char* soilclock_result(const soilclock_session* session);
size_t soilclock_result_size(const soilclock_session* session);
const char* soilclock_problems(const soilclock_session* session);

/* A JSON object: "largest_file_bytes", and "most_cases" of soilclock_cases. */
const char* soilclock_limits(void);

/* The version of the program, and of the time-zone table in it. */
const char* soilclock_version(void);

#ifdef __cplusplus
}
#endif

#endif
