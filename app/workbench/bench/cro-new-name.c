#include "config.h"

#include "cro-new-name.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-doubt.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-isolate.h"
#include "cro-named.h"
#include "cro-refused-words.h"
#include "cro-spoken.h"
#include "cro-words.h"

#define WIDTH 560
#define HEIGHT 480

/* --- What a name stands in -------------------------------------------------------------------- */

/* Read as the field is entered: no key asks the store. */
typedef struct
{
  CroRef        ref;
  guint64       edition;
  GArray       *named;
  CroLikeNames *likes;
} Read;

static void
read_free (gpointer read)
{
  g_array_unref (((Read *) read)->named);
  cro_like_names_free (((Read *) read)->likes);
  g_free (read);
}

/* Borrowed from the field; NULL: it cannot be read, which keeping tells. */
static const Read *
read_of (CroInput *input,
         CroRef    ref)
{
  CroBook *book = cro_input_get_book (input);
  Read *read = g_object_get_data (G_OBJECT (input), "named");
  GArray *named;

  if (read != NULL && cro_ref_equal (read->ref, ref) && read->edition == cro_book_get_edition (book))
    return read;
  named = cro_named_list (book, ref, NULL);
  if (named == NULL)
    return NULL;
  read = g_new (Read, 1);
  *read = (Read){ .ref = ref, .edition = cro_book_get_edition (book), .named = named,
                  .likes = cro_doubt_likes (cro_book_get_model (book), ref) };
  g_object_set_data_full (G_OBJECT (input), "named", read, read_free);
  return read;
}

static GArray *
named_of (CroInput *input,
          CroRef    ref)
{
  const Read *read = read_of (input, ref);

  return read != NULL ? read->named : NULL;
}

void
cro_new_name_look (CroInput *input,
                   CroRef    ref)
{
  named_of (input, ref);
}

char *
cro_new_name_places (CroInput *input,
                     CroRef    ref)
{
  GArray *named = named_of (input, ref);

  return named != NULL ? cro_words_named (named) : NULL;
}

static gboolean
is_new (CroInput   *input,
        CroRef      ref,
        const char *name)
{
  return *name != '\0' && strcmp (name, cro_ref_name (cro_book_get_model (cro_input_get_book (input)), ref)) != 0;
}

char *
cro_new_name_tell (CroInput   *input,
                   CroRef      ref,
                   const char *name)
{
  CroModel *model = cro_book_get_model (cro_input_get_book (input));
  g_autofree char *places = NULL, *question = NULL, *says = NULL;
  const Read *read = read_of (input, ref);
  CroDoubt doubt;

  if (!is_new (input, ref, name))
    return NULL;
  if (read != NULL && cro_doubt_of_new_name (model, read->likes, ref, name, &doubt))
    question = cro_words_doubt (model, &doubt);
  places = cro_new_name_places (input, ref);
  if (places != NULL)
    /* Translators: while a new name is typed: in what it then stands, "6 recipes: Crab butter, Fish soup". */
    says = g_strdup_printf (_("The new name also stands in %s. No cost changes. Press F2 for the whole list."), places);
  if (question == NULL)
    return g_steal_pointer (&says);
  return says != NULL ? g_strdup_printf ("%s %s", question, says) : g_steal_pointer (&question);
}

void
cro_new_name_refuse (CroBook    *book,
                     const char *name,
                     GError     *failed,
                     GError    **error)
{
  CroModel *model = cro_book_get_model (book);
  CroRef bearer = cro_edit_find_name (model, CRO_NAMES_ITEMS, name);
  const CroItem *item = bearer.kind == CRO_REF_ITEM ? cro_model_item (model, bearer.slot) : NULL;

  if (item != NULL && model->maker[bearer.slot] < 0 && !item->is_disposable
      && g_error_matches (failed, CRO_EDIT_ERROR, CRO_EDIT_ERROR_NAME_TAKEN))
    failed->code = item->n_offers == 0 ? CRO_EDIT_ERROR_NAME_UNBOUGHT : CRO_EDIT_ERROR_NAME_BOUGHT;
  g_propagate_error (error, failed);
}

char *
cro_new_name_tell_refused (CroBook *book,
                           CroRef   bearer)
{
  const char *name = cro_ref_name (cro_book_get_model (book), bearer);
  g_autoptr (GError) error = NULL;

  cro_new_name_refuse (book, name, g_error_new_literal (CRO_EDIT_ERROR, CRO_EDIT_ERROR_NAME_TAKEN, name), &error);
  return cro_words_refused_name (error);
}

/* --- The window --------------------------------------------------------------------------------- */

static void
close_cb (CroInput *input)
{
  cro_input_hold (input, FALSE);
}

/* The window goes first: what is kept may take the field with it. */
static void
keep_cb (CroInput  *input,
         GtkWidget *button)
{
  g_object_ref (input);
  gtk_window_close (GTK_WINDOW (gtk_widget_get_root (button)));
  cro_input_keep (input);
  g_object_unref (input);
}

static void
append_names (GtkWidget *box,
              GPtrArray *names)
{
  for (guint i = 0; i < names->len; i++)
    gtk_box_append (GTK_BOX (box), cro_text_new (names->pdata[i], NULL));
}

/* A heading for each kind, and under it all that bear names. */
static GtkWidget *
list_new (GArray *named)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3), *scroller = gtk_scrolled_window_new ();
  g_autofree char *closed = cro_words_old_name (named);

  for (guint i = 0; i < named->len; i++)
    {
      const CroNamed *one = &g_array_index (named, CroNamed, i);
      g_autofree char *count = cro_named_to_text (one, 0);

      if (count == NULL)
        continue;
      gtk_box_append (GTK_BOX (box), cro_heading_new (count));
      append_names (box, one->names);
    }
  if (closed != NULL)
    gtk_box_append (GTK_BOX (box), cro_text_new (closed, NULL));
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), box);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_widget_set_vexpand (scroller, TRUE);
  /* Nothing in it takes the focus: Tab leads to it, and keys move it. */
  gtk_widget_set_focusable (scroller, TRUE);
  cro_spoken_set (scroller, _("Used In"));
  return scroller;
}

static void
close_window_cb (GtkWidget *button)
{
  gtk_window_close (GTK_WINDOW (gtk_widget_get_root (button)));
}

/* note says what keeping does, beside the list; the button comes last. */
static GtkWidget *
content_new (GArray     *named,
             const char *from,
             const char *to,
             const char *note,
             const char *label,
             GtkWidget **keep)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12), *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *cancel = gtk_button_new_with_label (_("Cancel"));
  g_autofree char *text = cro_isolate_printf (_("“%s” → “%s”"), from, to);

  gtk_widget_add_css_class (box, "bench");
  gtk_box_append (GTK_BOX (box), cro_text_new (text, "heading"));
  gtk_box_append (GTK_BOX (box), cro_text_new (note, NULL));
  gtk_box_append (GTK_BOX (box), list_new (named));
  *keep = gtk_button_new_with_label (label);
  gtk_widget_add_css_class (*keep, "suggested-action");
  g_signal_connect (cancel, "clicked", G_CALLBACK (close_window_cb), NULL);
  gtk_widget_set_halign (buttons, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (buttons), cancel);
  gtk_box_append (GTK_BOX (buttons), *keep);
  gtk_box_append (GTK_BOX (box), buttons);
  return box;
}

static void
add_escape (GtkWidget *window)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (keys),
                                        gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                                                          gtk_named_action_new ("window.close")));
  gtk_widget_add_controller (window, keys);
}

/* Modal, over the field's window; leaving the field for it keeps nothing. */
static GtkWidget *
present_new (CroInput   *input,
             GtkWidget  *content,
             const char *title)
{
  GtkWidget *window = adw_window_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_window_set_title (GTK_WINDOW (window), title);
  gtk_window_set_transient_for (GTK_WINDOW (window), GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (input))));
  gtk_window_set_modal (GTK_WINDOW (window), TRUE);
  gtk_window_set_default_size (GTK_WINDOW (window), WIDTH, HEIGHT);
  gtk_box_append (GTK_BOX (box), adw_header_bar_new ());
  gtk_box_append (GTK_BOX (box), content);
  adw_window_set_content (ADW_WINDOW (window), box);
  add_escape (window);
  cro_input_hold (input, TRUE);
  g_signal_connect_object (window, "destroy", G_CALLBACK (close_cb), input, G_CONNECT_SWAPPED);
  return window;
}

void
cro_new_name_show (CroInput   *input,
                   CroRef      ref,
                   const char *name)
{
  const char *from = cro_ref_name (cro_book_get_model (cro_input_get_book (input)), ref);
  GArray *named = named_of (input, ref);
  GtkWidget *window, *content, *keep;

  if (named == NULL || named->len == 0 || !is_new (input, ref, name))
    return;
  content = content_new (named, from, name, _("The new name stands in all of these. No plate costs more or less."),
                         _("Rename"), &keep);
  g_signal_connect_object (keep, "clicked", G_CALLBACK (keep_cb), input, G_CONNECT_SWAPPED);
  window = present_new (input, content, _("Rename"));
  gtk_widget_grab_focus (keep);
  gtk_window_present (GTK_WINDOW (window));
}

GtkWidget *
cro_new_name_show_merge (CroInput   *input,
                         CroRef      ref,
                         const char *name,
                         const char *note)
{
  const char *from = cro_ref_name (cro_book_get_model (cro_input_get_book (input)), ref);
  g_autoptr (GArray) none = g_array_new (FALSE, FALSE, sizeof (CroNamed));
  GArray *named = named_of (input, ref);
  GtkWidget *merge, *content = content_new (named != NULL ? named : none, from, name, note, _("Merge"), &merge);
  GtkWidget *window = present_new (input, content, _("Merge"));

  g_signal_connect (merge, "clicked", G_CALLBACK (close_window_cb), NULL);
  gtk_widget_grab_focus (gtk_widget_get_prev_sibling (merge));
  gtk_window_present (GTK_WINDOW (window));
  gtk_window_set_focus_visible (GTK_WINDOW (window), TRUE);
  return merge;
}
