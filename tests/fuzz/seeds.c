/* Gives libFuzzer the seeds: into the folder that it is told to keep its inputs in. */
#include "fuzz.h"

#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

int LLVMFuzzerInitialize (int    *argc,
                          char ***argv);

static void
write_seed (const char *folder,
            int         number)
{
  char path[4096];
  FILE *file;

  snprintf (path, sizeof path, "%s/seed-%d", folder, number);
  file = fopen (path, "wb");
  if (file == NULL)
    return;
  fwrite (fuzz_seeds[number], 1, strlen (fuzz_seeds[number]), file);
  fclose (file);
}

int
LLVMFuzzerInitialize (int    *argc,
                      char ***argv)
{
  const char *last = (*argv)[*argc - 1];
  struct stat info;

  if (stat (last, &info) == 0 && S_ISDIR (info.st_mode))
    for (int i = 0; fuzz_seeds[i] != NULL; i++)
      write_seed (last, i);
  return 0;
}
