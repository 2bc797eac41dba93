#include "config.h"

#include "cro-month-detail.h"

#include <glib/gi18n.h>

#include "cro-records-view.h"
#include "cro-switch.h"

static const char *
title_of (CroRecordsKind kind)
{
  switch (kind)
    {
    case CRO_RECORDS_PURCHASES:
      return _("Purchases");
    case CRO_RECORDS_COUNTS:
      return C_("of the stock", "Counts");
    case CRO_RECORDS_ADJUSTMENTS:
      return _("Adjustments");
    default:
      return _("Sales");
    }
}

static GtkWidget *
table_new (CroBench       *bench,
           CroDate         first,
           CroRecordsKind  kind,
           const char     *name)
{
  GtkWidget *view = cro_records_view_new (bench, kind, _("Open"));
  char month[CRO_MONTH_CHARS];

  cro_month_format (first, month);
  gtk_widget_set_vexpand (view, TRUE);
  /* As high as it is read; the page scrolls around it. */
  gtk_widget_set_size_request (view, -1, 300);
  cro_records_view_set_book (CRO_RECORDS_VIEW (view), cro_bench_get_book (bench));
  cro_records_view_set_month (CRO_RECORDS_VIEW (view), month);
  cro_records_view_sort (CRO_RECORDS_VIEW (view), CRO_RECORDS_ENTRIES_DATE, FALSE);
  if (name != NULL)
    cro_records_view_set_search (CRO_RECORDS_VIEW (view), name);
  return view;
}

GtkWidget *
cro_month_detail_new (CroBench             *bench,
                      CroDate               first,
                      const CroRecordsKind *kinds,
                      guint                 n,
                      const char           *name)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  GtkWidget *stack = gtk_stack_new ();

  for (guint i = 0; i < n; i++)
    gtk_stack_add_titled (GTK_STACK (stack), table_new (bench, first, kinds[i], name), title_of (kinds[i]),
                          title_of (kinds[i]));
  gtk_widget_set_vexpand (stack, TRUE);
  if (n > 1)
    gtk_box_append (GTK_BOX (box), cro_switch_new (GTK_STACK (stack)));
  gtk_box_append (GTK_BOX (box), stack);
  return box;
}
