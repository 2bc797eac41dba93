#include "config.h"

#include "cro-card-window.h"

#include <glib/gi18n.h>

#include "cro-card-page.h"
#include "cro-isolate.h"

struct _CroCardWindow
{
  AdwWindow parent_instance;
};

G_DEFINE_FINAL_TYPE (CroCardWindow, cro_card_window, ADW_TYPE_WINDOW)

gboolean
cro_card_window_can_show (CroRef thing)
{
  return thing.slot != CRO_NO_SLOT && (thing.kind == CRO_REF_RECIPE || thing.kind == CRO_REF_MENU);
}

static GArray *
list_thing (CroBench *bench)
{
  GArray *things = g_array_new (FALSE, FALSE, sizeof (CroRef));
  CroRef thing = cro_bench_get_ref (bench);

  if (cro_card_window_can_show (thing))
    g_array_append_val (things, thing);
  return things;
}

static void
cro_card_window_class_init (CroCardWindowClass *klass)
{
  gtk_widget_class_add_binding_action (GTK_WIDGET_CLASS (klass), GDK_KEY_Escape, 0, "window.close",
                                       NULL);
}

static void
cro_card_window_init (CroCardWindow *self)
{
}

GtkWidget *
cro_card_window_new (CroBench *bench)
{
  CroCardWindow *self = g_object_new (CRO_TYPE_CARD_WINDOW, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *page = cro_card_page_new (bench, list_thing);
  g_autofree char *title = cro_isolate_printf (
      _("Card of %s"), cro_ref_name (cro_book_get_model (cro_bench_get_book (bench)),
                                     cro_bench_get_ref (bench)));

  gtk_window_set_title (GTK_WINDOW (self), title);
  gtk_window_set_transient_for (GTK_WINDOW (self), GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (bench))));
  gtk_window_set_modal (GTK_WINDOW (self), TRUE);
  gtk_window_set_default_size (GTK_WINDOW (self), 760, 720);
  gtk_widget_add_css_class (page, "bench");
  gtk_widget_set_vexpand (page, TRUE);
  gtk_box_append (GTK_BOX (box), adw_header_bar_new ());
  gtk_box_append (GTK_BOX (box), page);
  adw_window_set_content (ADW_WINDOW (self), box);
  cro_card_page_refresh (page);
  gtk_widget_grab_focus (page);
  return GTK_WIDGET (self);
}
