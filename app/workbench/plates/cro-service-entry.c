#include "config.h"

#include "cro-service-entry-private.h"

#include <glib/gi18n.h>

#include "cro-cause.h"
#include "cro-edit-service.h"
#include "cro-entry-time.h"
#include "cro-example.h"
#include "cro-field.h"
#include "cro-finder-entry.h"
#include "cro-focus.h"
#include "cro-isolate.h"
#include "cro-not-set.h"
#include "cro-number.h"
#include "cro-reason.h"
#include "cro-refused-words.h"
#include "cro-row-grid.h"
#include "cro-words.h"

#define HINT_CHARS 36

G_DEFINE_FINAL_TYPE (CroServiceEntry, cro_service_entry, GTK_TYPE_WIDGET)

enum
{
  MOVED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

enum
{
  NAME,
  COVERS,
};

static CroBook *
book_of (CroServiceEntry *self)
{
  return cro_bench_get_book (self->bench);
}

static void
tell (CroServiceEntry *self)
{
  g_signal_emit (self, signals[MOVED], 0);
}

/* --- Acts ------------------------------------------------------------------------------------- */

static gboolean
set_covers (CroServiceEntry  *self,
            CroRef            thing,
            gint64            covers,
            GError          **error)
{
  const char *name = cro_ref_name (cro_book_get_model (book_of (self)), thing);
  g_autofree char *label = cro_act_dup_label (_("covers"), name);

  return cro_edit_set_covers (book_of (self), label, self->day, self->name, thing, covers, error);
}

static const CroCovers *
covers_of_row (CroServiceEntry *self,
               gint64           id)
{
  for (guint i = 0; self->kept != NULL && i < self->kept->covers->len; i++)
    if (g_array_index (self->kept->covers, CroCovers, i).id == id)
      return &g_array_index (self->kept->covers, CroCovers, i);
  return NULL;
}

static void
remove_covers_cb (CroServiceEntry *self,
                  gint64           id)
{
  const CroCovers *covers = covers_of_row (self, id);
  g_autoptr (GError) error = NULL;

  if (covers != NULL && !set_covers (self, covers->thing, CRO_NOT_SET, &error))
    cro_bench_fail (self->bench, error);
}

static void
take_cb (CroServiceEntry *self)
{
  g_autofree char *date = cro_date_to_text (self->before);
  /* Translators: an entry of the history: covers taken over from another day. */
  g_autofree char *label = g_strdup_printf (_("covers of %s"), date);
  g_autoptr (GError) error = NULL;

  if (!cro_edit_take_covers (book_of (self), label, self->day, self->name, self->before, &error))
    cro_bench_fail (self->bench, error);
  gtk_widget_grab_focus (self->add);
}

/* --- Covers that are typed ------------------------------------------------------------------- */

static char *
dup_covers (CroInput *input,
            gpointer  view)
{
  const CroCovers *covers = covers_of_row (view, cro_input_get_id (input));

  return covers != NULL ? cro_words_decimal (covers->covers) : NULL;
}

/* Counted once the key is over: what is typed is read from the fields. */
static gboolean
preview_covers (CroInput       *input,
                const CroCell  *cell,
                gpointer        view,
                GError        **error)
{
  tell (view);
  return TRUE;
}

static gboolean
keep_covers (CroInput       *input,
             const CroCell  *cell,
             gpointer        view,
             GError        **error)
{
  const CroCovers *covers = covers_of_row (view, cro_input_get_id (input));

  return covers == NULL
         || set_covers (view, covers->thing,
                        cro_cell_number (cell), error);
}

static const CroInputWay covers_way = {
  .dup_text = dup_covers,
  .preview = preview_covers,
  .keep = keep_covers,
};

static CroInput *
covers_input (CroServiceEntry *self,
              guint            row)
{
  return CRO_INPUT (cro_row_grid_get (CRO_ROW_GRID (self->covers), row, COVERS));
}

/* Covers of what is being added count while they are typed. */
static void
add_asked (CroServiceEntry *self)
{
  g_auto (CroEntry) read = { 0 };
  CroCovers one = { .thing = self->chosen };

  if (self->chosen.kind == CRO_REF_NONE
      || !cro_entry_covers (gtk_editable_get_text (GTK_EDITABLE (self->ask_entry)), CRO_RANGE_AT_LEAST_0,
                            &read))
    return;
  one.covers = read.micro;
  g_array_append_val (self->typed->covers, one);
}

const CroService *
cro_service_entry_get (CroServiceEntry *self)
{
  g_clear_pointer (&self->typed, cro_service_free);
  self->typed = cro_service_new ();
  for (guint i = 0; self->kept != NULL && i < self->kept->covers->len; i++)
    {
      CroCovers one = g_array_index (self->kept->covers, CroCovers, i);
      CroCell cell;

      if (cro_input_read (covers_input (self, i), &cell))
        one.covers = cell.kind == CRO_CELL_NULL ? 0 : cell.integer;
      g_array_append_val (self->typed->covers, one);
    }
  if (self->kept != NULL)
    g_array_append_vals (self->typed->in_house, self->kept->in_house->data,
                         self->kept->in_house->len);
  add_asked (self);
  return self->typed;
}

/* What is asked stands where its row will. */
static void
set_name_width (GtkWidget *label)
{
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), 18);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 24);
}

/* Of a field for covers, empty as well. */
static int
covers_chars (void)
{
  return MAX (5, (int) g_utf8_strlen (_("covers"), -1));
}

/* The first row has its head as soon as its covers are asked for, in the place of what was to be done first. */
static void
show_head (CroServiceEntry *self)
{
  gboolean has_row = gtk_widget_get_visible (self->ask) || (self->kept != NULL && self->kept->covers->len > 0);

  gtk_widget_set_visible (self->covers, has_row);
  gtk_widget_set_visible (self->none, !has_row);
}

/* --- A plate or a menu more ------------------------------------------------------------------- */

static void
ask (CroServiceEntry *self,
     CroRef           thing)
{
  const char *name = cro_ref_name (cro_book_get_model (book_of (self)), thing);
  g_autofree char *spoken = name != NULL ? cro_act_dup_label (_("covers"), name) : NULL;

  self->chosen = thing;
  gtk_editable_set_text (GTK_EDITABLE (self->ask_entry), "");
  gtk_widget_set_visible (self->ask, name != NULL);
  show_head (self);
  if (name == NULL)
    return;
  gtk_label_set_label (GTK_LABEL (self->ask_name), name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->ask_entry), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  spoken, -1);
  gtk_widget_grab_focus (self->ask_entry);
}

static void
say_refused (CroServiceEntry *self,
             const char      *reason)
{
  cro_reason_mark (self->ask_entry, reason != NULL);
  cro_bubble_say (self->ask_reason, reason, TRUE);
}

/* Left, a text that is no number stays, and stays marked; typed on, it is not judged until it is done. */
static void
judge_cb (CroServiceEntry *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->ask_entry));
  g_auto (CroEntry) read = { 0 };
  g_autofree char *reason = NULL;

  cro_entry_covers (text, CRO_RANGE_AT_LEAST_0, &read);
  reason = cro_words_entry_reason (text, &read);
  say_refused (self, reason);
}

static void
typed_cb (CroServiceEntry *self)
{
  say_refused (self, NULL);
  tell (self);
}

/* What has covers already is changed where it stands. */
static void
chosen_cb (CroServiceEntry *self,
           int              kind,
           guint            slot)
{
  CroRef thing = CRO_REF (kind == CRO_KIND_MENU ? CRO_REF_MENU : CRO_REF_RECIPE, slot);

  for (guint i = 0; self->kept != NULL && i < self->kept->covers->len; i++)
    if (cro_ref_equal (g_array_index (self->kept->covers, CroCovers, i).thing, thing))
      {
        gtk_widget_grab_focus (GTK_WIDGET (covers_input (self, i)));
        return;
      }
  ask (self, thing);
}

static void
asked_cb (CroServiceEntry *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->ask_entry));
  g_auto (CroEntry) read = { 0 };
  g_autofree char *reason = NULL;
  g_autoptr (GError) error = NULL;

  cro_entry_covers (text, CRO_RANGE_AT_LEAST_0, &read);
  if (read.status == CRO_ENTRY_OK && set_covers (self, self->chosen, read.micro, &error))
    {
      ask (self, CRO_REF_NOWHERE);
      gtk_widget_grab_focus (self->add);
      return;
    }
  reason = error != NULL                       ? cro_words_failed (error)
           : read.status != CRO_ENTRY_EMPTY ? cro_words_entry_reason (text, &read)
                                               : g_strdup (_("Type the number of covers."));
  say_refused (self, reason);
}

static gboolean
ask_key_cb (CroServiceEntry *self,
            guint            keyval)
{
  if (keyval != GDK_KEY_Escape)
    return GDK_EVENT_PROPAGATE;
  ask (self, CRO_REF_NOWHERE);
  gtk_widget_grab_focus (self->add);
  tell (self);
  return GDK_EVENT_STOP;
}

/* --- Rows ------------------------------------------------------------------------------------- */

static void
add_covers_row (CroServiceEntry *self,
                guint            row,
                const CroCovers *one)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->covers);
  const char *name = cro_ref_name (cro_book_get_model (book_of (self)), one->thing);

  if (cro_row_grid_add_row (grid, one->id))
    {
      GtkWidget *input;

      cro_row_grid_add_label (grid, FALSE);
      input = cro_row_grid_add_input (grid, CRO_INPUT_COVERS, CRO_RANGE_AT_LEAST_0, covers_chars (),
                                      "covers_micro");
      cro_input_set_way (CRO_INPUT (input), &covers_way, self);
      cro_input_lead_to (CRO_INPUT (input), self->add);
      cro_row_grid_add_removal (grid);
    }
  if (cro_row_grid_rename_row (grid, name))
    {
      g_autofree char *label = cro_act_dup_label (_("covers"), name);
      /* Translators: the accessible name of a button; a plate or menu of a service. */
      g_autofree char *removal = cro_isolate_printf (_("Remove covers of %s"), name);

      cro_row_grid_name (grid, COVERS, label, label);
      cro_row_grid_name (grid, COVERS + 1, NULL, removal);
    }
}

/* Heads stand over what is asked as they will over its row. */
static void
keep_columns (CroServiceEntry *self)
{
  g_autoptr (GtkSizeGroup) covers = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);

  set_name_width (cro_row_grid_get_head (CRO_ROW_GRID (self->covers), NAME));
  gtk_size_group_add_widget (covers, cro_row_grid_get_head (CRO_ROW_GRID (self->covers), COVERS));
  gtk_size_group_add_widget (covers, self->ask_entry);
}

/* The mark of a menu tells it from a plate of the same name. */
static void
show_covers (CroServiceEntry *self)
{
  CroRowGrid *grid = CRO_ROW_GRID (self->covers);
  GArray *covers = self->kept->covers;

  cro_row_grid_begin (grid);
  if (cro_row_grid_begin_heads (grid, ""))
    {
      cro_row_grid_add_head (grid, "", FALSE);
      cro_row_grid_add_head (grid, _("covers"), TRUE);
      cro_row_grid_add_head (grid, "", FALSE);
      keep_columns (self);
    }
  for (guint i = 0; i < covers->len; i++)
    add_covers_row (self, i, &g_array_index (covers, CroCovers, i));
  cro_row_grid_end (grid);
  cro_row_grid_refresh (grid);
  for (guint i = 0; i < covers->len; i++)
    {
      const CroCovers *one = &g_array_index (covers, CroCovers, i);
      const char *name = cro_ref_name (cro_book_get_model (book_of (self)), one->thing);
      GtkWidget *label = cro_row_grid_get (grid, i, NAME);

      cro_row_grid_set_text (grid, i, NAME, name);
      set_name_width (label);
      gtk_widget_set_tooltip_text (label, name);
    }
  show_head (self);
}

static void
show_take (CroServiceEntry *self)
{
  gboolean is_found = cro_service_find_before (book_of (self), self->day, self->name, &self->before,
                                               NULL);

  gtk_widget_set_visible (self->take, is_found && !cro_book_is_past (book_of (self), NULL));
  if (is_found)
    {
      g_autofree char *date = cro_date_to_text (self->before);
      /* Translators: a button: the covers of an earlier day of the same weekday are taken over. */
      g_autofree char *label = g_strdup_printf (_("Take Covers of %s"), date);

      gtk_button_set_label (GTK_BUTTON (self->take), label);
    }
}

static void
show_examples (CroServiceEntry *self)
{
  CroModel *model = cro_book_get_model (book_of (self));
  g_autofree char *amount = cro_example_dup_amount (model);

  cro_finder_entry_set_example (CRO_FINDER_ENTRY (self->add), cro_example_get_served (model));
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->have), amount);
}

static void
show (CroServiceEntry *self)
{
  gboolean is_past = cro_book_is_past (book_of (self), NULL);

  if (self->kept == NULL)
    return;
  show_covers (self);
  cro_service_entry_show_stock (self);
  show_take (self);
  show_examples (self);
  gtk_widget_set_sensitive (self->add, !is_past);
  gtk_widget_set_sensitive (self->have, !is_past);
  tell (self);
}

/* Read once for an edition of the book: a key asks nothing. */
void
cro_service_entry_refresh (CroServiceEntry *self)
{
  guint64 edition = cro_book_get_edition (book_of (self));
  CroService *kept;

  if (self->book == book_of (self) && self->edition == edition && self->kept != NULL)
    return;
  kept = cro_service_read (book_of (self), self->day, self->name, NULL);
  if (kept == NULL)
    return;
  g_clear_pointer (&self->kept, cro_service_free);
  self->kept = kept;
  self->book = book_of (self);
  self->edition = edition;
  show (self);
}

void
cro_service_entry_put (CroServiceEntry *self,
                       CroDate          day,
                       const char      *name)
{
  if (self->book != book_of (self))
    cro_finder_entry_put (CRO_FINDER_ENTRY (self->add), book_of (self));
  self->day = day;
  g_free (self->name);
  self->name = g_strdup (name);
  g_clear_pointer (&self->kept, cro_service_free);
  ask (self, CRO_REF_NOWHERE);
  cro_service_entry_refresh (self);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_service_entry_dispose (GObject *object)
{
  CroServiceEntry *self = CRO_SERVICE_ENTRY (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->kept, cro_service_free);
  g_clear_pointer (&self->typed, cro_service_free);
  g_clear_pointer (&self->name, g_free);
  G_OBJECT_CLASS (cro_service_entry_parent_class)->dispose (object);
}

static gboolean
cro_service_entry_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CRO_SERVICE_ENTRY (widget)->add);
}

static void
cro_service_entry_class_init (CroServiceEntryClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_service_entry_dispose;
  GTK_WIDGET_CLASS (klass)->focus = cro_focus_within;
  GTK_WIDGET_CLASS (klass)->grab_focus = cro_service_entry_grab_focus;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[MOVED] = g_signal_new ("moved", CRO_TYPE_SERVICE_ENTRY, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                 NULL, G_TYPE_NONE, 0);
}

static GtkWidget *
ask_new (CroServiceEntry *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkEventController *keys = gtk_event_controller_key_new (), *focus = gtk_event_controller_focus_new ();

  self->ask_name = gtk_label_new ("");
  set_name_width (self->ask_name);
  gtk_label_set_xalign (GTK_LABEL (self->ask_name), 0);
  self->ask_entry = cro_entry_new (_("covers"), covers_chars ());
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->ask_entry), _("covers"));
  gtk_entry_set_alignment (GTK_ENTRY (self->ask_entry), 1);
  gtk_widget_add_controller (self->ask_entry, keys);
  gtk_widget_add_controller (self->ask_entry, focus);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (ask_key_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->ask_entry, "activate", G_CALLBACK (asked_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->ask_entry, "changed", G_CALLBACK (typed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (focus, "leave", G_CALLBACK (judge_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (row), self->ask_name);
  gtk_box_append (GTK_BOX (row), self->ask_entry);
  gtk_box_append (GTK_BOX (box), row);
  self->ask_reason = CRO_BUBBLE (cro_bubble_new (box, self->ask_entry));
  gtk_widget_set_visible (box, FALSE);
  return box;
}

static void
cro_service_entry_init (CroServiceEntry *self)
{
  self->chosen = CRO_REF_NOWHERE;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  gtk_widget_add_css_class (self->box, "part");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->none = cro_text_new (_("Type part of the name of a plate or menu, press Enter, then type the number "
                               "of covers."),
                             "dim-label");
  /* The field below is as wide with the first covers as without them. */
  gtk_label_set_max_width_chars (GTK_LABEL (self->none), HINT_CHARS);
  self->add = cro_finder_entry_new (_("Add a plate or menu"), "",
                                    1u << CRO_KIND_PLATE | 1u << CRO_KIND_MENU);
  g_signal_connect_object (self->add, "chosen", G_CALLBACK (chosen_cb), self, G_CONNECT_SWAPPED);
  self->ask = ask_new (self);
  self->take = gtk_button_new_with_label ("");
  gtk_widget_set_halign (self->take, GTK_ALIGN_START);
  g_signal_connect_object (self->take, "clicked", G_CALLBACK (take_cb), self, G_CONNECT_SWAPPED);
}

/* As rows of a grid stand under each other: what is asked stays where it is once it is a row. */
static GtkWidget *
rows_new (CroServiceEntry *self)
{
  GtkWidget *rows = gtk_box_new (GTK_ORIENTATION_VERTICAL, CRO_ROW_GRID_SPACING);

  gtk_box_append (GTK_BOX (rows), self->covers);
  gtk_box_append (GTK_BOX (rows), self->ask);
  return rows;
}

GtkWidget *
cro_service_entry_new (CroBench *bench)
{
  CroServiceEntry *self = g_object_new (CRO_TYPE_SERVICE_ENTRY, NULL);
  GtkWidget *parts[10];
  guint n = 0;

  self->bench = bench;
  self->covers = cro_row_grid_new (bench, "service", self->add);
  g_signal_connect_object (self->covers, "remove", G_CALLBACK (remove_covers_cb), self,
                           G_CONNECT_SWAPPED);
  cro_service_entry_init_stock (self);
  parts[n++] = cro_heading_new (_("Covers"));
  parts[n++] = self->none;
  parts[n++] = rows_new (self);
  parts[n++] = self->add;
  parts[n++] = self->take;
  parts[n++] = cro_heading_new (_("In stock already (optional)"));
  parts[n++] = self->in_house;
  parts[n++] = self->have;
  parts[n++] = self->have_reason;
  for (guint i = 0; i < n; i++)
    gtk_box_append (GTK_BOX (self->box), parts[i]);
  return GTK_WIDGET (self);
}
