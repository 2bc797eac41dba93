#include "config.h"

#include "cro-flow-others.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-figure-words.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-words.h"

/* What is needed to write them, kept with the stream: nothing of the book. */
struct _CroFlowOthers
{
  GHashTable     *widths;      /* id → double * */
  GHashTable     *minors;      /* id → gint64 *, of what was bought */
  GHashTable     *known;       /* id → CroKnown, where that is not all */
  CroFlowMeasure  measure;
  int             digits;
};

void
cro_flow_others_free (gpointer data)
{
  CroFlowOthers *self = data;

  g_hash_table_unref (self->widths);
  g_hash_table_unref (self->minors);
  g_hash_table_unref (self->known);
  g_free (self);
}

CroFlowOthers *
cro_flow_others_new (CroFlowMeasure measure,
                     int            digits)
{
  CroFlowOthers *self = g_new0 (CroFlowOthers, 1);

  self->widths = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  self->minors = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  self->known = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  self->measure = measure;
  self->digits = digits;
  return self;
}

void
cro_flow_others_note (CroFlowOthers *self,
                      guint64        id,
                      double         width,
                      const gint64  *minor,
                      CroKnown       known)
{
  g_hash_table_insert (self->widths, g_memdup2 (&id, sizeof id), g_memdup2 (&width, sizeof width));
  if (minor != NULL)
    g_hash_table_insert (self->minors, g_memdup2 (&id, sizeof id), g_memdup2 (minor, sizeof *minor));
  if (known != CRO_KNOWN_WHOLE)
    g_hash_table_insert (self->known, g_memdup2 (&id, sizeof id), GUINT_TO_POINTER (known));
}

CroKnown
cro_flow_known_shown (CroKnown known,
                      gboolean is_anything)
{
  return known == CRO_KNOWN_WHOLE || is_anything ? known : CRO_KNOWN_NOTHING;
}

/* Ingredients, lines or plates are counted; what was not bought for it is told beside them. */
static char *
dup_others_name (const guint64 *ids,
                 guint          n)
{
  GString *name = g_string_new (NULL);
  guint n_counted = 0, n_by_products = 0;

  for (guint i = 0; i < n; i++)
    {
      n_by_products += cro_flow_id_kind (ids[i]) == CRO_FLOW_ELSEWHERE;
      n_counted += cro_flow_id_kind (ids[i]) != CRO_FLOW_ELSEWHERE && cro_flow_id_kind (ids[i]) != CRO_FLOW_GAIN;
    }
  if (n_counted > 0)
    /* Translators: so many things that are drawn as one. */
    g_string_append_printf (name, ngettext ("%u other", "%u others", n_counted), n_counted);
  if (n_by_products > 0)
    {
      g_string_append (name, name->len > 0 ? ", " : "");
      /* Translators: of other batches; beside "3 others". */
      g_string_append_printf (name, ngettext ("%u by-product", "%u by-products", n_by_products), n_by_products);
    }
  if (name->len == 0)
    g_string_append (name, _("water"));
  return g_string_free (name, FALSE);
}

void
cro_flow_others_tell (const guint64  *ids,
                      guint           n,
                      char          **name,
                      char          **figure,
                      gpointer        user_data)
{
  CroFlowOthers *self = user_data;
  double width = 0;
  gint64 minor = 0;
  gboolean is_whole = TRUE;
  CroKnown known = CRO_KNOWN_WHOLE;

  for (guint i = 0; i < n; i++)
    {
      const double *of = g_hash_table_lookup (self->widths, &ids[i]);
      const gint64 *shown = g_hash_table_lookup (self->minors, &ids[i]);

      width += of != NULL ? *of : 0;
      minor += shown != NULL ? *shown : 0;
      is_whole &= shown != NULL;
      known = cro_known_of_sum (known, (CroKnown) GPOINTER_TO_UINT (g_hash_table_lookup (self->known, &ids[i])));
    }
  if (!is_whole)
    minor = cro_money_round (width, self->digits);
  *name = dup_others_name (ids, n);
  *figure = cro_words_take_short (
      cro_flow_known_shown (known, self->measure == CRO_FLOW_WEIGHT ? width > 0 : minor != 0),
      self->measure == CRO_FLOW_WEIGHT ? cro_words_amount (CRO_BASE_GRAM, width)
                                       : cro_money_to_text (minor, self->digits));
}

/* 1, 2 or 5 of a power of ten; not less than the least money that there is. */
char *
cro_flow_others_scale (double    least,
                       double   *width,
                       gpointer  user_data)
{
  const CroFlowOthers *self = user_data;
  double power = pow (10, floor (log10 (least))), digit = least / power;
  g_autofree char *says = NULL;

  *width = power * (digit <= 1 ? 1 : digit <= 2 ? 2 : digit <= 5 ? 5 : 10);
  if (self->measure == CRO_FLOW_MONEY)
    *width = fmax (*width, pow (10, -self->digits));
  says = self->measure == CRO_FLOW_MONEY ? cro_money_to_text (cro_money_round (*width, self->digits), self->digits)
                                         : cro_words_amount (CRO_BASE_GRAM, *width);
  /* Translators: beside the bar that shows how wide so much money, or so many grams, are drawn. */
  return g_strdup_printf (_("scale: %s"), says);
}
