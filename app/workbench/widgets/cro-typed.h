/* cro-typed.h: what holds a text that was typed and is not in the book yet.
 *
 * Ownership  What dup_… returns is owned by who asks. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_TYPED (cro_typed_get_type ())
G_DECLARE_INTERFACE (CroTyped, cro_typed, CRO, TYPED, GtkWidget)

struct _CroTypedInterface
{
  GTypeInterface parent;

  char *(*dup_field) (CroTyped *self);
  char *(*dup_text)  (CroTyped *self);
  void  (*type)      (CroTyped *self, const char *text);
};

/* What it is for, the same when it is built again; NULL: nothing yet. */
char *cro_typed_dup_field (CroTyped   *self);

/* NULL: nothing is typed. */
char *cro_typed_dup_text  (CroTyped   *self);

/* Types it, as a person would. */
void  cro_typed_type      (CroTyped   *self,
                           const char *text);

G_END_DECLS
