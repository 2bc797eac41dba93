/* cro-menu-plates-private.h: what the plates of a menu (cro-menu-plates-view.c), the heads over them
 * (cro-menu-heads.c) and the shares of its choices (cro-menu-shares.c) have in common. */
#pragma once

#include "cro-menu-plates-view.h"

#include "cro-input.h"

G_BEGIN_DECLS

struct _CroMenuPlatesView
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *none;
  GtkWidget *grid;
  GtkWidget *add;

  CroBench  *bench;       /* borrowed */
  GArray    *entries;     /* guint32: slots of model->menu_plates, as rows show them */
  guint      retry;       /* the source that keeps shares that waited; 0: none */
};

enum
{
  SERVINGS,
  CHOICE,
  NAME,
  COST,
  OF_COST,
  BAR,
  SHARE,
  OF_PRICE,
  MORE,
  N_COLUMNS,
};

CroMenuPlate       *cro_menu_plates_entry_at (CroMenuPlatesView *self,
                                              guint32            slot);

/* The row that shows an entry; -1: none. */
int                 cro_menu_plates_index_of (CroMenuPlatesView *self,
                                              guint32            slot);

/* The slot of the entry whose row an input stands in. */
guint32             cro_menu_plates_entry_of (CroInput          *input);

/* --- Heads over plates: cro-menu-heads.c ------------------------------------------------------ */

/* The entries that share the choice of one: slots in order. Elements guint32. */
GArray             *cro_menu_plates_list_choice (CroMenuPlatesView *self,
                                              guint32            slot);

/* Courses and choices over the rows that stand there. */
void                cro_menu_heads_show      (CroMenuPlatesView *self);

/* What is wrong with a choice, in its head, until heads are shown again. */
void                cro_menu_heads_say       (CroMenuPlatesView *self,
                                              const char        *choice,
                                              const char        *reason);

/* --- Shares of choices: cro-menu-shares.c ------------------------------------------------------ */

/* How a field of a share is kept, and whether its error says that it waits for others. */
extern const CroInputWay cro_menu_share_way;
gboolean            cro_menu_shares_wait     (const GError      *error);

/* The field of a row. */
CroInput           *cro_menu_shares_input    (CroMenuPlatesView *self,
                                              guint              row);

/* Says in the heads what shares that are typed are short of; once the heads are shown. */
void                cro_menu_shares_show     (CroMenuPlatesView *self);

G_END_DECLS
