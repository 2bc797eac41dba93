#include "config.h"

#include "cro-place-row.h"

#include <glib/gi18n.h>

#include "cro-field.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-last-price.h"
#include "cro-number.h"
#include "cro-row.h"
#include "cro-spoken.h"
#include "cro-trials.h"

/* NULL: none of a plate or a menu is open. */
static char *
dup_trials (CroBook *book,
            CroRow  *row)
{
  CroModel *model = cro_book_get_model (book);
  guint32 slot = cro_row_get_slot (row);
  gint64 thing = cro_row_get_kind (row) == CRO_KIND_MENU ? cro_model_menu (model, slot)->id
                                                         : cro_model_recipe (model, slot)->id;
  g_autoptr (GArray) trials = cro_trials_list (book, thing);

  return trials->len > 0 ? g_strdup_printf (ngettext ("trial open", "%u trials open", trials->len),
                                            trials->len)
                         : NULL;
}

/* What is to be known of it beside its cost, on a line of its own; NULL: nothing. */
static char *
dup_remark (CroBook *book,
            CroRow  *row)
{
  CroFigures *figures = cro_book_get_figures (book);

  if (cro_row_get_kind (row) == CRO_KIND_PLATE || cro_row_get_kind (row) == CRO_KIND_MENU)
    return dup_trials (book, row);
  return cro_row_get_kind (row) == CRO_KIND_INGREDIENT
             ? cro_words_last_price (figures, cro_row_get_slot (row))
             : NULL;
}

/* A heading folds and unfolds what stands under it; what it says is said with how it stands. */
static void
show_heading (GtkListItem         *item,
              CroKind              kind,
              const CroRowHeading *heading)
{
  GtkWidget *box = gtk_list_item_get_child (item);
  GtkWidget *mark = gtk_widget_get_first_child (box);
  GtkWidget *name = gtk_widget_get_first_child (gtk_widget_get_next_sibling (mark));
  const char *title = heading->name != NULL   ? heading->name
                      : kind == CRO_KIND_MENU ? _("Menus")
                                              : _("No course");
  g_autofree char *n = cro_number_to_text (heading->n, 0, TRUE), *spoken = NULL;

  gtk_image_set_from_icon_name (GTK_IMAGE (mark), heading->is_folded ? "pan-end-symbolic"
                                                                     : "pan-down-symbolic");
  gtk_widget_set_visible (mark, TRUE);
  gtk_label_set_label (GTK_LABEL (name), title);
  gtk_label_set_label (GTK_LABEL (gtk_widget_get_last_child (box)), n);
  gtk_widget_set_visible (gtk_widget_get_next_sibling (name), FALSE);
  /* Translators: a heading in a list, and how many stand under it. */
  spoken = cro_isolate_printf (heading->is_folded ? _("%s, %s, folded") : _("%s, %s, unfolded"), title,
                               n);
  cro_spoken_set_item (item, spoken);
}

static gboolean
shows (GtkWidget  *label,
       const char *text)
{
  return g_str_equal (gtk_label_get_label (GTK_LABEL (label)), text);
}

/* pspec NULL: it shows another row from now on. A row tells where a figure of its moved, which what stands here may
 * round away. */
static void
notify_cb (CroRow      *row,
           GParamSpec  *pspec,
           GtkListItem *item)
{
  GtkWidget *box = gtk_list_item_get_child (item);
  CroBook *book = cro_place_list_get_book (g_object_get_data (G_OBJECT (item), "list"));
  GtkWidget *mark = gtk_widget_get_first_child (box);
  GtkWidget *name = gtk_widget_get_first_child (gtk_widget_get_next_sibling (mark));
  GtkWidget *remark = gtk_widget_get_next_sibling (name);
  GtkWidget *figure = gtk_widget_get_last_child (box);
  gboolean is_menu = cro_row_get_kind (row) == CRO_KIND_MENU;
  g_autofree char *text = NULL, *shown = NULL, *label = NULL, *spoken = NULL;
  g_autofree char *of_price = NULL;
  gboolean incomplete;

  if (book == NULL)
    return;
  if (cro_row_get_heading (row) != NULL)
    {
      show_heading (item, cro_row_get_kind (row), cro_row_get_heading (row));
      return;
    }
  g_object_get (row, "name", &text, "incomplete", &incomplete, NULL);
  shown = cro_words_list_figure (cro_book_get_figures (book), cro_row_get_kind (row),
                                 cro_row_get_slot (row));
  label = g_strconcat (incomplete && strcmp (shown, "?") != 0 ? "? " : "", shown, NULL);
  of_price = dup_remark (book, row);
  if (pspec != NULL && shows (name, text != NULL ? text : "") && shows (figure, label)
      && shows (remark, of_price != NULL ? of_price : ""))
    return;
  gtk_image_set_from_icon_name (GTK_IMAGE (mark), "cro-menus-symbolic");
  gtk_widget_set_visible (mark, is_menu);
  gtk_label_set_label (GTK_LABEL (name), text != NULL ? text : "");
  gtk_label_set_label (GTK_LABEL (figure), label);
  gtk_label_set_label (GTK_LABEL (remark), of_price != NULL ? of_price : "");
  gtk_widget_set_visible (remark, of_price != NULL);
  spoken = cro_isolate_printf (is_menu ? (incomplete ? _("%s, menu, %s, incomplete") : _("%s, menu, %s"))
                               : incomplete ? _("%s, %s, incomplete")
                                            : _("%s, %s"),
                               text != NULL ? text : "", shown);
  if (of_price != NULL)
    {
      g_autofree char *both = g_strdup_printf ("%s, %s", spoken, of_price);

      cro_spoken_set_item (item, both);
    }
  else
    cro_spoken_set_item (item, spoken);
}

static void
setup_cb (GtkSignalListItemFactory *factory,
          GtkListItem              *item,
          CroPlaceList             *list)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *mark = gtk_image_new_from_icon_name ("cro-menus-symbolic");
  GtkWidget *names = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *name = gtk_label_new (NULL), *remark = gtk_label_new (NULL);
  GtkWidget *figure = cro_number_label_new ();

  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_ellipsize (GTK_LABEL (name), PANGO_ELLIPSIZE_END);
  gtk_label_set_wrap (GTK_LABEL (name), TRUE);
  gtk_label_set_lines (GTK_LABEL (name), 3);
  gtk_label_set_width_chars (GTK_LABEL (name), 13);
  gtk_label_set_xalign (GTK_LABEL (remark), 0);
  gtk_label_set_wrap (GTK_LABEL (remark), TRUE);
  gtk_label_set_width_chars (GTK_LABEL (remark), 13);
  gtk_widget_add_css_class (remark, "caption");
  gtk_widget_set_hexpand (names, TRUE);
  gtk_widget_set_valign (names, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (names), name);
  gtk_box_append (GTK_BOX (names), remark);
  gtk_widget_add_css_class (figure, "dim-label");
  gtk_box_append (GTK_BOX (box), mark);
  gtk_box_append (GTK_BOX (box), names);
  gtk_box_append (GTK_BOX (box), figure);
  gtk_list_item_set_child (item, box);
  g_object_set_data (G_OBJECT (item), "list", list);
}

/* A row tells of all its properties at once: one of them is listened to. */
static void
bind_cb (GtkSignalListItemFactory *factory,
         GtkListItem              *item)
{
  CroRow *row = gtk_list_item_get_item (item);
  GtkWidget *box = gtk_list_item_get_child (item);

  if (cro_row_get_heading (row) != NULL)
    gtk_widget_add_css_class (box, "heading");
  else
    gtk_widget_remove_css_class (box, "heading");
  notify_cb (row, NULL, item);
  g_object_set_data (G_OBJECT (item), "handler",
                     GSIZE_TO_POINTER (g_signal_connect_object (row, "notify::used",
                                                                G_CALLBACK (notify_cb), item, 0)));
}

static void
unbind_cb (GtkSignalListItemFactory *factory,
           GtkListItem              *item)
{
  g_signal_handler_disconnect (gtk_list_item_get_item (item),
                               GPOINTER_TO_SIZE (g_object_get_data (G_OBJECT (item), "handler")));
}

GtkListItemFactory *
cro_place_row_factory_new (CroPlaceList *list)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  g_signal_connect_object (factory, "setup", G_CALLBACK (setup_cb), list, 0);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), NULL);
  g_signal_connect (factory, "unbind", G_CALLBACK (unbind_cb), NULL);
  return factory;
}
