/* fuzz.h: what a fuzzer is: one function that takes any bytes, and texts to begin from.
 *
 * The same source is run by libFuzzer where the compiler has it, and by driver.c everywhere. Both
 * take -runs=N, -seed=N and -max_total_time=SECONDS, and files to run instead. */
#pragma once

#include <stddef.h>
#include <stdint.h>

/* Returns 0; ends the program where something is wrong. */
int LLVMFuzzerTestOneInput (const uint8_t *data,
                            size_t         size);

/* Well-formed inputs, NULL-terminated. */
extern const char *const fuzz_seeds[];
