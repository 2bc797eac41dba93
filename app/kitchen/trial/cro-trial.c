#include "cro-trial.h"

#include <string.h>

#include "cro-edit-private.h"
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

/* A row that is gone, or a line whose recipe is, stands in nobody's way. */
static gboolean
try_one (CroBook        *book,
         const CroTried *tried,
         const char     *label)
{
  return cro_edit_begin (book, label, NULL)
         && cro_edit_end (book, cro_tried_apply (tried, book, cro_book_get_figures (book)->date, NULL),
                          NULL);
}

static gboolean
apply_all (CroBook    *book,
           GPtrArray  *tried,
           CroDate     from,
           GError    **error)
{
  for (guint i = 0; i < tried->len; i++)
    if (!cro_tried_apply (tried->pdata[i], book, from, error))
      return FALSE;
  return TRUE;
}

/* At once where all of it can be done, as each of them sums its part of the figures anew. */
static void
try_all (CroTrial   *self,
         GPtrArray  *tried,
         const char *label)
{
  CroBook *book = self->trial;

  if (cro_edit_begin (book, label, NULL)
      && cro_edit_end (book, apply_all (book, tried, cro_book_get_figures (book)->date, NULL), NULL))
    return;
  for (guint i = 0; i < tried->len; i++)
    if (!try_one (book, tried->pdata[i], label))
      g_ptr_array_add (self->left, cro_tried_copy (tried->pdata[i]));
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

  return tried != NULL && cro_edit_begin (self->book, label, error)
         && cro_edit_end (self->book, apply_all (self->book, tried, from, error), error);
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
