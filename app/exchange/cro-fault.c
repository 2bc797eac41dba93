#include "cro-fault.h"

#include <string.h>

typedef struct
{
  CroFault fault;
  guint    order;
} Entry;

struct _CroFaults
{
  GPtrArray *entries;
  gboolean   is_sorted;
};

static void
entry_free (gpointer data)
{
  Entry *entry = data;

  if (entry == NULL)
    return;
  g_free (entry->fault.file);
  g_free (entry->fault.column);
  g_free (entry->fault.value);
  g_free (entry->fault.detail);
  g_free (entry);
}

static int
compare_entries (gconstpointer a,
                 gconstpointer b)
{
  const Entry *one = *(Entry *const *) a;
  const Entry *other = *(Entry *const *) b;
  int by_file = strcmp (one->fault.file, other->fault.file);

  if (by_file != 0)
    return by_file;
  if (one->fault.line != other->fault.line)
    return one->fault.line < other->fault.line ? -1 : 1;
  return one->order < other->order ? -1 : one->order > other->order;
}

CroFaults *
cro_faults_new (void)
{
  CroFaults *faults = g_new0 (CroFaults, 1);

  faults->entries = g_ptr_array_new_with_free_func (entry_free);
  return faults;
}

void
cro_faults_free (CroFaults *faults)
{
  g_ptr_array_unref (faults->entries);
  g_free (faults);
}

void
cro_faults_add (CroFaults    *faults,
                const char   *file,
                guint         line,
                const char   *column,
                CroFaultKind  kind,
                const char   *value,
                const char   *detail)
{
  Entry *entry;

  g_return_if_fail (file != NULL);

  entry = g_new0 (Entry, 1);
  entry->fault.file = g_strdup (file);
  entry->fault.line = line;
  entry->fault.column = g_strdup (column);
  entry->fault.kind = kind;
  entry->fault.value = g_strdup (value);
  entry->fault.detail = g_strdup (detail);
  entry->order = faults->entries->len;
  g_ptr_array_add (faults->entries, entry);
  faults->is_sorted = FALSE;
}

guint
cro_faults_get_n (CroFaults *faults)
{
  return faults->entries->len;
}

gboolean
cro_faults_lack_table (CroFaults *faults)
{
  for (guint i = 0; i < faults->entries->len; i++)
    switch (((const Entry *) g_ptr_array_index (faults->entries, i))->fault.kind)
      {
      case CRO_FAULT_NOT_A_FILE:
      case CRO_FAULT_NOT_COMMAS:
      case CRO_FAULT_UTF16:
      case CRO_FAULT_TOO_LONG:
      case CRO_FAULT_MISSING_COLUMN:
        return TRUE;
      default:
        break;
      }
  return FALSE;
}

void
cro_faults_drop (CroFaults    *faults,
                 CroFaultKind  kind)
{
  guint kept = 0;

  for (guint i = 0; i < faults->entries->len; i++)
    {
      Entry *entry = g_ptr_array_index (faults->entries, i);

      if (entry->fault.kind == kind)
        entry_free (entry);
      else
        faults->entries->pdata[kept++] = entry;
    }
  /* What stands behind those kept has moved forward, or is freed. */
  for (guint i = kept; i < faults->entries->len; i++)
    faults->entries->pdata[i] = NULL;
  g_ptr_array_set_size (faults->entries, (int) kept);
}

/* Faults arrive table by table, and those across tables after all others, so they are put in
 * order when somebody looks. The order of arrival keeps the sort stable. */
const CroFault *
cro_faults_get (CroFaults *faults,
                guint      index)
{
  Entry *entry;

  g_return_val_if_fail (index < faults->entries->len, NULL);

  if (!faults->is_sorted)
    g_ptr_array_sort (faults->entries, compare_entries);
  faults->is_sorted = TRUE;
  entry = g_ptr_array_index (faults->entries, index);
  return &entry->fault;
}
