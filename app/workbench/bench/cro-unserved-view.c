#include "config.h"

#include "cro-unserved-view.h"

#include <glib/gi18n.h>

#include "cro-doubts.h"
#include "cro-field.h"
#include "cro-unserved.h"
#include "cro-words.h"
#include "cro-wrap.h"

/* More wait behind a button, so that figures stay in sight. */
#define MOST_AT_ONCE 3

/* A question, and what it is about. */
typedef struct
{
  CroRef  ref;
  char   *words;
  int     cause;           /* of the field that answers it, or CRO_NO_CAUSE */
} Question;

struct _CroUnservedView
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  CroBench  *bench;        /* borrowed */
  CroCausesView *head;     /* weak; NULL: none */
  GArray    *unserved;     /* Question, owned */
  GArray    *doubts;       /* likewise, of a thing at an edition of the book */
  CroRef     thing;
  guint64    edition;
  guint      read_id;
  gboolean   shows_all;
  char      *shown;        /* what the buttons say, to leave them alone where nothing moved */
};

G_DEFINE_FINAL_TYPE (CroUnservedView, cro_unserved_view, GTK_TYPE_WIDGET)

static void
clear_question (gpointer question)
{
  g_free (((Question *) question)->words);
}

static GArray *
new_questions (void)
{
  GArray *questions = g_array_new (FALSE, FALSE, sizeof (Question));

  g_array_set_clear_func (questions, clear_question);
  return questions;
}

/* --- Buttons ---------------------------------------------------------------------------------- */

static void
clicked_cb (CroUnservedView *self,
            GtkButton       *button)
{
  const CroRef *ref = g_object_get_data (G_OBJECT (button), "ref");

  cro_bench_open_cure (self->bench, *ref, GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "cause")));
}

static GtkWidget *
add_button (CroUnservedView *self,
            const char      *words)
{
  GtkWidget *button = gtk_button_new ();
  GtkWidget *label = gtk_label_new (words);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_button_set_child (GTK_BUTTON (button), label);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  cro_wrap_append (CRO_WRAP (self->box), button);
  return button;
}

static void
add_question (CroUnservedView *self,
              const Question  *question)
{
  GtkWidget *button = add_button (self, question->words);

  gtk_widget_add_css_class (button, "missing");
  g_object_set_data_full (G_OBJECT (button), "ref", g_memdup2 (&question->ref, sizeof (CroRef)),
                          g_free);
  g_object_set_data (G_OBJECT (button), "cause", GINT_TO_POINTER (question->cause));
  g_signal_connect_object (button, "clicked", G_CALLBACK (clicked_cb), self, G_CONNECT_SWAPPED);
}

static gboolean read_doubts_cb (gpointer user_data);

/* Nothing goes under the event: the button that was pressed goes with the others. */
static void
show_all_cb (CroUnservedView *self)
{
  self->shows_all = TRUE;
  cro_bench_defer (self->bench, &self->read_id, G_PRIORITY_LOW, read_doubts_cb, self);
}

static void
add_more (CroUnservedView *self,
          guint            n)
{
  /* Translators: a button; %u is how many more there are. */
  g_autofree char *text = g_strdup_printf (ngettext ("Show %u More", "Show %u More", n), n);

  g_signal_connect_object (add_button (self, text), "clicked", G_CALLBACK (show_all_cb), self,
                           G_CONNECT_SWAPPED);
}

static const Question *
question_at (CroUnservedView *self,
             guint            at)
{
  return at < self->unserved->len
             ? &g_array_index (self->unserved, Question, at)
             : &g_array_index (self->doubts, Question, at - self->unserved->len);
}

static void
show (CroUnservedView *self)
{
  guint n = self->unserved->len + self->doubts->len;
  guint n_shown = self->shows_all || n <= MOST_AT_ONCE + 1 ? n : MOST_AT_ONCE;
  gboolean had_focus = gtk_widget_get_focus_child (self->box) != NULL;
  g_autoptr (GString) says = g_string_new (NULL);

  for (guint i = 0; i < n; i++)
    g_string_append_printf (says, "%s\n", question_at (self, i)->words);
  g_string_append_printf (says, "%u", n_shown);
  if (g_strcmp0 (says->str, self->shown) == 0)
    return;
  g_free (self->shown);
  self->shown = g_strdup (says->str);
  cro_wrap_clear (CRO_WRAP (self->box));
  for (guint i = 0; i < n_shown; i++)
    add_question (self, question_at (self, i));
  if (n_shown < n)
    add_more (self, n - n_shown);
  gtk_widget_set_visible (self->box, n > 0);
  if (self->head != NULL)
    cro_causes_view_ask (self->head, n > 0 ? question_at (self, 0)->words : NULL,
                         gtk_widget_get_first_child (self->box));
  if (had_focus && n > 0)
    gtk_widget_child_focus (self->box, GTK_DIR_TAB_FORWARD);
}

/* --- Questions -------------------------------------------------------------------------------- */

/* A line of its own says so itself. */
static gboolean
is_said_there (CroUnservedView *self,
               CroModel        *model,
               const CroDoubt  *doubt)
{
  return doubt->kind == CRO_DOUBT_LOSES_TWICE && self->thing.kind == CRO_REF_RECIPE
         && (guint32) model->lines.row[doubt->ref.slot] == self->thing.slot;
}

/* Where a question about a line is answered: in the recipe that it stands in. */
static CroRef
place_of (CroModel *model,
          CroRef    ref)
{
  return ref.kind == CRO_REF_LINE
             ? CRO_REF (CRO_REF_RECIPE, (guint32) model->lines.row[ref.slot])
             : ref;
}

static int
cause_of (const CroDoubt *doubt)
{
  return doubt->kind == CRO_DOUBT_RATE      ? (int) CRO_CAUSE_RATE
         : doubt->kind == CRO_DOUBT_SELLING ? (int) CRO_CAUSE_SELLING_PRICE
                                            : CRO_NO_CAUSE;
}

static gboolean
read_doubts_cb (gpointer user_data)
{
  CroUnservedView *self = user_data;
  CroBook *book = cro_bench_get_book (self->bench);
  CroModel *model = book != NULL ? cro_book_get_model (book) : NULL;
  g_autoptr (GArray) doubts = NULL;

  self->read_id = 0;
  if (model == NULL || cro_bench_get_slot (self->bench) != self->thing.slot)
    return G_SOURCE_REMOVE;
  doubts = cro_doubts_below (book, self->thing, NULL);
  g_array_set_size (self->doubts, 0);
  for (guint i = 0; doubts != NULL && i < doubts->len; i++)
    {
      const CroDoubt *doubt = &g_array_index (doubts, CroDoubt, i);
      Question question = { place_of (model, doubt->ref), NULL, cause_of (doubt) };

      if (is_said_there (self, model, doubt))
        continue;
      question.words = cro_words_doubt_line (model, doubt);
      g_array_append_val (self->doubts, question);
    }
  show (self);
  return G_SOURCE_REMOVE;
}

static void
look_below (CroUnservedView *self,
            CroRef           thing)
{
  guint64 edition = cro_book_get_edition (cro_bench_get_book (self->bench));
  gboolean is_other = thing.kind != self->thing.kind || thing.slot != self->thing.slot;

  if (!is_other && edition == self->edition)
    return;
  if (is_other)
    {
      g_array_set_size (self->doubts, 0);
      self->shows_all = FALSE;
    }
  self->thing = thing;
  self->edition = edition;
  cro_bench_defer (self->bench, &self->read_id, G_PRIORITY_LOW, read_doubts_cb, self);
}

void
cro_unserved_view_set (CroUnservedView *self,
                       CroRef           thing,
                       GArray          *unserved)
{
  CroModel *model = cro_book_get_model (cro_bench_get_book (self->bench));

  look_below (self, thing);
  g_array_set_size (self->unserved, 0);
  for (guint i = 0; i < unserved->len; i++)
    {
      const CroUnserved *one = &g_array_index (unserved, CroUnserved, i);
      Question question = { CRO_REF (CRO_REF_ITEM, one->item), cro_words_unserved (model, one), CRO_NO_CAUSE };

      g_array_append_val (self->unserved, question);
    }
  show (self);
}

void
cro_unserved_view_tell (CroUnservedView *self,
                        CroCausesView   *head)
{
  g_set_weak_pointer (&self->head, head);
}

static void
cro_unserved_view_dispose (GObject *object)
{
  CroUnservedView *self = CRO_UNSERVED_VIEW (object);

  g_clear_handle_id (&self->read_id, g_source_remove);
  g_clear_weak_pointer (&self->head);
  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->unserved, g_array_unref);
  g_clear_pointer (&self->doubts, g_array_unref);
  g_clear_pointer (&self->shown, g_free);
  G_OBJECT_CLASS (cro_unserved_view_parent_class)->dispose (object);
}

static void
cro_unserved_view_class_init (CroUnservedViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_unserved_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_unserved_view_init (CroUnservedView *self)
{
  self->unserved = new_questions ();
  self->doubts = new_questions ();
  self->thing = CRO_REF_NOWHERE;
  self->box = cro_wrap_new (6, 6);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
  gtk_widget_set_visible (self->box, FALSE);
}

GtkWidget *
cro_unserved_view_new (CroBench *bench)
{
  CroUnservedView *self = g_object_new (CRO_TYPE_UNSERVED_VIEW, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
