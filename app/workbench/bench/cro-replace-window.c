#include "config.h"

#include "cro-replace-window.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-consequence-grid.h"
#include "cro-consequence-words.h"
#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-finder-entry.h"
#include "cro-isolate.h"
#include "cro-kind.h"
#include "cro-line-amount.h"
#include "cro-refused-words.h"
#include "cro-replacement.h"
#include "cro-uses.h"

#define HEIGHT 600

/* Lines of a preparation that goes, likewise. */
#define MOST_DROPPED 12

struct _CroReplaceWindow
{
  AdwWindow  parent_instance;

  GtkWidget *finder;
  GtkWidget *chosen;      /* what was found */
  GtkWidget *uses;        /* a check button for each recipe */
  GtkWidget *merge;
  GtkWidget *warning;
  GtkWidget *consequences;
  GtkWidget *off;         /* of a removal: takes it off those menus */
  GtkWidget *done;

  CroBench  *bench;       /* weak */
  CroBook   *book;
  gboolean   is_plate;    /* a plate on menus; else an item in recipes */
  gboolean   is_removal;  /* the plate is to go */
  gboolean   is_on_record;/* it was sold, and stays in the book */
  guint32    item;
  guint32    by;          /* CRO_NO_SLOT: nothing is chosen yet */
  GArray    *recipes;     /* guint32: those that take it, or its menus, as the check buttons stand */
};

G_DEFINE_FINAL_TYPE (CroReplaceWindow, cro_replace_window, ADW_TYPE_WINDOW)

static CroModel *
model_of (CroReplaceWindow *self)
{
  return cro_book_get_model (self->book);
}

static const char *
name_of (CroReplaceWindow *self,
         guint32           item)
{
  return cro_ref_name (model_of (self), CRO_REF (self->is_plate ? CRO_REF_RECIPE : CRO_REF_ITEM, item));
}

/* --- What would be done ----------------------------------------------------------------------- */

static gboolean
is_merge (CroReplaceWindow *self)
{
  return gtk_widget_get_visible (self->merge)
         && gtk_check_button_get_active (GTK_CHECK_BUTTON (self->merge));
}

/* Those whose check buttons are set. Owned. */
static GArray *
list_chosen (CroReplaceWindow *self)
{
  GArray *chosen = g_array_new (FALSE, FALSE, sizeof (guint32));
  guint i = 0;

  for (GtkWidget *check = gtk_widget_get_first_child (self->uses); check != NULL;
       check = gtk_widget_get_next_sibling (check), i++)
    if (gtk_check_button_get_active (GTK_CHECK_BUTTON (check)))
      g_array_append_val (chosen, g_array_index (self->recipes, guint32, i));
  return chosen;
}

/* Whether the plate goes: no menu keeps it, and nothing is on record of it. */
static gboolean
is_gone (CroReplaceWindow *self,
         GArray           *chosen)
{
  return self->is_removal && !self->is_on_record && chosen->len == self->recipes->len;
}

static CroReplacement
replacement_of (CroReplaceWindow *self,
                GArray           *chosen,
                guint32           by)
{
  gboolean is_all = is_merge (self) || chosen->len == self->recipes->len;

  return (CroReplacement){ .item = self->item, .by = by,
                           .recipes = is_all ? NULL : (const guint32 *) chosen->data,
                           .n_recipes = is_all ? 0 : chosen->len, .is_merge = is_merge (self),
                           .is_plate = self->is_plate, .is_removal = is_gone (self, chosen) };
}

/* What cannot be converted is said before it is kept; it does not stand in the way. */
static char *
dup_unknown (CroReplaceWindow     *self,
             const CroReplacement *replacement)
{
  g_autoptr (GArray) unknown = cro_replacement_list_unknown (cro_book_get_figures (self->book),
                                                             replacement);
  g_autofree char *name = cro_isolate (name_of (self, self->by));

  return unknown->len == 0
             ? NULL
             : g_strdup_printf (ngettext ("%u amount cannot be converted: %s has no density, or no "
                                          "weight of a piece. Its cost will be missing.",
                                          "%u amounts cannot be converted: %s has no density, or "
                                          "no weight of a piece. Their cost will be missing.",
                                          unknown->len),
                                unknown->len, name);
}

/* "600 g Crab shells" */
static void
add_line (CroReplaceWindow *self,
          GString          *names,
          guint32           line)
{
  CroModel *model = model_of (self);
  g_autofree char *amount = cro_line_amount_to_text ((CroLineAmount){ model->lines.amount[line],
                                                                      (CroUnit) model->lines.unit[line] }, 0);
  g_autofree char *text = cro_isolate_printf ("%s %s", amount, name_of (self, model->lines.item[line]));

  g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "", text);
}

/* A preparation that is merged goes with its lines: which, is said before. NULL: none do. */
static char *
dup_dropped (CroReplaceWindow *self)
{
  CroModel *model = model_of (self);
  gint32 recipe = model->maker[self->item];
  g_autoptr (GString) names = g_string_new (NULL);
  g_autoptr (GArray) lines = NULL;

  if (!is_merge (self) || recipe < 0)
    return NULL;
  lines = cro_edit_list_lines (cro_book_get_figures (self->book), (guint32) recipe);
  for (guint i = 0; i < MIN (lines->len, MOST_DROPPED); i++)
    add_line (self, names, g_array_index (lines, guint32, i));
  if (lines->len == 0)
    return NULL;
  if (lines->len > MOST_DROPPED)
    {
      guint others = lines->len - MOST_DROPPED;

      g_string_append (names, ", ");
      g_string_append_printf (names, ngettext ("%u other", "%u others", others), others);
    }
  /* Translators: a preparation that is merged into another, and its lines. */
  return cro_isolate_printf (_("The preparation “%s” goes, and what it is made of: %s"),
                             name_of (self, self->item), names->str);
}

/* --- Consequences told -------------------------------------------------------------------------- */

static void
add_sentence (GString *text,
              char    *sentence)
{
  if (sentence != NULL)
    g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", sentence);
  g_free (sentence);
}

static char *
dup_off (gboolean is_gone,
         guint    n)
{
  return is_gone ? g_strdup_printf (ngettext ("Take Off %u Menu and Remove", "Take Off %u Menus and Remove", n), n)
                 : g_strdup_printf (ngettext ("Take Off %u Menu", "Take Off %u Menus", n), n);
}

static void
show_buttons (CroReplaceWindow *self,
              GArray           *chosen)
{
  guint n = chosen->len;
  g_autofree char *off = dup_off (is_gone (self, chosen), n);
  g_autofree char *text = is_merge (self) ? g_strdup (_("Merge"))
                          : is_gone (self, chosen)
                              ? g_strdup_printf (ngettext ("Replace on %u Menu and Remove",
                                                           "Replace on %u Menus and Remove", n), n)
                          : self->is_plate ? g_strdup_printf (ngettext ("Replace on %u Menu",
                                                                        "Replace on %u Menus", n), n)
                                           : g_strdup_printf (ngettext ("Replace in %u Recipe",
                                                                        "Replace in %u Recipes", n), n);

  gtk_button_set_label (GTK_BUTTON (self->done), text);
  gtk_button_set_label (GTK_BUTTON (self->off), off);
  gtk_widget_set_sensitive (self->off, n > 0);
}

/* The menus that have the other plate already; NULL: none. */
static char *
dup_twice (CroReplaceWindow *self,
           GArray           *menus)
{
  g_autoptr (GString) names = g_string_new (NULL);

  for (guint i = 0; self->is_plate && i < menus->len; i++)
    {
      guint32 menu = g_array_index (menus, guint32, i);

      if (cro_replacement_is_on (model_of (self), menu, self->by))
        cro_isolate_append (names, cro_model_menu (model_of (self), menu)->name);
    }
  /* Translators: a plate that should come in the place of another, and menus. */
  return names->len == 0 ? NULL
                         : cro_isolate_printf (_("“%s” is on these menus already: %s. Choose another plate, or leave "
                                                 "them out."),
                                               name_of (self, self->by), names->str);
}

static gboolean
show_replaced (CroReplaceWindow *self,
               GArray           *chosen,
               GString          *warning)
{
  CroReplacement replacement = replacement_of (self, chosen, self->by);
  g_autofree char *twice = dup_twice (self, chosen);
  g_autoptr (GArray) told = NULL;
  g_autoptr (GError) error = NULL;

  if (twice == NULL)
    told = cro_replacement_try (self->book, &replacement, &error);
  if (told == NULL)
    {
      add_sentence (warning, twice != NULL ? g_steal_pointer (&twice) : cro_words_failed (error));
      return FALSE;
    }
  if (!self->is_plate)
    {
      add_sentence (warning, dup_dropped (self));
      add_sentence (warning, dup_unknown (self, &replacement));
    }
  add_sentence (warning, cro_consequences_allergens (model_of (self), told));
  cro_consequence_grid_add (self->consequences, model_of (self),
                            self->is_removal ? gtk_label_get_label (GTK_LABEL (self->chosen)) : NULL, told,
                            self->is_plate);
  return TRUE;
}

static void
show_taken_off (CroReplaceWindow *self,
                GArray           *chosen,
                GString          *warning)
{
  CroReplacement replacement = replacement_of (self, chosen, CRO_NO_SLOT);
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) told = cro_replacement_try (self->book, &replacement, &error);

  if (told == NULL)
    add_sentence (warning, cro_words_failed (error));
  else
    /* Translators: over what menus cost from which a plate is taken. */
    cro_consequence_grid_add (self->consequences, model_of (self), _("taken off"), told, self->is_plate);
}

static void
refresh (CroReplaceWindow *self)
{
  g_autoptr (GArray) chosen = list_chosen (self);
  g_autoptr (GString) warning = g_string_new (NULL);
  gboolean can_replace = FALSE;

  show_buttons (self, chosen);
  gtk_widget_set_sensitive (self->uses, !is_merge (self));
  cro_consequence_grid_clear (self->consequences);
  if (self->is_removal && chosen->len > 0)
    show_taken_off (self, chosen, warning);
  if (self->by != CRO_NO_SLOT)
    can_replace = show_replaced (self, chosen, warning);
  else if (!self->is_removal)
    cro_consequence_grid_add_text (self->consequences, 0, _("Choose what comes in its place."));
  gtk_label_set_label (GTK_LABEL (self->warning), warning->str);
  gtk_widget_set_visible (self->warning, warning->len > 0);
  gtk_widget_set_sensitive (self->done, can_replace && (is_merge (self) || chosen->len > 0));
}

/* --- Choosing --------------------------------------------------------------------------------- */

/* What is bought merges with what is bought, what is made with what is made. */
static void
choose (CroReplaceWindow *self,
        guint             slot)
{
  CroModel *model = model_of (self);
  g_autofree char *name = NULL, *text = NULL;

  self->by = slot;
  name = cro_isolate (name_of (self, slot));
  /* Translators: what comes in the place of another thing. */
  text = g_strdup_printf (_("In its place: %s"), name);
  gtk_label_set_label (GTK_LABEL (self->chosen), text);
  gtk_widget_set_visible (self->merge, !self->is_plate
                                           && (model->maker[self->item] < 0) == (model->maker[slot] < 0));
  refresh (self);
}

/* What is chosen by name comes in its place; that both become one is to be asked for anew. */
static void
chosen_cb (CroReplaceWindow *self,
           int               kind,
           guint             slot)
{
  if (slot == self->item)
    return;
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->merge), FALSE);
  choose (self, slot);
  if (gtk_widget_get_sensitive (self->done))
    gtk_widget_grab_focus (self->done);
}

static void
add_use (CroReplaceWindow *self,
         guint32           slot,
         const char       *text)
{
  GtkWidget *check = gtk_check_button_new_with_label (text);

  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), TRUE);
  g_signal_connect_object (check, "toggled", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self->uses), check);
  g_array_append_val (self->recipes, slot);
}

static void
list_recipes (CroReplaceWindow *self)
{
  CroModel *model = model_of (self);
  g_autoptr (GArray) uses = cro_uses_new (cro_book_get_figures (self->book), &self->item, 1);

  for (guint i = 0; i < uses->len; i++)
    {
      const CroUse *use = &g_array_index (uses, CroUse, i);
      g_autofree char *amount = cro_words_use_amount (model, use);
      g_autofree char *text = cro_isolate_printf ("%s · %s", cro_model_recipe (model, use->recipe)->name,
                                                  amount);

      add_use (self, use->recipe, text);
    }
}

static void
list_menus (CroReplaceWindow *self)
{
  g_autoptr (GArray) menus = cro_replacement_list_menus (model_of (self), self->item);

  for (guint i = 0; i < menus->len; i++)
    {
      guint32 menu = g_array_index (menus, guint32, i);
      g_autofree char *name = cro_isolate (cro_model_menu (model_of (self), menu)->name);

      add_use (self, menu, name);
    }
}

/* Nothing is asked where it cannot be read: the act tells. */
static gboolean
is_on_record (CroReplaceWindow *self)
{
  g_autoptr (GArray) users = cro_edit_list_users (self->book, CRO_REF (CRO_REF_RECIPE, self->item), NULL);

  for (guint i = 0; users != NULL && i < users->len; i++)
    if (g_array_index (users, CroRef, i).kind != CRO_REF_MENU)
      return TRUE;
  return FALSE;
}

/* --- The act ---------------------------------------------------------------------------------- */

/* An entry of the history. */
static char *
dup_label (CroReplaceWindow     *self,
           const CroReplacement *replacement)
{
  const char *name = name_of (self, self->item);

  if (replacement->by != CRO_NO_SLOT)
    return cro_isolate_printf (replacement->is_merge ? _("merge of %s into %s") : _("replacement of %s by %s"), name,
                               name_of (self, replacement->by));
  if (replacement->is_removal)
    return cro_act_dup_label (_("removal"), name);
  return cro_isolate_printf (_("removal of %s from menus"), name);
}

static void
keep (CroReplaceWindow     *self,
      const CroReplacement *replacement)
{
  g_autofree char *label = dup_label (self, replacement);
  CroBench *bench = self->bench;
  CroRefKind kind = self->is_plate ? CRO_REF_RECIPE : CRO_REF_ITEM;
  gboolean is_gone = replacement->is_merge || replacement->is_removal;
  g_autoptr (GError) error = NULL;

  if (!cro_edit_replace (self->book, label, replacement, &error))
    {
      g_autofree char *text = cro_words_failed (error);

      gtk_label_set_label (GTK_LABEL (self->warning), text);
      gtk_widget_set_visible (self->warning, TRUE);
      return;
    }
  gtk_window_close (GTK_WINDOW (self));
  if (bench == NULL)
    return;
  /* What was merged or replaced for good is gone from the bench. */
  if (is_gone && replacement->by != CRO_NO_SLOT)
    cro_bench_open (bench, CRO_REF (kind, replacement->by));
  cro_bench_say (bench, label);
}

static void
done_cb (CroReplaceWindow *self)
{
  g_autoptr (GArray) chosen = list_chosen (self);
  CroReplacement replacement = replacement_of (self, chosen, self->by);

  keep (self, &replacement);
}

static void
off_cb (CroReplaceWindow *self)
{
  g_autoptr (GArray) chosen = list_chosen (self);
  CroReplacement replacement = replacement_of (self, chosen, CRO_NO_SLOT);

  keep (self, &replacement);
}

/* --- The window ------------------------------------------------------------------------------- */

static void
cro_replace_window_dispose (GObject *object)
{
  CroReplaceWindow *self = CRO_REPLACE_WINDOW (object);

  g_clear_weak_pointer (&self->bench);
  g_clear_object (&self->book);
  g_clear_pointer (&self->recipes, g_array_unref);
  G_OBJECT_CLASS (cro_replace_window_parent_class)->dispose (object);
}

static void
cro_replace_window_class_init (CroReplaceWindowClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_replace_window_dispose;
  gtk_widget_class_add_binding_action (GTK_WIDGET_CLASS (klass), GDK_KEY_Escape, 0, "window.close",
                                       NULL);
}

static void
cro_replace_window_init (CroReplaceWindow *self)
{
  self->by = CRO_NO_SLOT;
  self->recipes = g_array_new (FALSE, FALSE, sizeof (guint32));
}

static GtkWidget *
scrolled_new (GtkWidget *child,
              int        height)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), child);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), height);
  return scroller;
}

static void
add_choice (CroReplaceWindow *self,
            GtkWidget        *box)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  self->finder = cro_finder_entry_new (_("Replace by"), _("Name of what comes in its place"),
                                       self->is_plate ? 1u << CRO_KIND_PLATE
                                                      : 1u << CRO_KIND_INGREDIENT | 1u << CRO_KIND_OUTPUT);
  cro_finder_entry_put (CRO_FINDER_ENTRY (self->finder), self->book);
  cro_finder_entry_set_without (CRO_FINDER_ENTRY (self->finder), self->item);
  g_signal_connect_object (self->finder, "chosen", G_CALLBACK (chosen_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_set_hexpand (self->finder, TRUE);
  self->chosen = gtk_label_new (NULL);
  gtk_label_set_ellipsize (GTK_LABEL (self->chosen), PANGO_ELLIPSIZE_END);
  gtk_box_append (GTK_BOX (row), self->finder);
  gtk_box_append (GTK_BOX (row), self->chosen);
  gtk_box_append (GTK_BOX (box), row);
  self->merge = gtk_check_button_new_with_label (
      _("Merge both: packs, prices, tests, counts and purchases move too"));
  gtk_widget_set_visible (self->merge, FALSE);
  g_signal_connect_object (self->merge, "toggled", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), self->merge);
}

static void
add_buttons (CroReplaceWindow *self,
             GtkWidget        *box)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  gtk_widget_set_halign (row, GTK_ALIGN_END);
  self->off = gtk_button_new ();
  gtk_widget_set_visible (self->off, self->is_removal);
  g_signal_connect_object (self->off, "clicked", G_CALLBACK (off_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (row), self->off);
  self->done = gtk_button_new ();
  gtk_widget_add_css_class (self->done, "suggested-action");
  g_signal_connect_object (self->done, "clicked", G_CALLBACK (done_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (row), self->done);
  gtk_box_append (GTK_BOX (box), row);
}

static GtkWidget *
content_new (CroReplaceWindow *self,
             const char       *reason)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12), *scroller;

  gtk_widget_add_css_class (box, "bench");
  if (reason != NULL)
    gtk_box_append (GTK_BOX (box), cro_text_new (reason, NULL));
  add_choice (self, box);
  gtk_box_append (GTK_BOX (box), cro_heading_new (_("Used In")));
  self->uses = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  (self->is_plate ? list_menus : list_recipes) (self);
  gtk_box_append (GTK_BOX (box), scrolled_new (self->uses, 200));
  self->warning = cro_text_new ("", "reason");
  gtk_widget_set_visible (self->warning, FALSE);
  gtk_box_append (GTK_BOX (box), self->warning);
  gtk_box_append (GTK_BOX (box), cro_heading_new (self->is_plate ? _("Effect on Menus") : _("Effect on Plates")));
  self->consequences = cro_consequence_grid_new ();
  scroller = scrolled_new (self->consequences, 280);
  gtk_widget_set_vexpand (scroller, TRUE);
  gtk_box_append (GTK_BOX (box), scroller);
  add_buttons (self, box);
  return box;
}

static CroReplaceWindow *
window_new (CroBench   *bench,
            CroRef      thing,
            const char *reason,
            gboolean    is_removal)
{
  CroReplaceWindow *self = g_object_new (CRO_TYPE_REPLACE_WINDOW, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  g_autofree char *title = NULL;

  g_set_weak_pointer (&self->bench, bench);
  self->book = g_object_ref (cro_bench_get_book (bench));
  self->is_plate = thing.kind == CRO_REF_RECIPE;
  self->is_removal = is_removal && self->is_plate;
  self->item = thing.slot;
  self->is_on_record = self->is_removal && is_on_record (self);
  title = cro_isolate_printf (self->is_removal ? _("Remove %s") : _("Replace %s"), name_of (self, self->item));
  gtk_window_set_title (GTK_WINDOW (self), title);
  gtk_window_set_transient_for (GTK_WINDOW (self), GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (bench))));
  gtk_window_set_modal (GTK_WINDOW (self), TRUE);
  /* High enough for what is found while typing: it neither grows nor moves. */
  gtk_window_set_default_size (GTK_WINDOW (self), 720, HEIGHT);
  gtk_box_append (GTK_BOX (box), adw_header_bar_new ());
  gtk_box_append (GTK_BOX (box), content_new (self, reason));
  adw_window_set_content (ADW_WINDOW (self), box);
  refresh (self);
  gtk_widget_child_focus (self->finder, GTK_DIR_TAB_FORWARD);
  return self;
}

GtkWidget *
cro_replace_window_new (CroBench   *bench,
                        CroRef      thing,
                        const char *reason)
{
  return GTK_WIDGET (window_new (bench, thing, reason, FALSE));
}

GtkWidget *
cro_replace_window_new_removal (CroBench   *bench,
                                CroRef      thing,
                                const char *reason)
{
  return GTK_WIDGET (window_new (bench, thing, reason, TRUE));
}

GtkWidget *
cro_replace_window_new_merge (CroBench   *bench,
                              CroRef      thing,
                              guint32     into,
                              const char *reason)
{
  CroReplaceWindow *self = window_new (bench, thing, reason, FALSE);

  /* The focus stays where another name can be typed: no key that a hand was on merges. */
  if (into != self->item)
    choose (self, into);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (self->merge), gtk_widget_get_visible (self->merge));
  return GTK_WIDGET (self);
}
