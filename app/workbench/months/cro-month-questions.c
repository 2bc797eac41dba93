#include "config.h"

#include "cro-month-questions.h"

#include <glib/gi18n.h>

#include "cro-box.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-isolate.h"
#include "cro-month-statement.h"
#include "cro-month-words.h"
#include "cro-spoken.h"
#include "cro-wrap.h"

/* So many are read at once; the others on demand. */
#define FEW 6

struct _CroMonthQuestions
{
  GtkWidget  parent_instance;

  GtkWidget *box;
  GtkWidget *title;
  GtkWidget *rows;
  GtkWidget *more;

  CroBench  *bench;       /* borrowed */
  char      *shown;       /* what is asked, as one text */
  gboolean   is_all;
};

G_DEFINE_FINAL_TYPE (CroMonthQuestions, cro_month_questions, GTK_TYPE_WIDGET)

/* --- Where one is answered ------------------------------------------------------------------ */

typedef struct
{
  const char *words;      /* on the button; NULL: there is none */
  const char *action;     /* of the page; NULL: */
  CroRef      ref;        /* the thing that opens instead, */
  int         cause;      /* and what it lacks */
  int         line;       /* of the statement, whose sheet opens */
} Answer;

static CroRef
find_thing (CroModel   *model,
            const char *name)
{
  static const CroNames all[] = { CRO_NAMES_ITEMS, CRO_NAMES_THINGS, CRO_NAMES_PREPARATIONS };
  CroRef ref = CRO_REF_NOWHERE;

  for (gsize i = 0; i < G_N_ELEMENTS (all) && ref.kind == CRO_REF_NONE; i++)
    ref = cro_edit_find_name (model, all[i], name);
  return ref;
}

static Answer
answer_missing (CroMonthQuestions      *self,
                const CroMonthQuestion *question)
{
  CroModel *model = cro_book_get_model (cro_bench_get_book (self->bench));
  Answer answer = { .ref = find_thing (model, question->about), .cause = CRO_CAUSE_SELLING_PRICE };
  CroCauseKind cause;

  if (cro_month_question_cause (question, &cause))
    answer.cause = (int) cause;
  if (answer.cause == CRO_CAUSE_RATE)
    answer.ref = CRO_REF (CRO_REF_SUPPLIER, CRO_NO_SLOT);
  if (answer.ref.kind == CRO_REF_NONE)
    return (Answer){ .words = NULL };
  answer.words = answer.cause == CRO_CAUSE_PRICE || answer.cause == CRO_CAUSE_SELLING_PRICE ? _("Set Price")
                                                                                            : _("Enter");
  return answer;
}

static Answer
answer_in (CroStatementLine line)
{
  const char *words = line == CRO_STATEMENT_SALES || line == CRO_STATEMENT_TILL      ? _("Open Sales")
                      : line == CRO_STATEMENT_BOUGHT || line == CRO_STATEMENT_LEDGER ? _("Open Purchases")
                      : line == CRO_STATEMENT_ADJUSTMENTS                            ? _("Open Adjustments")
                                                                                     : _("Open Count");

  return (Answer){ .words = words, .action = "month.sheet", .line = (int) line };
}

/* What is asked of an amount begins with its table. */
static CroStatementLine
line_of_table (const char *detail)
{
  const char *table = detail != NULL ? detail : "";

  return g_str_has_prefix (table, "sales ")       ? CRO_STATEMENT_SALES
         : g_str_has_prefix (table, "purchases ") ? CRO_STATEMENT_BOUGHT
         : g_str_has_prefix (table, "counts ")    ? CRO_STATEMENT_CLOSING
                                                  : CRO_STATEMENT_ADJUSTMENTS;
}

static Answer
answer_of (CroMonthQuestions      *self,
           const CroMonth         *month,
           const CroMonthQuestion *question)
{
  CroDate day = question->kind == CRO_QUESTION_COUNTED_AFTER ? cro_month_first_of (question->day) - 1 : question->day;
  CroStatementLine counted = day < month->first ? CRO_STATEMENT_OPENING : CRO_STATEMENT_CLOSING;

  switch (question->kind)
    {
    case CRO_QUESTION_TILL:
    case CRO_QUESTION_TILL_GROSS:
    case CRO_QUESTION_TILL_TAX:
      return answer_in (CRO_STATEMENT_TILL);
    case CRO_QUESTION_LEDGER:
      return answer_in (CRO_STATEMENT_LEDGER);
    case CRO_QUESTION_MISSING:
      /* A price does not move what closing froze. */
      return month->is_closed ? (Answer){ .words = NULL } : answer_missing (self, question);
    case CRO_QUESTION_SALE_TWICE:
      return answer_in (CRO_STATEMENT_SALES);
    case CRO_QUESTION_TAX:
      return (Answer){ .words = month->is_closed ? NULL : _("Enter"), .ref = CRO_REF (CRO_REF_HOUSE, CRO_NO_SLOT),
                       .cause = CRO_CAUSE_TAX };
    case CRO_QUESTION_STOCK:
    case CRO_QUESTION_COUNTED_AFTER:
    case CRO_QUESTION_NOT_COUNTED:
    case CRO_QUESTION_COUNT_TWICE:
    case CRO_QUESTION_MORE_THAN_THERE:
      return answer_in (counted);
    case CRO_QUESTION_FAR_AMOUNT:
      return answer_in (line_of_table (question->detail));
    case CRO_QUESTION_PURCHASE_TWICE:
    case CRO_QUESTION_FAR_PRICE:
      return answer_in (CRO_STATEMENT_BOUGHT);
    case CRO_QUESTION_ADJUSTMENT_TWICE:
    case CRO_QUESTION_NO_VALUE:
      return answer_in (CRO_STATEMENT_ADJUSTMENTS);
    case CRO_QUESTION_UNIT:
      return answer_in (question->day < month->first || question->day == cro_month_next (month->first) - 1
                            ? counted
                            : CRO_STATEMENT_BOUGHT);
    case CRO_QUESTION_FIRST_STOOD:
    case CRO_QUESTION_BEFORE:
      return (Answer){ .words = month->is_closed ? NULL : _("Choose Day"), .action = "month.recipes" };
    case CRO_QUESTION_OPENING:
      return (Answer){ .words = month->is_closed ? _("Reopen…") : NULL, .action = "month.reopen" };
    case CRO_QUESTION_NEXT_OPENED:
      return month->is_closed ? (Answer){ .words = NULL } : answer_in (counted);
    case CRO_QUESTION_BOOKED_LATER:
    case CRO_QUESTION_EARLIER_OPEN:
    case CRO_QUESTION_LATER_CLOSED:
    case CRO_N_QUESTIONS:
      break;
    }
  return (Answer){ .words = NULL };
}

static void
answer_cb (CroMonthQuestions *self,
           GtkWidget         *button)
{
  const Answer *answer = g_object_get_data (G_OBJECT (button), "answer");

  if (answer->action == NULL)
    cro_bench_open_cure (self->bench, answer->ref, answer->cause);
  else if (g_str_equal (answer->action, "month.sheet"))
    gtk_widget_activate_action (GTK_WIDGET (self), answer->action, "i", answer->line);
  else
    gtk_widget_activate_action (GTK_WIDGET (self), answer->action, NULL);
}

/* --- Rows ----------------------------------------------------------------------------------- */

static GtkWidget *
button_new (CroMonthQuestions *self,
            const Answer      *answer,
            const char        *words)
{
  GtkWidget *button = gtk_button_new_with_label (answer->words);
  /* Translators: what a button is called where it is read out: what it does, and which question it
   * answers. */
  g_autofree char *name = cro_isolate_printf (_("%s: %s"), answer->words, words);

  g_object_set_data_full (G_OBJECT (button), "answer", g_memdup2 (answer, sizeof *answer), g_free);
  g_signal_connect_object (button, "clicked", G_CALLBACK (answer_cb), self, G_CONNECT_SWAPPED);
  cro_spoken_set (button, name);
  gtk_widget_set_valign (button, GTK_ALIGN_START);
  return button;
}

static void
add_row (CroMonthQuestions      *self,
         const CroMonth         *month,
         const CroMonthQuestion *question,
         guint                   number)
{
  CroModel *model = cro_book_get_model (cro_bench_get_book (self->bench));
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9), *label;
  g_autofree char *words = cro_month_question_words (question, TRUE);
  g_autofree char *explains = cro_month_explains_words (model, question);
  g_autofree char *text = explains != NULL ? g_strdup_printf ("%u  %s (%s)", number, words, explains)
                                           : g_strdup_printf ("%u  %s", number, words);
  Answer answer = answer_of (self, month, question);

  label = cro_text_new (text, NULL);
  gtk_label_set_width_chars (GTK_LABEL (label), 18);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 40);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_box_append (GTK_BOX (row), label);
  if (answer.words != NULL)
    gtk_box_append (GTK_BOX (row), button_new (self, &answer, words));
  gtk_widget_set_visible (row, self->is_all || number <= FEW);
  gtk_box_append (GTK_BOX (self->rows), row);
}

static void
show_more (CroMonthQuestions *self,
           guint              n)
{
  g_autofree char *text = g_strdup_printf (ngettext ("Show %u More", "Show %u More", n - MIN (n, FEW)),
                                           n - MIN (n, FEW));

  gtk_button_set_label (GTK_BUTTON (self->more), text);
  gtk_widget_set_visible (self->more, n > FEW && !self->is_all);
}

static void
more_cb (CroMonthQuestions *self)
{
  self->is_all = TRUE;
  for (GtkWidget *row = gtk_widget_get_first_child (self->rows); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    gtk_widget_set_visible (row, TRUE);
  gtk_widget_set_visible (self->more, FALSE);
  cro_focus_first (self->rows);
}

/* Rows are made anew only where something else is asked: a button with the focus stays. */
static char *
dup_shown (const CroMonth *month)
{
  GString *text = g_string_new (month->is_closed ? "closed" : "open");

  for (guint i = 0; i < month->questions->len; i++)
    {
      g_autofree char *one = cro_month_question_words (&g_array_index (month->questions, CroMonthQuestion, i), TRUE);

      g_string_append_printf (text, "\n%s", one);
    }
  return g_string_free (text, FALSE);
}

void
cro_month_questions_set (CroMonthQuestions *self,
                         const CroMonth    *month)
{
  g_autofree char *shown = dup_shown (month);
  guint n = month->questions->len;
  g_autofree char *title = n > 0 ? g_strdup_printf (ngettext ("%u question", "%u questions", n), n)
                                 : g_strdup (_("No questions"));

  if (g_strcmp0 (shown, self->shown) == 0)
    return;
  g_free (self->shown);
  self->shown = g_steal_pointer (&shown);
  gtk_label_set_label (GTK_LABEL (self->title), title);
  cro_box_clear (self->rows);
  for (guint i = 0; i < n; i++)
    add_row (self, month, &g_array_index (month->questions, CroMonthQuestion, i), i + 1);
  show_more (self, n);
}

/* --- The widget ----------------------------------------------------------------------------- */

static void
cro_month_questions_dispose (GObject *object)
{
  CroMonthQuestions *self = CRO_MONTH_QUESTIONS (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_pointer (&self->shown, g_free);
  G_OBJECT_CLASS (cro_month_questions_parent_class)->dispose (object);
}

static void
cro_month_questions_class_init (CroMonthQuestionsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cro_month_questions_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
cro_month_questions_init (CroMonthQuestions *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->title = cro_heading_new ("");
  self->rows = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  self->more = gtk_button_new_with_label ("");
  gtk_widget_set_halign (self->more, GTK_ALIGN_START);
  g_signal_connect_object (self->more, "clicked", G_CALLBACK (more_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (self->box), self->title);
  gtk_box_append (GTK_BOX (self->box), self->rows);
  gtk_box_append (GTK_BOX (self->box), self->more);
  gtk_widget_add_css_class (GTK_WIDGET (self), "part");
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
cro_month_questions_new (CroBench *bench)
{
  CroMonthQuestions *self = g_object_new (CRO_TYPE_MONTH_QUESTIONS, NULL);

  self->bench = bench;
  return GTK_WIDGET (self);
}
