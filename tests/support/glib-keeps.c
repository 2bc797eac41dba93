/* glib-keeps.c: for window tests under the sanitizer, what GLib keeps on purpose.
 *
 * Names of types, properties and signals are numbered in one array. Each time it is full, after 2,048 of them, a
 * larger one takes its place and the old one is never freed, as another thread may be reading it (gquark.c of GLib
 * says so). A window comes near that number. No list of names can name the loss: the stack ends in GLib, which has no
 * frame pointers. The array is known by what it holds and is kept in sight of the leak checker. */
#define _GNU_SOURCE
#include <elf.h>
#include <glib.h>
#include <link.h>
#include <string.h>

/* Of the sanitizer, whose header GCC does not install. */
int    __sanitizer_get_ownership      (const void *block);
size_t __sanitizer_get_allocated_size (const void *block);

/* Read by the leak checker alone. */
static const void *volatile kept;

static gboolean
is_names (const void *block)
{
  return __sanitizer_get_ownership (block) && __sanitizer_get_allocated_size (block) >= 2 * sizeof (char *)
         && ((const char *const *) block)[1] == g_quark_to_string (1);
}

/* Looks through what one library may write to. */
static int
look (struct dl_phdr_info *info,
      size_t               size,
      void                *data)
{
  if (strstr (info->dlpi_name, "libglib-2.0") == NULL)
    return 0;
  for (int i = 0; i < info->dlpi_phnum; i++)
    {
      const ElfW (Phdr) *part = &info->dlpi_phdr[i];
      const void *const *words = (const void *const *) (info->dlpi_addr + part->p_vaddr);

      if (part->p_type != PT_LOAD || !(part->p_flags & PF_W))
        continue;
      for (gsize k = 0; k < part->p_memsz / sizeof *words; k++)
        if (words[k] != NULL && is_names (words[k]))
          kept = words[k];
    }
  return 0;
}

__attribute__ ((constructor)) static void
keep (void)
{
  dl_iterate_phdr (look, NULL);
}
