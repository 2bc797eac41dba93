#include "config.h"

#include "cro-till-names.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-field.h"
#include "cro-finder-entry.h"
#include "cro-finder.h"
#include "cro-focus.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-spoken.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* Names shown at once, of each kind. */
#define MOST_SHOWN 60

#define THINGS (1u << CRO_KIND_PLATE | 1u << CRO_KIND_MENU)

struct _CroTillNames
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *waiting;
  GtkWidget *settled;

  CroBench  *bench;       /* borrowed */
  CroTill   *till;        /* borrowed */
};

G_DEFINE_FINAL_TYPE (CroTillNames, cro_till_names, GTK_TYPE_WIDGET)

enum
{
  SETTLED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static CroBook *
book_of (CroTillNames *self)
{
  return cro_bench_get_book (self->bench);
}

static void
clear_box (GtkWidget *box)
{
  for (GtkWidget *child; (child = gtk_widget_get_first_child (box)) != NULL;)
    gtk_box_remove (GTK_BOX (box), child);
}

static void show_names (CroTillNames *self);

/* --- Settling ------------------------------------------------------------------------------------------- */

static guint
name_of_row (GtkWidget *widget)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (widget), "name"));
}

/* The focus goes on to the next that waits. */
static void
settle (CroTillNames *self,
        guint         name,
        CroTillState  state,
        CroRef        thing)
{
  cro_till_settle (self->till, name, state, thing);
  show_names (self);
  gtk_widget_grab_focus (GTK_WIDGET (self));
  g_signal_emit (self, signals[SETTLED], 0);
}

typedef struct
{
  CroTillNames *names;
  guint         name;
  CroTillState  state;
  CroRef        thing;
} Later;

static gboolean
settle_later (gpointer data)
{
  Later *later = data;

  if (later->names->till != NULL)
    settle (later->names, later->name, later->state, later->thing);
  g_object_unref (later->names);
  g_free (later);
  return G_SOURCE_REMOVE;
}

/* Rows are made anew: never under the event of one of them. */
static void
settle_soon (CroTillNames  *self,
             guint         name,
             CroTillState  state,
             CroRef        thing)
{
  Later *later = g_new0 (Later, 1);

  *later = (Later){ g_object_ref (self), name, state, thing };
  g_idle_add (settle_later, later);
}

static void
thing_chosen_cb (CroTillNames *self,
                 int          kind,
                 guint        slot,
                 GtkWidget   *finder)
{
  settle_soon (self, name_of_row (finder), CRO_TILL_THING,
               CRO_REF (kind == CRO_KIND_MENU ? CRO_REF_MENU : CRO_REF_RECIPE, slot));
}

static void
suggested_cb (CroTillNames *self,
              GtkWidget   *button)
{
  guint slot = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "slot"));
  gboolean is_menu = g_object_get_data (G_OBJECT (button), "menu") != NULL;

  settle_soon (self, name_of_row (button), CRO_TILL_THING,
               CRO_REF (is_menu ? CRO_REF_MENU : CRO_REF_RECIPE, slot));
}

static void
other_cb (CroTillNames *self,
          GtkWidget   *button)
{
  settle_soon (self, name_of_row (button), CRO_TILL_OTHER, CRO_REF_NOWHERE);
}

static void
left_out_cb (CroTillNames *self,
             GtkWidget   *button)
{
  settle_soon (self, name_of_row (button), CRO_TILL_LEFT_OUT, CRO_REF_NOWHERE);
}

static void
unsettle_cb (CroTillNames *self,
             GtkWidget   *button)
{
  settle_soon (self, name_of_row (button), CRO_TILL_UNSETTLED, CRO_REF_NOWHERE);
}

/* --- Rows ------------------------------------------------------------------------------------------------ */

static GtkWidget *
button_new (CroTillNames *self,
            const char  *label,
            const char  *spoken,
            guint        name,
            GCallback    clicked)
{
  GtkWidget *button = gtk_button_new_with_label (label);
  g_autofree char *both = cro_isolate_printf ("%s: %s", label, spoken);

  g_object_set_data (G_OBJECT (button), "name", GUINT_TO_POINTER (name));
  cro_spoken_set (button, both);
  g_signal_connect_object (button, "clicked", clicked, self, G_CONNECT_SWAPPED);
  return button;
}

/* "12 rows · 24 sold · 144.00". */
static char *
dup_figures (CroTillNames       *self,
             const CroTillName *name)
{
  CroModel *model = cro_book_get_model (book_of (self));
  g_autofree char *n = cro_number_to_text (name->n_rows, 0, TRUE), *sold = cro_words_decimal (name->sold);
  g_autofree char *money = name->revenue != CRO_NOT_SET ? cro_words_price (model, name->revenue) : NULL;
  /* Translators: a number of rows of a file. */
  g_autofree char *rows = g_strdup_printf (ngettext ("%s row", "%s rows", name->n_rows), n);

  if (money == NULL)
    /* Translators: "12 rows", and how many were sold. */
    return g_strdup_printf (_("%s · %s sold"), rows, sold);
  /* Translators: "12 rows", how many were sold, and money. */
  return g_strdup_printf (_("%s · %s sold · %s"), rows, sold, money);
}

static GtkWidget *
label_new (const char *text,
           const char *css_class)
{
  g_autofree char *isolated = cro_isolate (text);
  GtkWidget *label = gtk_label_new (isolated);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), 12);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 36);
  gtk_widget_set_tooltip_text (label, isolated);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

/* The best for all of its words, else for the first that is more than an article. */
static gboolean
find_like (CroFinder  *finder,
           const char *text,
           CroFound   *best)
{
  g_autoptr (GArray) found = cro_finder_find (finder, text, THINGS, 1);
  g_autofree char *folded = cro_fold (text);
  g_auto (GStrv) words = g_strsplit (folded, " ", -1);

  for (guint i = 0; found->len == 0 && words[i] != NULL; i++)
    {
      if (strlen (words[i]) <= 3)
        continue;
      g_array_unref (found);
      found = cro_finder_find (finder, words[i], THINGS, 1);
      if (found->len > 0 && g_array_index (found, CroFound, 0).score < CRO_MATCH_STARTS)
        g_array_set_size (found, 0);
      break;
    }
  if (found->len > 0)
    *best = g_array_index (found, CroFound, 0);
  return found->len > 0;
}

/* The best of the book for it is proposed, never taken. */
static void
append_suggestion (CroTillNames       *self,
                   GtkWidget         *wrap,
                   CroFinder         *finder,
                   const CroTillName *name,
                   guint              at)
{
  g_autofree char *label = NULL;
  GtkWidget *button;
  CroFound found;
  const CroFound *best = &found;

  if (!find_like (finder, name->name, &found))
    return;
  /* Translators: a button: a plate or menu that a name of the till may be. */
  label = cro_isolate_printf (_("It Is %s"), cro_kind_name (cro_book_get_model (book_of (self)), best->kind,
                                                            best->slot));
  button = button_new (self, label, name->name, at, G_CALLBACK (suggested_cb));
  g_object_set_data (G_OBJECT (button), "slot", GUINT_TO_POINTER (best->slot));
  g_object_set_data (G_OBJECT (button), "menu", GINT_TO_POINTER (best->kind == CRO_KIND_MENU));
  cro_wrap_append (CRO_WRAP (wrap), button);
}

static GtkWidget *
waiting_new (CroTillNames *self,
             CroFinder   *finder,
             guint        at)
{
  const CroTillName *name = &g_array_index (self->till->names, CroTillName, at);
  g_autofree char *figures = dup_figures (self, name);
  /* Translators: the accessible name of a field; %s is a name as the till has it. */
  g_autofree char *spoken = cro_isolate_printf (_("Which plate or menu is %s"), name->name);
  GtkWidget *wrap = cro_wrap_new (9, 6), *both = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *entry = cro_finder_entry_new (spoken, _("plate or menu"), THINGS);

  cro_finder_entry_put (CRO_FINDER_ENTRY (entry), book_of (self));
  g_object_set_data (G_OBJECT (entry), "name", GUINT_TO_POINTER (at));
  g_signal_connect_object (entry, "chosen", G_CALLBACK (thing_chosen_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (both), label_new (name->name, NULL));
  gtk_box_append (GTK_BOX (both), label_new (figures, "dim-label"));
  gtk_widget_set_size_request (both, 210, -1);
  gtk_widget_set_valign (entry, GTK_ALIGN_START);
  cro_wrap_append (CRO_WRAP (wrap), both);
  cro_wrap_append (CRO_WRAP (wrap), entry);
  append_suggestion (self, wrap, finder, name, at);
  cro_wrap_append (CRO_WRAP (wrap), button_new (self, _("Other Revenue"), name->name, at, G_CALLBACK (other_cb)));
  cro_wrap_append (CRO_WRAP (wrap), button_new (self, _("Leave Out"), name->name, at, G_CALLBACK (left_out_cb)));
  return wrap;
}

static GtkWidget *
settled_new (CroTillNames *self,
             guint        at)
{
  const CroTillName *name = &g_array_index (self->till->names, CroTillName, at);
  CroModel *model = cro_book_get_model (book_of (self));
  const char *as = name->state == CRO_TILL_THING   ? cro_ref_name (model, name->thing)
                   : name->state == CRO_TILL_OTHER ? _("other revenue")
                                                   : _("left out");
  g_autofree char *figures = dup_figures (self, name);
  g_autofree char *text = cro_isolate_printf ("%s → %s", name->name, as);
  GtkWidget *wrap = cro_wrap_new (9, 0), *change;

  change = button_new (self, C_("name", "Change"), name->name, at, G_CALLBACK (unsettle_cb));
  gtk_widget_add_css_class (change, "flat");
  cro_wrap_append (CRO_WRAP (wrap), label_new (text, NULL));
  cro_wrap_append (CRO_WRAP (wrap), label_new (figures, "dim-label"));
  cro_wrap_append (CRO_WRAP (wrap), change);
  return wrap;
}

static void
show_names (CroTillNames *self)
{
  g_autoptr (CroFinder) finder = cro_finder_new (book_of (self));
  guint n_waiting = 0, n_settled = 0, n = self->till != NULL ? self->till->names->len : 0;

  clear_box (self->waiting);
  clear_box (self->settled);
  for (guint i = 0; i < n; i++)
    {
      gboolean waits = g_array_index (self->till->names, CroTillName, i).state == CRO_TILL_UNSETTLED;

      if (waits && n_waiting++ < MOST_SHOWN)
        gtk_box_append (GTK_BOX (self->waiting), waiting_new (self, finder, i));
      if (!waits && n_settled++ < MOST_SHOWN)
        gtk_box_append (GTK_BOX (self->settled), settled_new (self, i));
    }
}

void
cro_till_names_put (CroTillNames *self,
                    CroTill      *till)
{
  self->till = till;
  show_names (self);
}

/* --- The widget ----------------------------------------------------------------------------------------- */

/* Nothing waits: it does not take the focus. */
static gboolean
cro_till_names_grab_focus (GtkWidget *widget)
{
  CroTillNames *self = CRO_TILL_NAMES (widget);

  return gtk_widget_get_first_child (self->waiting) != NULL && cro_focus_first (self->waiting);
}

static void
cro_till_names_dispose (GObject *object)
{
  CroTillNames *self = CRO_TILL_NAMES (object);

  self->till = NULL;
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_till_names_parent_class)->dispose (object);
}

static void
cro_till_names_class_init (CroTillNamesClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_till_names_dispose;
  GTK_WIDGET_CLASS (klass)->grab_focus = cro_till_names_grab_focus;
  GTK_WIDGET_CLASS (klass)->focus = cro_focus_within;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[SETTLED] = g_signal_new ("settled", CRO_TYPE_TILL_NAMES, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                   G_TYPE_NONE, 0);
}

static void
cro_till_names_init (CroTillNames *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  self->waiting = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  self->settled = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_box_append (GTK_BOX (self->box), self->waiting);
  gtk_box_append (GTK_BOX (self->box), self->settled);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_till_names_new (CroBench *bench)
{
  CroTillNames *self = g_object_new (CRO_TYPE_TILL_NAMES, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
