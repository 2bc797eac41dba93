/* cro-edit-private.h: what the files of cro-edit share: rows by id within an open act.
 *
 * An act begins with what other processes committed taken in, so slots and the model are read
 * after cro_edit_begin. What the act makes has no slot before it ends: it goes by its id. */
#pragma once

#include "cro-edit.h"

G_BEGIN_DECLS

gboolean cro_edit_begin       (CroBook            *book,
                               const char         *label,
                               GError            **error);

/* Ends the act, or cancels it where done is FALSE; returns whether all went well. */
gboolean cro_edit_end         (CroBook            *book,
                               gboolean            done,
                               GError            **error);
/* Likewise; *act as of cro_book_end_numbered, 0 on failure. */
gboolean cro_edit_end_numbered (CroBook           *book,
                                gboolean           done,
                                gint64            *act,
                                GError           **error);

/* The id of the new row, or 0. columns is NULL-terminated. */
gint64   cro_edit_insert      (CroBook            *book,
                               const char         *table,
                               const char *const  *columns,
                               const CroCell      *cells,
                               GError            **error);

gboolean cro_edit_update      (CroBook            *book,
                               const char         *table,
                               gint64              id,
                               const char         *column,
                               CroCell             cell,
                               GError            **error);

/* Before a plate leaves its choice in a menu, or the menu: where the shares of the others would not
 * come to 100 per cent they are taken alike. */
gboolean cro_edit_leave_choice (CroBook           *book,
                               guint32             entry,
                               GError            **error);

/* What a till calls a plate or a menu follows its name, before that changes; name NULL: it goes, and is asked
 * again. */
gboolean cro_edit_settle_till_names (CroBook      *book,
                               const char         *before,
                               const char         *name,
                               GError            **error);

/* A recipe with its lines, and its outputs, which nothing takes any more. */
gboolean cro_edit_remove_recipe (CroBook          *book,
                               guint32             recipe,
                               GError            **error);

/* Several columns of one row; NULL-terminated. */
gboolean cro_edit_update_row  (CroBook            *book,
                               const char         *table,
                               gint64              id,
                               const char *const  *columns,
                               const CroCell      *cells,
                               GError            **error);

/* The ids of a table's rows that name one row in a column. Elements gint64. */
GArray  *cro_edit_list_rows   (CroBook            *book,
                               const char         *table,
                               const char         *column,
                               gint64              id,
                               GError            **error);

/* One row, as an act of its own. */
gboolean cro_edit_remove_row  (CroBook            *book,
                               const char         *label,
                               const char         *table,
                               gint64              id,
                               GError            **error);

/* The name as it is kept, owned; NULL where it is empty or somebody but self bears it. */
char    *cro_edit_dup_name    (CroBook            *book,
                               CroNames            names,
                               const char         *name,
                               CroRef              self,
                               GError            **error);

/* A row of table "item" or "thing" that bears a name as yet unused; its id or 0. */
gint64   cro_edit_name_row    (CroBook            *book,
                               const char         *table,
                               const char         *name,
                               GError            **error);

/* That the price of an offer, by its id, from a date is right, if somebody said so of another than kept, which may be
 * CRO_NOT_SET. A trial answers nothing, and forgets nothing. */
gboolean cro_edit_forget_answer (CroBook          *book,
                               gint64              offer,
                               const char         *date,
                               gint64              kept,
                               GError            **error);

/* An offer, by its id, with its prices and what was said of them. */
gboolean cro_edit_remove_offer (CroBook           *book,
                               gint64              offer,
                               GError            **error);

gint64   cro_edit_make_ingredient (CroBook        *book,
                               const char         *name,
                               CroBase             base,
                               GError            **error);

/* *offer is the id of the offer to price, or 0: it is found or made. */
gboolean cro_edit_pay         (CroBook             *book,
                               gint64               ingredient,
                               const CroUnitPrice  *price,
                               gint64              *offer,
                               GError             **error);

/* The one row of the settings, where it is not there. */
gboolean cro_edit_make_book_row (CroBook          *book,
                               GError            **error);

typedef struct
{
  const char *column;
  CroCell     cell;
} CroOverride;

/* A copy of a row but for some columns; its id or 0. */
gint64   cro_edit_copy_row    (CroBook            *book,
                               const char         *table,
                               gint64              id,
                               const CroOverride  *overrides,
                               guint               n,
                               GError            **error);

/* With its main output of the same name, whose id is given back; amount 0: not known yet. */
gint64   cro_edit_make_preparation (CroBook       *book,
                               const char         *name,
                               gint64              amount,
                               CroUnit             unit,
                               gint64             *output,
                               GError            **error);

gint64   cro_edit_make_plate  (CroBook            *book,
                               const char         *name,
                               gint64              makes,
                               GError            **error);

/* Places for rows that have an order within a recipe or a menu. */
typedef struct
{
  gint64 id;
  gint64 position;
} CroPlace;

/* Positions for n rows before rows[at]; last is the highest position taken. Where there is no
 * room between its neighbours, all rows get new positions behind the last. */
gboolean cro_edit_make_room   (CroBook            *book,
                               const char         *table,
                               GArray             *rows,
                               gint64              last,
                               guint               at,
                               guint               n,
                               gint64             *positions,
                               GError            **error);

/* Sets the error, whose message is a name or what is in the way; FALSE. */
static inline gboolean
cro_edit_refuse (CroEditErrorCode   code,
                 const char        *name,
                 GError           **error)
{
  g_set_error_literal (error, CRO_EDIT_ERROR, code, name);
  return FALSE;
}

static inline const char *
cro_edit_unit_code (CroUnit unit)
{
  return cro_unit_get (unit)->code;
}

static inline CroCell
cro_edit_cell_or_none (gint64 value)
{
  return value != 0 ? CRO_CELL_INT (value) : CRO_CELL_NONE;
}

static inline CroCell
cro_edit_text_or_none (const char *text)
{
  return text != NULL && *text != '\0' ? CRO_CELL_STR (text) : CRO_CELL_NONE;
}

/* Stores a slot where it is wanted. */
static inline gboolean
cro_edit_return_slot (guint32        *slot,
                      const CroSlots *slots,
                      gint64          id)
{
  if (slot != NULL)
    *slot = cro_slots_get (slots, id);
  return TRUE;
}

G_END_DECLS
