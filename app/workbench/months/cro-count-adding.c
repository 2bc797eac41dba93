#include "config.h"

#include "cro-count-adding.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-finder.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-quick.h"
#include "cro-reason.h"
#include "cro-words.h"
#include "cro-wrap.h"

struct _CroCountAdding
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *add;
  GtkWidget *add_place;
  GtkWidget *add_reason;

  CroBench  *bench;       /* borrowed; NULL: it is going */
  CroDate    day;
};

G_DEFINE_FINAL_TYPE (CroCountAdding, cro_count_adding, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroCountAdding *self)
{
  return self->bench != NULL ? cro_bench_get_book (self->bench) : NULL;
}

static const char *
text_of (GtkWidget *entry)
{
  return gtk_editable_get_text (GTK_EDITABLE (entry));
}

/* --- One count ------------------------------------------------------------------------------------------- */

char *
cro_count_dup_label (CroBook *book,
                     guint32  item,
                     CroDate  day)
{
  g_autofree char *text = cro_date_to_text (day);

  /* Translators: an entry of the history: an item, and the day it was counted on. */
  return cro_isolate_printf (_("count of %s, %s"), cro_model_item (cro_book_get_model (book), item)->name, text);
}

gboolean
cro_count_put (CroBook              *book,
               const CroCountEntry  *entry,
               GError              **error)
{
  g_autofree char *label = cro_count_dup_label (book, entry->item, entry->date);

  return cro_month_put_counts (book, label, entry, 1, error);
}

char *
cro_count_dup_amount (gint64  amount,
                      CroUnit unit)
{
  g_autofree char *number = amount != CRO_NOT_SET ? cro_words_decimal (amount) : NULL;

  return number != NULL ? g_strdup_printf ("%s %s", number, cro_words_unit (unit)) : g_strdup ("");
}

/* --- What is not listed ---------------------------------------------------------------------------------- */

static gboolean
read_added (CroCountAdding *self,
            CroQuick      *quick)
{
  if (!cro_quick_read (cro_book_get_model (book_of (self)), text_of (self->add), cro_words_entry (), quick))
    return FALSE;
  cro_quick_find (quick, book_of (self), CRO_NO_SLOT);
  return quick->has_amount && quick->item != CRO_NO_SLOT;
}

static void
added_cb (CroCountAdding *self)
{
  g_auto (CroQuick) quick = { 0 };
  g_autoptr (GError) error = NULL;
  CroCountEntry entry = { .date = self->day, .place = text_of (self->add_place) };

  if (*text_of (self->add) == '\0')
    return;
  if (!read_added (self, &quick))
    {
      cro_reason_say (self->add_reason, self->add,
                      _("Type an amount with its unit and the name of an item in the larder."));
      return;
    }
  entry.item = quick.item;
  entry.amount = quick.amount;
  entry.unit = quick.unit;
  if (!cro_count_put (book_of (self), &entry, &error))
    {
      cro_bench_fail (self->bench, error);
      return;
    }
  gtk_editable_set_text (GTK_EDITABLE (self->add), "");
  gtk_widget_grab_focus (self->add);
}

static void
add_changed_cb (CroCountAdding *self)
{
  g_auto (CroQuick) quick = { 0 };
  g_autofree char *amount = NULL, *says = NULL;

  if (book_of (self) != NULL && *text_of (self->add) != '\0' && read_added (self, &quick))
    {
      amount = cro_count_dup_amount (quick.amount, quick.unit);
      says = cro_isolate_printf ("%s · %s", cro_model_item (cro_book_get_model (book_of (self)), quick.item)->name,
                                 amount);
    }
  cro_reason_say (self->add_reason, self->add, says);
}

/* --- The widget ------------------------------------------------------------------------------------------ */

static gboolean
cro_count_adding_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CRO_COUNT_ADDING (widget)->add);
}

static void
cro_count_adding_dispose (GObject *object)
{
  CroCountAdding *self = CRO_COUNT_ADDING (object);

  self->bench = NULL;
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_count_adding_parent_class)->dispose (object);
}

static void
cro_count_adding_class_init (CroCountAddingClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_count_adding_dispose;
  GTK_WIDGET_CLASS (klass)->grab_focus = cro_count_adding_grab_focus;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_count_adding_init (CroCountAdding *self)
{
  GtkWidget *wrap = cro_wrap_new (12, 6);

  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  self->add = cro_entry_new (_("What is not listed"), 30);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->add), _("200 g crab butter"));
  self->add_place = cro_entry_new (_("Where"), 12);
  self->add_reason = cro_reason_new ();
  cro_wrap_append (CRO_WRAP (wrap), cro_field_new (_("What is not listed"), self->add));
  cro_wrap_append (CRO_WRAP (wrap), cro_field_new (_("Where"), self->add_place));
  g_signal_connect_object (self->add, "activate", G_CALLBACK (added_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->add_place, "activate", G_CALLBACK (added_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->add, "changed", G_CALLBACK (add_changed_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self->box), wrap);
  gtk_box_append (GTK_BOX (self->box), self->add_reason);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_count_adding_new (CroBench *bench,
                      CroDate   day)
{
  CroCountAdding *self = g_object_new (CRO_TYPE_COUNT_ADDING, NULL);

  self->bench = bench;
  self->day = day;
  return GTK_WIDGET (self);
}
