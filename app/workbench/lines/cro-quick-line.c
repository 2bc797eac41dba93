#include "config.h"

#include "cro-quick-line.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-example.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-hung.h"
#include "cro-isolate.h"
#include "cro-offered-keys.h"
#include "cro-quick-words.h"
#include "cro-quick.h"
#include "cro-reason.h"
#include "cro-reveal.h"
#include "cro-spoken.h"
#include "cro-typed.h"
#include "cro-waiting-lines.h"
#include "cro-words.h"

/* Names offered below what is typed. */
#define MOST_OFFERED 6

struct _CroQuickLine
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *entry;
  GtkWidget *hint;
  GtkWidget *hung;        /* the box, and what it offers over what stands around it */
  GtkWidget *offered;     /* names to choose from */
  CroWaitingLines *left;  /* borrowed; what could not be placed */

  CroBench  *bench;       /* borrowed */
  CroBook   *book;        /* whose recipes unfinished is of */
  GHashTable *unfinished; /* recipe → what was typed there and is not placed */
  guint32    recipe;
  guint32    placed;      /* what was placed last: CRO_NO_SLOT after several */
  gboolean   is_left;     /* what stands in the field is one of those that could not be placed */
  char      *over;        /* that one, where all of it stood selected before the last key; or NULL */
  guint      n_over;      /* so many of left, from the first, are what the line in the field was typed over in turn */
};

static void typed_init (CroTypedInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (CroQuickLine, cro_quick_line, GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (CRO_TYPE_TYPED, typed_init))

static CroBook *
book_of (CroQuickLine *self)
{
  return cro_bench_get_book (self->bench);
}

static const char *
text_of (CroQuickLine *self)
{
  return gtk_editable_get_text (GTK_EDITABLE (self->entry));
}

/* --- What Enter would do --------------------------------------------------------------------------- */

/* What choosing a row does. */
typedef enum
{
  TAKE_NAME,
  MAKE_INGREDIENT,
  MAKE_PREPARATION,
  TAKE_NEAR,         /* of a paste, where a name is not in the book, the one that is like it */
} Choice;

static void
offer (CroQuickLine *self,
       const char   *text,
       Choice        choice)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_list_box_append (GTK_LIST_BOX (self->offered), label);
  g_object_set_data (G_OBJECT (gtk_widget_get_parent (label)), "choice", GINT_TO_POINTER (choice));
}

/* What is made in the kitchen has no price: it may be a preparation that is not written yet. */
static gboolean
may_be_preparation (const CroQuick *quick)
{
  return quick->fault == CRO_QUICK_OK && quick->match != CRO_QUICK_EXACT && quick->has_amount
         && !quick->has_price;
}

/* Both kinds stand side by side: what is made is not to be filed as bought. */
static void
offer_kinds (CroQuickLine *self,
             const char   *name)
{
  /* Translators: a choice, with its key: makes an ingredient of that name. */
  g_autofree char *bought = cro_isolate_printf (_("New ingredient “%s” (Enter)"), name);
  /* Translators: a choice, with its key: makes a preparation of that name, and opens it. */
  g_autofree char *made = cro_isolate_printf (_("New preparation “%s” (Shift+Enter)"), name);

  offer (self, bought, MAKE_INGREDIENT);
  offer (self, made, MAKE_PREPARATION);
}

static void
clear_offered (CroQuickLine *self)
{
  for (GtkWidget *child; (child = gtk_widget_get_first_child (self->offered)) != NULL;)
    gtk_list_box_remove (GTK_LIST_BOX (self->offered), child);
}

/* Several lines at once: what is like them in the book, or all of it anew. */
static void
offer_near (CroQuickLine *self)
{
  g_autofree char *near_names = cro_quick_paste_near (book_of (self), self->recipe, text_of (self));
  g_autofree char *text = NULL;

  clear_offered (self);
  if (near_names != NULL)
    {
      /* Translators: a choice, with its key: takes names of the book for those that were pasted. */
      text = g_strdup_printf (_("Take %s (Shift+Enter)"), near_names);
      offer (self, text, TAKE_NEAR);
      offer (self, _("Make new ingredients (Enter)"), MAKE_INGREDIENT);
    }
  gtk_widget_set_visible (self->offered, near_names != NULL);
}

static void
offer_names (CroQuickLine   *self,
             const CroQuick *quick)
{
  CroModel *model = cro_book_get_model (book_of (self));
  g_autoptr (GArray) found = NULL;

  clear_offered (self);
  if (quick->name != NULL && quick->match != CRO_QUICK_EXACT)
    found = cro_quick_list_near (book_of (self), self->recipe, quick->name, MOST_OFFERED);
  for (guint i = 0; found != NULL && i < found->len; i++)
    offer (self, cro_model_item (model, g_array_index (found, CroFound, i).slot)->name, TAKE_NAME);
  if (may_be_preparation (quick))
    offer_kinds (self, quick->name);
  gtk_widget_set_visible (self->offered, gtk_widget_get_first_child (self->offered) != NULL);
}

/* What is wrong is told as under any field; what Enter would do is said aside. */
static void
show_hint (CroQuickLine *self,
           const char   *hint,
           gboolean      is_wrong)
{
  gtk_label_set_label (GTK_LABEL (self->hint), hint);
  gtk_widget_remove_css_class (self->hint, is_wrong ? "dim-label" : "reason");
  gtk_widget_add_css_class (self->hint, is_wrong ? "reason" : "dim-label");
  cro_reason_mark (self->entry, is_wrong);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, hint, -1);
}

static void
say (CroQuickLine *self)
{
  CroModel *model = cro_book_get_model (book_of (self));
  g_auto (CroQuick) quick = { 0 };
  g_autofree char *hint = NULL;

  if (self->recipe == CRO_NO_SLOT)
    return;
  if (cro_book_is_past (book_of (self), NULL))
    {
      show_hint (self, cro_words_past (), FALSE);
      return;
    }
  if (strchr (text_of (self), '\n') != NULL)
    {
      hint = cro_quick_hint_paste (cro_book_get_figures (book_of (self)), self->recipe, text_of (self));
      show_hint (self, hint, FALSE);
      offer_near (self);
      return;
    }
  cro_quick_read_line (model, text_of (self), cro_words_entry (), &quick);
  cro_quick_find (&quick, book_of (self), self->recipe);
  hint = cro_quick_hint (cro_book_get_figures (book_of (self)), self->recipe, text_of (self), &quick);
  show_hint (self, hint,
             quick.fault != CRO_QUICK_OK && quick.fault != CRO_QUICK_EMPTY
                 && quick.fault != CRO_QUICK_NO_NAME);
  offer_names (self, &quick);
}

/* The figures are of the lines that stand; at the head it is told how many are not among them. */
static void
tell_left (CroQuickLine *self)
{
  guint n = cro_waiting_lines_count (self->left) + (self->is_left ? 1 : 0);
  /* Translators: a short button in the room of what is missing. */
  g_autofree char *note = g_strdup_printf (ngettext ("%u line not added", "%u lines not added", n), n);
  g_autofree char *text = g_strdup_printf (ngettext ("%u line is not added yet, and not in these figures",
                                                     "%u lines are not added yet, and not in these figures", n), n);

  cro_bench_note (self->bench, n > 0 ? note : NULL, n > 0 ? text : NULL, self->entry);
}

/* A line that could not be placed stands selected: who types the next one over it, with the eyes on paper, does not
 * lose it. It waits below; Escape and an empty field forget it. */
static void
keep_typed_over (CroQuickLine *self)
{
  const guint n_over = self->n_over;
  g_autofree char *over = NULL;

  if (self->over == NULL || *text_of (self) == '\0')
    return;
  over = g_steal_pointer (&self->over);
  self->is_left = FALSE;
  cro_waiting_lines_prepend (self->left, (const char *const[]){ over, NULL });
  self->n_over = n_over + 1;
}

/* Typed over what was refused stands the next line, or the same one put right, if at the second try: that one is done
 * with. How many are left that it was typed over. */
static guint
forget_put_right (CroQuickLine *self,
                  const char   *text)
{
  CroModel *model = cro_book_get_model (book_of (self));
  guint n_over = self->n_over;

  for (guint i = n_over; i > 0; i--)
    if (cro_quick_is_put_right (model, cro_words_entry (), cro_waiting_lines_get (self->left, i - 1), text))
      {
        cro_waiting_lines_remove (self->left, i - 1);
        n_over--;
      }
  return n_over;
}

/* What is said stands below the text, and must not stand below the window's end. */
static void
changed_cb (CroQuickLine *self)
{
  keep_typed_over (self);
  self->is_left = self->is_left && *text_of (self) != '\0';
  tell_left (self);
  say (self);
  if (*text_of (self) != '\0')
    cro_reveal (GTK_WIDGET (self));
}

/* --- What could not be placed ------------------------------------------------------------------------ */

/* Nobody typed it, so Ctrl+Z does not take it away: that is the book's for as long as the text stands as it was put. */
static void
set_text (CroQuickLine *self,
          const char   *text)
{
  g_clear_pointer (&self->over, g_free);
  cro_entry_put (self->entry, text);
  gtk_editable_set_position (GTK_EDITABLE (self->entry), -1);
}

/* Takes a kept line into the field; what stands there is kept instead. */
static void
take_left (CroQuickLine *self,
           guint         at)
{
  g_autofree char *text = cro_waiting_lines_exchange (self->left, at, text_of (self));

  set_text (self, text);
  self->is_left = TRUE;
  tell_left (self);
  gtk_widget_grab_focus (self->entry);
}

/* The button that asks for it goes with it. */
static void
dismissed_cb (CroQuickLine *self,
              guint         at)
{
  gtk_widget_grab_focus (self->entry);
  cro_waiting_lines_remove (self->left, at);
}

static void
left_changed_cb (CroQuickLine *self)
{
  self->n_over = 0;
  tell_left (self);
}

/* What is left of several lines, or nothing, NULL: the first that is kept in the field, to be mended there, the others
 * below. A line that is left as it was typed is not set anew: its typing can be undone. */
static void
keep_left (CroQuickLine *self,
           const char   *left)
{
  g_auto (GStrv) lines = g_strsplit (left != NULL ? left : "", "\n", -1);

  if (*text_of (self) != '\0' && lines[0] != NULL && lines[1] == NULL && g_str_equal (lines[0], text_of (self)))
    {
      self->is_left = TRUE;
      gtk_widget_grab_focus (self->entry);
      return;
    }
  cro_waiting_lines_prepend (self->left, (const char *const *) lines);
  set_text (self, "");
  if (cro_waiting_lines_count (self->left) > 0)
    take_left (self, 0);
}

/* --- Placing ------------------------------------------------------------------------------------------ */

static void
place (CroQuickLine *self,
       const char   *text,
       unsigned      flags)
{
  CroModel *model = cro_book_get_model (book_of (self));
  CroDate from = cro_book_get_figures (book_of (self))->date;
  g_autofree char *left = NULL;
  /* Translators: an entry of the history; %s is a plate or a preparation. */
  g_autofree char *label = cro_isolate_printf (_("lines of %s"), cro_model_recipe (model, self->recipe)->name);
  /* Read while the book is as the text met it. */
  g_autofree char *told = cro_quick_paste_told (book_of (self), self->recipe, text, flags);
  g_autoptr (GError) error = NULL;
  guint n_placed = 0, n_over;
  guint32 item = CRO_NO_SLOT;

  /* Translators: the supplier of prices that were typed into a recipe. */
  if (!cro_quick_place (book_of (self), label, self->recipe, CRO_NO_SLOT, text,
                        cro_words_entry (), cro_words_no_supplier (model), from, flags, &left, &n_placed, &item,
                        &error))
    {
      cro_bench_fail (self->bench, error);
      return;
    }
  self->placed = item;
  n_over = forget_put_right (self, text);
  if (told != NULL)
    cro_bench_say (self->bench, told);
  keep_left (self, left);
  /* A line that is refused again may yet be put right. */
  self->n_over = left != NULL && *left != '\0' && strchr (left, '\n') == NULL ? n_over : 0;
  changed_cb (self);
}

static void
activate_cb (CroQuickLine *self)
{
  if (*text_of (self) != '\0')
    place (self, text_of (self), CRO_QUICK_MAKE_PRICED | CRO_QUICK_MAKE_ALL);
}

/* It is empty, so it is opened: going back leads to this line again. */
static void
make_preparation (CroQuickLine *self)
{
  place (self, text_of (self), CRO_QUICK_MAKE_PREPARATION | CRO_QUICK_MAKE_ALL);
  gtk_widget_grab_focus (self->entry);
  if (self->placed != CRO_NO_SLOT)
    cro_bench_open (self->bench, CRO_REF (CRO_REF_ITEM, self->placed));
}

static void
take_near (CroQuickLine *self)
{
  place (self, text_of (self), CRO_QUICK_MAKE_PRICED | CRO_QUICK_MAKE_ALL | CRO_QUICK_TAKE_SIMILAR);
  gtk_widget_grab_focus (self->entry);
}

/* Puts the name chosen into what was typed, in place of the one typed. */
static void
take_name (CroQuickLine *self,
           const char   *name)
{
  g_auto (CroQuick) quick = { 0 };
  g_autoptr (GString) text = NULL;
  const char *typed = text_of (self);
  const char *at;

  cro_quick_read (cro_book_get_model (book_of (self)), typed, cro_words_entry (), &quick);
  at = quick.name != NULL ? strstr (typed, quick.name) : NULL;
  text = g_string_new (typed);
  if (at != NULL)
    {
      g_string_erase (text, at - typed, (gssize) strlen (quick.name));
      g_string_insert (text, at - typed, name);
    }
  else
    g_string_assign (text, name);
  place (self, text->str, 0);
  gtk_widget_grab_focus (self->entry);
}

static void
chosen_cb (CroQuickLine  *self,
           GtkListBoxRow *row)
{
  switch ((Choice) GPOINTER_TO_INT (g_object_get_data (G_OBJECT (row), "choice")))
    {
    case MAKE_INGREDIENT:
      activate_cb (self);
      gtk_widget_grab_focus (self->entry);
      break;
    case MAKE_PREPARATION:
      make_preparation (self);
      break;
    case TAKE_NEAR:
      take_near (self);
      break;
    default:
      take_name (self, gtk_label_get_label (GTK_LABEL (gtk_list_box_row_get_child (row))));
    }
}

static const struct { guint key; GdkModifierType modifiers; } make_keys[] = {
  { GDK_KEY_Return, GDK_SHIFT_MASK }, { GDK_KEY_KP_Enter, GDK_SHIFT_MASK },
};

/* Makes a preparation of what is not in the book; of a paste takes what is like it. */
static gboolean
make_by_key (CroQuickLine    *self,
             guint            keyval,
             GdkModifierType  state)
{
  g_auto (CroQuick) quick = { 0 };
  gboolean is_it = FALSE;

  for (gsize i = 0; i < G_N_ELEMENTS (make_keys); i++)
    is_it |= keyval == make_keys[i].key && (state & make_keys[i].modifiers) != 0;
  if (!is_it)
    return GDK_EVENT_PROPAGATE;
  if (strchr (text_of (self), '\n') != NULL)
    {
      if (gtk_widget_get_visible (self->offered))
        take_near (self);
      else
        show_hint (self, _("No name of the book is like one that is new here. Press Enter to add the lines."), FALSE);
      return GDK_EVENT_STOP;
    }
  cro_quick_read (cro_book_get_model (book_of (self)), text_of (self), cro_words_entry (), &quick);
  if (!may_be_preparation (&quick))
    return GDK_EVENT_PROPAGATE;
  make_preparation (self);
  return GDK_EVENT_STOP;
}

static gboolean
key_pressed_cb (CroQuickLine    *self,
                guint            keyval,
                guint            keycode,
                GdkModifierType  state)
{
  GtkListBoxRow *first = gtk_list_box_get_row_at_index (GTK_LIST_BOX (self->offered), 0);
  int start, end;

  g_clear_pointer (&self->over, g_free);
  /* Undo types nothing over it. */
  if (self->is_left && (keyval != GDK_KEY_z || (state & GDK_CONTROL_MASK) == 0)
      && gtk_editable_get_selection_bounds (GTK_EDITABLE (self->entry), &start, &end)
      && end - start == g_utf8_strlen (text_of (self), -1))
    self->over = g_strdup (text_of (self));
  if ((keyval == GDK_KEY_Down || keyval == GDK_KEY_KP_Down) && first != NULL && gtk_widget_get_visible (self->offered))
    return gtk_widget_grab_focus (GTK_WIDGET (first));
  if (make_by_key (self, keyval, state))
    return GDK_EVENT_STOP;
  if (keyval == GDK_KEY_Escape && *text_of (self) != '\0')
    {
      set_text (self, "");
      return GDK_EVENT_STOP;
    }
  return GDK_EVENT_PROPAGATE;
}

/* --- The widget ------------------------------------------------------------------------------------------ */

static void
cro_quick_line_dispose (GObject *object)
{
  CroQuickLine *self = CRO_QUICK_LINE (object);

  g_clear_pointer (&self->hung, gtk_widget_unparent);
  g_clear_pointer (&self->over, g_free);
  g_clear_pointer (&self->unfinished, g_hash_table_unref);
  g_clear_object (&self->book);
  G_OBJECT_CLASS (cro_quick_line_parent_class)->dispose (object);
}

static gboolean
cro_quick_line_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CRO_QUICK_LINE (widget)->entry);
}

/* What is typed, or else what was placed last. */
static void
open_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroQuickLine *self = CRO_QUICK_LINE (widget);
  g_auto (CroQuick) quick = { 0 };
  guint32 item = self->placed;

  if (*text_of (self) != '\0')
    {
      cro_quick_read (cro_book_get_model (book_of (self)), text_of (self), cro_words_entry (), &quick);
      item = quick.item;
    }
  if (item != CRO_NO_SLOT)
    cro_bench_open (self->bench, CRO_REF (CRO_REF_ITEM, item));
}

static void
cro_quick_line_class_init (CroQuickLineClass *klass)
{
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (klass), "item.open", NULL, open_cb);
  G_OBJECT_CLASS (klass)->dispose = cro_quick_line_dispose;
  GTK_WIDGET_CLASS (klass)->focus = cro_focus_within;
  GTK_WIDGET_CLASS (klass)->grab_focus = cro_quick_line_grab_focus;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_quick_line_init (CroQuickLine *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  g_autofree char *example = cro_example_dup_line ();

  self->recipe = CRO_NO_SLOT;
  self->placed = CRO_NO_SLOT;
  self->unfinished = g_hash_table_new_full (NULL, NULL, NULL, g_free);
  gtk_widget_add_css_class (GTK_WIDGET (self), "quick");
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  self->entry = gtk_entry_new ();
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->entry), example);
  cro_spoken_set (self->entry, _("Next line"));
  /* It would like to be as wide as its column may be, and gives way. */
  gtk_editable_set_width_chars (GTK_EDITABLE (self->entry), 12);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->entry), 200);
  self->hint = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->hint), 0);
  gtk_label_set_wrap (GTK_LABEL (self->hint), TRUE);
  gtk_widget_add_css_class (self->hint, "caption");
  gtk_widget_add_css_class (self->hint, "dim-label");
  self->offered = gtk_list_box_new ();
  gtk_list_box_set_activate_on_single_click (GTK_LIST_BOX (self->offered), TRUE);
  gtk_widget_add_css_class (self->offered, "offered");
  gtk_widget_set_visible (self->offered, FALSE);
  cro_spoken_set (self->offered, _("Similar names"));
  gtk_box_append (GTK_BOX (self->box), self->entry);
  gtk_box_append (GTK_BOX (self->box), self->hint);
  self->hung = cro_hung_new (self->box, self->offered);
  gtk_widget_set_parent (self->hung, GTK_WIDGET (self));

  cro_offered_keys_add (GTK_LIST_BOX (self->offered), GTK_ENTRY (self->entry));
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (self->entry, keys);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->entry, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->entry, "activate", G_CALLBACK (activate_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->offered, "row-activated", G_CALLBACK (chosen_cb), self, G_CONNECT_SWAPPED);
}

GtkWidget *
cro_quick_line_new (CroBench *bench)
{
  CroQuickLine *self = g_object_new (CRO_TYPE_QUICK_LINE, NULL);

  self->bench = bench;
  self->left = CRO_WAITING_LINES (cro_waiting_lines_new (bench));
  g_signal_connect_object (self->left, "taken", G_CALLBACK (take_left), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->left, "dismissed", G_CALLBACK (dismissed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->left, "changed", G_CALLBACK (left_changed_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self->box), GTK_WIDGET (self->left));
  return GTK_WIDGET (self);
}

/* What is typed and what is kept, as lines. */
static char *
dup_unfinished (CroQuickLine *self)
{
  g_autoptr (GString) text = g_string_new (text_of (self));

  for (guint i = 0; i < cro_waiting_lines_count (self->left); i++)
    g_string_append_printf (text, "\n%s", cro_waiting_lines_get (self->left, i));
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
type_lines (CroQuickLine *self,
            const char   *text)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);

  /* Of an empty text there is no line. */
  cro_waiting_lines_set (self->left, (const char *const *) (lines[0] != NULL ? lines + 1 : lines));
  set_text (self, lines[0] != NULL ? lines[0] : "");
  self->is_left = *text_of (self) != '\0';
  tell_left (self);
}

static char *
typed_dup_field (CroTyped *self)
{
  return g_strdup ("next-line");
}

static char *
typed_dup_text (CroTyped *self)
{
  g_autofree char *text = dup_unfinished (CRO_QUICK_LINE (self));

  return *text != '\0' ? g_steal_pointer (&text) : NULL;
}

static void
typed_type (CroTyped   *self,
            const char *text)
{
  type_lines (CRO_QUICK_LINE (self), text);
}

static void
typed_init (CroTypedInterface *iface)
{
  iface->dup_field = typed_dup_field;
  iface->dup_text = typed_dup_text;
  iface->type = typed_type;
}

/* Who leaves a recipe in the middle of a line finds it there again. */
static void
change_recipe (CroQuickLine *self,
               guint32       recipe)
{
  const char *text;

  if (!g_set_object (&self->book, book_of (self)) && self->recipe != CRO_NO_SLOT)
    g_hash_table_insert (self->unfinished, GUINT_TO_POINTER (self->recipe), dup_unfinished (self));
  else
    g_hash_table_remove_all (self->unfinished);
  self->recipe = recipe;
  text = g_hash_table_lookup (self->unfinished, GUINT_TO_POINTER (recipe));
  type_lines (self, text != NULL ? text : "");
}

void
cro_quick_line_put (CroQuickLine *self,
                    guint32       recipe)
{
  change_recipe (self, recipe);
  self->placed = CRO_NO_SLOT;
  gtk_widget_set_visible (self->entry, !cro_book_is_past (self->book, NULL));
  changed_cb (self);
}
