#include "cro-list.h"

#include <string.h>

#include "cro-fold.h"
#include "cro-groups.h"
#include "cro-row.h"

struct _CroList
{
  GObject       parent_instance;

  CroBook      *book;
  CroKind       kind;
  CroQuery     *query;        /* NULL: all names */
  CroListFilter filter;
  gboolean      has_groups;
  CroGroups    *groups;       /* once it had; it remembers how they are folded */

  GArray       *shown;        /* guint32: slots and headings, as the list has them */
  guint         serial;       /* of the model whose slots they are */
  guint64       edition;      /* of the book when names were taken */
  GHashTable   *rows;         /* slot or heading → CroRow that somebody holds */

  /* Folded names by slot, and all slots by them: sorted only when a name has moved. */
  GPtrArray    *names;        /* as cro_kind_name gave them; NULL: nothing there */
  GPtrArray    *folded;
  GArray       *by_name;      /* guint32 */
};

static void cro_list_model_init (GListModelInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (CroList, cro_list, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, cro_list_model_init))

/* --- Names ------------------------------------------------------------------------------------------ */

static int
compare_names (gconstpointer a,
               gconstpointer b,
               gpointer      user_data)
{
  CroList *self = user_data;
  guint32 x = *(const guint32 *) a, y = *(const guint32 *) b;
  int order = strcmp (self->folded->pdata[x], self->folded->pdata[y]);

  if (order == 0)
    order = strcmp (self->names->pdata[x], self->names->pdata[y]);
  return order != 0 ? order : x < y ? -1 : x > y;
}

static void
sort_names (CroList *self)
{
  g_array_set_size (self->by_name, 0);
  for (guint32 slot = 0; slot < self->names->len; slot++)
    if (self->names->pdata[slot] != NULL)
      g_array_append_val (self->by_name, slot);
  g_array_sort_with_data (self->by_name, compare_names, self);
}

/* Few names are put in their places one by one: a sort takes longer than all else. */
#define FEW_NAMES 8

static gboolean
contains (GArray  *slots,
          guint32  slot)
{
  for (guint i = 0; i < slots->len; i++)
    if (g_array_index (slots, guint32, i) == slot)
      return TRUE;
  return FALSE;
}

static void
place_name (CroList *self,
            guint32  slot)
{
  guint first = 0, end = self->by_name->len;

  while (first < end)
    {
      guint middle = first + (end - first) / 2;

      if (compare_names (&g_array_index (self->by_name, guint32, middle), &slot, self) < 0)
        first = middle + 1;
      else
        end = middle;
    }
  g_array_insert_val (self->by_name, first, slot);
}

static void
place_names (CroList *self,
             GArray  *moved)
{
  guint n = 0;

  if (moved->len > FEW_NAMES)
    {
      sort_names (self);
      return;
    }
  for (guint i = 0; i < self->by_name->len; i++)
    {
      guint32 slot = g_array_index (self->by_name, guint32, i);

      if (!contains (moved, slot))
        g_array_index (self->by_name, guint32, n++) = slot;
    }
  g_array_set_size (self->by_name, n);
  for (guint i = 0; i < moved->len; i++)
    if (self->names->pdata[g_array_index (moved, guint32, i)] != NULL)
      place_name (self, g_array_index (moved, guint32, i));
}

/* Returns whether any name is new, gone or another. */
static gboolean
take_names (CroList *self)
{
  CroModel *model = cro_book_get_model (self->book);
  guint32 n = cro_kind_n_slots (model, self->kind);
  g_autoptr (GArray) moved = g_array_new (FALSE, FALSE, sizeof (guint32));

  g_ptr_array_set_size (self->names, (int) n);
  g_ptr_array_set_size (self->folded, (int) n);
  for (guint32 slot = 0; slot < n; slot++)
    {
      const char *name = cro_kind_name (model, self->kind, slot);

      if (name == self->names->pdata[slot])
        continue;
      self->names->pdata[slot] = (gpointer) name;
      g_free (self->folded->pdata[slot]);
      self->folded->pdata[slot] = name != NULL ? cro_fold (name) : NULL;
      g_array_append_val (moved, slot);
    }
  if (moved->len > 0)
    place_names (self, moved);
  return moved->len > 0;
}

/* --- What is shown, and in which order ---------------------------------------------------------------- */

static CroMatch
match_of (CroList *self,
          guint32  slot)
{
  return self->query != NULL ? cro_query_match (self->query, self->folded->pdata[slot])
                             : CRO_MATCH_WHOLE;
}

static gboolean
passes (CroList *self,
        guint32  slot)
{
  CroFigures *figures = cro_book_get_figures (self->book);

  switch (self->filter)
    {
    case CRO_LIST_INCOMPLETE:
      return cro_kind_is_incomplete (figures, self->kind, slot);
    case CRO_LIST_OLD_PRICE:
      return cro_kind_is_price_old (figures, slot, CRO_LIST_OLD_DAYS);
    case CRO_LIST_UNUSED:
      return !cro_kind_is_used (figures, self->kind, slot);
    case CRO_LIST_OVER_TARGET:
      return cro_kind_is_over_target (figures, self->kind, slot);
    default:
      return TRUE;
    }
}

/* What begins with what is looked for stands first among names. */
static GArray *
list_slots (CroList *self)
{
  GArray *slots = g_array_new (FALSE, FALSE, sizeof (guint32));
  g_autoptr (GArray) others = g_array_new (FALSE, FALSE, sizeof (guint32));

  for (guint i = 0; i < self->by_name->len; i++)
    {
      guint32 slot = g_array_index (self->by_name, guint32, i);
      CroMatch match = match_of (self, slot);

      if (match == CRO_MATCH_NONE || !passes (self, slot))
        continue;
      if (match >= CRO_MATCH_BEGINS)
        g_array_append_val (slots, slot);
      else
        g_array_append_val (others, slot);
    }
  g_array_append_vals (slots, others->data, others->len);
  return slots;
}

/* Plates by course, those without one last. */
static CroGroup
group_of (gpointer list,
          guint32  slot)
{
  CroList *self = list;
  const char *course = NULL;

  if (self->kind == CRO_KIND_PLATE)
    course = cro_model_recipe (cro_book_get_model (self->book), slot)->course;
  return (CroGroup){ course == NULL, course };
}

static gboolean
is_grouped (CroList *self)
{
  return self->has_groups && self->query == NULL && self->filter == CRO_LIST_ALL;
}

static GArray *
lay_out (CroList *self)
{
  GArray *slots = list_slots (self), *laid;

  if (!is_grouped (self))
    return slots;
  laid = cro_groups_lay_out (self->groups, slots, group_of, self);
  if (self->kind == CRO_KIND_PLATE && cro_groups_get_n (self->groups) < 2)
    {
      g_array_unref (laid);
      return slots;
    }
  g_array_unref (slots);
  return laid;
}

/* --- Telling what moved ----------------------------------------------------------------------------------- */

/* Puts added slots in the place of removed ones. The list is as it is told at every signal. */
static void
splice (CroList       *self,
        guint          at,
        guint          removed,
        const guint32 *added,
        guint          n_added)
{
  if (removed > 0)
    g_array_remove_range (self->shown, at, removed);
  if (n_added > 0)
    g_array_insert_vals (self->shown, at, added, n_added);
  g_list_model_items_changed (G_LIST_MODEL (self), at, removed, n_added);
}

/* What most often moves is one row whose figure did: then two signals of one row do. */
static gboolean
move_one (CroList       *self,
          guint          at,
          const guint32 *wanted,
          guint          n)
{
  const guint32 *shown = &g_array_index (self->shown, guint32, at);
  gboolean down = memcmp (shown + 1, wanted, (n - 1) * sizeof *wanted) == 0;
  gboolean up = memcmp (shown, wanted + 1, (n - 1) * sizeof *wanted) == 0;
  guint last = at + n - 1;
  guint32 moved;

  if (!down && !up)
    return FALSE;
  moved = down ? shown[0] : shown[n - 1];
  splice (self, down ? at : last, 1, NULL, 0);
  splice (self, down ? last : at, 0, &moved, 1);
  return TRUE;
}

static void
become (CroList *self,
        GArray  *wanted)
{
  const guint32 *want = (const guint32 *) wanted->data;
  const guint32 *show = (const guint32 *) self->shown->data;
  guint n_want = wanted->len, n_show = self->shown->len;
  guint first = 0;

  while (first < n_want && first < n_show && want[first] == show[first])
    first++;
  while (n_want > first && n_show > first && want[n_want - 1] == show[n_show - 1])
    {
      n_want--;
      n_show--;
    }
  if (n_want == first && n_show == first)
    return;
  if (n_want == n_show && n_want - first > 1 && move_one (self, first, want + first, n_want - first))
    return;
  if (n_show == first || n_want - first < CRO_LIST_MANY)
    {
      splice (self, first, n_show - first, want + first, n_want - first);
      return;
    }
  splice (self, first, self->shown->len - first, NULL, 0);
  splice (self, first, 0, want + first, wanted->len - first);
}

static CroRowHeading
heading_of (CroList *self,
            guint32  heading)
{
  return (CroRowHeading){ cro_groups_get (self->groups, heading).name,
                          cro_groups_get_n_rows (self->groups, heading),
                          cro_groups_is_folded (self->groups, heading) };
}

static void
tell_headings (CroList *self)
{
  for (guint i = 0; i < self->shown->len; i++)
    {
      guint32 heading = g_array_index (self->shown, guint32, i);
      CroRow *row = (heading & CRO_HEADING) != 0
                        ? g_hash_table_lookup (self->rows, GUINT_TO_POINTER (heading))
                        : NULL;

      if (row != NULL)
        {
          CroRowHeading now = heading_of (self, heading);

          cro_row_set_heading (row, &now);
        }
    }
}

static void
refresh (CroList *self)
{
  g_autoptr (GArray) wanted = lay_out (self);

  become (self, wanted);
  if (self->groups != NULL)
    tell_headings (self);
}

/* The row is still whole when this is called. */
static void
row_gone_cb (gpointer  user_data,
             GObject  *row)
{
  CroList *self = user_data;

  g_hash_table_remove (self->rows, GUINT_TO_POINTER (cro_row_get_slot ((CroRow *) row)));
}

static void
let_go_of_rows (CroList *self)
{
  GHashTableIter iter;
  gpointer row;

  g_hash_table_iter_init (&iter, self->rows);
  while (g_hash_table_iter_next (&iter, NULL, &row))
    g_object_weak_unref (row, row_gone_cb, self);
  g_hash_table_remove_all (self->rows);
}

static void
forget_names (CroList *self)
{
  for (guint i = 0; i < self->folded->len; i++)
    g_free (self->folded->pdata[i]);
  g_ptr_array_set_size (self->folded, 0);
  g_ptr_array_set_size (self->names, 0);
  g_array_set_size (self->by_name, 0);
}

/* Another model: slots mean other things, and rows of the old ones are let go. */
static void
start_anew (CroList *self)
{
  guint n = self->shown->len;

  g_array_set_size (self->shown, 0);
  let_go_of_rows (self);
  forget_names (self);
  self->serial = cro_book_get_model (self->book)->serial;
  if (n > 0)
    g_list_model_items_changed (G_LIST_MODEL (self), 0, n, 0);
}

/* Whoever is told may let go of rows. */
static void
tell (CroList *self,
      void   (*notify) (CroRow *row))
{
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func (g_object_unref);
  GHashTableIter iter;
  gpointer row;

  g_hash_table_iter_init (&iter, self->rows);
  while (g_hash_table_iter_next (&iter, NULL, &row))
    g_ptr_array_add (rows, g_object_ref (row));
  for (guint i = 0; i < rows->len; i++)
    notify (rows->pdata[i]);
}

void
cro_list_tell (CroList *self)
{
  tell (self, cro_row_notify);
}

/* A key moves the figures of few rows. */
static void
changed_cb (CroBook *book,
            CroList *self)
{
  gboolean names_moved, has_acted = self->edition != cro_book_get_edition (book);

  if (self->serial != cro_book_get_model (book)->serial)
    start_anew (self);
  /* No key that is typed elsewhere moves a name. */
  names_moved = has_acted && take_names (self);
  self->edition = cro_book_get_edition (book);
  if (names_moved || self->filter != CRO_LIST_ALL || (has_acted && self->has_groups))
    refresh (self);
  tell (self, has_acted ? cro_row_notify : cro_row_notify_moved);
}

/* --- The model ----------------------------------------------------------------------------------------------- */

static GType
get_item_type (GListModel *model)
{
  return CRO_TYPE_ROW;
}

static guint
get_n_items (GListModel *model)
{
  return CRO_LIST (model)->shown->len;
}

static gpointer
get_item (GListModel *model,
          guint       position)
{
  CroList *self = CRO_LIST (model);
  guint32 slot;
  CroRow *row;

  if (position >= self->shown->len)
    return NULL;
  slot = g_array_index (self->shown, guint32, position);
  row = g_hash_table_lookup (self->rows, GUINT_TO_POINTER (slot));
  if (row != NULL)
    return g_object_ref (row);
  if ((slot & CRO_HEADING) != 0)
    {
      CroRowHeading heading = heading_of (self, slot);

      row = cro_row_new_heading (self->book, self->kind, slot, &heading);
    }
  else
    row = cro_row_new (self->book, self->kind, slot);
  g_object_weak_ref (G_OBJECT (row), row_gone_cb, self);
  g_hash_table_insert (self->rows, GUINT_TO_POINTER (slot), row);
  return row;
}

static void
cro_list_model_init (GListModelInterface *iface)
{
  iface->get_item_type = get_item_type;
  iface->get_n_items = get_n_items;
  iface->get_item = get_item;
}

/* --- The object ---------------------------------------------------------------------------------------------- */

static void
cro_list_finalize (GObject *object)
{
  CroList *self = CRO_LIST (object);

  let_go_of_rows (self);
  forget_names (self);
  g_hash_table_unref (self->rows);
  g_ptr_array_unref (self->names);
  g_ptr_array_unref (self->folded);
  g_array_unref (self->by_name);
  g_array_unref (self->shown);
  g_clear_pointer (&self->query, cro_query_free);
  g_clear_pointer (&self->groups, cro_groups_free);
  g_object_unref (self->book);
  G_OBJECT_CLASS (cro_list_parent_class)->finalize (object);
}

static void
cro_list_class_init (CroListClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = cro_list_finalize;
}

static void
cro_list_init (CroList *self)
{
  self->shown = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->by_name = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->names = g_ptr_array_new ();
  self->folded = g_ptr_array_new ();
  self->rows = g_hash_table_new (NULL, NULL);
}

CroList *
cro_list_new (CroBook *book,
              CroKind  kind)
{
  CroList *self = g_object_new (CRO_TYPE_LIST, NULL);

  self->book = g_object_ref (book);
  self->kind = kind;
  self->serial = cro_book_get_model (book)->serial;
  g_signal_connect_object (book, "changed", G_CALLBACK (changed_cb), self, 0);
  take_names (self);
  refresh (self);
  return self;
}

void
cro_list_set_search (CroList    *self,
                     const char *text)
{
  g_clear_pointer (&self->query, cro_query_free);
  if (text != NULL)
    self->query = cro_query_new (text);
  refresh (self);
}

void
cro_list_set_filter (CroList       *self,
                     CroListFilter  filter)
{
  self->filter = filter;
  refresh (self);
}

void
cro_list_set_groups (CroList       *self,
                     CroListGroups  groups)
{
  if (self->has_groups == (groups != CRO_LIST_PLAIN))
    return;
  self->has_groups = groups != CRO_LIST_PLAIN;
  if (self->groups == NULL)
    self->groups = cro_groups_new (groups == CRO_LIST_FOLDED);
  refresh (self);
}

void
cro_list_fold (CroList  *self,
               guint32   heading,
               gboolean  is_folded)
{
  g_return_if_fail (self->groups != NULL && (heading & CRO_HEADING) != 0);

  cro_groups_fold (self->groups, heading, is_folded);
  refresh (self);
}

void
cro_list_reveal (CroList *self,
                 guint32  slot)
{
  if (is_grouped (self) && slot < self->names->len && self->names->pdata[slot] != NULL)
    cro_list_fold (self, cro_groups_find (self->groups, group_of (self, slot)), FALSE);
}

gboolean
cro_list_find (CroList *self,
               guint32  slot,
               guint   *position)
{
  for (guint i = 0; i < self->shown->len; i++)
    if (g_array_index (self->shown, guint32, i) == slot)
      {
        *position = i;
        return TRUE;
      }
  return FALSE;
}

gboolean
cro_list_find_heading (CroList *self,
                       guint32  slot,
                       guint   *position)
{
  return is_grouped (self)
         && cro_list_find (self, cro_groups_find (self->groups, group_of (self, slot)), position);
}
