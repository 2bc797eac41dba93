#include "config.h"

#include "cro-example.h"

#include <glib/gi18n.h>

#include "cro-isolate.h"
#include "cro-number.h"

static char *
dup_number (double value)
{
  return cro_number_to_text (value, 2, FALSE);
}

char *
cro_example_dup_line (void)
{
  g_autofree char *price = dup_number (9.20);

  /* Translators: an example of a line as it may be typed; %s is a price, 9.20. Keep the form. */
  return g_strdup_printf (_("25 g butter %s/kg"), price);
}

static const char *
first_name (CroModel *model,
            CroKind   kind,
            gboolean  is_weighed)
{
  for (guint32 slot = 0; slot < cro_kind_n_slots (model, kind); slot++)
    {
      const char *name = cro_kind_name (model, kind, slot);

      if (name != NULL && (!is_weighed || cro_model_item (model, slot)->unit == CRO_UNIT_G))
        return name;
    }
  return NULL;
}

char *
cro_example_dup_amount (CroModel *model)
{
  const char *name = first_name (model, CRO_KIND_OUTPUT, TRUE);

  if (name == NULL)
    name = first_name (model, CRO_KIND_INGREDIENT, TRUE);
  /* Translators: an example of how much there is of something, as it may be typed; what it is follows. */
  return name != NULL ? cro_isolate_printf (_("200 g %s"), name) : g_strdup (_("200 g butter"));
}

const char *
cro_example_get_served (CroModel *model)
{
  const char *name = first_name (model, CRO_KIND_MENU, FALSE);

  if (name == NULL)
    name = first_name (model, CRO_KIND_PLATE, FALSE);
  return name != NULL ? name : _("Name of a plate or menu");
}
