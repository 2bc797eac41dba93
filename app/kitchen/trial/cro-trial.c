#include "cro-trial.h"

#include <string.h>

#include "cro-book-try.h"
#include "cro-edit-private.h"
#include "cro-menu-ways.h"
#include "cro-tried-private.h"

struct _CroTrial
{
  CroBook   *book;
  CroBook   *trial;
  GPtrArray *left;     /* CroTried that could not be tried again */
  gint64     since;    /* the newest change when it was copied */
  guint64    edition;  /* of the book then */
};

/* --- Doing it again --------------------------------------------------------------------------- */

static gboolean
apply_all (CroBook          *book,
           CroTried *const  *tried,
           guint             n,
           CroDate           from,
           GError          **error)
{
  for (guint i = 0; i < n; i++)
    if (!cro_tried_apply (tried[i], book, from, error))
      return FALSE;
  return TRUE;
}

static gboolean
touches_choices (CroTried *const *tried,
                 guint            n)
{
  for (guint i = 0; i < n; i++)
    if (g_str_equal (tried[i]->table, "menu_plate"))
      return TRUE;
  return FALSE;
}

/* Keeps the first choice whose shares do not come to 100 per cent. */
static void
look_cb (CroBook  *book,
         gpointer  bad)
{
  CroModel *model = cro_book_get_model (book);

  for (guint32 menu = 0; menu < model->menus->len; menu++)
    {
      g_autoptr (CroMenuWays) ways = NULL;

      if (cro_model_menu (model, menu)->is_dead)
        continue;
      ways = cro_menu_ways_new (model, menu);
      if (ways->bad < ways->plates->len)
        *(const char **) bad = ((const CroMenuPlate *) ways->plates->pdata[ways->bad])->choice;
    }
}

/* Shares that were tried stood with others: those may be others by now. */
static gboolean
check_choices (CroBook          *book,
               CroTried *const  *tried,
               guint             n,
               CroDate           from,
               GError          **error)
{
  const char *bad = NULL;

  if (!touches_choices (tried, n))
    return TRUE;
  if (!cro_edit_begin (book, "trial", error))
    return FALSE;
  if (!apply_all (book, tried, n, from, error))
    {
      cro_book_cancel_act (book);
      return FALSE;
    }
  if (!cro_book_try_act (book, look_cb, &bad, error))
    return FALSE;
  if (bad != NULL)
    g_set_error_literal (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_SHARES, bad);
  return bad == NULL;
}

/* As one act. */
static gboolean
do_all (CroBook          *book,
        CroTried *const  *tried,
        guint             n,
        const char       *label,
        CroDate           from,
        GError          **error)
{
  return check_choices (book, tried, n, from, error) && cro_edit_begin (book, label, error)
         && cro_edit_end (book, apply_all (book, tried, n, from, error), error);
}

/* At once where all of it can be done, as each of them sums its part of the figures anew. A row that is
 * gone, or a line whose recipe is, stands in nobody's way. */
static void
try_all (CroTrial   *self,
         GPtrArray  *tried,
         const char *label)
{
  CroBook *book = self->trial;
  CroDate from = cro_book_get_figures (book)->date;
  CroTried *const *all = (CroTried *const *) tried->pdata;

  if (do_all (book, all, tried->len, label, from, NULL))
    return;
  for (guint i = 0; i < tried->len; i++)
    if (!do_all (book, all + i, 1, label, from, NULL))
      g_ptr_array_add (self->left, cro_tried_copy (all[i]));
}

/* --- A trial ---------------------------------------------------------------------------------- */

CroTrial *
cro_trial_new (CroBook     *book,
               GPtrArray   *tried,
               const char  *label,
               GError     **error)
{
  CroBook *trial;
  CroTrial *self;

  if (cro_book_is_past (book, NULL))
    {
      g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_PAST,
                           "the book as it stood is only read");
      return NULL;
    }
  if (!cro_book_restore (book, error) || !cro_book_refresh (book, NULL, error))
    return NULL;
  trial = cro_book_open_trial (book, error);
  if (trial == NULL)
    return NULL;
  self = g_new0 (CroTrial, 1);
  self->book = g_object_ref (book);
  self->trial = trial;
  self->left = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_tried_free);
  self->since = cro_store_last_change (cro_book_get_store (trial));
  self->edition = cro_book_get_edition (book);
  if (tried != NULL)
    try_all (self, tried, label);
  return self;
}

void
cro_trial_free (CroTrial *self)
{
  if (self == NULL)
    return;
  g_object_unref (self->trial);
  g_object_unref (self->book);
  g_ptr_array_unref (self->left);
  g_free (self);
}

CroBook *
cro_trial_get_book (CroTrial *self)
{
  return self->trial;
}

GPtrArray *
cro_trial_list (CroTrial  *self,
                GError   **error)
{
  return cro_tried_list (self->trial, self->since, error);
}

GPtrArray *
cro_trial_get_left (CroTrial *self)
{
  return self->left;
}

GPtrArray *
cro_trial_list_all (CroTrial  *self,
                    GError   **error)
{
  GPtrArray *all = cro_trial_list (self, error);

  for (guint i = 0; all != NULL && i < self->left->len; i++)
    g_ptr_array_add (all, cro_tried_copy (self->left->pdata[i]));
  return all;
}

gboolean
cro_trial_is_behind (CroTrial *self)
{
  return self->edition != cro_book_get_edition (self->book);
}

gboolean
cro_trial_keep (CroTrial    *self,
                const char  *label,
                CroDate      from,
                GError     **error)
{
  g_autoptr (GPtrArray) tried = cro_trial_list (self, error);

  return tried != NULL
         && do_all (self->book, (CroTried *const *) tried->pdata, tried->len, label, from, error);
}

/* --- Slots ------------------------------------------------------------------------------------ */

CroRef
cro_trial_find (CroModel *from,
                CroRef    ref,
                CroModel *in)
{
  const CroSlots *slots = NULL;
  const char *table;
  gint64 id;

  if (ref.slot == CRO_NO_SLOT)
    return ref;
  id = cro_edit_row (from, ref, &table);
  switch (ref.kind)
    {
    case CRO_REF_ITEM:
      slots = &in->item_slots;
      break;
    case CRO_REF_RECIPE:
      slots = g_str_equal (table, "plate") ? &in->plate_slots : &in->preparation_slots;
      break;
    case CRO_REF_MENU:
      slots = &in->menu_slots;
      break;
    case CRO_REF_SUPPLIER:
      slots = &in->supplier_slots;
      break;
    case CRO_REF_OFFER:
      slots = &in->offer_slots;
      break;
    case CRO_REF_LINE:
      slots = &in->line_slots;
      break;
    default:
      return ref;
    }
  ref.slot = cro_slots_get (slots, id);
  return ref.slot != CRO_NO_SLOT ? ref : CRO_REF_NOWHERE;
}
