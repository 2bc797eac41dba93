#include "config.h"

#include "cro-allergens-page.h"

#include <glib/gi18n.h>

#include "cro-allergen-words.h"
#include "cro-avoid-entry.h"
#include "cro-drop-down.h"
#include "cro-field.h"
#include "cro-file-choice.h"
#include "cro-focus.h"
#include "cro-isolate.h"
#include "cro-kind.h"
#include "cro-mark-table.h"
#include "cro-name-filter.h"
#include "cro-notes.h"
#include "cro-number.h"
#include "cro-overview.h"
#include "cro-print-table.h"
#include "cro-spoken.h"
#include "cro-words.h"
#include "cro-wrap.h"

#define MENU_MARK "▣ "

struct _CroAllergensPage
{
  GtkWidget          parent_instance;

  GtkWidget         *page;
  GtkWidget         *box;
  GtkWidget         *date;
  GtkWidget         *list;
  CroNameFilter     *menu;
  CroAvoidEntry     *avoids;
  GtkWidget         *table;
  GtkWidget         *sentence;
  GtkWidget         *not_stated;
  GtkWidget         *source;

  CroBench          *bench;      /* borrowed */
  CroAllergenSheet  *sheet;      /* NULL: no book was shown yet */
  GArray            *lines;      /* Line: what the table shows */
};

/* A row of the table: of the sheet, or the heading of a group. */
typedef struct
{
  gboolean      is_heading;
  CroAvoidGroup group;
  guint         row;        /* of the sheet */
} Line;

G_DEFINE_FINAL_TYPE (CroAllergensPage, cro_allergens_page, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroAllergensPage *self)
{
  return cro_bench_get_book (self->bench);
}

static CroAllergenListId
list_of (CroAllergensPage *self)
{
  return (CroAllergenListId) gtk_drop_down_get_selected (GTK_DROP_DOWN (self->list));
}

/* --- What the table shows ------------------------------------------------------------------------- */

static const Line *
line_at (CroAllergensPage *self,
         guint             number)
{
  return &g_array_index (self->lines, Line, number);
}

static const CroAllergenRow *
row_at (CroAllergensPage *self,
        guint             number)
{
  return &g_array_index (self->sheet->rows, CroAllergenRow, line_at (self, number)->row);
}

static guint
get_n (gpointer page)
{
  return CRO_ALLERGENS_PAGE (page)->lines->len;
}

static char *
dup_heading (gpointer page,
             guint    number)
{
  CroAllergensPage *self = page;
  const Line *line = line_at (self, number);

  return line->is_heading ? cro_words_avoid_group (self->sheet, line->group) : NULL;
}

static char *
dup_name (gpointer page,
          guint    number)
{
  CroAllergensPage *self = page;
  CroRef thing = row_at (self, number)->thing;

  return g_strconcat (thing.kind == CRO_REF_MENU ? MENU_MARK : "",
                      cro_ref_name (self->sheet->figures->model, thing), NULL);
}

static const char *
get_sign (gpointer page,
          guint    number,
          guint    column)
{
  CroAllergensPage *self = page;

  return cro_words_held_mark (cro_allergen_sheet_held (self->sheet, row_at (self, number), column));
}

/* "Crab croustade, milk: contains". */
static char *
dup_said (gpointer page,
          guint    number,
          guint    column)
{
  CroAllergensPage *self = page;
  const CroAllergenRow *row = row_at (self, number);

  g_autofree char *what = g_strdup_printf ("%s, %s", cro_ref_name (self->sheet->figures->model, row->thing),
                                           cro_words_allergen (self->sheet->list, column));

  return cro_isolate_printf (_("%s: %s"), what,
                             cro_words_held (cro_allergen_sheet_held (self->sheet, row, column)));
}

static char *
dup_note (gpointer page,
          guint    number)
{
  CroAllergensPage *self = page;

  return cro_words_avoid_why (self->sheet, row_at (self, number));
}

static const CroMarkRows mark_rows = { get_n, dup_heading, dup_name, get_sign, dup_said, dup_note };

/* --- Reading -------------------------------------------------------------------------------------- */

/* Where nothing is avoided there is one group, which needs no heading. */
static void
list_lines (CroAllergensPage *self)
{
  CroAvoidGroup group = CRO_N_AVOID_GROUPS;

  g_array_set_size (self->lines, 0);
  for (guint i = 0; i < self->sheet->rows->len; i++)
    {
      const CroAllergenRow *row = &g_array_index (self->sheet->rows, CroAllergenRow, i);
      Line heading = { .is_heading = TRUE, .group = row->group }, line = { .row = i };

      if (row->group != group && self->sheet->avoids != 0)
        g_array_append_val (self->lines, heading);
      group = row->group;
      g_array_append_val (self->lines, line);
    }
}

static void
show_sentence (CroAllergensPage *self)
{
  g_autofree char *text = NULL;
  guint number, column;

  if (self->sheet != NULL && cro_mark_table_get_place (CRO_MARK_TABLE (self->table), &number, &column))
    text = cro_words_carried (self->sheet, row_at (self, number), column);
  gtk_label_set_label (GTK_LABEL (self->sentence), text != NULL ? text : "");
}

static guint
number_of (CroAllergensPage *self,
           CroRef            thing)
{
  for (guint i = 0; i < self->lines->len; i++)
    if (!line_at (self, i)->is_heading && cro_ref_equal (row_at (self, i)->thing, thing))
      return i;
  return 0;
}

/* The focus stays with its plate, wherever that goes; who is not there begins at the top, with what is
 * avoided. */
static void
ask (CroAllergensPage *self)
{
  CroMarkTable *table = CRO_MARK_TABLE (self->table);
  gboolean is_here = cro_mark_table_has_focus (table);
  guint32 avoids = cro_avoid_entry_get (self->avoids);
  CroRef thing = CRO_REF_NOWHERE;
  guint number, column;

  if (self->sheet == NULL)
    return;
  if (is_here && cro_mark_table_get_place (table, &number, &column))
    thing = row_at (self, number)->thing;
  cro_allergen_sheet_ask (self->sheet, list_of (self), avoids);
  list_lines (self);
  cro_mark_table_read (table, number_of (self, thing));
  if (!is_here && avoids != 0)
    cro_mark_table_go (table, 0, (guint) __builtin_ctz (avoids), FALSE);
  show_sentence (self);
}

static void
read_menus (CroAllergensPage *self)
{
  CroModel *model = cro_book_get_model (book_of (self));
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  g_autoptr (GArray) keys = g_array_new (FALSE, FALSE, sizeof (guint32));

  for (guint32 slot = 0; slot < model->menus->len; slot++)
    if (cro_kind_name (model, CRO_KIND_MENU, slot) != NULL)
      {
        g_ptr_array_add (names, (gpointer) cro_kind_name (model, CRO_KIND_MENU, slot));
        g_array_append_val (keys, slot);
      }
  cro_name_filter_set_names (self->menu, (const char *const *) names->pdata,
                             (const guint32 *) keys->data, names->len);
}

static void
show_notes (CroAllergensPage *self)
{
  g_autofree char *day = cro_date_to_text (self->sheet->figures->date);
  /* Translators: of allergens; a date. */
  g_autofree char *date = g_strdup_printf (_("as entered, %s"), day);
  g_autofree char *not_stated = cro_words_not_stated (self->sheet->figures->model);
  g_autofree char *source = g_strdup_printf ("%s   %s", cro_words_held_legend (),
                                             cro_words_allergen_source (list_of (self)));

  gtk_label_set_label (GTK_LABEL (self->date), date);
  gtk_label_set_label (GTK_LABEL (self->not_stated), not_stated);
  gtk_label_set_label (GTK_LABEL (self->source), source);
}

static void
read_sheet (CroAllergensPage *self)
{
  CroAllergenSheet *before = self->sheet;

  if (book_of (self) == NULL)
    return;
  self->sheet = cro_allergen_sheet_new (cro_book_get_figures (book_of (self)),
                                        cro_name_filter_get_key (self->menu, CRO_NO_SLOT));
  /* The table may still ask for rows of the one before. */
  if (before != NULL)
    {
      cro_allergen_sheet_ask (self->sheet, list_of (self), cro_avoid_entry_get (self->avoids));
      cro_allergen_sheet_free (before);
    }
  list_lines (self);
  ask (self);
  show_notes (self);
}

static void
set_columns (CroAllergensPage *self)
{
  CroAllergenListId list = list_of (self);
  const char *letters[CRO_N_ALLERGENS], *words[CRO_N_ALLERGENS];
  guint n = (guint) cro_allergen_list (list)->n;

  for (guint i = 0; i < n; i++)
    {
      letters[i] = cro_words_allergen_short (list, i);
      words[i] = cro_words_allergen (list, i);
    }
  cro_mark_table_set_columns (CRO_MARK_TABLE (self->table), _("Plate"), _("Why"), letters, words, n);
}

static void
list_chosen_cb (CroAllergensPage *self)
{
  if (self->sheet != NULL)
    cro_allergen_sheet_ask (self->sheet, list_of (self), 0);
  set_columns (self);
  cro_avoid_entry_set_list (self->avoids, list_of (self));
  if (self->sheet != NULL)
    show_notes (self);
}

/* --- Hands ---------------------------------------------------------------------------------------- */

static void
activated_cb (CroAllergensPage *self,
              guint             number)
{
  cro_bench_open (self->bench, row_at (self, number)->thing);
}

/* A letter on a plate is the first of an allergen. */
static gboolean
key_pressed_cb (CroAllergensPage *self,
                guint             keyval,
                guint             keycode,
                GdkModifierType   state)
{
  gunichar sign = gdk_keyval_to_unicode (keyval);

  if (!g_unichar_isalpha (sign) || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  cro_avoid_entry_type (self->avoids, sign);
  return GDK_EVENT_STOP;
}

static GtkWindow *
window_of (CroAllergensPage *self)
{
  return GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self)));
}

static CroTablePaper *
paper_new (CroAllergensPage *self)
{
  return cro_table_paper_new (cro_words_allergen_table (self->sheet, FALSE),
                              gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL);
}

static void
print_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  CroAllergensPage *self = CRO_ALLERGENS_PAGE (widget);
  g_autoptr (GError) error = NULL;

  if (self->sheet != NULL && !cro_print_table (window_of (self), paper_new (self), &error))
    cro_bench_fail (self->bench, error);
}

static gboolean
is_letter (CroAllergensPage *self)
{
  return cro_currency_uses_letter (cro_book_get_model (book_of (self))->currency);
}

/* When its files say that they were made, in seconds since 1970. */
static gint64
created_of (CroAllergensPage *self)
{
  return cro_date_to_seconds (self->sheet->figures->date);
}

static void
pdf_chosen_cb (gpointer    page,
               const char *path)
{
  CroAllergensPage *self = page;
  g_autoptr (CroTablePaper) paper = paper_new (self);
  g_autoptr (GError) error = NULL;

  if (!cro_table_paper_write_pdf (paper, path, created_of (self), is_letter (self), &error))
    cro_bench_fail (self->bench, error);
}

static void
spreadsheet_chosen_cb (gpointer    page,
                       const char *path)
{
  CroAllergensPage *self = page;
  g_autoptr (CroTextTable) table = cro_words_allergen_table (self->sheet, TRUE);
  g_autoptr (GError) error = NULL;

  if (!cro_text_table_write_sheet (table, path, created_of (self), is_letter (self), &error))
    cro_bench_fail (self->bench, error);
}

static void
ask_file (CroAllergensPage *self,
          const char       *suffix,
          CroFileChosen     chosen)
{
  char day[CRO_DATE_CHARS];
  g_autofree char *title = NULL, *name = NULL;
  CroFileChoice choice = { .title = _("Save the Sheet of Allergens"),
                           .action = GTK_FILE_CHOOSER_ACTION_SAVE };

  if (self->sheet == NULL)
    return;
  cro_date_format (self->sheet->figures->date, day);
  title = cro_words_allergen_title (self->sheet);
  choice.name = name = g_strdelimit (g_strdup_printf ("%s %s.%s", day, title, suffix), "/:", '-');
  cro_file_choice_ask (&choice, window_of (self), chosen, self);
}

static void
pdf_cb (GtkWidget  *widget,
        const char *action,
        GVariant   *parameter)
{
  ask_file (CRO_ALLERGENS_PAGE (widget), "pdf", pdf_chosen_cb);
}

static void
spreadsheet_cb (GtkWidget  *widget,
                const char *action,
                GVariant   *parameter)
{
  ask_file (CRO_ALLERGENS_PAGE (widget), "xlsx", spreadsheet_chosen_cb);
}

/* --- For the overview ------------------------------------------------------------------------------ */

void
cro_allergens_page_set_book (GtkWidget *page,
                             CroBook   *book)
{
  CroAllergensPage *self = CRO_ALLERGENS_PAGE (page);

  g_array_set_size (self->lines, 0);
  cro_mark_table_read (CRO_MARK_TABLE (self->table), 0);
  g_clear_pointer (&self->sheet, cro_allergen_sheet_free);
}

void
cro_allergens_page_refresh (GtkWidget *page)
{
  CroAllergensPage *self = CRO_ALLERGENS_PAGE (page);

  read_menus (self);
  read_sheet (self);
}

/* --- The widget ----------------------------------------------------------------------------------- */

/* A key that leads here is followed by what a guest avoids. */
static gboolean
cro_allergens_page_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (CRO_ALLERGENS_PAGE (widget)->avoids));
}

static void
cro_allergens_page_dispose (GObject *object)
{
  CroAllergensPage *self = CRO_ALLERGENS_PAGE (object);

  g_clear_pointer (&self->page, gtk_widget_unparent);
  g_clear_pointer (&self->sheet, cro_allergen_sheet_free);
  g_clear_pointer (&self->lines, g_array_unref);
  G_OBJECT_CLASS (cro_allergens_page_parent_class)->dispose (object);
}

static void
cro_allergens_page_class_init (CroAllergensPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_allergens_page_dispose;
  widget_class->grab_focus = cro_allergens_page_grab_focus;
  widget_class->focus = cro_focus_within;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "allergens.print", NULL, print_cb);
  gtk_widget_class_install_action (widget_class, "allergens.pdf", NULL, pdf_cb);
  gtk_widget_class_install_action (widget_class, "allergens.spreadsheet", NULL, spreadsheet_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_p, GDK_CONTROL_MASK, "allergens.print", NULL);
}

static void
cro_allergens_page_init (CroAllergensPage *self)
{
  self->lines = g_array_new (FALSE, FALSE, sizeof (Line));
}

static GtkWidget *
print_button_new (void)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  GtkWidget *button = gtk_menu_button_new ();

  g_menu_append (menu, _("This Sheet…"), "allergens.print");
  g_menu_append (menu, _("As PDF…"), "allergens.pdf");
  g_menu_append (menu, _("As Spreadsheet…"), "allergens.spreadsheet");
  gtk_menu_button_set_label (GTK_MENU_BUTTON (button), _("Print"));
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), G_MENU_MODEL (menu));
  cro_spoken_set (button, _("Print"));
  return button;
}

static GtkWidget *
list_new (CroAllergensPage *self)
{
  const char *names[CRO_N_ALLERGEN_LISTS + 1] = { NULL };

  for (int i = 0; i < CRO_N_ALLERGEN_LISTS; i++)
    names[i] = cro_words_allergen_list ((CroAllergenListId) i);
  self->list = cro_drop_down_new (names, _("List of allergens"));
  g_signal_connect_object (self->list, "notify::selected", G_CALLBACK (list_chosen_cb), self,
                           G_CONNECT_SWAPPED);
  return self->list;
}

static GtkWidget *
head_new (CroAllergensPage *self)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *row = cro_wrap_new (12, 6), *avoids = cro_avoid_entry_new ();
  GtkWidget *menu = cro_name_filter_new (_("Any menu"), _("Menu"));

  self->date = gtk_label_new (NULL);
  self->menu = CRO_NAME_FILTER (menu);
  self->avoids = CRO_AVOID_ENTRY (avoids);
  g_signal_connect_object (menu, "changed", G_CALLBACK (read_sheet), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (avoids, "changed", G_CALLBACK (ask), self, G_CONNECT_SWAPPED);
  gtk_widget_add_css_class (self->date, "dim-label");
  cro_wrap_append (CRO_WRAP (row), self->date);
  cro_wrap_append (CRO_WRAP (row), list_new (self));
  cro_wrap_append (CRO_WRAP (row), menu);
  cro_wrap_append (CRO_WRAP (row), avoids);
  cro_wrap_append (CRO_WRAP (row), print_button_new ());
  gtk_box_append (GTK_BOX (head), row);
  gtk_box_append (GTK_BOX (head), cro_avoid_entry_get_meaning (self->avoids));
  return head;
}

static void
enter_cb (CroAllergensPage *self)
{
  cro_overview_open (self->bench, CRO_REF_ALL_INGREDIENTS, CRO_VIEW_ALLERGENS);
}

static GtkWidget *
enter_new (CroAllergensPage *self)
{
  GtkWidget *row = cro_wrap_new (12, 6);
  GtkWidget *button = gtk_button_new_with_label (_("Enter Ingredient by Ingredient"));

  self->not_stated = gtk_label_new (NULL);
  g_signal_connect_object (button, "clicked", G_CALLBACK (enter_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (row), self->not_stated);
  cro_wrap_append (CRO_WRAP (row), button);
  return row;
}

static void
add_table (CroAllergensPage *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  self->table = cro_mark_table_new (&mark_rows, self, _("Plates and their allergens"));
  g_signal_connect_object (self->table, "moved", G_CALLBACK (show_sentence), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->table, "activated", G_CALLBACK (activated_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (self->table, keys);
  set_columns (self);
}

GtkWidget *
cro_allergens_page_new (CroBench *bench)
{
  CroAllergensPage *self = g_object_new (CRO_TYPE_ALLERGENS_PAGE, NULL);
  GtkWidget *notes = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  self->bench = bench;
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_box_append (GTK_BOX (self->box), head_new (self));
  add_table (self);
  gtk_box_append (GTK_BOX (self->box), self->table);
  self->sentence = cro_text_new ("", "carried");
  gtk_box_append (GTK_BOX (notes), self->sentence);
  gtk_box_append (GTK_BOX (notes), enter_new (self));
  self->source = cro_text_new ("", "caption");
  gtk_box_append (GTK_BOX (notes), self->source);
  gtk_box_append (GTK_BOX (self->box), cro_notes_new (notes));
  gtk_box_append (GTK_BOX (self->box), cro_text_new (cro_words_caution (), "caption"));
  self->page = cro_low_new (self->box);
  gtk_widget_set_parent (self->page, GTK_WIDGET (self));
  return GTK_WIDGET (self);
}
