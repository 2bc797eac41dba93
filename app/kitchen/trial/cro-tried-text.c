#include "cro-tried-private.h"

/* Kind, table, id, and each column with the number or the text that it holds. */
#define CELL_TYPE "(smxms)"
#define TRIED_TYPE "(isxa" CELL_TYPE ")"

char *
cro_tried_to_text (GPtrArray *tried)
{
  g_autoptr (GVariant) all = NULL;
  GVariantBuilder rows;

  g_variant_builder_init (&rows, G_VARIANT_TYPE ("a" TRIED_TYPE));
  for (guint i = 0; i < tried->len; i++)
    {
      const CroTried *one = tried->pdata[i];

      g_variant_builder_open (&rows, G_VARIANT_TYPE (TRIED_TYPE));
      g_variant_builder_add (&rows, "i", one->kind);
      g_variant_builder_add (&rows, "s", one->table);
      g_variant_builder_add (&rows, "x", one->id);
      g_variant_builder_open (&rows, G_VARIANT_TYPE ("a" CELL_TYPE));
      for (guint c = 0; c < one->cells->len; c++)
        {
          const CroCell *cell = &g_array_index (one->cells, CroCell, c);

          g_variant_builder_add (&rows, CELL_TYPE, one->columns->pdata[c],
                                 cell->kind == CRO_CELL_INTEGER, cell->integer,
                                 cell->kind == CRO_CELL_TEXT ? cell->text : NULL);
        }
      g_variant_builder_close (&rows);
      g_variant_builder_close (&rows);
    }
  all = g_variant_ref_sink (g_variant_builder_end (&rows));
  return g_variant_print (all, FALSE);
}

static CroTried *
tried_of (GVariant *row)
{
  g_autoptr (GVariantIter) cells = NULL;
  const char *table, *column, *text;
  gboolean is_number;
  gint32 kind;
  gint64 id, number;
  CroTried *self;

  g_variant_get (row, "(i&sxa" CELL_TYPE ")", &kind, &table, &id, &cells);
  if (kind < 0 || kind >= CRO_N_TRIED || (kind == CRO_TRIED_PRICE && cro_tried_dated (table) == NULL))
    return NULL;
  self = cro_tried_new ((CroTriedKind) kind, table, id);
  while (g_variant_iter_next (cells, "(&smxm&s)", &column, &is_number, &number, &text))
    cro_tried_add_cell (self, column, is_number ? CRO_CELL_INT (number) : CRO_CELL_STR (text));
  return self;
}

GPtrArray *
cro_tried_from_text (const char *text)
{
  g_autoptr (GVariant) all = g_variant_parse (G_VARIANT_TYPE ("a" TRIED_TYPE), text, NULL, NULL, NULL);
  GPtrArray *tried;

  if (all == NULL)
    return NULL;
  tried = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_tried_free);
  for (gsize i = 0; i < g_variant_n_children (all); i++)
    {
      g_autoptr (GVariant) row = g_variant_get_child_value (all, i);
      CroTried *one = tried_of (row);

      if (one != NULL)
        g_ptr_array_add (tried, one);
    }
  return tried;
}
