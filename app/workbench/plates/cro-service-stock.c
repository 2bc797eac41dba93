#include "config.h"

#include "cro-service-entry-private.h"

#include <glib/gi18n.h>

#include "cro-edit-service.h"
#include "cro-example.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-quick-words.h"
#include "cro-refused-words.h"
#include "cro-row-grid.h"
#include "cro-words-lack.h"
#include "cro-words.h"

static CroBook *
book_of (CroServiceEntry *self)
{
  return cro_bench_get_book (self->bench);
}

static const CroInHouse *
in_house_of_row (CroServiceEntry *self,
                 gint64           id)
{
  for (guint i = 0; self->kept != NULL && i < self->kept->in_house->len; i++)
    if (g_array_index (self->kept->in_house, CroInHouse, i).id == id)
      return &g_array_index (self->kept->in_house, CroInHouse, i);
  return NULL;
}

static gboolean
set_in_house (CroServiceEntry  *self,
              guint32           item,
              gint64            amount,
              CroUnit           unit,
              GError          **error)
{
  const char *name = cro_model_item (cro_book_get_model (book_of (self)), item)->name;
  g_autofree char *label = cro_act_dup_label (_("stock"), name);

  return cro_edit_set_in_house (book_of (self), label, self->day, self->name, item, amount, unit,
                                error);
}

static void
remove_in_house_cb (CroServiceEntry *self,
                    gint64           id)
{
  const CroInHouse *one = in_house_of_row (self, id);
  g_autoptr (GError) error = NULL;

  if (one != NULL && !set_in_house (self, one->item, CRO_NOT_SET, one->unit, &error))
    cro_bench_fail (self->bench, error);
}

/* What an amount lacks to be one of that item: "30" of what is bought by the kilo. */
static char *
dup_lack (CroModel       *model,
          const CroQuick *quick)
{
  const char *name = cro_model_item (model, quick->item)->name;
  g_autofree char *number = NULL;
  unsigned lacks;

  cro_service_in_base (model, quick->item, quick->amount, quick->unit, &lacks);
  if (lacks == CRO_LACKS_NOTHING)
    return NULL;
  number = cro_words_decimal (quick->amount);
  if (lacks & CRO_LACKS_DENSITY)
    return cro_isolate_printf (_("%s has no density, so volume and weight cannot be converted."), name);
  return quick->has_unit
             ? cro_isolate_printf (_("%s has no weight of one piece. Type another unit."), name)
             /* Translators: a number without a unit, and an ingredient. */
             : cro_isolate_printf (_("%s of what? %s has no weight of one piece."), number, name);
}

/* Why a line says nothing of the house's stock. Owned, or NULL. */
static char *
reason_of (CroModel       *model,
           const char     *text,
           const CroQuick *quick)
{
  if (quick->fault != CRO_QUICK_OK && quick->fault != CRO_QUICK_EMPTY)
    return cro_quick_reason (text, quick);
  if (quick->fault == CRO_QUICK_EMPTY || !quick->has_amount)
    {
      g_autofree char *example = cro_example_dup_amount (model);

      /* Translators: "200 g butter". */
      return cro_isolate_printf (_("Type how much there is: %s."), example);
    }
  return quick->item == CRO_NO_SLOT ? g_strdup (_("No name matches.")) : dup_lack (model, quick);
}

static void
read_have (CroServiceEntry *self,
           const char      *text,
           CroQuick        *quick)
{
  if (cro_quick_read (cro_book_get_model (book_of (self)), text, cro_words_entry (), quick))
    cro_quick_find (quick, book_of (self), CRO_NO_SLOT);
}

static void
have_cb (CroServiceEntry *self)
{
  g_autofree char *text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->have)));
  g_auto (CroQuick) quick = { 0 };
  g_autofree char *reason = NULL;
  g_autoptr (GError) error = NULL;

  read_have (self, text, &quick);
  reason = reason_of (cro_book_get_model (book_of (self)), text, &quick);
  if (reason == NULL && !set_in_house (self, quick.item, quick.amount, quick.unit, &error))
    reason = cro_words_failed (error);
  gtk_label_set_label (GTK_LABEL (self->have_reason), reason != NULL ? reason : "");
  if (reason == NULL)
    gtk_editable_set_text (GTK_EDITABLE (self->have), "");
}

/* What Enter would take: a name may be typed in part. */
static void
have_changed_cb (CroServiceEntry *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->have));
  g_auto (CroQuick) quick = { 0 };
  g_autofree char *hint = NULL;

  read_have (self, text, &quick);
  if (quick.fault == CRO_QUICK_OK && quick.has_amount && quick.item != CRO_NO_SLOT)
    hint = cro_isolate (cro_model_item (cro_book_get_model (book_of (self)), quick.item)->name);
  gtk_label_set_label (GTK_LABEL (self->have_reason), hint != NULL ? hint : "");
}

/* Where it cannot be set against what is needed it says so in its own row: "no piece weight for Hake". */
static char *
dup_in_house (CroModel         *model,
              const CroInHouse *one)
{
  char *lack = cro_words_lack (model, one->item, one->amount, one->unit);

  return lack != NULL ? lack : g_strdup (cro_model_item (model, one->item)->name);
}

void
cro_service_entry_show_stock (CroServiceEntry *self)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->in_house);
  CroModel *model = cro_book_get_model (book_of (self));
  GArray *in_house = self->kept->in_house;

  cro_row_grid_begin (grid);
  for (guint i = 0; i < in_house->len; i++)
    {
      const CroInHouse *one = &g_array_index (in_house, CroInHouse, i);
      const char *name = cro_model_item (model, one->item)->name;

      if (cro_row_grid_add_row (grid, one->id))
        {
          cro_row_grid_add_label (grid, TRUE);
          cro_row_grid_add_label (grid, FALSE);
          cro_row_grid_add_removal (grid);
        }
      if (cro_row_grid_rename_row (grid, name))
        {
          /* Translators: the accessible name of a button; an ingredient that is in stock. */
          g_autofree char *removal = cro_isolate_printf (_("Remove stock of %s"), name);

          cro_row_grid_name (grid, 2, NULL, removal);
        }
    }
  cro_row_grid_end (grid);
  for (guint i = 0; i < in_house->len; i++)
    {
      const CroInHouse *one = &g_array_index (in_house, CroInHouse, i);
      g_autofree char *number = cro_words_decimal (one->amount);
      g_autofree char *amount = g_strdup_printf ("%s %s", number, cro_words_unit (one->unit));
      g_autofree char *said = dup_in_house (model, one);

      cro_row_grid_set_text (grid, i, 0, amount);
      cro_row_grid_set_text (grid, i, 1, said);
      gtk_widget_set_tooltip_text (cro_row_grid_get (grid, i, 1), said);
    }
  gtk_widget_set_visible (self->in_house, in_house->len > 0);
}

void
cro_service_entry_init_stock (CroServiceEntry *self)
{
  self->have = cro_entry_new (_("In stock already"), 36);
  self->have_reason = cro_text_new ("", "caption");
  g_signal_connect_object (self->have, "activate", G_CALLBACK (have_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->have, "changed", G_CALLBACK (have_changed_cb), self,
                           G_CONNECT_SWAPPED);
  self->in_house = cro_row_grid_new (self->bench, "service_stock", self->have);
  g_signal_connect_object (self->in_house, "remove", G_CALLBACK (remove_in_house_cb), self,
                           G_CONNECT_SWAPPED);
}
