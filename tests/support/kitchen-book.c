#include "kitchen-book.h"

#include "cro-breakdown.h"
#include "cro-cause.h"
#include "cro-load.h"

CroBook *
cro_test_book_open (const char *path,
                    const char *desk)
{
  GError *error = NULL;
  CroBook *book = cro_book_open (path, desk, CRO_STORE_WRITE, CRO_TEST_DAY, &error);

  cro_test_must (book != NULL, error);
  return book;
}

void
cro_test_put_demo (const char *path,
                   const char *desk)
{
  static char *bytes, *of;
  static gsize length;
  GError *error = NULL;

  if (g_strcmp0 (of, desk) != 0)
    {
      g_autofree char *demo = g_build_filename (g_getenv ("CROUSTADE_SOURCE"), "data", "demo", NULL);
      g_autoptr (CroFaults) faults = cro_faults_new ();

      cro_test_must (cro_load (path, demo, desk, "demo", FALSE, NULL, NULL, faults, &error), error);
      g_free (bytes);
      g_free (of);
      of = g_strdup (desk);
      cro_test_must (g_file_get_contents (path, &bytes, &length, &error), error);
      return;
    }
  cro_test_must (g_file_set_contents_full (path, bytes, (gssize) length, G_FILE_SET_CONTENTS_NONE, 0600, &error),
                 error);
}

CroBook *
cro_test_book_create (const char *path)
{
  cro_test_put_empty (path);
  return cro_test_book_open (path, "cook");
}

static void
add_bits (GString    *line,
          const char *name,
          double      value)
{
  guint64 bits;

  memcpy (&bits, &value, sizeof bits);
  g_string_append_printf (line, " %s=%.17g/%" G_GINT64_MODIFIER "x", name, value, bits);
}

static void
add_costs (GString          *line,
           const CroFigures *figures,
           gboolean          of_row,
           guint32           at)
{
  static const char *const names[] = { "food", "disposables", "labour" };

  for (int i = 0; i < CRO_N_LAYERS; i++)
    add_bits (line, names[i],
              of_row ? figures->layers[i].row_cost[at] : figures->layers[i].unit_cost[at]);
}

static void
add_causes (GString *line,
            GArray  *causes)
{
  for (guint i = 0; i < causes->len; i++)
    {
      g_autofree char *text = cro_cause_to_text (&g_array_index (causes, CroCause, i));

      g_string_append_printf (line, " [%s]", text);
    }
  g_array_unref (causes);
}

static void
add_figure (GString         *line,
            const CroFigure *figure)
{
  add_bits (line, "cost", figure->cost);
  add_bits (line, "labour", figure->labour);
  add_bits (line, "disposables", figure->disposables);
  add_bits (line, "net", figure->net_price);
  add_bits (line, "pct", figure->food_cost_pct);
  add_bits (line, "target", figure->target_pct);
  add_bits (line, "bite", figure->bite);
  g_string_append_printf (line, " %s%s", figure->is_incomplete ? "incomplete" : "",
                          figure->has_credit ? "credit" : "");
}

static char *
item_line (CroFigures *figures,
           guint32     slot)
{
  CroModel *model = figures->model;
  const CroItem *item = cro_model_item (model, slot);
  const CroMeasure *measure = &model->measures[slot];
  guint32 node = cro_figures_node (figures, slot);
  GString *line = g_string_new (NULL);

  g_string_printf (line, "item %09" G_GINT64_FORMAT " %s", item->id, item->name);
  add_costs (line, figures, FALSE, node);
  add_bits (line, "unit_cost", cro_figures_unit_cost (figures, slot));
  for (int i = 0; i < 3; i++)
    add_bits (line, "grams", measure->grams[i]);
  g_string_append_printf (line, " base %d trim %d bits %" G_GINT64_MODIFIER "x", measure->base, measure->trim_yield,
                          figures->node_bits[node]);
  if (model->maker[slot] < 0)
    {
      guint32 offer = figures->offer_in_use[slot];

      g_string_append_printf (line, " offer %" G_GINT64_FORMAT " lacks %u",
                              offer != CRO_NO_SLOT ? cro_model_offer (model, offer)->id : 0,
                              figures->offer_lacks[slot]);
    }
  else
    {
      add_bits (line, "finished", item->output.finished);
      add_bits (line, "share", figures->share[node]);
      add_bits (line, "fixed", figures->fixed[node]);
      g_string_append_printf (line, " of %" G_GINT64_FORMAT " lacks %u",
                              cro_model_recipe (model, (guint32) model->maker[slot])->id,
                              item->output.lacks);
    }
  return g_string_free (line, FALSE);
}

static char *
recipe_line (CroFigures *figures,
             guint32     slot)
{
  const CroRecipe *recipe = cro_model_recipe (figures->model, slot);
  guint32 row = cro_figures_row (figures, slot);
  GString *line = g_string_new (NULL);

  g_string_printf (line, "%s %09" G_GINT64_FORMAT " %s", recipe->is_plate ? "plate" : "preparation",
                   recipe->id, recipe->name);
  add_costs (line, figures, TRUE, row);
  g_string_append_printf (line, " bits %" G_GINT64_MODIFIER "x", figures->row_bits[row]);
  if (recipe->is_plate)
    {
      CroFigure figure = cro_figure_of_plate (figures, slot);

      add_figure (line, &figure);
      add_causes (line, cro_causes_of_plate (figures, slot));
    }
  return g_string_free (line, FALSE);
}

static char *
menu_line (CroFigures *figures,
           guint32     slot)
{
  const CroMenu *menu = cro_model_menu (figures->model, slot);
  CroFigure figure = cro_figure_of_menu (figures, slot);
  GString *line = g_string_new (NULL);

  g_string_printf (line, "menu %09" G_GINT64_FORMAT " %s", menu->id, menu->name);
  add_figure (line, &figure);
  add_causes (line, cro_causes_of_menu (figures, slot));
  return g_string_free (line, FALSE);
}

static int
compare_lines (gconstpointer a,
               gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

char *
cro_test_figures (CroBook *book)
{
  CroFigures *figures = cro_book_get_figures (book);
  CroModel *model = figures->model;
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func (g_free);

  g_ptr_array_add (lines, g_strdup_printf ("book %s %s wage %" G_GINT64_FORMAT " on %d",
                                           model->name, model->currency, model->wage_per_hour,
                                           figures->date));
  for (guint32 i = 0; i < model->items->len; i++)
    if (!cro_model_item (model, i)->is_dead)
      g_ptr_array_add (lines, item_line (figures, i));
  for (guint32 i = 0; i < model->recipes->len; i++)
    if (!cro_model_recipe (model, i)->is_dead)
      g_ptr_array_add (lines, recipe_line (figures, i));
  for (guint32 i = 0; i < model->menus->len; i++)
    if (!cro_model_menu (model, i)->is_dead)
      g_ptr_array_add (lines, menu_line (figures, i));
  g_ptr_array_sort (lines, compare_lines);
  g_ptr_array_add (lines, NULL);
  return g_strjoinv ("\n", (char **) lines->pdata);
}

void
cro_test_same (const char *says,
               const char *a,
               const char *b)
{
  g_auto (GStrv) x = g_strsplit (a, "\n", 0);
  g_auto (GStrv) y = g_strsplit (b, "\n", 0);
  guint i = 0;

  if (strcmp (a, b) == 0)
    return;
  while (x[i] != NULL && y[i] != NULL && strcmp (x[i], y[i]) == 0)
    i++;
  fail_msg ("%s:\n  %s\n  %s", says, x[i] != NULL ? x[i] : "(nothing)",
            y[i] != NULL ? y[i] : "(nothing)");
}

char *
cro_test_fresh_figures (CroBook *book)
{
  GError *error = NULL;
  g_autoptr (CroBook) fresh = cro_book_open (cro_store_get_path (cro_book_get_store (book)), NULL,
                                             CRO_STORE_READ, cro_book_get_figures (book)->date,
                                             &error);

  cro_test_must (fresh != NULL, error);
  return cro_test_figures (fresh);
}

void
cro_test_write_table (const char *folder,
                      const char *name,
                      const char *text)
{
  g_autofree char *file = g_strconcat (name, ".csv", NULL);
  g_autofree char *path = g_build_filename (folder, file, NULL);

  assert_true (g_file_set_contents (path, text, -1, NULL));
}

CroBook *
cro_test_book_load (const CroTestFolder *folder)
{
  GError *error = NULL;
  CroFaults *faults = cro_faults_new ();
  gboolean done = cro_load (folder->path, folder->folder, "cook", "load", FALSE, NULL,
                            NULL, faults, &error);

  if (!done && cro_faults_get_n (faults) > 0)
    fail_msg ("%s:%u: %s: kind %d", cro_faults_get (faults, 0)->file,
              cro_faults_get (faults, 0)->line, cro_faults_get (faults, 0)->column,
              cro_faults_get (faults, 0)->kind);
  cro_test_must (done, error);
  cro_faults_free (faults);
  return cro_test_book_open (folder->path, "cook");
}

gboolean
cro_test_add_lines (CroBook           *book,
                    guint32            recipe,
                    guint32            after,
                    const CroNewLine  *lines,
                    guint              n,
                    guint32           *item,
                    GError           **error)
{
  const CroNewRecipe content = { .lines = lines, .n = n };

  return cro_edit_add_recipe (book, "lines", recipe, after, &content, item, error);
}

int
cro_test_book_of_tables (void               **state,
                         const CroTestTable  *tables)
{
  CroTestKitchen *kitchen = g_new0 (CroTestKitchen, 1);

  kitchen->folder = cro_test_folder_new ();
  for (; tables->name != NULL; tables++)
    cro_test_write_table (kitchen->folder.folder, tables->name, tables->text);
  kitchen->book = cro_test_book_load (&kitchen->folder);
  *state = kitchen;
  return 0;
}

int
cro_test_kitchen_tear_down (void **state)
{
  CroTestKitchen *kitchen = *state;

  g_assert_finalize_object (kitchen->book);
  cro_test_folder_clear (&kitchen->folder);
  g_free (kitchen);
  return 0;
}
