#include "cro-quick.h"

#include "cro-paste.h"

static gboolean
can_place (CroBook       *book,
           guint32        recipe,
           CroQuick      *quick,
           CroQuickFlags  flags)
{
  if (!quick->has_amount)
    return FALSE;
  cro_quick_leave_own (quick, book, recipe);
  if (quick->match == CRO_QUICK_UNKNOWN && flags & CRO_QUICK_TAKE_SIMILAR)
    cro_quick_find (quick, book, recipe);
  return quick->match != CRO_QUICK_UNKNOWN || flags & CRO_QUICK_MAKE_ALL
         || (flags & CRO_QUICK_MAKE_PRICED && quick->has_price);
}

static CroNewLine
new_line_of (const CroQuick *quick,
             const char     *supplier,
             CroDate         from,
             CroQuickFlags   flags)
{
  return (CroNewLine){
    .item = quick->item,
    .name = quick->name,
    .base = cro_quick_base (quick),
    .is_preparation = flags & CRO_QUICK_MAKE_PREPARATION && !quick->has_price,
    .amount = quick->amount,
    .unit = quick->unit,
    .as_bought = quick->as_bought,
    .note = quick->note,
    .has_price = quick->has_price,
    .price = { quick->pack_price, quick->price_unit, supplier, from, quick->pack_size },
  };
}

static void
keep_back (GString    *left,
           const char *line)
{
  if (left->len > 0)
    g_string_append_c (left, '\n');
  g_string_append (left, line);
}

/* What a paste comes to. */
typedef struct
{
  CroPaste   paste;
  GArray    *lines;     /* CroNewLine */
  GPtrArray *notes;     /* theirs, owned */
  GString   *note;
  GString   *left;
} Placing;

static void
placing_clear (Placing *self)
{
  cro_paste_clear (&self->paste);
  g_array_unref (self->lines);
  g_ptr_array_unref (self->notes);
  g_string_free (self->note, TRUE);
  g_string_free (self->left, TRUE);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Placing, placing_clear)

/* A heading stands beside each of its lines: "melted; for the gel". */
static const char *
note_of (Placing           *self,
         const CroPasteRow *row)
{
  g_autofree char *heading = row->heading != G_MAXUINT ? cro_paste_dup_heading (&self->paste, row->heading)
                                                       : NULL;
  char *note;

  if (heading == NULL)
    return row->quick.note;
  note = row->quick.note != NULL ? g_strconcat (row->quick.note, "; ", heading, NULL)
                                 : g_strdup (heading);
  g_ptr_array_add (self->notes, note);
  return note;
}

/* Everything that is no line, in its order. */
static void
set_aside (Placing         *self,
           const CroRecipe *recipe,
           gboolean         takes)
{
  for (guint i = 0; i < self->paste.rows->len; i++)
    if (cro_paste_notes (&self->paste, i, recipe, takes))
      cro_paste_add_note (self->note, cro_paste_get (&self->paste, i)->text);
}

static void
place_row (Placing       *self,
           CroBook       *book,
           guint32        recipe,
           guint          at,
           const char    *supplier,
           CroDate        from,
           CroQuickFlags  flags)
{
  CroPasteRow *row = cro_paste_get (&self->paste, at);
  CroNewLine line;

  if (row->kind == CRO_PASTE_LINE && !can_place (book, recipe, &row->quick, flags))
    row->kind = CRO_PASTE_LEFT;
  if (row->kind == CRO_PASTE_LEFT)
    keep_back (self->left, row->text);
  if (row->kind != CRO_PASTE_LINE)
    return;
  line = new_line_of (&row->quick, supplier, from, flags);
  line.note = note_of (self, row);
  line.has_price = line.has_price && !cro_paste_leaves_price (&self->paste, cro_book_get_figures (book), at);
  g_array_append_val (self->lines, line);
}

gboolean
cro_quick_place (CroBook              *book,
                 const char           *label,
                 guint32               recipe,
                 guint32               after,
                 const char           *text,
                 const CroEntryWords  *words,
                 const char           *supplier,
                 CroDate               from,
                 CroQuickFlags         flags,
                 char                **left,
                 guint                *n_placed,
                 guint32              *item,
                 GError              **error)
{
  g_auto (Placing) placing = { .lines = g_array_new (FALSE, FALSE, sizeof (CroNewLine)),
                               .notes = g_ptr_array_new_with_free_func (g_free),
                               .note = g_string_new (NULL), .left = g_string_new (NULL) };
  CroNewRecipe content = { 0 };
  guint32 taken = CRO_NO_SLOT;
  const CroRecipe *of;
  gboolean takes;

  if (!cro_book_refresh (book, NULL, error))
    return FALSE;
  of = cro_model_recipe (cro_book_get_model (book), recipe);
  cro_paste_read (cro_book_get_model (book), of->name, text, words, &placing.paste);
  for (guint i = 0; i < placing.paste.rows->len; i++)
    place_row (&placing, book, recipe, i, supplier, from, flags);
  takes = cro_paste_sets_yield (&placing.paste, cro_book_get_figures (book), recipe);
  set_aside (&placing, of, takes);
  content = (CroNewRecipe){ (const CroNewLine *) placing.lines->data, placing.lines->len,
                            placing.note->len > 0 ? placing.note->str : NULL, 0, 0, CRO_UNIT_EACH };
  if (takes)
    {
      content.makes = placing.paste.title.makes;
      content.gives = placing.paste.title.gives > 0 ? placing.paste.title.gives : placing.paste.title.makes;
      content.gives_unit = placing.paste.title.gives > 0 ? placing.paste.title.gives_unit : CRO_UNIT_EACH;
    }
  if ((content.n > 0 || content.note != NULL || content.gives > 0)
      && !cro_edit_add_recipe (book, label, recipe, after, &content, &taken, error))
    return FALSE;
  *left = placing.left->len > 0 ? g_strdup (placing.left->str) : NULL;
  *n_placed = placing.lines->len;
  if (item != NULL)
    *item = placing.lines->len == 1 ? taken : CRO_NO_SLOT;
  return TRUE;
}
