#include "cro-service.h"

#include <math.h>
#include <string.h>

CroService *
cro_service_new (void)
{
  CroService *self = g_new (CroService, 1);

  self->covers = g_array_new (FALSE, FALSE, sizeof (CroCovers));
  self->in_house = g_array_new (FALSE, FALSE, sizeof (CroInHouse));
  return self;
}

void
cro_service_free (CroService *self)
{
  g_array_unref (self->covers);
  g_array_unref (self->in_house);
  g_free (self);
}

double
cro_service_in_base (CroModel *model,
                     guint32   item,
                     gint64    amount,
                     CroUnit   unit,
                     unsigned *lacks)
{
  const CroMeasure *measure = &model->measures[item];
  CroBase from = cro_unit_get (unit)->base, to = (CroBase) measure->base;
  double base = (double) amount * cro_unit_get (unit)->per_micro;
  CroLack lack = cro_measure_lacks (measure, from, to);

  if (lacks != NULL)
    *lacks = lack;
  if (lack != CRO_LACKS_NOTHING)
    return NAN;
  return from == to ? base : base * measure->grams[from] / measure->grams[to];
}

/* --- Reading -------------------------------------------------------------------------------------- */

/* Takes one row: id, what it is of, a number, and a text where there is one. */
typedef void (*TakeRow) (CroBook *book, CroRows *rows, GArray *into);

/* Columns end with the date and the service's name. */
static gboolean
read_rows (CroBook            *book,
           const char         *table,
           const char *const  *columns,
           CroDate             date,
           const char         *name,
           TakeRow             take,
           GArray             *into,
           GError            **error)
{
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), table, columns, error);
  int of_date = (int) g_strv_length ((char **) columns) - 2;
  char day[CRO_DATE_CHARS];
  GError *failed = NULL;

  if (rows == NULL)
    return FALSE;
  cro_date_format (date, day);
  while (cro_rows_next (rows, &failed))
    if (strcmp (cro_rows_get_text (rows, of_date), day) == 0
        && strcmp (cro_rows_get_text (rows, of_date + 1), name) == 0)
      take (book, rows, into);
  if (failed != NULL)
    g_propagate_error (error, failed);
  return failed == NULL;
}

static CroRef
find_thing (CroModel *model,
            gint64    id)
{
  guint32 plate = cro_slots_get (&model->plate_slots, id);

  return plate != CRO_NO_SLOT ? CRO_REF (CRO_REF_RECIPE, plate)
                              : CRO_REF (CRO_REF_MENU, cro_slots_get (&model->menu_slots, id));
}

static void
take_covers (CroBook *book,
             CroRows *rows,
             GArray  *into)
{
  CroCovers covers = { cro_rows_get_int (rows, 0),
                       find_thing (cro_book_get_model (book), cro_rows_get_int (rows, 1)),
                       cro_rows_get_int (rows, 2) };

  if (covers.thing.slot != CRO_NO_SLOT)
    g_array_append_val (into, covers);
}

static void
take_in_house (CroBook *book,
               CroRows *rows,
               GArray  *into)
{
  const char *unit = cro_rows_get_text (rows, 3);
  CroInHouse entry = { cro_rows_get_int (rows, 0),
                       cro_slots_get (&cro_book_get_model (book)->item_slots,
                                      cro_rows_get_int (rows, 1)),
                       cro_rows_get_int (rows, 2), CRO_UNIT_G };

  if (entry.item != CRO_NO_SLOT && cro_unit_parse (unit, strlen (unit), &entry.unit))
    g_array_append_val (into, entry);
}

CroService *
cro_service_read (CroBook     *book,
                  CroDate      date,
                  const char  *name,
                  GError     **error)
{
  static const char *const of_covers[] = { "id", "thing", "covers_micro", "date", "service", NULL };
  static const char *const of_stock[] = { "id", "item", "amount_micro", "unit", "date", "service",
                                          NULL };
  g_autoptr (CroService) self = cro_service_new ();

  if (!read_rows (book, "service", of_covers, date, name, take_covers, self->covers, error)
      || !read_rows (book, "service_stock", of_stock, date, name, take_in_house, self->in_house,
                     error))
    return NULL;
  return g_steal_pointer (&self);
}

static void
clear_day (gpointer day)
{
  g_free (((CroServiceDay *) day)->name);
}

static int
compare_days (gconstpointer a,
              gconstpointer b)
{
  const CroServiceDay *x = a, *y = b;

  if (x->date != y->date)
    return x->date > y->date ? -1 : 1;
  return strcmp (x->name, y->name);
}

GArray *
cro_services_list (CroBook  *book,
                   GError  **error)
{
  static const char *const columns[] = { "date", "service", NULL };
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), "service", columns, error);
  g_autoptr (GArray) list = g_array_new (FALSE, FALSE, sizeof (CroServiceDay));
  GError *failed = NULL;
  guint n = 0;

  if (rows == NULL)
    return NULL;
  g_array_set_clear_func (list, clear_day);
  while (cro_rows_next (rows, &failed))
    {
      const char *date = cro_rows_get_text (rows, 0);
      CroServiceDay day = { 0, NULL };

      if (!cro_date_parse (date, strlen (date), &day.date))
        continue;
      day.name = g_strdup (cro_rows_get_text (rows, 1));
      g_array_append_val (list, day);
    }
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return NULL;
    }
  g_array_sort (list, compare_days);
  while (n + 1 < list->len)
    if (compare_days (&g_array_index (list, CroServiceDay, n),
                      &g_array_index (list, CroServiceDay, n + 1)) == 0)
      g_array_remove_index (list, n + 1);
    else
      n++;
  return g_steal_pointer (&list);
}

gboolean
cro_service_find_before (CroBook     *book,
                         CroDate      date,
                         const char  *name,
                         CroDate     *found,
                         GError     **error)
{
  g_autoptr (GArray) list = cro_services_list (book, error);

  for (guint i = 0; list != NULL && i < list->len; i++)
    {
      const CroServiceDay *day = &g_array_index (list, CroServiceDay, i);

      if (day->date < date && (date - day->date) % 7 == 0 && strcmp (day->name, name) == 0)
        {
          *found = day->date;
          return TRUE;
        }
    }
  return FALSE;
}
