#include "config.h"

#include "cro-card-page.h"

#include <glib/gi18n.h>

#include "cro-box.h"
#include "cro-cards.h"
#include "cro-drop-down.h"
#include "cro-field.h"
#include "cro-file-choice.h"
#include "cro-focus.h"
#include "cro-headed.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-print.h"
#include "cro-reason.h"
#include "cro-spoken.h"
#include "cro-wrap.h"

enum
{
  COST_CARD,
  KITCHEN_CARD,
};

enum
{
  A4,
  LETTER,
};

struct _CroCardPage
{
  GtkWidget      parent_instance;

  GtkWidget     *box;
  GtkWidget     *kind;
  GtkWidget     *bites;
  GtkWidget     *bites_phrase;  /* with its words: of kitchen cards alone */
  GtkWidget     *money;
  GtkWidget     *size;
  GtkWidget     *print;
  GtkWidget     *save;
  GtkWidget     *reason;
  GtkWidget     *progress;      /* a bar and a button, while a folder is written */
  GtkWidget     *bar;
  GtkWidget     *pages;

  CroBench      *bench;         /* borrowed */
  CroCardThings  things;
  CroPaper      *paper;         /* the card that is seen; NULL: none */
  gint64         n_bites;       /* 0: as the recipe is written */
  CroCardFolder *folder;        /* that is being written; NULL: none */
  CroBook       *book;          /* whose cards those are */
  guint          step;
};

G_DEFINE_FINAL_TYPE (CroCardPage, cro_card_page, GTK_TYPE_WIDGET)

static CroBook *
book_of (CroCardPage *self)
{
  return cro_bench_get_book (self->bench);
}

static guint
chosen (GtkWidget *choice)
{
  return gtk_drop_down_get_selected (GTK_DROP_DOWN (choice));
}

static CroCardWish
wish_of (CroCardPage *self)
{
  return (CroCardWish){
    .is_kitchen = chosen (self->kind) == KITCHEN_CARD,
    .with_money = gtk_check_button_get_active (GTK_CHECK_BUTTON (self->money)),
    .is_rtl = gtk_widget_get_default_direction () == GTK_TEXT_DIR_RTL,
    .bites = self->n_bites,
    .size = chosen (self->size) == LETTER ? &cro_paper_letter : &cro_paper_a4,
  };
}

/* --- What is seen ------------------------------------------------------------------------------- */

/* A point is a pixel: letters of 10 points can be read, and a page stands beside the window's edge. */
static void
draw_page_cb (GtkDrawingArea *area,
              cairo_t        *cairo,
              int             width,
              int             height,
              gpointer        page)
{
  CroCardPage *self = page;
  const CroPaperSize *size = wish_of (self).size;
  guint number = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (area), "page"));

  cairo_set_source_rgb (cairo, 1, 1, 1);
  cairo_paint (cairo);
  cairo_translate (cairo, size->margin, size->margin);
  if (self->paper != NULL)
    cro_paper_draw (self->paper, number, cairo);
}

static void
add_page (CroCardPage *self,
          guint        number,
          guint        n)
{
  const CroPaperSize *size = wish_of (self).size;
  GtkWidget *area = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_IMG,
                                  NULL);
  g_autofree char *page = g_strdup_printf ("%u / %u", number + 1, n);
  /* Translators: what a screen reader says of a picture of a page: a plate, “1 / 2”. */
  g_autofree char *name = cro_isolate_printf (_("Card of %s, page %s"),
                                              cro_paper_get_title (self->paper), page);

  g_object_set_data (G_OBJECT (area), "page", GUINT_TO_POINTER (number));
  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (area), (int) size->width);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (area), (int) size->height);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), draw_page_cb, self, NULL);
  gtk_widget_set_halign (area, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (area, "paper");
  cro_spoken_set (area, name);
  gtk_box_append (GTK_BOX (self->pages), area);
}

static void
clear_pages (CroCardPage *self)
{
  cro_box_clear (self->pages);
  g_clear_pointer (&self->paper, cro_paper_free);
}

/* Beside the buttons: the window of a card stands before what the bench would say. */
static void
fail (CroCardPage  *self,
      const GError *error)
{
  g_autofree char *sentence = cro_cards_error_words (error);

  cro_reason_say (self->reason, NULL, sentence);
}

/* "Print Cards of These 16…", once there are several. */
static void
show_buttons (CroCardPage *self,
              guint        n)
{
  /* Translators: a button; how many plates there are cards of. */
  g_autofree char *print = n > 1 ? g_strdup_printf (ngettext ("Print Card of This %u…",
                                                              "Print Cards of These %u…", n), n)
                                 : g_strdup (_("Print…"));

  gtk_button_set_label (GTK_BUTTON (self->print), print);
  gtk_button_set_label (GTK_BUTTON (self->save), n > 1 ? _("Save in a Folder…") : _("Save as PDF…"));
  gtk_widget_set_sensitive (self->print, n > 0 && self->folder == NULL);
  gtk_widget_set_sensitive (self->save, n > 0 && self->folder == NULL);
}

static void
show_card (CroCardPage *self)
{
  g_autoptr (GArray) things = self->things (self->bench);
  CroCardWish wish = wish_of (self);
  g_autoptr (GError) error = NULL;
  double around = 2 * wish.size->margin;
  guint n;

  clear_pages (self);
  show_buttons (self, things->len);
  gtk_widget_set_visible (self->bites_phrase, wish.is_kitchen && things->len == 1);
  gtk_widget_set_visible (self->money, wish.is_kitchen);
  if (things->len == 0)
    return;
  self->paper = cro_card_paper (book_of (self), g_array_index (things, CroRef, 0), &wish, &error);
  if (self->paper == NULL)
    {
      fail (self, error);
      return;
    }
  n = cro_paper_set_out (self->paper, wish.size->width - around, wish.size->height - around);
  for (guint i = 0; i < n; i++)
    add_page (self, i, n);
}

static void
bites_typed_cb (CroCardPage *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->bites));
  g_autofree char *tidy = g_strstrip (g_strdup (text));
  gint64 bites = 0;

  cro_reason_say (self->reason, self->bites, NULL);
  if (*tidy != '\0' && (!cro_number_parse (tidy, &bites) || bites <= 0))
    {
      cro_reason_say (self->reason, self->bites, _("Type a number above 0, or nothing."));
      return;
    }
  self->n_bites = bites;
  show_card (self);
}

static void
chosen_cb (CroCardPage *self)
{
  if (self->box != NULL)
    bites_typed_cb (self);
}

/* --- To the printer ----------------------------------------------------------------------------- */

typedef struct
{
  CroBook     *book;
  GArray      *things;
  CroCardWish  wish;
} Print;

static CroPaper *
make_paper (gpointer   user_data,
            guint      number,
            GError   **error)
{
  const Print *print = user_data;

  return cro_card_paper (print->book, g_array_index (print->things, CroRef, number), &print->wish,
                         error);
}

static char *
dup_title (CroCardPage *self,
           GArray      *things)
{
  return things->len == 1
             ? cro_card_dup_file (book_of (self), g_array_index (things, CroRef, 0),
                                  &(CroCardWish){ .is_kitchen = wish_of (self).is_kitchen })
             : g_strdup (wish_of (self).is_kitchen ? _("Kitchen cards") : _("Cost cards"));
}

static void
print_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  CroCardPage *self = CRO_CARD_PAGE (widget);
  g_autoptr (CroBook) book = g_object_ref (book_of (self));
  g_autoptr (GArray) things = self->things (self->bench);
  Print print = { book, things, wish_of (self) };
  g_autofree char *title = dup_title (self, things);
  g_autoptr (GError) error = NULL;

  if (things->len > 0
      && !cro_print (GTK_WINDOW (gtk_widget_get_root (widget)), title, print.wish.size, things->len,
                     make_paper, &print, &error))
    fail (self, error);
}

/* --- To files ----------------------------------------------------------------------------------- */

static void
end_folder (CroCardPage *self)
{
  g_clear_handle_id (&self->step, g_source_remove);
  g_clear_pointer (&self->folder, cro_card_folder_free);
  g_clear_object (&self->book);
}

static void
show_progress (CroCardPage *self)
{
  gtk_widget_set_visible (self->progress, self->folder != NULL);
  gtk_widget_set_sensitive (self->print, self->folder == NULL);
  gtk_widget_set_sensitive (self->save, self->folder == NULL);
  if (self->folder != NULL)
    gtk_progress_bar_set_fraction (GTK_PROGRESS_BAR (self->bar), cro_card_folder_done (self->folder));
}

/* A card between two frames: keys, and Cancel, are heard meanwhile. */
static gboolean
step_cb (gpointer user_data)
{
  CroCardPage *self = user_data;
  g_autoptr (GError) error = NULL;

  if (cro_card_folder_step (self->folder, &error))
    {
      show_progress (self);
      return G_SOURCE_CONTINUE;
    }
  self->step = 0;
  end_folder (self);
  show_progress (self);
  if (error != NULL)
    fail (self, error);
  else
    cro_bench_say (self->bench, _("All cards are in the folder."));
  return G_SOURCE_REMOVE;
}

static void
cancel_cb (CroCardPage *self)
{
  end_folder (self);
  show_progress (self);
  cro_bench_say (self->bench, _("Stopped. The cards that were complete are in the folder."));
  gtk_widget_grab_focus (self->save);
}

static void
folder_chosen_cb (gpointer    page,
                  const char *path)
{
  CroCardPage *self = page;
  g_autoptr (GArray) things = self->things (self->bench);
  CroCardWish wish = wish_of (self);
  g_autoptr (GError) error = NULL;

  end_folder (self);
  self->folder = cro_card_folder_new (book_of (self), things, &wish, path, &error);
  if (self->folder == NULL)
    {
      fail (self, error);
      return;
    }
  self->book = g_object_ref (book_of (self));
  self->step = g_idle_add_full (G_PRIORITY_LOW, step_cb, self, NULL);
  show_progress (self);
}

static void
file_chosen_cb (gpointer    page,
                const char *path)
{
  CroCardPage *self = page;
  g_autoptr (GArray) things = self->things (self->bench);
  CroCardWish wish = wish_of (self);
  g_autoptr (GError) error = NULL;

  if (!cro_cards_write_file (book_of (self), things, &wish, path, NULL, NULL, NULL, &error))
    fail (self, error);
}

static void
save_cb (GtkWidget  *widget,
         const char *action,
         GVariant   *parameter)
{
  CroCardPage *self = CRO_CARD_PAGE (widget);
  g_autoptr (GArray) things = self->things (self->bench);
  g_autofree char *name = things->len == 1 ? dup_title (self, things) : NULL;
  CroFileChoice choice = {
    .title = things->len == 1 ? _("Save a Card as PDF") : _("Save Cards in a Folder"),
    .action = things->len == 1 ? GTK_FILE_CHOOSER_ACTION_SAVE : GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER,
    .name = name,
  };

  if (things->len > 0)
    cro_file_choice_ask (&choice, GTK_WINDOW (gtk_widget_get_root (widget)),
                         things->len == 1 ? file_chosen_cb : folder_chosen_cb, self);
}

/* --- The widget --------------------------------------------------------------------------------- */

static void
cro_card_page_dispose (GObject *object)
{
  CroCardPage *self = CRO_CARD_PAGE (object);

  end_folder (self);
  g_clear_pointer (&self->paper, cro_paper_free);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  G_OBJECT_CLASS (cro_card_page_parent_class)->dispose (object);
}

static gboolean
cro_card_page_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (CRO_CARD_PAGE (widget)->kind);
}

static void
cro_card_page_class_init (CroCardPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cro_card_page_dispose;
  widget_class->focus = cro_focus_within;
  widget_class->grab_focus = cro_card_page_grab_focus;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "card.print", NULL, print_cb);
  gtk_widget_class_install_action (widget_class, "card.save", NULL, save_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_p, GDK_CONTROL_MASK, "card.print", NULL);
}

static GtkWidget *
choice_new (CroCardPage       *self,
            const char        *name,
            const char *const *words)
{
  GtkWidget *choice = cro_drop_down_new (words, name);

  g_signal_connect_object (choice, "notify::selected", G_CALLBACK (chosen_cb), self,
                           G_CONNECT_SWAPPED);
  return choice;
}

static GtkWidget *
button_new (const char *action)
{
  GtkWidget *button = gtk_button_new_with_label ("");

  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  return button;
}

static GtkWidget *
bites_new (CroCardPage *self)
{
  GtkWidget *phrase = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkEventController *focus = gtk_event_controller_focus_new ();

  self->bites = cro_entry_new (_("Bites, guests or batches"), 6);
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->bites), _("as written"));
  gtk_widget_add_controller (self->bites, focus);
  g_signal_connect_object (focus, "leave", G_CALLBACK (bites_typed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->bites, "activate", G_CALLBACK (bites_typed_cb), self,
                           G_CONNECT_SWAPPED);
  /* Translators: before a field: the number of bites, guests or batches of a kitchen card. */
  gtk_box_append (GTK_BOX (phrase), gtk_label_new (_("for")));
  gtk_box_append (GTK_BOX (phrase), self->bites);
  return phrase;
}

static GtkWidget *
progress_new (CroCardPage *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *cancel = gtk_button_new_with_label (_("Cancel"));

  self->bar = gtk_progress_bar_new ();
  gtk_widget_set_hexpand (self->bar, TRUE);
  gtk_widget_set_valign (self->bar, GTK_ALIGN_CENTER);
  cro_spoken_set (self->bar, _("Cards in the folder"));
  g_signal_connect_object (cancel, "clicked", G_CALLBACK (cancel_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), self->bar);
  gtk_box_append (GTK_BOX (box), cancel);
  gtk_widget_set_visible (box, FALSE);
  return box;
}

static GtkWidget *
head_new (CroCardPage *self)
{
  const char *const kinds[] = { _("Cost card"), _("Kitchen card"), NULL };
  /* Sizes of paper by their names. */
  const char *const sizes[] = { "A4", _("US Letter"), NULL };
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *row = cro_wrap_new (9, 6);

  self->kind = choice_new (self, _("Kind of card"), kinds);
  self->bites_phrase = bites_new (self);
  self->money = gtk_check_button_new_with_label (_("with costs"));
  g_signal_connect_object (self->money, "toggled", G_CALLBACK (chosen_cb), self, G_CONNECT_SWAPPED);
  self->size = choice_new (self, _("Paper"), sizes);
  self->print = button_new ("card.print");
  self->save = button_new ("card.save");
  self->reason = cro_text_new ("", "reason");
  gtk_widget_set_visible (self->reason, FALSE);
  self->progress = progress_new (self);
  cro_wrap_append (CRO_WRAP (row), self->kind);
  cro_wrap_append (CRO_WRAP (row), self->bites_phrase);
  cro_wrap_append (CRO_WRAP (row), self->money);
  cro_wrap_append (CRO_WRAP (row), self->size);
  cro_wrap_append (CRO_WRAP (row), self->print);
  cro_wrap_append (CRO_WRAP (row), self->save);
  gtk_box_append (GTK_BOX (head), row);
  gtk_box_append (GTK_BOX (head), self->reason);
  gtk_box_append (GTK_BOX (head), self->progress);
  return head;
}

static void
cro_card_page_init (CroCardPage *self)
{
  GtkWidget *head = head_new (self);

  self->pages = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  self->box = cro_headed_new (head, self->pages);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_card_page_new (CroBench      *bench,
                   CroCardThings  things)
{
  CroCardPage *self = g_object_new (CRO_TYPE_CARD_PAGE, NULL);

  self->bench = bench;
  self->things = things;
  return GTK_WIDGET (self);
}

void
cro_card_page_refresh (GtkWidget *page)
{
  CroCardPage *self = CRO_CARD_PAGE (page);

  if (self->paper == NULL)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (self->size),
                                cro_cards_size (book_of (self)) == &cro_paper_letter ? LETTER : A4);
  show_card (self);
}
