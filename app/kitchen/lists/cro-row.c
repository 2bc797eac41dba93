#include "cro-row.h"

#include <math.h>
#include <string.h>

#include "cro-breakdown.h"
#include "cro-decimal.h"
#include "cro-known.h"

/* All that moves under a key of what a row's properties say, and of what it is told in: its words hang
 * on nothing else. */
typedef struct
{
  CroFigure figure;         /* of a plate or a menu */
  guint32   item;           /* of all else the one whose cost it is; CRO_NO_SLOT: there is none */
  CroKnown  known;
  guint     base;
  double    unit_cost;
  double    trim_yield_pct;
  CroDate   price_from;
  gint32    last_price;
  gboolean  is_incomplete;
  gboolean  is_used;
  CroSpeaks speaks;
  char      currency[8];
} Told;

struct _CroRow
{
  GObject  parent_instance;

  CroBook *book;
  guint    serial;     /* of the model whose slot it is */
  CroKind  kind;
  guint32  slot;

  CroRowHeading *heading;   /* NULL: none; its name is owned */

  Told     told;            /* as it was told last */
  char    *told_name;
};

G_DEFINE_FINAL_TYPE (CroRow, cro_row, G_TYPE_OBJECT)

enum
{
  PROP_0,
  PROP_KIND,
  PROP_SLOT,
  PROP_NAME,
  PROP_COURSE,
  PROP_COST,
  PROP_FOOD_COST_PCT,
  PROP_TARGET_PCT,
  PROP_TRIM_YIELD_PCT,
  PROP_PRICE_FROM,
  PROP_INCOMPLETE,
  PROP_USED,
  N_PROPS,
};

static GParamSpec *props[N_PROPS];

static double
trim_yield_pct (CroRow   *self,
                CroModel *model)
{
  if (self->kind != CRO_KIND_INGREDIENT || model->measures[self->slot].trim_yield == 0)
    return NAN;
  return cro_decimal_to_double (model->measures[self->slot].trim_yield);
}

/* The others keep their defaults. */
static void
heading_property (CroRow *self,
                  guint   prop_id,
                  GValue *value)
{
  if (prop_id == PROP_KIND)
    g_value_set_uint (value, self->kind);
  else if (prop_id == PROP_SLOT)
    g_value_set_uint (value, self->slot);
  else if (prop_id == PROP_NAME)
    g_value_set_string (value, self->heading->name);
}

static void
cro_row_get_property (GObject    *object,
                      guint       prop_id,
                      GValue     *value,
                      GParamSpec *pspec)
{
  CroRow *self = CRO_ROW (object);
  CroFigures *figures = cro_book_get_figures (self->book);
  CroModel *model = cro_book_get_model (self->book);

  /* What the slot was of is gone with its model; whoever still shows the row sees nothing. */
  if (self->serial != model->serial)
    return;
  if (self->heading != NULL)
    {
      heading_property (self, prop_id, value);
      return;
    }
  switch (prop_id)
    {
    case PROP_KIND:
      g_value_set_uint (value, self->kind);
      break;
    case PROP_SLOT:
      g_value_set_uint (value, self->slot);
      break;
    case PROP_NAME:
      g_value_set_string (value, cro_kind_name (model, self->kind, self->slot));
      break;
    case PROP_COURSE:
      g_value_set_string (value, self->kind == CRO_KIND_PLATE
                                     ? cro_model_recipe (model, self->slot)->course
                                     : NULL);
      break;
    case PROP_COST:
      g_value_set_double (value, cro_kind_cost (figures, self->kind, self->slot));
      break;
    case PROP_FOOD_COST_PCT:
      g_value_set_double (value, cro_kind_food_cost_pct (figures, self->kind, self->slot));
      break;
    case PROP_TARGET_PCT:
      g_value_set_double (value, cro_kind_target_pct (figures, self->kind, self->slot));
      break;
    case PROP_TRIM_YIELD_PCT:
      g_value_set_double (value, trim_yield_pct (self, model));
      break;
    case PROP_PRICE_FROM:
      g_value_set_int (value, cro_kind_price_from (figures, self->kind, self->slot));
      break;
    case PROP_INCOMPLETE:
      g_value_set_boolean (value, cro_kind_is_incomplete (figures, self->kind, self->slot));
      break;
    case PROP_USED:
      g_value_set_boolean (value, cro_kind_is_used (figures, self->kind, self->slot));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, prop_id, pspec);
    }
}

static void
cro_row_finalize (GObject *object)
{
  CroRow *self = CRO_ROW (object);

  if (self->heading != NULL)
    g_free ((char *) self->heading->name);
  g_free (self->heading);
  g_free (self->told_name);
  g_object_unref (self->book);
  G_OBJECT_CLASS (cro_row_parent_class)->finalize (object);
}

static GParamSpec *
a_double (const char *name)
{
  return g_param_spec_double (name, NULL, NULL, -G_MAXDOUBLE, G_MAXDOUBLE, 0,
                              G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
}

static void
cro_row_class_init (CroRowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  const GParamFlags flags = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS;

  object_class->get_property = cro_row_get_property;
  object_class->finalize = cro_row_finalize;

  props[PROP_KIND] = g_param_spec_uint ("kind", NULL, NULL, 0, CRO_N_KINDS - 1, 0, flags);
  props[PROP_SLOT] = g_param_spec_uint ("slot", NULL, NULL, 0, G_MAXUINT, 0, flags);
  props[PROP_NAME] = g_param_spec_string ("name", NULL, NULL, NULL, flags);
  props[PROP_COURSE] = g_param_spec_string ("course", NULL, NULL, NULL, flags);
  props[PROP_COST] = a_double ("cost");
  props[PROP_FOOD_COST_PCT] = a_double ("food-cost-pct");
  props[PROP_TARGET_PCT] = a_double ("target-pct");
  props[PROP_TRIM_YIELD_PCT] = a_double ("trim-yield-pct");
  props[PROP_PRICE_FROM] = g_param_spec_int ("price-from", NULL, NULL, G_MININT, G_MAXINT,
                                             CRO_NO_DATE, flags);
  props[PROP_INCOMPLETE] = g_param_spec_boolean ("incomplete", NULL, NULL, FALSE, flags);
  props[PROP_USED] = g_param_spec_boolean ("used", NULL, NULL, FALSE, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
}

static void
cro_row_init (CroRow *self)
{
}

CroRow *
cro_row_new (CroBook *book,
             CroKind  kind,
             guint32  slot)
{
  CroRow *self = g_object_new (CRO_TYPE_ROW, NULL);

  self->book = g_object_ref (book);
  self->serial = cro_book_get_model (book)->serial;
  self->kind = kind;
  self->slot = slot;
  return self;
}

CroRow *
cro_row_new_heading (CroBook             *book,
                     CroKind              kind,
                     guint32              slot,
                     const CroRowHeading *heading)
{
  CroRow *self = cro_row_new (book, kind, slot);

  self->heading = g_new (CroRowHeading, 1);
  *self->heading = *heading;
  self->heading->name = g_strdup (heading->name);
  return self;
}

void
cro_row_set_heading (CroRow              *self,
                     const CroRowHeading *heading)
{
  if (heading->n == self->heading->n && heading->is_folded == self->heading->is_folded)
    return;
  self->heading->n = heading->n;
  self->heading->is_folded = heading->is_folded;
  cro_row_notify (self);
}

const CroRowHeading *
cro_row_get_heading (CroRow *self)
{
  return self->heading;
}

CroKind
cro_row_get_kind (CroRow *self)
{
  return self->kind;
}

guint32
cro_row_get_slot (CroRow *self)
{
  return self->slot;
}

static void
read_item (CroFigures *figures,
           guint32     item,
           Told       *told)
{
  told->item = item;
  if (item == CRO_NO_SLOT)
    return;
  told->known = cro_known_of_item (figures, item);
  told->base = figures->model->measures[item].base;
  told->unit_cost = cro_figures_unit_cost (figures, item);
  told->last_price = figures->last_price[item];
}

/* Whether a plate is carried, or a menu served, no key moves. */
static void
read_told (CroRow *self,
           Told   *told)
{
  CroFigures *figures = cro_book_get_figures (self->book);
  CroModel *model = figures->model;
  const guint32 *outputs;

  memset (told, 0, sizeof *told);
  switch (self->kind)
    {
    case CRO_KIND_PLATE:
      told->figure = cro_figure_of_plate (figures, self->slot);
      break;
    case CRO_KIND_MENU:
      told->figure = cro_figure_of_menu (figures, self->slot);
      break;
    case CRO_KIND_PREPARATION:
      read_item (figures, cro_figures_outputs (figures, self->slot, &outputs) > 0 ? outputs[0] : CRO_NO_SLOT, told);
      break;
    default:
      read_item (figures, self->slot, told);
      break;
    }
  told->trim_yield_pct = trim_yield_pct (self, model);
  told->price_from = cro_kind_price_from (figures, self->kind, self->slot);
  told->is_incomplete = cro_kind_is_incomplete (figures, self->kind, self->slot);
  told->is_used = self->kind != CRO_KIND_PLATE && self->kind != CRO_KIND_MENU
                  && cro_kind_is_used (figures, self->kind, self->slot);
  told->speaks = model->speaks;
  g_strlcpy (told->currency, model->currency != NULL ? model->currency : "", sizeof told->currency);
}

/* What the slot was of may be gone with its model. */
static gboolean
is_of_model (CroRow *self)
{
  return self->heading == NULL && self->serial == cro_book_get_model (self->book)->serial;
}

static const char *
name_of (CroRow *self)
{
  return cro_kind_name (cro_book_get_model (self->book), self->kind, self->slot);
}

void
cro_row_notify (CroRow *self)
{
  if (is_of_model (self))
    {
      read_told (self, &self->told);
      g_free (self->told_name);
      self->told_name = g_strdup (name_of (self));
    }
  for (guint i = PROP_NAME; i < N_PROPS; i++)
    g_object_notify_by_pspec (G_OBJECT (self), props[i]);
}

void
cro_row_notify_moved (CroRow *self)
{
  Told now;

  if (!is_of_model (self))
    return;
  read_told (self, &now);
  if (memcmp (&now, &self->told, sizeof now) != 0 || g_strcmp0 (name_of (self), self->told_name) != 0)
    cro_row_notify (self);
}
