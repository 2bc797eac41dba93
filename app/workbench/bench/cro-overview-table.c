#include "config.h"

#include "cro-overview-table.h"

#include <glib/gi18n.h>

#include "cro-allergen-sheet.h"
#include "cro-allergen.h"
#include "cro-field.h"
#include "cro-kind.h"
#include "cro-name-filter.h"
#include "cro-number.h"
#include "cro-records-view.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* With so few rows one sees all there is. */
#define FEW 5

#define N_MARKS 3

static const struct
{
  CroRecordMark  mark;
  const char    *title;
}
marks[N_MARKS] = {
  { CRO_RECORD_OVER_TARGET, N_("Only over target") },
  { CRO_RECORD_INCOMPLETE, N_("Only incomplete") },
  { CRO_RECORD_UNUSED, N_("Only unused") },
};

#define CRO_TYPE_OVERVIEW_TABLE (cro_overview_table_get_type ())
G_DECLARE_FINAL_TYPE (CroOverviewTable, cro_overview_table, CRO, OVERVIEW_TABLE, GtkWidget)

struct _CroOverviewTable
{
  GtkWidget       parent_instance;

  GtkWidget      *box;
  GtkWidget      *filters;
  GtkWidget      *checks[N_MARKS];
  CroNameFilter  *course;
  CroNameFilter  *menu;       /* NULL where the kind has none */
  CroNameFilter  *supplier;
  CroNameFilter  *allergen;
  CroNameFilter  *age;
  GtkWidget      *clear;      /* hidden where nothing is filtered */
  CroRecordsView *view;
  GtkWidget      *footer;
  GtkWidget      *caution;    /* where somebody looks for an allergen, */
  GtkWidget      *open;       /* and those of which nobody has said whether they have it */

  CroBench       *bench;      /* borrowed */
  CroRecordsKind  kind;
  guint64         edition;    /* of the book when the names to choose were read */
};

G_DEFINE_FINAL_TYPE (CroOverviewTable, cro_overview_table, GTK_TYPE_WIDGET)

/* --- What there is to choose ------------------------------------------------------------------ */

typedef struct
{
  const char *name;
  guint32     key;
} Name;

static int
compare_names (gconstpointer a,
               gconstpointer b)
{
  return g_utf8_collate (((const Name *) a)->name, ((const Name *) b)->name);
}

/* Each once, in the order of the alphabet. */
static void
give_names (CroNameFilter *filter,
            GArray        *all)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  g_autoptr (GArray) keys = g_array_new (FALSE, FALSE, sizeof (guint32));

  g_array_sort (all, compare_names);
  for (guint i = 0; i < all->len; i++)
    {
      const Name *name = &g_array_index (all, Name, i);

      if (names->len > 0 && g_str_equal (g_ptr_array_index (names, names->len - 1), name->name))
        continue;
      g_ptr_array_add (names, (gpointer) name->name);
      g_array_append_val (keys, name->key);
    }
  cro_name_filter_set_names (filter, (const char *const *) names->pdata,
                             (const guint32 *) keys->data, names->len);
}

static void
read_courses (CroOverviewTable *self,
              CroModel         *model)
{
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (Name));

  for (guint32 slot = 0; slot < model->recipes->len; slot++)
    {
      const CroRecipe *recipe = cro_model_recipe (model, slot);
      Name name = { recipe->course, slot };

      if (!recipe->is_dead && recipe->is_plate && recipe->course != NULL)
        g_array_append_val (all, name);
    }
  give_names (self->course, all);
}

static void
read_menus (CroOverviewTable *self,
            CroModel         *model)
{
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (Name));

  for (guint32 slot = 0; slot < model->menus->len; slot++)
    {
      Name name = { cro_kind_name (model, CRO_KIND_MENU, slot), slot };

      if (name.name != NULL)
        g_array_append_val (all, name);
    }
  give_names (self->menu, all);
}

static void
read_suppliers (CroOverviewTable *self,
                CroModel         *model)
{
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (Name));

  for (guint32 slot = 0; slot < model->suppliers->len; slot++)
    {
      const CroSupplier *supplier = &g_array_index (model->suppliers, CroSupplier, slot);
      Name name = { supplier->name, slot };

      if (!supplier->is_dead)
        g_array_append_val (all, name);
    }
  give_names (self->supplier, all);
}

static void
read_names (CroOverviewTable *self)
{
  CroBook *book = cro_bench_get_book (self->bench);
  CroModel *model = cro_book_get_model (book);

  if (self->edition == cro_book_get_edition (book))
    return;
  self->edition = cro_book_get_edition (book);
  read_courses (self, model);
  if (self->menu != NULL)
    read_menus (self, model);
  if (self->supplier != NULL)
    read_suppliers (self, model);
}

/* --- Choosing --------------------------------------------------------------------------------- */

/* Those of which nothing is stated do not pass the filter, and may contain what is looked for: they are not
 * passed over in silence. */
static void
show_open (CroOverviewTable *self,
           gboolean          is_sought)
{
  g_autofree char *number = NULL, *text = NULL;
  guint n, open = 0;

  if (is_sought && cro_bench_get_book (self->bench) != NULL)
    cro_allergens_count (cro_book_get_model (cro_bench_get_book (self->bench)), &n, &open);
  number = cro_number_to_text (open, 0, TRUE);
  text = g_strdup_printf (/* Translators: a button under the filters: below it are the ingredients of which an
                           * allergen was entered; of these nobody has said. */
                          ngettext ("and %s ingredient whose allergens are not stated",
                                    "and %s ingredients whose allergens are not stated", open),
                          number);
  cro_name_button_set (self->open, text);
  gtk_widget_set_visible (self->open, open > 0);
}

static void
open_cb (CroOverviewTable *self)
{
  cro_overview_open (self->bench, CRO_REF_ALL_INGREDIENTS, CRO_VIEW_ALLERGENS);
}

static guint32
key_of (CroNameFilter *filter,
        guint32        none)
{
  return filter != NULL ? cro_name_filter_get_key (filter, none) : none;
}

static void
filter_cb (CroOverviewTable *self)
{
  CroRecordsFilter filter = CRO_RECORDS_ALL;

  for (int i = 0; i < N_MARKS; i++)
    if (gtk_check_button_get_active (GTK_CHECK_BUTTON (self->checks[i])))
      filter.marks |= marks[i].mark;
  filter.course = cro_name_filter_get (self->course);
  filter.menu = key_of (self->menu, CRO_NO_SLOT);
  filter.supplier = key_of (self->supplier, CRO_NO_SLOT);
  filter.allergens = key_of (self->allergen, 0);
  filter.older_than = key_of (self->age, 0);
  gtk_widget_set_visible (self->caution, filter.allergens != 0);
  show_open (self, filter.allergens != 0);
  gtk_widget_set_visible (self->clear, filter.marks != 0 || filter.course != NULL
                                           || filter.menu != CRO_NO_SLOT || filter.supplier != CRO_NO_SLOT
                                           || filter.allergens != 0 || filter.older_than != 0);
  cro_records_view_set_filter (self->view, &filter);
}

/* The button goes: the focus does not go with it. */
static void
clear_cb (CroOverviewTable *self)
{
  CroNameFilter *const filters[] = { self->course, self->menu, self->supplier, self->allergen, self->age };

  gtk_widget_grab_focus (self->checks[0]);
  for (int i = 0; i < N_MARKS; i++)
    gtk_check_button_set_active (GTK_CHECK_BUTTON (self->checks[i]), FALSE);
  for (gsize i = 0; i < G_N_ELEMENTS (filters); i++)
    if (filters[i] != NULL)
      cro_name_filter_reset (filters[i]);
}

static CroNameFilter *
add_filter (CroOverviewTable *self,
            const char       *any,
            const char       *name)
{
  GtkWidget *filter = cro_name_filter_new (any, name);

  g_signal_connect_object (filter, "changed", G_CALLBACK (filter_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (self->filters), filter);
  return CRO_NAME_FILTER (filter);
}

static void
add_allergens (CroOverviewTable *self)
{
  char *names[CRO_N_ALLERGENS];
  guint32 keys[CRO_N_ALLERGENS];

  for (guint i = 0; i < CRO_N_ALLERGENS; i++)
    {
      names[i] = cro_words_allergens (1u << i);
      keys[i] = 1u << i;
    }
  self->allergen = add_filter (self, _("Any allergens"), _("Allergen"));
  cro_name_filter_set_names (self->allergen, (const char *const *) names, keys, CRO_N_ALLERGENS);
  for (guint i = 0; i < CRO_N_ALLERGENS; i++)
    g_free (names[i]);
}

static void
add_ages (CroOverviewTable *self)
{
  static const guint32 days[] = { 7, 30, 90 };
  char *names[G_N_ELEMENTS (days)];

  for (gsize i = 0; i < G_N_ELEMENTS (days); i++)
    names[i] = g_strdup_printf (ngettext ("Price older than %u day", "Price older than %u days",
                                          days[i]),
                                days[i]);
  self->age = add_filter (self, _("Any price date"), _("Age of the price"));
  cro_name_filter_set_names (self->age, (const char *const *) names, days, G_N_ELEMENTS (days));
  for (gsize i = 0; i < G_N_ELEMENTS (days); i++)
    g_free (names[i]);
}

static void
add_filters (CroOverviewTable *self)
{
  self->filters = cro_wrap_new (12, 6);
  gtk_widget_add_css_class (self->filters, "fields");
  for (int i = 0; i < N_MARKS; i++)
    {
      self->checks[i] = gtk_check_button_new_with_label (_(marks[i].title));
      g_signal_connect_object (self->checks[i], "toggled", G_CALLBACK (filter_cb), self,
                               G_CONNECT_SWAPPED);
      cro_wrap_append (CRO_WRAP (self->filters), self->checks[i]);
    }
  /* Menus are what is sold, and plates stand for themselves. */
  gtk_widget_set_visible (self->checks[2], self->kind != CRO_RECORDS_PLATES);
  self->course = add_filter (self, _("Any course"), _("Course"));
  if (self->kind == CRO_RECORDS_PLATES)
    self->menu = add_filter (self, _("Any menu"), _("Menu"));
  if (self->kind == CRO_RECORDS_INGREDIENTS)
    {
      self->supplier = add_filter (self, _("Any supplier"), _("Supplier"));
      add_ages (self);
      add_allergens (self);
    }
  self->clear = gtk_button_new_with_label (_("Clear Filters"));
  gtk_widget_set_visible (self->clear, FALSE);
  g_signal_connect_object (self->clear, "clicked", G_CALLBACK (clear_cb), self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (self->filters), self->clear);
}

/* --- What it comes to ------------------------------------------------------------------------- */

/* Takes part. */
static void
append (GString *text,
        char    *part)
{
  if (text->len > 0)
    g_string_append (text, " · ");
  g_string_append (text, part);
  g_free (part);
}

static guint
count_of (CroOverviewTable *self,
          CroKind           kind)
{
  CroModel *model = cro_book_get_model (cro_bench_get_book (self->bench));
  guint n = 0;

  for (guint32 slot = 0; slot < cro_kind_n_slots (model, kind); slot++)
    n += cro_kind_name (model, kind, slot) != NULL;
  return n;
}

static char *
dup_things (CroOverviewTable *self)
{
  guint n = count_of (self, self->kind == CRO_RECORDS_PLATES         ? CRO_KIND_PLATE
                            : self->kind == CRO_RECORDS_PREPARATIONS ? CRO_KIND_PREPARATION
                                                                     : CRO_KIND_INGREDIENT);
  g_autofree char *number = cro_number_to_text (n, 0, TRUE);

  switch (self->kind)
    {
    case CRO_RECORDS_PLATES:
      return g_strdup_printf (ngettext ("%s plate", "%s plates", n), number);
    case CRO_RECORDS_PREPARATIONS:
      return g_strdup_printf (ngettext ("%s preparation", "%s preparations", n), number);
    default:
      return g_strdup_printf (ngettext ("%s ingredient", "%s ingredients", n), number);
    }
}

static void
append_menus (CroOverviewTable *self,
              GString          *text)
{
  guint n = count_of (self, CRO_KIND_MENU);
  g_autofree char *number = cro_number_to_text (n, 0, TRUE);

  if (n > 0)
    append (text, g_strdup_printf (ngettext ("%s menu", "%s menus", n), number));
}

static void
append_over (CroOverviewTable *self,
             GString          *text,
             guint             n)
{
  g_autofree char *number = cro_number_to_text (n, 0, TRUE);

  gboolean is_cost = cro_book_get_model (cro_bench_get_book (self->bench))->speaks == CRO_SPEAKS_FOOD_COST;

  if (n == 0)
    return;
  if (self->kind == CRO_RECORDS_PLATES)
    append (text, g_strdup_printf (is_cost ? _("%s over target") : _("%s below target"), number));
  else
    /* Translators: so many ingredients or preparations are taken by plates that are over their target,
     * or below it where the house speaks gross profit. */
    append (text, g_strdup_printf (is_cost ? _("%s in plates over target")
                                           : _("%s in plates below target"),
                                   number));
}

static void
append_incomplete (GString *text,
                   guint    n)
{
  g_autofree char *number = cro_number_to_text (n, 0, TRUE);

  if (n > 0)
    append (text, g_strdup_printf (ngettext ("%s incomplete", "%s incomplete", n), number));
}

static void
show_footer (CroOverviewTable *self)
{
  CroRecords *records = cro_records_view_get_records (self->view);
  g_autoptr (GString) text = g_string_new (NULL);

  if (records == NULL || cro_bench_get_book (self->bench) == NULL)
    return;
  append (text, dup_things (self));
  if (self->kind == CRO_RECORDS_PLATES)
    append_menus (self, text);
  append_over (self, text, cro_records_count_marked (records, CRO_RECORD_OVER_TARGET));
  append_incomplete (text, cro_records_count_marked (records, CRO_RECORD_INCOMPLETE));
  gtk_label_set_label (GTK_LABEL (self->footer), text->str);
}

static void
rows_changed_cb (CroOverviewTable *self)
{
  CroRecords *records = cro_records_view_get_records (self->view);
  gboolean has_many = records != NULL && cro_records_get_n_rows (records) > FEW;

  gtk_widget_set_visible (self->filters, has_many);
  cro_records_view_set_searched (self->view, has_many);
  show_open (self, key_of (self->allergen, 0) != 0);
  show_footer (self);
}

/* --- The widget ------------------------------------------------------------------------------- */

static void
cro_overview_table_dispose (GObject *object)
{
  g_clear_pointer (&CRO_OVERVIEW_TABLE (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_overview_table_parent_class)->dispose (object);
}

static void
cro_overview_table_class_init (CroOverviewTableClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_overview_table_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_overview_table_init (CroOverviewTable *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

static GtkWidget *
table_new (CroBench       *bench,
           CroRecordsKind  kind)
{
  CroOverviewTable *self = g_object_new (CRO_TYPE_OVERVIEW_TABLE, NULL);

  self->bench = bench;
  self->kind = kind;
  self->view = CRO_RECORDS_VIEW (cro_records_view_new (bench, kind, NULL));
  gtk_widget_set_vexpand (GTK_WIDGET (self->view), TRUE);
  cro_records_view_connect_rows (self->view, G_CALLBACK (rows_changed_cb), self);
  add_filters (self);
  self->footer = cro_text_new ("", "dim-label");
  self->caution = cro_text_new (cro_words_caution (), "dim-label");
  gtk_widget_set_visible (self->caution, FALSE);
  self->open = cro_name_button_new ();
  gtk_widget_remove_css_class (self->open, "flat");
  gtk_widget_add_css_class (self->open, "missing");
  gtk_widget_set_halign (self->open, GTK_ALIGN_START);
  g_signal_connect_object (self->open, "clicked", G_CALLBACK (open_cb), self, G_CONNECT_SWAPPED);
  show_open (self, FALSE);
  gtk_box_append (GTK_BOX (self->box), self->filters);
  gtk_box_append (GTK_BOX (self->box), self->open);
  gtk_box_append (GTK_BOX (self->box), GTK_WIDGET (self->view));
  gtk_box_append (GTK_BOX (self->box), self->footer);
  gtk_box_append (GTK_BOX (self->box), self->caution);
  return GTK_WIDGET (self);
}

static void
set_book (GtkWidget *table,
          CroBook   *book)
{
  CroOverviewTable *self = CRO_OVERVIEW_TABLE (table);

  self->edition = 0;
  cro_records_view_set_book (self->view, book);
}

/* A result of gross profit or a coefficient falls below its target. */
static void
name_marks (CroOverviewTable *self)
{
  CroBook *book = cro_bench_get_book (self->bench);

  if (book == NULL)
    return;
  for (guint i = 0; i < N_MARKS; i++)
    if (self->checks[i] != NULL && marks[i].mark == CRO_RECORD_OVER_TARGET)
      gtk_check_button_set_label (GTK_CHECK_BUTTON (self->checks[i]),
                                  cro_book_get_model (book)->speaks == CRO_SPEAKS_FOOD_COST
                                      ? _(marks[i].title)
                                      : _("Only below target"));
}

static void
refresh (GtkWidget *table)
{
  CroOverviewTable *self = CRO_OVERVIEW_TABLE (table);

  read_names (self);
  name_marks (self);
  rows_changed_cb (self);
}

void
cro_overview_table_add (CroOverview    *overview,
                        CroRecordsKind  kind)
{
  CroOverviewView costs = {
    .number = 1,
    .title = _("Costs"),
    .widget = table_new (CRO_BENCH (overview), kind),
    .set_book = set_book,
    .refresh = refresh,
  };

  g_object_set_data (G_OBJECT (overview), "cro-overview-table", costs.widget);
  cro_overview_add_view (overview, &costs);
}

GArray *
cro_overview_table_dup_chosen (CroBench *overview)
{
  CroOverviewTable *self = g_object_get_data (G_OBJECT (overview), "cro-overview-table");
  CroRecords *records = self != NULL ? cro_records_view_get_records (self->view) : NULL;
  GArray *chosen;

  /* Whole it may be folded; narrowed it never is. */
  if (records == NULL || cro_records_get_n_chosen (records) == cro_records_get_n_rows (records))
    return NULL;
  chosen = g_array_new (FALSE, FALSE, sizeof (CroRef));
  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (records)); i++)
    {
      g_autoptr (CroRecord) record = g_list_model_get_item (G_LIST_MODEL (records), i);
      CroRef ref = cro_record_get_ref (record);

      g_array_append_val (chosen, ref);
    }
  return chosen;
}
