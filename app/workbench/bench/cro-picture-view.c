#include "config.h"

#include "cro-picture-view.h"

#include <glib/gi18n.h>

#include "cro-edit.h"
#include "cro-file-choice.h"
#include "cro-past-words.h"
#include "cro-photo.h"
#include "cro-plain-file.h"
#include "cro-plate-picture.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* As tall as ten lines; as wide as it is drawn on paper, 60 to 45. */
#define HEIGHT 195
#define WIDTH 260

struct _CroPictureView
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *area;
  GtkWidget *choose;
  GtkWidget *paste;
  GtkWidget *remove;

  CroBench        *bench;       /* borrowed */
  char            *name;        /* under which the book keeps it; NULL: it has none */
  cairo_surface_t *photo;       /* NULL: none, or one that is damaged */
  guint32          slot;
  guint64          edition;     /* of the book when the name was read; 0: it was not */
};

G_DEFINE_FINAL_TYPE (CroPictureView, cro_picture_view, GTK_TYPE_WIDGET)

static const char *const endings[] = { "jpg", "jpeg", "png", NULL };

gboolean
cro_picture_view_is_for (const char *path)
{
  g_autofree char *small = g_ascii_strdown (path, -1);
  const char *ending = strrchr (small, '.');

  return ending != NULL && g_strv_contains (endings, ending + 1);
}

/* --- What is shown ------------------------------------------------------------------------------ */

static void
draw_cb (GtkDrawingArea *area,
         cairo_t        *cairo,
         int             width,
         int             height,
         gpointer        user_data)
{
  CroPictureView *self = user_data;

  if (self->photo != NULL)
    cro_photo_draw (self->photo, cairo, width, height,
                    gtk_widget_get_direction (GTK_WIDGET (area)) == GTK_TEXT_DIR_RTL);
}

static const char *
name_of_thing (CroPictureView *self)
{
  return cro_ref_name (cro_book_get_model (cro_bench_get_book (self->bench)),
                       cro_bench_get_ref (self->bench));
}

static void
show_photo (CroPictureView *self)
{
  CroBook *book = cro_bench_get_book (self->bench);
  g_autofree char *spoken = NULL;
  gboolean may_change = !cro_book_is_past (book, NULL);

  /* Translators: what a screen reader says of the picture; %s is a plate or a preparation. */
  spoken = g_strdup_printf (_("Picture of %s"), name_of_thing (self));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->area), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken,
                                  -1);
  gtk_widget_set_tooltip_text (self->area, spoken);
  gtk_widget_set_visible (self->area, self->photo != NULL);
  gtk_button_set_label (GTK_BUTTON (self->choose),
                        self->name != NULL ? _("Replace Picture…") : _("Choose Picture…"));
  gtk_widget_set_visible (self->remove, self->name != NULL);
  gtk_widget_set_sensitive (self->choose, may_change);
  gtk_widget_set_sensitive (self->paste, may_change);
  gtk_widget_set_sensitive (self->remove, may_change);
  gtk_widget_queue_draw (self->area);
}

static void
open_photo (CroPictureView *self)
{
  g_autoptr (GError) error = NULL;

  g_clear_pointer (&self->photo, cairo_surface_destroy);
  if (self->name == NULL)
    return;
  self->photo = cro_plate_picture_open (cro_bench_get_book (self->bench), self->name, &error);
  if (self->photo == NULL)
    cro_bench_say (self->bench, _("The picture in the book is damaged; replace it or remove it."));
}

void
cro_picture_view_refresh (CroPictureView *self)
{
  CroBook *book = cro_bench_get_book (self->bench);
  guint64 edition = cro_book_get_edition (book);
  g_autofree char *name = NULL;
  const char *table;
  gint64 id;

  if (edition == self->edition && cro_bench_get_slot (self->bench) == self->slot)
    return;
  self->edition = edition;
  self->slot = cro_bench_get_slot (self->bench);
  id = cro_edit_row (cro_book_get_model (book), cro_bench_get_ref (self->bench), &table);
  name = cro_plate_picture_dup_name (book, table, id);
  if (g_strcmp0 (name, self->name) != 0)
    {
      g_free (self->name);
      self->name = g_steal_pointer (&name);
      open_photo (self);
    }
  show_photo (self);
}

gboolean
cro_picture_view_is_set (CroPictureView *self)
{
  return self->name != NULL;
}

/* --- Taking one --------------------------------------------------------------------------------- */

/* A file on its way into the book, for what was on the bench when it was chosen. */
typedef struct
{
  CroBook *book;
  CroRef   ref;
  char    *path;    /* NULL: what was pasted */
  GBytes  *bytes;   /* NULL: still to be read */
} Taking;

static void
taking_free (gpointer data)
{
  Taking *taking = data;

  g_object_unref (taking->book);
  g_free (taking->path);
  g_clear_pointer (&taking->bytes, g_bytes_unref);
  g_free (taking);
}

static void
take_in_thread (GTask        *task,
                gpointer      source,
                gpointer      task_data,
                GCancellable *cancellable)
{
  Taking *taking = task_data;
  g_autofree char *name = NULL;
  GError *error = NULL;
  GBytes *kept = NULL;

  if (taking->bytes == NULL)
    taking->bytes = cro_plain_file_read (taking->path, CRO_PHOTO_MOST_BYTES + 1, &error);
  if (taking->bytes != NULL)
    kept = cro_photo_take (taking->bytes, &name, &error);
  if (kept != NULL)
    g_task_return_pointer (task, kept, (GDestroyNotify) g_bytes_unref);
  else
    g_task_return_error (task, error);
}

static void
say_wrong (CroPictureView *self,
           const Taking   *taking,
           const GError   *error)
{
  g_autofree char *file = taking->path != NULL ? g_filename_display_basename (taking->path)
                                               : g_strdup (_("what was pasted"));
  g_autofree char *why = cro_words_picture (error, file);
  /* Translators: why a file is not taken as a picture, as “soup.txt” is neither a JPEG nor a PNG picture. */
  g_autofree char *text = g_strdup_printf (_("The picture was not taken: %s."), why);

  cro_bench_say (self->bench, text);
}

static void
set_picture (CroPictureView *self,
             CroBook        *book,
             CroRef          ref,
             GBytes         *bytes)
{
  CroModel *model = cro_book_get_model (book);
  const char *table;
  g_autofree char *label = NULL;
  g_autoptr (GError) error = NULL;

  cro_edit_row (model, ref, &table);
  label = cro_past_dup_act (table, "picture", cro_ref_name (model, ref));
  if (!cro_edit_set_picture (book, label, ref, bytes, &error))
    cro_bench_fail (self->bench, error);
}

static void
taken_cb (GObject      *source,
          GAsyncResult *result,
          gpointer      user_data)
{
  CroPictureView *self = CRO_PICTURE_VIEW (source);
  Taking *taking = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) kept = g_task_propagate_pointer (G_TASK (result), &error);

  if (self->bench == NULL || cro_bench_get_book (self->bench) != taking->book)
    return;
  if (kept == NULL)
    say_wrong (self, taking, error);
  else if (!cro_model_recipe (cro_book_get_model (taking->book), taking->ref.slot)->is_dead)
    set_picture (self, taking->book, taking->ref, kept);
}

/* path or bytes; both are copied. */
static void
take (CroPictureView *self,
      const char     *path,
      GBytes         *bytes)
{
  g_autoptr (GTask) task = g_task_new (self, NULL, taken_cb, NULL);
  Taking *taking = g_new (Taking, 1);

  *taking = (Taking){ g_object_ref (cro_bench_get_book (self->bench)),
                      cro_bench_get_ref (self->bench), g_strdup (path),
                      bytes != NULL ? g_bytes_ref (bytes) : NULL };
  g_task_set_task_data (task, taking, taking_free);
  g_task_run_in_thread (task, take_in_thread);
}

void
cro_picture_view_take (CroPictureView *self,
                       const char     *path)
{
  take (self, path, NULL);
}

static void
chosen (gpointer    owner,
        const char *path)
{
  cro_picture_view_take (owner, path);
}

static void
choose_cb (CroPictureView *self)
{
  const CroFileChoice choice = { _("Choose a Picture"), GTK_FILE_CHOOSER_ACTION_OPEN, NULL,
                                 _("JPEG and PNG pictures"), endings };

  cro_file_choice_ask (&choice, GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), chosen, self);
}

static void
pasted_cb (GObject      *clipboard,
           GAsyncResult *result,
           gpointer      user_data)
{
  g_autoptr (CroPictureView) self = user_data;
  g_autoptr (GdkTexture) texture = gdk_clipboard_read_texture_finish (GDK_CLIPBOARD (clipboard), result,
                                                                      NULL);
  g_autoptr (GBytes) bytes = texture != NULL ? gdk_texture_save_to_png_bytes (texture) : NULL;

  if (self->bench == NULL)
    return;
  if (bytes != NULL)
    take (self, NULL, bytes);
  else
    cro_bench_say (self->bench, _("There is no picture to paste."));
}

static void
paste_cb (CroPictureView *self)
{
  gdk_clipboard_read_texture_async (gtk_widget_get_clipboard (GTK_WIDGET (self)), NULL, pasted_cb,
                                    g_object_ref (self));
}

/* The focus stays near what it was on. */
static void
remove_cb (CroPictureView *self)
{
  set_picture (self, cro_bench_get_book (self->bench), cro_bench_get_ref (self->bench), NULL);
  gtk_widget_grab_focus (self->choose);
}

/* --- The widget --------------------------------------------------------------------------------- */

static void
cro_picture_view_dispose (GObject *object)
{
  CroPictureView *self = CRO_PICTURE_VIEW (object);

  self->bench = NULL;
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->photo, cairo_surface_destroy);
  G_OBJECT_CLASS (cro_picture_view_parent_class)->dispose (object);
}

static void
cro_picture_view_finalize (GObject *object)
{
  g_free (CRO_PICTURE_VIEW (object)->name);
  G_OBJECT_CLASS (cro_picture_view_parent_class)->finalize (object);
}

static void
cro_picture_view_class_init (CroPictureViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_picture_view_dispose;
  G_OBJECT_CLASS (klass)->finalize = cro_picture_view_finalize;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static GtkWidget *
add_button (CroPictureView *self,
            GtkWidget      *row,
            const char     *label,
            GCallback       clicked)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  g_signal_connect_object (button, "clicked", clicked, self, G_CONNECT_SWAPPED);
  cro_wrap_append (CRO_WRAP (row), button);
  return button;
}

static void
cro_picture_view_init (CroPictureView *self)
{
  GtkWidget *row = cro_wrap_new (6, 6);

  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->area = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_IMG,
                             "content-width", WIDTH, "content-height", HEIGHT, "halign",
                             GTK_ALIGN_START, NULL);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (self->area), draw_cb, self, NULL);
  self->choose = add_button (self, row, _("Choose Picture…"), G_CALLBACK (choose_cb));
  gtk_widget_set_tooltip_text (self->choose, _("A JPEG or PNG file; it can be dropped on the window, too"));
  self->paste = add_button (self, row, _("Paste Picture"), G_CALLBACK (paste_cb));
  self->remove = add_button (self, row, _("Remove Picture"), G_CALLBACK (remove_cb));
  gtk_box_append (GTK_BOX (self->box), self->area);
  gtk_box_append (GTK_BOX (self->box), row);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  self->slot = CRO_NO_SLOT;
}

GtkWidget *
cro_picture_view_new (CroBench *bench)
{
  CroPictureView *self = g_object_new (CRO_TYPE_PICTURE_VIEW, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
