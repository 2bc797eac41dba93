/* Runs a fuzzer without libFuzzer: seeds are changed at random, and each run can be had again by
 * its number, which is said when the program ends in the middle of it. */
#include "fuzz.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#define MOST_BYTES 4096
#define MOST_CHANGES 8

static unsigned long long run;
static uint64_t state;

/* xorshift64*, Vigna 2016. */
static uint32_t
random_below (uint32_t n)
{
  state ^= state >> 12;
  state ^= state << 25;
  state ^= state >> 27;
  return (uint32_t) ((state * UINT64_C (2685821657736338717)) >> 32) % n;
}

/* --- Inputs ----------------------------------------------------------------------------------- */

typedef struct
{
  uint8_t bytes[MOST_BYTES];
  size_t  size;
} Input;

static const char *
any_seed (void)
{
  uint32_t n = 0;

  while (fuzz_seeds[n] != NULL)
    n++;
  return fuzz_seeds[random_below (n)];
}

static void
insert (Input      *input,
        size_t      at,
        const char *bytes,
        size_t      n)
{
  if (input->size + n > MOST_BYTES)
    return;
  memmove (input->bytes + at + n, input->bytes + at, input->size - at);
  memcpy (input->bytes + at, bytes, n);
  input->size += n;
}

static void
remove_at (Input  *input,
           size_t  at,
           size_t  n)
{
  memmove (input->bytes + at, input->bytes + at + n, input->size - at - n);
  input->size -= n;
}

/* Signs that mean something somewhere, and some that should not. */
static void
insert_sign (Input  *input,
             size_t  at)
{
  static const char *const signs[] = {
    " ", "-", "- ", "•", "*", "/", ",", ".", "½", "×", "(", ")", "%", "€", "kg", "0", "1.000", "\n",
    "\t", "\"", ",,", "\302\240", "\342\200\256", "\357\277\276", "\357\273\277", "e9", "\\", "=",
    "999999999999999999999", "cup", "bunch", "\r\n", "'", ";", "%s", "%n",
  };
  const char *sign = signs[random_below (sizeof signs / sizeof *signs)];

  insert (input, at, sign, strlen (sign));
}

static void
change (Input *input)
{
  size_t at = random_below ((uint32_t) input->size + 1);
  size_t left = input->size - at;
  const char *other = any_seed ();
  size_t from = random_below ((uint32_t) strlen (other) + 1);
  char byte = (char) random_below (256);

  switch (random_below (7))
    {
    case 0:
      insert_sign (input, at);
      break;
    case 1:
      insert (input, at, &byte, 1);
      break;
    case 2:
      if (left > 0)
        remove_at (input, at, 1 + random_below ((uint32_t) (left < 8 ? left : 8)));
      break;
    case 3:
      if (left > 0)
        input->bytes[at] = (uint8_t) byte;
      break;
    case 4:
      insert (input, at, other + from, random_below ((uint32_t) (strlen (other) - from) + 1));
      break;
    case 5:
      if (left > 0)
        input->bytes[at] ^= (uint8_t) (1 << random_below (8));
      break;
    default:
      input->size = at;
    }
}

static void
make_input (Input    *input,
            uint64_t  seed)
{
  const char *begin;
  uint32_t n;

  /* A run hangs on nothing but its number. */
  state = (seed + 1) * UINT64_C (0x9E3779B97F4A7C15);
  random_below (1);
  begin = any_seed ();
  input->size = 0;
  insert (input, 0, begin, strlen (begin));
  for (n = random_below (MOST_CHANGES + 1); n > 0; n--)
    change (input);
}

/* --- Ends ------------------------------------------------------------------------------------------- */

static void
say_run (void)
{
  char text[96];
  int n = snprintf (text, sizeof text, "\nfuzz: it ended in -seed=%llu -runs=1\n", run);

  if (write (STDERR_FILENO, text, (size_t) n) < 0)
    return;
}

static void
ended_cb (int number)
{
  say_run ();
  signal (number, SIG_DFL);
  raise (number);
}

/* Called by the address sanitizer, where it is there. */
void __asan_on_error (void);

void
__asan_on_error (void)
{
  say_run ();
}

static int
run_file (const char *path)
{
  static Input input;
  FILE *file = fopen (path, "rb");

  if (file == NULL)
    return 1;
  input.size = fread (input.bytes, 1, sizeof input.bytes, file);
  fclose (file);
  LLVMFuzzerTestOneInput (input.bytes, input.size);
  return 0;
}

/* Where libFuzzer keeps what it found; seeds are enough here. */
static int
is_folder (const char *path)
{
  struct stat info;

  return stat (path, &info) == 0 && S_ISDIR (info.st_mode);
}

int
main (int    argc,
      char **argv)
{
  static Input input;
  unsigned long long runs = 0, seed = 1, seconds = 0, n_files = 0;
  time_t begin = time (NULL);

  signal (SIGABRT, ended_cb);
  signal (SIGSEGV, ended_cb);
  signal (SIGTRAP, ended_cb);
  signal (SIGALRM, ended_cb);
  for (int i = 1; i < argc; i++)
    if (sscanf (argv[i], "-runs=%llu", &runs) == 1 || sscanf (argv[i], "-seed=%llu", &seed) == 1
        || sscanf (argv[i], "-max_total_time=%llu", &seconds) == 1
        || strncmp (argv[i], "-timeout=", 9) == 0 || is_folder (argv[i]))
      continue;
    else if (argv[i][0] == '-' || run_file (argv[i]) != 0)
      {
        fprintf (stderr, "%s [-runs=N] [-seed=N] [-max_total_time=SECONDS] [FILE]...\n", argv[0]);
        return 2;
      }
    else
      n_files++;
  if (n_files > 0)
    return 0;
  for (run = seed; (runs == 0 || run - seed < runs)
                   && (seconds == 0 || (unsigned long long) (time (NULL) - begin) < seconds);
       run++)
    {
      make_input (&input, run);
      /* What hangs is a fault, too. */
      alarm (60);
      LLVMFuzzerTestOneInput (input.bytes, input.size);
    }
  printf ("%llu runs\n", run - seed);
  return 0;
}
