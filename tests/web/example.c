/* SPDX-License-Identifier: MIT
   How a program in C asks the library: example SITES.json DAY WEATHER... > advice.json
   The weather files are named as the site file's folder and its "file" keys give them. */
#include <soilclock.h>
#include <stdio.h>
#include <stdlib.h>


/* The bytes of a file with a zero behind them; null when it cannot be read. */
static char* whole(const char* path, size_t* size) {
  FILE* file = fopen(path, "rb");
  char* bytes = NULL;
  long length = 0;
  if (!file) return NULL;
  if (fseek(file, 0, SEEK_END) == 0 && (length = ftell(file)) >= 0 && fseek(file, 0, SEEK_SET) == 0)
    bytes = malloc((size_t)length + 1);
  if (bytes) {
    *size = fread(bytes, 1, (size_t)length, file);
    bytes[*size] = '\0';
  }
  fclose(file);
  return bytes;
}

int main(int count, char** words) {
  char options[1000];
  size_t size = 0;
  int code = 2;
  int i;
  if (count < 4) return 2;
  soilclock_session* session = soilclock_open();
  char* sites = whole(words[1], &size);
  if (!session || !sites) return 4;
  for (i = 3; i < count; ++i) {
    char* bytes = whole(words[i], &size);
    if (!bytes) return 4;
    if (soilclock_put_file(session, words[i], bytes, size) != 0) fputs(soilclock_problems(session), stderr);
    free(bytes);
  }
  snprintf(options, sizeof options, "{\"on\": \"%s\", \"sites_file\": \"%s\"}", words[2], words[1]);
  code = soilclock_advice(session, sites, options);
  fwrite(soilclock_result(session), 1, soilclock_result_size(session), stdout);
  fputs(soilclock_problems(session), stderr);
  free(sites);
  soilclock_close(session);
  return code;
}
