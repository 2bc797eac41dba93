#include "config.h"

#include "cro-bring-window.h"

#include <glib/gi18n.h>

#include "cro-bring-columns.h"
#include "cro-bring-words.h"
#include "cro-drop-down.h"
#include "cro-entry.h"
#include "cro-field.h"
#include "cro-here.h"
#include "cro-number.h"
#include "cro-refused-words.h"
#include "cro-toast.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* Rows shown of each kind: what is left out first, as that wants looking at. */
#define MOST_SHOWN 200

struct _CroBringWindow
{
  AdwWindow        parent_instance;

  AdwToastOverlay *toasts;
  GtkWidget       *bring_button;
  GtkStack        *stack;
  GtkSpinner      *spinner;
  GtkLabel        *doing;
  CroWrap         *fields;
  CroBringColumns *columns;
  GtkLabel        *summary;
  GtkListBox      *list;

  GtkDropDown     *sheet;
  GtkDropDown     *kind;
  GtkDropDown     *sign;          /* in sight where a number leaves its decimal sign open */
  GtkWidget       *supplier;
  GtkWidget       *from;

  CroBook         *book;
  char            *book_path;
  char            *path;
  CroBrought      *brought;
  CroBring        *bring;
  GCancellable    *work;
  CroRole          roles[CRO_N_ROLES]; /* that the columns can have */
  gboolean         is_filling;    /* what is chosen is not asked about */
};

G_DEFINE_FINAL_TYPE (CroBringWindow, cro_bring_window, ADW_TYPE_WINDOW)

enum
{
  BROUGHT,
  REFUSED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static void
refuse (CroBringWindow *self,
        const GError   *error)
{
  g_autofree char *why = cro_words_failed (error);

  g_signal_emit (self, signals[REFUSED], 0, why);
  gtk_window_close (GTK_WINDOW (self));
}

static void
say (CroBringWindow *self,
     const char     *text)
{
  cro_toast_say (self->toasts, text);
}

static void
show_work (CroBringWindow *self,
           const char     *doing)
{
  gtk_label_set_label (self->doing, doing != NULL ? doing : "");
  gtk_spinner_set_spinning (self->spinner, doing != NULL);
  gtk_widget_set_sensitive (self->bring_button, doing == NULL);
  gtk_stack_set_visible_child_name (self->stack, doing != NULL ? "work" : "sheet");
}

/* --- What is understood --------------------------------------------------------------------------- */

/* Rows in the order in which they are looked at. */
typedef enum
{
  FAULTY,
  DOUBTFUL,
  SOUND,
  UNUSED,
  N_SORTS,
} Sort;

static Sort
sort_of (const CroBringRow *row)
{
  switch (row->state)
    {
    case CRO_BRING_FAULT:
      return FAULTY;
    case CRO_BRING_NEW:
    case CRO_BRING_KNOWN:
      return row->is_doubtful || row->n_left > 0 || row->like != NULL || row->like_supplier != NULL
                 ? DOUBTFUL : SOUND;
    case CRO_BRING_TITLE:
      return N_SORTS;
    default:
      return UNUSED;
    }
}

static const char *
state_words (Sort               sort,
             const CroBringRow *row)
{
  return sort == FAULTY                  ? _("left out")
         /* Translators: of a row of a spreadsheet: a title or a sum, from which nothing is taken. */
         : sort == UNUSED                ? C_("row", "not used")
         : sort == DOUBTFUL              ? _("look again")
         : row->state == CRO_BRING_NEW ? C_("ingredient", "new")
                                       : _("in the book");
}

static void
append_row (CroBringWindow *self,
            guint           number,
            const char     *title,
            const char     *says,
            const char     *state,
            gboolean        is_doubtful)
{
  GtkWidget *widget = adw_action_row_new ();
  GtkWidget *state_label = gtk_label_new (state);
  g_autofree char *text = g_strdup_printf ("%u", number);
  GtkWidget *place = gtk_label_new (text);

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (widget), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (widget), title);
  adw_action_row_set_subtitle (ADW_ACTION_ROW (widget), says);
  gtk_widget_add_css_class (place, "dim-label");
  gtk_widget_add_css_class (place, "numeric");
  gtk_label_set_width_chars (GTK_LABEL (place), 5);
  gtk_label_set_xalign (GTK_LABEL (place), 1);
  gtk_label_set_xalign (GTK_LABEL (state_label), 0);
  if (is_doubtful)
    gtk_widget_add_css_class (state_label, "heading");
  adw_action_row_add_prefix (ADW_ACTION_ROW (widget), place);
  adw_action_row_add_suffix (ADW_ACTION_ROW (widget), state_label);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (widget), FALSE);
  gtk_list_box_append (self->list, widget);
}

/* With what is left of it, and what is asked of its names. */
static char *
dup_brought (CroBringWindow    *self,
             const CroBringRow *row)
{
  g_autofree char *says = cro_words_bring_row (cro_book_get_model (self->book), self->bring, row);
  g_autofree char *left = cro_words_bring_left (self->brought, row), *like = cro_words_bring_like (row);
  g_autoptr (GString) text = g_string_new (says);

  if (left != NULL)
    g_string_append_printf (text, " · %s", left);
  if (like != NULL)
    g_string_append_printf (text, " · %s", like);
  return g_strdup (text->str);
}

static void
add_row (CroBringWindow    *self,
         Sort               sort,
         const CroBringRow *row)
{
  g_autofree char *says = sort == FAULTY   ? cro_words_bring_fault (self->brought, row)
                          : sort == UNUSED ? cro_words_bring_unused (self->brought, row)
                                           : dup_brought (self, row);
  /* Translators: a row of a spreadsheet that has no name. */
  g_autofree char *nameless = g_strdup_printf (_("Row %u"), row->number);

  append_row (self, row->number, row->name != NULL ? row->name : nameless, says,
              state_words (sort, row), sort < SOUND);
}

/* What each recipe becomes, as its lines alone do not tell. */
static void
add_recipes (CroBringWindow *self)
{
  for (guint i = 0, n = 0; i < self->bring->recipes->len && n < MOST_SHOWN; i++)
    {
      const CroBringRecipe *recipe = &g_array_index (self->bring->recipes, CroBringRecipe, i);
      g_autofree char *says = NULL;

      if (recipe->is_left_out)
        continue;
      n++;
      says = cro_words_bring_recipe (cro_book_get_model (self->book), recipe);
      append_row (self, recipe->number, recipe->name, says,
                  recipe->unused != NULL ? _("look again")
                  : recipe->is_plate     ? C_("recipe", "plate")
                                         : C_("recipe", "preparation"),
                  recipe->unused != NULL);
    }
}

static gboolean
is_blank (CroBringWindow    *self,
          const CroBringRow *row)
{
  g_autofree char *says = cro_words_bring_unused (self->brought, row);

  return says == NULL;
}

static void
add_rows (CroBringWindow *self,
          Sort            sort)
{
  guint n = 0, all = 0;
  g_autofree char *more = NULL;

  for (guint i = 0; i < self->bring->rows->len; i++)
    {
      const CroBringRow *row = &g_array_index (self->bring->rows, CroBringRow, i);

      if (sort_of (row) != sort || (sort == UNUSED && is_blank (self, row)))
        continue;
      all++;
      if (all > MOST_SHOWN)
        continue;
      add_row (self, sort, row);
      n++;
    }
  if (all == n)
    return;
  more = g_strdup_printf (sort == FAULTY ? ngettext ("%u more row is left out", "%u more rows are left out", all - n)
                                         : ngettext ("%u more row", "%u more rows", all - n), all - n);
  gtk_list_box_append (self->list, cro_text_new (more, "page"));
}

static gboolean
has_doubt (CroBringWindow *self)
{
  for (guint i = 0; i < self->bring->rows->len; i++)
    if (g_array_index (self->bring->rows, CroBringRow, i).fault == CRO_BRING_WHICH_SIGN)
      return TRUE;
  return FALSE;
}

/* Reads the rows anew by what is chosen, and shows them. */
static void
understand (CroBringWindow *self)
{
  const char *supplier = gtk_editable_get_text (GTK_EDITABLE (self->supplier));
  guint sign = gtk_drop_down_get_selected (self->sign);
  g_autofree char *tidy = g_strstrip (g_strdup (supplier));
  g_autofree char *summary = NULL;

  if (self->is_filling)
    return;
  g_clear_pointer (&self->bring, cro_bring_free);
  cro_brought_say_decimal (self->brought, sign == 1 ? '.' : sign == 2 ? ',' : '\0');
  self->bring = cro_bring_read (self->brought, (CroBringKind) gtk_drop_down_get_selected (self->kind),
                                cro_book_get_model (self->book),
                                *tidy != '\0' ? tidy : cro_words_no_supplier (cro_book_get_model (self->book)));
  summary = cro_words_bring (self->brought, self->bring);
  gtk_label_set_label (self->summary, summary);
  for (GtkListBoxRow *row; (row = gtk_list_box_get_row_at_index (self->list, 0)) != NULL;)
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  /* What a recipe becomes stands before its lines. */
  for (int sort = FAULTY; sort < N_SORTS; sort++)
    {
      if (sort == SOUND)
        add_recipes (self);
      add_rows (self, (Sort) sort);
    }
  if (has_doubt (self))
    gtk_widget_set_visible (gtk_widget_get_parent (GTK_WIDGET (self->sign)), TRUE);
  gtk_widget_set_sensitive (self->bring_button, self->bring->n_new + self->bring->n_known > 0);
  gtk_widget_set_visible (gtk_widget_get_parent (self->supplier),
                          self->bring->kind == CRO_BRING_PRICES);
  gtk_widget_set_visible (gtk_widget_get_parent (self->from), self->bring->kind == CRO_BRING_PRICES);
}

/* What the other kind of rows would have there stays in mind, and is not used in this one. */
static void
show_columns (CroBringWindow *self)
{
  static const CroRole all[] = {
    CRO_ROLE_RECIPE, CRO_ROLE_NAME, CRO_ROLE_AMOUNT, CRO_ROLE_UNIT, CRO_ROLE_PRICE, CRO_ROLE_PACK,
    CRO_ROLE_PACK_COUNT, CRO_ROLE_PACK_SIZE, CRO_ROLE_SUPPLIER, CRO_ROLE_CODE, CRO_ROLE_TRIM_YIELD,
    CRO_ROLE_CATEGORY, CRO_ROLE_MAKES, CRO_ROLE_GIVES, CRO_ROLE_COURSE, CRO_ROLE_SELLING_PRICE,
    CRO_ROLE_ALLERGENS, CRO_ROLE_NOTE,
  };
  CroBringKind kind = (CroBringKind) gtk_drop_down_get_selected (self->kind);
  guint n = 0;

  self->roles[n++] = CRO_ROLE_NONE;
  for (gsize i = 0; i < G_N_ELEMENTS (all); i++)
    if (cro_bring_uses (kind, all[i]))
      self->roles[n++] = all[i];
  cro_bring_columns_set (self->columns, self->brought, self->roles, n);
}

static void
kind_chosen_cb (CroBringWindow *self)
{
  if (self->is_filling)
    return;
  show_columns (self);
  understand (self);
}

/* --- Reading the file ------------------------------------------------------------------------------- */

typedef struct
{
  char  *path;
  guint  sheet;
  GStrv  sheets;     /* NULL: they are to be listed, too */
} Reading;

static void
reading_free (Reading *self)
{
  g_free (self->path);
  g_strfreev (self->sheets);
  g_free (self);
}

static gboolean
go_on (gpointer cancellable)
{
  return !g_cancellable_is_cancelled (cancellable);
}

static void
read_in_thread (GTask        *task,
                gpointer      window,
                gpointer      data,
                GCancellable *cancellable)
{
  Reading *reading = data;
  GError *error = NULL;
  CroBrought *brought;

  reading->sheets = cro_spreadsheet_list (reading->path, &error);
  if (reading->sheets == NULL)
    {
      g_task_return_error (task, error);
      return;
    }
  brought = cro_brought_new (reading->path, reading->sheet, go_on, cancellable, &error);
  if (brought != NULL)
    g_task_return_pointer (task, brought, (GDestroyNotify) cro_brought_free);
  else if (error != NULL)
    g_task_return_error (task, error);
  else
    g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_CANCELLED, "cancelled");
}

static void
show_sheets (CroBringWindow *self,
             const Reading  *reading)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new ((const char *const *) reading->sheets);

  gtk_drop_down_set_model (self->sheet, G_LIST_MODEL (names));
  gtk_drop_down_set_selected (self->sheet, reading->sheet);
  gtk_widget_set_visible (gtk_widget_get_parent (GTK_WIDGET (self->sheet)),
                          g_strv_length (reading->sheets) > 1);
}

static void
read_cb (GObject      *source,
         GAsyncResult *result,
         gpointer      data)
{
  CroBringWindow *self = CRO_BRING_WINDOW (source);
  Reading *reading = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  CroBrought *brought = g_task_propagate_pointer (G_TASK (result), &error);

  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED) || self->book == NULL)
    {
      g_clear_pointer (&brought, cro_brought_free);
      return;
    }
  if (brought == NULL)
    {
      refuse (self, error);
      return;
    }
  self->is_filling = TRUE;
  g_clear_pointer (&self->brought, cro_brought_free);
  self->brought = brought;
  show_sheets (self, reading);
  gtk_drop_down_set_selected (self->sign, 0);
  gtk_widget_set_visible (gtk_widget_get_parent (GTK_WIDGET (self->sign)), FALSE);
  gtk_drop_down_set_selected (self->kind, cro_bring_guess (brought));
  show_columns (self);
  self->is_filling = FALSE;
  show_work (self, NULL);
  understand (self);
  gtk_widget_grab_focus (self->bring_button);
}

static void
read_sheet (CroBringWindow *self,
            guint           sheet)
{
  Reading *reading = g_new0 (Reading, 1);
  g_autoptr (GTask) task = NULL;

  g_cancellable_cancel (self->work);
  g_clear_object (&self->work);
  self->work = g_cancellable_new ();
  reading->path = g_strdup (self->path);
  reading->sheet = sheet;
  show_work (self, _("Reading the spreadsheet…"));
  task = g_task_new (self, self->work, read_cb, NULL);
  g_task_set_task_data (task, reading, (GDestroyNotify) reading_free);
  g_task_run_in_thread (task, read_in_thread);
}

static void
sheet_chosen_cb (CroBringWindow *self)
{
  guint sheet = gtk_drop_down_get_selected (self->sheet);

  if (!self->is_filling && sheet != GTK_INVALID_LIST_POSITION)
    read_sheet (self, sheet);
}

/* --- Into the book ----------------------------------------------------------------------------------- */

static void
show_faults (CroBringWindow *self,
             CroFaults      *faults,
             const GError   *error)
{
  g_autofree char *text = cro_faults_get_n (faults) > 0 ? cro_words_fault (cro_faults_get (faults, 0))
                                                        : cro_words_failed (error);

  say (self, text);
}

/* The first plate, or where all of it is prepared for others the first preparation; NULL: there is no recipe. */
static const char *
first_brought (const CroBring *bring)
{
  const char *first = NULL;

  for (guint i = 0; i < bring->recipes->len; i++)
    {
      const CroBringRecipe *recipe = &g_array_index (bring->recipes, CroBringRecipe, i);

      if (recipe->is_left_out)
        continue;
      if (recipe->is_plate)
        return recipe->name;
      first = first != NULL ? first : recipe->name;
    }
  return first;
}

/* One act of a thousand rows takes some ten milliseconds: no longer than a step of undo. */
static void
bring_cb (CroBringWindow *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->from));
  g_auto (CroEntry) from = { 0 };
  g_autofree char *desk = cro_here_dup_desk ();
  g_autofree char *label = cro_words_bring_act (self->brought), *says = NULL;
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroAdded) added = NULL;
  g_autoptr (GError) error = NULL;

  if (!cro_entry_date (text, &from))
    {
      g_autofree char *reason = cro_words_entry_reason (text, &from);

      say (self, reason != NULL ? reason : _("From when do the prices hold?"));
      gtk_widget_grab_focus (self->from);
      return;
    }
  added = cro_bring_into (self->bring, self->book_path, from.date, desk, label, 0, faults, &error);
  if (added == NULL || !cro_book_refresh (self->book, NULL, &error))
    {
      show_faults (self, faults, error);
      return;
    }
  says = cro_words_bring (self->brought, self->bring);
  g_signal_emit (self, signals[BROUGHT], 0, self->bring->kind, says, first_brought (self->bring));
  gtk_window_close (GTK_WINDOW (self));
}

/* --- The window ---------------------------------------------------------------------------------------- */

static GtkDropDown *
add_choice (CroBringWindow    *self,
            const char        *name,
            const char *const *words,
            GCallback          chosen)
{
  GtkWidget *drop_down = cro_drop_down_new (words, name);

  g_signal_connect_object (drop_down, "notify::selected", chosen, self, G_CONNECT_SWAPPED);
  cro_wrap_append (self->fields, cro_field_new (name, drop_down));
  return GTK_DROP_DOWN (drop_down);
}

static void
add_fields (CroBringWindow *self)
{
  const char *const none[] = { NULL };
  const char *const kinds[] = { _("ingredients and prices"), _("recipes"), NULL };
  const char *const decimal_signs[] = { C_("decimal sign", "not known"),
                                        C_("decimal sign", "point: 1.500 is one and a half"),
                                        C_("decimal sign", "comma: 1,500 is one and a half"), NULL };
  g_autofree char *today = cro_date_to_text (cro_here_today ());

  self->sheet = add_choice (self, _("Sheet"), none, G_CALLBACK (sheet_chosen_cb));
  self->kind = add_choice (self, _("Rows are"), kinds, G_CALLBACK (kind_chosen_cb));
  self->sign = add_choice (self, _("Decimal sign of unclear numbers"), decimal_signs, G_CALLBACK (understand));
  gtk_widget_set_visible (gtk_widget_get_parent (GTK_WIDGET (self->sign)), FALSE);
  self->supplier = cro_entry_new (_("Supplier where none is named"), 18);
  cro_wrap_append (self->fields, cro_field_new (_("Supplier where none is named"), self->supplier));
  g_signal_connect_object (self->supplier, "changed", G_CALLBACK (understand), self, G_CONNECT_SWAPPED);
  self->from = cro_entry_new (_("Prices from"), cro_date_chars ());
  gtk_editable_set_text (GTK_EDITABLE (self->from), today);
  cro_wrap_append (self->fields, cro_field_new (_("Prices from"), self->from));
}

static void
cro_bring_window_dispose (GObject *object)
{
  CroBringWindow *self = CRO_BRING_WINDOW (object);

  g_cancellable_cancel (self->work);
  g_clear_object (&self->work);
  g_clear_object (&self->book);
  gtk_widget_dispose_template (GTK_WIDGET (self), CRO_TYPE_BRING_WINDOW);
  G_OBJECT_CLASS (cro_bring_window_parent_class)->dispose (object);
}

static void
cro_bring_window_finalize (GObject *object)
{
  CroBringWindow *self = CRO_BRING_WINDOW (object);

  g_free (self->book_path);
  g_free (self->path);
  g_clear_pointer (&self->bring, cro_bring_free);
  g_clear_pointer (&self->brought, cro_brought_free);
  G_OBJECT_CLASS (cro_bring_window_parent_class)->finalize (object);
}

static void
cro_bring_window_class_init (CroBringWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_bring_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = cro_bring_window_finalize;
  g_type_ensure (CRO_TYPE_BRING_COLUMNS);
  g_type_ensure (CRO_TYPE_WRAP);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/croustade/Croustade/cro-bring-window.ui");
  gtk_widget_class_bind_template_child (widget_class, CroBringWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, CroBringWindow, bring_button);
  gtk_widget_class_bind_template_child (widget_class, CroBringWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, CroBringWindow, spinner);
  gtk_widget_class_bind_template_child (widget_class, CroBringWindow, doing);
  gtk_widget_class_bind_template_child (widget_class, CroBringWindow, fields);
  gtk_widget_class_bind_template_child (widget_class, CroBringWindow, columns);
  gtk_widget_class_bind_template_child (widget_class, CroBringWindow, summary);
  gtk_widget_class_bind_template_child (widget_class, CroBringWindow, list);
  gtk_widget_class_bind_template_callback (widget_class, bring_cb);
  gtk_widget_class_bind_template_callback (widget_class, understand);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  signals[BROUGHT] = g_signal_new ("brought", CRO_TYPE_BRING_WINDOW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 3, G_TYPE_INT, G_TYPE_STRING, G_TYPE_STRING);
  signals[REFUSED] = g_signal_new ("refused", CRO_TYPE_BRING_WINDOW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
cro_bring_window_init (CroBringWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->is_filling = TRUE;
  add_fields (self);
  self->is_filling = FALSE;
}

GtkWidget *
cro_bring_window_new (GtkWindow  *parent,
                      CroBook    *book,
                      const char *book_path,
                      const char *path)
{
  CroBringWindow *self = g_object_new (CRO_TYPE_BRING_WINDOW, "transient-for", parent, NULL);

  self->book = g_object_ref (book);
  self->book_path = g_strdup (book_path);
  self->path = g_strdup (path);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->supplier), cro_words_no_supplier (cro_book_get_model (book)));
  read_sheet (self, 0);
  return GTK_WIDGET (self);
}
