/* Rows that are made anew under somebody's hands, as another desk posts: each is known again by what it is of, not by
 * its place, and what is typed next goes on where it was. */
#include "config.h"

#include "cro-round-rows-private.h"

#include "cro-focus.h"

/* Of which row something was; of no index: of none. */
typedef struct
{
  guint    index;
  gint64   id;         /* of its pack; 0: an added row, or a line of the invoice */
  gboolean is_billed;
  guint    line;       /* its place there */
  char    *text;       /* as it was typed */
} Known;

struct _CroRoundHand
{
  Known    row;        /* with the focus */
  Known    left;
  Known    asked;
  gboolean has_focus;  /* the field of the row does, not what answers it */
  char    *shown;      /* in the field: a search is in no row */
  int      from;       /* of it is selected; where both are equal the caret stands there */
  int      to;
  char    *entered;
  char    *emptied;
};

static Known
know (CroRoundRows *self,
      guint         index)
{
  const CroRoundRow *of = index < n_rows_of (self) ? cro_round_get_row (self->round, index) : NULL;

  return of == NULL ? (Known){ .index = CRO_NO_SLOT }
                    : (Known){ index, of->is_billed ? 0 : of->id, of->is_billed, of->line, g_strdup (of->text) };
}

/* One that was added may be a pack of the book by now. */
static gboolean
is_known (const Known       *known,
          const CroRoundRow *row)
{
  if (known->is_billed || row->is_billed)
    return known->is_billed && row->is_billed && known->line == row->line;
  return known->id != 0 ? known->id == row->id : *known->text != '\0' && g_str_equal (known->text, row->text);
}

/* CRO_NO_SLOT: it is there no more. */
static guint
find (CroRoundRows *self,
      const Known  *known)
{
  guint n = known->index != CRO_NO_SLOT ? n_rows_of (self) : 0;

  for (guint i = 0; i < n; i++)
    if (is_known (known, cro_round_get_row (self->round, i)))
      return i;
  return CRO_NO_SLOT;
}

CroRoundHand *
cro_round_rows_hold (CroRoundRows *self)
{
  CroRoundHand *hand;
  GtkWidget *entry;

  if (self->round == NULL || self->is_held)
    return NULL;
  self->is_held = TRUE;
  hand = g_new0 (CroRoundHand, 1);
  hand->row = know (self, self->row);
  hand->left = know (self, self->left);
  hand->asked = know (self, self->asked_row);
  entry = is_in_sight (self, self->row) ? row_at (self, self->row)->entry : NULL;
  hand->has_focus = entry != NULL && cro_focus_is_in (entry);
  if (hand->has_focus)
    {
      hand->shown = g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry)));
      gtk_editable_get_selection_bounds (GTK_EDITABLE (entry), &hand->from, &hand->to);
      hand->entered = g_strdup (self->entered);
      hand->emptied = g_strdup (self->emptied);
    }
  return hand;
}

/* What is undone or posted elsewhere stands as it is now: nothing of before is put over it. */
static void
go_on (CroRoundRows *self,
       CroRoundHand *hand)
{
  GtkEditable *entry;

  cro_round_rows_focus (self, self->row);
  entry = GTK_EDITABLE (row_at (self, self->row)->entry);
  if (!g_str_equal (cro_round_get_row (self->round, self->row)->text, hand->row.text))
    return;
  if (!g_str_equal (gtk_editable_get_text (entry), hand->shown))
    gtk_editable_set_text (entry, hand->shown);
  gtk_editable_select_region (entry, hand->from, hand->to);
  g_free (self->entered);
  self->entered = g_steal_pointer (&hand->entered);
  g_free (self->emptied);
  self->emptied = g_steal_pointer (&hand->emptied);
}

static void
hand_free (CroRoundHand *hand)
{
  g_free (hand->row.text);
  g_free (hand->left.text);
  g_free (hand->asked.text);
  g_free (hand->shown);
  g_free (hand->entered);
  g_free (hand->emptied);
  g_free (hand);
}

void
cro_round_rows_take_up (CroRoundRows *self,
                        CroRoundHand *hand)
{
  if (hand == NULL)
    return;
  self->is_held = FALSE;
  if (self->round != NULL)
    {
      self->row = find (self, &hand->row);
      self->left = find (self, &hand->left);
      /* Where its row is gone, no other is typed into or answered unseen. */
      if (hand->has_focus && self->row != CRO_NO_SLOT)
        go_on (self, hand);
      else if (hand->has_focus)
        cro_round_rows_focus (self, n_rows_of (self));
      self->left = find (self, &hand->left);
      cro_round_rows_show_asked (self);
      if (hand->asked.index != CRO_NO_SLOT && self->asked_row != find (self, &hand->asked))
        cro_round_else_close (CRO_ROUND_ELSE (self->else_));
    }
  hand_free (hand);
}
