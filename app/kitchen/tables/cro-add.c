#include "cro-add.h"

#include "cro-changes.h"
#include "cro-replace.h"
#include "cro-underlay.h"

void
cro_added_free (CroAdded *added)
{
  g_clear_pointer (&added->changes, g_ptr_array_unref);
  g_clear_pointer (&added->passed_over, g_array_unref);
  g_free (added);
}

static gboolean
set_error (CroLoadErrorCode  code,
           const char       *message,
           GError          **error)
{
  g_set_error_literal (error, CRO_LOAD_ERROR, code, message);
  return FALSE;
}

static gboolean
check_faults (CroFaults  *faults,
              GError    **error)
{
  return cro_faults_get_n (faults) == 0
         || set_error (CRO_LOAD_ERROR_FAULTS, "the tables have faults", error);
}

/* Within an act. What is written is what differs from the book's own rows beneath. */
static gboolean
write_rows (CroStore   *store,
            CroSheets  *sheets,
            CroFaults  *faults,
            GError    **error)
{
  CroIds ids;
  gboolean done;

  cro_ids_init (&ids, sheets);
  done = cro_replace (store, sheets, &ids, faults, error) && check_faults (faults, error)
         && cro_replace_verify (store, sheets, faults, error) && check_faults (faults, error);
  cro_ids_clear (&ids);
  return done;
}

/* Who asks whether to go on. */
typedef struct
{
  CroLoadGoOn go_on;
  gpointer    user_data;
} Asking;

static CroAdded *
add_within (CroStore      *store,
            const char    *folder,
            CroAddFlags    flags,
            const Asking  *asking,
            CroFaults     *faults,
            GError       **error)
{
  g_autoptr (CroUnderlay) underlay = cro_underlay_new (store, (flags & CRO_ADD_AGAIN) != 0, error);
  g_autoptr (CroSheets) sheets = NULL;
  g_autoptr (CroAdded) added = NULL;

  if (underlay == NULL)
    return NULL;
  sheets = cro_sheets_read_onto (underlay, folder, asking->go_on, asking->user_data, faults, error);
  if (sheets == NULL)
    {
      if (error != NULL && *error == NULL)
        set_error (CRO_LOAD_ERROR_CANCELLED, "cancelled", error);
      return NULL;
    }
  if (!check_faults (faults, error) || !write_rows (store, sheets, faults, error))
    return NULL;
  added = g_new0 (CroAdded, 1);
  added->passed_over = g_array_ref (cro_underlay_get_passed_over (underlay));
  added->changes = cro_changes_of_act (store, cro_store_get_open_act (store), error);
  return added->changes != NULL ? g_steal_pointer (&added) : NULL;
}

CroAdded *
cro_add (const char   *path,
         const char   *folder,
         const char   *desk,
         const char   *label,
         CroAddFlags   flags,
         CroLoadGoOn   go_on,
         gpointer      user_data,
         CroFaults    *faults,
         GError      **error)
{
  const Asking asking = { go_on, user_data };
  g_autoptr (CroStore) store = NULL;
  g_autoptr (CroAdded) added = NULL;

  if (!cro_load_check_folder (folder, error))
    return NULL;
  store = cro_store_open (path, desk, CRO_STORE_WRITE, error);
  if (store == NULL || !cro_store_begin_act (store, label, error))
    return NULL;
  added = add_within (store, folder, flags, &asking, faults, error);
  if (added != NULL && (flags & CRO_ADD_DRY_RUN) == 0)
    {
      if (cro_store_end_act (store, NULL, error))
        return g_steal_pointer (&added);
      g_clear_pointer (&added, cro_added_free);
    }
  cro_store_cancel_act (store);
  return g_steal_pointer (&added);
}
