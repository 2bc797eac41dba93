#include "config.h"

#include "cro-bench-actions.h"

#include <glib/gi18n.h>

#include "cro-become-words.h"
#include "cro-card-window.h"
#include "cro-edit.h"
#include "cro-isolate.h"
#include "cro-new-name.h"
#include "cro-number.h"
#include "cro-past-words.h"
#include "cro-replace-window.h"
#include "cro-replacement.h"
#include "cro-spoken.h"
#include "cro-uses.h"
#include "cro-words.h"

/* Users named when a removal is refused; the others are told as a number. */
#define MOST_NAMED 3

/* --- Names ------------------------------------------------------------------------------------ */

static CroNames
names_of (CroModel *model,
          CroRef    ref)
{
  if (ref.kind == CRO_REF_ITEM)
    return CRO_NAMES_ITEMS;
  if (ref.kind == CRO_REF_RECIPE && !cro_model_recipe (model, ref.slot)->is_plate)
    return CRO_NAMES_PREPARATIONS;
  return CRO_NAMES_THINGS;
}

static char *
dup_name (CroInput *input,
          gpointer  bench)
{
  return g_strdup (cro_ref_name (cro_book_get_model (cro_bench_get_book (bench)),
                                 cro_bench_get_ref (bench)));
}

static const char *
name_of_user (CroModel *model,
              CroRef    user)
{
  switch (user.kind)
    {
    case CRO_REF_YIELD_TESTS:
      return _("yield tests");
    case CRO_REF_SALES:
      return _("sales");
    case CRO_REF_COUNTS:
      return _("counts");
    case CRO_REF_PURCHASES:
      return _("purchases");
    case CRO_REF_ADJUSTMENTS:
      return _("adjustments");
    default:
      return cro_ref_name (model, user);
    }
}

/* The item that it is, or that it makes first; CRO_NO_SLOT: none. */
static guint32
item_of (CroModel *model,
         CroRef    ref)
{
  if (ref.kind == CRO_REF_ITEM)
    return ref.slot;
  if (ref.kind != CRO_REF_RECIPE || cro_model_recipe (model, ref.slot)->is_plate
      || cro_model_recipe (model, ref.slot)->n_outputs == 0)
    return CRO_NO_SLOT;
  return g_array_index (model->output_order, guint32,
                        cro_model_recipe (model, ref.slot)->first_output);
}

/* What another one could be put in the place of: the item, or a plate that stands on a menu; nothing: none. */
static CroRef
replaceable_of (CroModel *model,
                CroRef    ref)
{
  guint32 item = item_of (model, ref);
  g_autoptr (GArray) menus = NULL;

  if (item != CRO_NO_SLOT)
    return CRO_REF (CRO_REF_ITEM, item);
  if (ref.kind != CRO_REF_RECIPE || !cro_model_recipe (model, ref.slot)->is_plate)
    return CRO_REF_NOWHERE;
  menus = cro_replacement_list_menus (model, ref.slot);
  return menus->len > 0 ? ref : CRO_REF_NOWHERE;
}

/* Who bears a name that is typed, but what is on the bench itself and what it gives. */
static CroRef
bearer_of (CroBench   *self,
           const char *name)
{
  CroModel *model = cro_book_get_model (cro_bench_get_book (self));
  CroRef ref = cro_bench_get_ref (self);
  CroRef bearer = cro_edit_find_name (model, item_of (model, ref) != CRO_NO_SLOT ? CRO_NAMES_ITEMS
                                                                                 : CRO_NAMES_THINGS,
                                      name);
  gboolean is_own = bearer.kind == CRO_REF_ITEM ? bearer.slot == item_of (model, ref)
                                                : bearer.kind == ref.kind && bearer.slot == ref.slot;

  return is_own ? CRO_REF_NOWHERE : bearer;
}

/* What is made bears the name of what is bought: that is to be made instead, rather than this to go. */
static gboolean
is_to_be_made (CroModel *model,
               CroRef    own,
               CroRef    bearer)
{
  return own.kind == CRO_REF_ITEM && bearer.kind == CRO_REF_ITEM && model->maker[own.slot] >= 0
         && model->maker[bearer.slot] < 0;
}

static gboolean
keep_name (CroInput       *input,
           const CroCell  *cell,
           gpointer        bench,
           GError        **error)
{
  CroBook *book = cro_bench_get_book (bench);
  CroRef ref = cro_bench_get_ref (bench), bearer, own;
  const char *name = cell->text != NULL ? cell->text : "";
  GError *failed = NULL;

  if (cro_edit_rename (book, cro_input_get_act (input), ref, name, &failed))
    return TRUE;
  bearer = bearer_of (bench, name);
  own = replaceable_of (cro_book_get_model (book), ref);
  if (is_to_be_made (cro_book_get_model (book), own, bearer))
    {
      cro_new_name_refuse (book, name, failed, error);
      return FALSE;
    }
  if (g_error_matches (failed, CRO_EDIT_ERROR, CRO_EDIT_ERROR_NAME_TAKEN) && own.kind != CRO_REF_NONE
      && bearer.kind == own.kind)
    {
      /* Translators: over the question whether two things become one; %s is the name of the one that is
       * there. */
      g_autofree char *reason
          = cro_isolate_printf (_("“%s” exists already. Put it in the place of this one, or close this "
                                  "window and choose another name."),
                                cro_ref_name (cro_book_get_model (book), bearer));

      gtk_window_present (GTK_WINDOW (cro_replace_window_new_merge (bench, own, bearer.slot, reason)));
    }
  g_propagate_error (error, failed);
  return FALSE;
}

/* --- What a new name changes ---------------------------------------------------------------------- */

/* "Crab butter, Crab croustade, Fish soup and 4 others" */
static char *
dup_list (CroModel *model,
          GArray   *refs)
{
  GString *names = g_string_new (NULL);

  for (guint i = 0; i < MIN (refs->len, MOST_NAMED); i++)
    cro_isolate_append (names, name_of_user (model, g_array_index (refs, CroRef, i)));
  if (refs->len > MOST_NAMED)
    {
      guint others = refs->len - MOST_NAMED;

      g_string_append (names, ", ");
      g_string_append_printf (names, ngettext ("%u other", "%u others", others), others);
    }
  return g_string_free (names, FALSE);
}

/* What is bought with what is bought, what is made with what is made. */
static gboolean
may_merge (CroModel *model,
           CroRef    own,
           CroRef    bearer)
{
  return own.kind == CRO_REF_ITEM && (model->maker[own.slot] < 0) == (model->maker[bearer.slot] < 0);
}

/* What can be done about a name that another one bears. */
static char *
dup_taken (CroModel *model,
           CroRef    own,
           CroRef    bearer)
{
  const char *name = cro_ref_name (model, bearer);

  if (own.kind == CRO_REF_NONE || own.kind != bearer.kind)
    /* Translators: a name that is typed for another thing. */
    return cro_isolate_printf (_("“%s” exists already. Choose another name."), name);
  return may_merge (model, own, bearer)
             ? cro_isolate_printf (_("“%s” exists already. Press Enter to be asked whether to merge both."), name)
             : cro_isolate_printf (_("“%s” exists already. Press Enter to be asked whether to replace one by the "
                                     "other."),
                                   name);
}

gboolean
cro_bench_asks_of_name (CroInput      *input,
                        const CroCell *cell,
                        gpointer       bench)
{
  CroRef bearer = bearer_of (bench, cell->kind == CRO_CELL_TEXT ? cell->text : "");
  CroModel *model = cro_book_get_model (cro_bench_get_book (bench));
  CroRef own = replaceable_of (model, cro_bench_get_ref (bench));

  return own.kind != CRO_REF_NONE && bearer.kind == own.kind && !is_to_be_made (model, own, bearer);
}

char *
cro_bench_tell_name (CroInput      *input,
                     const CroCell *cell,
                     gpointer       bench)
{
  CroModel *model = cro_book_get_model (cro_bench_get_book (bench));
  const char *name = cell->kind == CRO_CELL_TEXT ? cell->text : "";
  CroRef bearer = bearer_of (bench, name), own = replaceable_of (model, cro_bench_get_ref (bench));

  if (is_to_be_made (model, own, bearer))
    return cro_new_name_tell_refused (cro_bench_get_book (bench), bearer);
  return bearer.kind != CRO_REF_NONE
             ? dup_taken (model, own, bearer)
             : cro_new_name_tell (input, cro_bench_get_ref (bench), name);
}

/* Of a name that is taken it is the list of a merge, which keeping opens. */
void
cro_bench_show_name (CroInput      *input,
                     const CroCell *cell,
                     gpointer       bench)
{
  const char *name = cell->kind == CRO_CELL_TEXT ? cell->text : "";

  if (bearer_of (bench, name).kind != CRO_REF_NONE)
    cro_input_keep (input);
  else
    cro_new_name_show (input, cro_bench_get_ref (bench), name);
}

char *
cro_bench_ask_of_name (CroInput *input,
                       gpointer  bench)
{
  CroModel *model = cro_book_get_model (cro_bench_get_book (bench));
  CroRef ref = cro_bench_get_ref (bench);
  CroDoubt doubt;

  return cro_doubt_of_name (model, ref, &doubt) ? cro_words_doubt (model, &doubt) : NULL;
}

static void
look_name (CroInput *input,
           gpointer  bench)
{
  cro_new_name_look (input, cro_bench_get_ref (bench));
}

const CroInputWay cro_bench_name_way = { dup_name, cro_input_preview_nothing, keep_name, FALSE, look_name };

/* --- Copies ----------------------------------------------------------------------------------- */

static void
duplicate_cb (GtkWidget  *widget,
              const char *action,
              GVariant   *parameter)
{
  CroBench *self = CRO_BENCH (widget);
  CroBook *book = cro_bench_get_book (self);
  CroModel *model = cro_book_get_model (book);
  CroRef ref = cro_bench_get_ref (self), copy = CRO_REF_NOWHERE;
  g_autofree char *name = cro_edit_dup_free_name (model, names_of (model, ref),
                                                  cro_ref_name (model, ref));
  g_autofree char *label = cro_bench_dup_label (self, _("copy"));
  g_autoptr (GError) error = NULL;

  if (cro_edit_duplicate (book, label, ref, name, &copy, &error))
    cro_bench_open (self, copy);
  else
    cro_bench_fail (self, error);
}

static void say_users (CroBench *self,
                       CroRef    ref,
                       gboolean  is_removal);

/* --- Bought or made ----------------------------------------------------------------------------- */

static void
become_batch (CroBench *self)
{
  CroBook *book = cro_bench_get_book (self);
  CroModel *model = cro_book_get_model (book);
  CroRef ref = cro_bench_get_ref (self);
  g_autofree char *label = cro_isolate_printf (_("change of %s to a preparation"),
                                               cro_ref_name (model, ref));
  g_autofree char *note = cro_become_note_of_plate (book, ref.slot);
  g_autofree char *dropped = cro_become_dropped (book, ref.slot);
  g_autofree char *said = NULL;
  g_autoptr (GError) error = NULL;
  guint32 recipe;

  if (cro_edit_plate_become_preparation (book, label, ref.slot, note, &recipe, &error))
    {
      cro_bench_open (self, CRO_REF (CRO_REF_RECIPE, recipe));
      if (dropped != NULL)
        /* Translators: what of a plate was not taken over when it became a preparation, by the names of its
         * fields. */
        said = g_strdup_printf (_("A preparation has none of these, which were dropped: %s"), dropped);
      if (said != NULL)
        cro_bench_say (self, said);
    }
  else if (g_error_matches (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_IN_USE))
    say_users (self, ref, FALSE);
  else
    cro_bench_fail (self, error);
}

static void
become_cb (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  CroBench *self = CRO_BENCH (widget);
  CroBook *book = cro_bench_get_book (self);
  CroModel *model = cro_book_get_model (book);
  CroRef ref = cro_bench_get_ref (self);
  gboolean is_made = ref.kind == CRO_REF_RECIPE;
  guint32 item = item_of (model, ref);
  /* Translators: an entry of the history. */
  g_autofree char *label = cro_isolate_printf (is_made ? _("change of %s to an ingredient")
                                                       : _("change of %s to a preparation"),
                                               cro_ref_name (model, ref));
  g_autofree char *note = is_made ? NULL : cro_become_note_of_item (book, item);
  g_autoptr (GError) error = NULL;

  if (is_made && cro_model_recipe (model, ref.slot)->is_plate)
    {
      become_batch (self);
      return;
    }
  if (is_made ? cro_edit_become_ingredient (book, label, ref.slot, &error)
              : cro_edit_become_preparation (book, label, ref.slot, note, NULL, &error))
    cro_bench_open (self, CRO_REF (CRO_REF_ITEM, item));
  else
    cro_bench_fail (self, error);
}

/* --- Removal ---------------------------------------------------------------------------------- */

static void
replace_cb (GtkWidget  *widget,
            const char *action,
            GVariant   *parameter)
{
  CroBench *self = CRO_BENCH (widget);
  CroModel *model = cro_book_get_model (cro_bench_get_book (self));
  CroRef thing = replaceable_of (model, cro_bench_get_ref (self));

  if (thing.kind != CRO_REF_NONE)
    gtk_window_present (GTK_WINDOW (cro_replace_window_new (self, thing, NULL)));
}

/* What to do about what nothing can stand in for. */
static const char *
advice_on (CroRef ref)
{
  /* Sales alone hold on to a menu, and to a plate that stands on none. */
  return ref.kind == CRO_REF_MENU || ref.kind == CRO_REF_RECIPE
             ? _("Months need it for what was sold; it can be renamed.")
             : _("Remove it there first.");
}

/* What is in use can be replaced there; a plate that is to go, taken off too. */
static void
say_users (CroBench *self,
           CroRef    ref,
           gboolean  is_removal)
{
  CroBook *book = cro_bench_get_book (self);
  CroModel *model = cro_book_get_model (book);
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) users = cro_edit_list_users (book, ref, &error);
  g_autofree char *names = NULL, *text = NULL, *advice = NULL;

  if (users == NULL)
    {
      cro_bench_fail (self, error);
      return;
    }
  names = dup_list (model, users);
  /* Translators: a thing cannot be removed as others hold on to it; they are listed. */
  text = cro_isolate_printf (_("“%s” is used in: %s"), cro_ref_name (model, ref), names);
  advice = g_strdup_printf ("%s. %s", text, advice_on (ref));
  if (replaceable_of (model, ref).kind != CRO_REF_NONE)
    gtk_window_present (GTK_WINDOW ((is_removal ? cro_replace_window_new_removal : cro_replace_window_new) (
        self, replaceable_of (model, ref), text)));
  else
    cro_bench_say (self, advice);
}

/* Covers that were planned of it are not lost in silence. */
static void
say_services (CroBench   *self,
              const char *name,
              guint       n)
{
  g_autofree char *number = cro_number_to_text (n, 0, TRUE);
  g_autofree char *text
      = cro_isolate_printf (/* Translators: a plate or a menu, and how many services it was planned for. */
                            ngettext ("“%s” was removed, with its covers for %s service.",
                                      "“%s” was removed, with its covers for %s services.", n),
                            name, number);

  if (n > 0)
    cro_bench_say (self, text);
}

gboolean
cro_bench_remove_ref (CroBench *self,
                      CroRef    ref)
{
  CroBook *book = cro_bench_get_book (self);
  g_autofree char *label = cro_act_dup_label (_("removal"),
                                              cro_ref_name (cro_book_get_model (book), ref));
  g_autofree char *name = g_strdup (cro_ref_name (cro_book_get_model (book), ref));
  guint n_services = cro_edit_count_services (book, ref);
  g_autoptr (GError) error = NULL;

  if (cro_edit_remove (book, label, ref, &error))
    {
      say_services (self, name, n_services);
      return TRUE;
    }
  if (g_error_matches (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_IN_USE))
    say_users (self, ref, TRUE);
  else
    cro_bench_fail (self, error);
  return FALSE;
}

static void
remove_cb (GtkWidget  *widget,
           const char *action,
           GVariant   *parameter)
{
  cro_bench_remove_ref (CRO_BENCH (widget), cro_bench_get_ref (CRO_BENCH (widget)));
}

/* --- On paper --------------------------------------------------------------------------------- */

static void
print_cb (GtkWidget  *widget,
          const char *action,
          GVariant   *parameter)
{
  CroBench *self = CRO_BENCH (widget);

  if (cro_bench_get_book (self) != NULL && cro_card_window_can_show (cro_bench_get_ref (self)))
    gtk_window_present (GTK_WINDOW (cro_card_window_new (self)));
}

/* --- The menu --------------------------------------------------------------------------------- */

static void
say_cb (GtkWidget  *widget,
        const char *action,
        GVariant   *text)
{
  cro_bench_say (CRO_BENCH (widget), g_variant_get_string (text, NULL));
}

void
cro_bench_install_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "bench.duplicate", NULL, duplicate_cb);
  gtk_widget_class_install_action (widget_class, "bench.remove", NULL, remove_cb);
  gtk_widget_class_install_action (widget_class, "bench.become", NULL, become_cb);
  gtk_widget_class_install_action (widget_class, "bench.replace", NULL, replace_cb);
  gtk_widget_class_install_action (widget_class, "bench.print", NULL, print_cb);
  gtk_widget_class_install_action (widget_class, "bench.say", "s", say_cb);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_p, GDK_CONTROL_MASK, "bench.print", NULL);
}

/* Not of what has no card. */
static void
add_print (GMenu *menu)
{
  g_autoptr (GMenuItem) item = g_menu_item_new (_("Print Card…"), "bench.print");

  g_menu_item_set_attribute (item, "hidden-when", "s", "action-disabled");
  g_menu_append_item (menu, item);
}

GtkWidget *
cro_bench_buttons_new (GtkWidget *first)
{
  return cro_bench_buttons_new_with (first, NULL, FALSE);
}

GtkWidget *
cro_bench_buttons_new_with (GtkWidget  *first,
                            const char *become,
                            gboolean    is_item)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *button = gtk_menu_button_new ();

  add_print (menu);
  g_menu_append (menu, _("Duplicate"), "bench.duplicate");
  if (is_item)
    g_menu_append (menu, _("Replace or Merge…"), "bench.replace");
  if (become != NULL)
    g_menu_append (menu, become, "bench.become");
  g_menu_append (menu, _("Remove"), "bench.remove");
  gtk_menu_button_set_icon_name (GTK_MENU_BUTTON (button), "view-more-symbolic");
  gtk_widget_set_tooltip_text (button, _("Duplicate, change or remove"));
  cro_spoken_set (button, _("Duplicate, change or remove"));
  gtk_menu_button_set_menu_model (GTK_MENU_BUTTON (button), G_MENU_MODEL (menu));
  if (first != NULL)
    gtk_box_append (GTK_BOX (box), first);
  gtk_box_append (GTK_BOX (box), button);
  gtk_widget_set_valign (box, GTK_ALIGN_END);
  return box;
}

void
cro_bench_bind (CroBench   *self,
                GtkWidget  *input,
                const char *column,
                const char *placeholder)
{
  CroBook *book = cro_bench_get_book (self);
  CroModel *model = cro_book_get_model (book);
  const char *table;
  gint64 id = cro_edit_row (model, cro_bench_get_ref (self), &table);
  g_autofree char *label = cro_past_dup_act (table, column,
                                             cro_ref_name (model, cro_bench_get_ref (self)));

  cro_input_bind (CRO_INPUT (input), book, table, id, column, label, placeholder);
}
