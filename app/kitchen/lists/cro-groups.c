#include "cro-groups.h"

#include <string.h>

#include "cro-fold.h"

typedef struct
{
  CroGroup  group;      /* its name is owned */
  char     *folded;     /* the name, as it is sorted by; NULL: none */
  gboolean  is_folded;
  guint     n;          /* rows, of those laid out last */
  guint     end;        /* of them in the order of groups, while they are laid out */
} Group;

struct _CroGroups
{
  GPtrArray  *all;        /* Group, in the order in which they were first seen */
  GHashTable *numbers;    /* the Group's CroGroup → its number */
  gboolean    are_folded;
  guint       n;
};

/* --- Groups --------------------------------------------------------------------------------------- */

static guint
hash (gconstpointer key)
{
  const CroGroup *group = key;

  return group->rank + (group->name != NULL ? g_str_hash (group->name) : 0);
}

static gboolean
is_equal (gconstpointer a,
          gconstpointer b)
{
  const CroGroup *x = a, *y = b;

  return x->rank == y->rank && g_strcmp0 (x->name, y->name) == 0;
}

static void
group_free (gpointer data)
{
  Group *group = data;

  g_free ((char *) group->group.name);
  g_free (group->folded);
  g_free (group);
}

static guint
number_of (CroGroups *self,
           CroGroup   group)
{
  gpointer number;
  Group *made;

  if (g_hash_table_lookup_extended (self->numbers, &group, NULL, &number))
    return GPOINTER_TO_UINT (number);
  made = g_new0 (Group, 1);
  made->group = (CroGroup){ group.rank, g_strdup (group.name) };
  made->folded = group.name != NULL ? cro_fold (group.name) : NULL;
  made->is_folded = self->are_folded;
  g_ptr_array_add (self->all, made);
  g_hash_table_insert (self->numbers, &made->group, GUINT_TO_POINTER (self->all->len - 1));
  return self->all->len - 1;
}

static Group *
group_at (CroGroups *self,
          guint32    heading)
{
  return self->all->pdata[heading & ~CRO_HEADING];
}

static int
compare (gconstpointer a,
         gconstpointer b,
         gpointer      user_data)
{
  const CroGroups *self = user_data;
  const Group *x = self->all->pdata[*(const guint32 *) a], *y = self->all->pdata[*(const guint32 *) b];
  int order;

  if (x->group.rank != y->group.rank)
    return x->group.rank < y->group.rank ? -1 : 1;
  order = g_strcmp0 (x->folded, y->folded);
  return order != 0 ? order : g_strcmp0 (x->group.name, y->group.name);
}

/* Those that have rows, in their order; each is told where its rows end. */
static GArray *
order_groups (CroGroups *self)
{
  GArray *order = g_array_new (FALSE, FALSE, sizeof (guint32));
  guint end = 0;

  for (guint32 i = 0; i < self->all->len; i++)
    if (((Group *) self->all->pdata[i])->n > 0)
      g_array_append_val (order, i);
  g_array_sort_with_data (order, compare, self);
  for (guint i = 0; i < order->len; i++)
    {
      Group *group = self->all->pdata[g_array_index (order, guint32, i)];

      end += group->n;
      group->end = end;
    }
  return order;
}

/* --- Rows ------------------------------------------------------------------------------------------ */

static void
append_group (GArray        *laid,
              const Group   *group,
              guint32        number,
              const guint32 *sorted)
{
  guint32 heading = CRO_HEADING | number;

  g_array_append_val (laid, heading);
  if (!group->is_folded)
    g_array_append_vals (laid, sorted + group->end - group->n, group->n);
}

/* The rows are dealt out to their groups once, so that it takes no longer with many groups. */
GArray *
cro_groups_lay_out (CroGroups    *self,
                    const GArray *rows,
                    CroGroupOf    of,
                    gpointer      of_rows)
{
  GArray *laid = g_array_new (FALSE, FALSE, sizeof (guint32));
  g_autofree guint *number = g_new (guint, rows->len + 1);
  g_autofree guint32 *sorted = g_new (guint32, rows->len + 1);
  g_autofree guint *filled = NULL;
  g_autoptr (GArray) order = NULL;

  for (guint i = 0; i < self->all->len; i++)
    ((Group *) self->all->pdata[i])->n = 0;
  for (guint i = 0; i < rows->len; i++)
    {
      number[i] = number_of (self, of (of_rows, g_array_index (rows, guint32, i)));
      ((Group *) self->all->pdata[number[i]])->n++;
    }
  order = order_groups (self);
  self->n = order->len;
  filled = g_new0 (guint, self->all->len + 1);
  for (guint i = 0; i < rows->len; i++)
    {
      const Group *group = self->all->pdata[number[i]];

      sorted[group->end - group->n + filled[number[i]]++] = g_array_index (rows, guint32, i);
    }
  for (guint i = 0; i < order->len; i++)
    {
      guint32 at = g_array_index (order, guint32, i);

      append_group (laid, self->all->pdata[at], at, sorted);
    }
  return laid;
}

guint
cro_groups_get_n (CroGroups *self)
{
  return self->n;
}

CroGroup
cro_groups_get (CroGroups *self,
                guint32    heading)
{
  return group_at (self, heading)->group;
}

guint
cro_groups_get_n_rows (CroGroups *self,
                       guint32    heading)
{
  return group_at (self, heading)->n;
}

gboolean
cro_groups_is_folded (CroGroups *self,
                      guint32    heading)
{
  return group_at (self, heading)->is_folded;
}

void
cro_groups_fold (CroGroups *self,
                 guint32    heading,
                 gboolean   is_folded)
{
  group_at (self, heading)->is_folded = is_folded;
}

guint32
cro_groups_find (CroGroups *self,
                 CroGroup   group)
{
  return CRO_HEADING | number_of (self, group);
}

CroGroups *
cro_groups_new (gboolean are_folded)
{
  CroGroups *self = g_new0 (CroGroups, 1);

  self->all = g_ptr_array_new_with_free_func (group_free);
  self->numbers = g_hash_table_new (hash, is_equal);
  self->are_folded = are_folded;
  return self;
}

void
cro_groups_free (CroGroups *self)
{
  if (self == NULL)
    return;
  g_hash_table_unref (self->numbers);
  g_ptr_array_unref (self->all);
  g_free (self);
}
