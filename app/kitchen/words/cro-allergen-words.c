#include "config.h"

#include "cro-allergen-words.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-words.h"

/* Names that a reason gives before it counts the rest; likewise a sentence of what nobody has stated. Who
 * carries an allergen in is always named. */
#define MOST_NAMES 3
#define MOST_NOT_STATED 8

char *
cro_words_allergens_of (CroAllergenListId list,
                        guint32           entries)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < cro_allergen_list (list)->n; i++)
    if (entries & (1u << i))
      g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", cro_words_allergen (list, i));
  return g_string_free (text, FALSE);
}

const char *
cro_words_allergen_list (CroAllergenListId list)
{
  /* Translators: lists of allergens. */
  return list == CRO_ALLERGEN_LIST_US ? _("US, 9 allergens") : _("EU, 14 allergens");
}

const char *
cro_words_allergen_source (CroAllergenListId list)
{
  if (list == CRO_ALLERGEN_LIST_EU)
    return _("List: Regulation (EU) No 1169/2011, Annex II.");
  return _("List: US FALCPA 2004 and FASTER Act 2021. Entered are the 14 groups of the EU, which do not tell "
           "wheat from other cereals with gluten, nor know of pine nuts among tree nuts: these are not "
           "known. Molluscs, celery, mustard, sulphites and lupin are not on this list.");
}

/* --- What is held ----------------------------------------------------------------------------------- */

const char *
cro_words_held_mark (unsigned held)
{
  if (held & CRO_HELD_CONTAINS)
    return "●";
  if (held & CRO_HELD_MAY)
    return held & CRO_HELD_NOT_KNOWN ? "○?" : "○";
  return held & CRO_HELD_NOT_KNOWN ? "?" : "·";
}

const char *
cro_words_held (unsigned held)
{
  if (held & CRO_HELD_CONTAINS)
    return C_("allergen", "contains");
  if (held & CRO_HELD_MAY)
    return held & CRO_HELD_NOT_KNOWN ? C_("allergen", "may contain; otherwise not known")
                                     : C_("allergen", "may contain");
  return held & CRO_HELD_NOT_KNOWN ? C_("allergen", "not known")
                                   : C_("allergen", "not among those entered");
}

const char *
cro_words_held_legend (void)
{
  return _("● contains   ○ may contain, by a label   ? not stated for at least one ingredient   ○? both   "
           "· not among those entered");
}

char *
cro_words_avoid_group (const CroAllergenSheet *sheet,
                       CroAvoidGroup           group)
{
  g_autofree char *names = cro_words_allergens_of (sheet->list, sheet->avoids);

  if (sheet->avoids == 0)
    return g_strdup (_("Plates, by what was entered"));
  switch (group)
    {
    case CRO_AVOID_CONTAINS:
      /* Translators: a heading over plates; allergens that a guest avoids. */
      return g_strdup_printf (_("Contain: %s"), names);
    case CRO_AVOID_MAY:
      return g_strdup_printf (_("May contain, by a label: %s"), names);
    case CRO_AVOID_NOT_KNOWN:
      return g_strdup_printf (_("Not known: %s"), names);
    case CRO_AVOID_NOT_ENTERED:
    case CRO_N_AVOID_GROUPS:
      return g_strdup_printf (
          _("Not among those entered: %s (no “free from” claim; cross-contact is not known)"), names);
    }
  g_return_val_if_reached (NULL);
}

/* --- Who carries it --------------------------------------------------------------------------------- */

/* "A", "A and B", "A, B and C". */
static char *
dup_joined (GPtrArray *names)
{
  GString *text = g_string_new (NULL);
  g_autofree char *last = NULL, *before = NULL;

  for (guint i = 0; i + 1 < names->len; i++)
    cro_isolate_append (text, names->pdata[i]);
  before = g_string_free (text, FALSE);
  if (names->len == 0)
    return g_strdup ("");
  last = cro_isolate (names->pdata[names->len - 1]);
  return names->len == 1 ? g_strdup (last)
                         /* Translators: the last two of a list of names. */
                         : g_strdup_printf (_("%s and %s"), before, last);
}

static char *
dup_carrier (const CroCarrier *carrier)
{
  g_autofree char *name = cro_isolate (carrier->name);
  g_autofree char *bought = dup_joined (carrier->bought);
  g_autofree char *what = carrier->bought->len > 0 ? g_strdup_printf ("%s (%s)", name, bought)
                                                   : g_strdup (name);
  g_autofree char *in = dup_joined (carrier->in);

  if (carrier->in->len == 0)
    return g_steal_pointer (&what);
  if (carrier->is_direct)
    /* Translators: an ingredient, and the preparations on the same plate that take it too. */
    return g_strdup_printf (_("%s by itself and in %s"), what, in);
  /* Translators: “Crab butter (Butter) in Brown crab cream”. */
  return g_strdup_printf (_("%s in %s"), what, in);
}

/* How many of n are not named where most are. One is not counted: its name is no longer. */
static guint
rest_of (guint n,
         guint most)
{
  return n > most + 1 ? n - most : 0;
}

/* Takes names; rest: how many there are besides. */
static char *
and_others (char  *names,
            guint  rest)
{
  g_autofree char *first = names;

  if (rest == 0)
    return g_steal_pointer (&first);
  /* Translators: names, and how many there are besides. */
  return g_strdup_printf (ngettext ("%s and %u other", "%s and %u others", rest), first, rest);
}

static char *
dup_most_carriers (const CroAllergenSheet *sheet,
                   const CroAllergenRow   *row,
                   guint64                 bits,
                   guint                   most)
{
  g_autoptr (GPtrArray) carriers = cro_carriers_new (sheet->figures, row->thing, bits);
  GString *text = g_string_new (NULL);
  guint rest = rest_of (carriers->len, most);

  for (guint i = 0; i < carriers->len - rest; i++)
    {
      g_autofree char *one = dup_carrier (carriers->pdata[i]);

      /* Translators: between the parts of a sentence. */
      g_string_append_printf (text, "%s%s", i > 0 ? _("; ") : "", one);
    }
  return and_others (g_string_free (text, FALSE), rest);
}

static char *
dup_carriers (const CroAllergenSheet *sheet,
              const CroAllergenRow   *row,
              guint64                 bits)
{
  return dup_most_carriers (sheet, row, bits, G_MAXUINT - 1);
}

static char *
dup_not_stated (const CroAllergenSheet *sheet,
                const CroAllergenRow   *row)
{
  return dup_most_carriers (sheet, row, row->bits & CRO_ALLERGENS_NOT_KNOWN, MOST_NOT_STATED);
}

/* Of whom nobody has said; of an entry that a group answers in part, that group. */
static char *
dup_not_known (const CroAllergenSheet *sheet,
               const CroAllergenRow   *row,
               guint                   entry,
               const char             *what)
{
  const CroAllergenEntry *of = &cro_allergen_list (sheet->list)->entries[entry];
  guint64 bits = cro_allergen_sheet_bits (sheet, row, entry, CRO_HELD_NOT_KNOWN);
  guint64 parts = bits & ~(guint64) CRO_ALLERGENS_NOT_KNOWN & row->bits;
  g_autofree char *open = bits & CRO_ALLERGENS_NOT_KNOWN ? dup_not_stated (sheet, row) : g_strdup ("");
  g_autofree char *partly = dup_carriers (sheet, row, parts);
  g_autofree char *groups = cro_words_allergens (of->part_of);
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, _("%s: not known."), what);
  if (parts != 0)
    {
      g_string_append_c (text, ' ');
      /* Translators: a group of allergens of which the one in question is a part, and ingredients. */
      g_string_append_printf (text, _("Entered is %s, for %s."), groups, partly);
    }
  if (*open != '\0')
    {
      g_string_append_c (text, ' ');
      g_string_append_printf (text, _("Not stated for %s."), open);
    }
  if (parts == 0 && *open == '\0')
    {
      g_string_append_c (text, ' ');
      g_string_append (text, _("What was entered does not tell."));
    }
  return g_string_free (text, FALSE);
}

/* what: of which it is told, "Crab croustade, milk" or "milk". */
static char *
dup_carried (const CroAllergenSheet *sheet,
             const CroAllergenRow   *row,
             guint                   entry,
             const char             *what)
{
  unsigned held = cro_allergen_sheet_held (sheet, row, entry);
  g_autofree char *carriers = NULL, *may = NULL, *not_known = NULL;

  if (held == 0)
    return g_strdup_printf (_("%s: not among those entered. It is no “free from” claim."), what);
  if (held & CRO_HELD_CONTAINS)
    {
      carriers = dup_carriers (sheet, row, cro_allergen_sheet_bits (sheet, row, entry, CRO_HELD_CONTAINS));
      /* Translators: a plate and an allergen; who carries it in. */
      return g_strdup_printf (_("%s: contained, by %s."), what, carriers);
    }
  if (held & CRO_HELD_NOT_KNOWN)
    not_known = dup_not_known (sheet, row, entry, what);
  if (!(held & CRO_HELD_MAY))
    return g_steal_pointer (&not_known);
  carriers = dup_carriers (sheet, row, cro_allergen_sheet_bits (sheet, row, entry, CRO_HELD_MAY));
  may = g_strdup_printf (_("%s: may be contained, by the label of %s."), what, carriers);
  return not_known != NULL ? g_strdup_printf ("%s %s", may, not_known) : g_steal_pointer (&may);
}

char *
cro_words_carried (const CroAllergenSheet *sheet,
                   const CroAllergenRow   *row,
                   guint                   entry)
{
  g_autofree char *name = cro_isolate (cro_ref_name (sheet->figures->model, row->thing));
  /* Translators: a plate, and an allergen. */
  g_autofree char *what = g_strdup_printf (_("%s, %s"), name, cro_words_allergen (sheet->list, entry));

  return dup_carried (sheet, row, entry, what);
}

char *
cro_words_all_carried (const CroAllergenSheet *sheet,
                       const CroAllergenRow   *row)
{
  GString *text = g_string_new (NULL);
  g_autofree char *open = dup_not_stated (sheet, row);

  if (*open != '\0')
    g_string_append_printf (text, _("Not stated for %s."), open);
  for (guint i = 0; i < cro_allergen_list (sheet->list)->n; i++)
    {
      g_autofree char *line = NULL;

      if (!(cro_allergen_sheet_held (sheet, row, i) & (CRO_HELD_CONTAINS | CRO_HELD_MAY)))
        continue;
      line = dup_carried (sheet, row, i, cro_words_allergen (sheet->list, i));
      g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", line);
    }
  return g_string_free (text, FALSE);
}

/* --- Why a row stands where it does ------------------------------------------------------------------- */

static void
add_once (GPtrArray  *names,
          const char *name)
{
  for (guint i = 0; i < names->len; i++)
    if (names->pdata[i] == name)
      return;
  g_ptr_array_add (names, (gpointer) name);
}

/* The purchases themselves, whatever they stand in. */
static GPtrArray *
list_bought (const CroAllergenSheet *sheet,
             const CroAllergenRow   *row,
             guint64                 bits)
{
  g_autoptr (GPtrArray) carriers = cro_carriers_new (sheet->figures, row->thing, bits);
  GPtrArray *names = g_ptr_array_new ();

  for (guint i = 0; i < carriers->len; i++)
    {
      const CroCarrier *carrier = carriers->pdata[i];

      if (carrier->bought->len == 0)
        add_once (names, carrier->name);
      for (guint k = 0; k < carrier->bought->len; k++)
        add_once (names, carrier->bought->pdata[k]);
    }
  return names;
}

static char *
dup_first (GPtrArray *names)
{
  GString *text = g_string_new (NULL);
  guint rest = rest_of (names->len, MOST_NAMES);

  for (guint i = 0; i < names->len - rest; i++)
    cro_isolate_append (text, names->pdata[i]);
  return and_others (g_string_free (text, FALSE), rest);
}

/* Bits of all that is avoided, held so. */
static guint64
bits_avoided (const CroAllergenSheet *sheet,
              const CroAllergenRow   *row,
              CroHeld                 held)
{
  guint64 bits = 0;

  for (guint i = 0; i < cro_allergen_list (sheet->list)->n; i++)
    if (sheet->avoids & (1u << i) && cro_allergen_sheet_held (sheet, row, i) & held)
      bits |= cro_allergen_sheet_bits (sheet, row, i, held);
  return bits & row->bits;
}

typedef enum
{
  WHY_CONTAINS,
  WHY_LABEL,
  WHY_NOT_TOLD_APART,
  WHY_NOT_STATED,
} Why;

static char *
dup_why (Why         why,
         const char *names)
{
  switch (why)
    {
    case WHY_LABEL:
      /* Translators: ingredients whose labels say “may contain”. */
      return g_strdup_printf (_("label of %s"), names);
    case WHY_NOT_TOLD_APART:
      /* Translators: ingredients of which is entered what may be the allergen, or another. */
      return g_strdup_printf (_("not told apart: %s"), names);
    case WHY_NOT_STATED:
      /* Translators: ingredients of which nobody entered allergens. */
      return g_strdup_printf (_("not stated: %s"), names);
    case WHY_CONTAINS:
      return g_strdup (names);
    }
  g_return_val_if_reached (NULL);
}

static void
append_why (GString                *text,
            const CroAllergenSheet *sheet,
            const CroAllergenRow   *row,
            guint64                 bits,
            Why                     why)
{
  g_autoptr (GPtrArray) names = list_bought (sheet, row, bits);
  g_autofree char *first = dup_first (names);
  g_autofree char *one = dup_why (why, first);

  if (names->len > 0)
    g_string_append_printf (text, "%s%s", text->len > 0 ? _("; ") : "", one);
}

char *
cro_words_avoid_why (const CroAllergenSheet *sheet,
                     const CroAllergenRow   *row)
{
  GString *text = g_string_new (NULL);
  guint64 open = bits_avoided (sheet, row, CRO_HELD_NOT_KNOWN);

  if (row->group == CRO_AVOID_CONTAINS)
    append_why (text, sheet, row, bits_avoided (sheet, row, CRO_HELD_CONTAINS), WHY_CONTAINS);
  else
    {
      append_why (text, sheet, row, bits_avoided (sheet, row, CRO_HELD_MAY), WHY_LABEL);
      append_why (text, sheet, row, open & ~(guint64) CRO_ALLERGENS_NOT_KNOWN, WHY_NOT_TOLD_APART);
      append_why (text, sheet, row, row->bits & CRO_ALLERGENS_NOT_KNOWN, WHY_NOT_STATED);
    }
  return g_string_free (text, FALSE);
}

char *
cro_words_not_stated_below (const CroAllergenSheet *sheet,
                            const CroAllergenRow   *row)
{
  g_autoptr (GPtrArray) names = list_bought (sheet, row, row->bits & CRO_ALLERGENS_NOT_KNOWN);

  return dup_first (names);
}

char *
cro_words_not_stated (CroModel *model)
{
  guint n, open;
  g_autofree char *n_text = NULL, *open_text = NULL;

  cro_allergens_count (model, &n, &open);
  n_text = cro_number_to_text (n, 0, TRUE);
  open_text = cro_number_to_text (open, 0, TRUE);
  if (n == 0)
    return g_strdup (_("No ingredient yet."));
  if (open == 0)
    /* Translators: of allergens. */
    return g_strdup_printf (ngettext ("Stated for the only ingredient.", "Stated for all %s ingredients.", n),
                            n_text);
  return g_strdup_printf (ngettext ("Not stated for %s of %s ingredient.",
                                    "Not stated for %s of %s ingredients.", n),
                          open_text, n_text);
}

/* --- For paper and files -------------------------------------------------------------------------------- */

char *
cro_words_allergen_title (const CroAllergenSheet *sheet)
{
  CroModel *model = sheet->figures->model;

  if (sheet->menu == CRO_NO_SLOT)
    return g_strdup (_("Allergens as entered"));
  /* Translators: %s is a menu. */
  return cro_isolate_printf (_("Allergens as entered: %s"), cro_model_menu (model, sheet->menu)->name);
}

static char *
dup_subtitle (const CroAllergenSheet *sheet)
{
  CroModel *model = sheet->figures->model;
  g_autofree char *date = cro_date_to_text (sheet->figures->date);
  g_autofree char *of = model->name != NULL && *model->name != '\0'
                            ? cro_isolate_printf (_("%s, %s"), model->name, date)
                            : g_strdup (date);
  g_autofree char *names = cro_words_allergens_of (sheet->list, sheet->avoids);

  if (sheet->avoids == 0)
    return g_steal_pointer (&of);
  /* Translators: the house and a date; allergens. */
  return g_strdup_printf (_("%s. A guest avoids: %s"), of, names);
}

static void
add_row (CroTextTable           *table,
         const CroAllergenSheet *sheet,
         const CroAllergenRow   *row,
         gboolean                in_words)
{
  guint n = (guint) cro_allergen_list (sheet->list)->n;
  char **cells = g_new0 (char *, n + 3);

  cells[0] = cro_isolate (cro_ref_name (sheet->figures->model, row->thing));
  for (guint i = 0; i < n; i++)
    {
      unsigned held = cro_allergen_sheet_held (sheet, row, i);

      cells[i + 1] = g_strdup (in_words ? cro_words_held (held) : cro_words_held_mark (held));
    }
  cells[n + 1] = cro_words_avoid_why (sheet, row);
  cro_text_table_take_row (table, cells);
}

CroTextTable *
cro_words_allergen_table (const CroAllergenSheet *sheet,
                          gboolean                in_words)
{
  g_autofree char *title = cro_words_allergen_title (sheet);
  g_autofree char *subtitle = dup_subtitle (sheet);
  g_autofree char *not_stated = cro_words_not_stated (sheet->figures->model);
  CroTextTable *table = cro_text_table_new (title, subtitle);
  CroAvoidGroup group = CRO_N_AVOID_GROUPS;

  cro_text_table_add_head (table, _("Plate"), FALSE);
  for (guint i = 0; i < cro_allergen_list (sheet->list)->n; i++)
    cro_text_table_add_head (table, cro_words_allergen (sheet->list, i), TRUE);
  cro_text_table_add_head (table, _("Why"), FALSE);
  for (guint i = 0; i < sheet->rows->len; i++)
    {
      const CroAllergenRow *row = &g_array_index (sheet->rows, CroAllergenRow, i);

      if (row->group != group)
        {
          g_autofree char *heading = cro_words_avoid_group (sheet, row->group);

          cro_text_table_add_heading (table, heading);
        }
      group = row->group;
      add_row (table, sheet, row, in_words);
    }
  if (!in_words)
    cro_text_table_add_note (table, cro_words_held_legend ());
  cro_text_table_add_note (table, not_stated);
  cro_text_table_add_note (table, cro_words_allergen_source (sheet->list));
  cro_text_table_add_note (table, cro_words_caution ());
  return table;
}
