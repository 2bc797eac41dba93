#include "config.h"

#include "cro-input.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-date.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-spoken.h"
#include "cro-tried-words.h"
#include "cro-typed.h"
#include "cro-words-price.h"
#include "cro-words.h"

/* A text gives way to a narrow window, or to large text, down to this. */
#define LEAST_CHARS 12

struct _CroInput
{
  GtkWidget    parent_instance;

  GtkWidget   *box;
  GtkWidget   *entry;
  GtkWidget   *reason;      /* why what stands there cannot be kept */

  CroInputKind kind;
  CroRange     range;
  CroUnit      unit;        /* of the number, where it has one */
  gboolean     has_unit;
  CroBook     *book;
  const char  *table;
  gint64       id;
  const char  *column;
  char        *act;
  char        *name;        /* as it is spoken */
  char        *old;         /* in a trial what the book has, at an edition; NULL: the same */
  guint64      old_edition;
  const CroInputWay *way;   /* borrowed; NULL: the column */
  CroInputRead read;        /* NULL: as its kind has it */
  CroInputAsk  ask;         /* NULL: nothing */
  CroInputWaits waits;      /* NULL: nothing that is refused */
  GtkWidget   *next;        /* weak; NULL: what Tab leads to */
  GObject     *owner;       /* weak: NULL once it is gone */
  gboolean     has_owner;

  char        *kept;        /* the text of what was stored when editing began */
  guint64      edition;     /* of the book, when it was read; 0: it was not */
  guint64      there;       /* of the book, when its row was last found in the store */
  char        *asked_of;    /* the text that question is about */
  char        *question;    /* of its way; NULL: none */
  gboolean     hides_old;   /* another field says what a trial changed of it */
  gboolean     is_apart;    /* what is wrong stands in a box with that of others */
  gboolean     is_edited;
  gboolean     is_keeping;  /* the act may take the focus away, and leaving keeps too */
  gboolean     is_setting;  /* its text changes by its own hand */
};

static void typed_init (CroTypedInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (CroInput, cro_input, GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (CRO_TYPE_TYPED, typed_init))

/* --- Values -------------------------------------------------------------------------------------- */

static char *
text_of_date (const char *iso)
{
  CroDate date;

  return cro_date_parse (iso, strlen (iso), &date) ? cro_date_to_text (date) : g_strdup (iso);
}

static char *
text_of_column (CroInput *self)
{
  const char *columns[] = { self->column, NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (self->book), self->table,
                                                 self->id, columns, NULL);

  if (rows == NULL || !cro_rows_next (rows, NULL) || cro_rows_is_null (rows, 0))
    return g_strdup ("");
  switch (self->kind)
    {
    case CRO_INPUT_MONEY:
      return cro_words_price (cro_book_get_model (self->book), cro_rows_get_int (rows, 0));
    case CRO_INPUT_NUMBER:
    case CRO_INPUT_PCT:
    case CRO_INPUT_YIELD:
      return cro_words_decimal (cro_rows_get_int (rows, 0));
    case CRO_INPUT_DATE:
      return text_of_date (cro_rows_get_text (rows, 0));
    default:
      return g_strdup (cro_rows_get_text (rows, 0));
    }
}

/* What stands in a field of per cent, as it is shown; 0 where it is no number. */
static gint64
stored_pct (CroInput *self)
{
  g_auto (CroEntry) entry = { 0 };
  g_autofree char *understood = NULL, *reason = NULL;
  CroCell cell = CRO_CELL_NONE;

  if (self->kind != CRO_INPUT_PCT && self->kind != CRO_INPUT_YIELD)
    return 0;
  if (self->read != NULL)
    {
      reason = self->read (self, self->kept, &cell, &understood, self->owner);
      return cell.kind == CRO_CELL_INTEGER ? cell.integer : 0;
    }
  return cro_entry_pct (self->kept, CRO_RANGE_ANY, NULL, &entry) ? entry.micro : 0;
}

/* Between the act that removed its row, or what it belongs to, and the refresh that takes it
 * away: another process may have made it. */
static gboolean
is_gone (CroInput *self)
{
  static const char *const columns[] = { "id", NULL };
  g_autoptr (CroRows) rows = NULL;

  if (self->has_owner && self->owner == NULL)
    return TRUE;
  rows = cro_store_read_one (cro_book_get_store (self->book), self->table, self->id, columns, NULL);
  if (rows == NULL || !cro_rows_next (rows, NULL))
    return TRUE;
  self->there = cro_book_get_edition (self->book);
  return FALSE;
}

/* The same as far as the book knows, which keys that are typed need not ask twice. */
static gboolean
is_known_gone (CroInput *self)
{
  if (self->there == cro_book_get_edition (self->book))
    return self->has_owner && self->owner == NULL;
  return is_gone (self);
}

static char *
text_of_row (CroInput *self)
{
  if (self->way == NULL || self->way->dup_text == NULL)
    return text_of_column (self);
  return is_known_gone (self) ? g_strdup ("") : self->way->dup_text (self, self->owner);
}

/* Reads what stands in the field as its kind has it; NULL, or why it cannot be kept. A text is
 * handed over in *owned, to live as long as the cell; in *understood how a number was read that
 * could have been another, or NULL. */
static char *
parse_kind (CroInput *self,
            CroCell  *cell,
            char    **owned,
            char    **understood)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entry));
  g_auto (CroEntry) entry = { 0 };

  *cell = CRO_CELL_NONE;
  switch (self->kind)
    {
    case CRO_INPUT_NUMBER:
      if (self->has_unit)
        cro_entry_amount (text, self->unit, self->range, cro_words_entry (), &entry);
      else
        cro_entry_number (text, self->range, &entry);
      break;
    case CRO_INPUT_MONEY:
      cro_entry_money (text, cro_book_get_model (self->book)->currency, self->range, &entry);
      break;
    case CRO_INPUT_PCT:
    case CRO_INPUT_YIELD:
      cro_entry_pct (text, self->range, cro_words_entry (), &entry);
      break;
    case CRO_INPUT_DATE:
      if (cro_entry_date (text, &entry))
        {
          *owned = g_malloc (CRO_DATE_CHARS);
          cro_date_format (entry.date, *owned);
          *cell = CRO_CELL_STR (*owned);
        }
      return cro_words_entry_reason (text, &entry);
    case CRO_INPUT_TEXT:
    case CRO_INPUT_CODE:
      *owned = g_strstrip (g_strdup (text));
      if (**owned != '\0' || self->kind == CRO_INPUT_CODE)
        *cell = CRO_CELL_STR (*owned);
      return NULL;
    }
  if (entry.status == CRO_ENTRY_OK)
    *cell = CRO_CELL_INT (entry.micro);
  *understood = g_steal_pointer (&entry.understood);
  return self->kind == CRO_INPUT_MONEY
             ? cro_words_price_reason (text, &entry, cro_book_get_model (self->book)->currency)
             : cro_words_entry_reason (text, &entry);
}

/* The same, by the field's own way where it has one. The reason is owned. */
static char *
parse (CroInput *self,
       CroCell  *cell,
       char    **owned,
       char    **understood)
{
  if (self->read == NULL)
    return parse_kind (self, cell, owned, understood);
  *cell = CRO_CELL_NONE;
  return self->read (self, gtk_editable_get_text (GTK_EDITABLE (self->entry)), cell, understood,
                     self->owner);
}

/* --- Showing --------------------------------------------------------------------------------------- */

static void
set_text (CroInput   *self,
          const char *text)
{
  self->is_setting = TRUE;
  if (strcmp (gtk_editable_get_text (GTK_EDITABLE (self->entry)), text) != 0)
    gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
  self->is_setting = FALSE;
}

/* What stands under the field, to the eye and as its description. */
static void
set_note (CroInput   *self,
          const char *note)
{
  gtk_label_set_label (GTK_LABEL (self->reason), note != NULL ? note : "");
  gtk_widget_set_visible (self->reason, note != NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  note != NULL ? note : "", -1);
}

static void
set_reason (CroInput   *self,
            const char *reason)
{
  set_note (self, reason);
  if (reason != NULL)
    gtk_widget_add_css_class (self->entry, "error");
  else
    gtk_widget_remove_css_class (self->entry, "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID,
                               reason != NULL ? GTK_ACCESSIBLE_INVALID_TRUE
                                              : GTK_ACCESSIBLE_INVALID_FALSE,
                               -1);
}

/* A question about what stands there, which is kept all the same. */
static void
ask_about (CroInput *self,
           gint64    micro)
{
  g_autofree char *question = NULL;
  CroDoubt doubt;

  if ((self->kind != CRO_INPUT_PCT && self->kind != CRO_INPUT_YIELD) || self->column == NULL
      || !cro_doubt_of_percent (cro_book_get_model (self->book), self->table, self->column, micro,
                                &doubt))
    return;
  question = cro_words_doubt (cro_book_get_model (self->book), &doubt);
  set_note (self, question);
}

/* Asked anew only where the text is another, as the answer may take a walk over all names. */
static void
ask_of_way (CroInput *self)
{
  if (self->has_owner && self->owner == NULL)
    return;
  if (g_strcmp0 (self->asked_of, self->kept) != 0)
    {
      g_free (self->asked_of);
      g_free (self->question);
      self->asked_of = g_strdup (self->kept);
      self->question = self->ask (self, self->owner);
    }
  if (self->question != NULL)
    set_note (self, self->question);
}

/* The text that is typed stays; Enter would write over what came from elsewhere. */
static void
show_other_value (CroInput *self)
{
  g_autofree char *stored = text_of_row (self);
  g_autofree char *note = NULL;

  if (strcmp (stored, self->kept) == 0)
    return;
  g_free (self->kept);
  self->kept = g_steal_pointer (&stored);
  /* Translators: the value of a field was changed by somebody else while it is being typed. */
  note = cro_isolate_printf (_("This is now “%s”. Press Enter to replace it, Escape to keep it."),
                             self->kept);
  set_note (self, note);
}

/* Of the book as it stood, which is only read. */
static void
refresh_editable (CroInput *self)
{
  gboolean is_past = cro_book_is_past (self->book, NULL);

  if (gtk_editable_get_editable (GTK_EDITABLE (self->entry)) == !is_past)
    return;
  gtk_editable_set_editable (GTK_EDITABLE (self->entry), !is_past);
  gtk_widget_set_tooltip_text (self->entry, is_past ? cro_words_past () : NULL);
}

/* What a preview moves is the field that is typed into, and one that shows the same otherwise. */
static gboolean
shows_previews (CroInput *self)
{
  return self->way != NULL && self->way->shows_previews;
}

/* Once for an edition of the book: a key asks nothing. */
static const char *
old_value (CroInput *self)
{
  guint64 edition = cro_book_get_edition (self->book);

  if (self->old_edition == edition)
    return self->old;
  self->old_edition = edition;
  g_free (self->old);
  self->old = cro_tried_dup_old (self->book, self->table, self->id, self->column);
  return self->old;
}

/* In a trial: what the book has, where that is another value. */
static void
show_old (CroInput *self)
{
  const char *old;
  g_autofree char *note = NULL;

  if (self->hides_old || self->column == NULL || cro_book_get_tried (self->book) == NULL)
    return;
  old = old_value (self);
  if (old == NULL)
    return;
  /* Translators: of a field in a trial: its name, and what the book has there. */
  note = self->is_apart ? cro_isolate_printf (_("%s: was %s"), self->name, old)
                        /* Translators: of a field in a trial: what the book has there. */
                        : cro_isolate_printf (_("was %s"), old);
  set_note (self, note);
}

void
cro_input_refresh (CroInput *self)
{
  guint64 edition = self->book != NULL ? cro_book_get_edition (self->book) : 0;

  if (self->book == NULL || (edition == self->edition && !shows_previews (self)))
    return;
  self->edition = edition;
  refresh_editable (self);
  if (self->is_edited)
    {
      show_other_value (self);
      return;
    }
  g_free (self->kept);
  self->kept = text_of_row (self);
  set_text (self, self->kept);
  set_reason (self, NULL);
  ask_about (self, stored_pct (self));
  if (self->ask != NULL)
    ask_of_way (self);
  show_old (self);
}

/* --- Editing ------------------------------------------------------------------------------------------ */

static gboolean
preview (CroInput       *self,
         const CroCell  *cell,
         GError        **error)
{
  if (self->way != NULL && self->way->preview != NULL)
    return self->way->preview (self, cell, self->owner, error);
  return cro_book_preview (self->book, self->table, self->id, self->column, cell, error);
}

static gboolean
write_value (CroInput       *self,
             const CroCell  *cell,
             GError        **error)
{
  if (self->way != NULL && self->way->keep != NULL)
    return self->way->keep (self, cell, self->owner, error);
  return cro_book_set (self->book, self->act, self->table, self->id, self->column, cell, error);
}

static void
set_failure (CroInput     *self,
             const GError *error)
{
  g_autofree char *message = cro_words_error (error);

  set_reason (self, message);
}

static void
changed_cb (CroInput *self)
{
  g_autofree char *owned = NULL, *understood = NULL, *note = NULL, *reason = NULL;
  g_autoptr (GError) error = NULL;
  CroCell cell;

  if (self->is_setting || self->book == NULL)
    return;
  if (!self->is_edited && is_known_gone (self))
    {
      set_text (self, "");
      return;
    }
  self->is_edited = TRUE;
  reason = parse (self, &cell, &owned, &understood);
  if (reason == NULL && !preview (self, &cell, &error))
    {
      set_failure (self, error);
      return;
    }
  if (reason != NULL)
    cro_book_restore (self->book, NULL);
  set_reason (self, reason);
  if (reason == NULL)
    show_old (self);
  if (reason == NULL && understood != NULL)
    {
      /* Translators: %s is a number that could have been read in another way. */
      note = g_strdup_printf (_("Read as %s"), understood);
      set_note (self, note);
    }
  else if (reason == NULL && cell.kind == CRO_CELL_INTEGER)
    ask_about (self, cell.integer);
}

/* Gives up what was typed. */
static void
drop (CroInput *self)
{
  self->is_edited = FALSE;
  self->edition = 0;
  cro_book_restore (self->book, NULL);
  cro_input_refresh (self);
}

/* What is refused as yet, and stays typed without an error. */
static gboolean
may_wait (CroInput     *self,
          const GError *error)
{
  if (self->waits == NULL || !self->waits (error))
    return FALSE;
  set_reason (self, NULL);
  return TRUE;
}

/* The act may have taken the field's own row from the screen, so it is held until the end. */
static gboolean
keep (CroInput *input)
{
  g_autoptr (CroInput) self = g_object_ref (input);
  g_autofree char *owned = NULL, *understood = NULL, *reason = NULL;
  g_autoptr (GError) error = NULL;
  CroCell cell;
  gboolean done;

  if (!self->is_edited || self->is_keeping || self->book == NULL)
    return TRUE;
  if (is_gone (self))
    {
      drop (self);
      return TRUE;
    }
  if (strcmp (gtk_editable_get_text (GTK_EDITABLE (self->entry)), self->kept) == 0)
    {
      drop (self);
      return TRUE;
    }
  reason = parse (self, &cell, &owned, &understood);
  if (reason != NULL)
    {
      set_reason (self, reason);
      return FALSE;
    }
  self->is_keeping = TRUE;
  done = write_value (self, &cell, &error);
  self->is_keeping = FALSE;
  if (!done)
    {
      cro_book_restore (self->book, NULL);
      if (may_wait (self, error))
        return TRUE;
      set_failure (self, error);
      return FALSE;
    }
  self->is_edited = FALSE;
  self->edition = 0;
  cro_input_refresh (self);
  return TRUE;
}

void
cro_input_keep (CroInput *self)
{
  keep (self);
}

void
cro_input_drop (CroInput *self)
{
  if (self->is_edited)
    drop (self);
}

gboolean
cro_input_read (CroInput *self,
                CroCell  *cell)
{
  g_autofree char *owned = NULL, *understood = NULL, *reason = NULL;

  if (!self->is_edited)
    return FALSE;
  reason = parse (self, cell, &owned, &understood);
  return reason == NULL && owned == NULL;
}

/* Where the field is gone the focus has another place already. */
static void
activate_cb (CroInput *input)
{
  g_autoptr (CroInput) self = g_object_ref (input);
  gboolean is_kept = keep (self);
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  if (is_kept && self->next != NULL)
    gtk_widget_grab_focus (self->next);
  else if (is_kept && root != NULL)
    gtk_widget_child_focus (GTK_WIDGET (root), GTK_DIR_TAB_FORWARD);
}

/* Ahead of the first key: none of them asks the store. */
static void
enter_cb (CroInput *self)
{
  if (self->book == NULL || cro_book_is_past (self->book, NULL) || is_known_gone (self))
    return;
  cro_book_look_at (self->book, self->table, self->id, NULL);
  if (self->way != NULL && self->way->look != NULL)
    self->way->look (self, self->owner);
}

/* What was marked in it is marked no more: only one field is to look chosen. */
static void
leave_cb (CroInput *self)
{
  keep (self);
  gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, 0);
}

static gboolean
key_pressed_cb (CroInput        *self,
                guint            keyval,
                guint            keycode,
                GdkModifierType  state)
{
  if (keyval != GDK_KEY_Escape || !self->is_edited)
    return GDK_EVENT_PROPAGATE;
  drop (self);
  gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
  return GDK_EVENT_STOP;
}

/* --- The widget --------------------------------------------------------------------------------------- */

static void
cro_input_dispose (GObject *object)
{
  CroInput *self = CRO_INPUT (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->book);
  g_clear_pointer (&self->act, g_free);
  g_clear_pointer (&self->name, g_free);
  g_clear_pointer (&self->old, g_free);
  g_clear_pointer (&self->kept, g_free);
  g_clear_pointer (&self->asked_of, g_free);
  g_clear_pointer (&self->question, g_free);
  g_clear_weak_pointer (&self->next);
  g_clear_weak_pointer (&self->owner);
  G_OBJECT_CLASS (cro_input_parent_class)->dispose (object);
}

static gboolean
cro_input_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CRO_INPUT (widget)->entry);
}

/* GTK would grab the focus again where a key leads backwards out of it. */
static gboolean
cro_input_focus (GtkWidget        *widget,
                 GtkDirectionType  direction)
{
  return gtk_widget_child_focus (CRO_INPUT (widget)->box, direction);
}

static void
cro_input_class_init (CroInputClass *klass)
{
  GTK_WIDGET_CLASS (klass)->focus = cro_input_focus;
  GTK_WIDGET_CLASS (klass)->grab_focus = cro_input_grab_focus;
  G_OBJECT_CLASS (klass)->dispose = cro_input_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "input");
}

static void
cro_input_init (CroInput *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  self->entry = gtk_entry_new ();
  self->reason = gtk_label_new (NULL);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  gtk_box_append (GTK_BOX (self->box), self->entry);
  gtk_box_append (GTK_BOX (self->box), self->reason);
  gtk_label_set_wrap (GTK_LABEL (self->reason), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (self->reason), 20);
  gtk_label_set_xalign (GTK_LABEL (self->reason), 0);
  gtk_widget_add_css_class (self->reason, "reason");
  gtk_widget_set_visible (self->reason, FALSE);

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (self->entry, keys);
  gtk_widget_add_controller (self->entry, focus);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (focus, "enter", G_CALLBACK (enter_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (focus, "leave", G_CALLBACK (leave_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->entry, "changed", G_CALLBACK (changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->entry, "activate", G_CALLBACK (activate_cb), self,
                           G_CONNECT_SWAPPED);
}

GtkWidget *
cro_input_new (CroInputKind  kind,
               CroRange      range,
               const char   *name)
{
  CroInput *self = g_object_new (CRO_TYPE_INPUT, NULL);

  self->kind = kind;
  self->range = range;
  cro_input_set_name (self, name);
  if (kind <= CRO_INPUT_YIELD)
    {
      /* Digits under digits, at the right. */
      gtk_editable_set_alignment (GTK_EDITABLE (self->entry), 1);
      gtk_widget_add_css_class (self->entry, "numeric");
    }
  return GTK_WIDGET (self);
}

static gboolean
is_bound (CroInput   *self,
          CroBook    *book,
          const char *table,
          gint64      id,
          const char *column)
{
  return self->book == book && self->table == g_intern_string (table) && self->id == id
         && self->column == g_intern_string (column);
}

/* Under another name of the thing it stays what it is, with what is typed. */
void
cro_input_bind (CroInput   *self,
                CroBook    *book,
                const char *table,
                gint64      id,
                const char *column,
                const char *act,
                const char *placeholder)
{
  if (!is_bound (self, book, table, id, column))
    {
      if (self->is_edited && self->book != NULL)
        drop (self);
      g_set_object (&self->book, book);
      self->table = g_intern_string (table);
      self->id = id;
      self->column = g_intern_string (column);
      self->edition = self->there = self->old_edition = 0;
    }
  cro_input_set_act (self, act);
  cro_input_set_placeholder (self, placeholder);
  cro_input_refresh (self);
}

void
cro_input_set_act (CroInput   *self,
                   const char *act)
{
  if (g_strcmp0 (self->act, act) == 0)
    return;
  g_free (self->act);
  self->act = g_strdup (act);
}

gboolean
cro_input_preview_nothing (CroInput       *self,
                           const CroCell  *cell,
                           gpointer        owner,
                           GError        **error)
{
  return TRUE;
}

void
cro_input_lead_to (CroInput  *self,
                   GtkWidget *next)
{
  g_set_weak_pointer (&self->next, next);
}

void
cro_input_set_way (CroInput          *self,
                   const CroInputWay *way,
                   gpointer           owner)
{
  self->way = way;
  self->has_owner = owner != NULL;
  g_set_weak_pointer (&self->owner, owner);
  self->edition = 0;
}

void
cro_input_set_ask (CroInput    *self,
                   CroInputAsk  ask)
{
  self->ask = ask;
}

void
cro_input_set_waits (CroInput      *self,
                     CroInputWaits  waits)
{
  self->waits = waits;
}

void
cro_input_set_unit (CroInput *self,
                    CroUnit   unit)
{
  self->unit = unit;
  self->has_unit = TRUE;
}

void
cro_input_set_read (CroInput     *self,
                    CroInputRead  read)
{
  self->read = read;
}

CroBook *
cro_input_get_book (CroInput *self)
{
  return self->book;
}

const char *
cro_input_get_table (CroInput *self)
{
  return self->table;
}

gint64
cro_input_get_id (CroInput *self)
{
  return self->id;
}

const char *
cro_input_get_column (CroInput *self)
{
  return self->column;
}

const char *
cro_input_get_act (CroInput *self)
{
  return self->act;
}

void
cro_input_set_name (CroInput   *self,
                    const char *name)
{
  g_free (self->name);
  self->name = g_strdup (name);
  cro_spoken_set (self->entry, name);
}

void
cro_input_hide_old (CroInput *self)
{
  self->hides_old = TRUE;
}

void
cro_input_set_placeholder (CroInput   *self,
                           const char *placeholder)
{
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->entry), placeholder);
}

void
cro_input_set_width (CroInput *self,
                     int       chars)
{
  gboolean gives_way = self->kind == CRO_INPUT_TEXT || self->kind == CRO_INPUT_CODE;

  gtk_editable_set_width_chars (GTK_EDITABLE (self->entry),
                                gives_way ? MIN (chars, LEAST_CHARS) : chars);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->entry), chars);
}

/* The space stands at the right whichever way the language runs: numbers do not turn. */
void
cro_input_set_column (CroInput *self,
                      int       width,
                      int       behind)
{
  GtkWidget *text = GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (self->entry)));

  gtk_widget_set_direction (self->entry, GTK_TEXT_DIR_LTR);
  gtk_widget_set_direction (text, GTK_TEXT_DIR_LTR);
  gtk_widget_set_size_request (self->entry, width, -1);
  gtk_widget_set_margin_end (text, behind);
}

void
cro_input_put_reason (CroInput *self,
                      GtkBox   *box)
{
  g_object_ref (self->reason);
  gtk_box_remove (GTK_BOX (self->box), self->reason);
  gtk_box_append (box, self->reason);
  g_object_unref (self->reason);
  gtk_label_set_max_width_chars (GTK_LABEL (self->reason), -1);
  self->is_apart = TRUE;
}

const char *
cro_input_get_text (CroInput *self)
{
  return gtk_editable_get_text (GTK_EDITABLE (self->entry));
}

gboolean
cro_input_is_edited (CroInput *self)
{
  return self->is_edited;
}

gboolean
cro_input_is_set (CroInput *self)
{
  return *gtk_editable_get_text (GTK_EDITABLE (self->entry)) != '\0';
}

/* --- What is typed and not kept -------------------------------------------------------------------- */

static char *
typed_dup_field (CroTyped *typed)
{
  CroInput *self = CRO_INPUT (typed);

  return self->book != NULL ? g_strdup_printf ("%s.%" G_GINT64_FORMAT ".%s", self->table, self->id,
                                               self->column != NULL ? self->column : "")
                            : NULL;
}

static char *
typed_dup_text (CroTyped *typed)
{
  CroInput *self = CRO_INPUT (typed);

  return self->is_edited ? g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->entry))) : NULL;
}

static void
typed_type (CroTyped   *typed,
            const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (CRO_INPUT (typed)->entry), text);
}

static void
typed_init (CroTypedInterface *iface)
{
  iface->dup_field = typed_dup_field;
  iface->dup_text = typed_dup_text;
  iface->type = typed_type;
}
