/* fuzz.h: what a fuzzer is: one function that takes any bytes, and texts to begin from.
 *
 * The same source is run by libFuzzer where the compiler has it, and by driver.c everywhere. Both
 * take -runs=N, -seed=N and -max_total_time=SECONDS, and files to run instead. */
#pragma once

#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

/* Returns 0; ends the program where something is wrong. */
int LLVMFuzzerTestOneInput (const uint8_t *data,
                            size_t         size);

/* Well-formed inputs, NULL-terminated. */
extern const char *const fuzz_seeds[];

/* Bytes as the whole of a file: nothing of what stood there before. GLib 2.74 would leave what is longer. */
static inline int
fuzz_write (const char *path,
            const void *bytes,
            size_t      n)
{
  FILE *file = fopen (path, "wb");
  int done = file != NULL && fwrite (bytes, 1, n, file) == n;

  return (file == NULL || fclose (file) == 0) && done;
}
