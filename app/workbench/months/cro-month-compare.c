#include "config.h"

#include "cro-month-compare.h"

#include <glib/gi18n.h>

#include "cro-drop-down.h"
#include "cro-month-entries.h"
#include "cro-month-words.h"

struct _CroMonthCompare
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *choice;
  CroDate    page;
  GArray    *others;      /* CroDate, as the choice has them from 1 on */
  gboolean   is_setting;
};

G_DEFINE_FINAL_TYPE (CroMonthCompare, cro_month_compare, GTK_TYPE_WIDGET)

enum
{
  CHANGED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

CroDate
cro_month_compare_get (CroMonthCompare *self)
{
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->choice));

  return at > 0 && at - 1 < self->others->len ? g_array_index (self->others, CroDate, at - 1) : CRO_NO_DAY;
}

/* Whether the choice has those months already. */
static gboolean
has_all (CroMonthCompare *self,
         GArray          *firsts)
{
  guint n = 0;

  for (guint i = 0; i < firsts->len; i++)
    {
      CroDate first = g_array_index (firsts, CroDate, i);

      if (first == self->page)
        continue;
      if (n == self->others->len || g_array_index (self->others, CroDate, n) != first)
        return FALSE;
      n++;
    }
  return n == self->others->len;
}

static guint
add_names (CroMonthCompare *self,
           GArray          *firsts,
           CroDate          chosen,
           GtkStringList   *names)
{
  guint selected = 0;

  g_array_set_size (self->others, 0);
  gtk_string_list_append (names, _("no month"));
  for (guint i = 0; i < firsts->len; i++)
    {
      CroDate first = g_array_index (firsts, CroDate, i);
      g_autofree char *name = cro_month_to_text (first);

      if (first == self->page)
        continue;
      g_array_append_val (self->others, first);
      gtk_string_list_append (names, name);
      if (first == chosen)
        selected = self->others->len;
    }
  return selected;
}

void
cro_month_compare_fill (CroMonthCompare *self,
                        GArray          *firsts,
                        CroDate          page)
{
  CroDate chosen = page == self->page ? cro_month_compare_get (self) : cro_month_first_of (page - 1);
  GtkStringList *names;
  guint selected;

  if (page == self->page && has_all (self, firsts))
    return;
  self->page = page;
  names = gtk_string_list_new (NULL);
  selected = add_names (self, firsts, chosen, names);
  self->is_setting = TRUE;
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->choice), G_LIST_MODEL (names));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->choice), selected);
  self->is_setting = FALSE;
  g_object_unref (names);
}

static void
chosen_cb (CroMonthCompare *self)
{
  if (!self->is_setting)
    g_signal_emit (self, signals[CHANGED], 0);
}

static void
cro_month_compare_dispose (GObject *object)
{
  CroMonthCompare *self = CRO_MONTH_COMPARE (object);

  self->is_setting = TRUE;
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->others, g_array_unref);
  G_OBJECT_CLASS (cro_month_compare_parent_class)->dispose (object);
}

static void
cro_month_compare_class_init (CroMonthCompareClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_month_compare_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[CHANGED] = g_signal_new ("changed", CRO_TYPE_MONTH_COMPARE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
}

static void
cro_month_compare_init (CroMonthCompare *self)
{
  /* Translators: before a choice of months, of which one stands beside the page's. */
  GtkWidget *label = gtk_label_new (_("compare"));

  self->page = CRO_NO_DAY;
  self->others = g_array_new (FALSE, FALSE, sizeof (CroDate));
  self->choice = cro_drop_down_new ((const char *const[]){ _("no month"), NULL }, _("Month to compare with"));
  g_signal_connect_object (self->choice, "notify::selected", G_CALLBACK (chosen_cb), self, G_CONNECT_SWAPPED);
  self->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  gtk_widget_add_css_class (label, "dim-label");
  gtk_box_append (GTK_BOX (self->box), label);
  gtk_box_append (GTK_BOX (self->box), self->choice);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_month_compare_new (void)
{
  return g_object_new (CRO_TYPE_MONTH_COMPARE, NULL);
}
