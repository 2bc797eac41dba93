#include "config.h"

#include "cro-allergen-answers.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-allergen-word.h"
#include "cro-allergen-words.h"
#include "cro-answer-order.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-isolate.h"
#include "cro-mark-table.h"
#include "cro-notes.h"
#include "cro-number.h"
#include "cro-words.h"

#define LIST CRO_ALLERGEN_WORD_LIST

struct _CroAllergenAnswers
{
  GtkWidget  parent_instance;

  GtkWidget *page;
  GtkWidget *box;
  GtkWidget *count;       /* of how many nobody has said */
  GtkWidget *table;
  GtkWidget *meaning;     /* of the keys that were pressed last */

  CroBench  *bench;       /* borrowed */
  CroBook   *book;        /* borrowed; whose items are listed */
  GArray    *items;       /* guint32: slots, as they were sorted when the list was made */
  guint32    item;        /* being answered; CRO_NO_SLOT: none */
  CroAllergenAnswer draft;   /* its answer until it is kept */
  CroAllergenAnswer taken;   /* what the draft began with */
  CroAllergenAnswer before;  /* what it was when the word in progress began */
  GString   *word;        /* in progress, as it was typed */
  gboolean   is_writing;  /* words were typed in this row: a blank stands between them */
};

G_DEFINE_FINAL_TYPE (CroAllergenAnswers, cro_allergen_answers, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroAllergenAnswers *self)
{
  return cro_bench_get_book (self->bench);
}

static CroModel *
model_of (CroAllergenAnswers *self)
{
  return cro_book_get_model (book_of (self));
}

static CroFigures *
figures_of (CroAllergenAnswers *self)
{
  return cro_book_get_figures (book_of (self));
}

static guint32
item_at (CroAllergenAnswers *self,
         guint               row)
{
  return g_array_index (self->items, guint32, row);
}

static CroAllergenAnswer
kept_of (CroAllergenAnswers *self,
         guint32             item)
{
  const CroItem *of = cro_model_item (model_of (self), item);

  return (CroAllergenAnswer){ of->allergens, of->may_contain };
}

/* --- What the table shows ------------------------------------------------------------------------- */

static CroAllergenAnswer
answer_at (CroAllergenAnswers *self,
           guint               row)
{
  guint32 item = item_at (self, row);

  return item == self->item ? self->draft : kept_of (self, item);
}

static guint
get_n (gpointer view)
{
  return CRO_ALLERGEN_ANSWERS (view)->items->len;
}

static char *
dup_heading (gpointer view,
             guint    row)
{
  return NULL;
}

static const char *
name_at (CroAllergenAnswers *self,
         guint               row)
{
  return cro_model_item (model_of (self), item_at (self, row))->name;
}

static char *
dup_name (gpointer view,
          guint    row)
{
  return g_strdup (name_at (view, row));
}

static unsigned
held_at (CroAllergenAnswers *self,
         guint               row,
         guint               column)
{
  CroAllergenAnswer answer = answer_at (self, row);

  return cro_allergen_held (&cro_allergen_list (LIST)->entries[column],
                            answer.contains > 0 ? (guint32) answer.contains : 0, answer.may,
                            answer.contains < 0);
}

static const char *
get_sign (gpointer view,
          guint    row,
          guint    column)
{
  return cro_words_held_mark (held_at (view, row, column));
}

/* "not stated"; "none of the 14 allergens"; "milk, fish; may contain nuts". */
static char *
dup_state (CroAllergenAnswer answer)
{
  g_autofree char *contains = answer.contains < 0 ? g_strdup (C_("allergens", "not stated"))
                                                  : cro_words_allergens ((guint32) answer.contains);
  g_autofree char *may = NULL;

  if (answer.may == 0)
    return g_steal_pointer (&contains);
  may = cro_words_allergens (answer.may);
  /* Translators: what is contained, and the groups of allergens that labels warn of. */
  return g_strdup_printf (_("%s; may contain %s"), contains, may);
}

/* A reader of the screen hears the ingredient with all that is said of it, then the cell. */
static char *
dup_said (gpointer view,
          guint    row,
          guint    column)
{
  g_autofree char *state = dup_state (answer_at (view, row));

  g_autofree char *whole = cro_isolate_printf (_("%s: %s"), name_at (view, row), state);
  g_autofree char *cell = cro_isolate_printf (_("%s: %s"), cro_words_allergen (LIST, column),
                                              cro_words_held (held_at (view, row, column)));

  return g_strdup_printf ("%s. %s", whole, cell);
}

static char *
dup_note (gpointer view,
          guint    row)
{
  CroAllergenAnswers *self = view;
  guint32 item = item_at (self, row);
  guint uses = cro_answer_order_uses (figures_of (self), item);
  g_autofree char *number = cro_number_to_text (uses, 0, TRUE);
  /* Translators: so many lines of recipes take an ingredient. */
  g_autofree char *used = g_strdup_printf (ngettext ("in %s line", "in %s lines", uses), number);
  CroAllergenAnswer answer = answer_at (self, row);
  const char *state = answer.contains < 0    ? C_("allergens", "not stated")
                      : answer.contains > 0  ? ""
                      : answer.may != 0      ? C_("allergens", "contains none")
                                             : C_("allergens", "none");

  if (item == self->item && !cro_allergen_answer_equal (self->draft, kept_of (self, item)))
    return g_strdup (_("press Enter to keep"));
  return *state != '\0' ? g_strdup_printf ("%s · %s", state, used) : g_strdup (used);
}

static const CroMarkRows mark_rows = { get_n, dup_heading, dup_name, get_sign, dup_said, dup_note };

/* --- Reading -------------------------------------------------------------------------------------- */

static void
show_count (CroAllergenAnswers *self)
{
  g_autofree char *text = cro_words_not_stated (model_of (self));

  gtk_label_set_label (GTK_LABEL (self->count), text);
}

static void
say (CroAllergenAnswers *self,
     const char         *text)
{
  gtk_label_set_label (GTK_LABEL (self->meaning), text);
}

/* --- One answer ----------------------------------------------------------------------------------- */

static void
forget_word (CroAllergenAnswers *self)
{
  g_string_truncate (self->word, 0);
}

static void
say_draft (CroAllergenAnswers *self)
{
  g_autofree char *state = dup_state (self->draft);
  g_autofree char *text = cro_isolate_printf (_("%s: %s"), cro_model_item (model_of (self), self->item)->name,
                                              state);

  say (self, text);
}

static void
set_draft (CroAllergenAnswers *self,
           CroAllergenAnswer   answer)
{
  self->draft = answer;
  cro_mark_table_show (CRO_MARK_TABLE (self->table));
  say_draft (self);
}

static void
keep (CroAllergenAnswers *self)
{
  guint32 item = self->item;
  g_autofree char *label = NULL;
  g_autoptr (GError) error = NULL;

  forget_word (self);
  /* What was not touched is not written over what came from elsewhere meanwhile. */
  if (item == CRO_NO_SLOT || book_of (self) == NULL || cro_allergen_answer_equal (self->draft, self->taken)
      || cro_allergen_answer_equal (self->draft, kept_of (self, item)))
    return;
  label = cro_act_dup_label (_("allergens"), cro_model_item (model_of (self), item)->name);
  if (!cro_edit_state_allergens (book_of (self), label, item, self->draft.contains, self->draft.may, &error))
    {
      self->draft = kept_of (self, item);
      cro_bench_fail (self->bench, error);
    }
  self->taken = self->draft;
}

static void
take_up (CroAllergenAnswers *self,
         guint32             item)
{
  self->item = item;
  self->draft = self->taken = kept_of (self, item);
  self->is_writing = FALSE;
  forget_word (self);
}

/* What was answered in the row that one leaves is kept. */
static void
moved_cb (CroAllergenAnswers *self)
{
  guint row, column;

  if (!cro_mark_table_get_place (CRO_MARK_TABLE (self->table), &row, &column))
    return;
  if (item_at (self, row) == self->item)
    {
      self->is_writing = FALSE;
      forget_word (self);
      return;
    }
  keep (self);
  take_up (self, item_at (self, row));
  cro_mark_table_show (CRO_MARK_TABLE (self->table));
  say_draft (self);
}

/* A click and the blank on a sign. */
static void
toggle (CroAllergenAnswers *self,
        guint               group,
        gboolean            is_may)
{
  CroAllergenAnswer answer = self->draft;
  gboolean is_held = ((is_may ? answer.may : (guint32) MAX (answer.contains, 0)) & 1u << group) != 0;

  forget_word (self);
  if (is_held && is_may)
    answer.may ^= 1u << group;
  else if (is_held)
    {
      answer = cro_allergen_answer_without (answer, group);
      answer.may = self->draft.may;
    }
  else
    answer = cro_allergen_answer_with (answer, group, is_may);
  set_draft (self, answer);
}

/* --- Words ---------------------------------------------------------------------------------------- */

static void
say_refused (CroAllergenAnswers *self,
             guint32             found)
{
  g_autofree char *names = cro_words_allergens_of (LIST, found);
  g_autofree char *text = found != 0
                              ? cro_isolate_printf (_("“%s” can be %s: nothing is entered for it."),
                                                    self->word->str, names)
                              : cro_isolate_printf (
                                    _("“%s” is no allergen of this list: nothing is entered for it."),
                                    self->word->str);

  say (self, text);
}

static void
say_open (CroAllergenAnswers *self,
          guint32             found)
{
  g_autofree char *groups = cro_words_allergens_of (LIST, found);
  gboolean is_none = cro_allergen_word_may_be_none (self->word->str);
  const char *none = is_none ? C_("allergens", "none") : "";
  g_autofree char *names = g_strdup_printf ("%s%s%s", groups, found != 0 && is_none ? ", " : "", none);
  g_autofree char *text = *names != '\0' ? g_strdup_printf (_("%s: type more letters"), names)
                                         : g_strdup (_("Type what is to be taken out."));

  say (self, text);
}

static void
show_word (CroAllergenAnswers *self)
{
  CroAllergenAnswer answer;
  guint32 found;
  CroAllergenWordState state = cro_allergen_word_read (self->word->str, self->before, &answer, &found);

  set_draft (self, answer);
  if (self->word->len > 0 && state == CRO_ALLERGEN_WORD_OPEN)
    say_open (self, found);
  else if (self->word->len > 0 && state == CRO_ALLERGEN_WORD_REFUSED)
    say_refused (self, found);
}

/* FALSE: it said nothing, which stays on the screen. */
static gboolean
end_word (CroAllergenAnswers *self)
{
  CroAllergenAnswer answer;
  guint32 found = 0;
  gboolean is_said = self->word->len == 0
                     || cro_allergen_word_read (self->word->str, self->before, &answer, &found)
                            == CRO_ALLERGEN_WORD_TAKEN;

  if (!is_said)
    say_refused (self, found);
  forget_word (self);
  return is_said;
}

/* A name of more than one word goes on behind a blank, if what follows is of it. */
static gboolean
is_behind_blank (CroAllergenAnswers *self,
                 gunichar            sign)
{
  g_autoptr (GString) longer = g_string_new (self->word->str + (cro_allergen_word_is_out (self->word->str) ? 1 : 0));

  g_string_append_unichar (longer, sign);
  return g_unichar_isalnum (sign) && cro_words_find_allergens (LIST, longer->str) != 0;
}

static void
type_sign (CroAllergenAnswers *self,
           gunichar            sign)
{
  if (g_str_has_suffix (self->word->str, " ") && !is_behind_blank (self, sign))
    forget_word (self);
  if (self->word->len == 0)
    self->before = self->draft;
  self->is_writing = TRUE;
  g_string_append_unichar (self->word, sign);
  show_word (self);
}

static void
type_blank (CroAllergenAnswers *self)
{
  CroAllergenAnswer answer;
  guint32 found;

  if (self->word->len == 0 || g_str_has_suffix (self->word->str, " "))
    return;
  if (cro_allergen_word_read (self->word->str, self->before, &answer, &found) == CRO_ALLERGEN_WORD_TAKEN)
    g_string_append_c (self->word, ' ');
  else
    end_word (self);
}

/* The last letter of a word in progress; else the allergen one stands on. */
static void
take_back (CroAllergenAnswers *self,
           guint               column)
{
  if (self->word->len > 0)
    {
      char *last = g_utf8_find_prev_char (self->word->str, self->word->str + self->word->len);

      g_string_truncate (self->word, (gsize) (last - self->word->str));
      show_word (self);
    }
  else
    set_draft (self, cro_allergen_answer_without (self->draft, column));
}

/* --- Keys ----------------------------------------------------------------------------------------- */

static gboolean
key_pressed_cb (CroAllergenAnswers *self,
                guint               keyval,
                guint               keycode,
                GdkModifierType     state)
{
  gunichar sign = keyval == GDK_KEY_KP_Decimal ? '.' : gdk_keyval_to_unicode (keyval);
  guint row, column;

  if (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)
      || !cro_mark_table_get_place (CRO_MARK_TABLE (self->table), &row, &column))
    return GDK_EVENT_PROPAGATE;
  if (item_at (self, row) != self->item)
    take_up (self, item_at (self, row));
  if (keyval == GDK_KEY_BackSpace || keyval == GDK_KEY_Delete)
    take_back (self, column);
  else if (sign == ' ' && !self->is_writing)
    toggle (self, column, (state & GDK_SHIFT_MASK) != 0);
  else if (sign == ' ')
    type_blank (self);
  else if (sign == ',' || sign == ';' || (sign == '.' && self->word->len > 0))
    {
      self->is_writing = TRUE;
      end_word (self);
    }
  else if (sign == '.')
    set_draft (self, (CroAllergenAnswer){ -1, 0 });
  else if (g_unichar_isgraph (sign))
    type_sign (self, sign);
  else if (keyval == GDK_KEY_Escape
           && (self->word->len > 0 || !cro_allergen_answer_equal (self->draft, kept_of (self, self->item))))
    {
      take_up (self, self->item);
      set_draft (self, self->draft);
    }
  else
    return GDK_EVENT_PROPAGATE;
  return GDK_EVENT_STOP;
}

static void
activated_cb (CroAllergenAnswers *self,
              guint               row)
{
  /* What says nothing is not passed over: one sees it, and goes on by another Enter. */
  if (!end_word (self))
    return;
  keep (self);
  if (!cro_mark_table_go_on (CRO_MARK_TABLE (self->table), 1))
    say (self, _("That was the last ingredient."));
}

static void
pressed_cb (CroAllergenAnswers *self,
            guint               row,
            guint               column,
            gboolean            is_shifted)
{
  moved_cb (self);
  toggle (self, column, is_shifted);
}

static void
left_cb (CroAllergenAnswers *self)
{
  keep (self);
}

/* Ctrl+Enter. */
static void
open_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroAllergenAnswers *self = CRO_ALLERGEN_ANSWERS (widget);
  guint row, column;

  if (cro_mark_table_get_place (CRO_MARK_TABLE (self->table), &row, &column))
    cro_bench_open (self->bench, CRO_REF (CRO_REF_ITEM, item_at (self, row)));
}

/* --- For the overview ------------------------------------------------------------------------------ */

static void
read_items (CroAllergenAnswers *self)
{
  g_array_unref (self->items);
  self->items = cro_answer_order_new (figures_of (self));
  self->item = CRO_NO_SLOT;
  cro_mark_table_read (CRO_MARK_TABLE (self->table), 0);
}

void
cro_allergen_answers_set_book (GtkWidget *view,
                               CroBook   *book)
{
  CroAllergenAnswers *self = CRO_ALLERGEN_ANSWERS (view);

  self->item = CRO_NO_SLOT;
  g_array_set_size (self->items, 0);
  cro_mark_table_read (CRO_MARK_TABLE (self->table), 0);
}

void
cro_allergen_answers_refresh (GtkWidget *view)
{
  CroAllergenAnswers *self = CRO_ALLERGEN_ANSWERS (view);

  if (!cro_answer_order_is_whole (self->items, model_of (self)))
    read_items (self);
  else if (self->item != CRO_NO_SLOT && self->word->len == 0 && cro_allergen_answer_equal (self->draft, self->taken))
    self->draft = self->taken = kept_of (self, self->item);
  cro_mark_table_show (CRO_MARK_TABLE (self->table));
  show_count (self);
}

/* --- The widget ----------------------------------------------------------------------------------- */

static gboolean
cro_allergen_answers_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CRO_ALLERGEN_ANSWERS (widget)->table);
}

/* Who comes back finds first what is still to be said. */
static void
cro_allergen_answers_unmap (GtkWidget *widget)
{
  CroAllergenAnswers *self = CRO_ALLERGEN_ANSWERS (widget);

  GTK_WIDGET_CLASS (cro_allergen_answers_parent_class)->unmap (widget);
  if (book_of (self) != NULL && cro_answer_order_is_whole (self->items, model_of (self)))
    keep (self);
  g_array_set_size (self->items, 0);
  self->item = CRO_NO_SLOT;
  cro_mark_table_read (CRO_MARK_TABLE (self->table), 0);
}

static void
cro_allergen_answers_dispose (GObject *object)
{
  CroAllergenAnswers *self = CRO_ALLERGEN_ANSWERS (object);

  g_clear_pointer (&self->page, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_allergen_answers_parent_class)->dispose (object);
}

static void
cro_allergen_answers_finalize (GObject *object)
{
  CroAllergenAnswers *self = CRO_ALLERGEN_ANSWERS (object);

  g_array_unref (self->items);
  g_string_free (self->word, TRUE);
  G_OBJECT_CLASS (cro_allergen_answers_parent_class)->finalize (object);
}

static void
cro_allergen_answers_class_init (CroAllergenAnswersClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_allergen_answers_dispose;
  G_OBJECT_CLASS (klass)->finalize = cro_allergen_answers_finalize;
  widget_class->grab_focus = cro_allergen_answers_grab_focus;
  widget_class->focus = cro_focus_within;
  widget_class->unmap = cro_allergen_answers_unmap;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "item.open", NULL, open_cb);
}

static void
cro_allergen_answers_init (CroAllergenAnswers *self)
{
  self->items = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->item = CRO_NO_SLOT;
  self->word = g_string_new (NULL);
}

static void
add_table (CroAllergenAnswers *self)
{
  const char *letters[CRO_N_ALLERGENS], *words[CRO_N_ALLERGENS];
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  for (guint i = 0; i < CRO_N_ALLERGENS; i++)
    {
      letters[i] = cro_words_allergen_short (LIST, i);
      words[i] = cro_words_allergen (LIST, i);
    }
  self->table = cro_mark_table_new (&mark_rows, self, _("Ingredients and their allergens"));
  cro_mark_table_set_columns (CRO_MARK_TABLE (self->table), _("Ingredient"), _("Used"), letters, words,
                              CRO_N_ALLERGENS);
  g_signal_connect_object (self->table, "moved", G_CALLBACK (moved_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->table, "activated", G_CALLBACK (activated_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->table, "pressed", G_CALLBACK (pressed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self, G_CONNECT_SWAPPED);
  /* Before the list takes the blank between two words. */
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_object (focus, "leave", G_CALLBACK (left_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (self->table, keys);
  gtk_widget_add_controller (self->table, focus);
}

GtkWidget *
cro_allergen_answers_new (CroBench *bench)
{
  CroAllergenAnswers *self = g_object_new (CRO_TYPE_ALLERGEN_ANSWERS, NULL);
  GtkWidget *notes = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  self->bench = bench;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->count = cro_text_new ("", "heading");
  gtk_box_append (GTK_BOX (self->box), self->count);
  gtk_box_append (GTK_BOX (self->box),
                  cro_text_new (_("From each label or specification: type what it contains, or the beginning "
                                  "of it (mi: milk), with a capital what it may contain (Mi), and a blank "
                                  "before the next. -mi or Backspace on its sign: milk goes. 0 or none: none "
                                  "of the 14. Full stop: not stated. Enter: keep, and go on. Escape: as it "
                                  "was."),
                                "dim-label"));
  add_table (self);
  gtk_box_append (GTK_BOX (self->box), self->table);
  self->meaning = cro_text_new ("", "carried");
  gtk_box_append (GTK_BOX (notes), self->meaning);
  gtk_box_append (GTK_BOX (notes), cro_text_new (cro_words_held_legend (), "caption"));
  gtk_box_append (GTK_BOX (self->box), cro_notes_new (notes));
  gtk_box_append (GTK_BOX (self->box), cro_text_new (cro_words_caution (), "caption"));
  self->page = cro_low_new (self->box);
  gtk_widget_set_parent (self->page, GTK_WIDGET (self));
  return GTK_WIDGET (self);
}
