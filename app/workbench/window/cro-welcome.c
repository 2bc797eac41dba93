#include "config.h"

#include "cro-welcome.h"

#include <glib/gi18n.h>

#include "cro-box.h"
#include "cro-decimal.h"
#include "cro-draft.h"
#include "cro-edit.h"
#include "cro-example.h"
#include "cro-field.h"
#include "cro-free-path.h"
#include "cro-here.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-own-file.h"
#include "cro-past-words.h"
#include "cro-paste.h"
#include "cro-price-words.h"
#include "cro-quick-words.h"
#include "cro-quick.h"
#include "cro-recent.h"
#include "cro-refused-words.h"
#include "cro-spoken.h"
#include "cro-state.h"
#include "cro-template.h"
#include "cro-words.h"

/* Books of late that are offered. */
#define MOST_RECENT 5

struct _CroWelcome
{
  GtkWidget  parent_instance;

  GtkWidget *line;
  GtkWidget *currency;
  GtkWidget *tax;
  GtkWidget *says;      /* what Enter would do, or what is wrong */
  GtkWidget *recent;
};

G_DEFINE_FINAL_TYPE (CroWelcome, cro_welcome, GTK_TYPE_WIDGET)

enum
{
  MADE,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* --- Making a book ---------------------------------------------------------------------------------- */

char *
cro_welcome_dup_free_path (const char *name)
{
  return cro_free_path_dup (name, ".croustade");
}

static const char *
text_of (GtkWidget *entry)
{
  return gtk_editable_get_text (GTK_EDITABLE (entry));
}

static void
say (CroWelcome *self,
     const char *text)
{
  gtk_label_set_label (GTK_LABEL (self->says), text);
}

/* In capital letters; empty where none is said. Owned. */
static char *
dup_currency (CroWelcome *self)
{
  return g_strstrip (g_ascii_strup (text_of (self->currency), -1));
}

static gboolean
set_tax (CroBook   *book,
         gint64     tax_pct,
         GError   **error)
{
  static const char *const columns[] = { "tax_pct_micro", NULL };
  g_autofree char *act = cro_past_dup_act ("book", columns[0], NULL);
  CroCell cell = CRO_CELL_INT (tax_pct);

  return cro_edit_set (book, act, "book", 1, columns, &cell, error);
}

/* --- Lines ------------------------------------------------------------------------------------------ */

/* What was typed or pasted, row by row. */
typedef struct
{
  CroModel *nothing;     /* a book with the currency alone */
  CroPaste  paste;
  char     *text;
  char     *name;        /* of the plate */
  guint     n;           /* that are lines, or should be */
  guint     n_sound;
  int       first;       /* the row of the first sound one; -1: none */
  int       unsound;     /* of the first other one; -1: none */
} Lines;

static void
lines_clear (Lines *self)
{
  g_clear_pointer (&self->nothing, cro_model_free);
  g_clear_pointer (&self->text, g_free);
  g_clear_pointer (&self->name, g_free);
  cro_paste_clear (&self->paste);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Lines, lines_clear)

/* One line alone may be a name and a price; among several each has an amount. */
static gboolean
is_sound (const CroQuick *quick,
          gboolean        is_alone)
{
  return quick->fault == CRO_QUICK_OK && (is_alone || quick->has_amount);
}

/* As the title names it. Owned. */
static char *
dup_plate_name (const CroPaste *paste)
{
  for (guint i = 0; i < paste->rows->len; i++)
    {
      g_auto (CroTitle) title = { 0 };

      if (cro_paste_get (paste, i)->kind != CRO_PASTE_TITLE
          || cro_title_read_yield (cro_paste_get (paste, i)->text, &title))
        continue;
      cro_title_read (cro_paste_get (paste, i)->text, &title);
      return g_strdup (title.name);
    }
  return g_strdup (_("First plate"));
}

static gboolean
is_several (const Lines *lines)
{
  return lines->paste.rows->len > 1;
}

static Lines
read_lines (CroWelcome *self)
{
  char *text = g_strstrip (g_strdup (text_of (self->line)));
  g_autofree char *currency = dup_currency (self);
  char code[4];
  Lines lines = { .nothing = cro_model_new (), .text = text, .first = -1, .unsound = -1 };

  /* A sign in the price is that of the currency beside it. */
  if (*currency != '\0')
    lines.nothing->currency = g_strdup (currency);
  else if (cro_currency_of_text (text, code))
    lines.nothing->currency = g_strdup (code);
  cro_paste_read (lines.nothing, "", text, cro_words_entry (), &lines.paste);
  lines.name = dup_plate_name (&lines.paste);
  for (int i = 0; i < (int) lines.paste.rows->len; i++)
    {
      const CroPasteRow *row = cro_paste_get (&lines.paste, (guint) i);

      if (row->kind != CRO_PASTE_LINE && row->kind != CRO_PASTE_LEFT)
        continue;
      lines.n++;
      if (is_sound (&row->quick, !is_several (&lines)))
        {
          lines.n_sound++;
          lines.first = lines.first < 0 ? i : lines.first;
        }
      else if (lines.unsound < 0)
        lines.unsound = i;
    }
  return lines;
}

static char *
dup_what_enter_does (const Lines *lines)
{
  if (!is_several (lines))
    return g_strdup (_("Press Enter to make a book with a plate, this ingredient and its price."));
  if (lines->n_sound == lines->n)
    return g_strdup_printf (ngettext ("Press Enter to make a book with a plate of %u line.",
                                      "Press Enter to make a book with a plate of %u lines.", lines->n),
                            lines->n);
  /* Translators: how many lines of a pasted recipe are understood, and of how many. */
  return g_strdup_printf (_("Press Enter to make a book with a plate of %u of %u lines; the others wait there, "
                            "each with its reason."),
                          lines->n_sound, lines->n);
}

static void
changed_cb (CroWelcome *self)
{
  g_auto (Lines) lines = read_lines (self);
  g_autofree char *act = dup_what_enter_does (&lines), *read = cro_quick_paste_read (&lines.paste);
  g_autofree char *text = read != NULL ? g_strconcat (act, " · ", read, NULL) : g_strdup (act);

  say (self, text);
}

/* Why none of the lines can be placed: the first one's reason, and which it is among several. */
static char *
dup_reason (const Lines *lines)
{
  const char *line = lines->unsound >= 0 ? cro_paste_get (&lines->paste, (guint) lines->unsound)->text : "";
  g_auto (CroQuick) quick = { 0 };
  g_autofree char *example = cro_example_dup_line (), *reason = NULL;

  cro_quick_read (lines->nothing, line, cro_words_entry (), &quick);
  if (quick.fault == CRO_QUICK_EMPTY)
    /* Translators: what a first line is made of; %s is an example of one. */
    return g_strdup_printf (_("An amount, a name and a price, as in “%s”."), example);
  if (quick.fault == CRO_QUICK_NO_CURRENCY)
    reason = g_strdup (_("Which currency? Type its code below, such as EUR."));
  else
    reason = cro_quick_reason (line, &quick);
  if (!is_several (lines))
    return g_steal_pointer (&reason);
  /* Translators: the number of a pasted line, and what is wrong with it. */
  return g_strdup_printf (_("Line %d: %s"), lines->unsound + 1, reason);
}

/* Lines that could not be placed wait where the plate's next line is typed. */
static gboolean
place_recipe (CroBook      *book,
              const char   *path,
              const char   *currency,
              const Lines  *lines,
              GError      **error)
{
  static const char *const columns[] = { "currency", NULL };
  g_autofree char *left = NULL, *prefix = NULL, *key = NULL;
  g_autofree char *label = cro_isolate_printf (_("lines of %s"), lines->name);
  g_autofree char *act = cro_past_dup_act ("book", columns[0], NULL);
  CroCell cell = CRO_CELL_STR (currency);
  guint32 plate;
  guint n_placed;

  if (*currency != '\0' && !cro_edit_set (book, act, "book", 1, columns, &cell, error))
    return FALSE;
  if (!cro_edit_add_plate (book, _("first plate"), lines->name, CRO_MICRO, &plate, error)
      || !cro_quick_place (book, label, plate, CRO_NO_SLOT, lines->text, cro_words_entry (),
                           cro_words_no_supplier (cro_book_get_model (book)), cro_here_today (),
                           CRO_QUICK_MAKE_PRICED | CRO_QUICK_MAKE_ALL, &left, &n_placed, NULL, error))
    return FALSE;
  prefix = cro_draft_dup_prefix ("plate", cro_model_recipe (cro_book_get_model (book), plate)->id);
  key = g_strconcat (prefix, "next-line.0", NULL);
  cro_state_set_text (path, key, left);
  return TRUE;
}

static gboolean
place_line (CroBook         *book,
            const char      *currency,
            const CroQuick  *quick,
            GError         **error)
{
  CroNewLine line = {
    .item = CRO_NO_SLOT, .name = quick->name, .base = cro_quick_base (quick),
    .amount = quick->has_amount ? quick->amount : 0, .unit = quick->unit,
    .as_bought = quick->as_bought,
    .note = quick->note,
    .has_price = quick->has_price,
    .price = { quick->pack_price, quick->price_unit, cro_words_no_supplier (cro_book_get_model (book)),
               cro_here_today (), quick->pack_size },
  };

  return cro_edit_start (book, _("first plate"), *currency != '\0' ? currency : NULL, _("First plate"),
                         CRO_MICRO, &line, NULL, error);
}

static gboolean
make_book (CroWelcome      *self,
           const char      *path,
           const Lines     *lines,
           const CroEntry  *tax,
           GError         **error)
{
  g_autofree char *desk = cro_here_dup_desk ();
  g_autofree char *currency = dup_currency (self);
  g_autoptr (CroBook) book = cro_book_create (path, desk, cro_here_today (), error);
  CroOwnFile made;
  gboolean done;

  if (book == NULL)
    return FALSE;
  made = cro_own_file_note (path);
  done = is_several (lines)
             ? place_recipe (book, path, currency, lines, error)
             : place_line (book, currency, &cro_paste_get (&lines->paste, (guint) lines->first)->quick, error);
  if (done && (tax->status != CRO_ENTRY_OK || set_tax (book, tax->micro, error)))
    return TRUE;
  cro_own_file_remove (&made, path);
  return FALSE;
}

/* A price says the currency of a book that has none yet. */
static void
take_currency (CroWelcome *self)
{
  g_autofree char *currency = dup_currency (self);
  char code[4];

  if (*currency == '\0' && cro_currency_of_text (text_of (self->line), code))
    gtk_editable_set_text (GTK_EDITABLE (self->currency), code);
}

static void
activate_cb (CroWelcome *self)
{
  g_auto (Lines) lines = { 0 };
  g_auto (CroEntry) tax = { 0 };
  g_autofree char *currency = NULL;
  g_autofree char *path = NULL;
  g_autoptr (GError) error = NULL;

  take_currency (self);
  currency = dup_currency (self);
  lines = read_lines (self);
  if (lines.first < 0)
    {
      g_autofree char *reason = dup_reason (&lines);

      say (self, reason);
      return;
    }
  cro_entry_pct (text_of (self->tax), CRO_RANGE_AT_LEAST_0, cro_words_entry (), &tax);
  if (tax.status != CRO_ENTRY_OK && tax.status != CRO_ENTRY_EMPTY)
    {
      say (self, _("The tax is not a percentage."));
      gtk_widget_grab_focus (self->tax);
      return;
    }
  if (*currency != '\0' && !cro_currency_is_code (currency))
    {
      say (self, _("The currency is a code of three letters, such as EUR; it can be left empty."));
      gtk_widget_grab_focus (self->currency);
      return;
    }
  path = cro_welcome_dup_free_path (_("Book"));
  if (make_book (self, path, &lines, &tax, &error))
    {
      gtk_editable_set_text (GTK_EDITABLE (self->line), "");
      gtk_editable_set_text (GTK_EDITABLE (self->tax), "");
      g_signal_emit (self, signals[MADE], 0, path);
    }
  else
    {
      g_autofree char *text = cro_words_failed (error);

      say (self, text);
    }
}

/* --- What was typed and not made yet ------------------------------------------------------------------ */

static void
remember_cb (GtkEditable *entry,
             const char  *key)
{
  const char *text = gtk_editable_get_text (entry);

  cro_state_set_text ("welcome", key, *text != '\0' ? text : NULL);
}

static void
restore (GtkWidget  *entry,
         const char *key)
{
  g_autofree char *text = cro_state_dup_text ("welcome", key);

  if (text != NULL)
    gtk_editable_set_text (GTK_EDITABLE (entry), text);
  g_signal_connect (entry, "changed", G_CALLBACK (remember_cb), (gpointer) key);
}

/* --- Books of late ------------------------------------------------------------------------------------ */

static GtkWidget *
recent_new (const char *path)
{
  g_autofree char *name = cro_recent_dup_name (path);
  GtkWidget *label = gtk_label_new (name);
  GtkWidget *button = gtk_button_new ();

  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_MIDDLE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 50);
  gtk_button_set_child (GTK_BUTTON (button), label);
  gtk_widget_set_tooltip_text (button, path);
  cro_spoken_set (button, name);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.open-path");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", path);
  return button;
}

static void
fill_recent (CroWelcome *self)
{
  g_auto (GStrv) paths = cro_recent_dup ();

  cro_box_clear (self->recent);
  gtk_box_append (GTK_BOX (self->recent), cro_text_new (_("Recent books"), "dim-label"));
  for (guint i = 0; paths[i] != NULL && i < MOST_RECENT; i++)
    gtk_box_append (GTK_BOX (self->recent), recent_new (paths[i]));
  gtk_widget_set_visible (self->recent, paths[0] != NULL);
}

/* --- The widget ------------------------------------------------------------------------------------------ */

static void
cro_welcome_dispose (GObject *object)
{
  cro_template_dispose (object, CRO_TYPE_WELCOME);
  G_OBJECT_CLASS (cro_welcome_parent_class)->dispose (object);
}

static void
cro_welcome_class_init (CroWelcomeClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_welcome_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  cro_template_set (widget_class, "cro-welcome");
  gtk_widget_class_bind_template_child (widget_class, CroWelcome, line);
  gtk_widget_class_bind_template_child (widget_class, CroWelcome, currency);
  gtk_widget_class_bind_template_child (widget_class, CroWelcome, tax);
  gtk_widget_class_bind_template_child (widget_class, CroWelcome, says);
  gtk_widget_class_bind_template_child (widget_class, CroWelcome, recent);
  gtk_widget_class_bind_template_callback (widget_class, activate_cb);
  signals[MADE] = g_signal_new ("made", CRO_TYPE_WELCOME, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
cro_welcome_init (CroWelcome *self)
{
  g_autofree char *currency = cro_locale_dup_currency ();
  g_autofree char *example = cro_example_dup_line ();

  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->line), example);
  gtk_editable_set_text (GTK_EDITABLE (self->currency), currency != NULL ? currency : "");
  restore (self->line, "line");
  restore (self->tax, "tax");
  changed_cb (self);
  g_signal_connect_object (self->line, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->currency, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  fill_recent (self);
  cro_recent_watch (self, G_CALLBACK (fill_recent));
}

void
cro_welcome_focus (CroWelcome *self)
{
  gtk_widget_grab_focus (self->line);
  gtk_editable_set_position (GTK_EDITABLE (self->line), -1);
}
