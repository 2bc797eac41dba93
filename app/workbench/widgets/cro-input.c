#include "config.h"

#include "cro-input-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-focus.h"
#include "cro-input-lost.h"
#include "cro-isolate.h"
#include "cro-read-only.h"
#include "cro-spoken.h"
#include "cro-typed.h"
#include "cro-words.h"

/* A text gives way to a narrow window, or to large text, down to this. */
#define LEAST_CHARS 12
#define MARK_CHARS 3    /* as wide as the mark that opens a list */

static void typed_init (CroTypedInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (CroInput, cro_input, GTK_TYPE_WIDGET,
                               G_IMPLEMENT_INTERFACE (CRO_TYPE_TYPED, typed_init))

/* --- Values -------------------------------------------------------------------------------------- */

/* What stands in a field of per cent, as it is shown; 0 where it is no number. */
static gint64
stored_pct (CroInput *self)
{
  g_autofree char *understood = NULL, *reason = NULL;
  CroCell cell = CRO_CELL_NONE;

  if (!cro_input_type_is_pct (&self->type))
    return 0;
  if (self->read == NULL)
    return cro_input_type_read_pct (self->kept);
  reason = self->read (self, self->kept, &cell, &understood, self->row.owner);
  return cell.kind == CRO_CELL_INTEGER ? cell.integer : 0;
}

/* --- Showing --------------------------------------------------------------------------------------- */

static gboolean
is_of_words (CroInput *self)
{
  return self->type.kind == CRO_INPUT_TEXT || self->type.kind == CRO_INPUT_CODE;
}

/* The caret would stand before the value, and what is typed next be put in front of it. */
static void
select_anew (CroInput *self)
{
  if (!cro_focus_is_in (self->entry))
    return;
  if (is_of_words (self))
    cro_input_unselect_words (self);
  else
    cro_focus_select (self->entry);
}

void
cro_input_set_text (CroInput   *self,
                    const char *text)
{
  if (strcmp (gtk_editable_get_text (GTK_EDITABLE (self->entry)), text) == 0)
    return;
  self->is_setting = TRUE;
  /* What the field held before it is nobody's typing to be undone: it may be of another row. */
  gtk_editable_set_enable_undo (GTK_EDITABLE (self->entry), FALSE);
  gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
  gtk_editable_set_enable_undo (GTK_EDITABLE (self->entry), TRUE);
  self->is_setting = FALSE;
  select_anew (self);
}

/* The text that is typed stays; Enter would write over what came from elsewhere. */
static void
show_other_value (CroInput *self)
{
  g_autofree char *stored = cro_input_row_dup_text (&self->row, &self->type, self);
  g_autofree char *note = NULL;

  if (strcmp (stored, self->kept) == 0)
    return;
  g_free (self->kept);
  self->kept = g_steal_pointer (&stored);
  /* Translators: the value of a field was changed by somebody else while it is being typed. */
  note = cro_isolate_printf (_("This is now “%s”. Press Enter to replace it, Escape to keep it."),
                             self->kept);
  cro_input_note_tell (&self->note, note);
}

/* What a preview moves is the field that is typed into, and one that shows the same otherwise. */
static gboolean
shows_previews (CroInput *self)
{
  return self->row.way != NULL && self->row.way->shows_previews;
}

/* As if it were typed. */
static void
meant_cb (CroInput *self)
{
  g_autofree char *text = g_strdup (g_object_get_data (G_OBJECT (self->meant), "text"));

  gtk_widget_grab_focus (self->entry);
  gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
  cro_input_keep (self);
  select_anew (self);
}

static GtkWidget *
meant_new (CroInput *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *button = gtk_button_new ();

  gtk_box_append (GTK_BOX (box), button);
  g_signal_connect_object (button, "clicked", G_CALLBACK (meant_cb), self, G_CONNECT_SWAPPED);
  cro_input_put_answer (self, box);
  return button;
}

/* slip: NULL: nothing was, or the way of the field answers what it asks. */
static void
show_meant (CroInput       *self,
            const CroDoubt *slip)
{
  CroModel *model = cro_book_get_model (self->row.book);
  g_autofree char *says = slip != NULL && !cro_book_is_past (self->row.book, NULL)
                              ? cro_words_doubt_meant (model, slip) : NULL;

  if (says != NULL && self->meant == NULL)
    self->meant = meant_new (self);
  if (self->meant == NULL)
    return;
  gtk_widget_set_visible (gtk_widget_get_parent (self->meant), says != NULL);
  if (says == NULL)
    return;
  gtk_button_set_label (GTK_BUTTON (self->meant), says);
  g_object_set_data_full (G_OBJECT (self->meant), "text", cro_words_doubt_value (model, slip), g_free);
}

static void
show_question (CroInput *self)
{
  CroDoubt slip;
  g_autofree char *doubt = cro_input_doubt_dup (&self->row, &self->type, stored_pct (self), &slip);
  const char *question = cro_input_doubt_ask (&self->doubt, &self->row, self, self->kept);

  cro_input_note_ask (&self->note, &self->row, question != NULL ? question : doubt, FALSE);
  show_meant (self, question == NULL && doubt != NULL && self->doubt.ask == NULL ? &slip : NULL);
}

void
cro_input_refresh (CroInput *self)
{
  guint64 edition = self->row.book != NULL ? cro_book_get_edition (self->row.book) : 0;

  if (self->row.book == NULL)
    return;
  if (edition == self->edition && !shows_previews (self))
    {
      /* What the question hangs on may be told of later than its own value. */
      if (self->doubt.is_of_more && !self->is_edited && self->refused == 0)
        show_question (self);
      return;
    }
  self->edition = edition;
  cro_read_only_show (self->entry, self->row.book);
  if (self->is_edited)
    {
      show_other_value (self);
      return;
    }
  g_free (self->kept);
  self->kept = cro_input_row_dup_text (&self->row, &self->type, self);
  cro_input_set_text (self, self->kept);
  cro_input_note_refuse (&self->note, NULL);
  cro_input_note_offer (&self->note, FALSE);
  show_question (self);
}

/* --- The widget --------------------------------------------------------------------------------------- */

static void
cro_input_dispose (GObject *object)
{
  CroInput *self = CRO_INPUT (object);

  cro_input_note_clear (&self->note);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  cro_input_row_clear (&self->row);
  g_clear_pointer (&self->kept, g_free);
  cro_input_doubt_clear (&self->doubt);
  g_clear_weak_pointer (&self->next);
  G_OBJECT_CLASS (cro_input_parent_class)->dispose (object);
}

static gboolean
cro_input_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CRO_INPUT (widget)->entry);
}

/* The sign has no room of its own: it stands in the margin of the entry, however high its letter is. */
static void
cro_input_measure (GtkWidget      *widget,
                   GtkOrientation  orientation,
                   int             for_size,
                   int            *minimum,
                   int            *natural,
                   int            *minimum_baseline,
                   int            *natural_baseline)
{
  gtk_widget_measure (CRO_INPUT (widget)->box, orientation, for_size, minimum, natural, minimum_baseline,
                      natural_baseline);
}

static void
cro_input_size_allocate (GtkWidget *widget,
                         int        width,
                         int        height,
                         int        baseline)
{
  CroInput *self = CRO_INPUT (widget);

  gtk_widget_size_allocate (self->box, &(GtkAllocation){ 0, 0, width, height }, baseline);
  cro_input_note_place_sign (&self->note, width, height);
}

static GtkSizeRequestMode
cro_input_get_request_mode (GtkWidget *widget)
{
  return gtk_widget_get_request_mode (CRO_INPUT (widget)->box);
}

static void
cro_input_class_init (CroInputClass *klass)
{
  GTK_WIDGET_CLASS (klass)->measure = cro_input_measure;
  GTK_WIDGET_CLASS (klass)->size_allocate = cro_input_size_allocate;
  GTK_WIDGET_CLASS (klass)->get_request_mode = cro_input_get_request_mode;
  GTK_WIDGET_CLASS (klass)->focus = cro_focus_within;
  GTK_WIDGET_CLASS (klass)->grab_focus = cro_input_grab_focus;
  G_OBJECT_CLASS (klass)->dispose = cro_input_dispose;
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "input");
}

static void
cro_input_init (CroInput *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  self->entry = gtk_entry_new ();
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  gtk_box_append (GTK_BOX (self->box), self->entry);
  cro_input_note_init (&self->note, self->entry, self->box);
  cro_input_watch (self);
}

GtkWidget *
cro_input_new (CroInputKind  kind,
               CroRange      range,
               const char   *name)
{
  CroInput *self = g_object_new (CRO_TYPE_INPUT, NULL);

  self->type = (CroInputType) { .kind = kind, .range = range };
  cro_input_set_name (self, name);
  if (kind <= CRO_INPUT_YIELD)
    {
      /* Digits under digits, at the right. */
      gtk_editable_set_alignment (GTK_EDITABLE (self->entry), 1);
      gtk_widget_add_css_class (self->entry, "numeric");
    }
  return GTK_WIDGET (self);
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
  if (!cro_input_row_is (&self->row, book, table, id, column))
    {
      if (self->row.book != NULL)
        {
          cro_input_lost_let_go (GTK_WIDGET (self));
          cro_input_drop (self);
        }
      cro_input_row_set (&self->row, book, table, id, column);
      self->edition = 0;
      cro_input_note_forget (&self->note);
    }
  cro_input_set_act (self, act);
  cro_input_set_placeholder (self, placeholder);
  cro_input_refresh (self);
}

void
cro_input_set_act (CroInput   *self,
                   const char *act)
{
  if (g_strcmp0 (self->row.act, act) == 0)
    return;
  g_free (self->row.act);
  self->row.act = g_strdup (act);
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
  cro_input_row_set_way (&self->row, way, owner);
  self->edition = 0;
}

void
cro_input_set_ask (CroInput    *self,
                   CroInputAsk  ask)
{
  self->doubt.ask = ask;
}

void
cro_input_ask_always (CroInput *self)
{
  self->doubt.is_of_more = TRUE;
}

void
cro_input_set_tell (CroInput     *self,
                    CroInputTell  tell)
{
  self->tell = tell;
}

void
cro_input_set_show (CroInput     *self,
                    CroInputShow  show)
{
  GtkEditable *entry = GTK_EDITABLE (self->entry);

  if (self->show == NULL && show != NULL)
    {
      cro_input_note_keep_offer (&self->note);
      /* In little room the field is no wider for it. */
      gtk_editable_set_width_chars (entry, MAX (gtk_editable_get_width_chars (entry) - MARK_CHARS, 1));
    }
  self->show = show;
}

void
cro_input_hold (CroInput *self,
                gboolean  is_held)
{
  self->is_held = is_held;
}

void
cro_input_set_waits (CroInput      *self,
                     CroInputWaits  waits)
{
  self->waits = waits;
}

void
cro_input_set_asks (CroInput     *self,
                    CroInputAsks  asks)
{
  self->asks = asks;
}

void
cro_input_set_unit (CroInput *self,
                    CroUnit   unit)
{
  self->type.unit = unit;
  self->type.has_unit = TRUE;
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
  return self->row.book;
}

const char *
cro_input_get_table (CroInput *self)
{
  return self->row.table;
}

gint64
cro_input_get_id (CroInput *self)
{
  return self->row.id;
}

const char *
cro_input_get_column (CroInput *self)
{
  return self->row.column;
}

const char *
cro_input_get_act (CroInput *self)
{
  return self->row.act;
}

void
cro_input_set_name (CroInput   *self,
                    const char *name)
{
  cro_spoken_set (self->entry, name);
}

void
cro_input_hide_old (CroInput *self)
{
  self->note.old.is_hidden = TRUE;
}

/* Words in a field are read whole; numbers come and go there, and no field moves with them. */
static void
make_room (CroInput   *self,
           const char *placeholder)
{
  GtkEditable *entry = GTK_EDITABLE (self->entry);
  int chars = (int) g_utf8_strlen (placeholder, -1) + 1;

  if (!g_unichar_isalpha (g_utf8_get_char (placeholder)) || chars <= gtk_editable_get_width_chars (entry))
    return;
  gtk_editable_set_width_chars (entry, chars);
  gtk_editable_set_max_width_chars (entry, MAX (chars, gtk_editable_get_max_width_chars (entry)));
}

void
cro_input_set_placeholder (CroInput   *self,
                           const char *placeholder)
{
  if (placeholder != NULL)
    make_room (self, placeholder);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->entry), placeholder);
}

void
cro_input_unselect_words (CroInput *self)
{
  if (is_of_words (self))
    gtk_editable_set_position (GTK_EDITABLE (self->entry), -1);
}

void
cro_input_set_width (CroInput *self,
                     int       chars)
{
  gboolean gives_way = is_of_words (self);

  gtk_editable_set_width_chars (GTK_EDITABLE (self->entry),
                                gives_way ? MIN (chars, LEAST_CHARS) : chars);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->entry), chars);
}

void
cro_input_set_least (CroInput *self,
                     int       chars)
{
  gtk_editable_set_width_chars (GTK_EDITABLE (self->entry), chars);
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
cro_input_put_answer (CroInput  *self,
                      GtkWidget *answer)
{
  cro_input_note_put_answer (&self->note, answer);
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
cro_input_is_other (CroInput *self)
{
  return self->is_edited && strcmp (cro_input_get_text (self), self->kept) != 0;
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

  return self->row.book != NULL ? g_strdup_printf ("%s.%" G_GINT64_FORMAT ".%s", self->row.table, self->row.id,
                                                   self->row.column != NULL ? self->row.column : "")
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
