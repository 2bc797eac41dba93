#include "cro-own-file.h"

#include <glib/gstdio.h>
#include <sys/stat.h>

CroOwnFile
cro_own_file_note (const char *path)
{
  struct stat there;

  if (lstat (path, &there) != 0)
    return (CroOwnFile){ 0, 0 };
  return (CroOwnFile){ there.st_dev, there.st_ino };
}

gboolean
cro_own_file_remove (const CroOwnFile *self,
                     const char       *path)
{
  static const char *const logs[] = { "-wal", "-shm" };
  CroOwnFile now = cro_own_file_note (path);

  if (self->inode == 0 || now.device != self->device || now.inode != self->inode)
    return FALSE;
  for (gsize i = 0; i < G_N_ELEMENTS (logs); i++)
    {
      g_autofree char *log = g_strconcat (path, logs[i], NULL);

      g_unlink (log);
    }
  return g_unlink (path) == 0;
}
