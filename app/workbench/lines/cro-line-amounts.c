#include "config.h"

#include "cro-line-amounts.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-edit.h"
#include "cro-isolate.h"
#include "cro-line-amount.h"
#include "cro-words.h"

struct _CroLineAmounts
{
  GObject        parent_instance;

  CroInput      *batch;     /* borrowed */
  CroInput      *bite;      /* likewise */

  CroBench      *bench;     /* borrowed */
  guint32        line;
  gint64         makes;
  CroUnit        unit;      /* of what was read last in either */
  CroLineAmount  stored;    /* as it was read at an edition of the book */
  guint64        edition;   /* 0: it was not */
};

G_DEFINE_FINAL_TYPE (CroLineAmounts, cro_line_amounts, G_TYPE_OBJECT)

static CroBook *
book_of (CroLineAmounts *self)
{
  return cro_bench_get_book (self->bench);
}

static CroModel *
model_of (CroLineAmounts *self)
{
  return cro_book_get_model (book_of (self));
}

static CroLineAmount
read_stored_amount (CroLineAmounts *self)
{
  const char *columns[] = { "amount_micro", "unit", NULL };
  CroModel *model = model_of (self);
  CroLineAmount amount = { model->lines.amount[self->line], model->lines.unit[self->line] };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book_of (self)), "recipe_line",
                                                 model->line_ids[self->line], columns, NULL);

  if (rows != NULL && cro_rows_next (rows, NULL))
    {
      const char *code = cro_rows_get_text (rows, 1);

      amount.amount = cro_rows_get_int (rows, 0);
      cro_unit_parse (code, strlen (code), &amount.unit);
    }
  return amount;
}

/* What stands in the book, whatever a preview has made of the model. */
static CroLineAmount
stored_amount (CroLineAmounts *self)
{
  if (self->edition != cro_book_get_edition (book_of (self)))
    self->stored = read_stored_amount (self);
  self->edition = cro_book_get_edition (book_of (self));
  return self->stored;
}

static void
look_at_amount (CroInput *input,
                gpointer  amounts)
{
  stored_amount (amounts);
}

static gint64
makes_of (CroLineAmounts *self,
          CroInput       *input)
{
  return input == self->bite ? self->makes : 0;
}

/* Both fields show what is typed into one of them; the one that is typed into keeps its text. */
static char *
dup_amount (CroInput *input,
            gpointer  amounts)
{
  CroLineAmounts *self = amounts;
  const CroLines *lines = &model_of (self)->lines;
  CroLineAmount amount = { lines->amount[self->line], lines->unit[self->line] };

  return cro_line_amount_to_text (cro_input_is_edited (input) ? stored_amount (self) : amount,
                                  makes_of (self, input));
}

static char *
read_amount (CroInput    *input,
             const char  *text,
             CroCell     *cell,
             char       **understood,
             gpointer     amounts)
{
  CroLineAmounts *self = amounts;
  g_auto (CroEntry) entry = { 0 };

  cro_line_amount_read (text, stored_amount (self), makes_of (self, input), cro_words_entry (),
                        &entry);
  *understood = g_steal_pointer (&entry.understood);
  self->unit = entry.unit;
  switch (entry.status)
    {
    case CRO_ENTRY_OK:
      *cell = CRO_CELL_INT (entry.micro);
      return NULL;
    case CRO_ENTRY_EMPTY:
      return g_strdup (_("Type an amount, 0 or more."));
    default:
      return cro_words_entry_reason (text, &entry);
    }
}

static const char *const amount_columns[] = { "amount_micro", "unit", NULL };

static gboolean
preview_amount (CroInput       *input,
                const CroCell  *cell,
                gpointer        amounts,
                GError        **error)
{
  CroLineAmounts *self = amounts;
  CroCell cells[] = { *cell, CRO_CELL_STR (cro_unit_get (self->unit)->code) };

  return cro_book_preview_row (book_of (self), "recipe_line", model_of (self)->line_ids[self->line],
                               amount_columns, cells, error);
}

static gboolean
keep_amount (CroInput       *input,
             const CroCell  *cell,
             gpointer        amounts,
             GError        **error)
{
  CroLineAmounts *self = amounts;
  CroCell cells[] = { *cell, CRO_CELL_STR (cro_unit_get (self->unit)->code) };

  return cro_edit_set (book_of (self), cro_input_get_act (input), "recipe_line",
                       model_of (self)->line_ids[self->line], amount_columns, cells, error);
}

static const CroInputWay amount_way = { dup_amount, preview_amount, keep_amount, TRUE, look_at_amount };

static void
cro_line_amounts_class_init (CroLineAmountsClass *klass)
{
}

static void
cro_line_amounts_init (CroLineAmounts *self)
{
}

static CroInput *
input_new (CroLineAmounts *self)
{
  CroInput *input = CRO_INPUT (cro_input_new (CRO_INPUT_NUMBER, CRO_RANGE_AT_LEAST_0, ""));

  cro_input_set_way (input, &amount_way, self);
  cro_input_set_read (input, read_amount);
  cro_input_set_width (input, 1);
  return input;
}

CroLineAmounts *
cro_line_amounts_new (CroBench *bench,
                      guint32   line)
{
  CroLineAmounts *self = g_object_new (CRO_TYPE_LINE_AMOUNTS, NULL);

  self->bench = bench;
  self->line = line;
  self->batch = input_new (self);
  self->bite = input_new (self);
  return self;
}

CroInput *
cro_line_amounts_get_batch (CroLineAmounts *self)
{
  return self->batch;
}

CroInput *
cro_line_amounts_get_bite (CroLineAmounts *self)
{
  return self->bite;
}

void
cro_line_amounts_set_makes (CroLineAmounts *self,
                            gint64          makes)
{
  self->makes = makes;
}

void
cro_line_amounts_set_name (CroLineAmounts *self,
                           const char     *name)
{
  gint64 id = model_of (self)->line_ids[self->line];
  /* Translators: an entry of the history; %s is what a line takes. */
  g_autofree char *of_amount = cro_isolate_printf (_("amount of %s"), name);
  g_autofree char *for_batch = cro_isolate_printf (_("amount of %s per batch"), name);
  g_autofree char *for_bite = cro_isolate_printf (_("amount of %s per bite"), name);

  cro_input_bind (self->batch, book_of (self), "recipe_line", id, "amount_micro", of_amount, NULL);
  cro_input_set_name (self->batch, for_batch);
  cro_input_bind (self->bite, book_of (self), "recipe_line", id, "amount_micro", of_amount, NULL);
  cro_input_set_name (self->bite, for_bite);
}

void
cro_line_amounts_refresh (CroLineAmounts *self)
{
  gtk_widget_set_visible (GTK_WIDGET (self->bite), self->makes > 0);
  cro_input_refresh (self->batch);
  if (self->makes > 0)
    cro_input_refresh (self->bite);
}

gboolean
cro_line_amounts_is_edited (CroLineAmounts *self)
{
  return cro_input_is_edited (self->batch) || cro_input_is_edited (self->bite);
}
