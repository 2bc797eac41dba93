#include "config.h"

#include "cro-figure-strip.h"

#include "cro-causes-view.h"
#include "cro-wrap.h"

GtkWidget *
cro_figure_strip_new (CroBench            *bench,
                      const CroFigureSum  *sums,
                      guint                n,
                      GtkWidget          **figures,
                      GtkWidget          **causes)
{
  GtkWidget *strip = cro_wrap_new (12, 6);

  gtk_widget_add_css_class (strip, "figures");
  for (guint i = 0; i < n; i++)
    {
      figures[i] = cro_figure_view_new (bench, sums[i]);
      cro_wrap_append (CRO_WRAP (strip), figures[i]);
    }
  *causes = cro_causes_view_new (bench);
  gtk_widget_set_hexpand (*causes, TRUE);
  cro_wrap_append (CRO_WRAP (strip), *causes);
  return strip;
}
