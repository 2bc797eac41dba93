#include "config.h"

#include "cro-intake-names.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-box.h"
#include "cro-drop-down.h"
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

/* What the finder looks for; a supplier is chosen in a list. */
static const guint kinds[CRO_N_INTAKES] = {
  [CRO_INTAKE_SALES] = 1u << CRO_KIND_PLATE | 1u << CRO_KIND_MENU,
  [CRO_INTAKE_COUNTS] = 1u << CRO_KIND_INGREDIENT | 1u << CRO_KIND_OUTPUT,
  [CRO_INTAKE_ADJUSTMENTS] = 1u << CRO_KIND_INGREDIENT | 1u << CRO_KIND_OUTPUT,
};

struct _CroIntakeNames
{
  GtkWidget parent_instance;

  GtkWidget *box;
  GtkWidget *waiting;
  GtkWidget *settled;

  CroBench *bench;   /* borrowed */
  CroIntake *intake; /* borrowed */
  guint show_id;     /* rows are about to be made anew */
};

G_DEFINE_FINAL_TYPE (CroIntakeNames, cro_intake_names, GTK_TYPE_WIDGET)

enum
{
  SETTLED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static CroBook *
book_of (CroIntakeNames *self)
{
  return cro_bench_get_book (self->bench);
}

static void show_names (CroIntakeNames *self);

/* --- Settling --------------------------------------------------------------------------------------- */

static guint
name_of_row (GtkWidget *widget)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (widget), "name"));
}

/* The focus goes on to the next that waits. */
static gboolean
show_settled (gpointer names)
{
  CroIntakeNames *self = names;

  self->show_id = 0;
  show_names (self);
  gtk_widget_grab_focus (GTK_WIDGET (self));
  g_signal_emit (self, signals[SETTLED], 0);
  return G_SOURCE_REMOVE;
}

/* Rows are made anew: never under the event of one of them. */
static void
settle (CroIntakeNames *self,
        guint           name,
        CroIntakeState  state,
        CroRef          thing)
{
  cro_intake_settle (self->intake, name, state, thing);
  if (self->show_id == 0)
    self->show_id = g_idle_add (show_settled, self);
}

static CroRef
ref_of (CroKind kind,
        guint   slot)
{
  switch (kind)
    {
    case CRO_KIND_MENU:
      return CRO_REF (CRO_REF_MENU, slot);
    case CRO_KIND_INGREDIENT:
    case CRO_KIND_OUTPUT:
      return CRO_REF (CRO_REF_ITEM, slot);
    default:
      return CRO_REF (CRO_REF_RECIPE, slot);
    }
}

static void
thing_chosen_cb (CroIntakeNames *self,
                 int             kind,
                 guint           slot,
                 GtkWidget      *finder)
{
  settle (self, name_of_row (finder), CRO_INTAKE_THING, ref_of ((CroKind) kind, slot));
}

static void
suggested_cb (CroIntakeNames *self,
              GtkWidget      *button)
{
  guint slot = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "slot"));
  guint kind = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "kind"));

  settle (self, name_of_row (button), CRO_INTAKE_THING, CRO_REF ((CroRefKind) kind, slot));
}

/* The first says what is to be chosen. */
static void
supplier_chosen_cb (CroIntakeNames *self,
                    GParamSpec     *pspec,
                    GtkWidget      *choice)
{
  GtkStringObject *chosen = gtk_drop_down_get_selected_item (GTK_DROP_DOWN (choice));
  CroModel *model = cro_book_get_model (book_of (self));

  if (gtk_drop_down_get_selected (GTK_DROP_DOWN (choice)) > 0 && chosen != NULL)
    settle (
        self, name_of_row (choice), CRO_INTAKE_THING,
        cro_edit_find_name (model, CRO_NAMES_SUPPLIERS, gtk_string_object_get_string (chosen)));
}

static void
other_cb (CroIntakeNames *self,
          GtkWidget      *button)
{
  settle (self, name_of_row (button), CRO_INTAKE_OTHER, CRO_REF_NOWHERE);
}

static void
left_out_cb (CroIntakeNames *self,
             GtkWidget      *button)
{
  settle (self, name_of_row (button), CRO_INTAKE_LEFT_OUT, CRO_REF_NOWHERE);
}

static void
unsettle_cb (CroIntakeNames *self,
             GtkWidget      *button)
{
  settle (self, name_of_row (button), CRO_INTAKE_UNSETTLED, CRO_REF_NOWHERE);
}

/* --- Rows
 * ------------------------------------------------------------------------------------------------
 */

static GtkWidget *
button_new (CroIntakeNames *self,
            const char     *label,
            const char     *spoken,
            guint           name,
            GCallback       clicked)
{
  GtkWidget *button = gtk_button_new_with_label (label);
  g_autofree char *both = cro_isolate_printf (_("%s: %s"), label, spoken);

  g_object_set_data (G_OBJECT (button), "name", GUINT_TO_POINTER (name));
  cro_spoken_set (button, both);
  g_signal_connect_object (button, "clicked", clicked, self, G_CONNECT_SWAPPED);
  return button;
}

/* "12 rows · 24 sold · 144.00". */
static char *
dup_figures (CroIntakeNames      *self,
             const CroIntakeName *name)
{
  CroModel *model = cro_book_get_model (book_of (self));
  g_autofree char *n = cro_number_to_text (name->n_rows, 0, TRUE),
                  *sold = cro_words_decimal (name->sold);
  g_autofree char *money
      = name->revenue != CRO_NOT_SET ? cro_words_price (model, name->revenue) : NULL;
  /* Translators: a number of rows of a file. */
  g_autofree char *rows = g_strdup_printf (ngettext ("%s row", "%s rows", name->n_rows), n);

  if (self->intake->kind != CRO_INTAKE_SALES)
    return money != NULL ? g_strdup_printf ("%s · %s", rows, money) : g_steal_pointer (&rows);
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

static gboolean
find_like (CroFinder  *finder,
           guint       of,
           const char *text,
           CroFound   *best)
{
  g_autoptr (GArray) found = cro_finder_find_like (finder, text, of, 1);

  if (found->len > 0)
    *best = g_array_index (found, CroFound, 0);
  return found->len > 0;
}

/* The only supplier that holds all of its words, or all of whose words it holds. */
static gboolean
find_supplier (CroModel   *model,
               const char *text,
               CroRef     *best)
{
  g_autoptr (CroQuery) query = cro_query_new (text);
  g_autofree char *folded = cro_fold (text);

  *best = CRO_REF_NOWHERE;
  for (guint32 i = 0; query != NULL && i < model->suppliers->len; i++)
    {
      const CroSupplier *supplier = &g_array_index (model->suppliers, CroSupplier, i);
      g_autofree char *name = supplier->is_dead ? NULL : cro_fold (supplier->name);
      g_autoptr (CroQuery) other = name != NULL ? cro_query_new (supplier->name) : NULL;

      if (other == NULL
          || MAX (cro_query_match (query, name), cro_query_match (other, folded))
                 < CRO_MATCH_STARTS)
        continue;
      if (best->kind != CRO_REF_NONE)
        return FALSE;
      *best = CRO_REF (CRO_REF_SUPPLIER, i);
    }
  return best->kind != CRO_REF_NONE;
}

static gboolean
find_best (CroIntakeNames *self,
           CroFinder      *finder,
           const char     *text,
           CroRef         *best)
{
  CroIntakeKind kind = self->intake->kind;
  CroFound found;

  if (kind == CRO_INTAKE_DOCUMENTS)
    return find_supplier (cro_book_get_model (book_of (self)), text, best);
  if (!find_like (finder, kinds[kind], text, &found))
    return FALSE;
  *best = ref_of (found.kind, found.slot);
  return TRUE;
}

/* The best of the book for it is proposed, never taken. */
static void
append_suggestion (CroIntakeNames      *self,
                   GtkWidget           *wrap,
                   CroFinder           *finder,
                   const CroIntakeName *name,
                   guint                at)
{
  g_autofree char *label = NULL;
  GtkWidget *button;
  CroRef best;

  if (!find_best (self, finder, name->name, &best))
    return;
  /* Translators: a button: what of the book a name of a sheet may be. */
  label = cro_isolate_printf (_("It Is %s"),
                              cro_ref_name (cro_book_get_model (book_of (self)), best));
  button = button_new (self, label, name->name, at, G_CALLBACK (suggested_cb));
  g_object_set_data (G_OBJECT (button), "slot", GUINT_TO_POINTER (best.slot));
  g_object_set_data (G_OBJECT (button), "kind", GUINT_TO_POINTER (best.kind));
  cro_wrap_append (CRO_WRAP (wrap), button);
}

static GtkWidget *
supplier_choice_new (CroIntakeNames *self,
                     const char     *spoken,
                     guint           at)
{
  CroModel *model = cro_book_get_model (book_of (self));
  GtkStringList *list = gtk_string_list_new (NULL);
  GtkWidget *choice = cro_drop_down_new_model (G_LIST_MODEL (list), spoken);

  gtk_string_list_append (list, _("choose a supplier"));
  for (guint32 i = 0; i < model->suppliers->len; i++)
    if (!g_array_index (model->suppliers, CroSupplier, i).is_dead)
      gtk_string_list_append (list, g_array_index (model->suppliers, CroSupplier, i).name);
  gtk_drop_down_set_enable_search (GTK_DROP_DOWN (choice), TRUE);
  g_object_set_data (G_OBJECT (choice), "name", GUINT_TO_POINTER (at));
  g_signal_connect_object (choice, "notify::selected", G_CALLBACK (supplier_chosen_cb), self,
                           G_CONNECT_SWAPPED);
  return choice;
}

static GtkWidget *
choice_new (CroIntakeNames      *self,
            const CroIntakeName *name,
            guint                at)
{
  CroIntakeKind kind = self->intake->kind;
  gboolean is_sale = kind == CRO_INTAKE_SALES;
  /* Translators: the accessible name of a field; %s is a name as the sheet has it. */
  g_autofree char *spoken
      = cro_isolate_printf (is_sale                        ? _("Which plate or menu is %s")
                            : kind == CRO_INTAKE_DOCUMENTS ? _("Which supplier is %s")
                                                           : _("Which item is %s"),
                            name->name);
  GtkWidget *entry;

  if (kind == CRO_INTAKE_DOCUMENTS)
    return supplier_choice_new (self, spoken, at);
  entry = cro_finder_entry_new (spoken, is_sale ? _("plate or menu") : _("item"), kinds[kind]);
  cro_finder_entry_put (CRO_FINDER_ENTRY (entry), book_of (self));
  g_object_set_data (G_OBJECT (entry), "name", GUINT_TO_POINTER (at));
  g_signal_connect_object (entry, "chosen", G_CALLBACK (thing_chosen_cb), self, G_CONNECT_SWAPPED);
  return entry;
}

static GtkWidget *
waiting_new (CroIntakeNames *self,
             CroFinder      *finder,
             guint           at)
{
  const CroIntakeName *name = &g_array_index (self->intake->names, CroIntakeName, at);
  CroIntakeKind kind = self->intake->kind;
  g_autofree char *figures = dup_figures (self, name);
  GtkWidget *wrap = cro_wrap_new (9, 6), *both = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *choice = choice_new (self, name, at);

  gtk_box_append (GTK_BOX (both), label_new (name->name, NULL));
  gtk_box_append (GTK_BOX (both), label_new (figures, "dim-label"));
  gtk_widget_set_size_request (both, 210, -1);
  gtk_widget_set_valign (choice, GTK_ALIGN_START);
  cro_wrap_append (CRO_WRAP (wrap), both);
  cro_wrap_append (CRO_WRAP (wrap), choice);
  append_suggestion (self, wrap, finder, name, at);
  if (kind == CRO_INTAKE_SALES)
    cro_wrap_append (CRO_WRAP (wrap),
                     button_new (self, _("Other Revenue"), name->name, at, G_CALLBACK (other_cb)));
  if (kind == CRO_INTAKE_DOCUMENTS)
    cro_wrap_append (CRO_WRAP (wrap),
                     button_new (self, _("New Supplier"), name->name, at, G_CALLBACK (other_cb)));
  cro_wrap_append (CRO_WRAP (wrap),
                   button_new (self, _("Leave Out"), name->name, at, G_CALLBACK (left_out_cb)));
  return wrap;
}

static GtkWidget *
settled_new (CroIntakeNames *self,
             guint           at)
{
  const CroIntakeName *name = &g_array_index (self->intake->names, CroIntakeName, at);
  CroModel *model = cro_book_get_model (book_of (self));
  const char *as = name->state == CRO_INTAKE_THING ? cro_ref_name (model, name->thing)
                   : name->state == CRO_INTAKE_OTHER && self->intake->kind == CRO_INTAKE_DOCUMENTS
                       ? _("new supplier")
                   : name->state == CRO_INTAKE_OTHER ? _("other revenue")
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
show_names (CroIntakeNames *self)
{
  CroFinder *finder = cro_finder_of (book_of (self));
  guint n_waiting = 0, n_settled = 0;

  cro_box_clear (self->waiting);
  cro_box_clear (self->settled);
  for (guint i = 0; i < self->intake->names->len; i++)
    {
      gboolean waits
          = g_array_index (self->intake->names, CroIntakeName, i).state == CRO_INTAKE_UNSETTLED;

      if (waits && n_waiting++ < MOST_SHOWN)
        gtk_box_append (GTK_BOX (self->waiting), waiting_new (self, finder, i));
      if (!waits && n_settled++ < MOST_SHOWN)
        gtk_box_append (GTK_BOX (self->settled), settled_new (self, i));
    }
}

void
cro_intake_names_put (CroIntakeNames *self,
                      CroIntake      *intake)
{
  g_clear_handle_id (&self->show_id, g_source_remove);
  self->intake = intake;
  if (intake != NULL)
    show_names (self);
}

/* --- The widget ------------------------------------------------------------------------------------- */

/* Nothing waits: it does not take the focus. */
static gboolean
cro_intake_names_grab_focus (GtkWidget *widget)
{
  CroIntakeNames *self = CRO_INTAKE_NAMES (widget);

  return gtk_widget_get_first_child (self->waiting) != NULL && cro_focus_first (self->waiting);
}

static void
cro_intake_names_dispose (GObject *object)
{
  CroIntakeNames *self = CRO_INTAKE_NAMES (object);

  cro_intake_names_put (self, NULL);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_intake_names_parent_class)->dispose (object);
}

static void
cro_intake_names_class_init (CroIntakeNamesClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_intake_names_dispose;
  GTK_WIDGET_CLASS (klass)->grab_focus = cro_intake_names_grab_focus;
  GTK_WIDGET_CLASS (klass)->focus = cro_focus_within;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[SETTLED] = g_signal_new ("settled", CRO_TYPE_INTAKE_NAMES, G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL, G_TYPE_NONE, 0);
}

static void
cro_intake_names_init (CroIntakeNames *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  self->waiting = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  self->settled = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_box_append (GTK_BOX (self->box), self->waiting);
  gtk_box_append (GTK_BOX (self->box), self->settled);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_intake_names_new (CroBench *bench)
{
  CroIntakeNames *self = g_object_new (CRO_TYPE_INTAKE_NAMES, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
