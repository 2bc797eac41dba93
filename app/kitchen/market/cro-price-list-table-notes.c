/* The rows of a supplier's table that name no goods: what they say of all prices. */
#include "cro-price-list-table.h"

#include "cro-fold.h"
#include "cro-price-heading.h"
#include "cro-price-remark.h"
#include "cro-price-talk.h"
#include "cro-price-token.h"
#include "cro-said-pack.h"

#include <string.h>

static gboolean
names_goods (CroListTable *self,
             guint         row)
{
  return g_hash_table_contains (self->of->codes, cro_brought_get_role (self->brought, row, CRO_ROLE_CODE, NULL)->text)
         || cro_list_book_has_name (self->of, cro_brought_get_role (self->brought, row, CRO_ROLE_NAME, NULL)->text);
}

/* Whether the headings stand there once more, as on a second page. */
static gboolean
repeats_headings (const CroBrought *brought,
                  guint             row)
{
  for (guint i = 0; brought->headings >= 0 && i < brought->n_columns; i++)
    if (strcmp (cro_brought_get (brought, row, i)->text,
                cro_brought_get (brought, (guint) brought->headings, i)->text) != 0)
      return FALSE;
  return brought->headings >= 0;
}

/* Its cells as one sentence, which commas may have parted. Owned. */
static char *
dup_note (const CroBrought *brought,
          guint             row)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < brought->n_columns; i++)
    {
      const char *cell = cro_brought_get (brought, row, i)->text;

      if (*cell != '\0')
        g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", cell);
    }
  return g_string_free (text, FALSE);
}

/* "Energy surcharge per case", 1.50; rates are of goods there, "10 % less sugar". */
static gboolean
is_surcharge (const CroBrought *brought,
              guint             row)
{
  g_autofree char *note = dup_note (brought, row);
  const CroPriceSaying saying = cro_price_saying_of (note, NULL);

  return !saying.has_rate && cro_price_remark_is_change (note, &saying);
}

/* Whether a row may say something of all: it stands over the headings, or names nothing of the book and has no
 * price but one that is added to all. */
static gboolean
may_be_note (CroListTable *self,
             guint         row)
{
  const CroBrought *brought = self->brought;
  guint column;
  const CroReadCell *price;
  gint64 ignored;

  if ((int) row <= brought->headings)
    return (int) row < brought->headings;
  if (repeats_headings (brought, row))
    return FALSE;
  price = cro_brought_get_role (brought, row, cro_brought_price_role (brought), &column);
  return !names_goods (self, row)
         && (price->kind == CRO_READ_CELL_EMPTY || !cro_list_table_read_number (self, row, column, &ignored)
             || is_surcharge (brought, row));
}

/* The rows from here in which a sentence goes on: *text is it, the caller's. */
static guint
count_rows_of_note (CroListTable *self,
                    guint         row,
                    char        **text)
{
  char *notes[CRO_LIST_MOST_WRAPPED];
  guint n = 0, n_rows;

  for (; n < G_N_ELEMENTS (notes) && row + n < self->brought->rows->len && may_be_note (self, row + n); n++)
    notes[n] = dup_note (self->brought, row + n);
  *text = cro_list_dup_sentence ((const char *const *) notes, n, &n_rows);
  while (n > 0)
    g_free (notes[--n]);
  return n_rows;
}

/* "Prices for bags of 4 kg" in a row of its own, as a line of a message; goods without a price have more cells. */
static void
ask_of_packs (CroListTable *self,
              guint         row)
{
  const char *note = NULL;
  gboolean is_open;
  CroSaidPack said;
  gint64 ignored;

  for (guint i = 0; i < self->brought->n_columns; i++)
    {
      const char *cell = cro_brought_get (self->brought, row, i)->text;

      if (*cell != '\0' && note != NULL)
        return;
      if (*cell != '\0')
        note = cell;
    }
  if (note != NULL && self->said.change == NULL && cro_said_pack_read (note, &said, &ignored, &is_open) && said.has_unit
      && cro_price_talk_may_be_of_prices (note, FALSE, NULL))
    self->said.change = cro_price_list_keep (self->list, note);
}

/* "DISPOSABLES (ex VAT)" over the rows of a group says of them what all prices are taken for, where no heading says
 * that they have tax in them. */
static gboolean
is_title_without_tax (CroListTable *self,
                      const char   *text)
{
  const CroBrought *brought = self->brought;
  const char *open = strrchr (text, '(');
  g_autofree char *before
      = open != NULL && g_str_has_suffix (open, ")") ? g_strndup (text, (gsize) (open - text)) : NULL;
  g_autofree char *folded = before != NULL ? cro_fold (before) : NULL;
  CroPriceSaying inside, title;

  if (before == NULL || *folded == '\0' || self->said.tax_note != NULL
      || cro_price_has_word (folded, "|price|prices|prix|tarif|tarifs|list|liste|all|tout|tous|toutes|every|"
                                     "everything|")
      || (brought->headings >= 0
          && cro_price_heading_tax (cro_brought_get_role (brought, (guint) brought->headings,
                                                          cro_brought_price_role (brought), NULL)->text)
                 == CRO_PRICE_WITH_TAX))
    return FALSE;
  inside = cro_price_saying_of (open, NULL);
  title = cro_price_saying_of (before, NULL);
  return inside.tax == CRO_PRICE_WITHOUT_TAX && !inside.is_tax_open && !cro_price_saying_is_of_tax (&title)
         && strpbrk (text, "0123456789") == NULL;
}

/* "PRICES PER KG", "EACH", and nothing more. */
static gboolean
read_section (CroListTable   *self,
              guint           row,
              CroListSection *section)
{
  g_autofree char *text = dup_note (self->brought, row), *folded = cro_fold (text);
  const CroPriceSaying saying = cro_price_saying_of (text, NULL);

  *section = (CroListSection){ row, saying.per, saying.has_pack };
  return *folded != '\0' && saying.per.is_said != saying.has_pack && (saying.speaks_of_prices || saying.has_per_word)
         && saying.is_all_known && !saying.is_per_open && !saying.is_negated && !saying.has_exception
         && !saying.has_number && !saying.has_day && !saying.has_money && !saying.is_of_below
         && !cro_price_saying_is_of_tax (&saying);
}

/* Titles that do not say the same, the first of them over all rows that have a price. */
static void
find_sections (CroListTable *self)
{
  const CroBrought *brought = self->brought;
  g_autoptr (GArray) sections = g_array_new (FALSE, FALSE, sizeof (CroListSection));
  gboolean differs = FALSE, is_open;
  CroListSection section;

  if (brought->headings < 0 || cro_brought_per_of_heading (brought, &is_open).is_said || is_open
      || cro_price_saying_of (cro_brought_get_role (brought, (guint) brought->headings,
                                                    cro_brought_price_role (brought), NULL)->text, NULL).has_pack)
    return;
  for (guint row = (guint) (brought->headings + 1); row < brought->rows->len; row++)
    if (may_be_note (self, row) && read_section (self, row, &section))
      {
        const CroListSection *first = sections->len > 0 ? &g_array_index (sections, CroListSection, 0) : &section;

        differs |= section.is_of_pack != first->is_of_pack || section.per.unit != first->per.unit
                   || section.per.times != first->per.times;
        g_array_append_val (sections, section);
      }
    else if (sections->len == 0 && !may_be_note (self, row))
      return;
  if (differs)
    self->sections = g_steal_pointer (&sections);
}

static gboolean
is_section (CroListTable *self,
            guint         row)
{
  for (guint i = 0; self->sections != NULL && i < self->sections->len; i++)
    if (g_array_index (self->sections, CroListSection, i).row == row)
      return TRUE;
  return FALSE;
}

void
cro_list_table_enter_section (CroListTable *self,
                              guint         index)
{
  for (guint i = 0; self->sections != NULL && i < self->sections->len; i++)
    {
      const CroListSection *section = &g_array_index (self->sections, CroListSection, i);

      if (section->row > index)
        return;
      self->per = section->per;
      self->is_of_pack = section->is_of_pack;
    }
}

void
cro_list_table_take_notes (CroListTable *self)
{
  const CroBrought *brought = self->brought;
  guint row = 0, n_prices = 0;

  /* "November 2026", "DRAFT": the name of a sheet says it as a line over its headings would. */
  if (self->list->sheets != NULL && brought->sheet < g_strv_length (self->list->sheets))
    cro_list_said_take (&self->said, self->list, self->of, self->list->sheets[brought->sheet], 0);
  g_array_set_size (self->notes, brought->rows->len);
  find_sections (self);
  while (row < brought->rows->len)
    {
      g_autofree char *text = NULL;
      gboolean is_title = is_section (self, row), is_note = !is_title && may_be_note (self, row);
      guint n = is_note ? count_rows_of_note (self, row, &text) : 1;
      CroListNote note = is_title ? CRO_LIST_NOTE_HEEDED
                         : is_note && is_title_without_tax (self, text) ? CRO_LIST_NOTE_HEEDED
                         : is_note ? cro_list_said_take (&self->said, self->list, self->of, text, n_prices)
                         : repeats_headings (brought, row) ? CRO_LIST_NOTE_HEEDED
                                                           : CRO_LIST_NOTE_NONE;

      if (is_note)
        ask_of_packs (self, row);
      n_prices += !is_note && (int) row > brought->headings && names_goods (self, row);
      for (; n > 0; n--, row++)
        g_array_index (self->notes, char, row) = (char) note;
    }
  cro_list_said_settle (&self->said, n_prices);
}

void
cro_list_table_add_note (CroListTable *self,
                         guint         index,
                         guint         number)
{
  g_autofree char *text = dup_note (self->brought, index);
  CroListRow row = { .number = number };

  row.name = row.said = cro_price_list_keep (self->list, text);
  cro_list_row_say (self->list, &row, CRO_LIST_NO_PRICE, NULL, NULL);
  g_array_append_val (self->list->rows, row);
}
