/* cro-service-entry-private.h: what is entered for a service, by the file of its covers and the one of what is in
 * the house already.
 *
 * Of cro-service-entry.c and cro-service-stock.c alone. */
#pragma once

#include "cro-service-entry.h"

#include "cro-bubble.h"

G_BEGIN_DECLS

struct _CroServiceEntry
{
  GtkWidget   parent_instance;

  GtkWidget  *box;
  GtkWidget  *none;        /* what to do first */
  GtkWidget  *covers;      /* grids */
  GtkWidget  *add;
  GtkWidget  *ask;         /* covers of what was chosen */
  GtkWidget  *ask_name;
  GtkWidget  *ask_entry;
  CroBubble  *ask_reason;
  GtkWidget  *take;
  GtkWidget  *in_house;
  GtkWidget  *have;
  GtkWidget  *have_reason;

  CroBench   *bench;       /* borrowed */
  CroDate     day;
  char       *name;
  CroRef      chosen;
  CroDate     before;      /* the day whose covers can be taken */
  CroBook    *book;        /* whose rows were read, at which edition; borrowed */
  guint64     edition;
  CroService *kept;
  CroService *typed;
};

/* The rows and the line of what is in the house, without a place. */
void cro_service_entry_init_stock (CroServiceEntry *self);

/* Its rows, as the service that was read has them. */
void cro_service_entry_show_stock (CroServiceEntry *self);

G_END_DECLS
