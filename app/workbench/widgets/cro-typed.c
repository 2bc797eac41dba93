#include "cro-typed.h"

G_DEFINE_INTERFACE (CroTyped, cro_typed, GTK_TYPE_WIDGET)

static void
cro_typed_default_init (CroTypedInterface *iface)
{
}

char *
cro_typed_dup_field (CroTyped *self)
{
  g_return_val_if_fail (CRO_IS_TYPED (self), NULL);

  return CRO_TYPED_GET_IFACE (self)->dup_field (self);
}

char *
cro_typed_dup_text (CroTyped *self)
{
  g_return_val_if_fail (CRO_IS_TYPED (self), NULL);

  return CRO_TYPED_GET_IFACE (self)->dup_text (self);
}

void
cro_typed_type (CroTyped   *self,
                const char *text)
{
  g_return_if_fail (CRO_IS_TYPED (self));

  CRO_TYPED_GET_IFACE (self)->type (self, text);
}
